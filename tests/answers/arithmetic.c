/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "arithmetic.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/* Where the reading stands, and which of the numbers is moved by half its last digit. */
struct reader {
    const char *at;
    int number; /* numbers read so far */
    int moved;  /* that one is moved; -1: none */
    bool broken;
};

static double read_sum(struct reader *reader);

static bool take(struct reader *reader, const char *sign) {
    while (*reader->at == ' ') {
        reader->at++;
    }
    size_t length = strlen(sign);
    if (strncmp(reader->at, sign, length) != 0) {
        return false;
    }
    reader->at += length;
    return true;
}

/* Half a unit of the last digit printed. Numbers of two decimals or more were rounded there; the
 * others were rounded to six digits, and whole ones are what they are. */
static double half_unit(const char *digits, size_t length, double value) {
    const char *point = memchr(digits, '.', length);
    size_t decimals = point == NULL ? 0 : length - (size_t)(point - digits) - 1;
    if (decimals >= 2) {
        return 0.5 * pow(10, -(double)decimals);
    }
    return decimals == 0 && fabs(value) < 1000 ? 0 : 5e-7 * fabs(value);
}

static int raised_digit(struct reader *reader) {
    static const char *const digits[] = {"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
    for (int i = 0; i < 10; i++) {
        size_t length = strlen(digits[i]);
        if (strncmp(reader->at, digits[i], length) == 0) {
            reader->at += length;
            return i;
        }
    }
    return -1;
}

/* "⁻⁵" or "²"; 1 where there is none. */
static double raised(struct reader *reader) {
    double sign = strncmp(reader->at, "⁻", strlen("⁻")) == 0 ? -1 : 1;
    const char *start = reader->at;
    double value = 0;
    bool any = false;
    if (sign < 0) {
        reader->at += strlen("⁻");
    }
    for (int digit; (digit = raised_digit(reader)) >= 0;) {
        value = 10 * value + digit;
        any = true;
    }
    if (!any) {
        reader->at = start;
        return 1;
    }
    return sign * value;
}

static double read_number(struct reader *reader) {
    char *end;
    const char *start = reader->at;
    double value = strtod(start, &end);
    if (end == start) {
        reader->broken = true;
        return NAN;
    }
    reader->at = end;
    if (reader->number++ == reader->moved) {
        value += half_unit(start, (size_t)(end - start), value);
    }
    return value;
}

/* "(a; b; c)": the largest or the least of them. */
static double read_most(struct reader *reader, double sign) {
    double most = -INFINITY;
    reader->broken = reader->broken || !take(reader, "(");
    do {
        most = fmax(most, sign * read_sum(reader));
    } while (!reader->broken && take(reader, ";"));
    reader->broken = reader->broken || !take(reader, ")");
    return sign * most;
}

static double read_primary(struct reader *reader);

static double ln(double x) {
    return log(x);
}

static double read_function(struct reader *reader) {
    static const struct {
        const char *name;
        double (*of)(double);
        double factor;
    } functions[] = {{"sin", sin, 1},     {"cos", cos, 1},   {"atan", atan, 1},
                     {"asinh", asinh, 1}, {"asin", asin, 1}, {"acos", acos, 1},
                     {"log2", log2, 1},   {"ln", ln, 1},     {"√", sqrt, 1}};
    if (take(reader, "max")) {
        return read_most(reader, 1);
    }
    if (take(reader, "min")) {
        return read_most(reader, -1);
    }
    for (size_t i = 0; i < sizeof functions / sizeof functions[0]; i++) {
        if (take(reader, functions[i].name)) {
            return functions[i].of(read_primary(reader));
        }
    }
    return read_number(reader);
}

/* What binds closest, without what is raised behind it. */
static double read_primary(struct reader *reader) {
    if (take(reader, "(")) {
        double value = read_sum(reader);
        reader->broken = reader->broken || !take(reader, ")");
        return value;
    }
    return take(reader, "π") ? pi : read_function(reader);
}

static double read_power(struct reader *reader) {
    double value = read_primary(reader);
    if (take(reader, "°")) {
        value *= pi / 180;
    }
    value = pow(value, raised(reader));
    return take(reader, "^") ? pow(value, read_power(reader)) : value;
}

static double read_signed(struct reader *reader) {
    return take(reader, "−") ? -read_signed(reader) : read_power(reader);
}

static double read_product(struct reader *reader) {
    double value = read_signed(reader);
    while (!reader->broken) {
        if (take(reader, "·")) {
            value *= read_signed(reader);
        } else if (take(reader, "/")) {
            value /= read_signed(reader);
        } else {
            break;
        }
    }
    return value;
}

static double read_sum(struct reader *reader) {
    double value = read_product(reader);
    while (!reader->broken) {
        if (take(reader, "+")) {
            value += read_product(reader);
        } else if (take(reader, "−")) {
            value -= read_product(reader);
        } else {
            break;
        }
    }
    return value;
}

static double read_all(const char *text, int moved, struct reader *reader) {
    *reader = (struct reader){.at = text, .moved = moved};
    double value = read_sum(reader);
    reader->broken = reader->broken || *reader->at != '\0';
    return value;
}

struct worked_out work_out(const char *text) {
    struct reader reader;
    struct worked_out out = {.value = read_all(text, -1, &reader), .numbers = reader.number};
    out.good = !reader.broken;
    for (int i = 0; out.good && i < out.numbers; i++) {
        out.off += fabs(read_all(text, i, &reader) - out.value);
    }
    return out;
}

struct worked_out read_result(const char *text) {
    struct reader reader = {.at = text, .moved = -1};
    double sign = take(&reader, "−") ? -1 : 1;
    const char *start = reader.at;
    double value = read_number(&reader);
    size_t length = (size_t)(reader.at - start);
    double unit = half_unit(start, length, value);
    if (unit <= 0 && value > 0) {
        unit = 5e-6 * value; /* five digits, the last of them noughts */
    }
    if (take(&reader, "·10")) {
        double power = pow(10, raised(&reader));
        value *= power;
        unit *= power;
    }
    return (struct worked_out){!reader.broken, sign * value, unit, 1};
}
