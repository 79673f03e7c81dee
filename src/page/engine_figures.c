/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures of the instruments chosen, as the program's text shows them, under their keys. */
#include "engine.h"
#include "json.h"
#include "shown.h"

#include <string.h>

static void put_figure(struct mensur_json *json, const struct mensur_style *style,
                       const struct mensur_profile *profile, const struct mensur_figure *figure) {
    double value = mensur_figure_value(figure, &profile->lengths);
    const struct mensur_shown shown = mensur_figure_show(figure, style, value);
    mensur_json_begin(json, figure->key, '{');
    mensur_json_text(json, "label", figure->label);
    mensur_json_text(json, "unit", mensur_shown_unit(style, figure->kind));
    if (figure->kind == MENSUR_LENGTH) {
        mensur_json_number(json, "mm", MENSUR_LENGTH, value);
    }
    mensur_json_text(json, "shown", shown.text[0] == '?' ? NULL : shown.text);
    mensur_json_end(json, '}');
}

/* Those with the keys; NULL: every figure. */
static void put_figures(struct mensur_json *json, const struct mensur_style *style,
                        const struct mensur_profile *profile, const struct page_keys *keys) {
    const struct mensur_figure *figure;
    mensur_json_begin(json, "figures", '{');
    for (size_t at = 0; keys != NULL && at < keys->size; at += strlen(keys->text + at) + 1) {
        figure = mensur_figure_named(MENSUR_SCOPE_INSTRUMENT, keys->text + at);
        if (figure != NULL) {
            put_figure(json, style, profile, figure);
        }
    }
    for (size_t i = 0;
         keys == NULL && (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        put_figure(json, style, profile, figure);
    }
    mensur_json_end(json, '}');
}

static void put_instrument(struct mensur_json *json, const struct mensur_style *style,
                           const struct mensur_profile *profile) {
    mensur_json_begin(json, NULL, '{');
    mensur_json_text(json, "name", profile->instrument);
    mensur_json_begin(json, "notes", '[');
    for (size_t i = 0; i < profile->string_count; i++) {
        mensur_json_text(json, NULL, profile->strings[i].note);
    }
    mensur_json_end(json, ']');
    put_figures(json, style, profile, NULL);
    mensur_json_end(json, '}');
}

enum mensur_status page_write_figures(const struct mensur_answer *answer,
                                      const struct mensur_sink *sink) {
    const struct mensur_comparison *comparison = answer->comparison;
    struct mensur_out out;
    struct mensur_json json = {.out = &out};
    if (answer->told != comparison) {
        return MENSUR_USE;
    }
    bool alone = comparison == NULL;
    const struct mensur_profile *profiles = alone ? answer->profiles : comparison->instruments;
    size_t count = alone ? answer->profile_count : comparison->count;
    mensur_out_open(&out, sink, false);
    mensur_json_begin(&json, NULL, '{');
    mensur_json_begin(&json, "instruments", '[');
    for (size_t i = 0; i < count; i++) {
        put_instrument(&json, &answer->question->style, &profiles[i]);
    }
    mensur_json_end(&json, ']');
    mensur_json_bool(&json, "changed", !alone && comparison->changed);
    mensur_json_end(&json, '}');
    mensur_out_flush(&out);
    return out.status;
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
    struct mensur_json json = {.out = &out};
    mensur_out_open(&out, sink, false);
    mensur_json_begin(&json, NULL, '{');
    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++) {
        if (keys->present_alone && told[i].profile != &decision->present) {
            continue;
        }
        if (told[i].profile == NULL || told[i].profile->instrument == NULL) {
            mensur_json_null(&json, told[i].key);
            continue;
        }
        mensur_json_begin(&json, told[i].key, '{');
        put_figures(&json, style, told[i].profile, keys);
        mensur_json_end(&json, '}');
    }
    mensur_json_end(&json, '}');
    mensur_out_flush(&out);
    return out.status;
}
