/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A model in another size: the answer in a line, the decision on its neck, each measurement with
 * its rule, what is held, and what moves with it. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "letters.h"
#include "scale.h"
#include "telling.h"

static const char *longer(double difference) {
    return difference < 0.0 ? "shorter" : "longer";
}

static void tell_verdict(struct mensur_document *document, const struct mensur_scaled *scaled) {
    const struct mensur_lengths *now = &scaled->comparison->instruments[0].lengths;
    const struct mensur_lengths *then = &scaled->comparison->instruments[1].lengths;
    double more = then->string_length - now->string_length;
    struct mensur_shown shown = mensur_show_difference(&document->style, MENSUR_LENGTH, more);
    mensur_paragraph(document, 0, "%n at a body of %l: stop %l, neck %l, string %l; ",
                     scaled->model, scaled->body, then->stop, then->neck, then->string_length);
    if (shown.text[strspn(shown.text, "+-0.")] == '\0') {
        mensur_say(document, "the string is as long as it was.");
    } else {
        mensur_say(document, "the string is %s %s.",
                   mensur_show_unit(&document->style, MENSUR_LENGTH, fabs(more)).text,
                   longer(more));
    }
}

/* As the power of what it follows. */
static struct mensur_shown power_of(const struct mensur_document *document, const char *what,
                                    double power) {
    struct mensur_shown shown;
    bool plain = !(power < 1.0) && !(power > 1.0);
    snprintf(shown.text, sizeof(shown.text), "as the %s%s%.8s", what, plain ? "" : "^",
             plain ? "" : mensur_show(&document->style, MENSUR_NUMBER, power).text);
    return shown;
}

static struct mensur_shown rule_of(const struct mensur_document *document,
                                   const struct mensur_scaled_measure *measure) {
    struct mensur_shown shown = {""};
    const char *words = "";
    switch (measure->rule) {
    case MENSUR_SCALE_AS_BODY:
        return power_of(document, "body", measure->power);
    case MENSUR_SCALE_AS_STOP:
        return power_of(document, "stop", measure->power);
    case MENSUR_SCALE_HELD:
        words = "held";
        break;
    case MENSUR_SCALE_KEPT:
        words = "kept as asked";
        break;
    case MENSUR_SCALE_AS_VIOLA_STOP:
        words = "a viola's stop";
        break;
    case MENSUR_SCALE_WITH_PROJECTION:
        words = "with the projection";
        break;
    case MENSUR_SCALE_BY_GEOMETRY:
        words = "by stop and neck";
        break;
    case MENSUR_SCALE_FOR_AIR:
        words = "keeps the air note";
        break;
    }
    snprintf(shown.text, sizeof(shown.text), "%s", words);
    return shown;
}

static bool is_held(const struct mensur_scaled_measure *measure) {
    return measure->rule == MENSUR_SCALE_HELD || measure->rule == MENSUR_SCALE_KEPT;
}

/* Those that a brief answer tells in its table, however many there are. */
static bool is_main(const struct mensur_scaled_measure *measure) {
    static const char *const main[] = {"body",          "stop",       "neck",
                                       "string_length", "projection", "bridge"};
    for (size_t i = 0; i < sizeof(main) / sizeof(main[0]); i++) {
        if (strcmp(measure->field, main[i]) == 0) {
            return true;
        }
    }
    return false;
}

/* Whether the table has all that are scaled: in a brief answer where they are so few. */
static bool has_all(const struct mensur_document *document, const struct mensur_scaled *scaled) {
    size_t count = 0, most = scaled->decision == NULL ? 9 : 6;
    for (size_t i = 0; i < scaled->measure_count; i++) {
        count += is_held(&scaled->measures[i]) ? 0 : 1;
    }
    return document->style.full || count <= most;
}

static void tell_measures(struct mensur_document *document, const struct mensur_scaled *scaled) {
    bool all = has_all(document, scaled);
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "Each measurement of %n, scaled by its rule",
                 scaled->model);
    mensur_column_of(document, MENSUR_CELLS_WORDS, "", NULL, 16);
    mensur_column(document,
                  (struct mensur_table_column){.label = scaled->model, .width = 11, .number = 1});
    mensur_column(document,
                  (struct mensur_table_column){.label = scaled->name, .width = 13, .number = 2});
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "difference", NULL, 12);
    mensur_column_behind(document, MENSUR_CELLS_WORDS, "rule", 2, 24);
    for (size_t i = 0; i < scaled->measure_count; i++) {
        const struct mensur_scaled_measure *measure = &scaled->measures[i];
        if (is_held(measure) || (!all && !is_main(measure))) {
            continue;
        }
        mensur_row(document);
        mensur_cell(document, mensur_told_field(measure->field).text);
        mensur_cell(document, mensur_show_cut(&document->style, measure->from).text);
        mensur_cell(document, mensur_show_cut(&document->style, measure->to).text);
        mensur_cell(document, mensur_show_difference(&document->style, MENSUR_LENGTH,
                                                     measure->to - measure->from)
                                  .text);
        mensur_cell(document, rule_of(document, measure).text);
    }
}

