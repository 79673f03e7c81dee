/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is worth saying of a player's reach: first how the instruments differ, then each of them. */
#include <math.h>
#include <string.h>

#include "quantity.h"
#include "reach.h"

/* Less than this nobody would call a difference. */
static const double notable_length_m = 0.00005;
static const double notable_angle_deg = 0.5;

/* 0 where nobody would notice. */
static double noticed(double length) {
    return fabs(length) < notable_length_m ? 0.0 : length;
}

/* The position in which hands are usually measured; NULL where there is none. */
static const struct mensur_position *first_position(const struct mensur_reach *reach) {
    for (size_t i = 0; i < reach->position_count; i++) {
        if (strcmp(reach->positions[i].name, "1") == 0) {
            return &reach->positions[i];
        }
    }
    return NULL;
}

static void remark_apart(const struct mensur_reach *first, const struct mensur_reach *other,
                         struct mensur_facts *remarks) {
    double left = other->left_reach - first->left_reach;
    double bow = other->bow_reach - first->bow_reach;
    double elbow = other->elbow - first->elbow;
    const struct mensur_position *here = first_position(other);
    const struct mensur_position *there = first_position(first);
    if (!isnan(left) && !isnan(bow)) {
        mensur_facts_add(remarks, MENSUR_FACT_REACHES_APART,
                         MENSUR_NAMES(first->instrument, other->instrument),
                         MENSUR_NUMBERS(noticed(left), noticed(bow)));
    }
    if (fabs(mensur_from_si(MENSUR_ANGLE, elbow)) > notable_angle_deg) {
        mensur_facts_add(remarks, MENSUR_FACT_ELBOWS_APART, MENSUR_NAMES(other->instrument),
                         MENSUR_NUMBERS(elbow, other->elbow, first->elbow));
    }
    if (here != NULL && there != NULL && fabs(here->frame - there->frame) >= notable_length_m) {
        mensur_facts_add(remarks, MENSUR_FACT_FRAMES_APART,
                         MENSUR_NAMES(other->instrument, first->instrument),
                         MENSUR_NUMBERS(here->frame - there->frame));
    }
}

static void remark_nut(const struct mensur_reaching *reaching, const struct mensur_reach *reach,
                       struct mensur_facts *remarks) {
    const char *const *names = MENSUR_NAMES(reach->instrument, reaching->player);
    if (reach->can_reach == MENSUR_UNSURE) {
        return;
    }
    if (reach->can_reach == MENSUR_YES) {
        mensur_facts_add(remarks, MENSUR_FACT_NUT_REACHED, names,
                         MENSUR_NUMBERS(reach->elbow, reach->distance, reaching->longest));
    } else {
        mensur_facts_add(remarks,
                         reach->distance > reaching->longest ? MENSUR_FACT_NUT_TOO_FAR
                                                             : MENSUR_FACT_NUT_TOO_NEAR,
                         names, MENSUR_NUMBERS(reach->distance, reaching->longest));
    }
}

static void remark_span(const struct mensur_reaching *reaching, const struct mensur_reach *reach,
                        struct mensur_facts *remarks) {
    char wide[MENSUR_RESULT_POSITIONS * (sizeof reach->positions[0].name + 2)] = "";
    if (isnan(reaching->span) || reach->position_count == 0) {
        return;
    }
    for (size_t i = 0; i < reach->position_count; i++) {
        if (mensur_reaching_too_wide(reaching, &reach->positions[i]) == MENSUR_YES) {
            strcat(wide, *wide == '\0' ? "" : ", ");
            strcat(wide, reach->positions[i].name);
        }
    }
    mensur_facts_add(remarks, *wide != '\0' ? MENSUR_FACT_FRAME_TOO_WIDE : MENSUR_FACT_FRAME_WITHIN,
                     MENSUR_NAMES(reach->instrument, wide), MENSUR_NUMBERS(reaching->span));
}

enum mensur_status reach_remarks(struct mensur_reaching *reaching) {
    for (size_t i = 1; i < reaching->count; i++) {
        remark_apart(&reaching->instruments[0], &reaching->instruments[i], &reaching->remarks);
    }
    for (size_t i = 0; i < reaching->count; i++) {
        remark_nut(reaching, &reaching->instruments[i], &reaching->remarks);
        remark_span(reaching, &reaching->instruments[i], &reaching->remarks);
    }
    return reaching->remarks.status;
}
