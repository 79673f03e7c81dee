/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strings chosen for an instrument, why, and which sets came next. */
#include <math.h>
#include <string.h>

#include "text.h"

#define COLUMNS 7

static void say_present(struct mensur_wrap *wrap, const struct mensur_style *style,
                        const struct mensur_profile *present) {
    if (!isnan(present->total_tension)) {
        mensur_wrap_say(wrap, "; the present ones pull ",
                        mensur_show_unit(style, MENSUR_FORCE, present->total_tension).text, NULL);
    }
    mensur_wrap_say(wrap, ".", NULL);
}

static void write_answer(struct mensur_presenter *presenter,
                         const struct mensur_restringing *restringing) {
    const struct mensur_style *style = &presenter->style;
    const struct mensur_profile *present = &restringing->present;
    struct mensur_wrap wrap;
    mensur_text_begin(presenter, &wrap);
    mensur_wrap_say(&wrap, present->instrument, ", ",
                    mensur_show_unit(style, MENSUR_LENGTH, present->lengths.string_length).text,
                    " of string: ", NULL);
    if (restringing->choice_count == 0) {
        mensur_wrap_say(&wrap, "no set of the catalogue meets every wish.", NULL);
    } else {
        const struct mensur_choice *best = &restringing->choices[0];
        mensur_wrap_say(&wrap, "these strings pull ",
                        mensur_show_unit(style, MENSUR_FORCE, best->total_tension).text, " in all",
                        NULL);
        if (!isnan(best->total_force_on_belly)) {
            mensur_wrap_say(&wrap, " and press the belly with ",
                            mensur_show_unit(style, MENSUR_FORCE, best->total_force_on_belly).text,
                            NULL);
        }
        say_present(&wrap, style, present);
    }
    mensur_wrap_close(&wrap);
    mensur_text_say(presenter, 0, "", &restringing->reason);
}

/* The table; columns has room for COLUMNS. */
static struct mensur_table make_table(struct mensur_presenter *presenter,
                                      struct mensur_table_column *columns) {
    const char *unit = mensur_shown_unit(&presenter->style, MENSUR_FORCE);
    const struct mensur_table_column all[COLUMNS] = {
        {{"", "note"}, 6, true},     {{"", "string"}, 34, true}, {{"mass", "g/m"}, 8, false},
        {{"pull", unit}, 8, false},  {{"now", unit}, 8, false},  {{"margin", "st"}, 8, false},
        {{"belly", unit}, 8, false},
    };
    memcpy(columns, all, sizeof(all));
    return (struct mensur_table){&presenter->out, columns, COLUMNS};
}

static void write_string(const struct mensur_table *table, const struct mensur_style *style,
                         const struct mensur_profile *present,
                         const struct mensur_string_figures *string) {
    const struct mensur_string_figures *old = mensur_text_string(present, string->note);
    struct mensur_shown mass = mensur_show(style, MENSUR_LINEAR_DENSITY, string->linear_density);
    struct mensur_shown pull = mensur_show(style, MENSUR_FORCE, string->tension);
    struct mensur_shown now = {"?"};
    if (old != NULL) {
        now = mensur_show(style, MENSUR_FORCE, old->tension);
    }
    struct mensur_shown margin = mensur_show(style, MENSUR_SEMITONES, string->breaking_margin);
    struct mensur_shown belly = mensur_show(style, MENSUR_FORCE, string->force_on_belly);
    const char *cells[COLUMNS] = {
        string->note, mensur_text_name(string->string), mass.text, pull.text, now.text, margin.text,
        belly.text};
    mensur_table_row(table, cells);
}

