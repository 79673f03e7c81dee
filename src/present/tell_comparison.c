/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Instruments side by side: remarks, then every figure with its difference from the first
 * instrument's. Within 80 columns more than three are shown in blocks, the first one in each.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "telling.h"

#define OTHERS 2 /* beside the first, in one block of 80 columns */

/* The first instrument and some of the others. */
struct block {
    const struct mensur_comparison *comparison;
    size_t start; /* of the others: the instrument's place in the comparison */
    size_t columns;
};

static size_t instrument_at(const struct block *block, size_t column) {
    return column == 0 ? 0 : block->start + column - 1;
}

static const struct mensur_profile *profile_at(const struct block *block, size_t column) {
    return &block->comparison->instruments[instrument_at(block, column)];
}

/* Of a change: the second is the first with what is proposed. */
static const char *state_word(size_t i) {
    return mensur_state_word(i == 0 ? MENSUR_STATE_NOW : MENSUR_STATE_PROPOSED);
}

static void tell_columns(struct mensur_document *document, const struct block *block) {
    mensur_column_of(document, MENSUR_CELLS_WORDS, "", NULL, 25);
    for (size_t i = 0; i < block->columns; i++) {
        bool changed = block->comparison->changed;
        const struct mensur_profile *profile = profile_at(block, i);
        mensur_column(document, (struct mensur_table_column){
                                    .label = changed ? state_word(i) : profile->instrument,
                                    .unit = !changed && profile->proposed_count > 0
                                                ? mensur_state_word(MENSUR_STATE_PROPOSED)
                                                : NULL,
                                    .width = 11,
                                    .number = changed ? 0 : instrument_at(block, i) + 1});
        if (i > 0) {
            mensur_column_of(document, MENSUR_CELLS_FIGURES, "difference", NULL, 11);
        }
    }
}

/* A figure of a profile or a difference; NaN where it has none. */
static double value_of(const struct mensur_profile *profile, enum mensur_scope scope,
                       const struct mensur_figure *figure, const char *name) {
    const void *record = mensur_told_record(profile, scope, name);
    return record != NULL ? mensur_figure_value(figure, record) : NAN;
}

/* Whether a difference shows as other than nothing. */
static bool differs(const struct mensur_document *document, const struct block *block,
                    enum mensur_scope scope, const struct mensur_figure *figure, const char *name) {
    for (size_t i = 1; i < block->columns; i++) {
        const struct mensur_profile *difference =
            &block->comparison->differences[instrument_at(block, i) - 1];
        double value = value_of(difference, scope, figure, name);
        struct mensur_shown shown = mensur_figure_difference(figure, &document->style, value);
        if (isnan(value) || shown.text[strspn(shown.text, "+-0.")] != '\0') {
            return true;
        }
    }
    return false;
}

/* In a brief answer: what moves with neck and stop, and both clearances where they are measured;
 * only where it differs. */
static bool is_left_out(const struct mensur_document *document, const struct block *block,
                        enum mensur_scope scope, const struct mensur_figure *figure,
                        const char *name) {
    bool known = false;
    if (document->style.full) {
        return false;
    }
    for (size_t i = 0; i < block->columns && scope == MENSUR_SCOPE_INSTRUMENT; i++) {
        known = known || mensur_told_in_brief(figure, &profile_at(block, i)->assumed);
    }
    return (scope == MENSUR_SCOPE_INSTRUMENT && !known) ||
           (!differs(document, block, scope, figure, name) &&
            strcmp(figure->key, "string_length_mm") != 0);
}

