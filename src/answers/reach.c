/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's left arm and bow arm on instruments. What a player leaves out follows from the
 * stature, or from the arm, by usual proportions, and is reported as assumed. How sure an elbow is
 * follows from every stated ± and from how far people differ from the proportions; one arm is on
 * all instruments, so that differences between them are surer than each elbow. */
#include "reach.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figures.h"
#include "profile.h"
#include "propagate.h"

/* The parts of an arm as a player may give them; the wrist's place is never given. */
#define PART(name, kind)                                                                           \
    { #name, kind, offsetof(struct mensur_arm, name), offsetof(struct mensur_player, name) }
static const struct {
    const char *field;
    enum mensur_kind kind;
    size_t in_arm;
    size_t in_player;
} arm_parts[REACH_INPUTS] = {
    [REACH_UPPER_ARM] = PART(upper_arm, MENSUR_LENGTH),
    [REACH_FOREARM] = PART(forearm, MENSUR_LENGTH),
    [REACH_HAND] = PART(hand, MENSUR_LENGTH),
    [REACH_REST_SIDE] = PART(rest_side, MENSUR_LENGTH),
    [REACH_REST_FORWARD] = PART(rest_forward, MENSUR_LENGTH),
    [REACH_YAW] = PART(yaw, MENSUR_ANGLE),
    [REACH_WRIST_SHARE] = {NULL, MENSUR_NUMBER, offsetof(struct mensur_arm, wrist_share), 0}};

static double *part_of(struct mensur_arm *arm, int part) {
    return (double *)(void *)((char *)arm + arm_parts[part].in_arm);
}

static double part_value(const struct mensur_arm *arm, int part) {
    return *(const double *)(const void *)((const char *)arm + arm_parts[part].in_arm);
}

static enum mensur_status usual_at(const struct reach_arm *made, const double *x,
                                   struct mensur_usual_arm *out) {
    return made->from_stature ? mensur_arm_from_stature(x[REACH_STATURE], made->age, out)
                              : mensur_arm_from_segments(x[REACH_UPPER_ARM], x[REACH_FOREARM], out);
}

/* The arm from what it is computed from: a part that follows is the usual one and so much more. */
static void put_parts(const struct reach_arm *made, const struct mensur_arm *usual, const double *x,
                      struct mensur_arm *out) {
    for (int i = REACH_UPPER_ARM; i < REACH_INPUTS; i++) {
        *part_of(out, i) = made->follows[i] ? part_value(usual, i) + x[i] : x[i];
    }
}

enum mensur_status reach_arm_make(const struct mensur_player *player, struct mensur_fault *fault,
                                  struct reach_arm *out) {
    struct reach_arm made = {.from_stature = !isnan(player->stature.value), .age = player->age};
    struct mensur_usual_arm usual;
    if (made.from_stature) {
        made.x[REACH_STATURE] = player->stature.value;
        made.u[REACH_STATURE] = player->stature.plus_minus;
    }
    for (int i = REACH_UPPER_ARM; i < REACH_INPUTS; i++) {
        struct mensur_quantity given = MENSUR_UNKNOWN;
        if (arm_parts[i].field != NULL) {
            memcpy(&given, (const char *)player + arm_parts[i].in_player, sizeof given);
        }
        made.follows[i] = isnan(given.value);
        made.x[i] = given.value;
        made.u[i] = given.plus_minus;
    }
    if (usual_at(&made, made.x, &usual) != MENSUR_OK) {
        mensur_fault_set(fault, "%s: neither a stature, nor upper_arm and forearm, is given",
                         player->name);
        return MENSUR_USE;
    }
    for (int i = REACH_UPPER_ARM; i < REACH_INPUTS; i++) {
        if (made.follows[i]) {
            made.x[i] = 0.0;
            made.u[i] = part_value(&usual.spread, i);
        }
    }
    put_parts(&made, &usual.arm, made.x, &made.arm);
    *out = made;
    return MENSUR_OK;
}

bool reach_arm_follows(const struct reach_arm *arm) {
    return arm->follows[REACH_UPPER_ARM] || arm->follows[REACH_FOREARM] || arm->follows[REACH_HAND];
}

bool reach_rest_follows(const struct reach_arm *arm) {
    return arm->follows[REACH_REST_SIDE] || arm->follows[REACH_REST_FORWARD] ||
           arm->follows[REACH_YAW];
}

/* Where the parts of an arm that were not measured come from, in hundredths. */
static void report_basis(const struct reach_arm *made, struct mensur_facts *basis) {
    struct mensur_usual_arm usual = {.arm = {.upper_arm = NAN}};
    (void)usual_at(made, made->x, &usual);
    const struct mensur_arm *arm = &usual.arm;
    double whole = made->from_stature ? made->x[REACH_STATURE] : arm->upper_arm + arm->forearm;
    /* As likely between two ends as anywhere: they lie sqrt(3) standard deviations off. */
    double either_way = sqrt(3.0) * usual.spread.wrist_share;
    mensur_facts_add(basis,
                     !reach_arm_follows(made)       ? MENSUR_FACT_ARM_MEASURED
                     : !made->from_stature          ? MENSUR_FACT_ARM_OF_SEGMENTS
                     : made->age < MENSUR_ADULT_AGE ? MENSUR_FACT_ARM_OF_CHILDREN
                                                    : MENSUR_FACT_ARM_OF_ADULTS,
                     NULL,
                     MENSUR_NUMBERS(100.0 * arm->upper_arm / whole, 100.0 * arm->forearm / whole,
                                    100.0 * arm->hand / whole, made->age));
    mensur_facts_add(
        basis, reach_rest_follows(made) ? MENSUR_FACT_REST_IS_OURS : MENSUR_FACT_WRIST_IS_OURS,
        NULL,
        MENSUR_NUMBERS(100.0 * arm->wrist_share, 100.0 * (arm->wrist_share - either_way),
                       100.0 * (arm->wrist_share + either_way)));
}

/* What was assumed of an arm. */
static void report_arm(const struct reach_arm *made, struct mensur_reaching *reaching) {
    struct mensur_assumptions *assumed = &reaching->assumed;
    for (int i = REACH_UPPER_ARM; i < REACH_WRIST_SHARE; i++) {
        if (made->follows[i]) {
            assume(assumed, arm_parts[i].field, MENSUR_BEHIND_ALL, part_value(&made->arm, i),
                   arm_parts[i].kind, NULL);
        }
    }
    assume(assumed, "wrist_before_nut", MENSUR_BEHIND_ALL, made->arm.wrist_share * made->arm.hand,
           MENSUR_LENGTH, NULL);
    report_basis(made, &reaching->basis);
}

static enum mensur_status fill_player(const struct mensur_player *player,
                                      const struct reach_arm *made,
                                      struct mensur_reaching *reaching) {
    reaching->upper_arm = made->arm.upper_arm;
    reaching->forearm = made->arm.forearm;
    reaching->hand = made->arm.hand;
    reaching->longest = made->arm.upper_arm + made->arm.forearm;
    reaching->rest_side = made->arm.rest_side;
    reaching->rest_forward = made->arm.rest_forward;
    reaching->yaw = made->arm.yaw;
    reaching->span = player->span.value;
    return mensur_text_copy(player->name, strlen(player->name), &reaching->player);
}

/* Keeps what reaches and frames follow from. */
static void keep_assumed(const struct mensur_assumptions *all, struct mensur_assumptions *out) {
    static const char *const moving[] = {"body_straight", "back_arch", "stop",       "neck",
                                         "overstand",     "board",     "board_nut",  "nut",
                                         "arch",          "edge",      "projection", "bridge"};
    for (size_t i = 0; i < all->count; i++) {
        for (size_t k = 0; k < sizeof moving / sizeof moving[0]; k++) {
            if (strcmp(all->items[i].field, moving[k]) == 0) {
                out->items[out->count++] = all->items[i];
            }
        }
    }
}

/* Fills in all but how sure it is; the ± of the left reach, 0 where none is stated. */
static enum mensur_status fill_reach(struct mensur_solver *solver, const struct mensur_stock *stock,
                                     const struct mensur_instrument *instrument,
                                     const struct mensur_arm *arm, const struct mensur_terms *terms,
                                     struct mensur_fault *fault, struct mensur_reach *out,
                                     double *plus_minus) {
    struct mensur_profile profile;
    struct mensur_elbow elbow;
    enum mensur_status status =
        mensur_ask_profile_with(solver, stock, instrument, terms,
                                MENSUR_PART_LENGTHS | MENSUR_PART_FINGERS, fault, &profile);
    if (status != MENSUR_OK) {
        return status;
    }
    mensur_figures_unknown(MENSUR_SCOPE_REACH, out);
    out->string_length = profile.lengths.string_length;
    out->left_reach = profile.lengths.left_reach;
    out->bow_reach = profile.lengths.bow_reach;
    if (mensur_elbow(arm, out->left_reach, &elbow) == MENSUR_OK) {
        out->nut_side = elbow.side;
        out->nut_forward = elbow.forward;
        out->distance = elbow.distance;
        out->wrist = elbow.wrist;
        out->elbow = elbow.angle;
        out->stretched = elbow.stretched ? MENSUR_YES : MENSUR_NO;
    }
    *plus_minus = profile.spread != NULL && profile.spread->lengths.left_reach > 0.0
                      ? profile.spread->lengths.left_reach
                      : 0.0;
    out->position_count = profile.position_count;
    memcpy(out->positions, profile.positions, sizeof out->positions);
    keep_assumed(&profile.assumed, &out->assumed);
    /* Name and warnings change their owner. */
    out->instrument = profile.instrument;
    out->warnings = profile.warnings;
    profile.instrument = NULL;
    profile.warnings = (struct mensur_facts){0};
    mensur_profile_clear(&profile);
    return MENSUR_OK;
}

/* An arm on instruments. */
struct armed {
    const struct reach_arm *made;
    size_t count;
    size_t reference;
};

/* Every elbow, then every elbow less that of the reference; x: what the arm is computed from, then
 * every left reach. */
static void elbows_at(const double *x, void *context, double *y) {
    const struct armed *armed = context;
    struct mensur_usual_arm usual = {.arm = {.upper_arm = NAN}};
    struct mensur_arm arm;
    if (usual_at(armed->made, x, &usual) != MENSUR_OK) {
        usual.arm.upper_arm = NAN;
    }
    put_parts(armed->made, &usual.arm, x, &arm);
    for (size_t i = 0; i < armed->count; i++) {
        struct mensur_elbow elbow = {.angle = NAN};
        (void)mensur_elbow(&arm, x[REACH_INPUTS + i], &elbow);
        y[i] = elbow.angle;
    }
    for (size_t i = 0; i < armed->count; i++) {
        y[armed->count + i] = y[i] - y[armed->reference];
    }
}

/* Compares every elbow with the reference's, and says how sure both are. */
static enum mensur_status find_sureness(const struct reach_arm *made, const double *plus_minus,
                                        struct mensur_reaching *reaching) {
    const size_t n = reaching->count;
    const size_t inputs = REACH_INPUTS + n;
    double *x = calloc(3 * inputs + 8 * n, sizeof *x);
    if (x == NULL) {
        return MENSUR_MEMORY;
    }
    double *u = x + inputs;
    double *y = u + inputs;
    double *out = y + 2 * n;
    while (reaching->reference < n && isnan(reaching->instruments[reaching->reference].elbow)) {
        reaching->reference++;
    }
    reaching->reference = reaching->reference < n ? reaching->reference : 0;
    struct armed armed = {made, n, reaching->reference};
    const struct mensur_propagation from = {.figures = elbows_at,
                                            .context = &armed,
                                            .x_count = inputs,
                                            .x = x,
                                            .u = u,
                                            .y_count = 2 * n,
                                            .y = y,
                                            .work = out + 2 * n};
    memcpy(x, made->x, sizeof made->x);
    memcpy(u, made->u, sizeof made->u);
    for (size_t i = 0; i < n; i++) {
        double left_reach = reaching->instruments[i].left_reach;
        x[REACH_INPUTS + i] = isnan(left_reach) ? 0.0 : left_reach;
        u[REACH_INPUTS + i] = plus_minus[i];
    }
    elbows_at(x, &armed, y);
    for (size_t i = 0; i < 2 * n; i++) {
        out[i] = NAN; /* and it stays so where an argument is out of range */
    }
    (void)mensur_propagate(&from, NULL, out);
    for (size_t i = 0; i < n; i++) {
        struct mensur_reach *reach = &reaching->instruments[i];
        reach->elbow_plus_minus =
            reach->elbow + out[i] < mensur_to_si(MENSUR_ANGLE, 180.0) ? out[i] : NAN;
    }
    for (size_t i = 0; i < n; i++) {
        struct mensur_reach *reach = &reaching->instruments[i];
        reach->elbow_apart = y[n + i];
        reach->elbow_apart_plus_minus =
            isnan(reach->elbow_plus_minus) ||
                    isnan(reaching->instruments[armed.reference].elbow_plus_minus)
                ? NAN
                : out[n + i];
    }
    free(x);
    return MENSUR_OK;
}

/* Less than this nobody would call a difference. */
static const double notable_length_m = 0.00005;
static const double notable_angle_deg = 0.5;
/* Elbows are told in whole degrees: nothing is surer than one. */
static const double least_plus_minus_deg = 1.0;

/* 0 where nobody would notice. */
static double noticed(double length) {
    return fabs(length) < notable_length_m ? 0.0 : length;
}

/* NaN stays. */
static double told_plus_minus(double angle) {
    double least = mensur_to_si(MENSUR_ANGLE, least_plus_minus_deg);
    return angle < least ? least : angle;
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

/* How far arms and hand are apart. */
static void remark_apart(const struct mensur_reach *first, const struct mensur_reach *other,
                         struct mensur_facts *remarks) {
    double left = other->left_reach - first->left_reach;
    double bow = other->bow_reach - first->bow_reach;
    const struct mensur_position *here = first_position(other);
    const struct mensur_position *there = first_position(first);
    if (!isnan(left + bow)) {
        mensur_facts_add(remarks, MENSUR_FACT_REACHES_APART,
                         MENSUR_NAMES(first->instrument, other->instrument),
                         MENSUR_NUMBERS(noticed(left), noticed(bow)));
    }
    if (here != NULL && there != NULL && fabs(here->frame - there->frame) >= notable_length_m) {
        mensur_facts_add(remarks, MENSUR_FACT_FRAMES_APART,
                         MENSUR_NAMES(other->instrument, first->instrument),
                         MENSUR_NUMBERS(here->frame - there->frame));
    }
}

/* The elbow on one instrument, or why there is none. */
static void remark_elbow(const struct mensur_stock *stock,
                         const struct mensur_instrument *instrument,
                         const struct mensur_reach *reach, struct mensur_reaching *reaching) {
    const char *const *names = MENSUR_NAMES(reach->instrument, reaching->player);
    struct mensur_facts *remarks = &reaching->remarks;
    if (reach->stretched == MENSUR_UNSURE) {
        const struct mensur_family *family = mensur_stock_family(stock, instrument->family);
        const struct mensur_position *first = first_position(reach);
        bool modelled = family == NULL || family->held == MENSUR_CHIN;
        mensur_facts_add(remarks, modelled ? MENSUR_FACT_NO_LEFT_REACH : MENSUR_FACT_NO_ARM_MODEL,
                         MENSUR_NAMES(reach->instrument, modelled ? NULL : family->name),
                         MENSUR_NUMBERS(reach->string_length, first == NULL ? NAN : first->frame));
    } else if (reach->stretched == MENSUR_YES) {
        mensur_facts_add(remarks, MENSUR_FACT_ELBOW_STRETCHED, names,
                         MENSUR_NUMBERS(reach->wrist, reaching->longest));
    } else if (isnan(reach->elbow)) {
        mensur_facts_add(remarks, MENSUR_FACT_ELBOW_FOLDED, names, NULL);
    } else {
        mensur_facts_add(remarks, MENSUR_FACT_ELBOW, names,
                         MENSUR_NUMBERS(reach->elbow, told_plus_minus(reach->elbow_plus_minus)));
    }
}

/* The elbow on another instrument against that on the first. */
static void remark_elbows(const struct mensur_reach *first, const struct mensur_reach *other,
                          struct mensur_reaching *reaching) {
    const char *const *names = MENSUR_NAMES(reaching->player, other->instrument, first->instrument);
    double apart = other->elbow_apart;
    if (fabs(mensur_from_si(MENSUR_ANGLE, apart)) > notable_angle_deg) {
        mensur_facts_add(&reaching->remarks, MENSUR_FACT_ELBOWS_APART, names,
                         MENSUR_NUMBERS(apart, told_plus_minus(other->elbow_apart_plus_minus),
                                        first->elbow, told_plus_minus(first->elbow_plus_minus)));
    } else {
        mensur_facts_add(&reaching->remarks, MENSUR_FACT_ELBOWS_ALIKE, names,
                         MENSUR_NUMBERS(other->elbow, told_plus_minus(other->elbow_plus_minus)));
    }
}

/* Compares the elbows with the first's: of many instruments those alone on which it closes and
 * opens most, as the table has the others. Whether there was anything to compare. */
static bool compare_elbows(const struct mensur_reach *first, struct mensur_reaching *reaching) {
    const struct mensur_reach *least = NULL;
    const struct mensur_reach *most = NULL;
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        if (reach != first && !isnan(reach->elbow_apart_plus_minus)) {
            least = least == NULL || reach->elbow_apart < least->elbow_apart ? reach : least;
            most = most == NULL || reach->elbow_apart > most->elbow_apart ? reach : most;
        }
    }
    if (most == NULL) {
        return false;
    }
    remark_elbows(first, most, reaching);
    if (least != most) {
        remark_elbows(first, least, reaching);
    }
    return true;
}

/* The positions whose frame is wider than the span, as names, and the widest frame; 0 none. */
static double find_wide(const struct mensur_reaching *reaching, const struct mensur_reach *reach,
                        char *names) {
    double widest = 0.0;
    *names = '\0';
    for (size_t i = 0; i < reach->position_count; i++) {
        if (mensur_reaching_too_wide(reaching, &reach->positions[i]) == MENSUR_YES) {
            strcat(names, *names == '\0' ? "" : ", ");
            strcat(names, reach->positions[i].name);
            widest = fmax(widest, reach->positions[i].frame);
        }
    }
    return widest;
}

/* The hand's frames against its span; in one line where it covers all of them. */
static void remark_spans(struct mensur_reaching *reaching) {
    char names[MENSUR_RESULT_POSITIONS * (sizeof reaching->instruments->positions[0].name + 2)];
    size_t within = 0;
    if (isnan(reaching->span)) {
        return;
    }
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        within += reach->position_count > 0 && !(find_wide(reaching, reach, names) > 0.0);
    }
    if (within > 1 && within == reaching->count) {
        mensur_facts_add(&reaching->remarks, MENSUR_FACT_FRAMES_WITHIN, NULL,
                         MENSUR_NUMBERS(reaching->span));
        return;
    }
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        double widest = find_wide(reaching, reach, names);
        if (reach->position_count > 0) {
            mensur_facts_add(&reaching->remarks,
                             widest > 0.0 ? MENSUR_FACT_FRAME_TOO_WIDE : MENSUR_FACT_FRAME_WITHIN,
                             MENSUR_NAMES(reach->instrument, names),
                             MENSUR_NUMBERS(reaching->span, widest));
        }
    }
}

