/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths: a few instruments at length, many as a table that leaves row by row. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "text.h"

/* label, figure with unit, gloss */
static const struct mensur_table_column block_columns[] = {
    {{NULL, NULL}, 2, true}, {{NULL, NULL}, 17, true}, {{NULL, NULL}, 9, false},
    {{NULL, NULL}, 1, true}, {{NULL, NULL}, 10, true}, {{NULL, NULL}, 41, true},
};

/* The unit behind a figure in a block; a note's semitones are explained by the gloss. */
static const char *block_unit(const struct mensur_style *style,
                              const struct mensur_figure *figure) {
    return figure->kind == MENSUR_ANGLE ? "degrees" : mensur_shown_unit(style, figure->kind);
}

static void write_known(struct mensur_presenter *presenter, const struct mensur_lengths *lengths) {
    struct mensur_table table = {&presenter->out, block_columns, 6};
    const struct mensur_figure *figure;
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        double value = mensur_figure_value(figure, lengths);
        if (!isnan(value)) {
            struct mensur_shown shown = mensur_figure_show(figure, &presenter->style, value);
            const char *cells[] = {
                "",           figure->label, shown.text, "", block_unit(&presenter->style, figure),
                figure->gloss};
            mensur_table_row(&table, cells);
        }
    }
}

/* Names what is left out above; for_chin tells which of the two reasons. */
static void write_unknown(struct mensur_presenter *presenter,
                          const struct mensur_held_lengths *held, bool for_chin,
                          const char *reason) {
    const struct mensur_figure *figure;
    size_t found = 0;
    struct mensur_wrap wrap;
    mensur_wrap_open(&wrap, &presenter->out, 0, 2);
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        bool chin = (figure->flags & MENSUR_FIGURE_CHIN) != 0 && !held->under_chin;
        if (isnan(mensur_figure_value(figure, &held->lengths)) && chin == for_chin) {
            mensur_wrap_say(&wrap, found++ == 0 ? reason : ", ", figure->label, NULL);
        }
    }
    if (found > 0) {
        mensur_wrap_say(&wrap, ".", NULL);
        mensur_wrap_close(&wrap);
    }
}

static void write_sentence(struct mensur_presenter *presenter,
                           const struct mensur_held_lengths *held) {
    const struct mensur_style *style = &presenter->style;
    const struct mensur_lengths *lengths = &held->lengths;
    bool measured = lengths->string_length_measured == MENSUR_YES;
    struct mensur_wrap wrap;
    mensur_text_begin(presenter, &wrap);
    mensur_wrap_say(&wrap, held->instrument, ": the string is ",
                    mensur_show_unit(style, MENSUR_LENGTH, lengths->string_length).text,
                    measured ? " long, as measured" : " long", NULL);
    if (measured && !isnan(lengths->string_length_geometry)) {
        mensur_wrap_say(
            &wrap, " (the other measurements give ",
            mensur_show_unit(style, MENSUR_LENGTH, lengths->string_length_geometry).text, ")",
            NULL);
    }
    if (!isnan(lengths->stop_per_2_neck)) {
        mensur_wrap_say(&wrap, "; neck" MENSUR_NO_BREAK ":" MENSUR_NO_BREAK "stop is ",
                        mensur_show_ratio(lengths->stop_per_2_neck).text, NULL);
    }
    mensur_wrap_say(&wrap, ".", NULL);
    mensur_wrap_close(&wrap);
}

static void write_block(struct mensur_presenter *presenter,
                        const struct mensur_held_lengths *held) {
    write_sentence(presenter, held);
    mensur_out_line(&presenter->out);
    write_known(presenter, &held->lengths);
    write_unknown(presenter, held, false, "Not known: ");
    write_unknown(presenter, held, true, "Only for what is held under the chin: ");
    mensur_text_spread(presenter, held->instrument, held->spread);
}

static const struct mensur_table *rows_table(struct mensur_presenter *presenter,
                                             struct mensur_table *table) {
    static const struct mensur_table_column millimetres[] = {
        {{"", "instrument"}, 21, true},
        {{"string", "mm"}, 8, false},
        {{"stop", "mm"}, 7, false},
        {{"neck", "mm"}, 7, false},
        {{"neck:stop", "2 to"}, 10, false},
        {{"note at", "the body"}, 9, false},
        {{"left", "reach"}, 8, false},
        {{"break", "angle"}, 7, false},
        {{NULL, NULL}, 3, true},
    };
    static const struct mensur_table_column inches[] = {
        {{"", "instrument"}, 21, true},
        {{"string", "in"}, 8, false},
        {{"stop", "in"}, 7, false},
        {{"neck", "in"}, 7, false},
        {{"neck:stop", "2 to"}, 10, false},
        {{"note at", "the body"}, 9, false},
        {{"left", "reach"}, 8, false},
        {{"break", "angle"}, 7, false},
        {{NULL, NULL}, 3, true},
    };
    *table =
        (struct mensur_table){&presenter->out, presenter->style.inches ? inches : millimetres, 9};
    return table;
}