/* A row, unless not one of its figures is known. */
static void tell_row(struct mensur_document *document, const struct block *block,
                     enum mensur_scope scope, const struct mensur_figure *figure,
                     const char *between, const char *name) {
    const char *unit = mensur_told_unit(document, figure->kind);
    char label[64];
    size_t known = 0;
    for (size_t i = 0; i < block->columns; i++) {
        known += isnan(value_of(profile_at(block, i), scope, figure, name)) ? 0 : 1;
    }
    if (known == 0 || is_left_out(document, block, scope, figure, name)) {
        return;
    }
    snprintf(label, sizeof(label), "%s%s%s%s%s", figure->label, between, name,
             *unit != '\0' ? ", " : "", unit);
    mensur_row(document);
    mensur_cell(document, label);
    for (size_t i = 0; i < block->columns; i++) {
        mensur_cell(document,
                    mensur_figure_show(figure, &document->style,
                                       value_of(profile_at(block, i), scope, figure, name))
                        .text);
        if (i > 0) {
            const struct mensur_profile *difference =
                &block->comparison->differences[instrument_at(block, i) - 1];
            mensur_cell(document,
                        mensur_figure_difference(figure, &document->style,
                                                 value_of(difference, scope, figure, name))
                            .text);
        }
    }
}

/* Of the loads, in full alone and where no assumed spacing of the feet stands for a measured one;
 * newtons: again in newtons, those that are forces. */
static bool is_told(const struct mensur_document *document, const struct block *block,
                    const struct mensur_figure *figure, bool newtons) {
    for (size_t i = 0; i < block->columns; i++) {
        if (mensur_told_as_assumed(figure, &profile_at(block, i)->assumed)) {
            return false;
        }
    }
    return (document->style.full || (figure->flags & MENSUR_FIGURE_FULL) == 0) &&
           (!newtons || figure->kind == MENSUR_FORCE);
}

static void tell_figures(struct mensur_document *document, const struct block *block,
                         enum mensur_scope scope) {
    const struct mensur_figure *figure;
    for (size_t i = 0; (figure = mensur_figure_told(scope, i)) != NULL; i++) {
        tell_row(document, block, scope, figure, "", "");
    }
}

/* A figure of every string or position that one of the instruments has, each once. */
static void tell_named(struct mensur_document *document, const struct block *block,
                       enum mensur_scope scope, const char *key, const char *between) {
    const struct mensur_figure *figure = mensur_figure_named(scope, key);
    bool strings = scope == MENSUR_SCOPE_STRING;
    for (size_t i = 0; i < block->columns; i++) {
        const struct mensur_profile *profile = profile_at(block, i);
        size_t count = strings ? profile->string_count : profile->position_count;
        for (size_t j = 0; j < count; j++) {
            const char *name = strings ? profile->strings[j].note : profile->positions[j].name;
            size_t before = 0;
            while (before < i &&
                   mensur_told_record(profile_at(block, before), scope, name) == NULL) {
                before++;
            }
            if (before == i) {
                tell_row(document, block, scope, figure, between, name);
            }
        }
    }
}

/* In the style's unit; of each string in a full answer alone. */
static void tell_forces(struct mensur_document *document, const struct block *block, bool newtons) {
    const struct mensur_figure *figure;
    if (document->style.full) {
        tell_named(document, block, MENSUR_SCOPE_STRING, "tension_N", " of ");
    }
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_TOTAL, i)) != NULL; i++) {
        if (is_told(document, block, figure, newtons)) {
            tell_row(document, block, MENSUR_SCOPE_TOTAL, figure, "", "");
        }
    }
}

static void tell_block(struct mensur_document *document, const struct block *block) {
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "Every figure, and its difference from %n",
                 block->comparison->instruments[0].instrument);
    tell_columns(document, block);
    tell_figures(document, block, MENSUR_SCOPE_INSTRUMENT);
    tell_forces(document, block, false);
    if (document->style.full && document->style.force_unit != MENSUR_FORCE_N) {
        enum mensur_force_unit unit = document->style.force_unit;
        document->style.force_unit = MENSUR_FORCE_N;
        tell_forces(document, block, true);
        document->style.force_unit = unit;
    }
    if (document->style.full) {
        tell_named(document, block, MENSUR_SCOPE_POSITION, "frame_mm", ", position ");
    } else {
        tell_row(document, block, MENSUR_SCOPE_POSITION,
                 mensur_figure_named(MENSUR_SCOPE_POSITION, "frame_mm"), ", position ", "1");
    }
}

