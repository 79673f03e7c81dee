/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole as one JSON object, whose answers leave one by one as they come. */
#include "json.h"

static void json_open(struct mensur_presenter *presenter) {
    const struct mensur_heading *heading = presenter->heading;
    struct mensur_out *out = &presenter->out;
    json_t *head = json_object();
    mensur_json_put(out, head, "mensur", json_string(MENSUR_VERSION));
    mensur_json_put(out, head, "command", mensur_json_text(heading->command));
    mensur_json_put(out, head, "shop", mensur_json_text(heading->shop));
    mensur_json_put(out, head, "a4_Hz", mensur_json_number(MENSUR_FREQUENCY, heading->a4));
    mensur_json_put(out, head, "fifths", mensur_json_text(heading->fifths));
    mensur_json_put(out, head, "steps", mensur_json_text(heading->steps));
    mensur_out_text(out, "{");
    mensur_json_write(out, head);
    mensur_out_text(out, ", \"answers\": [");
}

static json_t *text_list(struct mensur_out *out, const char *const *texts) {
    json_t *array = json_array();
    for (; texts != NULL && *texts != NULL; texts++) {
        mensur_json_add(out, array, mensur_json_text(*texts));
    }
    return array;
}

static void json_close(struct mensur_presenter *presenter) {
    struct mensur_out *out = &presenter->out;
    json_t *tail = json_object();
    mensur_json_put(out, tail, "cautions", text_list(out, presenter->heading->cautions));
    mensur_json_put(out, tail, "sources", text_list(out, presenter->heading->sources));
    mensur_out_text(out, presenter->answers > 0 ? "\n], " : "], ");
    mensur_json_write(out, tail);
    mensur_out_text(out, "}");
    mensur_out_line(out);
}

/* Finishes an answer about the whole of a question. */
static void write_answer(struct mensur_presenter *presenter, json_t *answer) {
    mensur_json_working(presenter, answer, MENSUR_WORKING_ALL);
    mensur_json_answer(presenter, answer);
}

/* Finishes the answer about one instrument. */
static void profile_answer(struct mensur_presenter *presenter, json_t *answer,
                           const struct mensur_profile *profile) {
    struct mensur_out *out = &presenter->out;
    json_t *assumed = json_array();
    mensur_json_assumed(out, assumed, NULL, &profile->assumed);
    mensur_json_put(out, answer, "assumed", assumed);
    mensur_json_put(out, answer, "warnings", mensur_json_facts(out, NULL, &profile->warnings));
    mensur_json_spread(out, answer, profile);
    write_answer(presenter, answer);
}

static void json_lengths(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct mensur_out *out = &presenter->out;
    json_t *answer = json_object();
    mensur_json_put(out, answer, "instrument", mensur_json_text(profile->instrument));
    mensur_json_figures(out, answer, MENSUR_SCOPE_INSTRUMENT, &profile->lengths, false);
    profile_answer(presenter, answer, profile);
}

static void json_tension(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct mensur_out *out = &presenter->out;
    json_t *answer = json_object();
    mensur_json_put(out, answer, "instrument", mensur_json_text(profile->instrument));
    mensur_json_figure(out, answer, MENSUR_SCOPE_INSTRUMENT, "string_length_mm", &profile->lengths);
    mensur_json_put(out, answer, "strings",
                    mensur_json_records(out, MENSUR_SCOPE_STRING, profile->strings,
                                        profile->string_count, sizeof(profile->strings[0]), false));
    mensur_json_figures(out, answer, MENSUR_SCOPE_TOTAL, profile, false);
    profile_answer(presenter, answer, profile);
}

static void json_fingers(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct mensur_out *out = &presenter->out;
    json_t *answer = json_object();
    mensur_json_put(out, answer, "instrument", mensur_json_text(profile->instrument));
    mensur_json_figure(out, answer, MENSUR_SCOPE_INSTRUMENT, "string_length_mm", &profile->lengths);
    mensur_json_figures(out, answer, MENSUR_SCOPE_HAND, profile, false);
    mensur_json_put(out, answer, "places",
                    mensur_json_records(out, MENSUR_SCOPE_PLACE, profile->places,
                                        profile->place_count, sizeof(profile->places[0]), false));
    mensur_json_put(out, answer, "positions",
                    mensur_json_records(out, MENSUR_SCOPE_POSITION, profile->positions,
                                        profile->position_count, sizeof(profile->positions[0]),
                                        false));
    mensur_json_put(out, answer, "true_places",
                    mensur_json_records(out, MENSUR_SCOPE_TRUE_PLACE, profile->true_places,
                                        profile->true_place_count, sizeof(profile->true_places[0]),
                                        false));
    mensur_json_put(out, answer, "remarks", mensur_json_facts(out, NULL, &profile->remarks));
    profile_answer(presenter, answer, profile);
}

static void json_comparison(struct mensur_presenter *presenter,
                            const struct mensur_comparison *comparison) {
    struct mensur_out *out = &presenter->out;
    json_t *answer = mensur_json_comparison(out, comparison);
    json_t *assumed = json_array(), *warnings = json_array();
    for (size_t i = 0; i < comparison->count; i++) {
        const struct mensur_profile *profile = &comparison->instruments[i];
        mensur_json_assumed(out, assumed, profile->instrument, &profile->assumed);
        mensur_json_join(out, warnings, &profile->warnings);
    }
    mensur_json_put(out, answer, "assumed", assumed);
    mensur_json_put(out, answer, "warnings", warnings);
    write_answer(presenter, answer);
}

static void json_decision(struct mensur_presenter *presenter,
                          const struct mensur_decision *decision) {
    struct mensur_out *out = &presenter->out;
    json_t *answer = mensur_json_decision(out, decision);
    json_t *assumed = json_array(), *warnings = json_array();
    const struct mensur_profile *present = &decision->present;
    mensur_json_assumed(out, assumed, present->instrument, &present->assumed);
    mensur_json_join(out, warnings, &present->warnings);
    if (decision->has_recommended) {
        mensur_json_join(out, warnings, &decision->recommended.warnings);
    }
    if (decision->has_like) {
        mensur_json_assumed(out, assumed, decision->like.instrument, &decision->like.assumed);
        mensur_json_join(out, warnings, &decision->like.warnings);
    }
    mensur_json_put(out, answer, "assumed", assumed);
    mensur_json_put(out, answer, "warnings", warnings);
    write_answer(presenter, answer);
}

static void json_restringing(struct mensur_presenter *presenter,
                             const struct mensur_restringing *restringing) {
    json_t *answer = mensur_json_restringing(&presenter->out, restringing);
    profile_answer(presenter, answer, &restringing->present);
}

static void json_check(struct mensur_presenter *presenter, const char *file, long rows,
                       const struct mensur_texts *warnings) {
    struct mensur_out *out = &presenter->out;
    json_t *answer = json_object();
    mensur_json_put(out, answer, "file", mensur_json_text(file));
    mensur_json_put(out, answer, "rows", json_integer(rows));
    mensur_json_put(out, answer, "assumed", json_array());
    mensur_json_put(out, answer, "warnings", mensur_json_texts(out, warnings));
    write_answer(presenter, answer);
}

const struct mensur_writer mensur_json_writer = {
    json_open,     json_lengths,     json_tension,         json_fingers, json_comparison,
    json_decision, json_restringing, mensur_json_reaching, json_check,   json_close,
    NULL,
};
