/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Below a decision: what moves step by step, the instruments side by side, the strings instead. */
#include <math.h>
#include <string.h>

#include "text.h"

#define MOST_NOTES 5  /* of more strings only the pull in all is shown */
#define MOST_STEPS 24 /* of more steps only every second, third ... is shown */
#define STEP_COLUMNS (7 + MOST_NOTES)

static size_t note_count(const struct mensur_decision *decision) {
    size_t count = decision->present.string_count;
    return count > MOST_NOTES ? 0 : count;
}

/* The table; columns has room for STEP_COLUMNS. The last one, for a mark, is a text. */
static struct mensur_table step_table(struct mensur_presenter *presenter,
                                      const struct mensur_decision *decision,
                                      struct mensur_table_column *columns) {
    const char *unit = mensur_shown_unit(&presenter->style, MENSUR_LENGTH);
    const char *force = mensur_shown_unit(&presenter->style, MENSUR_FORCE);
    const struct mensur_table_column first[] = {
        {{decision->for_stop ? "stop" : "neck", unit}, 7, false},
        {{"string", unit}, 8, false},
        {{"2 to", ""}, 6, false},
        {{"note", "st"}, 6, false},
        {{"reach", unit}, 8, false},
        {{"room", unit}, 6, false},
    };
    size_t used = sizeof(first) / sizeof(first[0]), notes = note_count(decision);
    memcpy(columns, first, sizeof(first));
    for (size_t i = 0; i < notes; i++) {
        columns[used++] = (struct mensur_table_column){
            {decision->present.strings[i].note, force}, notes < MOST_NOTES ? 7 : 6, false};
    }
    if (notes == 0) {
        columns[used++] = (struct mensur_table_column){{"pull", force}, 8, false};
    }
    columns[used++] = (struct mensur_table_column){{NULL, NULL}, 9, true};
    return (struct mensur_table){&presenter->out, columns, used};
}

static const char *step_mark(const struct mensur_step *step) {
    if (step->recommended) {
        return step->present ? " <- stays" : " <- best";
    }
    return step->present ? " <- now" : "";
}

static void write_step(const struct mensur_table *table, const struct mensur_style *style,
                       const struct mensur_decision *decision, const struct mensur_step *step) {
    size_t notes = note_count(decision), used = 6;
    struct mensur_shown shown[STEP_COLUMNS] = {
        mensur_show_within(style, MENSUR_LENGTH, step->place, 6),
        mensur_show(style, MENSUR_LENGTH, step->string_length),
        mensur_show_number(step->stop_per_2_neck, 2, 5),
        mensur_show_within(style, MENSUR_SEMITONES, step->body_at_semitones, 5),
        mensur_show(style, MENSUR_LENGTH, step->left_reach),
        mensur_show_within(style, MENSUR_LENGTH, step->bow_room, 5),
    };
    for (size_t i = 0; i < notes; i++, used++) {
        shown[used] = mensur_show_within(style, MENSUR_FORCE, step->tension[i],
                                         table->columns[used].width - 1);
    }
    if (notes == 0) {
        shown[used++] = mensur_show(style, MENSUR_FORCE, step->total_tension);
    }
    const char *cells[STEP_COLUMNS];
    for (size_t i = 0; i < used; i++) {
        cells[i] = shown[i].text;
    }
    cells[used] = step_mark(step);
    mensur_table_row(table, cells);
}

void mensur_text_steps(struct mensur_presenter *presenter, const struct mensur_decision *decision) {
    if (decision->step_count == 0) {
        return;
    }
    struct mensur_table_column columns[STEP_COLUMNS];
    struct mensur_table table = step_table(presenter, decision, columns);
    size_t stride = (decision->step_count + MOST_STEPS - 1) / MOST_STEPS;
    mensur_text_title(presenter, "Step by step");
    mensur_table_head(&table);
    for (size_t i = 0; i < decision->step_count; i++) {
        const struct mensur_step *step = &decision->steps[i];
        if (i % stride == 0 || step->present || step->recommended) {
            write_step(&table, &presenter->style, decision, step);
        }
    }
    mensur_paragraph(&presenter->out, 0, 0,
                     "2 to: neck : stop as 2 to this. Note: where the hand meets the body, in "
                     "semitones (st) above the open string. Reach: lower end of the body to the "
                     "nut. Room: between the board's end and the bridge, for the bow. Below the "
                     "notes: the pull of each string.");
}

/* As it is, as recommended, and the instrument it shall be like; some may be missing. */
struct beside {
    size_t count;
    const struct mensur_profile *profiles[3];
    const char *heads[3];
};

static void add_beside(struct beside *beside, const struct mensur_profile *profile,
                       const char *head) {
    beside->profiles[beside->count] = profile;
    beside->heads[beside->count++] = head;
}

