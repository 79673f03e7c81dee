/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the views share. */
#include "view.h"

#include "engine.h"

static int take(const char *bytes, size_t length, void *context) {
    struct mensur_out *out = context;
    mensur_out_bytes(out, bytes, length);
    return out->status == MENSUR_OK ? 0 : -1;
}

enum mensur_status view_write(struct mensur_out *out, json_t *value) {
    if (value == NULL ||
        (out->status == MENSUR_OK &&
         json_dump_callback(value, take, out, JSON_REAL_PRECISION(15) | JSON_COMPACT) != 0)) {
        mensur_out_fail(out, MENSUR_MEMORY);
    }
    json_decref(value);
    mensur_out_flush(out);
    return out->status;
}

json_t *view_shown(struct mensur_shown shown) {
    return mensur_json_text(shown.text[0] == '?' ? NULL : shown.text);
}

json_t *view_assumed(struct mensur_out *out, const struct mensur_style *style,
                     const struct mensur_assumptions *assumed) {
    json_t *array = json_array();
    for (size_t i = 0; i < assumed->count; i++) {
        const struct mensur_assumed *item = &assumed->items[i];
        json_t *pair = json_object();
        mensur_json_put(out, pair, "field", mensur_json_text(item->field));
        mensur_json_put(out, pair, "shown",
                        item->text != NULL
                            ? mensur_json_text(item->text)
                            : view_shown(mensur_show_unit(style, item->kind, item->value)));
        mensur_json_add(out, array, pair);
    }
    return array;
}

json_t *view_list(struct mensur_out *out, const char *const *texts) {
    json_t *array = json_array();
    for (; texts != NULL && *texts != NULL; texts++) {
        mensur_json_add(out, array, mensur_json_text(*texts));
    }
    return array;
}

/* Each formula with its numbers, its result and its source. */
static enum mensur_status write_working(const struct mensur_answer *answer,
                                        const struct mensur_sink *sink) {
    const struct mensur_working *working =
        answer->kind == MENSUR_ANSWER_PROFILES ? &answer->workings[0] : &answer->working;
    struct mensur_out out;
    mensur_out_open(&out, sink, false);
    json_t *array = json_array();
    for (size_t i = 0; i < working->count; i++) {
        const struct mensur_working_line *line = &working->lines[i];
        json_t *object = json_object();
        bool about_one = line->instrument < answer->question->named_count;
        mensur_json_put(&out, object, "instrument",
                        about_one ? mensur_json_text(answer->question->named[line->instrument].name)
                                  : json_null());
        mensur_json_put(&out, object, "what", mensur_json_text(line->what));
        mensur_json_put(&out, object, "formula", mensur_json_text(line->formula));
        mensur_json_put(&out, object, "with_numbers", mensur_json_text(line->with_numbers));
        mensur_json_put(&out, object, "result", mensur_json_text(line->result));
        mensur_json_put(&out, object, "source", mensur_json_text(line->source));
        mensur_json_add(&out, array, object);
    }
    return view_write(&out, array);
}

/* Below one instrument or two stands what stands below a comparison. */
static enum mensur_status write_sheet(const struct mensur_answer *answer,
                                      const struct mensur_sink *sink) {
    const struct mensur_comparison *comparison = &answer->comparison;
    const struct mensur_heading heading = {.cautions = mensur_cautions("compare"),
                                           .sources = mensur_sources("compare")};
    if (answer->kind == MENSUR_ANSWER_PROFILES) {
        return view_sheet(sink, &answer->question->style, &heading, answer->profiles, 1, NULL);
    }
    return comparison->count == 2 ? view_sheet(sink, &answer->question->style, &heading,
                                               comparison->instruments, 2, comparison)
                                  : MENSUR_USE;
}

enum mensur_status page_write_view(const struct mensur_answer *answer,
                                   const struct mensur_sink *sink) {
    const struct mensur_style *style = &answer->question->style;
    if (answer->question->working) {
        return write_working(answer, sink);
    }
    switch (answer->kind) {
    case MENSUR_ANSWER_PROFILES:
    case MENSUR_ANSWER_COMPARISON:
        return write_sheet(answer, sink);
    case MENSUR_ANSWER_DECISION:
        return view_decision(sink, style, &answer->decision);
    case MENSUR_ANSWER_RESTRINGING:
        return view_restringing(sink, style, &answer->restringing);
    case MENSUR_ANSWER_REACHING:
        return view_reaching(sink, style, &answer->reaching);
    default:
        return MENSUR_USE;
    }
}
