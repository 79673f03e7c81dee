/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawings of what the page shows: SVG, for the page itself or as files of their own. A question
 * lists them under "drawings", each {"parts": ["side"], "id": "side"}; in the reply they stand
 * behind the answer, each after a NUL byte. */
#include <string.h>

#include "engine.h"

static unsigned parts_of(const json_t *asked) {
    static const struct {
        const char *name;
        unsigned part;
    } names[] = {{"wishes", MENSUR_DRAW_WISHES},
                 {"side", MENSUR_DRAW_SIDE},
                 {"bridge", MENSUR_DRAW_BRIDGE},
                 {"places", MENSUR_DRAW_PLACES},
                 {"pull", MENSUR_DRAW_PULL}};
    unsigned parts = 0;
    for (size_t i = 0; i < json_array_size(asked); i++) {
        const char *name = json_string_value(json_array_get(asked, i));
        for (size_t n = 0; n < sizeof names / sizeof names[0]; n++) {
            parts |= name != NULL && strcmp(name, names[n].name) == 0 ? names[n].part : 0;
        }
    }
    return parts;
}

enum mensur_status page_draw_each(struct page *page, const struct question *question,
                                  page_draw *draw, const void *answer) {
    const json_t *asked = json_object_get(question->root, "drawings");
    struct mensur_sink sink = page_sink(page);
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < json_array_size(asked) && status == MENSUR_OK; i++) {
        const json_t *one = json_array_get(asked, i);
        const struct mensur_drawing_style style = {
            .figures = question->style,
            .id = json_string_value(json_object_get(one, "id")),
            .within_page = json_is_true(json_object_get(question->root, "within-page"))};
        status = sink.write(sink.context, "\0", 1);
        if (status == MENSUR_OK) {
            status = draw(answer, parts_of(json_object_get(one, "parts")), &style, &sink);
        }
    }
    return status;
}

enum mensur_status page_draw_profile(const void *answer, unsigned parts,
                                     const struct mensur_drawing_style *style,
                                     const struct mensur_sink *sink) {
    return mensur_draw_profiles(answer, 1, parts, style, sink);
}

enum mensur_status page_draw_comparison(const void *answer, unsigned parts,
                                        const struct mensur_drawing_style *style,
                                        const struct mensur_sink *sink) {
    return mensur_draw_comparison(answer, parts, style, sink);
}

enum mensur_status page_draw_decision(const void *answer, unsigned parts,
                                      const struct mensur_drawing_style *style,
                                      const struct mensur_sink *sink) {
    return mensur_draw_decision(answer, parts, style, sink);
}
