/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Instruments side by side: in words what surprises, then every figure with its difference from
 * the first instrument's. More than three stand in blocks, the first one in each.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "text.h"

#define OTHERS 2                 /* beside the first, in one block */
#define COLUMNS (2 + 2 * OTHERS) /* label, first, and two for each other */
#define NAME_WIDTH 10            /* a longer name is told above, and its number stands for it */

struct block {
    struct mensur_presenter *presenter;
    const struct mensur_comparison *comparison;
    size_t start;  /* of the others: the instrument's place in the comparison */
    size_t others; /* how many of them */
    struct mensur_table table;
    struct mensur_table_column columns[COLUMNS];
    char heads[OTHERS + 1][64];
};

static size_t instrument_at(const struct block *block, size_t column) {
    return column == 0 ? 0 : block->start + column - 1;
}

static const struct mensur_profile *profile_at(const struct block *block, size_t column) {
    return &block->comparison->instruments[instrument_at(block, column)];
}

static const struct mensur_profile *difference_at(const struct block *block, size_t column) {
    return &block->comparison->differences[instrument_at(block, column) - 1];
}

/* Whether a name stands over its column as it is. */
static bool fits(const char *name) {
    return mensur_shown_width(name) <= NAME_WIDTH && strlen(name) < 64;
}

static void name_column(struct block *block, size_t column) {
    const char *name = profile_at(block, column)->instrument;
    char *head = block->heads[column];
    size_t room = sizeof(block->heads[column]);
    if (block->comparison->changed) {
        snprintf(head, room, "%s", column == 0 ? "as it is" : "changed");
    } else if (fits(name)) {
        snprintf(head, room, "%s", name);
    } else {
        snprintf(head, room, "(%zu)", instrument_at(block, column) + 1);
        mensur_out_text(&block->presenter->out, head);
        mensur_out_blanks(&block->presenter->out, 1);
        struct mensur_wrap wrap;
        mensur_wrap_open(&wrap, &block->presenter->out, strlen(head) + 1, 4);
        mensur_wrap_say(&wrap, name, NULL);
        mensur_wrap_close(&wrap);
    }
}

static void open_block(struct block *block) {
    static const struct mensur_table_column label = {{"", NULL}, 25, true};
    block->columns[0] = label;
    for (size_t i = 0; i <= block->others; i++) {
        name_column(block, i);
        if (i > 0) {
            block->columns[2 * i + 1] =
                (struct mensur_table_column){{"difference", NULL}, 11, false};
        }
        block->columns[i == 0 ? 1 : 2 * i] =
            (struct mensur_table_column){{block->heads[i], NULL}, 11, false};
    }
    block->table =
        (struct mensur_table){&block->presenter->out, block->columns, 2 + 2 * block->others};
    mensur_table_head(&block->table);
}

/* A row of figures, unless not one of them is known. */
static void write_row(const struct block *block, const char *label,
                      const struct mensur_shown *figures) {
    const char *cells[COLUMNS] = {label};
    bool known = false;
    for (size_t i = 0; i + 1 < block->table.count; i++) {
        cells[i + 1] = figures[i].text;
        known = known || (*figures[i].text != '?' && *figures[i].text != '\0');
    }
    if (known) {
        mensur_table_row(&block->table, cells);
    }
}

static void write_figure(const struct block *block, const struct mensur_figure *figure) {
    const struct mensur_style *style = &block->presenter->style;
    const char *unit =
        figure->kind == MENSUR_SEMITONES ? "st" : mensur_shown_unit(style, figure->kind);
    struct mensur_shown figures[COLUMNS] = {0};
    char label[64];
    snprintf(label, sizeof(label), "%s%s%s", figure->label, *unit != '\0' ? ", " : "", unit);
    for (size_t i = 0; i <= block->others; i++) {
        size_t at = i == 0 ? 0 : 2 * i - 1;
        figures[at] = mensur_figure_show(
            figure, style, mensur_figure_value(figure, &profile_at(block, i)->lengths));
        if (i > 0) {
            figures[at + 1] = mensur_figure_difference(
                figure, style, mensur_figure_value(figure, &difference_at(block, i)->lengths));
        }
    }
    write_row(block, label, figures);
}

/* A figure of force or length that a profile and a difference have; NaN where it has none. */
typedef double part_of(const struct mensur_profile *profile, const char *name);

static void write_part(const struct block *block, const char *label, const char *name,
                       enum mensur_kind kind, part_of *part) {
    const struct mensur_style *style = &block->presenter->style;
    struct mensur_shown figures[COLUMNS] = {0};
    for (size_t i = 0; i <= block->others; i++) {
        size_t at = i == 0 ? 0 : 2 * i - 1;
        figures[at] = mensur_show(style, kind, part(profile_at(block, i), name));
        if (i > 0) {
            figures[at + 1] =
                mensur_show_difference(style, kind, part(difference_at(block, i), name));
        }
    }
    write_row(block, label, figures);
}

static double tension_of(const struct mensur_profile *profile, const char *note) {
    const struct mensur_string_figures *string = mensur_text_string(profile, note);
    return string != NULL ? string->tension : NAN;
}

static double total_of(const struct mensur_profile *profile, const char *name) {
    (void)name;
    return profile->total_tension;
}

static double belly_of(const struct mensur_profile *profile, const char *name) {
    (void)name;
    return profile->total_force_on_belly;
}

