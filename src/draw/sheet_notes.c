/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of stopped notes, spelt as they most often are in string music (common practice, no
 * source): three sharps, two flats. */
#include <string.h>

#include "sheet_parts.h"

static const char *const names[] = {"C",  "C#", "D",  "Eb", "E",  "F",
                                    "F#", "G",  "G#", "A",  "Bb", "B"};

/* Semitones above C of a written note; -1 where it is not a note. */
static int key_of(const char *note) {
    static const char letters[] = "C.D.EF.G.A.B";
    const char *at = *note == '\0' || *note == '.' ? NULL : strchr(letters, *note);
    if (at == NULL) {
        return -1;
    }
    int key = (int)(at - letters) + 12;
    for (note++; *note == '#' || *note == 'b'; note++) {
        key += *note == '#' ? 1 : -1;
    }
    return key;
}

const char *mensur_note_above(const char *note, int semitones) {
    int key = key_of(note);
    return key < 0 || semitones < 0 ? "" : names[(key + semitones) % 12];
}
