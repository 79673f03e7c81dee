/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What was assumed and what was warned of, gathered over the answers of one command and told once,
 * below them. However many answers there are, it keeps a bounded memory.
 */
#ifndef MENSUR_PRESENT_GATHERED_H
#define MENSUR_PRESENT_GATHERED_H

#include "shown.h"
#include "sink.h"

/* As many instruments are told apart; of more, each measurement is told with its range. */
#define MENSUR_GATHERED_NAMES 6
/* As many warnings are told; of more, only how many. */
#define MENSUR_GATHERED_WARNINGS 24

/* A value that was assumed for some instruments. */
struct mensur_gathered_value {
    const char *field; /* static */
    char *shown;       /* owned; value and unit */
    bool scaled;       /* usual, scaled to the stop */
    unsigned names;    /* a bit for each instrument */
};

/* A measurement that was assumed for any number of instruments. */
struct mensur_gathered_field {
    const char *field; /* static */
    enum mensur_kind kind;
    double low, high;
    char *text; /* owned; NULL for a number */
    bool several;
    bool scaled; /* for one of them at least */
    size_t count;
};

/* All zero at first. */
struct mensur_gathered {
    enum mensur_status status; /* the first failure: MENSUR_MEMORY */
    size_t instruments;
    size_t name_count;
    char *names[MENSUR_GATHERED_NAMES]; /* owned */
    struct mensur_gathered_value *values;
    size_t value_count;
    struct mensur_gathered_field *fields;
    size_t field_count;
    size_t widened; /* the field that was widened last */
    struct mensur_texts warnings;
    size_t warnings_left_out;
};

/* Gathers what was assumed for an instrument, of it what stands behind figures that are shown (some
 * of enum mensur_behind), in a full answer all. */
void mensur_gather_assumed(struct mensur_gathered *gathered, const struct mensur_style *style,
                           const char *instrument, const struct mensur_assumptions *assumed,
                           unsigned shown);
/* Gathers warnings; the same one twice counts once. */
void mensur_gather_warnings(struct mensur_gathered *gathered, const struct mensur_texts *warnings);
/* Both of an instrument, of warnings the sentences. */
void mensur_gather(struct mensur_gathered *gathered, const struct mensur_style *style,
                   const char *instrument, const struct mensur_assumptions *assumed, unsigned shown,
                   const struct mensur_facts *warnings);
void mensur_gathered_clear(struct mensur_gathered *gathered);

#endif
