/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What answers a question. */
#ifndef MENSUR_ASKING_H
#define MENSUR_ASKING_H

#include "answer_kind.h"
#include "found.h"
#include "row_batch.h"
#include "template.h"
#include "words.h"

/* A question under way. */
struct asking {
    struct mensur_shop *shop;
    const struct mensur_kept *kept; /* NULL: the instruments are read */
    const struct mensur_question *question;
    struct mensur_texts *messages;
    struct mensur_answer *answer;          /* to be filled; cleared by the caller where it fails */
    const struct mensur_instrument **list; /* owned: those found that are asked about */
    run_batches *run;                      /* answers the rows of a file */
    struct mensur_fault fault;             /* why there is none, said by the caller */
};

/* Answers it. */
typedef enum mensur_status make_answer(struct asking *asking);
#define COMMAND_MAKE(id, name, arguments, meaning, example, takes, read, make, told)               \
    ask_make_##make,
make_answer COMMAND_LIST(COMMAND_MAKE) ask_make_learned;
#undef COMMAND_MAKE

/* Room for an answer of that kind, all zero: it is told and cleared with the answer; NULL out of
 * memory. */
void *ask_record(struct mensur_answer *answer, const struct mensur_answer_kind *kind);
/* Room for instruments side by side, which are told: MENSUR_OK or MENSUR_MEMORY. */
enum mensur_status ask_told_comparison(struct mensur_answer *answer);

/* What bow and finger feel is told too: where it is asked for, and in JSON. */
bool ask_feels(const struct mensur_question *question);

/* Says why there is no answer, with the file and line of the instrument where it is about one
 * (NULL: none): the status as it is, but MENSUR_MEMORY where that cannot be said. */
enum mensur_status ask_say_fault(struct mensur_texts *messages, const struct mensur_shop *shop,
                                 const struct mensur_instrument *instrument,
                                 const struct mensur_fault *fault, enum mensur_status status);

/* Answers a question of one instrument on its own: MENSUR_OK, or as mensur_ask_profile with
 * the reason among the messages. `of_many`: it is told in a table alone, and not drawn. */
enum mensur_status ask_row_make(struct mensur_solver *solver, const struct mensur_shop *shop,
                                const struct mensur_question *question,
                                const struct mensur_instrument *instrument, bool of_many,
                                struct mensur_texts *messages, struct mensur_profile *profile);

/* How it comes about. */
enum mensur_status ask_row_work(const struct mensur_question *question,
                                const struct mensur_stock *stock,
                                const struct mensur_instrument *instrument,
                                struct mensur_fault *fault, struct mensur_working *out);

/* Writes it, with its working where that is asked for. */
enum mensur_status ask_row_write(const struct mensur_rows *rows, struct mensur_presenter *presenter,
                                 const struct mensur_instrument *instrument,
                                 const struct mensur_profile *profile);

/* Moves a report's texts to the messages: MENSUR_OK or MENSUR_MEMORY. */
enum mensur_status ask_say_report(struct mensur_report *report, struct mensur_texts *messages);

/* Finds what the question names, and what it likes: MENSUR_OK; MENSUR_USE for a name that is not
 * there, which is said with the nearest, or with the names there are; others as
 * mensur_shop_instruments, or as mensur_instrument_changed. */
enum mensur_status ask_find_named(struct asking *asking);

/* The template of an answer that is made for one. */
struct mensur_template ask_template_of(const struct mensur_answer *answer);

/* Says which names there are, where one is missing: MENSUR_USE, or what went wrong. */
enum mensur_status ask_say_names(struct asking *asking, const char *wanted);

/* Reads the player that is typed into an empty stock, the caller's to clear. */
enum mensur_status ask_read_player(const struct asking *asking, struct mensur_stock *typed);
/* The player that the question names: MENSUR_OK, or as ask_find_named. */
enum mensur_status ask_find_player(const struct asking *asking,
                                   const struct mensur_player **player);

#endif
