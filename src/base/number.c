/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Reads and prints numbers independently of the locale of the process.
 *
 * Reading: the digits are collected without their decimal mark, so that what reaches strtod is
 * "digits e exponent" and holds nothing that a locale could read otherwise. Short numbers need no
 * strtod: mantissa and power of ten are both exact doubles, and one division or multiplication
 * rounds once (Clinger 1990, How to read floating point numbers accurately, the fast case).
 *
 * Printing: the product with the power of ten and its rounding error are both known exactly from
 * one multiplication and one fused multiply-add, so the nearest decimal (ties to even) is decided
 * exactly, as printf would decide it. All other numbers are printed by printf.
 */
#include "number.h"

#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "out_of_line.h"

/* Rounding to the nearest double needs at most 767 digits, and one more that says whether a digit
 * other than 0 follows. */
#define DIGITS_MOST 770
/* Bytes of a number that are read at most, so that the counts fit an int. */
#define LENGTH_MOST 100000
#define POWER_MOST 22

static const double powers[POWER_MOST + 1] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                              1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                              1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

struct scan {
    const char *at, *end;
    uint64_t mantissa;  /* the first 19 significant digits */
    int significant;    /* how many significant digits there are */
    int digits;         /* how many digits, leading zeros too */
    int exponent;       /* of ten, for all significant digits read as one integer */
    const char *first;  /* first significant digit */
    const char *behind; /* behind the last digit of the mantissa */
};

static int is_digit(char letter) {
    return letter >= '0' && letter <= '9';
}

/* Reads a run of digits; step is 1 after the decimal mark, where each lowers the exponent. */
static void scan_digits(struct scan *scan, int step) {
    const char *const start = scan->at, *const end = scan->end, *at = start;
    while (scan->significant == 0 && at < end && *at == '0') {
        at++;
    }
    const char *const first = at;
    uint64_t mantissa = scan->mantissa;
    int more = 19 - scan->significant; /* the mantissa holds so many more */
    for (; at < end && is_digit(*at); at++, more--) {
        if (more > 0) {
            mantissa = mantissa * 10 + (uint64_t)(*at - '0');
        }
    }
    if (scan->significant == 0) {
        scan->first = first;
    }
    scan->mantissa = mantissa;
    scan->significant += (int)(at - first);
    scan->digits += (int)(at - start);
    scan->exponent -= step * (int)(at - start);
    scan->behind = scan->at = at;
}

static void scan_decimals(struct scan *scan, bool decimal_comma) {
    const char *mark = scan->at;
    if (scan->end - mark < 2 || !is_digit(mark[1])) {
        return;
    }
    if (*mark == '.' || (decimal_comma && *mark == ',')) {
        scan->at++;
        scan_digits(scan, 1);
    }
}

/* e [+-] digits; where no digit follows, the e belongs to something else. */
static void scan_exponent(struct scan *scan) {
    const char *at = scan->at;
    if (at == scan->end || (*at != 'e' && *at != 'E')) {
        return;
    }
    at++;
    bool negative = at < scan->end && *at == '-';
    if (at < scan->end && (*at == '-' || *at == '+')) {
        at++;
    }
    if (at == scan->end || !is_digit(*at)) {
        return;
    }
    int exponent = 0;
    for (; at < scan->end && is_digit(*at); at++) {
        if (exponent < LENGTH_MOST) {
            exponent = exponent * 10 + (*at - '0');
        }
    }
    scan->exponent += negative ? -exponent : exponent;
    scan->at = at;
}

/* For any length: passes the digits without their decimal mark, and the exponent, to strtod. */
static double slow_value(const struct scan *scan) {
    char text[DIGITS_MOST + 24];
    int count = 0;
    int exponent = scan->exponent;
    const char *at = scan->first;
    for (; at < scan->behind && count < DIGITS_MOST; at++) {
        if (is_digit(*at)) {
            text[count++] = *at;
        }
    }
    exponent += scan->significant - count;
    for (; at < scan->behind; at++) {
        if (is_digit(*at) && *at != '0') {
            text[count++] = '1'; /* a digit other than 0 follows: not a tie */
            exponent--;
            break;
        }
    }
    snprintf(text + count, sizeof(text) - (size_t)count, "e%d", exponent);
    return strtod(text, NULL);
}

static double scan_value(const struct scan *scan) {
#if FLT_EVAL_METHOD == 0
    if (scan->significant <= 19 && scan->mantissa <= UINT64_C(1) << 53) {
        if (scan->exponent <= 0 && scan->exponent >= -POWER_MOST) {
            return (double)scan->mantissa / powers[-scan->exponent];
        }
        if (scan->exponent > 0 && scan->exponent <= POWER_MOST) {
            return (double)scan->mantissa * powers[scan->exponent];
        }
    }
#endif
    return scan->significant == 0 ? 0.0 : slow_value(scan);
}

