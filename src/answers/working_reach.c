/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of the player's reach: the arm, then for each instrument the way to the wrist, the
 * elbow by the law of cosines, and the hand's frames against its span. */
#include <math.h>
#include <stdlib.h>

#include "reach.h"
#include "working.h"
#include "working_parts.h"

#define FROM_ADULTS "ANSUR II (2012), ratios computed from the data"
#define FROM_CHILDREN "Snyder and others 1977, means by age, second hand; the line is ours"
#define FROM_OURSELVES "our own usual value, no source"

/* Formulas of what follows from the stature, by age, and from the arm. */
enum { OF_CHILD, OF_YOUTH, OF_ADULT, OF_SEGMENTS, WAYS };

static const char *const upper[WAYS] = {
    "upper = (0.180 + 0.0011·{age})·{stature}",
    "upper = (0.1943 + ({age} − 13)/5·(0.191 − 0.1943))·{stature}", "upper = 0.191·{stature}"};
static const char *const fore[WAYS] = {
    "fore = (0.136 + 0.0009·{age})·{stature}",
    "fore = (0.1477 + ({age} − 13)/5·(0.150 − 0.1477))·{stature}", "fore = 0.150·{stature}"};
static const char *const hand[WAYS] = {
    "hand_length = 0.110·{stature}", "hand_length = 0.110·{stature}",
    "hand_length = 0.110·{stature}", "hand_length = 0.323·({upper} + {fore})"};
static const char *const side[WAYS] = {"rest_side = 0.11·{stature}", "rest_side = 0.11·{stature}",
                                       "rest_side = 0.11·{stature}",
                                       "rest_side = 0.323·({upper} + {fore})"};
static const char *const forward[WAYS] = {
    "rest_forward = 0.036·{stature}", "rest_forward = 0.036·{stature}",
    "rest_forward = 0.036·{stature}", "rest_forward = 0.106·({upper} + {fore})"};

/* A part of the arm: measured, or a share of the stature or the arm. */
static void part(struct workbook *book, const char *what, const char *name, const char *formula,
                 bool follows, double value, const char *source) {
    if (follows) {
        workbook_step(book, what, formula, NULL, value, IN_LENGTH, source);
    } else {
        workbook_value(book, what, name, value, IN_LENGTH, "given");
    }
}

static void arm(struct workbook *book, const struct reach_arm *made) {
    const struct mensur_arm *a = &made->arm;
    const bool *follows = made->follows;
    int way = !made->from_stature               ? OF_SEGMENTS
              : !(made->age < MENSUR_ADULT_AGE) ? OF_ADULT
              : made->age > MENSUR_CHILD_AGE    ? OF_YOUTH
                                                : OF_CHILD;
    const char *source = way < OF_ADULT ? FROM_CHILDREN : FROM_ADULTS;
    book->instrument = MENSUR_WORKING_ALL;
    if (made->from_stature &&
        (reach_arm_follows(made) || follows[REACH_REST_SIDE] || follows[REACH_REST_FORWARD])) {
        workbook_value(book, "stature", "stature", made->x[REACH_STATURE], IN_LENGTH, "given");
    }
    if (way < OF_ADULT && (follows[REACH_UPPER_ARM] || follows[REACH_FOREARM])) {
        workbook_value(book, "age in years", "age", made->age, IN_NUMBER, "given");
    }
    part(book, "upper arm", "upper", upper[way], follows[REACH_UPPER_ARM], a->upper_arm, source);
    part(book, "forearm", "fore", fore[way], follows[REACH_FOREARM], a->forearm, source);
    part(book, "hand", "hand_length", hand[way], follows[REACH_HAND], a->hand, source);
    part(book, "rest, inside the left shoulder", "rest_side", side[way], follows[REACH_REST_SIDE],
         a->rest_side, FROM_OURSELVES);
    part(book, "rest, before the shoulder", "rest_forward", forward[way],
         follows[REACH_REST_FORWARD], a->rest_forward, FROM_OURSELVES);
    workbook_value(book, "instrument, to the left of straight ahead", "yaw", a->yaw, IN_DEGREES,
                   follows[REACH_YAW] ? FROM_OURSELVES : "given");
    workbook_value(book, "wrist before the nut, in hand lengths", "wrist_share", a->wrist_share,
                   IN_NUMBER, "our own estimate, 0.25 to 0.45, no source");
    workbook_step(book, "arm stretched out, to the wrist", "longest = {upper} + {fore}", NULL,
                  a->upper_arm + a->forearm, IN_LENGTH, FROM_DEFINITION);
}

static void instrument(struct workbook *book, const struct setup *setup,
                       const struct mensur_reaching *reaching, const struct mensur_reach *reach) {
    static const char *const keys[] = {"left_reach_mm",  "bow_reach_mm",         "nut_side_mm",
                                       "nut_forward_mm", "distance_mm",          "wrist_mm",
                                       "elbow_deg",      "elbow_plus_minus_deg", NULL};
    if (!isnan(reach->left_reach)) {
        const char *source = FROM_LENGTHS;
        workbook_value(book, "body, straight", "body_straight", setup->view.body_straight,
                       IN_LENGTH, source);
        workbook_value(book, "nut, from the belly's edge", "nut.x", setup->geometry.nut_x,
                       IN_LENGTH, source);
        workbook_value(book, "stop", "S", setup->view.stop, IN_LENGTH, source);
    }
    workbook_rows(book, MENSUR_SCOPE_REACH, keys, reach);
    if (reach->stretched == MENSUR_YES) {
        workbook_step(book, "beyond the arm's length by", "beyond = {w} − {longest}", NULL,
                      reach->wrist - reaching->longest, IN_LENGTH,
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
