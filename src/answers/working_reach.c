/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of the player's reach: the arm, then for each instrument the way to the nut, the
 * elbow by the law of cosines, and the hand's frames against its span. */
#include <math.h>
#include <stdlib.h>

#include "reach.h"
#include "working.h"
#include "working_parts.h"

#define FROM_SEGMENTS "Drillis and Contini 1966, as reproduced in Winter 2009; second hand"
#define FROM_OURSELVES "our own usual value, no source"

/* A part of the arm: measured, or a share of the stature. */
static void part(struct workbook *book, const char *what, const char *name, const char *formula,
                 bool follows, double value, const char *source) {
    if (follows) {
        workbook_step(book, what, formula, NULL, value, IN_LENGTH, source);
    } else {
        workbook_value(book, what, name, value, IN_LENGTH, "given");
    }
}

static void arm(struct workbook *book, const struct reach_arm *arm) {
    const struct mensur_arm *a = &arm->arm;
    book->instrument = MENSUR_WORKING_ALL;
    if (!arm->stature_follows &&
        (arm->upper_follows || arm->fore_follows || arm->side_follows || arm->forward_follows)) {
        workbook_value(book, "stature", "stature", arm->stature, IN_LENGTH, "given");
    }
    part(book, "upper arm", "upper", "upper = 0.186·{stature}", arm->upper_follows, a->upper_arm,
         FROM_SEGMENTS);
    part(book, "forearm", "fore", "fore = 0.146·{stature}", arm->fore_follows, a->forearm,
         FROM_SEGMENTS);
    if (arm->stature_follows) {
        workbook_step(book, "stature of such an arm",
                      "stature = ({upper} + {fore})/(0.186 + 0.146)", NULL, arm->stature, IN_LENGTH,
                      FROM_SEGMENTS);
    }
    part(book, "rest, inside the left shoulder", "rest_side", "rest_side = 0.11·{stature}",
         arm->side_follows, a->rest_side, FROM_OURSELVES);
    part(book, "rest, before the shoulder", "rest_forward", "rest_forward = 0.036·{stature}",
         arm->forward_follows, a->rest_forward, FROM_OURSELVES);
    workbook_value(book, "instrument, to the left of straight ahead", "yaw", a->yaw, IN_DEGREES,
                   arm->yaw_follows ? FROM_OURSELVES : "given");
    workbook_step(book, "arm stretched out", "longest = {upper} + {fore}", NULL,
                  a->upper_arm + a->forearm, IN_LENGTH, FROM_DEFINITION);
}

static void instrument(struct workbook *book, const struct setup *setup,
                       const struct mensur_reaching *reaching, const struct mensur_reach *reach) {
    static const char *const keys[] = {
        "left_reach_mm", "bow_reach_mm", "nut_side_mm", "nut_forward_mm",
        "distance_mm",   "elbow_deg",    NULL};
    if (!isnan(reach->left_reach)) {
        const char *source = FROM_LENGTHS;
        workbook_value(book, "body, straight", "body_straight", setup->view.body_straight,
                       IN_LENGTH, source);
        workbook_value(book, "nut, from the belly's edge", "nut.x", setup->geometry.nut_x,
                       IN_LENGTH, source);
        workbook_value(book, "stop", "S", setup->view.stop, IN_LENGTH, source);
    }
    workbook_rows(book, MENSUR_SCOPE_REACH, keys, reach);
    if (reach->can_reach == MENSUR_NO && reach->distance > reaching->longest) {
        workbook_step(book, "too far for the arm by", "beyond = {d} − {longest}", NULL,
                      reach->distance - reaching->longest, IN_LENGTH,
                      "a triangle has no side longer than the other two");
    }
    working_string_length(book, setup);
    working_frames(book, setup, reach->positions, reach->position_count);
    workbook_value(book, "span of the hand", "span", reaching->span, IN_LENGTH, "given");
}

enum mensur_status mensur_ask_working_reach(const struct mensur_stock *stock,
                                            const struct mensur_instrument *const *instruments,
                                            size_t count, const struct mensur_player *player,
                                            const struct mensur_terms *terms,
                                            struct mensur_fault *fault,
                                            struct mensur_working *out) {
    struct mensur_reaching reaching = {.count = 0};
    struct workbook book;
    struct reach_arm made;
    struct setup setup;
    workbook_open(&book, stock, terms, fault);
    if (book.status == MENSUR_OK) {
        book.status = mensur_ask_reach(stock, instruments, count, player, terms, fault, &reaching);
    }
    if (book.status == MENSUR_OK) {
        book.status = reach_arm_make(player, fault, &made);
    }
    if (book.status == MENSUR_OK) {
        arm(&book, &made);
    }
    for (size_t i = 0; i < reaching.count; i++) {
        if (workbook_setup(&book, instruments[i], NULL, &setup)) {
            book.instrument = i;
            book.subject = reaching.count > 1 ? instruments[i]->name : NULL;
            instrument(&book, &setup, &reaching, &reaching.instruments[i]);
        }
    }
    mensur_reaching_clear(&reaching);
    return workbook_close(&book, out);
}
