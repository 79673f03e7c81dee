/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which size a row is, and which of its cells are slips. Most rows are sound at the first size that
 * is tried; only of the others is every size tried with every slip of a whole row. */
#include "plausible.h"

#include <stdio.h>
#include <string.h>

#include "number.h"
#include "bands.h"

/* A height above 0 under this is no measurement, even where 0 is lawful. */
static const double least_m = 0.00005;
/* Beyond the plausible band by this share a mended value is still near to it (ours): the size may
 * be one between those that are known, and the bands of the full sizes are narrow. */
static const double nearness = 0.1;
/* A neck over this share of the usual one was measured with the head (common practice). */
static const double head_share = 1.5;
/* Measured strings are longer than stop + neck by 0.9 % or more; equal to within this (and to
 * within the rounding of what was written) they were added. */
static const double sum_most_m = 0.0003;
/* Below the last place that anybody writes. */
static const double exact_m = 1e-9;

/* What mends a cell, or all cells of a row. */
static const struct {
    enum mensur_slip slip;
    double factor;
} units[] = {{MENSUR_SLIP_INCHES, MENSUR_MM_PER_INCH},
             {MENSUR_SLIP_CENTIMETRES, 10.0},
             {MENSUR_SLIP_METRES, 1000.0},
             {MENSUR_SLIP_POINT, 0.1},
             {MENSUR_SLIP_POINT, 1.0 / MENSUR_MM_PER_INCH},
             {MENSUR_SLIP_POINT, 0.01},
             {MENSUR_SLIP_POINT, 0.001}};

enum { UNIT_COUNT = sizeof units / sizeof units[0], NO_UNIT = -1 };

/* What is thought to have happened to a whole row: it stands as it is, stop and neck are exchanged,
 * or all is in the unit of that number. */
enum { AS_IT_IS = -2, EXCHANGED = -1 };

/* What a row costs: the least dear story is told, which is the one of the size that leaves the
 * fewest cells outside their plausible bands. Two slips of one unit are dearer than one of the
 * whole row. */
static const double cost_unusual = 2.0, cost_slip = 3.0, cost_unknown = 3.75;
/* A neck longer than the stop is on no instrument, so both unusual cells are dearer than this. */
static const double cost_exchanged = 1.5;

enum place { PLAUSIBLE, UNUSUAL, SLIP };

static enum place place_of(const struct mensur_band *bands, double value) {
    bool zero_is_lawful = !(bands->slip_low > 0.0);
    if (value < bands->slip_low || value > bands->slip_high ||
        (zero_is_lawful && value > 0.0 && value < least_m)) {
        return SLIP;
    }
    return value < bands->low || value > bands->high ? UNUSUAL : PLAUSIBLE;
}

/* How far a value is from the usual one, as the logarithm of their ratio; at most 1. */
static double distance(const struct mensur_band *bands, double value) {
    double apart = fabs(log(value / bands->usual));
    return apart < 1.0 ? apart : 1.0;
}

/* The unit that leads a value into the plausible band or near to it; NO_UNIT where none does, or
 * two do. */
static int mending_unit(const struct mensur_band *bands, double value) {
    int found = NO_UNIT;
    for (int i = 0; i < UNIT_COUNT && value > 0.0; i++) {
        double mended = value * units[i].factor;
        if (mended > (1.0 - nearness) * bands->low && mended < (1.0 + nearness) * bands->high) {
            if (found != NO_UNIT) {
                return NO_UNIT;
            }
            found = i;
        }
    }
    return found;
}

/* A story of a row. */
struct story {
    const struct mensur_bands *size;
    int what;
    double cost, distance;
};

/* A row's values under a story. */
static void values_of(const double *given, int what, double *values) {
    memcpy(values, given, MENSUR_FIELD_COUNT * sizeof *values);
    if (what == EXCHANGED) {
        values[MENSUR_FIELD_STOP] = given[MENSUR_FIELD_NECK];
        values[MENSUR_FIELD_NECK] = given[MENSUR_FIELD_STOP];
    }
    for (int f = 0; f < MENSUR_FIELD_COUNT && what >= 0; f++) {
        values[f] = given[f] * units[what].factor;
    }
}

