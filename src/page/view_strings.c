/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strings side by side, by the notes that they are tuned to. */
#include <string.h>

#include "tell.h"
#include "view.h"

/* A string outside what it is made for, or near its end. */
static const char *string_mark(const struct mensur_string_figures *string) {
    if (string->breaking_margin < 0.0) {
        return "would break before it is in tune";
    }
    if (string->breaking_margin < 1.0) { /* as the text marks it (common practice, no source) */
        return "near breaking";
    }
    return string->in_made_for_range == MENSUR_NO ? "outside the length it is made for" : NULL;
}

static json_t *string_cell(const struct sheet *sheet, const struct mensur_string_figures *string) {
    const struct mensur_style *style = sheet->style;
    const struct {
        const char *key;
        enum mensur_kind kind;
        double value;
    } figures[] = {{"pitch", MENSUR_FREQUENCY, string->frequency},
                   {"mass", MENSUR_LINEAR_DENSITY, string->linear_density},
                   {"pull", MENSUR_FORCE, string->tension},
                   {"stress", MENSUR_STRESS, string->stress},
                   {"margin", MENSUR_SEMITONES, string->breaking_margin},
                   {"belly", MENSUR_FORCE, string->force_on_belly}};
    json_t *cell = json_object();
    mensur_json_put(sheet->out, cell, "string", mensur_json_text(string->string));
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++) {
        mensur_json_put(
            sheet->out, cell, figures[i].key,
            view_shown(mensur_show_within(style, figures[i].kind, figures[i].value, 6)));
    }
    mensur_json_put(sheet->out, cell, "newtons", mensur_json_number(MENSUR_FORCE, string->tension));
    mensur_json_put(sheet->out, cell, "mark", mensur_json_text(string_mark(string)));
    return cell;
}

/* Every note that any of the instruments has, in the order in which they come. */
static size_t all_notes(const struct sheet *sheet, const char **notes, size_t room) {
    size_t count = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        for (size_t s = 0; s < sheet->profiles[i].string_count; s++) {
            const char *note = sheet->profiles[i].strings[s].note;
            size_t n = 0;
            while (n < count && strcmp(notes[n], note) != 0) {
                n++;
            }
            if (n == count && count < room) {
                notes[count++] = note;
            }
        }
    }
    return count;
}

static json_t *string_row(const struct sheet *sheet, const char *note) {
    json_t *row = json_object(), *cells = json_array();
    mensur_json_put(sheet->out, row, "note", mensur_json_text(note));
    for (size_t i = 0; i < sheet->count; i++) {
        const struct mensur_string_figures *string = mensur_told_string(&sheet->profiles[i], note);
        mensur_json_add(sheet->out, cells,
                        string == NULL ? json_null() : string_cell(sheet, string));
    }
    mensur_json_put(sheet->out, row, "instruments", cells);
    const struct mensur_string_figures *difference =
        sheet->difference == NULL ? NULL : mensur_told_string(sheet->difference, note);
    if (difference != NULL) {
        mensur_json_put(
            sheet->out, row, "difference",
            view_shown(mensur_show_difference(sheet->style, MENSUR_FORCE, difference->tension)));
    }
    return row;
}

json_t *view_strings(const struct sheet *sheet) {
    const char *notes[2 * MENSUR_RESULT_STRINGS];
    size_t count = all_notes(sheet, notes, sizeof notes / sizeof notes[0]);
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++) {
        mensur_json_add(sheet->out, array, string_row(sheet, notes[i]));
    }
    return array;
}