/* The size of a number of digits alone, with a decimal mark between two of them or none, and
 * nothing behind it, as almost every cell has: what scan_value makes of it. False where it is
 * another. */
static bool read_plain(const char *at, const char *end, bool decimal_comma, double *size) {
    uint64_t mantissa = 0;
    const char *first = at, *decimals = NULL; /* behind the mark */
    if (FLT_EVAL_METHOD != 0 || at == end || end - at > 16) {
        return false;
    }
    for (; at < end; at++) {
        unsigned digit = (unsigned char)*at - (unsigned)'0';
        if (digit <= 9) {
            mantissa = mantissa * 10 + digit;
        } else if ((*at == '.' || (decimal_comma && *at == ',')) && decimals == NULL &&
                   at > first && at + 1 < end) {
            decimals = at + 1;
        } else {
            return false;
        }
    }
    if (mantissa > UINT64_C(1) << 53) {
        return false;
    }
    *size = decimals == NULL ? (double)mantissa : (double)mantissa / powers[end - decimals];
    return true;
}

MENSUR_OUT_OF_LINE static enum mensur_status
read_any(const char *text, size_t length, bool decimal_comma, size_t *used, double *value) {
    struct scan scan = {.at = text, .end = text + (length < LENGTH_MOST ? length : LENGTH_MOST)};
    bool negative = length > 0 && *text == '-';
    if (length > 0 && (*text == '-' || *text == '+')) {
        scan.at++;
    }
    scan_digits(&scan, 0);
    scan_decimals(&scan, decimal_comma);
    if (scan.digits == 0) {
        return MENSUR_DATA;
    }
    scan_exponent(&scan);
    double size = scan_value(&scan);
    if (!isfinite(size)) {
        return MENSUR_DOMAIN;
    }
    *used = (size_t)(scan.at - text);
    *value = negative ? -size : size;
    return MENSUR_OK;
}

enum mensur_status mensur_number_read(const char *text, size_t length, bool decimal_comma,
                                      size_t *used, double *value) {
    if (read_plain(text, text + length, decimal_comma, value)) {
        *used = length;
        return MENSUR_OK;
    }
    return read_any(text, length, decimal_comma, used, value);
}

static size_t print_unknown(char *out) {
    memcpy(out, "?", 2);
    return 1;
}

static const char pairs[201] = "0001020304050607080910111213141516171819"
                               "2021222324252627282930313233343536373839"
                               "4041424344454647484950515253545556575859"
                               "6061626364656667686970717273747576777879"
                               "8081828384858687888990919293949596979899";

static char *put_pair(uint64_t pair, char *at) {
    memcpy(at - 2, pairs + pair * 2, 2);
    return at - 2;
}

static char *put_digit(uint64_t digit, char *at) {
    *(at - 1) = (char)('0' + digit);
    return at - 1;
}

/* How many digits a count below 2^53 has that is written with `least` of them at least. */
static int digits_of(uint64_t count, int least) {
    static const uint64_t tens[] = {UINT64_C(1),
                                    UINT64_C(10),
                                    UINT64_C(100),
                                    UINT64_C(1000),
                                    UINT64_C(10000),
                                    UINT64_C(100000),
                                    UINT64_C(1000000),
                                    UINT64_C(10000000),
                                    UINT64_C(100000000),
                                    UINT64_C(1000000000),
                                    UINT64_C(10000000000),
                                    UINT64_C(100000000000),
                                    UINT64_C(1000000000000),
                                    UINT64_C(10000000000000),
                                    UINT64_C(100000000000000),
                                    UINT64_C(1000000000000000)};
    int digits = least;
    while (digits < (int)(sizeof(tens) / sizeof(tens[0])) && count >= tens[digits]) {
        digits++;
    }
    return digits;
}

#define TEN(two) two "0" two "1" two "2" two "3" two "4" two "5" two "6" two "7" two "8" two "9"
#define HUNDRED(one)                                                                               \
    TEN(one "0")                                                                                   \
    TEN(one "1")                                                                                   \
    TEN(one "2")                                                                                   \
    TEN(one "3") TEN(one "4") TEN(one "5") TEN(one "6") TEN(one "7") TEN(one "8") TEN(one "9")
/* 000 to 999 */
static const char triples[3001] = HUNDRED("0") HUNDRED("1") HUNDRED("2") HUNDRED("3") HUNDRED("4")
    HUNDRED("5") HUNDRED("6") HUNDRED("7") HUNDRED("8") HUNDRED("9");

/* What print_short writes: counts below this, with this many decimals at most. */
#define SHORT_COUNT 10000000
#define SHORT_DECIMALS 6

