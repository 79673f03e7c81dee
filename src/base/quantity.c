/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A measured value read from the text of a cell: number, unit, standard uncertainty (±).
 *
 * The units are exact by definition: 1 lbf = 0.45359237 kg x 9.80665 m/s2 (NIST SP 811, BIPM SI
 * brochure; from memory).
 */
#include "quantity.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "number.h"
#include "out_of_line.h"

#define PI 3.14159265358979323846
#define NEWTONS_PER_KGF 9.80665
#define NEWTONS_PER_LBF 4.4482216152605

/* SI = value * times / over; both are exact doubles, where a single factor might not be. */
struct mensur_unit {
    enum mensur_kind kind;
    const char *text;
    double times, over;
    bool inch; /* may carry a fraction */
};

/* Units of numbers without a unit. */
static const struct mensur_unit bare_units[MENSUR_KIND_COUNT] = {
    [MENSUR_LENGTH] = {MENSUR_LENGTH, "mm", 1, 1000, false},
    [MENSUR_FORCE] = {MENSUR_FORCE, "N", 1, 1, false},
    [MENSUR_LINEAR_DENSITY] = {MENSUR_LINEAR_DENSITY, "g/m", 1, 1000, false},
    [MENSUR_MODULUS] = {MENSUR_MODULUS, "GPa", 1e9, 1, false},
    [MENSUR_STRESS] = {MENSUR_STRESS, "MPa", 1e6, 1, false},
    [MENSUR_DENSITY] = {MENSUR_DENSITY, "kg/m3", 1, 1, false},
    [MENSUR_FREQUENCY] = {MENSUR_FREQUENCY, "Hz", 1, 1, false},
    [MENSUR_ANGLE] = {MENSUR_ANGLE, "deg", PI, 180, false},
    [MENSUR_SEMITONES] = {MENSUR_SEMITONES, "", 1, 1, false},
    [MENSUR_NUMBER] = {MENSUR_NUMBER, "", 1, 1, false},
    [MENSUR_MASS] = {MENSUR_MASS, "g", 1, 1000, false},
    [MENSUR_VOLUME] = {MENSUR_VOLUME, "cm3", 1, 1e6, false},
};

/* Units that may be written. */
static const struct mensur_unit other_units[] = {
    {MENSUR_LENGTH, "cm", 1, 100, false},
    {MENSUR_LENGTH, "m", 1, 1, false},
    {MENSUR_LENGTH, "in", MENSUR_MM_PER_INCH, 1000, true},
    {MENSUR_LENGTH, "inch", MENSUR_MM_PER_INCH, 1000, true},
    {MENSUR_LENGTH, "inches", MENSUR_MM_PER_INCH, 1000, true},
    {MENSUR_LENGTH, "\"", MENSUR_MM_PER_INCH, 1000, true},
    {MENSUR_LENGTH, "\xE2\x80\xB3", MENSUR_MM_PER_INCH, 1000, true}, /* double prime */
    {MENSUR_LENGTH, "\xE2\x80\x9D", MENSUR_MM_PER_INCH, 1000,
     true},                                          /* closing quotation mark, typed for " */
    {MENSUR_FORCE, "kg", NEWTONS_PER_KGF, 1, false}, /* the trade's word for kgf */
    {MENSUR_FORCE, "kp", NEWTONS_PER_KGF, 1, false},
    {MENSUR_FORCE, "kgf", NEWTONS_PER_KGF, 1, false},
    {MENSUR_FORCE, "lb", NEWTONS_PER_LBF, 1, false}, /* the trade's word for lbf */
    {MENSUR_FORCE, "lbs", NEWTONS_PER_LBF, 1, false},
    {MENSUR_FORCE, "lbf", NEWTONS_PER_LBF, 1, false},
    {MENSUR_MASS, "mg", 1, 1e6, false},
    {MENSUR_MASS, "kg", 1, 1, false},
    {MENSUR_LINEAR_DENSITY, "kg/m", 1, 1, false},
    {MENSUR_LINEAR_DENSITY, "mg/m", 1, 1e6, false},
    {MENSUR_MODULUS, "MPa", 1e6, 1, false},
    {MENSUR_STRESS, "GPa", 1e9, 1, false},
    {MENSUR_DENSITY, "kg/m\xC2\xB3", 1, 1, false},
    {MENSUR_DENSITY, "g/cm3", 1000, 1, false},
    {MENSUR_DENSITY, "g/cm\xC2\xB3", 1000, 1, false},
    {MENSUR_ANGLE, "\xC2\xB0", PI, 180, false},
};

