/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A family's usual values, scaled to a stop. */
#include "usual.h"

#include <math.h>

static struct mensur_size_of size_of(const struct mensur_family *family, double stop) {
    double over = family == NULL ? NAN : stop / family->usual[MENSUR_FIELD_STOP];
    over = isnan(over) ? 1.0 : over;
    return (struct mensur_size_of){.family = family, .stop = over, .log = log2(over)};
}

struct mensur_size mensur_size_at(const struct mensur_stock *stock,
                                  const struct mensur_family *family, double stop) {
    struct mensur_size size = {.own = size_of(family, stop), .part = 1.0};
    if (family == NULL || family->small_family == NULL || !(stop < family->own_from)) {
        return size;
    }
    const struct mensur_family *small = mensur_stock_family(stock, family->small_family);
    size.small = size_of(small, fmin(stop, family->small_to));
    size.own = size_of(family, family->own_from);
    size.part = fmax(stop - family->small_to, 0.0) / (family->own_from - family->small_to);
    return size;
}

static double scaled(const struct mensur_size_of *of, enum mensur_field field) {
    double power = mensur_field_info(field)->power;
    return power < 1.0 ? exp2(power * of->log) : of->stop; /* no power is over 1 */
}

static double usual_of(const struct mensur_size_of *of, enum mensur_field field) {
    const struct mensur_family *family = of->family;
    double value = family->usual[field] * scaled(of, field);
    if (field == MENSUR_FIELD_NECK && !isnan(family->neck_semitones)) {
        /* neck = heel + p (neck + rest), and the rest goes with the stop: what the heel has beyond
         * its share of the size counts 1/(1 - p) times. */
        double more = scaled(of, MENSUR_FIELD_HEEL) - of->stop;
        value += more * family->usual[MENSUR_FIELD_HEEL] * exp2(family->neck_semitones / 12.0);
    }
    return value;
}

static double spread_of(const struct mensur_size_of *of, enum mensur_field field) {
    bool share = field == MENSUR_FIELD_BOARD_LENGTH || field == MENSUR_FIELD_AFTERLENGTH;
    return of->family->spread[field] * (share ? 1.0 : sqrt(of->stop));
}

static double share_of(const struct mensur_size_of *of, enum mensur_field field) {
    return field == MENSUR_FIELD_BOARD_LENGTH ? of->family->board_share
                                              : of->family->afterlength_share;
}

static double offset_of(const struct mensur_size_of *of, enum mensur_field field) {
    double offset = field == MENSUR_FIELD_CLEARANCE_HIGH ? of->family->clearance_high_offset
                                                         : of->family->clearance_low_offset;
    return offset * scaled(of, field);
}

/* What a rule says of the size; where it says nothing of the small family, of its own. */
static inline double at(const struct mensur_size *size, enum mensur_field field,
                        double (*rule)(const struct mensur_size_of *, enum mensur_field)) {
    double own = size->own.family == NULL ? (double)NAN : rule(&size->own, field);
    if (size->small.family == NULL) {
        return own;
    }
    double small = rule(&size->small, field);
    return isnan(small) ? own : small + size->part * (own - small);
}

double mensur_size_usual(const struct mensur_size *size, enum mensur_field field) {
    return at(size, field, usual_of);
}

double mensur_size_spread(const struct mensur_size *size, enum mensur_field field) {
    return at(size, field, spread_of);
}

double mensur_size_board_share(const struct mensur_size *size) {
    double share = at(size, MENSUR_FIELD_BOARD_LENGTH, share_of);
    return isnan(share) ? MENSUR_USUAL_BOARD_SHARE : share;
}

double mensur_size_afterlength_share(const struct mensur_size *size) {
    double share = at(size, MENSUR_FIELD_AFTERLENGTH, share_of);
    return isnan(share) ? MENSUR_USUAL_AFTERLENGTH_SHARE : share;
}

double mensur_size_offset(const struct mensur_size *size, enum mensur_field field) {
    return at(size, field, offset_of);
}

double mensur_family_usual(const struct mensur_stock *stock, const struct mensur_family *family,
                           enum mensur_field field, double stop) {
    struct mensur_size size = mensur_size_at(stock, family, stop);
    return mensur_size_usual(&size, field);
}