/* Prints a number that has three digits at most before the point and few decimals, as most figures
 * are; 0 where it is another, or lies in the middle between two. It uses a few bytes behind the
 * text. Every step is the same for every number: what a branch on digits would take is as good as
 * random. */
static inline size_t print_short(double value, int decimals, char *out) {
    /* count * inverse / 2^44 is count / 10^decimals rounded down, because the inverse is
     * 2^44/10^decimals rounded up and count * 10^decimals is below 2^44. */
#define INVERSE(power) ((UINT64_C(1) << 44) / (power) + 1)
    static const struct {
        uint64_t inverse;
        uint32_t power, rest;
    } parts[SHORT_DECIMALS + 1] = {{0, 1, 1000000},
                                   {INVERSE(10), 10, 100000},
                                   {INVERSE(100), 100, 10000},
                                   {INVERSE(1000), 1000, 1000},
                                   {INVERSE(10000), 10000, 100},
                                   {INVERSE(100000), 100000, 10},
                                   {INVERSE(1000000), 1000000, 1}};
#undef INVERSE
    if (decimals < 1 || decimals > SHORT_DECIMALS) {
        return 0;
    }
    double product = fabs(value) * powers[decimals];
    if (!(product < SHORT_COUNT)) { /* NaN too */
        return 0;
    }
    /* Rounding is monotonic and count + 1/2 is a double: a product that differs from it lies on the
     * same side of it as the exact product. */
    int count = (int)product;
    double over = product - (double)count;
    if (!(fabs(over - 0.5) > 0.0)) {
        return 0;
    }
    count += over > 0.5 ? 1 : 0;
    uint32_t whole = (uint32_t)((uint64_t)count * parts[decimals].inverse >> 44);
    if (whole >= 1000) {
        return 0;
    }
    uint32_t rest = ((uint32_t)count - whole * parts[decimals].power) * parts[decimals].rest;
    int digits = 1 + (whole >= 10) + (whole >= 100);
    char *at = out;
    *at = '-';
    at += value < 0 && count > 0 ? 1 : 0;
    memcpy(at, triples + (size_t)3 * whole + 3 - digits,
           4); /* the fourth makes it one load and store */
    at += digits;
    *at = '.';
    memcpy(at + 1, triples + (size_t)3 * (rest / 1000), 4);
    memcpy(at + 4, triples + (size_t)3 * (rest % 1000), 4);
    at += 1 + decimals;
    *at = '\0';
    return (size_t)(at - out);
}

/* Writes the digits of count (below 2^53) from the right, with a point before the last decimals. */
static size_t print_scaled(uint64_t count, int decimals, bool negative, char *out) {
    int digits = digits_of(count, decimals + 1);
    char *const end = out + digits + (negative ? 1 : 0) + (decimals > 0 ? 1 : 0);
    char *at = end;
    *end = '\0';
    for (int left = decimals; left >= 2; left -= 2, count /= 100) {
        at = put_pair(count % 100, at);
    }
    if (decimals % 2 != 0) {
        at = put_digit(count % 10, at);
        count /= 10;
    }
    if (decimals > 0) {
        *--at = '.';
    }
    for (; count >= 100; count /= 100) {
        at = put_pair(count % 100, at);
    }
    at = count >= 10 ? put_pair(count, at) : put_digit(count, at);
    if (negative) {
        *--at = '-';
    }
    return (size_t)(end - out);
}

/* For a product that was rounded to whole + 1/2: true where the exact product lies above it, or on
 * it with an odd whole part. One fused multiply-add gives the rounding error, which decides. */
static bool half_goes_up(double size, double power, double product, uint64_t whole) {
    double error = fma(size, power, -product);
    return error > 0 || (!(error < 0) && whole % 2 == 1);
}

/* size * 10^decimals to the nearest integer, a tie to the even one; false where double
 * arithmetic cannot decide it exactly. */
static bool round_scaled(double size, int decimals, uint64_t *out) {
    if (!(size >= 1e-200) || decimals < 0 || decimals > POWER_MOST) {
        return false;
    }
    double product = size * powers[decimals];
    if (!(product < 4503599627370496.0)) { /* from 2^52 on, n + 1/2 is not a double */
        return false;
    }
    /* Rounding is monotonic and whole + 1/2 is a double: a product that differs from it lies on the
     * same side of it as the exact product. */
    uint64_t whole = (uint64_t)(int64_t)product;
    double rest = product - (double)(int64_t)whole;
    bool up = rest > 0.5, half = !(fabs(rest - 0.5) > 0.0); /* of which the difference is exact */
    if (half) {
        up = half_goes_up(size, powers[decimals], product, whole);
    }
    *out = whole + (up ? 1 : 0);
    return true;
}

static bool all_zero(const char *text) {
    return text[strspn(text, "-0.")] == '\0';
}