#define OTHER_COUNT (sizeof(other_units) / sizeof(other_units[0]))

static const char *const wanted[MENSUR_KIND_COUNT] = {
    [MENSUR_LENGTH] = "a length, for example 222, 222 mm or 8-3/4\"",
    [MENSUR_FORCE] = "a force, for example 62, 62 N, 6.3 kg or 14 lb",
    [MENSUR_LINEAR_DENSITY] = "a mass by length, for example 2.4, 2.4 g/m or 0.0024 kg/m",
    [MENSUR_MODULUS] = "a modulus, for example 5.5, 5.5 GPa or 5500 MPa",
    [MENSUR_STRESS] = "a stress, for example 320, 320 MPa or 0.32 GPa",
    [MENSUR_DENSITY] = "a density, for example 1300, 1300 kg/m3 or 1.3 g/cm3",
    [MENSUR_FREQUENCY] = "a frequency, for example 440 or 440 Hz",
    [MENSUR_ANGLE] = "an angle in degrees, for example 45 or 45 deg",
    [MENSUR_SEMITONES] = "a count of semitones, for example 5",
    [MENSUR_NUMBER] = "a number, for example 4",
    [MENSUR_MASS] = "a mass, for example 0.36, 0.36 g or 360 mg",
    [MENSUR_VOLUME] = "a volume, for example 2000 or 2000 cm3",
};

/* The text that is still to be read. */
struct rest {
    const char *at, *end;
    bool decimal_comma;
};

static const struct mensur_unit *bare_unit(enum mensur_kind kind) {
    return &bare_units[kind < MENSUR_KIND_COUNT ? kind : MENSUR_NUMBER];
}

/* Bytes of the blank that starts at at: a space, a tab, a no-break or narrow no-break space. */
static size_t blank_at(const char *at, const char *end) {
    if (at < end && (*at == ' ' || *at == '\t' || *at == '\n' || *at == '\r')) {
        return 1;
    }
    if (end - at >= 2 && memcmp(at, "\xC2\xA0", 2) == 0) {
        return 2;
    }
    if (end - at >= 3 &&
        (memcmp(at, "\xE2\x80\xAF", 3) == 0 || memcmp(at, "\xE2\x80\x89", 3) == 0)) {
        return 3;
    }
    return 0;
}

static void pass_blanks(struct rest *rest) {
    size_t bytes;
    while ((bytes = blank_at(rest->at, rest->end)) > 0) {
        rest->at += bytes;
    }
}

static bool pass(struct rest *rest, const char *text) {
    size_t length = strlen(text);
    if ((size_t)(rest->end - rest->at) < length || memcmp(rest->at, text, length) != 0) {
        return false;
    }
    rest->at += length;
    return true;
}

/* A whole number, as in a fraction; at most nine digits, so that a double holds it exactly. */
static bool read_whole(struct rest *rest, double *value) {
    const char *start = rest->at;
    double sum = 0;
    while (rest->at < rest->end && *rest->at >= '0' && *rest->at <= '9' && rest->at - start < 9) {
        sum = sum * 10 + (*rest->at++ - '0');
    }
    *value = sum;
    return rest->at > start;
}

/* digits/digits; reads nothing where that does not follow. */
static bool read_fraction(struct rest *rest, double *value) {
    struct rest trial = *rest;
    double above, below;
    if (!read_whole(&trial, &above) || !pass(&trial, "/") || !read_whole(&trial, &below) ||
        !(below > 0)) {
        return false;
    }
    *value = above / below;
    *rest = trial;
    return true;
}

