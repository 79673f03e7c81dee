/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Answers as text, CSV, JSON or HTML. Nothing is computed here: figures are turned into the unit
 * asked for and set down.
 *
 * Open, present any number of answers of one command, close. Every function returns MENSUR_OK,
 * MENSUR_WRITE (what the sink answered) or MENSUR_MEMORY; answers are borrowed.
 */
#ifndef MENSUR_PRESENT_H
#define MENSUR_PRESENT_H

#include "quantity.h"
#include "result.h"
#include "style.h"

/* A drawing among the words of an answer: of profiles, or of a comparison, or of a decision. All
 * is borrowed. */
struct mensur_illustration {
    unsigned parts; /* some of enum mensur_drawing_parts */
    const struct mensur_profile *profiles;
    size_t count;                               /* of profiles */
    const struct mensur_comparison *comparison; /* NULL: not of one */
    const struct mensur_decision *decision;     /* NULL: not of one */
    bool all_states; /* of a decision: the liked one too where one is recommended */
    const struct mensur_restringing *restringing; /* NULL: not of one */
    const struct mensur_map *map;                 /* NULL: not of one */
};

/* A kind of answer (answer_kind.h). */
struct mensur_answer_kind;

/* As many instruments' lengths are kept back, to be told at length; of more, a table is made. */
#define MENSUR_HELD_LENGTHS 3 /* in a full answer; else one */

/* An open presentation. */
struct mensur_presenter;

/* Opens a presentation and writes what stands above the answers. The heading is borrowed until it
 * is closed; style and sink are copied. */
enum mensur_status mensur_present_open(const struct mensur_heading *heading,
                                       const struct mensur_style *style,
                                       const struct mensur_sink *sink,
                                       struct mensur_presenter **presenter);

/* What the heading's view tells of an instrument. */
enum mensur_status mensur_present_profile(struct mensur_presenter *presenter,
                                          const struct mensur_profile *profile);
/* The parts of a drawing that go with a view: some of enum mensur_drawing_parts. */
unsigned mensur_view_drawing(const struct mensur_view *view);
/* An answer of another kind, with its record. MENSUR_USE: it is not in this format. */
enum mensur_status mensur_present(struct mensur_presenter *presenter,
                                  const struct mensur_answer_kind *kind, const void *record);
/* Cautions that apply to answers that were written within a presentation of their own. */
void mensur_present_cautions(struct mensur_presenter *presenter,
                             const struct mensur_facts *cautions);
/* What is presented next is told of two instruments: lengths, tensions and finger places a brief
 * text tells in one; both are borrowed until the second is presented. */
void mensur_present_of_two(struct mensur_presenter *presenter);
/* Attaches the working to the answer that is presented next: below its tables in text and HTML, as
 * the key "working" in JSON, nowhere in CSV. NULL: none. */
void mensur_present_set_working(struct mensur_presenter *presenter,
                                const struct mensur_working *working);

/* Attaches the cells of the owner's columns (texts behind each other, each with its end mark, in
 * the order of the heading's `owners`) to the instrument that is presented next: behind its lengths
 * in CSV. NULL: none. */
void mensur_present_set_owners(struct mensur_presenter *presenter, const char *cells);

/* Opens a presentation of some answers of a longer one, in CSV or JSON, whose answers do not depend
 * on each other: `before` answers of the longer one stand before these. What it writes is to be
 * handed to the longer one with mensur_present_written. It is closed as not complete, because
 * nothing stands below these answers. */
enum mensur_status mensur_present_open_within(const struct mensur_heading *heading,
                                              const struct mensur_style *style, size_t before,
                                              const struct mensur_sink *sink,
                                              struct mensur_presenter **presenter);
/* Takes answers that were written within a presentation of their own, and how many they are. */
enum mensur_status mensur_present_written(struct mensur_presenter *presenter, const char *bytes,
                                          size_t length, size_t answers);

/* Writes what stands below the answers (assumed values, warnings, cautions, sources) and frees the
 * presenter, which may be NULL. Not complete: an answer failed half way, nothing more is written.
 */
enum mensur_status mensur_present_close(struct mensur_presenter *presenter, bool complete);

#endif
