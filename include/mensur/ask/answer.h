/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * From a question to its answer, and from the answer to bytes.
 *
 *     struct mensur_question question;
 *     struct mensur_shop shop;
 *     struct mensur_answer answer;
 *     mensur_question_read(words, count, &messages, &question);
 *     mensur_question_shop(folder, &messages, &shop);
 *     mensur_answer_make(&shop, NULL, &question, &messages, &answer);
 *     mensur_answer_write(&answer, 0, &sink);
 */
#ifndef MENSUR_ANSWER_H
#define MENSUR_ANSWER_H

#include "drawing_style.h"
#include "question.h"
#include "result.h"
#include "shop.h"

/** Instruments that are kept in memory, to be asked about again and again; the library's own. */
struct mensur_kept;
/** How a kind of answer is told; the library's own. */
struct mensur_answer_kind;

/** An answer. Its members beside those of its command are all zero. */
struct mensur_answer {
    const struct mensur_question *question; /**< borrowed */
    const struct mensur_shop *shop;         /**< borrowed */
    struct mensur_heading heading;
    bool met; /**< false where no neck, stop or set of strings meets the wishes */
    size_t found_count;
    struct mensur_found *found; /**< owned: those named, then the liked one */
    size_t profile_count;
    struct mensur_profile *profiles;      /**< owned: instruments one after the other; of a sheet, a
                                               template and a dossier of one too */
    struct mensur_working *workings;      /**< owned: one for each profile, in its place */
    struct mensur_comparison *comparison; /**< owned: instruments side by side; NULL: none */
    struct mensur_decision *decision;     /**< owned: on the neck or the stop; NULL: none */
    void *record; /**< owned: of another kind of answer; NULL: none. restring: a struct
                       mensur_restringing; reach: mensur_reaching; map: mensur_map; others the
                       library's own */
    const struct mensur_answer_kind *kind; /**< the library's own; NULL: of the profiles */
    const void *told; /**< of that kind, borrowed: comparison, decision or record; NULL: none */
    struct mensur_working working; /**< where the question wants it; empty of profiles, and else */
};

/**
 * Opens the shop that a question is asked of.
 *
 * @param folder      path of the folder; NULL: the built-in demonstration
 * @param messages    errors and warnings are added to it
 * @param[out] shop   the caller's to clear on success
 * @return  as mensur_shop_open
 */
enum mensur_status mensur_question_shop(const char *folder, struct mensur_texts *messages,
                                        struct mensur_shop *shop);

/**
 * Answers a question.
 *
 * @param shop      open; its instruments are read
 * @param kept      NULL: the instruments are read from the file, all of which is checked; else the
 *                  shop's, as the page keeps them
 * @param question  as read, not about the program itself, nor of every instrument; must outlive the
 *                  answer, as the shop must
 * @param messages  what is wrong is added to it, and the file's warnings; of a check the warnings
 *                  that stand in it, from the opening of the shop, go over into the answer
 * @param[out] answer  the caller's to clear on success
 * @return  MENSUR_OK, also where the wishes cannot be met (answer->met says so); MENSUR_USE,
 *          MENSUR_DATA, MENSUR_READ, MENSUR_NO_ANSWER or MENSUR_MEMORY; MENSUR_NOT_MET where there
 *          is nothing to learn from
 */
enum mensur_status mensur_answer_make(struct mensur_shop *shop, const struct mensur_kept *kept,
                                      const struct mensur_question *question,
                                      struct mensur_texts *messages, struct mensur_answer *answer);

/**
 * How many pages an answer has: one, but for a sheet or a template on paper.
 *
 * @param answer      as made
 * @param[out] pages  1 or more
 * @return  MENSUR_OK, MENSUR_NO_ANSWER (no finger places are known, or no side view) or
 * MENSUR_MEMORY
 */
enum mensur_status mensur_answer_pages(const struct mensur_answer *answer, size_t *pages);

/**
 * Writes a page of an answer as the question wants it: text, CSV, JSON, HTML or SVG.
 *
 * @param answer  as made
 * @param page    0 to pages less 1
 * @param sink    where to
 * @return  MENSUR_OK, MENSUR_WRITE (what the sink answered) or MENSUR_MEMORY
 */
enum mensur_status mensur_answer_write(const struct mensur_answer *answer, size_t page,
                                       const struct mensur_sink *sink);

/**
 * What a document of several pages is called.
 *
 * @param answer  as made
 * @return        static; NULL where it has no title
 */
const char *mensur_answer_title(const struct mensur_answer *answer);

/**
 * Draws parts of an answer, whatever medium the question wants.
 *
 * @param answer  of instruments or of a decision
 * @param parts   some of enum mensur_drawing_parts that go with its kind; 0: those of its command
 * @param style   how; its figures are the question's
 * @param sink    where to
 * @return  MENSUR_OK, MENSUR_USE (there is no drawing of that kind), MENSUR_WRITE or MENSUR_MEMORY
 */
enum mensur_status mensur_answer_draw(const struct mensur_answer *answer, unsigned parts,
                                      const struct mensur_drawing_style *style,
                                      const struct mensur_sink *sink);

/**
 * Frees what an answer owns.
 *
 * @param answer  the answer; left all zero
 */
void mensur_answer_clear(struct mensur_answer *answer);

#endif
