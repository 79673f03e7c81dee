/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An instrument: initialise, copy, clear. */
#include "instrument.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "texts.h"
#include "utf8.h"

const char *mensur_held_word(enum mensur_held held) {
    static const char *const words[] = {
        [MENSUR_CHIN] = "chin", [MENSUR_KNEE] = "knee", [MENSUR_STANDING] = "standing"};
    return words[held];
}

#if defined(__GNUC__) && !defined(__clang__)
/* gcc's analyser takes memory for lost that is kept by a copy. */
#pragma GCC diagnostic ignored "-Wanalyzer-malloc-leak"
#endif

void mensur_instrument_init(struct mensur_instrument *instrument) {
#define UNKNOWN(id, name, kind, domain, power, way, meaning) {.value = NAN, .plus_minus = 0.0},
    static const struct mensur_instrument empty = {.measure = {MENSUR_FIELD_LIST(UNKNOWN)}};
#undef UNKNOWN
    *instrument = empty;
}

static bool copy_text(const char *from, char **to) {
    *to = NULL;
    return from == NULL || mensur_text_copy(from, strlen(from), to) == MENSUR_OK;
}

static bool copy_owners(const struct mensur_owners *from, struct mensur_owners *to) {
    *to = (struct mensur_owners){malloc(from->size), from->size};
    if (to->cells != NULL) {
        memcpy(to->cells, from->cells, from->size);
    }
    return to->cells != NULL;
}

enum mensur_status mensur_instrument_copy(const struct mensur_instrument *from,
                                          struct mensur_instrument *to) {
    struct mensur_instrument copy = *from;
    bool good = copy_text(from->name, &copy.name);
    good = copy_text(from->family, &copy.family) && good;
    good = copy_text(from->tuning, &copy.tuning) && good;
    good = copy_text(from->set, &copy.set) && good;
    good = copy_text(from->note, &copy.note) && good;
    good = (from->owners.size == 0 || copy_owners(&from->owners, &copy.owners)) && good;
    if (!good) {
        mensur_instrument_clear(&copy);
        return MENSUR_MEMORY;
    }
    *to = copy;
    return MENSUR_OK;
}

static bool holds(const struct mensur_tuning *tuning, const struct mensur_note *note) {
    for (size_t i = 0; i < tuning->count; i++) {
        if (strcmp(tuning->notes[i].name, note->name) == 0) {
            return true;
        }
    }
    return false;
}

static bool is_no_note(const char *text, size_t length, struct mensur_fault *fault) {
    char word[92]; /* a longer one is cut */
    length = length < sizeof word ? length : mensur_utf8_whole(text, sizeof word - 1);
    word[mensur_utf8_calm(text, length, word)] = '\0';
    mensur_fault_set(fault,
                     "\"%s\" is no note; write letter, accidental and octave, for example "
                     "C3 G3 D4 A4 or Bb2 F#3",
                     word);
    return false;
}

static bool add_note(const char *text, size_t length, struct mensur_fault *fault,
                     struct mensur_tuning *tuning) {
    struct mensur_note note;
    if (mensur_note_read(text, length, &note) != MENSUR_OK) {
        return is_no_note(text, length, fault);
    }
    if (holds(tuning, &note)) {
        mensur_fault_set(fault, "%s stands twice; each string needs a note of its own", note.name);
        return false;
    }
    if (tuning->count == MENSUR_STRINGS_MAX) {
        mensur_fault_set(fault, "a tuning has at most %d strings", MENSUR_STRINGS_MAX);
        return false;
    }
    tuning->notes[tuning->count++] = note;
    return true;
}

/* What stands between two notes. */
static const char between[] = " ,;\t\r\n";

bool mensur_tuning_is_written(const char *text) {
    struct mensur_note note;
    return mensur_note_read(text, strcspn(text, between), &note) == MENSUR_OK;
}

enum mensur_status mensur_tuning_read(const char *text, struct mensur_fault *fault,
                                      struct mensur_tuning *out) {
    struct mensur_tuning tuning = {.name = out->name};
    bool good = true;
    for (text += strspn(text, between); *text != '\0' && good; text += strspn(text, between)) {
        size_t length = strcspn(text, between);
        good = add_note(text, length, fault, &tuning);
        text += length;
    }
    if (good && tuning.count == 0) {
        good = is_no_note(text, 0, fault);
    }
    if (good) {
        *out = tuning;
    }
    return good ? MENSUR_OK : MENSUR_DATA;
}

/* Tells whether a word is a given one in small letters, whatever its capitals. */
static bool is_word(const char *word, const char *small) {
    for (; *word != '\0' && *small != '\0'; word++, small++) {
        if (*word != *small && (*word < 'A' || *word > 'Z' || *word - 'A' + 'a' != *small)) {
            return false;
        }
    }
    return *word == *small;
}

bool mensur_built_read(const char *word, bool *built) {
    if (!is_word(word, "yes") && !is_word(word, "no")) {
        return false;
    }
    *built = is_word(word, "yes");
    return true;
}

void mensur_instrument_clear(struct mensur_instrument *instrument) {
    free(instrument->name);
    free(instrument->family);
    free(instrument->tuning);
    free(instrument->set);
    free(instrument->note);
    free(instrument->owners.cells);
    mensur_instrument_init(instrument);
}
