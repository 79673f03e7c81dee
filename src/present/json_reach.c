/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's reach as JSON, an answer for each instrument; and the working of any answer. */
#include "json.h"

static json_t *frames(struct mensur_out *out, const struct mensur_reach *reach) {
    json_t *object = json_object();
    for (size_t i = 0; i < reach->position_count; i++) {
        mensur_json_put(out, object, reach->positions[i].name,
                        mensur_json_number(MENSUR_LENGTH, reach->positions[i].frame));
    }
    return object;
}

static json_t *reach_answer(struct mensur_out *out, const struct mensur_reaching *reaching,
                            const struct mensur_reach *reach) {
    json_t *answer = json_object(), *assumed = json_array(), *warnings = json_array();
    mensur_json_put(out, answer, "instrument", mensur_json_text(reach->instrument));
    mensur_json_put(out, answer, "player", mensur_json_text(reaching->player));
    mensur_json_figures(out, answer, MENSUR_SCOPE_REACH, reach, false);
    mensur_json_put(out, answer, "frame_mm", frames(out, reach));
    mensur_json_put(out, answer, "span_mm", mensur_json_number(MENSUR_LENGTH, reaching->span));
    mensur_json_assumed(out, assumed, NULL, &reaching->assumed);
    mensur_json_assumed(out, assumed, NULL, &reach->assumed);
    mensur_json_put(out, answer, "assumed", assumed);
    mensur_json_join(out, warnings, &reaching->warnings);
    mensur_json_join(out, warnings, &reach->warnings);
    mensur_json_put(out, answer, "warnings", warnings);
    return answer;
}

void mensur_json_reaching(struct mensur_presenter *presenter,
                          const struct mensur_reaching *reaching) {
    for (size_t i = 0; i < reaching->count; i++) {
        json_t *answer = reach_answer(&presenter->out, reaching, &reaching->instruments[i]);
        mensur_json_working(presenter, answer, i);
        mensur_json_answer(presenter, answer);
        /* The last one is counted by whoever asked for them all. */
        presenter->answers += i + 1 < reaching->count;
    }
}

static json_t *step(struct mensur_out *out, const struct mensur_working_line *line) {
    json_t *object = json_object(), *about = mensur_json_text(line->about);
    json_t *what = mensur_json_text(line->what);
    if (*line->about != '\0' && about != NULL && what != NULL) {
        json_t *bare = what;
        what = json_sprintf("%s: %s", json_string_value(about), json_string_value(bare));
        json_decref(bare);
    }
    json_decref(about);
    mensur_json_put(out, object, "what", what);
    mensur_json_put(out, object, "formula", mensur_json_text(line->formula));
    mensur_json_put(out, object, "with_numbers", mensur_json_text(line->with_numbers));
    mensur_json_put(out, object, "result", mensur_json_text(line->result));
    mensur_json_put(out, object, "source", mensur_json_text(line->source));
    return object;
}

void mensur_json_working(struct mensur_presenter *presenter, json_t *answer, size_t instrument) {
    const struct mensur_working *working = presenter->working;
    if (working == NULL) {
        return;
    }
    json_t *steps = json_array();
    for (size_t i = 0; i < working->count; i++) {
        const struct mensur_working_line *line = &working->lines[i];
        if (instrument == MENSUR_WORKING_ALL || line->instrument == MENSUR_WORKING_ALL ||
            line->instrument == instrument) {
            mensur_json_add(&presenter->out, steps, step(&presenter->out, line));
        }
    }
    mensur_json_put(&presenter->out, answer, "working", steps);
}
