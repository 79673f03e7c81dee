/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tunings.csv: the notes of the open strings, the lowest first. */
#include <string.h>

#include "table.h"
#include "tables.h"

enum { NAME, NOTES, COLUMN_COUNT };

static const char *const columns[COLUMN_COUNT] = {"name", "notes"};

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

static void read_notes(struct reading *reading, struct mensur_tuning *tuning) {
    static const char between[] = " ,;\t\r\n";
    const char *text = mensur_cell_text(reading, NOTES);
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

static enum mensur_status take_row(struct reading *reading) {
    struct mensur_stock *stock = reading->context;
    struct mensur_tuning tuning = {0};
    if (mensur_has_column(reading, NOTES)) {
        read_notes(reading, &tuning);
    }
    if (!mensur_row_good(reading)) {
        return MENSUR_OK;
    }
    struct mensur_tuning *rows = mensur_grow(stock->tunings, stock->tuning_count, sizeof(*rows));
    if (rows == NULL) {
        return MENSUR_MEMORY;
    }
    stock->tunings = rows;
    enum mensur_status status = mensur_cell_copy(reading, NAME, &tuning.name);
    if (status == MENSUR_OK) {
        rows[stock->tuning_count++] = tuning;
    }
    return status;
}

static const struct layout layout = {
    .columns = columns, .count = COLUMN_COUNT, .required = 2, .named = true, .take_row = take_row};

enum mensur_status mensur_read_tunings(struct mensur_source *source, struct mensur_report *report,
                                       struct mensur_stock *stock) {
    return mensur_table_read_into(&layout, source, report, stock);
}
