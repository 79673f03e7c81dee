/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A written note, in scientific pitch notation (middle C is C4). */
#ifndef MENSUR_NOTE_H
#define MENSUR_NOTE_H

#include <stddef.h>

#include "status.h"

/** Bytes of the longest written note (letter, accidentals, octave) and its terminating NUL. */
#define MENSUR_NOTE_ROOM 8

/** A note by its name; the pitch follows from the tuning of the fifths. */
struct mensur_note {
    char name[MENSUR_NOTE_ROOM]; /**< as written, capital letter: "F#3" */
    int semitones_from_a4;       /**< keys of a keyboard above A4; C4 is -9 */
    int fifths_from_a; /**< steps along the line of fifths from A; E is 1, D is -1, F# is 3 */
};

/* Reads a note: a letter A to G, then up to two of # or b (or the signs ♯ ♭), then an octave -1
 * to 9. All bytes of the text must be used; it needs no terminating NUL. MENSUR_OK; MENSUR_DATA
 * where it is no note. */
enum mensur_status mensur_note_read(const char *text, size_t length, struct mensur_note *out);

#endif