static void write_row(struct mensur_presenter *presenter, const char *instrument,
                      const struct mensur_lengths *lengths, bool warned) {
    struct mensur_table table;
    const struct mensur_style *style = &presenter->style;
    struct mensur_shown string = mensur_show(style, MENSUR_LENGTH, lengths->string_length);
    struct mensur_shown stop = mensur_show(style, MENSUR_LENGTH, lengths->stop);
    struct mensur_shown neck = mensur_show(style, MENSUR_LENGTH, lengths->neck);
    struct mensur_shown ratio = mensur_show_number(lengths->stop_per_2_neck, 2, 7);
    struct mensur_shown note = mensur_show(style, MENSUR_SEMITONES, lengths->body_at_semitones);
    struct mensur_shown reach = mensur_show(style, MENSUR_LENGTH, lengths->left_reach);
    struct mensur_shown angle = mensur_show(style, MENSUR_ANGLE, lengths->break_angle);
    const char *cells[] = {instrument, string.text, stop.text,  neck.text,         ratio.text,
                           note.text,  reach.text,  angle.text, warned ? " *" : ""};
    mensur_table_row(rows_table(presenter, &table), cells);
}

static bool is_under_chin(const struct mensur_profile *profile) {
    return profile->held == NULL || strcmp(profile->held, "chin") == 0;
}

static void keep_spread(struct mensur_presenter *presenter, struct mensur_held_lengths *held,
                        const struct mensur_spread *spread) {
    if (spread != NULL) {
        held->spread = malloc(sizeof *held->spread);
        if (held->spread == NULL) {
            mensur_out_fail(&presenter->out, MENSUR_MEMORY);
        } else {
            *held->spread = *spread;
        }
    }
}

static void hold(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct mensur_held_lengths *held = &presenter->held[presenter->held_count];
    enum mensur_status status =
        mensur_text_copy(profile->instrument, strlen(profile->instrument), &held->instrument);
    if (status != MENSUR_OK) {
        mensur_out_fail(&presenter->out, status);
        return;
    }
    held->under_chin = is_under_chin(profile);
    held->warned = profile->warnings.count > 0;
    held->lengths = profile->lengths;
    keep_spread(presenter, held, profile->spread);
    presenter->held_count++;
}

/* There are too many to be told at length: the head, and those kept back. */
static void begin_rows(struct mensur_presenter *presenter) {
    struct mensur_table table;
    mensur_table_head(rows_table(presenter, &table));
    for (size_t i = 0; i < presenter->held_count; i++) {
        const struct mensur_held_lengths *held = &presenter->held[i];
        write_row(presenter, held->instrument, &held->lengths, held->warned);
    }
}

/* At length and at once, because the working follows. */
static void write_at_once(struct mensur_presenter *presenter,
                          const struct mensur_profile *profile) {
    struct mensur_held_lengths now = {.instrument = profile->instrument,
                                      .under_chin = is_under_chin(profile),
                                      .lengths = profile->lengths,
                                      .spread = profile->spread};
    mensur_text_part(presenter);
    write_block(presenter, &now);
}

void mensur_text_lengths(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    mensur_text_gather(presenter, profile->instrument, profile);
    if (presenter->working != NULL) {
        write_at_once(presenter, profile);
        return;
    }
    if (presenter->answers < MENSUR_HELD_LENGTHS) {
        hold(presenter, profile);
        return;
    }
    if (presenter->answers == MENSUR_HELD_LENGTHS) {
        begin_rows(presenter);
    }
    write_row(presenter, profile->instrument, &profile->lengths, profile->warnings.count > 0);
}

static void explain_rows(struct mensur_presenter *presenter) {
    mensur_out_line(&presenter->out);
    mensur_paragraph(&presenter->out, 0, 0,
                     "String: nut to bridge. Note at the body: where the hand meets the body, in "
                     "semitones above the open string. Left reach: lower end of the body to the "
                     "nut. Break angle: of the string over the bridge, in degrees. ? is not known; "
                     "* has a warning.");
}

void mensur_text_lengths_rest(struct mensur_presenter *presenter) {
    if (presenter->answers > MENSUR_HELD_LENGTHS && presenter->held_count > 0) {
        explain_rows(presenter);
        return;
    }
    for (size_t i = 0; i < presenter->held_count; i++) {
        if (i > 0) {
            mensur_out_line(&presenter->out);
        }
        write_block(presenter, &presenter->held[i]);
    }
}