/* What the table leaves out, rule by rule; a held one goes on behind it. */
static void tell_rest(struct mensur_document *document, const struct mensur_scaled *scaled) {
    size_t said = 0;
    for (size_t i = 0; i < scaled->measure_count && !has_all(document, scaled); i++) {
        const struct mensur_shown rule = rule_of(document, &scaled->measures[i]);
        bool first = true;
        if (is_held(&scaled->measures[i]) || is_main(&scaled->measures[i])) {
            continue;
        }
        for (size_t j = 0; j < scaled->measure_count; j++) {
            const struct mensur_scaled_measure *measure = &scaled->measures[j];
            if (is_held(measure) || is_main(measure) ||
                strcmp(rule_of(document, measure).text, rule.text) != 0) {
                continue;
            }
            if (j < i) {
                break; /* the rule was told */
            }
            if (said++ == 0) {
                mensur_paragraph(document, 2, "Then %s: ", rule.text);
            } else {
                mensur_say(document, first ? "; %s: " : ", ", rule.text);
            }
            first = false;
            mensur_say(document, "%s %s", mensur_told_field(measure->field).text,
                       mensur_show_cut(&document->style, measure->to).text);
        }
    }
    if (said > 0) {
        mensur_say(document, ".");
    }
}

static void tell_held(struct mensur_document *document, const struct mensur_scaled *scaled,
                      enum mensur_scale_rule rule, const char *lead, bool goes_on) {
    size_t told = 0;
    for (size_t i = 0; i < scaled->measure_count; i++) {
        const struct mensur_scaled_measure *measure = &scaled->measures[i];
        if (measure->rule != rule) {
            continue;
        }
        if (told++ == 0 && goes_on) {
            mensur_say(document, " %s: ", lead);
        } else if (told == 1) {
            mensur_paragraph(document, 2, "%s: ", lead);
        } else {
            mensur_say(document, ", ");
        }
        mensur_say(document, "%s %l", mensur_told_field(measure->field).text, measure->to);
    }
    if (told > 0) {
        mensur_say(document, ".");
    }
}

/* The figures that move and stand in no table, in brief. */
static void tell_moves(struct mensur_document *document, const struct mensur_scaled *scaled) {
    static const struct {
        enum mensur_scope scope;
        const char *key;
    } figures[] = {{MENSUR_SCOPE_INSTRUMENT, "left_reach_mm"},
                   {MENSUR_SCOPE_INSTRUMENT, "bow_reach_mm"},
                   {MENSUR_SCOPE_INSTRUMENT, "body_at_semitones"},
                   {MENSUR_SCOPE_INSTRUMENT, "break_angle_deg"},
                   {MENSUR_SCOPE_TOTAL, "total_tension_N"},
                   {MENSUR_SCOPE_TOTAL, "total_force_on_belly_N"}};
    const struct mensur_profile *difference = &scaled->comparison->differences[0];
    size_t count = 0;
    for (size_t i = 0; i < sizeof(figures) / sizeof(figures[0]); i++) {
        const struct mensur_figure *figure = mensur_figure_named(figures[i].scope, figures[i].key);
        const void *record = mensur_told_record(difference, figures[i].scope, "");
        double value = mensur_figure_value(figure, record);
        struct mensur_shown shown = mensur_figure_difference(figure, &document->style, value);
        if (isnan(value) || shown.text[strspn(shown.text, "+-0.")] == '\0') {
            continue;
        }
        if (count++ == 0) {
            mensur_paragraph(document, 2, "What moves: ");
        } else {
            mensur_say(document, ", ");
        }
        mensur_say(document, "%s %s" MENSUR_NO_BREAK "%s", figure->label, shown.text,
                   mensur_shown_unit(&document->style, figure->kind));
    }
    if (count > 0) {
        mensur_say(document, ".");
    }
}

static void tell_air_kept(struct mensur_document *document, const struct mensur_scaled *scaled) {
    if (!isnan(scaled->rib_more)) {
        const struct mensur_style *style = &document->style;
        mensur_paragraph(
            document, 2,
            "For the air note to stay, ribs %s %s (%s to %s, by the range of the law).",
            mensur_show_unit(style, MENSUR_LENGTH, fabs(scaled->rib_more)).text,
            scaled->rib_more < 0.0 ? "lower" : "higher",
            mensur_show_difference(style, MENSUR_LENGTH, scaled->rib_more_least).text,
            mensur_show_difference(style, MENSUR_LENGTH, scaled->rib_more_most).text);
    }
}

/* Beside a decision, which says what its neck changes, the body's air alone. */
static void tell_remarks(struct mensur_document *document, const struct mensur_scaled *scaled) {
    const struct mensur_facts *remarks = &scaled->comparison->remarks;
    for (size_t i = 0; i < remarks->count; i++) {
        enum mensur_fact_kind kind = remarks->items[i].kind;
        bool air = kind >= MENSUR_FACT_AIR_APART && kind <= MENSUR_FACT_AIR_TOO_UNLIKE;
        if (air || scaled->decision == NULL) {
            mensur_tell_remarks(document,
                                &(struct mensur_facts){.items = &remarks->items[i], .count = 1});
        }
    }
}

