/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizes and bands: two tables, and the bands of each size from them. */
#include "bands.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "usual.h"

/* mm. Common practice, no source: violins 4/4 and 3/4 to 1/4, violas, cellos 4/4. From memory:
 * violins 1/8 and 1/16, cellos under 4/4, basses. Stops between the sizes and necks follow the
 * usual proportions; string lengths are computed from them with the usual heights of the size. */
static const struct {
    const char *family;
    double body, stop, neck, string_length, upper, middle, lower, rib;
} sizes[] = {
    {"violin", 355, 195, 130, 328.0, 168, 112, 206, 30.5},    /* 4/4 */
    {"violin", 345, 189, 126, 317.9, 163, 109, 200, 29.9},    /* 7/8 */
    {"violin", 335, 183, 122, 307.8, 156, 105, 195, 29},      /* 3/4 */
    {"violin", 320, 171, 114, 287.7, 145, 97, 182, 28},       /* 1/2 */
    {"violin", 285, 159, 106, 267.5, 133, 91, 163, 26},       /* 1/4 */
    {"violin", 258, 142, 94.5, 238.7, 117, 81, 146, 24.8},    /* 1/8 */
    {"violin", 228, 126, 84, 212.0, 101, 71, 128, 22.9},      /* 1/16 */
    {"viola", 330, 181.2, 120.8, 304.8, 155, 104, 190, 31.9}, /* 13 in (33.0 cm) */
    {"viola", 356, 195.4, 130.3, 328.7, 169, 112, 207, 33.6}, /* 14 in (35.6 cm) */
    {"viola", 380, 211, 140.5, 354.8, 185, 122, 221, 34.8},   /* 38.0 cm */
    {"viola", 390, 216.5, 144.5, 364.4, 188, 125, 226, 35.8}, /* 39.0 cm */
    {"viola", 395, 219, 146, 368.5, 189, 127, 229, 36.3},     /* 39.5 cm */
    {"viola", 400, 222, 148, 373.5, 191, 129, 232, 36.8},     /* 40.0 cm */
    {"viola", 405, 223, 148.5, 375.0, 192, 130, 235, 37.3},   /* 40.5 cm */
    {"viola", 410, 224, 149.5, 377.0, 194, 132, 237, 37.7},   /* 41.0 cm */
    {"viola", 415, 225, 150, 378.5, 195, 133, 240, 38.2},     /* 41.5 cm */
    {"viola", 420, 226, 150.5, 380.1, 197, 135, 243, 38.7},   /* 42.0 cm */
    {"viola", 425, 227, 151.5, 382.1, 198, 137, 246, 39.2},   /* 42.5 cm */
    {"viola", 430, 228, 152, 383.6, 200, 138, 248, 39.7},     /* 43.0 cm */
    {"viola", 435, 229, 152.5, 385.1, 201, 140, 251, 40.2},   /* 43.5 cm */
    {"viola", 405, 214, 142, 359.4, 192, 130, 235, 37.3},     /* five-string viola 40.5 cm (E) */
    {"cello", 755, 400, 280, 689.1, 342, 230, 438, 115},      /* 4/4 */
    {"cello", 730, 383, 268, 659.7, 331, 222, 423, 111.2},    /* 7/8 */
    {"cello", 690, 362, 253.5, 623.7, 313, 210, 400, 105.1},  /* 3/4 */
    {"cello", 645, 332, 232.5, 572.0, 292, 196, 374, 98.2},   /* 1/2 */
    {"cello", 580, 297, 208, 511.7, 263, 177, 336, 88.3},     /* 1/4 */
    {"cello", 720, 375, 262, 645.5, 326, 219, 418, 109.7},    /* five-string cello (E4), 7/8 */
    {"bass", 1160, 622, 452, 1093.2, 543, 376, 679, 191.6},   /* 4/4 (rare) */
    {"bass", 1110, 603, 437, 1058.6, 520, 360, 650, 185},     /* 3/4, D neck */
    {"bass", 1110, 578, 480, 1075.9, 520, 360, 650, 185},     /* 3/4, E-flat neck */
    {"bass", 1020, 560, 404, 981.2, 478, 331, 597, 172.9},    /* 1/2 */
    {"bass", 940, 515, 372, 902.8, 440, 305, 550, 161.9},     /* 1/4 */
};

/* Shares of the usual value: our proposal, from tables of common practice and rows of museums; no
 * standard states any. */
