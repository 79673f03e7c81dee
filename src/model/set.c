/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which strings of a set belong to which notes of a tuning. */
#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "stock_index.h"

/* A string may take the free note in its place so many semitones away, and any other note in its
 * order so many (ours). */
enum { PLACE_MOST = 5, ORDER_MOST = 7 };
/* A note without a string weighs more than any number of semitones. */
enum { LACKING = 1000, IMPOSSIBLE = INT_MAX / 2 };

/* Notes and strings from the lowest. */
struct match {
    size_t note_count, string_count;
    const struct mensur_note *notes[MENSUR_STRINGS_MAX];
    size_t places[MENSUR_STRINGS_MAX]; /* of the notes in the tuning */
    const struct mensur_string_spec *strings[MENSUR_SET_MOST];
    const struct mensur_string_spec *own[MENSUR_STRINGS_MAX]; /* of the note's name; NULL */
    /* The least weight of the first notes with the first strings. */
    int least[MENSUR_STRINGS_MAX + 1][MENSUR_SET_MOST + 1];
};

static void sort_notes(const struct mensur_tuning *tuning, struct match *match) {
    for (size_t i = 0; i < tuning->count; i++) {
        size_t at = match->note_count++;
        for (;
             at > 0 && match->notes[at - 1]->semitones_from_a4 > tuning->notes[i].semitones_from_a4;
             at--) {
            match->notes[at] = match->notes[at - 1];
            match->places[at] = match->places[at - 1];
        }
        match->notes[at] = &tuning->notes[i];
        match->places[at] = i;
    }
}

/* The strings of a set from the lowest; false where they are too many. */
static bool sort_strings(const struct mensur_stock *stock, const char *set, struct match *match) {
    for (size_t i = mensur_stock_place(stock, MENSUR_NAMED_SETS, set); i < stock->string_count;
         i = mensur_stock_next_of_set(stock, i)) {
        const struct mensur_string_spec *string = &stock->strings[i];
        if (match->string_count == MENSUR_SET_MOST) {
            return false;
        }
        size_t at = match->string_count++;
        for (; at > 0 &&
               match->strings[at - 1]->note.semitones_from_a4 > string->note.semitones_from_a4;
             at--) {
            match->strings[at] = match->strings[at - 1];
        }
        match->strings[at] = string;
    }
    return true;
}

static int semitones_apart(const struct match *match, size_t note, size_t string) {
    return abs(match->notes[note]->semitones_from_a4 -
               match->strings[string]->note.semitones_from_a4);
}

static bool is_own(const struct match *match, size_t string) {
    for (size_t i = 0; i < match->note_count; i++) {
        if (match->own[i] == match->strings[string]) {
            return true;
        }
    }
    return false;
}

/* What it weighs that a note takes a string in its place. */
static int weigh(const struct match *match, size_t note, size_t string) {
    if (match->own[note] != NULL || is_own(match, string)) {
        return match->own[note] == match->strings[string] ? 0 : IMPOSSIBLE;
    }
    int apart = semitones_apart(match, note, string);
    return apart <= PLACE_MOST ? apart : IMPOSSIBLE;
}

static int least_of(int one, int other) {
    return one < other ? one : other;
}

static void weigh_all(struct match *match) {
    for (size_t i = 0; i <= match->note_count; i++) {
        for (size_t j = 0; j <= match->string_count; j++) {
            int least = i == 0 ? 0 : IMPOSSIBLE;
            if (i > 0) {
                least = least_of(least, match->least[i - 1][j] + LACKING);
            }
            if (j > 0) {
                least = least_of(least, match->least[i][j - 1]);
            }
            if (i > 0 && j > 0) {
                least = least_of(least, match->least[i - 1][j - 1] + weigh(match, i - 1, j - 1));
            }
            match->least[i][j] = least_of(least, IMPOSSIBLE);
        }
    }
}

/* Gives each note its own string, or the free one in its place; false where one that has none lies
 * too far from what is left. */
static bool take_by_name(struct match *match, const struct mensur_string_spec **taken) {
    size_t i = match->note_count, j = match->string_count, left = 0, lacking = 0;
    weigh_all(match);
    while (i > 0 || j > 0) {
        if (i > 0 && j > 0 &&
            match->least[i][j] == match->least[i - 1][j - 1] + weigh(match, i - 1, j - 1)) {
            taken[--i] = match->strings[--j];
        } else if (j > 0 && match->least[i][j] == match->least[i][j - 1]) {
            j--;
            left++;
        } else {
            taken[--i] = NULL;
            lacking++;
        }
    }
    return lacking == 0 || left == 0;
}

static void take_in_order(const struct match *match, const struct mensur_string_spec **taken) {
    for (size_t i = 0; i < match->note_count; i++) {
        bool there = i < match->string_count && semitones_apart(match, i, i) <= ORDER_MOST;
        taken[i] = there ? match->strings[i] : NULL;
    }
}

void mensur_stock_set_strings(const struct mensur_stock *stock, const char *set,
                              const struct mensur_tuning *tuning,
                              const struct mensur_string_spec *strings[MENSUR_STRINGS_MAX]) {
    const struct mensur_string_spec *taken[MENSUR_STRINGS_MAX] = {NULL};
    struct match match = {.note_count = 0};
    bool all = true;
    for (size_t i = 0; i < tuning->count; i++) {
        strings[i] = mensur_stock_set_string(stock, set, &tuning->notes[i]);
        all = all && strings[i] != NULL;
    }
    if (all || set == NULL || !sort_strings(stock, set, &match)) {
        return;
    }
    sort_notes(tuning, &match);
    for (size_t i = 0; i < match.note_count; i++) {
        match.own[i] = strings[match.places[i]];
    }
    if (!take_by_name(&match, taken)) {
        take_in_order(&match, taken);
    }
    for (size_t i = 0; i < match.note_count; i++) {
        strings[match.places[i]] = taken[i];
    }
}

enum mensur_status mensur_stock_set_tuning(const struct mensur_stock *stock, const char *set,
                                           struct mensur_tuning *out) {
    struct match match = {.note_count = 0};
    if (set == NULL || !sort_strings(stock, set, &match) || match.string_count == 0 ||
        match.string_count > MENSUR_STRINGS_MAX) {
        return MENSUR_USE;
    }
    *out = (struct mensur_tuning){.name = match.strings[0]->set, .count = match.string_count};
    for (size_t i = 0; i < match.string_count; i++) {
        out->notes[i] = match.strings[i]->note;
    }
    return MENSUR_OK;
}
