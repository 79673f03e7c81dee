/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names of the notes at a place on a string. */
#include "named_place.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* "F#5": the note so many keys above A4. */
static void name_note(int semitones_from_a4, char room[8]) {
    static const char *const names[] = {"C",  "C#", "D",  "Eb", "E",  "F",
                                        "F#", "G",  "G#", "A",  "Bb", "B"};
    int from_c0 = semitones_from_a4 + 57;
    int octave = (from_c0 >= 0 ? from_c0 : from_c0 - 11) / 12;
    const char *name = names[from_c0 - 12 * octave];
    int told = abs(octave) % 100;
    size_t length = strlen(name);
    memcpy(room, name, length);
    /* Without printf: a long table names a million places. */
    if (octave < 0) {
        room[length++] = '-';
    }
    if (told >= 10) {
        room[length++] = (char)('0' + told / 10);
    }
    room[length++] = (char)('0' + told % 10);
    room[length] = '\0';
}

/* How many strings are higher than the i-th; of one pitch the first is. */
static size_t rank_of(const struct mensur_tuning *tuning, size_t i) {
    size_t higher = 0;
    for (size_t j = 0; j < tuning->count; j++) {
        int apart = tuning->notes[j].semitones_from_a4 - tuning->notes[i].semitones_from_a4;
        higher += apart > 0 || (apart == 0 && j < i) ? 1 : 0;
    }
    return higher;
}

void name_place(const struct mensur_tuning *tuning, size_t rank, double semitones, double within,
                struct mensur_named_place *out) {
    *out = (struct mensur_named_place){.low = ""};
    if (tuning == NULL || rank >= tuning->count || isnan(semitones)) {
        return;
    }
    const struct mensur_note *open = &tuning->notes[0];
    for (size_t i = 0; i < tuning->count; i++) {
        open = rank_of(tuning, i) == rank ? &tuning->notes[i] : open;
    }
    double up = fmin(semitones, 120.0), nearest = round(up);
    bool between = fabs(up - nearest) > within;
    double low = between ? floor(up) : nearest;
    name_note(open->semitones_from_a4 + (int)low, out->low);
    if (between) {
        name_note(open->semitones_from_a4 + (int)low + 1, out->high);
    }
    strcpy(out->open, open->name);
}

size_t heel_rank(const struct mensur_tuning *tuning, bool low_family) {
    size_t count = tuning == NULL ? 0 : tuning->count;
    for (size_t i = 0; i < count && low_family; i++) {
        if (tuning->notes[i].name[0] == 'G') {
            return rank_of(tuning, i);
        }
    }
    return count < 2 ? 0 : count - 2;
}

void heel_moves(const struct mensur_lengths *now, const struct mensur_lengths *then,
                bool low_family, struct mensur_facts *list) {
    const struct mensur_named_place *before = &now->heel_note, *after = &then->heel_note;
    bool named = *before->low != '\0' && *before->high == '\0' && *after->low != '\0' &&
                 *after->high == '\0' && strcmp(before->open, after->open) == 0;
    if (named && strcmp(before->low, after->low) != 0) {
        mensur_facts_add(list, MENSUR_FACT_HEEL_MOVES,
                         MENSUR_NAMES(before->low, after->low, after->open),
                         MENSUR_NUMBERS(low_family ? 1.0 : -1.0));
    }
}
