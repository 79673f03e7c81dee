/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each answer as part of a document: text, dossier and page are all written from it. */
#ifndef MENSUR_PRESENT_TELL_H
#define MENSUR_PRESENT_TELL_H

#include "document.h"
#include "figures.h"
#include "gathered.h"
#include "ranking.h"
#include "view.h"

/* A column of a table that is a figure of a record. */
struct mensur_told {
    const char *key; /* in the table of figures */
    size_t width;
    const char *label; /* NULL: the figure's own */
    const char *unit;  /* NULL: that of its kind, in which a semitone is "st" */
    bool finer;        /* to one decimal more than its kind */
};

/* Columns for figures of a scope. */
void mensur_tell_columns(struct mensur_document *document, enum mensur_scope scope,
                         const struct mensur_told *told, size_t count);

/* The record of a scope that belongs to a profile: a string by its note, a position by its name;
 * NULL where it has none. */
const void *mensur_told_record(const struct mensur_profile *profile, enum mensur_scope scope,
                               const char *name);
/* One of some positions by its name; NULL where none has it. */
const struct mensur_position *mensur_told_position(const struct mensur_position *positions,
                                                   size_t count, const char *name);
/* The most names of positions that one table has; families beyond them share none of these. */
#define MENSUR_TOLD_POSITIONS 64
/* Names of positions, borrowed, each once, in the order in which they came. */
struct mensur_told_positions {
    size_t count;
    const char *names[MENSUR_TOLD_POSITIONS];
};
void mensur_told_positions_add(struct mensur_told_positions *told,
                               const struct mensur_position *positions, size_t count);
/* A figure of a profile's string by its note; NULL where it has none of that note. */
const struct mensur_string_figures *mensur_told_string(const struct mensur_profile *profile,
                                                       const char *note);
/* "1 string", "4 strings". */
struct mensur_shown mensur_told_count(size_t count, const char *one, const char *several);
/* "board_length" as "board length", which no line break parts. */
struct mensur_shown mensur_told_field(const char *field);
/* The unit of a kind in the head of a table. */
const char *mensur_told_unit(const struct mensur_document *document, enum mensur_kind kind);

/* Which strings are the shop's own, and what the weight of each is known by where that differs;
 * unless always, only where it does. */
void mensur_tell_own(struct mensur_document *document, const struct mensur_string_figures *strings,
                     size_t count, bool always);

/* Which margins to breaking are lower bounds; nothing where none is. */
void mensur_tell_bounds(struct mensur_document *document,
                        const struct mensur_string_figures *strings, size_t count);

/* What of an instrument its lengths are told from. */
struct mensur_told_lengths {
    const char *instrument;
    const struct mensur_lengths *lengths;
    const struct mensur_assumptions *assumed;
    const struct mensur_spread *spread; /* NULL where nothing says how sure it is */
    bool under_chin;                    /* or how it is held is not known */
    double neck_base;
    bool warned;
};

struct mensur_told_lengths mensur_told_lengths_of(const struct mensur_profile *profile);
/* Whether the measurement that a figure rests on is assumed. */
bool mensur_told_as_assumed(const struct mensur_figure *figure,
                            const struct mensur_assumptions *assumed);

/* Whether a brief answer tells a figure: it is not one of the full answer alone, and does not rest
 * on an assumed value alone. */
bool mensur_told_in_brief(const struct mensur_figure *figure,
                          const struct mensur_assumptions *assumed);
/* One instrument's at length; of two side by side. */
void mensur_tell_lengths(struct mensur_document *document, const struct mensur_told_lengths *told);
void mensur_tell_lengths_of_two(struct mensur_document *document,
                                const struct mensur_told_lengths *one,
                                const struct mensur_told_lengths *two);
/* A row of a table of many, with the first the table; and what explains it. */
void mensur_tell_length_row(struct mensur_document *document,
                            const struct mensur_told_lengths *told, bool first);
void mensur_tell_length_rows_end(struct mensur_document *document, bool warned);

void mensur_tell_tension(struct mensur_document *document, const struct mensur_profile *profile);
void mensur_tell_tension_of_two(struct mensur_document *document, const struct mensur_profile *one,
                                const struct mensur_profile *two);
void mensur_tell_fingers(struct mensur_document *document, const struct mensur_profile *profile);
void mensur_tell_fingers_of_two(struct mensur_document *document, const struct mensur_profile *one,
                                const struct mensur_profile *two);
/* What a view tells of an instrument, where its question has no words of its own. */
void mensur_tell_view(struct mensur_document *document, const struct mensur_view *view,
                      const struct mensur_profile *profile);
void mensur_tell_comparison(struct mensur_document *document,
                            const struct mensur_comparison *comparison);
/* What an instrument of a comparison is called where they are told apart. */
const char *mensur_told_role(const struct mensur_comparison *comparison, size_t i);
/* Of remarks on two instruments, in a brief answer, those that no table tells. */
void mensur_tell_remarks(struct mensur_document *document, const struct mensur_facts *remarks);
/* A file of a shop that was checked; its names are borrowed. */
struct mensur_told_file {
    const char *file;
    const char *row_name;         /* what its rows are, as many as there are */
    long rows;                    /* of data */
    struct mensur_texts warnings; /* owned */
};
struct mensur_told_files {
    size_t count;
    struct mensur_told_file *files; /* owned */
};
/* The words of a decision, without its tables. */
void mensur_tell_decision_words(struct mensur_document *document,
                                const struct mensur_decision *decision);
void mensur_tell_decision(struct mensur_document *document, const struct mensur_decision *decision);
/* The same to hand over: the verdict, the wishes, and what there is side by side; nothing that
 * leads on to other questions. */
void mensur_tell_decision_made(struct mensur_document *document,
                               const struct mensur_decision *decision);
/* Of which figures it is told how sure they are (added together), beside the string length. */
enum { MENSUR_SURE_LENGTHS = 1, MENSUR_SURE_STRINGS = 2, MENSUR_SURE_FINGERS = 4 };
/* How sure the figures of an instrument are, in a full answer all; nothing where no measurement
 * says so. */
void mensur_tell_spread(struct mensur_document *document, const char *name,
                        const struct mensur_spread *spread, unsigned of);
void mensur_tell_working(struct mensur_document *document, const struct mensur_working *working);

/* What was gathered over the answers; what stands below them all. */
void mensur_tell_gathered(struct mensur_document *document, const struct mensur_gathered *gathered);
void mensur_tell_warnings(struct mensur_document *document, const struct mensur_gathered *gathered);
void mensur_tell_foot(struct mensur_document *document, const struct mensur_heading *heading,
                      const struct mensur_facts *cautions);

#endif
