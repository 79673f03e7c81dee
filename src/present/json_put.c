/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "json_put.h"

#include <string.h>

#include "sentences.h"

void json_put_known(struct mensur_json *to, const char *key, enum mensur_known known) {
    if (known == MENSUR_UNSURE) {
        mensur_json_null(to, key);
    } else {
        mensur_json_bool(to, key, known == MENSUR_YES);
    }
}

void json_put_empty(struct mensur_json *to, const char *key) {
    mensur_json_begin(to, key, '[');
    mensur_json_end(to, ']');
}

void json_add_sentences(struct mensur_json *to, const struct mensur_facts *facts,
                        struct mensur_texts *texts) {
    static const struct mensur_style plain = {.format = MENSUR_FORMAT_JSON};
    mensur_out_fail(to->out, mensur_sentences(facts, &plain, texts));
}

void json_put_facts(struct mensur_json *to, const char *key, const struct mensur_facts *facts) {
    struct mensur_texts texts = {0};
    json_add_sentences(to, facts, &texts);
    mensur_json_texts(to, key, &texts);
    mensur_texts_clear(&texts);
}

void json_put_sentence(struct mensur_json *to, const char *key, const struct mensur_facts *facts) {
    struct mensur_texts texts = {0};
    json_add_sentences(to, facts, &texts);
    mensur_json_text(to, key, texts.count > 0 ? texts.items[0] : "");
    mensur_texts_clear(&texts);
}

void json_put_figure(struct mensur_json *to, const struct mensur_figure *figure, const void *record,
                     bool difference) {
    switch (figure->type) {
    case MENSUR_FIGURE_NUMBER:
        mensur_json_number(to, figure->key, figure->kind, mensur_figure_value(figure, record));
        return;
    case MENSUR_FIGURE_KNOWN:
        json_put_known(to, figure->key,
                       difference ? MENSUR_UNSURE : mensur_figure_known(figure, record));
        return;
    case MENSUR_FIGURE_POINTER:
    case MENSUR_FIGURE_TEXT:
        break;
    }
    mensur_json_text(to, figure->key, mensur_figure_text(figure, record));
}

void json_put_figures(struct mensur_json *to, enum mensur_scope scope, const void *record,
                      bool difference) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        const struct mensur_figure *figure = &figures.items[i];
        if ((figure->flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            json_put_figure(to, figure, record, difference);
        }
    }
}