/* [digits (- or blanks)] digits/digits. */
static bool read_mixed(struct rest *rest, double *value) {
    struct rest trial = *rest;
    double whole, part;
    if (read_fraction(&trial, value)) {
        *rest = trial;
        return true;
    }
    if (!read_whole(&trial, &whole)) {
        return false;
    }
    const char *gap = trial.at;
    pass_blanks(&trial);
    if (!pass(&trial, "-") && trial.at == gap) {
        return false;
    }
    pass_blanks(&trial);
    if (!read_fraction(&trial, &part)) {
        return false;
    }
    *value = whole + part;
    *rest = trial;
    return true;
}

/* A number, or a fraction where one is allowed; the sign was read before. */
static bool read_size(struct rest *rest, bool may_be_fraction, bool *fraction, double *value) {
    size_t used;
    *fraction = may_be_fraction && read_mixed(rest, value);
    if (*fraction) {
        return true;
    }
    if (rest->at < rest->end && (*rest->at == '+' || *rest->at == '-')) {
        return false; /* two signs */
    }
    if (mensur_number_read(rest->at, (size_t)(rest->end - rest->at), rest->decimal_comma, &used,
                           value) != MENSUR_OK) {
        return false;
    }
    rest->at += used;
    return true;
}

/* The longest unit of the kind that the text goes on with; NULL where there is none. */
static const struct mensur_unit *read_unit(struct rest *rest, enum mensur_kind kind) {
    const struct mensur_unit *longest = NULL, *bare = bare_unit(kind);
    size_t most = 0;
    for (size_t i = 0; i <= OTHER_COUNT; i++) {
        const struct mensur_unit *unit = i == 0 ? bare : &other_units[i - 1];
        struct rest trial = *rest;
        size_t length = strlen(unit->text);
        if (unit->kind == bare->kind && length > most && pass(&trial, unit->text)) {
            longest = unit;
            most = length;
        }
    }
    rest->at += most;
    return longest;
}

/* One value as written: its number, its unit (NULL where bare). */
struct written {
    double value;
    const struct mensur_unit *unit;
    bool fraction;
};

static bool read_written(struct rest *rest, enum mensur_kind kind, struct written *out) {
    if (!read_size(rest, kind == MENSUR_LENGTH, &out->fraction, &out->value)) {
        return false;
    }
    pass_blanks(rest);
    out->unit = read_unit(rest, kind);
    pass_blanks(rest);
    return true;
}

/* ±, +- or +/- and what follows it, if anything does. */
static bool read_plus_minus(struct rest *rest, enum mensur_kind kind, struct written *out) {
    if (!pass(rest, "\xC2\xB1") && !pass(rest, "+-") && !pass(rest, "+/-")) {
        return true;
    }
    pass_blanks(rest);
    return read_written(rest, kind, out);
}

static double in_si(const struct mensur_unit *unit, double value) {
    return value * unit->times / unit->over;
}

/* A fraction must be one of an inch. */
static bool unit_suits(const struct written *written, const struct mensur_unit *unit) {
    return !written->fraction || unit->inch;
}

/* `bare` is the unit of a number that has none. */
MENSUR_OUT_OF_LINE static enum mensur_status read_whole_text(struct rest rest,
                                                             enum mensur_kind kind,
                                                             const struct mensur_unit *bare,
                                                             struct mensur_quantity *out) {
    struct written value, spread = {0};
    pass_blanks(&rest);
    bool negative = pass(&rest, "-");
    if (!negative) {
        pass(&rest, "+");
    }
    if (!read_written(&rest, kind, &value) || !read_plus_minus(&rest, kind, &spread) ||
        rest.at != rest.end) {
        return MENSUR_DATA;
    }
    /* one unit that is written holds for both numbers */
    const struct mensur_unit *unit = value.unit != NULL ? value.unit : spread.unit;
    unit = unit != NULL ? unit : bare;
    const struct mensur_unit *spread_unit = spread.unit != NULL ? spread.unit : unit;
    double si = in_si(unit, value.value), spread_si = in_si(spread_unit, spread.value);
    if (!unit_suits(&value, unit) || !unit_suits(&spread, spread_unit) || !isfinite(si) ||
        !isfinite(spread_si)) {
        return MENSUR_DATA;
    }
    *out = (struct mensur_quantity){negative ? -si : si, spread_si};
    return MENSUR_OK;
}

