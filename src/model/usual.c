/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A family's usual values, scaled to a stop. */
#include "usual.h"

#include <math.h>

/* A value of one family at a stop, in m. */
typedef double usual_rule(const struct mensur_family *family, enum mensur_field field, double stop);

/* Stop over reference stop; 1 where either is unknown. */
static double size_of(const struct mensur_family *family, double stop) {
    double size = stop / family->usual[MENSUR_FIELD_STOP];
    return isnan(size) ? 1.0 : size;
}

static double scaled(double size, double power) {
    return size < 1.0 || size > 1.0 ? pow(size, power) : 1.0;
}

static double value_at(const struct mensur_family *family, enum mensur_field field, double stop) {
    double size = size_of(family, stop);
    double value = family->usual[field] * scaled(size, mensur_field_info(field)->power);
    if (field == MENSUR_FIELD_NECK && !isnan(family->neck_semitones)) {
        /* neck = heel + p (neck + rest), and the rest goes with the stop: what the heel has beyond
         * its share of the size counts 1/(1 - p) times. */
        double heel = family->usual[MENSUR_FIELD_HEEL];
        double more = value_at(family, MENSUR_FIELD_HEEL, stop) - size * heel;
        value += more * exp2(family->neck_semitones / 12.0);
    }
    return value;
}

static double spread_at(const struct mensur_family *family, enum mensur_field field, double stop) {
    bool share = field == MENSUR_FIELD_BOARD_LENGTH || field == MENSUR_FIELD_AFTERLENGTH;
    return family->spread[field] * (share ? 1.0 : scaled(size_of(family, stop), 0.5));
}

static double share_at(const struct mensur_family *family, enum mensur_field field, double stop) {
    (void)field;
    (void)stop;
    return family->board_share;
}

static double offset_at(const struct mensur_family *family, enum mensur_field field, double stop) {
    double offset = field == MENSUR_FIELD_CLEARANCE_HIGH ? family->clearance_high_offset
                                                         : family->clearance_low_offset;
    return offset * scaled(size_of(family, stop), mensur_field_info(field)->power);
}

/* What a rule says of a family, small sizes as they are. */
static double joined(const struct mensur_stock *stock, const struct mensur_family *family,
                     enum mensur_field field, double stop, usual_rule *rule) {
    if (family == NULL) {
        return NAN;
    }
    if (family->small_family == NULL || !(stop < family->own_from)) {
        return rule(family, field, stop);
    }
    const struct mensur_family *small = mensur_stock_family(stock, family->small_family);
    double below = small == NULL ? NAN : rule(small, field, fmin(stop, family->small_to));
    if (isnan(below)) {
        return rule(family, field, stop);
    }
    if (stop <= family->small_to) {
        return below;
    }
    double part = (stop - family->small_to) / (family->own_from - family->small_to);
    return below + part * (rule(family, field, family->own_from) - below);
}

double mensur_family_usual(const struct mensur_stock *stock, const struct mensur_family *family,
                           enum mensur_field field, double stop) {
    return joined(stock, family, field, stop, value_at);
}

double mensur_family_spread(const struct mensur_stock *stock, const struct mensur_family *family,
                            enum mensur_field field, double stop) {
    return joined(stock, family, field, stop, spread_at);
}

double mensur_family_board_share(const struct mensur_stock *stock,
                                 const struct mensur_family *family, double stop) {
    double share = joined(stock, family, MENSUR_FIELD_BOARD_LENGTH, stop, share_at);
    return isnan(share) ? MENSUR_USUAL_BOARD_SHARE : share;
}

double mensur_family_offset(const struct mensur_stock *stock, const struct mensur_family *family,
                            enum mensur_field field, double stop) {
    return joined(stock, family, field, stop, offset_at);
}
