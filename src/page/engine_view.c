/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the page sets down itself of an answer. */
#include "engine.h"
#include "view.h"

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
    if (answer->question->working) {
        return write_working(answer, sink);
    }
    switch (answer->kind) {
    case MENSUR_ANSWER_PROFILES:
    case MENSUR_ANSWER_COMPARISON:
        return write_sheet(answer, sink);
    default:
        return MENSUR_USE;
    }
}