enum mensur_status mensur_quantity_read_in(const char *text, size_t length, enum mensur_kind kind,
                                           const struct mensur_unit *unit, bool decimal_comma,
                                           struct mensur_quantity *out) {
    const struct mensur_unit *bare = unit != NULL ? unit : bare_unit(kind);
    size_t used;
    double value;
    /* the short way: most cells are bare numbers, and a long file has a million of them */
    if (mensur_number_read(text, length, decimal_comma, &used, &value) == MENSUR_OK &&
        used == length) {
        double si = in_si(bare, value);
        if (isfinite(si)) {
            *out = (struct mensur_quantity){si, 0.0};
            return MENSUR_OK;
        }
    }
    return read_whole_text((struct rest){text, text + length, decimal_comma}, kind, bare, out);
}

enum mensur_status mensur_quantity_read(const char *text, size_t length, enum mensur_kind kind,
                                        bool decimal_comma, struct mensur_quantity *out) {
    return mensur_quantity_read_in(text, length, kind, NULL, decimal_comma, out);
}

static bool is_same_word(const char *one, const char *other) {
    for (; *one != '\0' && *other != '\0'; one++, other++) {
        char a = *one >= 'A' && *one <= 'Z' ? (char)(*one - 'A' + 'a') : *one;
        char b = *other >= 'A' && *other <= 'Z' ? (char)(*other - 'A' + 'a') : *other;
        if (a != b) {
            return false;
        }
    }
    return *one == *other;
}

const struct mensur_unit *mensur_unit_find(enum mensur_kind kind, const char *name) {
    for (size_t i = 0; i <= OTHER_COUNT && *name != '\0'; i++) {
        const struct mensur_unit *unit = i == 0 ? bare_unit(kind) : &other_units[i - 1];
        if (unit->kind == kind && is_same_word(unit->text, name)) {
            return unit;
        }
    }
    return NULL;
}

const struct mensur_force_unit_info *mensur_force_unit_info(enum mensur_force_unit unit) {
    static const struct mensur_force_unit_info infos[] = {
        [MENSUR_FORCE_KG] = {"kg", NEWTONS_PER_KGF, 1},
        [MENSUR_FORCE_N] = {"N", 1.0, 1},
        [MENSUR_FORCE_LB] = {"lb", NEWTONS_PER_LBF, 1},
    };
    return &infos[unit <= MENSUR_FORCE_LB ? unit : MENSUR_FORCE_KG];
}

void mensur_inches_print(double metres, char room[MENSUR_INCHES_ROOM]) {
    enum { PARTS = 64 };
    double rounded = round(fabs(metres) * 1000.0 / MENSUR_MM_PER_INCH * PARTS);
    long long parts = rounded < 1e15 ? (long long)rounded : -1;
    long long whole = parts / PARTS, above = parts % PARTS, below = PARTS;
    const char *sign = metres < 0.0 && parts > 0 ? "-" : "";
    for (; above > 0 && above % 2 == 0; above /= 2) {
        below /= 2;
    }
    if (parts < 0) {
        strcpy(room, "?");
    } else if (above == 0) {
        snprintf(room, MENSUR_INCHES_ROOM, "%s%lld", sign, whole);
    } else if (whole > 0) {
        snprintf(room, MENSUR_INCHES_ROOM, "%s%lld %lld/%lld", sign, whole, above, below);
    } else {
        snprintf(room, MENSUR_INCHES_ROOM, "%s%lld/%lld", sign, above, below);
    }
}

const char *mensur_kind_unit(enum mensur_kind kind) {
    return bare_unit(kind)->text;
}

const char *mensur_kind_wanted(enum mensur_kind kind) {
    return kind < MENSUR_KIND_COUNT ? wanted[kind] : "a number";
}

