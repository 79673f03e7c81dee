/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tunings.csv: the notes of the open strings, the lowest first. */
#include <string.h>

#include "tables.h"

enum { NAME, NOTES };

static void refuse(struct reading *reading, const char *text, size_t length) {
    char word[MENSUR_SHORT_ROOM], cut[MENSUR_SHORT_ROOM];
    if (length >= sizeof(word)) {
        length = sizeof(word) - 1;
    }
    memcpy(word, text, length);
    word[length] = '\0';
    mensur_cell_error(reading, NOTES,
                      "notes: \"%s\" is no note; write letter, accidental and octave, for "
                      "example C3 G3 D4 A4 or Bb2 F#3",
                      mensur_log_short(word, cut));
}

static bool holds(const struct mensur_tuning *tuning, const struct mensur_note *note) {
    for (size_t i = 0; i < tuning->count; i++) {
        if (strcmp(tuning->notes[i].name, note->name) == 0) {
            return true;
        }
    }
    return false;
}

static void add_note(struct reading *reading, struct mensur_tuning *tuning, const char *text,
                     size_t length) {
    struct mensur_note note;
    if (mensur_note_read(text, length, &note) != MENSUR_OK) {
        refuse(reading, text, length);
    } else if (holds(tuning, &note)) {
        mensur_cell_error(reading, NOTES,
                          "notes: %s stands twice; each string needs a note of its own", note.name);
    } else if (tuning->count == MENSUR_STRINGS_MAX) {
        mensur_cell_error(reading, NOTES, "notes: a tuning has at most %d strings",
                          MENSUR_STRINGS_MAX);
    } else {
        tuning->notes[tuning->count++] = note;
    }
}

static void read_notes(struct reading *reading, int column, void *row) {
    struct mensur_tuning *tuning = row;
    static const char between[] = " ,;\t\r\n";
    const char *text = mensur_cell_text(reading, column);
    if (text == NULL) {
        mensur_cell_error(reading, NOTES,
                          "notes: the cell is empty; write the open strings from the lowest, for "
                          "example C3 G3 D4 A4");
        return;
    }
    for (text += strspn(text, between); *text != '\0' && !reading->row_bad;) {
        size_t length = strcspn(text, between);
        add_note(reading, tuning, text, length);
        text += length;
        text += strspn(text, between);
    }
    if (tuning->count == 0 && !reading->row_bad) {
        refuse(reading, text, 0);
    }
}

static const struct column columns[] = {
    [NAME] = {.name = "name",
              .how = CELL_TEXT,
              .at = offsetof(struct mensur_tuning, name),
              .required = true},
    [NOTES] = {.name = "notes", .required = true, .rule = read_notes},
};

const struct layout mensur_tunings_layout = {
    .columns = columns, .count = sizeof(columns) / sizeof(columns[0]), .named = true};