static void weigh(const double *given, struct story *story) {
    double values[MENSUR_FIELD_COUNT];
    values_of(given, story->what, values);
    story->cost = story->what == AS_IT_IS    ? 0.0
                  : story->what == EXCHANGED ? cost_exchanged
                                             : cost_slip;
    story->distance = 0.0;
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        const struct mensur_band *bands = &story->size->of[f];
        if (isnan(values[f]) || isnan(bands->usual)) {
            continue;
        }
        enum place place = place_of(bands, values[f]);
        int unit = place == SLIP ? mending_unit(bands, values[f]) : NO_UNIT;
        story->distance += distance(bands, unit >= 0 ? values[f] * units[unit].factor : values[f]);
        story->cost += place == PLAUSIBLE ? 0.0
                       : place == UNUSUAL ? cost_unusual
                       : unit >= 0        ? cost_slip
                                          : cost_unknown;
    }
}

/* Stories of one size; the row's slips need two cells or more that tell of them. */
static void try_size(const double *given, size_t lengths, const struct mensur_bands *size,
                     struct story *best) {
    for (int what = AS_IT_IS; what < UNIT_COUNT; what++) {
        struct story story = {.size = size, .what = what};
        bool turned = given[MENSUR_FIELD_NECK] > given[MENSUR_FIELD_STOP];
        if ((what == EXCHANGED && !turned) || (what >= 0 && lengths < 2)) {
            continue;
        }
        weigh(given, &story);
        if (best->size == NULL || story.cost < best->cost ||
            (!(story.cost > best->cost) && story.distance < best->distance)) {
            *best = story;
        }
    }
}

/* Whether all of these fields are plausible at a size. */
static bool is_sound(const double *given, const int *fields, size_t count,
                     const struct mensur_bands *size) {
    for (size_t i = 0; i < count; i++) {
        const struct mensur_band *bands = &size->of[fields[i]];
        double value = given[fields[i]];
        if (value < bands->low || value > bands->high) {
            return false;
        }
    }
    return true;
}

static struct mensur_finding *add(struct mensur_findings *out, enum mensur_slip slip,
                                  enum mensur_field field, double value, double mended,
                                  const struct mensur_band *bands) {
    struct mensur_finding *finding = &out->items[out->count++];
    *finding = (struct mensur_finding){.slip = slip,
                                       .field = field,
                                       .value = value,
                                       .mended = mended,
                                       .low = bands != NULL ? bands->low : NAN,
                                       .high = bands != NULL ? bands->high : NAN};
    return finding;
}

/* The value with two neighbouring digits exchanged that is plausible; NaN where there is none. */
static double with_digits_exchanged(const struct mensur_band *bands, double value) {
    char text[MENSUR_NUMBER_ROOM];
    size_t length = mensur_number_print_significant(value * 1000.0, 6, text);
    for (size_t i = 0; i + 1 < length; i++) {
        double other;
        size_t used;
        char left = text[i], right = text[i + 1];
        if (left < '0' || right < '0' || left == right || left > '9' || right > '9') {
            continue;
        }
        text[i] = right;
        text[i + 1] = left;
        if (mensur_number_read(text, length, false, &used, &other) == MENSUR_OK &&
            place_of(bands, other / 1000.0) == PLAUSIBLE) {
            return other / 1000.0;
        }
        text[i] = left;
        text[i + 1] = right;
    }
    return NAN;
}

/* The arch that a measurement from the ribs' plane would leave; NaN where it was none. */
static double less_the_edge(const double *given, const struct mensur_bands *size, double edge) {
    const struct mensur_band *bands = &size->of[MENSUR_FIELD_ARCH];
    double arch = given[MENSUR_FIELD_ARCH] -
                  (isnan(given[MENSUR_FIELD_EDGE]) ? edge : given[MENSUR_FIELD_EDGE]);
    bool fits =
        given[MENSUR_FIELD_ARCH] > bands->high && arch > 0.0 && place_of(bands, arch) == PLAUSIBLE;
    return fits ? arch : NAN;
}