static void beside_row(const struct mensur_table *table, const struct beside *beside,
                       const char *label, const char *unit, const struct mensur_shown *shown) {
    const char *cells[5] = {label, unit};
    bool known = false;
    for (size_t i = 0; i < beside->count; i++) {
        cells[2 + i] = shown[i].text;
        known = known || *shown[i].text != '?';
    }
    if (known) {
        mensur_table_row(table, cells);
    }
}

static void beside_lengths(const struct mensur_table *table, const struct mensur_style *style,
                           const struct beside *beside) {
    const struct mensur_figure *figure;
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        struct mensur_shown shown[3];
        for (size_t j = 0; j < beside->count; j++) {
            double value = mensur_figure_value(figure, &beside->profiles[j]->lengths);
            shown[j] = mensur_figure_show(figure, style, value);
        }
        if ((figure->flags & MENSUR_FIGURE_MOVES) != 0) {
            beside_row(table, beside, figure->label, mensur_shown_unit(style, figure->kind), shown);
        }
    }
}

static void beside_forces(const struct mensur_table *table, const struct mensur_style *style,
                          const struct beside *beside) {
    const struct mensur_figure *figure;
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_TOTAL, i)) != NULL; i++) {
        struct mensur_shown shown[3];
        for (size_t j = 0; j < beside->count; j++) {
            shown[j] =
                mensur_figure_show(figure, style, mensur_figure_value(figure, beside->profiles[j]));
        }
        beside_row(table, beside, figure->label, mensur_shown_unit(style, figure->kind), shown);
    }
}

void mensur_text_beside(struct mensur_presenter *presenter,
                        const struct mensur_decision *decision) {
    struct beside beside = {0};
    add_beside(&beside, &decision->present, "as it is");
    if (decision->has_recommended) {
        add_beside(&beside, &decision->recommended, "best");
    }
    if (decision->has_like) {
        add_beside(&beside, &decision->like, "like");
    }
    if (beside.count == 1) {
        return;
    }
    struct mensur_table_column columns[5] = {{{"", NULL}, 21, true}, {{"", NULL}, 10, true}};
    for (size_t i = 0; i < beside.count; i++) {
        columns[2 + i] = (struct mensur_table_column){{beside.heads[i], NULL}, 11, false};
    }
    struct mensur_table table = {&presenter->out, columns, 2 + beside.count};
    mensur_text_title(presenter, "Side by side");
    if (decision->has_like) {
        struct mensur_wrap wrap;
        mensur_text_begin(presenter, &wrap);
        mensur_wrap_say(&wrap, "Like is ", decision->like.instrument, ".", NULL);
        mensur_wrap_close(&wrap);
    }
    mensur_table_head(&table);
    beside_lengths(&table, &presenter->style, &beside);
    beside_forces(&table, &presenter->style, &beside);
}

static void write_instead(const struct mensur_table *table, const struct mensur_style *style,
                          const struct mensur_instead *instead) {
    struct mensur_shown now =
        mensur_show(style, MENSUR_LINEAR_DENSITY, instead->present_linear_density);
    struct mensur_shown needed =
        mensur_show(style, MENSUR_LINEAR_DENSITY, instead->needed_linear_density);
    struct mensur_shown nearest =
        mensur_show(style, MENSUR_LINEAR_DENSITY, instead->nearest_linear_density);
    const char *cells[] = {instead->note,
                           now.text,
                           needed.text,
                           nearest.text,
                           "",
                           instead->nearest_string != NULL ? instead->nearest_string
                                                           : "(none in the catalogue)"};
    mensur_table_row(table, cells);
}

void mensur_text_instead(struct mensur_presenter *presenter,
                         const struct mensur_decision *decision) {
    static const struct mensur_table_column columns[] = {
        {{"", "note"}, 6, true},       {{"now", "g/m"}, 9, false},
        {{"needed", "g/m"}, 9, false}, {{"nearest", "g/m"}, 9, false},
        {{NULL, NULL}, 2, true},       {{"", "nearest string"}, 45, true},
    };
    if (decision->instead_count == 0) {
        return;
    }
    struct mensur_table table = {&presenter->out, columns, 6};
    struct mensur_wrap wrap;
    mensur_text_title(presenter, "The other way: other strings");
    mensur_text_begin(presenter, &wrap);
    mensur_wrap_say(&wrap, "Leave the ", decision->for_stop ? "stop" : "neck",
                    " as it is, and these strings would pull", NULL);
    if (!isnan(decision->wished_length)) {
        mensur_wrap_say(
            &wrap, " as the present ones do on ",
            mensur_show_unit(&presenter->style, MENSUR_LENGTH, decision->wished_length).text, NULL);
    } else {
        mensur_wrap_say(&wrap, " as is wished", NULL);
    }
    mensur_wrap_say(&wrap, ":", NULL);
    mensur_wrap_close(&wrap);
    mensur_table_head(&table);
    for (size_t i = 0; i < decision->instead_count; i++) {
        write_instead(&table, &presenter->style, &decision->instead[i]);
    }
}
