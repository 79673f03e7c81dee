/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The page's engine: the library as a WebAssembly module. The script hands over the shop's files
 * and questions in JSON; the engine answers in the program's own formats, or with the figures that
 * the page sets down. All of it hangs on one struct page, so that nothing is global.
 */
#ifndef MENSUR_PAGE_ENGINE_H
#define MENSUR_PAGE_ENGINE_H

#include <jansson.h>

#include "changed.h"
#include "drawing.h"
#include "present.h"

/* As many instruments, wishes and changes of one instrument a question may name. */
enum { PAGE_NAMES_MAX = 16, PAGE_WISHES_MAX = 48, PAGE_CHANGES_MAX = 48 };

/* The open shop, and the reply. */
struct page;

/* The tables of the open shop. */
const struct mensur_stock *page_stock(const struct page *page);
/* What the shop is called. */
const char *page_label(const struct page *page);

/* A question as asked. Instruments are the shop's own, or owned where they were changed. */
struct question {
    json_t *root;
    const char *command;
    const char *format;
    struct mensur_terms terms;
    struct mensur_style style;
    bool working; /* the working goes with the answer */
    struct mensur_heading heading;
    size_t count;
    const struct mensur_instrument *before[PAGE_NAMES_MAX]; /* as in the file */
    const struct mensur_instrument *after[PAGE_NAMES_MAX];  /* with their changes */
    struct mensur_instrument changed[PAGE_NAMES_MAX];       /* memory of the changed ones */
    struct mensur_change *changes[PAGE_NAMES_MAX];          /* owned; NULL without */
    size_t change_count[PAGE_NAMES_MAX];
};

/* The reply as a sink, and texts put into it. */
struct mensur_sink page_sink(struct page *page);
void page_reply_clear(struct page *page);
enum mensur_status page_reply_text(struct page *page, const char *text);

/* The instrument of that name; NULL where there is none. */
const struct mensur_instrument *page_find(const struct page *page, const char *name);

/* Reads a question; what is wrong with it goes to the fault. Clear it in every case. */
enum mensur_status question_read(const struct page *page, const char *text, size_t size,
                                 struct question *question, struct mensur_fault *fault);
void question_clear(struct question *question);
/* A text of the question, or NULL. */
const char *question_text(const struct question *question, const char *key);
/* What bow and finger feel is told too: where it is asked for, and in JSON. */
bool question_feels(const struct question *question);
/* Wishes under a key: objects {"about": "string-length", "range": "368..376"}. */
enum mensur_status question_wishes(const struct question *question, const char *key,
                                   struct mensur_wish *wishes, size_t *count,
                                   struct mensur_fault *fault);
/* The decision that the question asks for: the stop where its command starts so, else the neck. */
enum mensur_status ask_decision(struct page *page, const struct question *question,
                                struct mensur_fault *fault, struct mensur_decision *out);

/* Strings for the first instrument, with so many sets behind the best. */
enum mensur_status ask_restring(struct page *page, const struct question *question,
                                size_t runners_up, struct mensur_fault *fault,
                                struct mensur_restringing *out);

/* The reach of the player that the question names. */
enum mensur_status ask_reach(struct page *page, const struct question *question,
                             struct mensur_fault *fault, struct mensur_reaching *out);

/* Answers to a question that has been read, each into the reply. */
typedef enum mensur_status page_answer(struct page *page, struct question *question,
                                       struct mensur_fault *fault);
page_answer answer_question; /* any of those below, by its command (engine_commands.c) */
page_answer answer_profiles, answer_compare, answer_change, answer_decision, answer_restring,
    answer_reach, answer_dossier;
page_answer answer_view, answer_fields, answer_decision_view, answer_restring_view,
    answer_reach_view, answer_working, answer_decision_working;
page_answer answer_save;  /* instruments.csv with the changes made */
page_answer answer_table; /* a table of the demonstration, as it is */

/* Asks what the page compares: one instrument as it is against itself as changed, or two. */
enum mensur_status ask_side_by_side(struct page *page, const struct question *question,
                                    struct mensur_fault *fault, struct mensur_comparison *out);

/* Puts the drawings that the question lists behind the answer (engine_drawing.c). */
typedef enum mensur_status page_draw(const void *answer, unsigned parts,
                                     const struct mensur_drawing_style *style,
                                     const struct mensur_sink *sink);
page_draw page_draw_profile;    /* of a struct mensur_profile */
page_draw page_draw_comparison; /* of a struct mensur_comparison */
page_draw page_draw_decision;   /* of a struct mensur_decision */
enum mensur_status page_draw_each(struct page *page, const struct question *question,
                                  page_draw *draw, const void *answer);

#endif