static void write_best(struct mensur_presenter *presenter,
                       const struct mensur_restringing *restringing) {
    struct mensur_table_column columns[COLUMNS];
    struct mensur_table table = make_table(presenter, columns);
    const struct mensur_choice *best = &restringing->choices[0];
    const struct mensur_style *style = &presenter->style;
    mensur_out_line(&presenter->out);
    mensur_table_head(&table);
    for (size_t i = 0; i < restringing->string_count; i++) {
        write_string(&table, style, &restringing->present, &best->strings[i]);
    }
    struct mensur_shown pull = mensur_show(style, MENSUR_FORCE, best->total_tension);
    struct mensur_shown now = mensur_show(style, MENSUR_FORCE, restringing->present.total_tension);
    struct mensur_shown belly = mensur_show(style, MENSUR_FORCE, best->total_force_on_belly);
    const char *cells[COLUMNS] = {"all", "", "", pull.text, now.text, "", belly.text};
    mensur_table_row(&table, cells);
    mensur_paragraph(&presenter->out, 0, 0,
                     "Now: what the present string pulls. Margin: semitones (st) that it could be "
                     "tuned higher before it breaks.");
}

static void write_reasons(struct mensur_presenter *presenter,
                          const struct mensur_restringing *restringing) {
    const struct mensur_choice *best = &restringing->choices[0];
    for (size_t i = 0; i < restringing->string_count; i++) {
        char lead[sizeof best->strings[i].note + 2];
        strcpy(lead, best->strings[i].note);
        mensur_text_say(presenter, 4, strcat(lead, ": "), &best->why[i]);
    }
}

static void write_other(struct mensur_presenter *presenter,
                        const struct mensur_restringing *restringing, size_t number) {
    const struct mensur_choice *choice = &restringing->choices[number];
    const struct mensur_style *style = &presenter->style;
    struct mensur_wrap wrap;
    mensur_wrap_open(&wrap, &presenter->out, 0, 4);
    mensur_wrap_say(&wrap, mensur_show_count(number + 1).text, ". cost ",
                    mensur_show(style, MENSUR_NUMBER, choice->cost).text, ", evenness ",
                    mensur_show(style, MENSUR_NUMBER, choice->evenness).text, ", ",
                    mensur_show_unit(style, MENSUR_FORCE, choice->total_tension).text,
                    " in all: ", NULL);
    for (size_t i = 0; i < restringing->string_count; i++) {
        mensur_wrap_say(&wrap, i > 0 ? ", " : "", mensur_text_name(choice->strings[i].string),
                        NULL);
    }
    mensur_wrap_say(&wrap, ".", NULL);
    mensur_wrap_close(&wrap);
}

static void write_others(struct mensur_presenter *presenter,
                         const struct mensur_restringing *restringing) {
    const struct mensur_choice *best = &restringing->choices[0];
    const struct mensur_style *style = &presenter->style;
    struct mensur_wrap wrap;
    mensur_text_title(presenter, "Runners-up");
    mensur_text_begin(presenter, &wrap);
    mensur_wrap_say(&wrap, "The best has cost ", mensur_show(style, MENSUR_NUMBER, best->cost).text,
                    " and evenness ", mensur_show(style, MENSUR_NUMBER, best->evenness).text,
                    "; of both less is better, and evenness 0 is a pull that steps from string to "
                    "string just as is wished.",
                    NULL);
    mensur_wrap_close(&wrap);
    for (size_t i = 1; i < restringing->choice_count; i++) {
        write_other(presenter, restringing, i);
    }
}

static void write_excluded(struct mensur_presenter *presenter,
                           const struct mensur_restringing *restringing) {
    if (restringing->excluded.count == 0) {
        return;
    }
    mensur_text_title(presenter, "What the wishes rule out");
    mensur_text_points(presenter, &restringing->excluded);
}

void mensur_text_restringing(struct mensur_presenter *presenter,
                             const struct mensur_restringing *restringing) {
    mensur_text_part(presenter);
    mensur_text_gather(presenter, restringing->present.instrument, &restringing->present);
    write_answer(presenter, restringing);
    if (restringing->choice_count > 0) {
        write_best(presenter, restringing);
        write_reasons(presenter, restringing);
        if (restringing->choice_count > 1) {
            write_others(presenter, restringing);
        }
    }
    write_excluded(presenter, restringing);
}
