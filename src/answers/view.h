/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a question tells of each instrument that it is asked about: lengths, tension, fingers, and
 * whatever else is a choice of the figures of a profile. Parts of the profile, cells of CSV, keys
 * of JSON, tables, drawing and sources follow from it. */
#ifndef MENSUR_VIEW_H
#define MENSUR_VIEW_H

#include "figures.h"

/** Which parts of a profile are wanted (added together). */
enum mensur_parts {
    MENSUR_PART_LENGTHS = 1,
    MENSUR_PART_STRINGS = 2,
    MENSUR_PART_FINGERS = 4,
    MENSUR_PART_ALL = 7,
    MENSUR_PART_TRUE_PLACES = 8,    /**< asked for on its own: it takes a hundred times as long */
    MENSUR_PART_FIGURES_ALONE = 16, /**< leave out what was assumed, the warnings and the remarks */
    MENSUR_PART_ROW_OF_MANY = 32, /**< leave out the points of the side view and, where fingers are
                                     not wanted, the names of places: no table tells them */
    MENSUR_PART_RANKED = 64 /**< leave out what no ranking reads: how sure the figures are, and
                               those of a string that no total is made of */
};

/* Where a part of a view is told (added together). */
enum mensur_view_in {
    MENSUR_VIEW_TEXT = 1, /* text and HTML, where the question has no words of its own */
    MENSUR_VIEW_CSV = 2,
    MENSUR_VIEW_JSON = 4,
    MENSUR_VIEW_CSV_TRUE = 8, /* CSV of the true places, in place of the others */
    MENSUR_VIEW_EACH = MENSUR_VIEW_TEXT | MENSUR_VIEW_CSV | MENSUR_VIEW_JSON
};

/* Figures of one record of a profile, or of each in a list of them. */
struct mensur_view_part {
    unsigned in; /* some of enum mensur_view_in; 0: behind the last part */
    enum mensur_scope scope;
    const char
        *list; /* its key in JSON; each item is a row of CSV and of a table; NULL: one record */
    const char *const *keys; /* of its figures, NULL behind the last; NULL: all that are published,
                                in data alone */
};

#define MENSUR_VIEW_PARTS 8

/* What of the assumed stands behind lengths, and behind tensions (some of enum mensur_behind). */
enum {
    MENSUR_VIEW_BEHIND_LENGTHS =
        MENSUR_BEHIND_LENGTH | MENSUR_BEHIND_BREAK | MENSUR_BEHIND_REACH | MENSUR_BEHIND_CLEARANCE,
    MENSUR_VIEW_BEHIND_STRINGS = MENSUR_BEHIND_LENGTH | MENSUR_BEHIND_BREAK | MENSUR_BEHIND_STRINGS
};

struct mensur_view {
    unsigned parts;  /* of the profile: some of enum mensur_parts */
    unsigned behind; /* of what is assumed, what stands behind it: some of enum mensur_behind */
    const char *const *sources; /* of its figures, NULL behind the last */
    /* Adds to a profile's remarks what is to be said of its figures; NULL: nothing. */
    void (*remark)(struct mensur_profile *profile);
    bool remarks;                                    /* JSON has the key of the remarks */
    struct mensur_view_part told[MENSUR_VIEW_PARTS]; /* in their order; one list in CSV */
};

extern const struct mensur_view mensur_view_lengths, mensur_view_tension, mensur_view_fingers;

/* Records one behind the other. */
struct mensur_records {
    const void *items;
    size_t count, size;
};

/* The records of a scope that a profile has: one, or those of a list. */
struct mensur_records mensur_records_of(const struct mensur_profile *profile,
                                        enum mensur_scope scope);

#endif