/* Elbows first, compared where they can be; what is told in a comparison is not told again. With
 * many instruments the table alone tells of reaches and frames. */
static enum mensur_status find_remarks(const struct mensur_stock *stock,
                                       const struct mensur_instrument *const *instruments,
                                       double age, struct mensur_reaching *reaching) {
    const struct mensur_reach *first = &reaching->instruments[reaching->reference];
    bool compared = compare_elbows(first, reaching);
    bool any = false;
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        any = any || !isnan(reach->elbow);
        if (reach == first ? !compared : isnan(reach->elbow_apart_plus_minus)) {
            remark_elbow(stock, instruments[i], reach, reaching);
        }
    }
    if (any && age < REACH_GROWN_AGE) {
        mensur_facts_add(&reaching->remarks, MENSUR_FACT_CHILD_FITS, NULL, NULL);
    }
    for (size_t i = 0; i < reaching->count && reaching->count == 2; i++) {
        if (i != reaching->reference) {
            remark_apart(first, &reaching->instruments[i], &reaching->remarks);
        }
    }
    remark_spans(reaching);
    return reaching->remarks.status;
}

enum mensur_status mensur_ask_reach(const struct mensur_stock *stock,
                                    const struct mensur_instrument *const *instruments,
                                    size_t count, const struct mensur_player *player,
                                    const struct mensur_terms *terms, struct mensur_fault *fault,
                                    struct mensur_reaching *out) {
    struct mensur_reaching reaching = {.instruments = NULL};
    struct reach_arm made;
    struct mensur_solver *solver = NULL;
    double *plus_minus = NULL;
    if (count == 0) {
        mensur_fault_set(fault, "reach wants an instrument");
        return MENSUR_USE;
    }
    enum mensur_status status = reach_arm_make(player, fault, &made);
    if (status == MENSUR_OK) {
        status = mensur_solver_make(&solver);
    }
    if (status == MENSUR_OK) {
        reaching.instruments = calloc(count, sizeof *reaching.instruments);
        plus_minus = calloc(count, sizeof *plus_minus);
        status = reaching.instruments == NULL || plus_minus == NULL
                     ? MENSUR_MEMORY
                     : fill_player(player, &made, &reaching);
    }
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = fill_reach(solver, stock, instruments[i], &made.arm, terms, fault,
                            &reaching.instruments[i], &plus_minus[i]);
        reaching.count += status == MENSUR_OK;
    }
    mensur_solver_free(solver);
    if (status == MENSUR_OK) {
        status = find_sureness(&made, plus_minus, &reaching);
    }
    for (size_t i = 0; i < reaching.count && status == MENSUR_OK; i++) {
        if (reaching.instruments[i].stretched != MENSUR_UNSURE) {
            report_arm(&made, &reaching);
            status = reaching.basis.status;
            break;
        }
    }
    if (status == MENSUR_OK) {
        status = find_remarks(stock, instruments, player->age, &reaching);
    }
    free(plus_minus);
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