/* A text with a fraction that lacks its mark. */
static bool is_unmarked_fraction(struct rest rest) {
    double value;
    pass_blanks(&rest);
    if (!pass(&rest, "+")) {
        (void)pass(&rest, "-");
    }
    bool fraction = read_mixed(&rest, &value);
    pass_blanks(&rest);
    return fraction && rest.at == rest.end;
}

/* Two values with a mark of a range between them: the middle, in the unit of one of them. */
static bool read_range(struct rest rest, enum mensur_kind kind, struct written *middle) {
    static const char *const marks[] = {"..", "-", "\xE2\x80\x93", "to", "bis"};
    struct written low = {0}, high = {0};
    bool between = false;
    pass_blanks(&rest);
    if (!read_written(&rest, kind, &low)) {
        return false;
    }
    for (size_t i = 0; i < sizeof(marks) / sizeof(marks[0]) && !between; i++) {
        between = pass(&rest, marks[i]);
    }
    pass_blanks(&rest);
    if (!between || !read_written(&rest, kind, &high) || rest.at != rest.end ||
        (low.unit != NULL && high.unit != low.unit)) {
        return false;
    }
    *middle =
        (struct written){.value = low.value + (high.value - low.value) / 2.0, .unit = high.unit};
    return true;
}

/* Feet, with or without inches: in inches. */
static bool read_feet(struct rest rest, double *inches) {
    static const char *const marks[] = {"feet", "foot", "ft", "'", "\xE2\x80\xB2", "\xE2\x80\x99"};
    struct written more = {0};
    double feet;
    bool marked = false, fraction;
    pass_blanks(&rest);
    if (!read_size(&rest, false, &fraction, &feet)) {
        return false;
    }
    pass_blanks(&rest);
    for (size_t i = 0; i < sizeof(marks) / sizeof(marks[0]) && !marked; i++) {
        marked = pass(&rest, marks[i]);
    }
    pass_blanks(&rest);
    if (!marked || (rest.at != rest.end && !read_written(&rest, MENSUR_LENGTH, &more)) ||
        rest.at != rest.end || (more.unit != NULL && !more.unit->inch)) {
        return false;
    }
    *inches = 12.0 * feet + more.value;
    return true;
}

const char *mensur_quantity_wanted(const char *text, size_t length, enum mensur_kind kind,
                                   bool decimal_comma, char out[MENSUR_WANTED_ROOM]) {
    const struct rest rest = {text, text + length, decimal_comma};
    struct written middle;
    char number[MENSUR_NUMBER_ROOM];
    double inches;
    if (kind == MENSUR_LENGTH && length < MENSUR_WANTED_ROOM / 2 && is_unmarked_fraction(rest)) {
        snprintf(out, MENSUR_WANTED_ROOM, "a length without its unit; write %.*s in", (int)length,
                 text);
    } else if (kind == MENSUR_LENGTH && read_feet(rest, &inches)) {
        (void)mensur_number_print_significant(inches, 6, number);
        snprintf(out, MENSUR_WANTED_ROOM, "a length in one unit; write %.20s in", number);
    } else if (read_range(rest, kind, &middle)) {
        const char *unit = middle.unit != NULL ? middle.unit->text : "";
        (void)mensur_number_print_significant(middle.value, 6, number);
        snprintf(out, MENSUR_WANTED_ROOM, "one value but a range; write one, such as %.20s%s%s",
                 number, *unit != '\0' && *unit != '"' ? " " : "", unit);
    } else {
        snprintf(out, MENSUR_WANTED_ROOM, "%s", mensur_kind_wanted(kind));
    }
    return out;
}

double mensur_from_si(enum mensur_kind kind, double value) {
    const struct mensur_unit *unit = bare_unit(kind);
    value *= unit->over;
    return unit->times > 1.0 ? value / unit->times : value; /* it is 1 or more */
}

double mensur_to_si(enum mensur_kind kind, double value) {
    return in_si(bare_unit(kind), value);
}
