/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts drawings together from their parts and writes them. */
#include "drawing.h"

#include <stdlib.h>

#include "draw.h"
#include "svg.h"

_Static_assert((int)MENSUR_PAGE_WIDTH == MENSUR_DRAWING_WIDTH, "the width that is promised");

#define DASH 8.0

static void draw_parts(struct mensur_draw *draw, const struct mensur_drawn *drawn, unsigned parts) {
    draw->over = (parts & MENSUR_DRAW_OVER) != 0;
    if ((parts & MENSUR_DRAW_SIDE) != 0) {
        mensur_draw_side(draw, drawn);
    }
    if ((parts & MENSUR_DRAW_BRIDGE) != 0) {
        mensur_draw_bridge(draw, drawn->profiles[0]);
    }
    if ((parts & MENSUR_DRAW_PLACES) != 0) {
        mensur_draw_places(draw, drawn);
    }
    if ((parts & MENSUR_DRAW_TENSION) != 0) {
        mensur_draw_tension(draw, drawn);
    }
    if ((parts & MENSUR_DRAW_MEASURES) != 0) {
        const struct mensur_decision *decision = drawn->decision;
        bool model = (parts & MENSUR_DRAW_MODEL) != 0 && decision != NULL && decision->has_like;
        draw->numbered = (parts & MENSUR_DRAW_NUMBERED) != 0;
        mensur_draw_measures(draw, model ? &decision->like : drawn->profiles[0], decision);
    }
}

struct mensur_draw mensur_draw_begin(const struct mensur_style *style) {
    return (struct mensur_draw){
        .shapes = {.width = MENSUR_PAGE_WIDTH, .dash = DASH}, .style = style, .y = 4.0};
}

void mensur_kept_drawing_clear(struct mensur_kept_drawing *kept) {
    if (kept->shapes != NULL) {
        mensur_shapes_clear(kept->shapes);
    }
    free(kept->shapes);
    kept->shapes = NULL;
}

/* Keeps shapes in place of those before, or frees them. */
static void keep_or_clear(struct mensur_kept_drawing *kept, struct mensur_shapes *shapes) {
    struct mensur_shapes *copy = kept != NULL ? malloc(sizeof *copy) : NULL;
    if (kept != NULL) {
        mensur_kept_drawing_clear(kept);
        kept->shapes = copy;
    }
    if (copy != NULL) {
        *copy = *shapes;
    } else {
        mensur_shapes_clear(shapes);
    }
}

/* Writes the drawing, and keeps or frees it. */
static enum mensur_status finish(struct mensur_draw *draw, const char *title,
                                 const struct mensur_drawing_style *style,
                                 const struct mensur_sink *sink) {
    struct mensur_svg svg = {.id = style->id == NULL ? "mensur" : style->id,
                             .title = title,
                             .unit = "",
                             .within_page = style->within_page,
                             .before = style->kept != NULL && style->changes ? style->kept->shapes
                                                                             : NULL};
    struct mensur_out out;
    draw->shapes.height = draw->y + 4.0;
    mensur_out_open(&out, sink, false);
    mensur_svg_write(&out, &svg, &draw->shapes);
    mensur_out_flush(&out);
    if (style->kept != NULL && out.status != MENSUR_OK) {
        mensur_kept_drawing_clear(style->kept);
    }
    keep_or_clear(out.status == MENSUR_OK ? style->kept : NULL, &draw->shapes);
    return out.status;
}

static const char *title_of(unsigned parts, size_t count) {
    switch (parts & ~(unsigned)(MENSUR_DRAW_BRIDGE | MENSUR_DRAW_BRIEF | MENSUR_DRAW_NUMBERED |
                                MENSUR_DRAW_OVER)) {
    case MENSUR_DRAW_SIDE:
        return count > 1 ? "Instruments from the side" : "An instrument from the side";
    case MENSUR_DRAW_PLACES:
        return "Finger places";
    case MENSUR_DRAW_TENSION:
        return "The tension of the strings";
    case MENSUR_DRAW_MEASURES:
        return "Where each length is measured";
    default:
        return count > 1 ? "Instruments side by side" : "An instrument";
    }
}

static enum mensur_status compose_list(struct mensur_draw *draw,
                                       const struct mensur_profile *profiles, size_t count,
                                       const enum mensur_state *states, unsigned parts) {
    if (count == 0) {
        return MENSUR_OK;
    }
    /* A list of pointers is meant. NOLINTNEXTLINE(bugprone-sizeof-expression) */
    const struct mensur_profile **list = calloc(count, sizeof(*list));
    if (list == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        list[i] = &profiles[i];
    }
    draw_parts(draw, &(struct mensur_drawn){.profiles = list, .count = count, .states = states},
               parts);
    free(list);
    return MENSUR_OK;
}