/* How the strings' lengths stand to each other, which is what was asked. */
/* m: it shows as nothing. */
#define UNMOVED 0.00005

static void tell_sentence(struct mensur_document *document,
                          const struct mensur_comparison *comparison) {
    const struct mensur_profile *first = &comparison->instruments[0];
    double moved = comparison->differences[0].lengths.string_length;
    if (comparison->changed && fabs(moved) < UNMOVED) {
        mensur_paragraph(document, 0, "%n: the string stays %l.", first->instrument,
                         first->lengths.string_length);
        return;
    }
    mensur_paragraph(document, 0, "The string: ");
    for (size_t i = 0; i < comparison->count; i++) {
        const struct mensur_profile *profile = &comparison->instruments[i];
        const char *state = comparison->changed           ? state_word(i)
                            : profile->proposed_count > 0 ? mensur_state_word(MENSUR_STATE_PROPOSED)
                                                          : "";
        mensur_say(document, i > 0 ? ", %n %s%s%l" : "%n %s%s%l", profile->instrument, state,
                   *state != '\0' ? " " : "", profile->lengths.string_length);
        if (i > 0) {
            mensur_say(document, " (%s)",
                       mensur_show_difference(&document->style, MENSUR_LENGTH,
                                              comparison->differences[i - 1].lengths.string_length)
                           .text);
        }
    }
    mensur_say(document, ".");
}

/* In a brief answer without those that the table tells as well. */
void mensur_tell_remarks(struct mensur_document *document, const struct mensur_facts *remarks) {
    for (size_t i = 0; i < remarks->count; i++) {
        enum mensur_fact_kind kind = remarks->items[i].kind;
        bool tabled = kind == MENSUR_FACT_BOTH_REACHES || kind == MENSUR_FACT_BODY_NOTES ||
                      kind == MENSUR_FACT_TENSIONS || kind == MENSUR_FACT_BELLY_FORCES;
        if (document->style.full || !tabled) {
            struct mensur_facts one = {.items = &remarks->items[i], .count = 1};
            mensur_points(document, &one);
        }
    }
}

const char *mensur_told_role(const struct mensur_comparison *comparison, size_t i) {
    if (!comparison->changed) {
        return comparison->instruments[i].instrument;
    }
    return state_word(i);
}

void mensur_tell_comparison(struct mensur_document *document,
                            const struct mensur_comparison *comparison) {
    size_t others = document->narrow ? OTHERS : comparison->count - 1;
    struct mensur_facts verdict = comparison->remarks, remarks = comparison->remarks;
    document->style.neck_base = mensur_shown_neck_base(comparison->instruments[0].held);
    if (comparison->verdict_count > 0) {
        verdict.count = comparison->verdict_count;
        remarks.items += comparison->verdict_count;
        remarks.count -= comparison->verdict_count;
        mensur_points(document, &verdict);
    }
    document->style.neck_base = mensur_shown_neck_base(comparison->instruments[0].held);
    tell_sentence(document, comparison);
    mensur_tell_remarks(document, &remarks);
    for (size_t start = 1; start < comparison->count; start += others) {
        size_t left = comparison->count - start;
        struct block block = {comparison, start, 1 + (left < others ? left : others)};
        tell_block(document, &block);
    }
    if (document->style.full) {
        mensur_gap(document);
        mensur_paragraph(
            document, 0,
            "Differences are against the first. Note at the body: where the hand meets "
            "the body, in semitones (st) above the open string. Break angle: of the "
            "string over the bridge. Frame: first finger to fourth in that position.");
    }
    /* Of a change in brief the changed one's: the other's is nearly always the same. */
    for (size_t i = comparison->changed && !document->style.full ? 1 : 0; i < comparison->count;
         i++) {
        mensur_tell_spread(document, mensur_told_role(comparison, i),
                           comparison->instruments[i].spread, MENSUR_SURE_STRINGS);
    }
}