static void judge_cell(const double *given, const struct mensur_bands *size,
                       enum mensur_field field, double value, struct mensur_findings *out) {
    const struct mensur_band *bands = &size->of[field];
    enum place place = place_of(bands, value);
    double edge = size->of[MENSUR_FIELD_ARCH_FULL].usual - size->of[MENSUR_FIELD_ARCH].usual;
    if (place == PLAUSIBLE) {
        return;
    }
    if (field == MENSUR_FIELD_ARCH && !isnan(less_the_edge(given, size, edge))) {
        add(out, MENSUR_SLIP_RIB_PLANE, field, value, NAN, bands);
        return;
    }
    if (place == UNUSUAL) {
        add(out, MENSUR_SLIP_UNUSUAL, field, value, NAN, bands);
        return;
    }
    int unit = mending_unit(bands, value);
    double exchanged = unit < 0 ? with_digits_exchanged(bands, value) : NAN;
    if (unit >= 0) {
        add(out, units[unit].slip, field, value, value * units[unit].factor, bands);
    } else if (!isnan(exchanged)) {
        add(out, MENSUR_SLIP_DIGITS, field, value, exchanged, bands);
    } else if (field == MENSUR_FIELD_NECK && value > head_share * bands->usual) {
        add(out, MENSUR_SLIP_HEAD, field, value, NAN, bands);
    } else {
        add(out, MENSUR_SLIP_UNKNOWN, field, value, NAN, bands);
    }
}

/* Half of the last place that a length was written to, m: whole mm to 0.01 mm; beyond those 0. */
static double rounding_of(double value) {
    double step = 0.001;
    while (step > 0.00000999 && fabs(remainder(value, step)) > exact_m) {
        step /= 10.0;
    }
    return step > 0.00000999 ? fmin(step / 2.0, sum_most_m) : 0.0;
}

static void judge_sum(const double *given, struct mensur_findings *out) {
    double string = given[MENSUR_FIELD_STRING_LENGTH];
    double sum = given[MENSUR_FIELD_STOP] + given[MENSUR_FIELD_NECK];
    if (fabs(string - sum) <= rounding_of(string) + exact_m) {
        add(out, MENSUR_SLIP_SUM, MENSUR_FIELD_STRING_LENGTH, string, NAN, NULL);
    }
}

/* Tells the story of a row. */
static void tell(const double *given, const struct story *story, struct mensur_findings *out) {
    double values[MENSUR_FIELD_COUNT];
    if (story->what >= 0) {
        int first = 0;
        while (isnan(given[first]) || !(given[first] > 0.0)) {
            first++;
        }
        add(out, units[story->what].slip, (enum mensur_field)first, given[first],
            given[first] * units[story->what].factor, NULL)
            ->row = true;
        return;
    }
    values_of(given, story->what, values);
    if (story->what == EXCHANGED) {
        add(out, MENSUR_SLIP_EXCHANGED, MENSUR_FIELD_STOP, given[MENSUR_FIELD_STOP],
            given[MENSUR_FIELD_NECK], NULL);
    }
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        judge_cell(values, story->size, (enum mensur_field)f, values[f], out);
    }
}

/* Tries every size of a family; one without sizes at the row's own stop, in `own`. */
static void try_sizes(const struct mensur_stock *stock, const struct mensur_family *family,
                      const double *given, size_t lengths, struct mensur_bands *own,
                      struct story *best) {
    size_t number = (size_t)(family - stock->families);
    for (size_t i = 0; i < stock->band_count; i++) {
        if (stock->bands[i].family == number) {
            try_size(given, lengths, &stock->bands[i], best);
        }
    }
    if (best->size == NULL) {
        mensur_bands_at(stock, family, given[MENSUR_FIELD_STOP], own);
        try_size(given, lengths, own, best);
    }
}

void mensur_judge(const struct mensur_stock *stock, const struct mensur_family *family,
                  const struct mensur_quantity *measure, struct mensur_findings *out) {
    double given[MENSUR_FIELD_COUNT];
    int fields[MENSUR_FIELD_COUNT];
    size_t count = 0, lengths = 0;
    out->count = 0;
    if (family == NULL) {
        return;
    }
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        given[f] = measure[f].value;
        if (!isnan(given[f])) {
            fields[count++] = f;
        }
    }
    size_t number = (size_t)(family - stock->families);
    for (size_t i = 0; i < stock->band_count; i++) {
        if (stock->bands[i].family == number && is_sound(given, fields, count, &stock->bands[i])) {
            judge_sum(given, out);
            return;
        }
    }
    for (size_t i = 0; i < count; i++) {
        lengths += given[fields[i]] > 0.0 &&
                   mensur_field_info((enum mensur_field)fields[i])->kind == MENSUR_LENGTH;
    }
    struct mensur_bands own;
    struct story story = {.size = NULL};
    try_sizes(stock, family, given, lengths, &own, &story);
    tell(given, &story, out);
    if (story.what == AS_IT_IS) {
        judge_sum(given, out);
    }
}

