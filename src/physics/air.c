/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The air inside a body. */
#include "air.h"

#include <stddef.h>

#include "domain.h"

/* Of the widths in the outline, and of the box round outline and depth (ours). */
static const double upper_part = 0.32, middle_part = 0.27, lower_part = 0.34, fullness = 0.85;

enum mensur_status mensur_air_of(const struct mensur_air_body *body, struct mensur_air *out) {
    const double all[] = {body->body,  body->upper,      body->middle,    body->lower,
                          body->rib,   body->belly_arch, body->back_arch, body->edge,
                          body->plate, body->f_length};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        if (!is_positive(all[i])) {
            return MENSUR_DOMAIN;
        }
    }
    double outline = body->body * (upper_part * body->upper + middle_part * body->middle +
                                   lower_part * body->lower);
    double depth =
        body->rib + 0.5 * (body->belly_arch + body->back_arch + body->edge) - body->plate;
    if (!is_positive(depth) || !is_positive(outline)) {
        return MENSUR_DOMAIN;
    }
    *out = (struct mensur_air){.body = body->body,
                               .outline = outline,
                               .depth = depth,
                               .volume = fullness * outline * depth,
                               .f_length = body->f_length};
    return MENSUR_OK;
}

static bool is_air(const struct mensur_air *air) {
    return is_positive(air->outline) && is_positive(air->depth) && is_positive(air->f_length);
}

static bool are_like(double first, double other) {
    double ratio = other / first;
    return ratio >= MENSUR_AIR_RATIO_LEAST && ratio <= MENSUR_AIR_RATIO_MOST;
}

enum mensur_status mensur_air_apart(const struct mensur_air *first, const struct mensur_air *other,
                                    double q, double *semitones) {
    if (!is_air(first) || !is_air(other) || !is_positive(first->body) ||
        !is_positive(other->body) || !is_positive(q)) {
        return MENSUR_DOMAIN;
    }
    if (!are_like(first->body, other->body) || !are_like(first->outline, other->outline)) {
        return MENSUR_NO_ANSWER;
    }
    double slots = (first->depth / other->depth) * (other->f_length / first->f_length);
    return give(6.0 * log2(first->outline / other->outline) + 12.0 * q * log2(slots), semitones);
}

enum mensur_status mensur_air_depth_kept(const struct mensur_air *first, double outline,
                                         double f_length, double q, double *depth) {
    if (!is_air(first) || !is_positive(outline) || !is_positive(f_length) || !is_positive(q)) {
        return MENSUR_DOMAIN;
    }
    return give(first->depth * (f_length / first->f_length) *
                    exp2(log2(first->outline / outline) / (2.0 * q)),
                depth);
}

enum mensur_status mensur_air_place(double note, double lowest, double *place) {
    if (!is_positive(note) || !is_positive(lowest)) {
        return MENSUR_DOMAIN;
    }
    return give(12.0 * log2(note / lowest), place);
}
