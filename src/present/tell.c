/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Columns, names and counts that several answers use. */
#include "tell.h"

#include <stdio.h>
#include <string.h>

#include "letters.h"

const char *mensur_told_unit(const struct mensur_document *document, enum mensur_kind kind) {
    return kind == MENSUR_SEMITONES ? "st" : mensur_shown_unit(&document->style, kind);
}

void mensur_tell_columns(struct mensur_document *document, enum mensur_scope scope,
                         const struct mensur_told *told, size_t count) {
    for (size_t i = 0; i < count; i++) {
        const struct mensur_figure *figure = mensur_figure_named(scope, told[i].key);
        struct mensur_table_column column = {
            .label = told[i].label != NULL ? told[i].label : figure->label,
            .unit = told[i].unit,
            .width = told[i].width,
            .cells = figure->type == MENSUR_FIGURE_NUMBER ? MENSUR_CELLS_FIGURES
                     : figure->type == MENSUR_FIGURE_TEXT ? MENSUR_CELLS_WORDS
                                                          : MENSUR_CELLS_NAMES,
            .figure = figure,
            .finer = told[i].finer};
        if (column.unit == NULL && column.cells == MENSUR_CELLS_FIGURES) {
            column.unit = mensur_told_unit(document, figure->kind);
        }
        mensur_column(document, column);
    }
}

const struct mensur_string_figures *mensur_told_string(const struct mensur_profile *profile,
                                                       const char *note) {
    for (size_t i = 0; i < profile->string_count; i++) {
        if (strcmp(profile->strings[i].note, note) == 0) {
            return &profile->strings[i];
        }
    }
    return NULL;
}

const struct mensur_position *mensur_told_position(const struct mensur_position *positions,
                                                   size_t count, const char *name) {
    for (size_t i = 0; i < count; i++) {
        if (strcmp(positions[i].name, name) == 0) {
            return &positions[i];
        }
    }
    return NULL;
}

void mensur_told_positions_add(struct mensur_told_positions *told,
                               const struct mensur_position *positions, size_t count) {
    for (size_t i = 0; i < count && told->count < MENSUR_TOLD_POSITIONS; i++) {
        size_t before = 0;
        while (before < told->count && strcmp(told->names[before], positions[i].name) != 0) {
            before++;
        }
        told->names[before] = positions[i].name;
        told->count += before == told->count;
    }
}

const void *mensur_told_record(const struct mensur_profile *profile, enum mensur_scope scope,
                               const char *name) {
    if (scope == MENSUR_SCOPE_STRING) {
        return mensur_told_string(profile, name);
    }
    if (scope == MENSUR_SCOPE_INSTRUMENT) {
        return &profile->lengths;
    }
    return scope == MENSUR_SCOPE_POSITION
               ? mensur_told_position(profile->positions, profile->position_count, name)
               : (const void *)profile;
}

struct mensur_shown mensur_told_count(size_t count, const char *one, const char *several) {
    struct mensur_shown shown;
    snprintf(shown.text, sizeof(shown.text), "%zu" MENSUR_NO_BREAK "%.40s", count,
             count == 1 ? one : several);
    return shown;
}

struct mensur_shown mensur_told_field(const char *field) {
    struct mensur_shown shown = {""};
    for (size_t used = 0; *field != '\0' && used + sizeof(MENSUR_NO_BREAK) < sizeof(shown.text);
         field++) {
        char letter[2] = {*field, '\0'};
        const char *as = *field == '_' ? MENSUR_NO_BREAK : letter;
        strcpy(shown.text + used, as);
        used += strlen(as);
    }
    return shown;
}

/* What a string's weight is known by. */
static const char *known_by(const struct mensur_string_figures *string) {
    static const char *const words[][2] = {{"linear_density", "by its grams per metre"},
                                           {"weighed_mass", "weighed"},
                                           {"stated_tension", "by its packet"},
                                           {"core_diameter", "by its construction"},
                                           {"diameter", "by its construction"}};
    for (size_t i = 0; i < sizeof(words) / sizeof(words[0]) && string->density_from != NULL; i++) {
        if (strcmp(words[i][0], string->density_from) == 0) {
            return words[i][1];
        }
    }
    return "";
}

/* "The shop's own: C3 weighed, G3 by its packet." */
void mensur_tell_own(struct mensur_document *document, const struct mensur_string_figures *strings,
                     size_t count, bool always) {
    const char *first = NULL;
    bool differ = false;
    size_t told = 0;
    for (size_t i = 0; i < count; i++) {
        const char *by = known_by(&strings[i]);
        first = first == NULL ? by : first;
        differ = differ || strcmp(by, first) != 0;
    }
    for (size_t i = 0; i < count && (differ || always); i++) {
        if (strings[i].own == MENSUR_YES) {
            if (told++ == 0) {
                mensur_paragraph(document, 4, "The shop's own: ");
            }
            mensur_say(document, told == 1 ? "%s%s%s" : ", %s%s%s", strings[i].note,
                       differ ? " " : "", differ ? known_by(&strings[i]) : "");
        }
    }
    if (told > 0) {
        mensur_say(document, ".");
    }
}

void mensur_tell_bounds(struct mensur_document *document,
                        const struct mensur_string_figures *strings, size_t count) {
    size_t told = 0;
    for (size_t i = 0; i < count; i++) {
        if (strings[i].breaking_margin_at_least == MENSUR_YES) {
            if (told++ == 0) {
                mensur_paragraph(document, 0, "Margin: at least");
            }
            mensur_say(
                document, told == 1 ? " %s on %s" : ", %s on %s",
                mensur_show(&document->style, MENSUR_SEMITONES, strings[i].breaking_margin).text,
                strings[i].note);
        }
    }
    if (told > 0) {
        mensur_say(document, ": thinner wire than the table of strengths has.");
    }
}
