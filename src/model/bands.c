/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bands: two tables, and the bands of each size of a family from them. */
#include "bands.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "usual.h"

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

/* The lengths of a size in their place, and what follows from them. */
static void fill_lengths(const struct mensur_size *at, const struct mensur_named_size *row,
                         struct mensur_bands *size) {
    size->of[MENSUR_FIELD_BODY].usual = row->body;
    size->of[MENSUR_FIELD_BODY_STRAIGHT].usual = row->body;
    size->of[MENSUR_FIELD_STOP].usual = row->stop;
    size->of[MENSUR_FIELD_NECK].usual = row->neck;
    size->of[MENSUR_FIELD_STRING_LENGTH].usual = row->string_length;
    size->of[MENSUR_FIELD_WIDTH_UPPER].usual = row->width_upper;
    size->of[MENSUR_FIELD_WIDTH_MIDDLE].usual = row->width_middle;
    size->of[MENSUR_FIELD_WIDTH_LOWER].usual = row->width_lower;
    size->of[MENSUR_FIELD_RIB].usual = row->rib;
    size->of[MENSUR_FIELD_BOARD_LENGTH].usual = row->string_length * mensur_size_board_share(at);
    size->of[MENSUR_FIELD_AFTERLENGTH].usual =
        row->string_length * mensur_size_afterlength_share(at);
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
    const char *kind = family->like != NULL ? family->like : family->name;
    bool is_full = fabs(stop / family->usual[MENSUR_FIELD_STOP] - 1.0) < full_size;
    for (size_t i = 0; i < COUNT_OF(full); i++) {
        struct mensur_band *bands = &size->of[full[i].field];
        double low = full[i].low / 1000.0, high = full[i].high / 1000.0;
        if (strcmp(full[i].family, kind) == 0 && bands->usual >= low && bands->usual <= high) {
            bands->low = is_full ? low : fmin(bands->low, low);
            bands->high = is_full ? high : fmax(bands->high, high);
            bands->slip_low = fmin(bands->slip_low, full[i].slip_low / 1000.0);
            bands->slip_high = fmax(bands->slip_high, full[i].slip_high / 1000.0);
        }
    }
}

/* A family's sizes are its own, those of the family it is like, and of families like it. */
static bool shares_sizes(const struct mensur_family *family, const struct mensur_family *of) {
    return family == of || (family->like != NULL && strcmp(family->like, of->name) == 0) ||
           (of->like != NULL && strcmp(of->like, family->name) == 0);
}

static void make_size(const struct mensur_stock *stock, const struct mensur_family *family,
                      const struct mensur_named_size *row, struct mensur_bands *out) {
    struct mensur_size at = mensur_size_at(stock, family, row->stop);
    unknown(out);
    out->family = (size_t)(family - stock->families);
    fill_usual(&at, out);
    fill_lengths(&at, row, out);
    fill_shares(out);
    fill_full(family, row->stop, out);
}

enum mensur_status mensur_bands_make(struct mensur_stock *stock) {
    size_t most = stock->family_count * stock->size_count, count = 0;
    struct mensur_bands *made = most == 0 ? NULL : malloc(most * sizeof *made);
    if (made == NULL && most > 0) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 0; i < most; i++) {
        const struct mensur_family *family = &stock->families[i / stock->size_count];
        const struct mensur_named_size *row = &stock->sizes[i % stock->size_count];
        const struct mensur_family *of = mensur_stock_family(stock, row->family);
        if (of != NULL && shares_sizes(family, of)) {
            make_size(stock, family, row, &made[count++]);
        }
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
