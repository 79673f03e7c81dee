/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole as one JSON object, whose answers leave one by one as they come. */
#include "json_put.h"
#include "telling.h"

/* The figures of a part of a view of one record. */
static void put_part(struct mensur_json *to, const struct mensur_view_part *part,
                     const void *record) {
    if (part->keys == NULL) {
        json_put_figures(to, part->scope, record, false);
    }
    for (size_t i = 0; part->keys != NULL && part->keys[i] != NULL; i++) {
        json_put_figure(to, mensur_figure_named(part->scope, part->keys[i]), record, false);
    }
}

static void json_profile(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    const struct mensur_view *view = presenter->heading->view;
    struct mensur_json answer = json_begin_profile(presenter, profile);
    for (size_t k = 0; k < MENSUR_VIEW_PARTS && view->told[k].in != 0; k++) {
        const struct mensur_view_part *part = &view->told[k];
        const struct mensur_records records = mensur_records_of(profile, part->scope);
        if ((part->in & MENSUR_VIEW_JSON) == 0) {
            continue;
        }
        if (part->list == NULL) {
            put_part(&answer, part, records.items);
            continue;
        }
        mensur_json_begin(&answer, part->list, '[');
        for (size_t i = 0; i < records.count; i++) {
            mensur_json_begin(&answer, NULL, '{');
            put_part(&answer, part, (const char *)records.items + i * records.size);
            mensur_json_end(&answer, '}');
        }
        mensur_json_end(&answer, ']');
    }
    if (view->remarks) {
        json_put_facts(&answer, "remarks", &profile->remarks);
    }
    json_end_spread(presenter, &answer, profile, profile->spread);
}

static void json_answer(struct mensur_presenter *presenter, const struct mensur_answer_kind *kind,
                        const void *record) {
    kind->json(presenter, record);
}

static void json_open(struct mensur_presenter *presenter) {
    const struct mensur_heading *heading = presenter->heading;
    struct mensur_json whole = {.out = &presenter->out};
    mensur_json_begin(&whole, NULL, '{');
    mensur_json_text(&whole, "mensur", MENSUR_VERSION);
    mensur_json_text(&whole, "command", heading->command);
    mensur_json_text(&whole, "shop", heading->shop);
    mensur_json_number(&whole, "a4_Hz", MENSUR_FREQUENCY, heading->a4);
    mensur_json_text(&whole, "fifths", heading->fifths);
    mensur_json_text(&whole, "steps", heading->steps);
    mensur_json_begin(&whole, "answers", '[');
}

static void json_close(struct mensur_presenter *presenter) {
    const char *const *source = presenter->heading->sources;
    struct mensur_json whole = {.out = &presenter->out};
    mensur_out_text(whole.out, presenter->answers > 0 ? "\n" : "");
    mensur_json_end(&whole, ']');
    json_put_facts(&whole, "cautions", &presenter->cautions);
    mensur_json_begin(&whole, "sources", '[');
    for (; source != NULL && *source != NULL; source++) {
        mensur_json_text(&whole, NULL, *source);
    }
    mensur_json_end(&whole, ']');
    mensur_json_end(&whole, '}');
    mensur_out_line(whole.out);
}

const struct mensur_writer mensur_json_writer = {json_open, json_profile, json_answer, json_close,
                                                 NULL};