static const struct {
    enum mensur_field field;
    double low, high, slip_low, slip_high;
} shares[] = {
    {MENSUR_FIELD_BODY, 0.93, 1.07, 0.75, 1.35},
    {MENSUR_FIELD_BODY_STRAIGHT, 0.93, 1.07, 0.75, 1.35},
    {MENSUR_FIELD_STOP, 0.94, 1.06, 0.75, 1.35},
    {MENSUR_FIELD_NECK, 0.93, 1.07, 0.75, 1.35},
    {MENSUR_FIELD_STRING_LENGTH, 0.95, 1.05, 0.75, 1.35},
    {MENSUR_FIELD_WIDTH_UPPER, 0.92, 1.08, 0.75, 1.35},
    {MENSUR_FIELD_WIDTH_MIDDLE, 0.9, 1.12, 0.75, 1.35},
    {MENSUR_FIELD_WIDTH_LOWER, 0.93, 1.08, 0.75, 1.35},
    {MENSUR_FIELD_RIB, 0.88, 1.15, 0.65, 1.6},
    {MENSUR_FIELD_OVERSTAND, 0.7, 1.35, 0, 2.0},
    {MENSUR_FIELD_BOARD, 0.7, 1.5, 0.5, 2.2},
    {MENSUR_FIELD_BOARD_NUT, 0.6, 1.3, 0.4, 1.6},
    {MENSUR_FIELD_NUT, 0.5, 2, 0.2, 3.5},
    {MENSUR_FIELD_ARCH, 0.8, 1.25, 0.6, 1.6},
    {MENSUR_FIELD_ARCH_FULL, 0.8, 1.25, 0.6, 1.6},
    {MENSUR_FIELD_PROJECTION, 0.93, 1.07, 0.7, 1.3},
    {MENSUR_FIELD_BRIDGE, 0.92, 1.08, 0.7, 1.3},
    {MENSUR_FIELD_SADDLE, 0.5, 1.6, 0.2, 2.5},
    {MENSUR_FIELD_AFTERLENGTH, 0.85, 1.15, 0.5, 1.6},
    {MENSUR_FIELD_BOARD_LENGTH, 0.94, 1.06, 0.75, 1.2},
    {MENSUR_FIELD_CLEARANCE_LOW, 0.7, 1.4, 0.4, 2.2},
    {MENSUR_FIELD_CLEARANCE_HIGH, 0.7, 1.4, 0.4, 2.2},
    {MENSUR_FIELD_SPACING_BRIDGE, 0.94, 1.06, 0.8, 1.25},
    {MENSUR_FIELD_SPACING_NUT, 0.92, 1.1, 0.75, 1.35},
};

/* mm, of a family's full size. Common practice, no source; basses, and spacings of cellos, from
 * memory. Published: a violin's string of 13 in and spacings between strings of 7/16 and 7/32 in
 * (W. H. Mayson, Violin Making), a viola's of 36 and 17 mm in all (Journal of the American Viola
 * Society, Spring 2025, pp. 45 to 52). */
static const struct {
    const char *family;
    enum mensur_field field;
    double low, high, slip_low, slip_high;
} full[] = {
    {"violin", MENSUR_FIELD_BODY, 352, 359, 340, 372},
    {"violin", MENSUR_FIELD_STRING_LENGTH, 325, 330, 300, 345},
    {"violin", MENSUR_FIELD_WIDTH_UPPER, 165, 170, 150, 182},
    {"violin", MENSUR_FIELD_WIDTH_LOWER, 205, 210, 188, 225},
    {"violin", MENSUR_FIELD_RIB, 29, 31, 24, 38},
    {"violin", MENSUR_FIELD_OVERSTAND, 5.5, 7.5, 0, 10},
    {"violin", MENSUR_FIELD_PROJECTION, 26, 28, 20, 32},
    {"violin", MENSUR_FIELD_CLEARANCE_HIGH, 2.5, 4, 1.5, 6},
    {"violin", MENSUR_FIELD_CLEARANCE_LOW, 4.5, 6, 3, 8.5},
    {"viola", MENSUR_FIELD_OVERSTAND, 7.5, 8.5, 0, 12},
    {"viola", MENSUR_FIELD_PROJECTION, 31, 33, 24, 38},
    {"viola", MENSUR_FIELD_CLEARANCE_HIGH, 3.5, 5, 2, 7},
    {"viola", MENSUR_FIELD_CLEARANCE_LOW, 5.5, 7, 4, 9.5},
    {"cello", MENSUR_FIELD_OVERSTAND, 18, 24, 0, 32},
    {"cello", MENSUR_FIELD_PROJECTION, 79, 82, 65, 92},
    {"cello", MENSUR_FIELD_CLEARANCE_HIGH, 4, 5.5, 2.5, 8},
    {"cello", MENSUR_FIELD_CLEARANCE_LOW, 6.5, 8, 4.5, 11},
    {"bass", MENSUR_FIELD_PROJECTION, 135, 160, 110, 190},
    {"bass", MENSUR_FIELD_CLEARANCE_HIGH, 4.5, 9, 3, 13},
    {"bass", MENSUR_FIELD_CLEARANCE_LOW, 7, 14, 5, 18},
    {"violin", MENSUR_FIELD_SPACING_BRIDGE, 32.5, 35, 28, 40},
    {"violin", MENSUR_FIELD_SPACING_NUT, 15.5, 17.5, 12, 20},
    {"viola", MENSUR_FIELD_SPACING_BRIDGE, 35, 38, 30, 42},
    {"viola", MENSUR_FIELD_SPACING_NUT, 16.5, 18, 13, 21},
    {"cello", MENSUR_FIELD_SPACING_BRIDGE, 45, 49, 40, 54},
    {"cello", MENSUR_FIELD_SPACING_NUT, 20.5, 23.5, 17, 28},
    {"bass", MENSUR_FIELD_SPACING_BRIDGE, 78, 90, 70, 100},
    {"bass", MENSUR_FIELD_SPACING_NUT, 28, 33, 24, 40},
};