void json_put_records(struct mensur_json *to, const char *key, enum mensur_scope scope,
                      const void *records, size_t count, size_t size, bool difference) {
    mensur_json_begin(to, key, '[');
    for (size_t i = 0; i < count; i++) {
        mensur_json_begin(to, NULL, '{');
        json_put_figures(to, scope, (const char *)records + i * size, difference);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

void json_put_strings(struct mensur_json *to, const struct mensur_string_figures *strings,
                      size_t count, bool difference) {
    json_put_records(to, "strings", MENSUR_SCOPE_STRING, strings, count, sizeof(*strings),
                     difference);
}

void json_put_positions(struct mensur_json *to, const struct mensur_position *positions,
                        size_t count, bool difference) {
    json_put_records(to, "positions", MENSUR_SCOPE_POSITION, positions, count, sizeof(*positions),
                     difference);
}

void json_put_matters(struct mensur_json *to, const struct mensur_matter *matters, size_t count) {
    mensur_json_begin(to, "matters_most", '[');
    for (size_t i = 0; i < count; i++) {
        mensur_json_begin(to, NULL, '{');
        mensur_json_text(to, "field", matters[i].field);
        mensur_json_number(to, "share", MENSUR_NUMBER, matters[i].share);
        mensur_json_text(to, "of", matters[i].of);
        mensur_json_bool(to, "assumed", matters[i].assumed);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

void json_put_spread(struct mensur_json *to, const struct mensur_spread *spread) {
    if (spread == NULL) {
        mensur_json_null(to, "plus_minus");
        mensur_json_null(to, "matters_most");
        return;
    }
    mensur_json_begin(to, "plus_minus", '{');
    json_put_figures(to, MENSUR_SCOPE_INSTRUMENT, &spread->lengths, true);
    json_put_strings(to, spread->strings, spread->string_count, true);
    mensur_json_number(to, "total_tension_N", MENSUR_FORCE, spread->total_tension);
    mensur_json_number(to, "total_force_on_belly_N", MENSUR_FORCE, spread->total_force_on_belly);
    mensur_json_number(to, "force_on_treble_foot_N", MENSUR_FORCE, spread->force_on_treble_foot);
    mensur_json_number(to, "force_on_bass_foot_N", MENSUR_FORCE, spread->force_on_bass_foot);
    mensur_json_number(to, "neck_moment_Nm", MENSUR_NUMBER, spread->neck_moment);
    json_put_positions(to, spread->positions, spread->position_count, true);
    mensur_json_end(to, '}');
    json_put_matters(to, spread->matters, spread->matter_count);
}

void json_add_assumed(struct mensur_json *to, const char *instrument,
                      const struct mensur_assumptions *assumed) {
    for (size_t i = 0; i < assumed->count; i++) {
        const struct mensur_assumed *item = &assumed->items[i];
        const char *unit = item->text == NULL ? mensur_kind_unit(item->kind) : "";
        mensur_json_begin(to, NULL, '{');
        mensur_json_text(to, "field", item->field);
        if (item->text != NULL) {
            mensur_json_text(to, "value", item->text);
        } else {
            mensur_json_number(to, "value", item->kind, item->value);
        }
        mensur_json_text(to, "unit", *unit != '\0' ? unit : NULL);
        if (instrument != NULL) {
            mensur_json_text(to, "instrument", instrument);
        }
        mensur_json_end(to, '}');
    }
}

void json_put_assumed(struct mensur_json *to, const struct mensur_assumptions *assumed) {
    mensur_json_begin(to, "assumed", '[');
    json_add_assumed(to, NULL, assumed);
    mensur_json_end(to, ']');
}

static bool is_before(const struct mensur_texts *texts, size_t at) {
    size_t i = 0;
    while (strcmp(texts->items[i], texts->items[at]) != 0) {
        i++;
    }
    return i < at;
}

void json_put_warnings(struct mensur_json *to, struct mensur_texts *texts) {
    mensur_json_begin(to, "warnings", '[');
    for (size_t i = 0; i < texts->count; i++) {
        if (!is_before(texts, i)) {
            mensur_json_text(to, NULL, texts->items[i]);
        }
    }
    mensur_json_end(to, ']');
    mensur_texts_clear(texts);
}

static void add_step(struct mensur_json *to, const struct mensur_working_line *line) {
    struct mensur_texts what = {0};
    mensur_out_fail(to->out, *line->about != '\0'
                                 ? mensur_texts_add(&what, "%s: %s", line->about, line->what)
                                 : mensur_texts_add(&what, "%s", line->what));
    mensur_json_begin(to, NULL, '{');
    mensur_json_text(to, "what", what.count > 0 ? what.items[0] : "");
    mensur_json_text(to, "formula", line->formula);
    mensur_json_text(to, "with_numbers", line->with_numbers);
    mensur_json_text(to, "result", line->result);
    mensur_json_text(to, "source", line->source);
    mensur_json_end(to, '}');
    mensur_texts_clear(&what);
}

struct mensur_json json_begin_answer(struct mensur_presenter *presenter) {
    mensur_out_text(&presenter->out, presenter->answers > 0 ? ",\n" : "\n");
    struct mensur_json answer = {.out = &presenter->out};
    mensur_json_begin(&answer, NULL, '{');
    return answer;
}

/* The steps about an instrument and those about all; MENSUR_WORKING_ALL: every step. */
static void end_with_steps(const struct mensur_presenter *presenter, struct mensur_json *answer,
                           size_t instrument) {
    const struct mensur_working *working = presenter->working;
    if (working != NULL) {
        mensur_json_begin(answer, "working", '[');
        for (size_t i = 0; i < working->count; i++) {
            const struct mensur_working_line *line = &working->lines[i];
            if (instrument == MENSUR_WORKING_ALL || line->instrument == MENSUR_WORKING_ALL ||
                line->instrument == instrument) {
                add_step(answer, line);
            }
        }
        mensur_json_end(answer, ']');
    }
    mensur_json_end(answer, '}');
}

void json_end_answer(struct mensur_presenter *presenter, struct mensur_json *answer) {
    end_with_steps(presenter, answer, MENSUR_WORKING_ALL);
}

void json_end_part(struct mensur_presenter *presenter, struct mensur_json *answer,
                   size_t instrument, size_t count) {
    end_with_steps(presenter, answer, instrument);
    presenter->answers += instrument + 1 < count;
}

struct mensur_json json_begin_profile(struct mensur_presenter *presenter,
                                      const struct mensur_profile *profile) {
    struct mensur_json answer = json_begin_answer(presenter);
    mensur_json_text(&answer, "instrument", profile->instrument);
    return answer;
}

void json_end_spread(struct mensur_presenter *presenter, struct mensur_json *answer,
                     const struct mensur_profile *profile, const struct mensur_spread *spread) {
    json_put_assumed(answer, &profile->assumed);
    json_put_facts(answer, "warnings", &profile->warnings);
    json_put_spread(answer, spread);
    json_end_answer(presenter, answer);
}
