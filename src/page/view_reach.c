/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's arms on the instruments. */
#include <math.h>

#include "result_use.h"
#include "view.h"

static json_t *frames(struct mensur_out *out, const struct mensur_style *style,
                      const struct mensur_reaching *reaching, const struct mensur_reach *reach) {
    json_t *array = json_array();
    for (size_t i = 0; i < reach->position_count; i++) {
        const struct mensur_position *position = &reach->positions[i];
        json_t *frame = json_object();
        mensur_json_put(out, frame, "position", mensur_json_text(position->name));
        mensur_json_put(out, frame, "frame",
                        view_shown(mensur_show(style, MENSUR_LENGTH, position->frame)));
        mensur_json_put(out, frame, "too_wide",
                        mensur_json_known(mensur_reaching_too_wide(reaching, position)));
        mensur_json_add(out, array, frame);
    }
    return array;
}

static json_t *arms(struct mensur_out *out, const struct mensur_style *style,
                    const struct mensur_reaching *reaching, const struct mensur_reach *reach) {
    json_t *object = json_object();
    const struct {
        const char *key;
        enum mensur_kind kind;
        double value;
    } figures[] = {{"left_reach", MENSUR_LENGTH, reach->left_reach},
                   {"bow_reach", MENSUR_LENGTH, reach->bow_reach},
                   {"distance", MENSUR_LENGTH, reach->distance},
                   {"elbow", MENSUR_ANGLE, reach->elbow}};
    mensur_json_put(out, object, "instrument", mensur_json_text(reach->instrument));
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++) {
        mensur_json_put(out, object, figures[i].key,
                        view_shown(mensur_show(style, figures[i].kind, figures[i].value)));
    }
    mensur_json_put(out, object, "can_reach", mensur_json_known(reach->can_reach));
    mensur_json_put(out, object, "frames", frames(out, style, reaching, reach));
    mensur_json_put(out, object, "warnings", mensur_json_facts(out, style, &reach->warnings));
    return object;
}

enum mensur_status view_reaching(const struct mensur_sink *sink, const struct mensur_style *style,
                                 const struct mensur_reaching *reaching) {
    struct mensur_out out;
    mensur_out_open(&out, sink, false);
    json_t *answer = json_object(), *instruments = json_array();
    for (size_t i = 0; i < reaching->count; i++) {
        mensur_json_add(&out, instruments, arms(&out, style, reaching, &reaching->instruments[i]));
    }
    mensur_json_put(&out, answer, "player", mensur_json_text(reaching->player));
    mensur_json_put(&out, answer, "instruments", instruments);
    mensur_json_put(&out, answer, "longest",
                    view_shown(mensur_show_unit(style, MENSUR_LENGTH, reaching->longest)));
    mensur_json_put(&out, answer, "span",
                    isnan(reaching->span)
                        ? json_null()
                        : view_shown(mensur_show_unit(style, MENSUR_LENGTH, reaching->span)));
    mensur_json_put(&out, answer, "assumed", view_assumed(&out, style, &reaching->assumed));
    mensur_json_put(&out, answer, "warnings", mensur_json_facts(&out, style, &reaching->warnings));
    mensur_json_put(&out, answer, "remarks", mensur_json_facts(&out, style, &reaching->remarks));
    return view_write(&out, answer);
}
