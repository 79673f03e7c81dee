/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's left arm and bow arm on instruments. What a player leaves out follows from the
 * stature by usual proportions, and is reported as assumed. */
#include "reach.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figures.h"
#include "profile.h"

/* Takes what is usual where nothing was measured. */
static bool follow(const struct mensur_quantity *measured, double usual, double *value) {
    bool follows = isnan(measured->value);
    *value = follows ? usual : measured->value;
    return follows;
}

/* The stature that an arm of usual proportions goes with. */
static double stature_of_arm(const struct mensur_player *player) {
    struct mensur_arm of_one_metre = {.upper_arm = NAN};
    double hand;
    (void)mensur_arm_from_stature(1.0, &of_one_metre, &hand);
    return (player->upper_arm.value + player->forearm.value) /
           (of_one_metre.upper_arm + of_one_metre.forearm);
}

enum mensur_status reach_arm_make(const struct mensur_player *player, struct mensur_fault *fault,
                                  struct reach_arm *out) {
    struct reach_arm arm = {.stature_follows = isnan(player->stature.value)};
    struct mensur_arm usual;
    double hand;
    arm.stature = arm.stature_follows ? stature_of_arm(player) : player->stature.value;
    if (mensur_arm_from_stature(arm.stature, &usual, &hand) != MENSUR_OK) {
        mensur_fault_set(fault, "%s: neither a stature, nor upper_arm and forearm, is given",
                         player->name);
        return MENSUR_USE;
    }
    arm.upper_follows = follow(&player->upper_arm, usual.upper_arm, &arm.arm.upper_arm);
    arm.fore_follows = follow(&player->forearm, usual.forearm, &arm.arm.forearm);
    arm.side_follows = follow(&player->rest_side, usual.rest_side, &arm.arm.rest_side);
    arm.forward_follows = follow(&player->rest_forward, usual.rest_forward, &arm.arm.rest_forward);
    arm.yaw_follows = follow(&player->yaw, usual.yaw, &arm.arm.yaw);
    /* A stature that nothing was taken from need not be told. */
    arm.stature_follows = arm.stature_follows && (arm.side_follows || arm.forward_follows);
    *out = arm;
    return MENSUR_OK;
}

static void report_arm(const struct reach_arm *arm, struct mensur_assumptions *assumed) {
    const struct {
        bool follows;
        const char *field;
        double value;
        enum mensur_kind kind;
    } parts[] = {{arm->stature_follows, "stature", arm->stature, MENSUR_LENGTH},
                 {arm->upper_follows, "upper_arm", arm->arm.upper_arm, MENSUR_LENGTH},
                 {arm->fore_follows, "forearm", arm->arm.forearm, MENSUR_LENGTH},
                 {arm->side_follows, "rest_side", arm->arm.rest_side, MENSUR_LENGTH},
                 {arm->forward_follows, "rest_forward", arm->arm.rest_forward, MENSUR_LENGTH},
                 {arm->yaw_follows, "yaw", arm->arm.yaw, MENSUR_ANGLE}};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        if (parts[i].follows) {
            assume(assumed, parts[i].field, parts[i].value, parts[i].kind, NULL);
        }
    }
}

static enum mensur_status fill_player(const struct mensur_player *player,
                                      const struct reach_arm *arm,
                                      struct mensur_reaching *reaching) {
    reaching->upper_arm = arm->arm.upper_arm;
    reaching->forearm = arm->arm.forearm;
    reaching->longest = arm->arm.upper_arm + arm->arm.forearm;
    reaching->rest_side = arm->arm.rest_side;
    reaching->rest_forward = arm->arm.rest_forward;
    reaching->yaw = arm->arm.yaw;
    reaching->span = player->span.value;
    report_arm(arm, &reaching->assumed);
    enum mensur_status status =
        mensur_text_copy(player->name, strlen(player->name), &reaching->player);
    if (status == MENSUR_OK && isnan(reaching->span)) {
        mensur_facts_add(&reaching->warnings, MENSUR_FACT_SPAN_UNKNOWN, MENSUR_NAMES(player->name),
                         NULL);
        status = reaching->warnings.status;
    }
    return status;
}

