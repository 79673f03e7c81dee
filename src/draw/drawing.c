/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts drawings together from their parts and writes them. */
#include "drawing.h"

#include <stdlib.h>

#include "draw.h"
#include "svg.h"

_Static_assert((int)MENSUR_PAGE_WIDTH == MENSUR_DRAWING_WIDTH, "the width that is promised");

#define DASH 8.0

static void draw_parts(struct mensur_draw *draw, const struct mensur_drawn *drawn, unsigned parts) {
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
}

static struct mensur_draw begin(const struct mensur_drawing_style *style) {
    return (struct mensur_draw){
        .shapes = {.width = MENSUR_PAGE_WIDTH, .dash = DASH}, .style = &style->figures, .y = 4.0};
}

/* Writes the drawing and frees it. */
static enum mensur_status finish(struct mensur_draw *draw, const char *title,
                                 const struct mensur_drawing_style *style,
                                 const struct mensur_sink *sink) {
    struct mensur_svg svg = {.id = style->id == NULL ? "mensur" : style->id,
                             .title = title,
                             .unit = "",
                             .within_page = style->within_page};
    struct mensur_out out;
    draw->shapes.height = draw->y + 4.0;
    mensur_out_open(&out, sink, false);
    mensur_svg_write(&out, &svg, &draw->shapes);
    mensur_out_flush(&out);
    mensur_shapes_clear(&draw->shapes);
    return out.status;
}

static const char *title_of(unsigned parts, size_t count) {
    switch (parts & ~(unsigned)MENSUR_DRAW_BRIDGE) {
    case MENSUR_DRAW_SIDE:
        return count > 1 ? "Instruments from the side" : "An instrument from the side";
    case MENSUR_DRAW_PLACES:
        return "Finger places";
    case MENSUR_DRAW_TENSION:
        return "The tension of the strings";
    default:
        return count > 1 ? "Instruments side by side" : "An instrument";
    }
}

static enum mensur_status draw_list(const struct mensur_profile *profiles, size_t count,
                                    const char *const *roles, unsigned parts,
                                    const struct mensur_drawing_style *style,
                                    const struct mensur_sink *sink) {
    struct mensur_draw draw = begin(style);
    /* A list of pointers is meant. NOLINTNEXTLINE(bugprone-sizeof-expression) */
    const struct mensur_profile **list = calloc(count, sizeof(*list));
    if (list == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        list[i] = &profiles[i];
    }
    draw_parts(&draw, &(struct mensur_drawn){.profiles = list, .count = count, .roles = roles},
               parts);
    free(list);
    return finish(&draw, title_of(parts, count), style, sink);
}

enum mensur_status mensur_draw_profiles(const struct mensur_profile *profiles, size_t count,
                                        unsigned parts, const struct mensur_drawing_style *style,
                                        const struct mensur_sink *sink) {
    return draw_list(profiles, count, NULL, parts, style, sink);
}

enum mensur_status mensur_draw_comparison(const struct mensur_comparison *comparison,
                                          unsigned parts, const struct mensur_drawing_style *style,
                                          const struct mensur_sink *sink) {
    static const char *const roles[] = {"as it is", "as changed"};
    return draw_list(comparison->instruments, comparison->count, comparison->changed ? roles : NULL,
                     parts, style, sink);
}

enum mensur_status mensur_draw_decision(const struct mensur_decision *decision, unsigned parts,
                                        const struct mensur_drawing_style *style,
                                        const struct mensur_sink *sink) {
    struct mensur_draw draw = begin(style);
    const struct mensur_profile *list[] = {&decision->present, &decision->recommended};
    const char *roles[] = {"as it is", "recommended"};
    struct mensur_drawn drawn = {.profiles = list, .count = 2, .roles = roles};
    if (!decision->has_recommended || decision->leave) {
        list[1] = &decision->like;
        roles[1] = "liked";
        drawn.count = decision->has_like ? 2 : 1;
    }
    if ((parts & MENSUR_DRAW_WISHES) != 0) {
        mensur_draw_wishes(&draw, decision);
    }
    draw_parts(&draw, &drawn, parts);
    return finish(&draw,
                  decision->for_stop ? "The decision on the stop" : "The decision on the neck",
                  style, sink);
}

enum mensur_status mensur_draw_restringing(const struct mensur_restringing *restringing,
                                           const struct mensur_drawing_style *style,
                                           const struct mensur_sink *sink) {
    struct mensur_draw draw = begin(style);
    mensur_draw_restring(&draw, restringing);
    return finish(&draw, "Strings for this length", style, sink);
}

enum mensur_status mensur_draw_map(const struct mensur_map *map,
                                   const struct mensur_drawing_style *style,
                                   const struct mensur_sink *sink) {
    struct mensur_draw draw = begin(style);
    mensur_draw_plane(&draw, map);
    return finish(&draw, "The plane of stop and neck", style, sink);
}

enum mensur_status mensur_draw_illustration(const struct mensur_illustration *illustration,
                                            const char *id, const struct mensur_style *style,
                                            const struct mensur_sink *sink) {
    struct mensur_drawing_style drawing = {.figures = *style, .id = id, .within_page = true};
    if (illustration->map != NULL) {
        return mensur_draw_map(illustration->map, &drawing, sink);
    }
    if (illustration->decision != NULL) {
        return mensur_draw_decision(illustration->decision, illustration->parts, &drawing, sink);
    }
    if (illustration->restringing != NULL) {
        return mensur_draw_restringing(illustration->restringing, &drawing, sink);
    }
    if (illustration->comparison != NULL) {
        return mensur_draw_comparison(illustration->comparison, illustration->parts, &drawing,
                                      sink);
    }
    return mensur_draw_profiles(illustration->profiles, illustration->count, illustration->parts,
                                &drawing, sink);
}