static void tell(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_comparison *comparison = record;
    for (size_t i = 0; i < comparison->count; i++) {
        telling_gather_profile(presenter, mensur_told_role(comparison, i),
                               &comparison->instruments[i], TELLING_BEHIND_BOTH);
    }
    mensur_tell_comparison(&presenter->document, comparison);
}

/* The instruments, and behind them the differences. */
static void compared_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct mensur_comparison *comparison = answer;
    bool difference = i >= comparison->count;
    const struct mensur_profile *profile =
        difference ? &comparison->differences[i - comparison->count] : &comparison->instruments[i];
    mensur_csv_text(row, "row", difference ? "difference" : "instrument");
    mensur_csv_text(row, "instrument", profile->instrument);
    mensur_csv_figures(row, MENSUR_SCOPE_INSTRUMENT, &profile->lengths, difference);
    mensur_csv_figures(row, MENSUR_SCOPE_TOTAL, profile, difference);
    mensur_csv_figures(row, MENSUR_SCOPE_COMPARED, profile, difference);
}

static void csv(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_comparison *comparison = record;
    mensur_csv_rows(presenter, compared_row, comparison, 2 * comparison->count - 1);
}

/* The keys of lengths, flat, and behind them strings and positions. */
static void add_compared(struct mensur_json *to, const struct mensur_profile *profile,
                         bool difference) {
    mensur_json_begin(to, NULL, '{');
    mensur_json_text(to, "instrument", profile->instrument);
    json_put_figures(to, MENSUR_SCOPE_INSTRUMENT, &profile->lengths, difference);
    json_put_strings(to, profile->strings, profile->string_count, difference);
    json_put_figures(to, MENSUR_SCOPE_TOTAL, profile, difference);
    json_put_figures(to, MENSUR_SCOPE_COMPARED, profile, difference);
    json_put_positions(to, profile->positions, profile->position_count, difference);
    if (!difference) {
        json_put_spread(to, profile->spread);
    }
    mensur_json_end(to, '}');
}

void json_compared(struct mensur_json *to, const struct mensur_comparison *comparison) {
    struct mensur_texts warnings = {0};
    mensur_json_begin(to, "instruments", '[');
    for (size_t i = 0; i < comparison->count; i++) {
        add_compared(to, &comparison->instruments[i], false);
    }
    mensur_json_end(to, ']');
    mensur_json_begin(to, "differences", '[');
    for (size_t i = 0; i + 1 < comparison->count; i++) {
        add_compared(to, &comparison->differences[i], true);
    }
    mensur_json_end(to, ']');
    json_put_facts(to, "remarks", &comparison->remarks);
    mensur_json_begin(to, "assumed", '[');
    for (size_t i = 0; i < comparison->count; i++) {
        const struct mensur_profile *profile = &comparison->instruments[i];
        json_add_assumed(to, profile->instrument, &profile->assumed);
        json_add_sentences(to, &profile->warnings, &warnings);
    }
    mensur_json_end(to, ']');
    json_put_warnings(to, &warnings);
}

static void json(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_comparison *comparison = record;
    struct mensur_json answer = json_begin_answer(presenter);
    json_compared(&answer, comparison);
    json_end_answer(presenter, &answer);
}

static void cautions(const void *record, struct mensur_facts *cautions) {
    cautions_of_comparison(record, cautions);
}

static void drawing(const void *record, struct mensur_illustration *drawing) {
    *drawing = (struct mensur_illustration){.parts = MENSUR_DRAW_SIDE, .comparison = record};
}

const struct mensur_answer_kind mensur_comparison_answer = {
    .sources = mensur_sources_compared,
    .cautions = cautions,
    .drawing = drawing,
    .file_parts = MENSUR_DRAW_SIDE | MENSUR_DRAW_PLACES | MENSUR_DRAW_TENSION,
    .tell = tell,
    .csv = csv,
    .json = json,
};