#define COUNT_OF(list) (sizeof(list) / sizeof((list)[0]))

/* Usual values are told to three digits or two, and so are the shares. */
static const double rounding = 1.02;

/* Stops this near to a family's reference stop are its full size. */
static const double full_size = 0.01;

static void unknown(struct mensur_bands *size) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        size->of[f] = (struct mensur_band){NAN, NAN, NAN, NAN, NAN};
    }
}

/* The usual values at a stop. */
static void fill_usual(const struct mensur_size *at, struct mensur_bands *size) {
    for (size_t i = 0; i < COUNT_OF(shares); i++) {
        size->of[shares[i].field].usual = mensur_size_usual(at, shares[i].field);
    }
    size->of[MENSUR_FIELD_ARCH_FULL].usual =
        size->of[MENSUR_FIELD_ARCH].usual + mensur_size_usual(at, MENSUR_FIELD_EDGE);
}

/* The lengths of a row of the table in their place, and what follows from them. */
static void fill_lengths(const struct mensur_size *at, size_t row, struct mensur_bands *size) {
    double string = sizes[row].string_length / 1000.0;
    size->of[MENSUR_FIELD_BODY].usual = sizes[row].body / 1000.0;
    size->of[MENSUR_FIELD_BODY_STRAIGHT].usual = sizes[row].body / 1000.0;
    size->of[MENSUR_FIELD_STOP].usual = sizes[row].stop / 1000.0;
    size->of[MENSUR_FIELD_NECK].usual = sizes[row].neck / 1000.0;
    size->of[MENSUR_FIELD_STRING_LENGTH].usual = string;
    size->of[MENSUR_FIELD_WIDTH_UPPER].usual = sizes[row].upper / 1000.0;
    size->of[MENSUR_FIELD_WIDTH_MIDDLE].usual = sizes[row].middle / 1000.0;
    size->of[MENSUR_FIELD_WIDTH_LOWER].usual = sizes[row].lower / 1000.0;
    size->of[MENSUR_FIELD_RIB].usual = sizes[row].rib / 1000.0;
    size->of[MENSUR_FIELD_BOARD_LENGTH].usual = string * mensur_size_board_share(at);
    size->of[MENSUR_FIELD_AFTERLENGTH].usual = string * MENSUR_USUAL_AFTERLENGTH_SHARE;
}

static void fill_shares(struct mensur_bands *size) {
    for (size_t i = 0; i < COUNT_OF(shares); i++) {
        struct mensur_band *bands = &size->of[shares[i].field];
        bands->low = shares[i].low * bands->usual / rounding;
        bands->high = shares[i].high * bands->usual * rounding;
        bands->slip_low = shares[i].slip_low * bands->usual;
        bands->slip_high = shares[i].slip_high * bands->usual;
    }
}

/* At the full size the bands in mm rule; where such a band holds the usual value of a size beside
 * it, both do. */
static void fill_full(const struct mensur_family *family, double stop, struct mensur_bands *size) {
    bool is_full = fabs(stop / family->usual[MENSUR_FIELD_STOP] - 1.0) < full_size;
    for (size_t i = 0; i < COUNT_OF(full); i++) {
        struct mensur_band *bands = &size->of[full[i].field];
        double low = full[i].low / 1000.0, high = full[i].high / 1000.0;
        if (strcmp(full[i].family, family->name) == 0 && bands->usual >= low &&
            bands->usual <= high) {
            bands->low = is_full ? low : fmin(bands->low, low);
            bands->high = is_full ? high : fmax(bands->high, high);
            bands->slip_low = fmin(bands->slip_low, full[i].slip_low / 1000.0);
            bands->slip_high = fmax(bands->slip_high, full[i].slip_high / 1000.0);
        }
    }
}

enum mensur_status mensur_bands_make(struct mensur_stock *stock) {
    struct mensur_bands *made = malloc(COUNT_OF(sizes) * sizeof *made);
    size_t count = 0;
    if (made == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        const struct mensur_family *family = mensur_stock_family(stock, sizes[i].family);
        if (family == NULL) {
            continue;
        }
        double stop = sizes[i].stop / 1000.0;
        struct mensur_size at = mensur_size_at(stock, family, stop);
        struct mensur_bands *size = &made[count++];
        unknown(size);
        size->family = (size_t)(family - stock->families);
        fill_usual(&at, size);
        fill_lengths(&at, i, size);
        fill_shares(size);
        fill_full(family, stop, size);
    }
    free(stock->bands);
    stock->bands = made;
    stock->band_count = count;
    return MENSUR_OK;
}

void mensur_bands_at(const struct mensur_stock *stock, const struct mensur_family *family,
                     double stop, struct mensur_bands *out) {
    struct mensur_size at = mensur_size_at(stock, family, stop);
    unknown(out);
    out->family = (size_t)(family - stock->families);
    fill_usual(&at, out);
    fill_shares(out);
}