const struct mensur_finding *mensur_finding_of(const struct mensur_findings *findings,
                                               enum mensur_field one, enum mensur_field other) {
    for (size_t i = 0; i < findings->count; i++) {
        const struct mensur_finding *finding = &findings->items[i];
        bool exchanged = finding->slip == MENSUR_SLIP_EXCHANGED &&
                         (one == MENSUR_FIELD_NECK || other == MENSUR_FIELD_NECK);
        bool mends = finding->slip != MENSUR_SLIP_UNUSUAL && finding->slip != MENSUR_SLIP_UNKNOWN;
        if (mends &&
            (finding->row || exchanged || finding->field == one || finding->field == other)) {
            return finding;
        }
    }
    return NULL;
}

/* A length as a bare number of a cell. */
static const char *bare(double metres, char *room) {
    mensur_number_print_significant(mensur_from_si(MENSUR_LENGTH, metres), 6, room);
    return room;
}

void mensur_finding_subject(const struct mensur_finding *finding, char *out) {
    if (finding->row) {
        snprintf(out, MENSUR_FINDING_ROOM, "all its measurements");
    } else {
        char value[MENSUR_NUMBER_ROOM];
        snprintf(out, MENSUR_FINDING_ROOM, "%s %.40s", mensur_field_info(finding->field)->name,
                 bare(finding->value, value));
    }
}

void mensur_finding_hint(const struct mensur_finding *finding, char *out) {
    static const struct {
        const char *words;
        const char *unit; /* of the value as it was given; NULL: the mended one is written, in mm */
    } hints[] = {
        [MENSUR_SLIP_UNUSUAL] = {"unusual", NULL},
        [MENSUR_SLIP_INCHES] = {"inches?", " in"},
        [MENSUR_SLIP_CENTIMETRES] = {"centimetres?", " cm"},
        [MENSUR_SLIP_METRES] = {"metres?", " m"},
        [MENSUR_SLIP_POINT] = {"a point lost, or millimetres marked otherwise?", NULL},
        [MENSUR_SLIP_DIGITS] = {"two digits exchanged?", NULL},
        [MENSUR_SLIP_EXCHANGED] = {"stop and neck exchanged?", NULL},
        [MENSUR_SLIP_HEAD] = {"measured with the head? it ends at the nut", NULL},
        [MENSUR_SLIP_RIB_PLANE] = {"measured from the ribs' plane? write it as arch_full", NULL},
        [MENSUR_SLIP_SUM] = {"stop and neck added? measure from nut to bridge", NULL},
        [MENSUR_SLIP_UNKNOWN] = {"measure again", NULL},
    };
    const char *words = hints[finding->slip].words, *unit = hints[finding->slip].unit;
    const char *name = mensur_field_info(finding->field)->name;
    char given[MENSUR_NUMBER_ROOM], mended[MENSUR_NUMBER_ROOM];
    const char *cell = unit != NULL ? bare(finding->value, given) : bare(finding->mended, mended);
    if (finding->slip == MENSUR_SLIP_UNUSUAL) {
        snprintf(out, MENSUR_FINDING_ROOM, "%s; %.40s to %.40s mm is common at this size", words,
                 bare(round(finding->low * 1e4) / 1e4, given),
                 bare(round(finding->high * 1e4) / 1e4, mended));
    } else if (isnan(finding->mended)) {
        snprintf(out, MENSUR_FINDING_ROOM, "%s", words);
    } else if (finding->slip == MENSUR_SLIP_EXCHANGED) {
        snprintf(out, MENSUR_FINDING_ROOM, "%s write %.40s mm, and %.40s mm for neck", words, cell,
                 bare(finding->value, given));
    } else {
        snprintf(out, MENSUR_FINDING_ROOM, "%s write %s%s%.40s%s%s", words,
                 finding->row ? name : "", finding->row ? " " : "", cell,
                 unit != NULL ? unit : " mm", finding->row ? ", and the others so too" : "");
    }
}