static double frame_of(const struct mensur_profile *profile, const char *name) {
    for (size_t i = 0; i < profile->position_count; i++) {
        if (strcmp(profile->positions[i].name, name) == 0) {
            return profile->positions[i].frame;
        }
    }
    return NAN;
}

/* Whether a column before this one has told the note or the position already. */
static bool told_note(const struct block *block, size_t column, const char *note) {
    for (size_t i = 0; i < column; i++) {
        if (mensur_text_string(profile_at(block, i), note) != NULL) {
            return true;
        }
    }
    return false;
}

static bool told_position(const struct block *block, size_t column, const char *name) {
    for (size_t i = 0; i < column; i++) {
        if (!isnan(frame_of(profile_at(block, i), name))) {
            return true;
        }
    }
    return false;
}

static void write_strings(const struct block *block) {
    const char *unit = mensur_shown_unit(&block->presenter->style, MENSUR_FORCE);
    char label[64];
    for (size_t i = 0; i <= block->others; i++) {
        const struct mensur_profile *profile = profile_at(block, i);
        for (size_t j = 0; j < profile->string_count; j++) {
            const char *note = profile->strings[j].note;
            if (!told_note(block, i, note)) {
                snprintf(label, sizeof(label), "pull of %s, %s", note, unit);
                write_part(block, label, note, MENSUR_FORCE, tension_of);
            }
        }
    }
    snprintf(label, sizeof(label), "pull in all, %s", unit);
    write_part(block, label, "", MENSUR_FORCE, total_of);
    snprintf(label, sizeof(label), "force on the belly, %s", unit);
    write_part(block, label, "", MENSUR_FORCE, belly_of);
}

static void write_positions(const struct block *block) {
    const char *unit = mensur_shown_unit(&block->presenter->style, MENSUR_LENGTH);
    for (size_t i = 0; i <= block->others; i++) {
        const struct mensur_profile *profile = profile_at(block, i);
        for (size_t j = 0; j < profile->position_count; j++) {
            const char *name = profile->positions[j].name;
            if (!told_position(block, i, name)) {
                char label[64];
                snprintf(label, sizeof(label), "frame, position %s, %s", name, unit);
                write_part(block, label, name, MENSUR_LENGTH, frame_of);
            }
        }
    }
}

static void write_block(struct mensur_presenter *presenter,
                        const struct mensur_comparison *comparison, size_t start) {
    size_t left = comparison->count - start;
    struct block block = {.presenter = presenter,
                          .comparison = comparison,
                          .start = start,
                          .others = left < OTHERS ? left : OTHERS};
    size_t count;
    const struct mensur_figure *figures = mensur_text_figures(&count);
    mensur_out_line(&presenter->out);
    open_block(&block);
    for (size_t i = 0; i < count; i++) {
        write_figure(&block, &figures[i]);
    }
    write_strings(&block);
    write_positions(&block);
}

/* How the strings' lengths stand to each other, which is what was asked. */
static void write_sentence(struct mensur_presenter *presenter,
                           const struct mensur_comparison *comparison) {
    const struct mensur_style *style = &presenter->style;
    struct mensur_wrap wrap;
    mensur_text_begin(presenter, &wrap);
    mensur_wrap_say(&wrap, "The string: ", NULL);
    for (size_t i = 0; i < comparison->count; i++) {
        const struct mensur_profile *profile = &comparison->instruments[i];
        const char *what = i == 0 ? " as it is " : " as changed ";
        mensur_wrap_say(
            &wrap, i > 0 ? ", " : "", profile->instrument, comparison->changed ? what : " ",
            mensur_show_unit(style, MENSUR_LENGTH, profile->lengths.string_length).text, NULL);
        if (i > 0) {
            mensur_wrap_say(
                &wrap, " (",
                mensur_show_difference(style, MENSUR_LENGTH,
                                       comparison->differences[i - 1].lengths.string_length)
                    .text,
                ")", NULL);
        }
    }
    mensur_wrap_say(&wrap, ".", NULL);
    mensur_wrap_close(&wrap);
}

/* One instrument has one name; as changed it needs another. */
static const char *name_of(const struct mensur_comparison *comparison, size_t i) {
    if (!comparison->changed) {
        return comparison->instruments[i].instrument;
    }
    return i == 0 ? "as it is" : "as changed";
}

static void gather(struct mensur_presenter *presenter, const struct mensur_comparison *comparison,
                   size_t i) {
    mensur_text_gather(presenter, name_of(comparison, i), &comparison->instruments[i]);
}

void mensur_text_comparison(struct mensur_presenter *presenter,
                            const struct mensur_comparison *comparison) {
    mensur_text_part(presenter);
    for (size_t i = 0; i < comparison->count; i++) {
        gather(presenter, comparison, i);
    }
    write_sentence(presenter, comparison);
    mensur_text_points(presenter, &comparison->remarks);
    for (size_t start = 1; start < comparison->count; start += OTHERS) {
        write_block(presenter, comparison, start);
    }
    mensur_out_line(&presenter->out);
    mensur_paragraph(&presenter->out, 0, 0,
                     "Differences are against the first. Note at the body: where the hand meets "
                     "the body, in semitones (st) above the open string. Break angle: of the "
                     "string over the bridge. Frame: first finger to fourth in that position.");
    for (size_t i = 0; i < comparison->count; i++) {
        mensur_text_spread(presenter, name_of(comparison, i), comparison->instruments[i].spread);
    }
}
