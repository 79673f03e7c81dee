/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures of the instruments chosen, as the program's text shows them, under their keys. */
#include "engine.h"
#include "view.h"

#include <string.h>

/* Whether the key stands among those; NULL: every key does. */
static bool is_among(const struct page_keys *keys, const char *key) {
    if (keys == NULL) {
        return true;
    }
    for (size_t at = 0; at < keys->size; at += strlen(keys->text + at) + 1) {
        if (strcmp(keys->text + at, key) == 0) {
            return true;
        }
    }
    return false;
}

static json_t *figures_of(struct mensur_out *out, const struct mensur_style *style,
                          const struct mensur_profile *profile, const struct page_keys *keys) {
    const struct mensur_figure *figure;
    json_t *figures = json_object();
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        if (!is_among(keys, figure->key)) {
            continue;
        }
        double value = mensur_figure_value(figure, &profile->lengths);
        json_t *row = json_object();
        view_put(out, row, "label", view_text(figure->label));
        view_put(out, row, "unit", view_text(mensur_shown_unit(style, figure->kind)));
        if (figure->kind == MENSUR_LENGTH) {
            view_put(out, row, "mm", view_number(MENSUR_LENGTH, value));
        }
        view_put(out, row, "shown", view_shown(mensur_figure_show(figure, style, value)));
        view_put(out, figures, figure->key, row);
    }
    return figures;
}

static json_t *instrument(struct mensur_out *out, const struct mensur_style *style,
                          const struct mensur_profile *profile, const struct page_keys *keys) {
    json_t *object = json_object(), *notes = json_array();
    for (size_t i = 0; i < profile->string_count; i++) {
        view_add(out, notes, view_text(profile->strings[i].note));
    }
    view_put(out, object, "name", view_text(profile->instrument));
    view_put(out, object, "notes", notes);
    view_put(out, object, "figures", figures_of(out, style, profile, keys));
    return object;
}

enum mensur_status page_write_figures(const struct mensur_answer *answer,
                                      const struct mensur_sink *sink) {
    bool alone = answer->kind == MENSUR_ANSWER_PROFILES;
    const struct mensur_profile *profiles =
        alone ? answer->profiles : answer->comparison.instruments;
    size_t count = alone ? answer->profile_count : answer->comparison.count;
    struct mensur_out out;
    if (!alone && answer->kind != MENSUR_ANSWER_COMPARISON) {
        return MENSUR_USE;
    }
    mensur_out_open(&out, sink, false);
    json_t *object = json_object(), *instruments = json_array();
    for (size_t i = 0; i < count; i++) {
        view_add(&out, instruments, instrument(&out, &answer->question->style, &profiles[i], NULL));
    }
    view_put(&out, object, "instruments", instruments);
    view_put(&out, object, "changed", json_boolean(!alone && answer->comparison.changed));
    return view_write(&out, object);
}

enum mensur_status page_write_decided(const struct mensur_decision *decision,
                                      const struct mensur_style *style,
                                      const struct page_keys *keys,
                                      const struct mensur_sink *sink) {
    bool proposed = decision->present.proposed_count > 0;
    const struct {
        const char *key;
        const struct mensur_profile *profile;
    } told[] = {{"now", !proposed              ? &decision->present
                        : decision->has_before ? &decision->before
                                               : NULL},
                {"proposed", proposed ? &decision->present : NULL},
                {"recommended", decision->has_recommended ? &decision->recommended : NULL},
                {"model", decision->has_like ? &decision->like : NULL}};
    struct mensur_out out;
    mensur_out_open(&out, sink, false);
    json_t *object = json_object();
    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++) {
        bool there = told[i].profile != NULL && told[i].profile->instrument != NULL;
        view_put(&out, object, told[i].key,
                 there ? instrument(&out, style, told[i].profile, keys) : json_null());
    }
    return view_write(&out, object);
}