/* printf's text with a point in place of the locale's decimal mark, which may be several bytes. */
static size_t print_any(double value, int decimals, char *out) {
    int length = snprintf(out, MENSUR_NUMBER_ROOM, "%.*f", decimals, value);
    size_t whole = signbit(value) ? 1 : 0;
    whole += strspn(out + whole, "0123456789");
    if (decimals > 0) {
        memmove(out + whole + 1, out + length - decimals, (size_t)decimals + 1);
        out[whole] = '.';
    }
    if (out[0] == '-' && all_zero(out)) {
        memmove(out, out + 1, strlen(out));
    }
    return strlen(out);
}

MENSUR_OUT_OF_LINE static size_t print_decimals(double value, int decimals, char *out) {
    uint64_t count;
    if (!isfinite(value)) {
        return print_unknown(out);
    }
    decimals = decimals < 0 ? 0 : decimals > 17 ? 17 : decimals;
    if (round_scaled(fabs(value), decimals, &count)) {
        return print_scaled(count, decimals, value < 0 && count > 0, out);
    }
    return print_any(value, decimals, out);
}

size_t mensur_number_print(double value, int decimals, char *out) {
    size_t length = print_short(value, decimals, out);
    return length > 0 ? length : print_decimals(value, decimals, out);
}

/* The power of ten at or below a size from 1e-4 on and below 1000. */
static inline int power_below(double size) {
    return -4 + (size >= 1e-3) + (size >= 1e-2) + (size >= 1e-1) + (size >= 1e0) + (size >= 1e1) +
           (size >= 1e2);
}

/* How many decimals leave that many digits of a size from 1e-4 on and below 10^digits: as many as
 * are left by the power of ten at or below it. */
static int decimals_for(double size, int digits) {
    int power = power_below(size);
    while (power >= 2 && size >= powers[power + 1]) {
        power++;
    }
    return digits - 1 - power;
}

/* Removes the zeros at the end of a number with decimals; returns its length. */
static size_t strip_zeros(char *out, size_t length) {
    while (out[length - 1] == '0') {
        length--;
    }
    if (out[length - 1] == '.') {
        length--;
    }
    out[length] = '\0';
    return length;
}

static size_t print_any_significant(double value, int digits, char *out) {
    snprintf(out, MENSUR_NUMBER_ROOM, "%.*g", digits, value);
    size_t whole = (value < 0 ? 1 : 0);
    whole += strspn(out + whole, "0123456789");
    size_t next = whole + strcspn(out + whole, "0123456789e");
    if (next > whole) {
        memmove(out + whole + 1, out + next, strlen(out + next) + 1);
        out[whole] = '.';
    }
    return strlen(out);
}

/* d.ddde-NN of a size below 1e-4, as printf's %g has it; 0 where double arithmetic cannot
 * decide its digits exactly. */
static size_t print_tiny(double value, int digits, char *out) {
    uint64_t count;
    double size = fabs(value);
    int power = 5;
    while (power < POWER_MOST && size * powers[power] < 1.0) {
        power++;
    }
    if (!(size * powers[power] >= 1.0) || power + digits - 1 > POWER_MOST ||
        !round_scaled(size, power + digits - 1, &count) ||
        !(count >= (uint64_t)powers[digits - 1]) || !(count < (uint64_t)powers[digits])) {
        return 0;
    }
    size_t length = print_scaled(count, digits - 1, value < 0, out);
    length = digits > 1 ? strip_zeros(out, length) : length;
    memcpy(out + length, "e-", 2);
    memcpy(out + length + 2, pairs + 2 * (size_t)power, 2);
    out[length + 4] = '\0';
    return length + 4;
}

MENSUR_OUT_OF_LINE static size_t print_digits(double value, int digits, char *out) {
    double size = fabs(value);
    uint64_t count;
    if (!isfinite(value)) {
        return print_unknown(out);
    }
    digits = digits < 1 ? 1 : digits > 17 ? 17 : digits;
    if (!(size > 0)) {
        return print_scaled(0, 0, false, out);
    }
    if (digits <= 15 && size >= 1e-4 && size < powers[digits] * 0.5) {
        int decimals = decimals_for(size, digits);
        if (decimals > 0 && round_scaled(size, decimals, &count)) {
            return strip_zeros(out, print_scaled(count, decimals, value < 0, out));
        }
    }
    size_t tiny = digits <= 15 && size < 1e-4 ? print_tiny(value, digits, out) : 0;
    return tiny > 0 ? tiny : print_any_significant(value, digits, out);
}

size_t mensur_number_print_significant(double value, int digits, char *out) {
    double size = fabs(value);
    size_t length = size >= 1e-4 && size < 1e3 && digits >= 1 && digits <= 15
                        ? print_short(value, digits - 1 - power_below(size), out)
                        : 0;
    return length > 0 ? strip_zeros(out, length) : print_digits(value, digits, out);
}
