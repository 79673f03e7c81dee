/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The side view of one instrument on the page. What was not measured and is needed for no figure
 * (scroll, neck wood, ribs, tailpiece) is drawn as is usual, for the picture only. */
#ifndef MENSUR_DRAW_DRAW_SIDE_H
#define MENSUR_DRAW_DRAW_SIDE_H

#include "draw.h"

/* Position and scale of a side view: px of its origin, px per m. */
struct mensur_side_frame {
    double x, y;
    double scale;
};

/* How an instrument is drawn: as it is now thin and hatched, as it would be in ink, one that is
 * liked hatched the other way, of one over another its nut,
 * bridge and strings alone, these dashed. */
enum mensur_side_look { MENSUR_SIDE_INK, MENSUR_SIDE_THIN, MENSUR_SIDE_LIKED, MENSUR_SIDE_OVER };

/* What a side view takes up, m: beyond the nut, and below the plane of the edge. */
struct mensur_side_room {
    double head;
    double below;
};

struct mensur_side_room mensur_side_room(const struct mensur_profile *profile);

/* A point of the instrument on the page. */
struct mensur_point mensur_side_at(const struct mensur_side_frame *frame, double x, double y);
/* The end of the board's top. */
struct mensur_point mensur_side_board_end(const struct mensur_side_points *side);
/* A place by its distance along the neck's gluing surface from x = 0, and its height over it; m. */
struct mensur_point mensur_side_on_neck(const struct mensur_side_points *side, double along,
                                        double over);
/* The neck's wood from the gluing surface's end at the nut round the heel to its foot at the
 * origin, m: `wood` is its thickness, `depth` how far the heel goes down. At most
 * MENSUR_SIDE_HEEL points; how many. */
#define MENSUR_SIDE_HEEL 16
size_t mensur_side_heel(const struct mensur_side_points *side, double wood, double depth,
                        struct mensur_point *points);
/* Height of the ribs as drawn, m: measured, or as is usual. */
double mensur_side_ribs(const struct mensur_profile *profile);
/* Thickness of the neck's wood under the gluing surface, m, as is usual. */
double mensur_side_wood(const struct mensur_profile *profile);
/* Where a measurement of a name, as it is drawn in m, comes from: what was neither measured nor
 * needed by an equation, and is drawn all the same, is the family's usual one. */
enum mensur_origin mensur_side_origin(const struct mensur_profile *profile, const char *field,
                                      double drawn);
/* Body, neck with its head, board, nut, bridge, strings, tailpiece, saddle and button. */
void mensur_side_instrument(struct mensur_draw *draw, const struct mensur_profile *profile,
                            const struct mensur_side_frame *frame, enum mensur_side_look look);

#endif
