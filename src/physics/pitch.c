/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pitch of open strings along the line of fifths, and of stopped notes above them. */
#include "pitch.h"

#include <float.h>

#include "domain.h"

/* A step inside the octave as a fraction of whole numbers. */
struct fraction {
    int over, under;
};

/* Chromatic scale of pure fifths: five steps by fourths up, the others by fifths (the tritone is
 * the augmented fourth). Construction: Euclid, Sectio canonis. */
static const struct fraction pythagorean[12] = {
    {1, 1},     {256, 243}, {9, 8},    {32, 27}, {81, 64}, {4, 3},
    {729, 512}, {3, 2},     {128, 81}, {27, 16}, {16, 9},  {243, 128},
};

/* Five-limit steps. Minor seventh and tritone have several just forms; 9/5 and 45/32 are common
 * choices, as 10/9 or 7/5 would be others. */
static const struct fraction just[12] = {
    {1, 1},   {16, 15}, {9, 8}, {6, 5}, {5, 4}, {4, 3},
    {45, 32}, {3, 2},   {8, 5}, {5, 3}, {9, 5}, {15, 8},
};

/* Fifths up from the open string to each semitone: the higher note where there are two, and the
 * lower one. */
static const int fifths_high[12] = {0, -5, 2, -3, 4, -1, -6, 1, -4, 3, -2, 5};
static const int fifths_low[12] = {0, 7, 2, 9, 4, -1, 6, 1, 8, 3, -2, 5};

/* Splits a count of semitones into octaves and a rest from 0 to 11. */
static int split_octaves(int semitones, int *rest) {
    *rest = ((semitones % 12) + 12) % 12;
    return (semitones - *rest) / 12;
}

/* Stores a frequency; MENSUR_DOMAIN where it is infinite or denormal (has lost digits). */
static enum mensur_status give_normal(double value, double *out) {
    if (!isfinite(value) || !(value >= DBL_MIN)) {
        return MENSUR_DOMAIN;
    }
    *out = value;
    return MENSUR_OK;
}

enum mensur_status mensur_open_frequency(int semitones_from_a4, int fifths_from_a, double a4,
                                         enum mensur_fifths fifths, double *frequency) {
    long long off = (long long)semitones_from_a4 - 7LL * fifths_from_a;
    if (!isfinite(a4) || !(a4 > 0.0) || off % 12 != 0) {
        return MENSUR_DOMAIN;
    }
    if (fifths == MENSUR_FIFTHS_PURE) {
        long long octaves = off / 12;
        return give_normal(a4 * pow(1.5, fifths_from_a) * exp2((double)octaves), frequency);
    }
    if (fifths == MENSUR_FIFTHS_EQUAL) {
        int rest;
        int octaves = split_octaves(semitones_from_a4, &rest);
        return give_normal(ldexp(a4 * exp2(rest / 12.0), octaves), frequency);
    }
    return MENSUR_DOMAIN;
}

enum mensur_status mensur_meantone_ratio(int semitones, bool low, double *ratio) {
    int rest;
    if (semitones < 0) {
        return MENSUR_DOMAIN;
    }
    int octaves = split_octaves(semitones, &rest);
    int fifths = low ? fifths_low[rest] : fifths_high[rest];
    /* s = 7 k - 12 m, with k fifths less m octaves */
    return give(ldexp(pow(5.0, fifths / 4.0), octaves - (7 * fifths - rest) / 12), ratio);
}

enum mensur_status mensur_step_ratio(int semitones, enum mensur_steps steps, double *ratio) {
    int rest;
    if (semitones < 0) {
        return MENSUR_DOMAIN;
    }
    int octaves = split_octaves(semitones, &rest);
    switch (steps) {
    case MENSUR_STEPS_EQUAL:
        return give(ldexp(exp2(rest / 12.0), octaves), ratio);
    case MENSUR_STEPS_PYTHAGOREAN:
        return give(ldexp((double)pythagorean[rest].over / pythagorean[rest].under, octaves),
                    ratio);
    case MENSUR_STEPS_JUST:
        return give(ldexp((double)just[rest].over / just[rest].under, octaves), ratio);
    case MENSUR_STEPS_QUARTER_COMMA:
        return mensur_meantone_ratio(semitones, rest == 6, ratio);
    default:
        return MENSUR_DOMAIN;
    }
}

enum mensur_status mensur_cents(double low, double high, double *cents) {
    if (!is_positive(low) || !is_positive(high)) {
        return MENSUR_DOMAIN;
    }
    return give(1200.0 * octaves_between(low, high), cents);
}