static void tell(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_scaled *scaled = record;
    struct mensur_document *document = &presenter->document;
    for (size_t i = 0; i < scaled->comparison->count; i++) {
        const struct mensur_profile *profile = &scaled->comparison->instruments[i];
        telling_gather_profile(presenter, profile->instrument, profile, TELLING_BEHIND_BOTH);
    }
    if (scaled->decision != NULL && scaled->decision->has_like) {
        telling_gather_profile(presenter, scaled->decision->like.instrument,
                               &scaled->decision->like, TELLING_BEHIND_BOTH);
    }
    document->style.neck_base = mensur_shown_neck_base(scaled->comparison->instruments[0].held);
    tell_verdict(document, scaled);
    if (scaled->decision != NULL && !document->style.full) {
        mensur_tell_decision_words(document, scaled->decision);
    }
    tell_measures(document, scaled);
    tell_rest(document, scaled);
    tell_held(document, scaled, MENSUR_SCALE_HELD, "Held", !has_all(document, scaled));
    tell_held(document, scaled, MENSUR_SCALE_KEPT, "Kept as asked", false);
    tell_air_kept(document, scaled);
    if (document->style.full) {
        mensur_heading(document, MENSUR_HEADING_PART, "Beside the model");
        mensur_tell_comparison(document, scaled->comparison);
        if (scaled->decision != NULL) {
            mensur_heading(document, MENSUR_HEADING_PART, "Its neck");
            mensur_tell_decision(document, scaled->decision);
        }
        return;
    }
    tell_remarks(document, scaled);
    if (scaled->decision == NULL) {
        tell_moves(document, scaled);
    }
}

/* A row of instruments.csv: heads and units are those of that file. */
static void scaled_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct mensur_scaled *scaled = answer;
    (void)i; /* one row an answer */
    for (size_t j = 0; j < scaled->cell_count; j++) {
        const struct mensur_scaled_cell *cell = &scaled->cells[j];
        if (cell->text != NULL) {
            mensur_csv_text(row, cell->head, cell->text);
        } else {
            mensur_csv_number(row, cell->head, MENSUR_LENGTH, cell->length);
        }
    }
}

static void csv(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_scaled *scaled = record;
    mensur_csv_rows(presenter, scaled_row, scaled, 1);
}

static void put_measures(struct mensur_json *to, const struct mensur_scaled *scaled) {
    mensur_json_begin(to, "measurements", '[');
    for (size_t i = 0; i < scaled->measure_count; i++) {
        const struct mensur_scaled_measure *measure = &scaled->measures[i];
        mensur_json_begin(to, NULL, '{');
        mensur_json_text(to, "field", measure->field);
        mensur_json_number(to, "from_mm", MENSUR_LENGTH, measure->from);
        mensur_json_number(to, "to_mm", MENSUR_LENGTH, measure->to);
        mensur_json_number(to, "exponent", MENSUR_NUMBER, measure->exponent);
        mensur_json_bool(to, "held",
                         measure->rule == MENSUR_SCALE_HELD || measure->rule == MENSUR_SCALE_KEPT);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

static void json(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_scaled *scaled = record;
    struct mensur_json answer = json_begin_answer(presenter);
    mensur_json_text(&answer, "instrument", scaled->model);
    mensur_json_text(&answer, "name", scaled->name);
    mensur_json_number(&answer, "ratio", MENSUR_NUMBER, scaled->ratio);
    put_measures(&answer, scaled);
    mensur_json_number(&answer, "rib_more_mm", MENSUR_LENGTH, scaled->rib_more);
    mensur_json_number(&answer, "rib_more_least_mm", MENSUR_LENGTH, scaled->rib_more_least);
    mensur_json_number(&answer, "rib_more_most_mm", MENSUR_LENGTH, scaled->rib_more_most);
    json_compared(&answer, scaled->comparison);
    if (scaled->decision != NULL) {
        mensur_json_begin(&answer, "decision", '{');
        mensur_json_text(&answer, "instrument", scaled->decision->present.instrument);
        json_decision(&answer, scaled->decision);
        mensur_json_end(&answer, '}');
    } else {
        mensur_json_null(&answer, "decision");
    }
    json_end_answer(presenter, &answer);
}

static void cautions(const void *record, struct mensur_facts *cautions) {
    const struct mensur_scaled *scaled = record;
    cautions_of_comparison(scaled->comparison, cautions);
    if (scaled->decision != NULL) {
        cautions_of_decision(scaled->decision, cautions);
    }
}

static void clear(void *record) {
    mensur_scaled_clear(record);
}

static void drawing(const void *record, struct mensur_illustration *drawing) {
    const struct mensur_scaled *scaled = record;
    *drawing =
        (struct mensur_illustration){.parts = MENSUR_DRAW_SIDE, .comparison = scaled->comparison};
}

const struct mensur_answer_kind mensur_scaled_answer = {
    .size = sizeof(struct mensur_scaled),
    .clear = clear,
    .sources = mensur_sources_scale,
    .cautions = cautions,
    .drawing = drawing,
    .tell = tell,
    .csv = csv,
    .json = json,
};
