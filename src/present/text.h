/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers as text, one file each, and what they share. */
#ifndef MENSUR_PRESENT_TEXT_H
#define MENSUR_PRESENT_TEXT_H

#include "presenter.h"
#include "table.h"
#include "wrap.h"

/* A figure among the lengths of an instrument. */
struct mensur_figure {
    const char *label;
    const char *gloss;
    size_t offset; /* in struct mensur_lengths */
    enum mensur_kind kind;
    int decimals;    /* of a bare number */
    bool chin_alone; /* known only for what is held under the chin */
    bool moves;      /* with the neck and the stop: shown beside a decision */
};

/* The figures in the order in which they are told. */
const struct mensur_figure *mensur_text_figures(size_t *count);
double mensur_figure_value(const struct mensur_figure *figure,
                           const struct mensur_lengths *lengths);
/* Its value in the shown unit; and a difference of two, with its sign. */
struct mensur_shown mensur_figure_show(const struct mensur_figure *figure,
                                       const struct mensur_style *style, double value);
struct mensur_shown mensur_figure_difference(const struct mensur_figure *figure,
                                             const struct mensur_style *style, double value);

/* Parts answers with an empty line. */
void mensur_text_part(struct mensur_presenter *presenter);
/* A heading of a part of an answer, after an empty line. */
void mensur_text_title(struct mensur_presenter *presenter, const char *title);
/* Gathers what was assumed for a profile, under a name, and what was warned of. */
void mensur_text_gather(struct mensur_presenter *presenter, const char *name,
                        const struct mensur_profile *profile);
/* A paragraph of one sentence; its full stop is set where it has none. */
void mensur_text_sentence(struct mensur_presenter *presenter, const char *sentence);
/* Starts a paragraph at the margin. */
void mensur_text_begin(struct mensur_presenter *presenter, struct mensur_wrap *wrap);
/* A list of what facts say. */
void mensur_text_points(struct mensur_presenter *presenter, const struct mensur_facts *facts);
/* A paragraph of what a fact says, behind a lead; nothing where there is none. Further lines are
 * indented, and then no full stop is set. */
void mensur_text_say(struct mensur_presenter *presenter, size_t indent, const char *lead,
                     const struct mensur_facts *facts);
/* The same as one of a list. */
void mensur_text_point(struct mensur_presenter *presenter, const char *sentence);
/* Where figures of a profile's strings stand by a note; NULL where it has none of that note. */
const struct mensur_string_figures *mensur_text_string(const struct mensur_profile *profile,
                                                       const char *note);
/* The name of a string, or that there is none. */
const char *mensur_text_name(const char *string);
/* "1 string", "4 strings". */
struct mensur_shown mensur_text_count(size_t count, const char *one, const char *several);

void mensur_text_lengths(struct mensur_presenter *presenter, const struct mensur_profile *profile);
/* What was kept back of the lengths, at the end. */
void mensur_text_lengths_rest(struct mensur_presenter *presenter);
void mensur_text_tension(struct mensur_presenter *presenter, const struct mensur_profile *profile);
/* The playing-feel figures of its strings. */
void mensur_text_feel(struct mensur_presenter *presenter, const struct mensur_profile *profile);
void mensur_text_fingers(struct mensur_presenter *presenter, const struct mensur_profile *profile);
void mensur_text_comparison(struct mensur_presenter *presenter,
                            const struct mensur_comparison *comparison);
void mensur_text_decision(struct mensur_presenter *presenter,
                          const struct mensur_decision *decision);
/* The tables that stand below a decision. */
void mensur_text_steps(struct mensur_presenter *presenter, const struct mensur_decision *decision);
void mensur_text_beside(struct mensur_presenter *presenter, const struct mensur_decision *decision);
void mensur_text_instead(struct mensur_presenter *presenter,
                         const struct mensur_decision *decision);
void mensur_text_restringing(struct mensur_presenter *presenter,
                             const struct mensur_restringing *restringing);
void mensur_text_reaching(struct mensur_presenter *presenter,
                          const struct mensur_reaching *reaching);
/* The true places of a profile's strings. */
void mensur_text_true_places(struct mensur_presenter *presenter,
                             const struct mensur_profile *profile);
/* How sure the figures of an instrument are; nothing where no measurement says so. */
void mensur_text_spread(struct mensur_presenter *presenter, const char *name,
                        const struct mensur_spread *spread);
/* The working of the answer above. */
void mensur_text_working(struct mensur_presenter *presenter);

#endif
