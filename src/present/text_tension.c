/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each string: pitch, weight, pull, and how near it is to breaking. */
#include <math.h>
#include <string.h>

#include "text.h"

/* A string with less margin than this is near breaking (common practice, no source). */
#define NEAR_BREAKING_SEMITONES 1.0

static bool near_breaking(const struct mensur_string_figures *string) {
    return string->breaking_margin < NEAR_BREAKING_SEMITONES;
}

static bool outside_range(const struct mensur_string_figures *string) {
    return string->in_made_for_range == MENSUR_NO;
}

static void write_sentence(struct mensur_presenter *presenter,
                           const struct mensur_profile *profile) {
    const struct mensur_style *style = &presenter->style;
    struct mensur_wrap wrap;
    mensur_text_begin(presenter, &wrap);
    mensur_wrap_say(&wrap, profile->instrument, ", ",
                    mensur_show_unit(style, MENSUR_LENGTH, profile->lengths.string_length).text,
                    " of string: ", NULL);
    if (isnan(profile->total_tension)) {
        mensur_wrap_say(&wrap, "what the strings pull in all is not known", NULL);
    } else {
        mensur_wrap_say(&wrap, "the strings pull ",
                        mensur_show_unit(style, MENSUR_FORCE, profile->total_tension).text,
                        " in all", NULL);
    }
    if (!isnan(profile->total_force_on_belly)) {
        mensur_wrap_say(&wrap, " and press the belly with ",
                        mensur_show_unit(style, MENSUR_FORCE, profile->total_force_on_belly).text,
                        NULL);
    }
    mensur_wrap_say(&wrap, ".", NULL);
    if (profile->set != NULL) {
        mensur_wrap_say(&wrap, " Its set is ", profile->set, NULL);
        if (!isnan(profile->made_for_low) || !isnan(profile->made_for_high)) {
            mensur_wrap_say(&wrap, ", made for ",
                            mensur_show_range(style, MENSUR_LENGTH, profile->made_for_low,
                                              profile->made_for_high)
                                .text,
                            NULL);
        }
        mensur_wrap_say(&wrap, ".", NULL);
    }
    mensur_wrap_close(&wrap);
    mensur_out_line(&presenter->out);
}

#define COLUMNS 9

/* The table with the unit of force in its head; columns has room for COLUMNS. */
static struct mensur_table make_table(struct mensur_presenter *presenter,
                                      struct mensur_table_column *columns) {
    const char *unit = mensur_shown_unit(&presenter->style, MENSUR_FORCE);
    const struct mensur_table_column all[COLUMNS] = {
        {{"", "note"}, 5, true},      {{"", "string"}, 29, true},  {{"pitch", "Hz"}, 8, false},
        {{"mass", "g/m"}, 7, false},  {{"pull", unit}, 7, false},  {{"stress", "MPa"}, 7, false},
        {{"margin", "st"}, 7, false}, {{"belly", unit}, 7, false}, {{NULL, NULL}, 3, true},
    };
    memcpy(columns, all, sizeof(all));
    return (struct mensur_table){&presenter->out, columns, COLUMNS};
}

static void write_string(const struct mensur_table *table, const struct mensur_style *style,
                         const struct mensur_string_figures *string) {
    struct mensur_shown pitch = mensur_show(style, MENSUR_FREQUENCY, string->frequency);
    struct mensur_shown mass =
        mensur_show_within(style, MENSUR_LINEAR_DENSITY, string->linear_density, 6);
    struct mensur_shown pull = mensur_show_within(style, MENSUR_FORCE, string->tension, 6);
    struct mensur_shown stress = mensur_show_within(style, MENSUR_STRESS, string->stress, 6);
    struct mensur_shown margin =
        mensur_show_within(style, MENSUR_SEMITONES, string->breaking_margin, 6);
    struct mensur_shown belly = mensur_show_within(style, MENSUR_FORCE, string->force_on_belly, 6);
    bool marked = near_breaking(string) || outside_range(string);
    const char *cells[COLUMNS] = {string->note,      mensur_text_name(string->string),
                                  pitch.text,        mass.text,
                                  pull.text,         stress.text,
                                  margin.text,       belly.text,
                                  marked ? " *" : ""};
    mensur_table_row(table, cells);
}

static void write_totals(const struct mensur_table *table, const struct mensur_style *style,
                         const struct mensur_profile *profile) {
    struct mensur_shown pull = mensur_show_within(style, MENSUR_FORCE, profile->total_tension, 6);
    struct mensur_shown belly =
        mensur_show_within(style, MENSUR_FORCE, profile->total_force_on_belly, 6);
    const char *cells[COLUMNS] = {"all", "", "", "", pull.text, "", "", belly.text, ""};
    mensur_table_row(table, cells);
}

/* "* Near breaking: A4, E5." for the strings of which told is true. */
static void write_marked(struct mensur_presenter *presenter, const struct mensur_profile *profile,
                         bool (*told)(const struct mensur_string_figures *), const char *what) {
    struct mensur_wrap wrap;
    size_t found = 0;
    mensur_wrap_open(&wrap, &presenter->out, 0, 2);
    for (size_t i = 0; i < profile->string_count; i++) {
        if (told(&profile->strings[i])) {
            mensur_wrap_say(&wrap, found++ == 0 ? what : ", ", profile->strings[i].note, NULL);
        }
    }
    if (found > 0) {
        mensur_wrap_say(&wrap, ".", NULL);
        mensur_wrap_close(&wrap);
    }
}

static bool would_break(const struct mensur_string_figures *string) {
    return string->breaking_margin < 0.0;
}

static bool only_near(const struct mensur_string_figures *string) {
    return near_breaking(string) && !would_break(string);
}

void mensur_text_tension(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct mensur_table_column columns[COLUMNS];
    struct mensur_table table = make_table(presenter, columns);
    mensur_text_part(presenter);
    mensur_text_gather(presenter, profile->instrument, profile);
    write_sentence(presenter, profile);
    mensur_table_head(&table);
    for (size_t i = 0; i < profile->string_count; i++) {
        write_string(&table, &presenter->style, &profile->strings[i]);
    }
    write_totals(&table, &presenter->style, profile);
    write_marked(presenter, profile, would_break, "* Would break before it is in tune: ");
    write_marked(presenter, profile, only_near, "* Near breaking, under one semitone from it: ");
    write_marked(presenter, profile, outside_range,
                 "* Outside the length that the string is made for: ");
    if (presenter->answers == 0) {
        mensur_paragraph(
            &presenter->out, 0, 0,
            "Stress is in the core; margin is how many semitones (st) higher the string "
            "could be tuned before it breaks; belly is the force on the belly.");
    }
    mensur_text_spread(presenter, profile->instrument, profile->spread);
    if (presenter->style.feel) {
        mensur_text_feel(presenter, profile);
    }
}
