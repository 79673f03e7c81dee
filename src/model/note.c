/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A written note: its key on a keyboard and its place on the line of fifths
 * ... F C G D A E B ..., along which a sharp is seven steps up and a flat seven down.
 */
#include "note.h"

#include <stdbool.h>
#include <string.h>

#define ACCIDENTALS_MOST 2

/* A to G: semitones above C, steps from A along the line of fifths. */
static const struct {
    int semitones, fifths;
} letters[7] = {{9, 0}, {11, 2}, {0, -3}, {2, -1}, {4, 1}, {5, -4}, {7, -2}};

struct rest {
    const char *at, *end;
};

static bool pass(struct rest *rest, const char *text) {
    size_t length = strlen(text);
    if ((size_t)(rest->end - rest->at) < length || memcmp(rest->at, text, length) != 0) {
        return false;
    }
    rest->at += length;
    return true;
}

/* Up to two sharps or two flats, not both; returns sharps less flats. */
static int read_accidentals(struct rest *rest) {
    int sharps = 0, flats = 0;
    while (sharps < ACCIDENTALS_MOST && (pass(rest, "#") || pass(rest, "\xE2\x99\xAF"))) {
        sharps++;
    }
    while (sharps == 0 && flats < ACCIDENTALS_MOST &&
           (pass(rest, "b") || pass(rest, "\xE2\x99\xAD"))) {
        flats++;
    }
    return sharps - flats;
}

/* -1 to 9, at the end of the text. */
static bool read_octave(struct rest *rest, int *octave) {
    bool negative = pass(rest, "-");
    if (rest->end - rest->at != 1 || *rest->at < '0' || *rest->at > '9') {
        return false;
    }
    *octave = negative ? -(*rest->at - '0') : *rest->at - '0';
    return !negative || *octave == -1;
}

static void write_name(char letter, int accidentals, int octave, char *name) {
    *name++ = letter;
    for (int i = accidentals; i != 0; i += i > 0 ? -1 : 1) {
        *name++ = i > 0 ? '#' : 'b';
    }
    if (octave < 0) {
        *name++ = '-';
    }
    *name++ = (char)('0' + (octave < 0 ? -octave : octave));
    *name = '\0';
}

enum mensur_status mensur_note_read(const char *text, size_t length, struct mensur_note *out) {
    struct rest rest = {text, text + length};
    if (length == 0) {
        return MENSUR_DATA;
    }
    char letter = *rest.at++;
    if (letter >= 'a' && letter <= 'g') {
        letter = (char)(letter - 'a' + 'A');
    }
    int octave;
    if (letter < 'A' || letter > 'G') {
        return MENSUR_DATA;
    }
    int accidentals = read_accidentals(&rest);
    if (!read_octave(&rest, &octave)) {
        return MENSUR_DATA;
    }
    int at = letter - 'A';
    memset(out, 0, sizeof(*out));
    write_name(letter, accidentals, octave, out->name);
    /* A4 is nine semitones above C4 */
    out->semitones_from_a4 = letters[at].semitones + accidentals - 9 + 12 * (octave - 4);
    out->fifths_from_a = letters[at].fifths + 7 * accidentals;
    return MENSUR_OK;
}