static void compose_decision(struct mensur_draw *draw, const struct mensur_decision *decision,
                             unsigned parts, bool all_states) {
    bool proposed = decision->present.proposed_count > 0;
    /* Three states at most: what is recommended beyond what is proposed stands in the verdict. */
    bool with_now = decision->has_before && (all_states || decision->leave);
    const struct mensur_profile *list[3] = {&decision->present};
    enum mensur_state states[3] = {proposed ? MENSUR_STATE_PROPOSED : MENSUR_STATE_NOW};
    struct mensur_drawn drawn = {.profiles = list, .count = 1, .decision = decision};
    if (with_now) {
        list[drawn.count] = &decision->before;
        states[drawn.count++] = MENSUR_STATE_NOW;
    } else if (decision->has_recommended && !decision->leave) {
        list[drawn.count] = &decision->recommended;
        states[drawn.count++] = MENSUR_STATE_RECOMMENDED;
    }
    if (decision->has_like && (drawn.count == 1 || all_states)) {
        list[drawn.count] = &decision->like;
        states[drawn.count++] = MENSUR_STATE_MODEL;
    }
    if ((parts & MENSUR_DRAW_WISHES) != 0) {
        mensur_draw_wishes(draw, decision);
    }
    drawn.states = states;
    draw_parts(draw, &drawn, parts);
}

enum mensur_status mensur_draw_compose(const struct mensur_illustration *of,
                                       struct mensur_draw *draw, const char **title) {
    static const enum mensur_state changed[] = {MENSUR_STATE_NOW, MENSUR_STATE_PROPOSED,
                                                MENSUR_STATE_MODEL};
    if (of->map != NULL) {
        *title = "The plane of stop and neck";
        mensur_draw_plane(draw, of->map);
        return MENSUR_OK;
    }
    if (of->restringing != NULL) {
        *title = "Strings for this length";
        mensur_draw_restring(draw, of->restringing);
        return MENSUR_OK;
    }
    if (of->decision != NULL) {
        *title = of->decision->for_stop ? "The decision on the stop" : "The decision on the neck";
        compose_decision(draw, of->decision, of->parts, of->all_states);
        return MENSUR_OK;
    }
    if (of->comparison != NULL) {
        bool over = (of->parts & MENSUR_DRAW_OVER) != 0 &&
                    of->comparison->count == sizeof changed / sizeof changed[0];
        *title = title_of(of->parts, of->comparison->count);
        return compose_list(draw, of->comparison->instruments, of->comparison->count,
                            of->comparison->changed || over ? changed : NULL, of->parts);
    }
    *title = title_of(of->parts, of->count);
    return compose_list(draw, of->profiles, of->count, NULL, of->parts);
}

/* Puts an illustration together and writes it. */
static enum mensur_status draw_of(const struct mensur_illustration *illustration,
                                  const struct mensur_drawing_style *style,
                                  const struct mensur_sink *sink) {
    struct mensur_draw draw = mensur_draw_begin(&style->figures);
    draw.axes = style->axes;
    if ((illustration->parts & MENSUR_DRAW_BRIEF) != 0) {
        draw.brief = true;
        draw.shapes.width = MENSUR_BRIEF_WIDTH;
    }
    const char *title = "";
    enum mensur_status status = mensur_draw_compose(illustration, &draw, &title);
    if (status != MENSUR_OK) {
        mensur_shapes_clear(&draw.shapes);
        return status;
    }
    return finish(&draw, title, style, sink);
}

enum mensur_status mensur_draw_file(const struct mensur_illustration *of,
                                    const struct mensur_drawing_style *style,
                                    const struct mensur_sink *sink) {
    struct mensur_illustration drawing = *of;
    if (of->decision != NULL) {
        /* A page has room below; a file is printed beside other answers. */
        drawing.all_states = style->within_page || of->decision->leave;
    } else if (of->restringing != NULL || of->map != NULL) {
        drawing.parts = 0; /* they have but one form */
    }
    return draw_of(&drawing, style, sink);
}

enum mensur_status mensur_draw_illustration(const struct mensur_illustration *illustration,
                                            const char *id, const struct mensur_style *style,
                                            const struct mensur_sink *sink) {
    const struct mensur_drawing_style drawing = {.figures = *style, .id = id, .within_page = true};
    return draw_of(illustration, &drawing, sink);
}
