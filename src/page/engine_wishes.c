/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the script needs to let the ends of wishes and the points of drawings be dragged. */
#include <math.h>
#include <string.h>

#include "engine.h"
#include "view.h"

/* What a wish is about at a step of the decision, SI; NaN where the steps do not have it. */
static double figure_at(const struct mensur_decision *decision, const struct mensur_step *step,
                        enum mensur_wish_kind kind, const char *note) {
    const struct mensur_wish_info *info = mensur_wish_info(kind);
    if (info->scope == MENSUR_SCOPE_STRING) {
        for (size_t i = 0; i < decision->present.string_count; i++) {
            if (strcmp(decision->present.strings[i].note, note) == 0) {
                return step->tension[i];
            }
        }
        return NAN;
    }
    const struct mensur_figure *figure = mensur_figure_named(
        info->scope == MENSUR_SCOPE_TOTAL ? MENSUR_SCOPE_STEP_TOTAL : MENSUR_SCOPE_STEP, info->key);
    return figure == NULL ? (double)NAN : mensur_figure_value(figure, step);
}

/* How much the figure grows, in its bare unit, for each mm of neck (stop); NaN unknown. */
static double growth(const struct mensur_decision *decision, const struct mensur_want *want,
                     enum mensur_wish_kind kind, const char *note) {
    if (decision->step_count < 2) {
        return NAN;
    }
    const struct mensur_step *first = &decision->steps[0];
    const struct mensur_step *last = &decision->steps[decision->step_count - 1];
    double more = figure_at(decision, last, kind, note) - figure_at(decision, first, kind, note);
    return mensur_from_si(want->kind, more) /
           mensur_from_si(MENSUR_LENGTH, last->place - first->place);
}

static json_t *wish(struct mensur_out *out, const struct mensur_decision *decision,
                    const struct mensur_style *style, const struct mensur_want *want) {
    enum mensur_wish_kind kind;
    const char *note = mensur_wish_of(want->what, &kind);
    json_t *row = json_object();
    view_put(out, row, "what", view_text(want->what));
    view_put(out, row, "origin", view_text(want->origin));
    view_put(out, row, "low", view_number(want->kind, want->low));
    view_put(out, row, "high", view_number(want->kind, want->high));
    view_put(out, row, "shown",
             view_text(kind == MENSUR_WISH_RATIO
                           ? mensur_show_ratio_range(style, want->low, want->high).text
                           : mensur_show_range(style, want->kind, want->low, want->high).text));
    view_put(out, row, "place_low", view_number(MENSUR_LENGTH, want->place_low));
    view_put(out, row, "place_high", view_number(MENSUR_LENGTH, want->place_high));
    view_put(out, row, "within_reach", json_boolean(want->within_reach));
    view_put(out, row, "growth", view_number(MENSUR_NUMBER, growth(decision, want, kind, note)));
    return row;
}

enum mensur_status page_write_wishes(const struct mensur_decision *decision,
                                     const struct mensur_style *style,
                                     const struct mensur_sink *sink) {
    struct mensur_out out;
    mensur_out_open(&out, sink, false);
    json_t *list = json_array();
    for (size_t i = 0; i < decision->want_count; i++) {
        view_add(&out, list, wish(&out, decision, style, &decision->wants[i]));
    }
    return view_write(&out, list);
}

enum mensur_status page_write_axes(const struct mensur_axes *axes, const struct mensur_sink *sink) {
    const struct {
        const char *key;
        double value;
    } told[] = {{"wish_left", axes->wish_left},
                {"wish_right", axes->wish_right},
                {"wish_low", mensur_from_si(MENSUR_LENGTH, axes->wish_low)},
                {"wish_high", mensur_from_si(MENSUR_LENGTH, axes->wish_high)},
                {"wish_top", axes->wish_top},
                {"wish_row", axes->wish_row},
                {"map_left", axes->map_left},
                {"map_bottom", axes->map_bottom},
                {"map_stop", mensur_from_si(MENSUR_LENGTH, axes->map_stop)},
                {"map_neck", mensur_from_si(MENSUR_LENGTH, axes->map_neck)},
                {"map_scale", axes->map_scale / mensur_from_si(MENSUR_LENGTH, 1.0)}};
    struct mensur_out out;
    mensur_out_open(&out, sink, false);
    json_t *object = json_object();
    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++) {
        view_put(&out, object, told[i].key, view_number(MENSUR_NUMBER, told[i].value));
    }
    return view_write(&out, object);
}