static enum mensur_status fill_reach(struct mensur_solver *solver, const struct mensur_stock *stock,
                                     const struct mensur_instrument *instrument,
                                     const struct mensur_arm *arm, const struct mensur_terms *terms,
                                     struct mensur_fault *fault, struct mensur_reach *out) {
    struct mensur_profile profile;
    struct mensur_elbow elbow;
    enum mensur_status status =
        profile_ask(solver, stock, instrument, terms, MENSUR_PART_LENGTHS | MENSUR_PART_FINGERS,
                    fault, &profile);
    if (status != MENSUR_OK) {
        return status;
    }
    mensur_figures_unknown(MENSUR_SCOPE_REACH, out);
    out->left_reach = profile.lengths.left_reach;
    out->bow_reach = profile.lengths.bow_reach;
    if (mensur_elbow(arm, out->left_reach, &elbow) == MENSUR_OK) {
        out->nut_side = elbow.side;
        out->nut_forward = elbow.forward;
        out->distance = elbow.distance;
        out->elbow = elbow.angle;
        out->can_reach = elbow.reached ? MENSUR_YES : MENSUR_NO;
    }
    out->position_count = profile.position_count;
    memcpy(out->positions, profile.positions, sizeof out->positions);
    out->assumed = profile.assumed;
    /* Name and warnings change their owner. */
    out->instrument = profile.instrument;
    out->warnings = profile.warnings;
    profile.instrument = NULL;
    profile.warnings = (struct mensur_facts){0};
    mensur_profile_clear(&profile);
    return MENSUR_OK;
}

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
    if (!isnan(left + bow)) {
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

static enum mensur_status find_remarks(struct mensur_reaching *reaching) {
    for (size_t i = 1; i < reaching->count; i++) {
        remark_apart(&reaching->instruments[0], &reaching->instruments[i], &reaching->remarks);
    }
    for (size_t i = 0; i < reaching->count; i++) {
        remark_nut(reaching, &reaching->instruments[i], &reaching->remarks);
        remark_span(reaching, &reaching->instruments[i], &reaching->remarks);
    }
    return reaching->remarks.status;
}

enum mensur_status mensur_ask_reach(const struct mensur_stock *stock,
                                    const struct mensur_instrument *const *instruments,
                                    size_t count, const struct mensur_player *player,
                                    const struct mensur_terms *terms, struct mensur_fault *fault,
                                    struct mensur_reaching *out) {
    struct mensur_reaching reaching = {.instruments = NULL};
    struct reach_arm arm;
    if (count == 0) {
        mensur_fault_set(fault, "reach wants an instrument");
        return MENSUR_USE;
    }
    struct mensur_solver *solver = NULL;
    enum mensur_status status = reach_arm_make(player, fault, &arm);
    if (status == MENSUR_OK) {
        status = mensur_solver_make(&solver);
    }
    if (status == MENSUR_OK) {
        reaching.instruments = calloc(count, sizeof *reaching.instruments);
        status =
            reaching.instruments == NULL ? MENSUR_MEMORY : fill_player(player, &arm, &reaching);
    }
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = fill_reach(solver, stock, instruments[i], &arm.arm, terms, fault,
                            &reaching.instruments[i]);
        reaching.count += status == MENSUR_OK;
    }
    mensur_solver_free(solver);
    if (status == MENSUR_OK) {
        status = find_remarks(&reaching);
    }
    if (status != MENSUR_OK) {
        mensur_reaching_clear(&reaching);
        return tell_memory(status, fault);
    }
    *out = reaching;
    return MENSUR_OK;
}

enum mensur_known mensur_reaching_too_wide(const struct mensur_reaching *reaching,
                                           const struct mensur_position *position) {
    if (isnan(reaching->span) || isnan(position->frame)) {
        return MENSUR_UNSURE;
    }
    return position->frame > reaching->span ? MENSUR_YES : MENSUR_NO;
}
