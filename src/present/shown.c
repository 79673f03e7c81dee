/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures as they are shown. */
#include "shown.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "letters.h"
#include "number.h"

static const int decimals_of[MENSUR_KIND_COUNT] = {
    [MENSUR_LENGTH] = 1,  [MENSUR_FORCE] = 1,     [MENSUR_LINEAR_DENSITY] = 3,
    [MENSUR_MODULUS] = 2, [MENSUR_STRESS] = 0,    [MENSUR_DENSITY] = 0,
    [MENSUR_ANGLE] = 1,   [MENSUR_FREQUENCY] = 1, [MENSUR_SEMITONES] = 1,
    [MENSUR_MASS] = 2,    [MENSUR_VOLUME] = 0,
};

const char *mensur_shown_unit(const struct mensur_style *style, enum mensur_kind kind) {
    if (kind == MENSUR_LENGTH && style->inches) {
        return "in";
    }
    if (kind == MENSUR_FORCE) {
        return mensur_force_unit_info(style->force_unit)->name;
    }
    return kind == MENSUR_SEMITONES ? "semitones" : mensur_kind_unit(kind);
}

double mensur_shown_value(const struct mensur_style *style, enum mensur_kind kind, double value) {
    double bare = mensur_from_si(kind, value);
    if (kind == MENSUR_LENGTH && style->inches) {
        return bare / MENSUR_MM_PER_INCH;
    }
    return kind == MENSUR_FORCE ? value / mensur_force_unit_info(style->force_unit)->newtons : bare;
}

static int shown_decimals(const struct mensur_style *style, enum mensur_kind kind) {
    if (kind == MENSUR_LENGTH && style->inches) {
        return 2;
    }
    return kind == MENSUR_FORCE ? mensur_force_unit_info(style->force_unit)->decimals
                                : decimals_of[kind];
}

/* What stands in room, or the value to fewer and fewer digits until it is narrow enough. */
static struct mensur_shown narrowed(double value, size_t width, size_t length,
                                    char room[MENSUR_NUMBER_ROOM]) {
    struct mensur_shown shown = {"?"};
    for (int digits = 5; length > width && digits > 0; digits--) {
        length = mensur_number_print_significant(value, digits, room);
    }
    if (length < sizeof(shown.text)) {
        memcpy(shown.text, room, length + 1);
    }
    return shown;
}

struct mensur_shown mensur_show_number(double value, int decimals, size_t width) {
    char room[MENSUR_NUMBER_ROOM];
    size_t length = mensur_number_print(value, decimals, room);
    return narrowed(value, width, length, room);
}

/* Wide enough for every length there is, and narrow enough for most tables. */
#define NUMBER_WIDTH 7

/* A number that has no unit, and so no usual count of decimals. */
static struct mensur_shown show_digits(double value, size_t width) {
    char room[MENSUR_NUMBER_ROOM];
    size_t length = mensur_number_print_significant(value, 4, room);
    return narrowed(value, width, length, room);
}

struct mensur_shown mensur_show_within(const struct mensur_style *style, enum mensur_kind kind,
                                       double value, size_t width) {
    if (kind == MENSUR_NUMBER) {
        return show_digits(value, width);
    }
    double shown = mensur_shown_value(style, kind, value);
    /* three digits of a density: the best are known to half a percent */
    int decimals = kind != MENSUR_LINEAR_DENSITY ? shown_decimals(style, kind)
                   : fabs(shown) >= 10.0         ? 1
                   : fabs(shown) >= 1.0          ? 2
                                                 : 3;
    return mensur_show_number(shown, decimals, width);
}

struct mensur_shown mensur_show(const struct mensur_style *style, enum mensur_kind kind,
                                double value) {
    return mensur_show_within(style, kind, value, NUMBER_WIDTH);
}

/* As many decimals as two digits take, three at most. */
static struct mensur_shown show_two_digits(double value) {
    double amount = fabs(value);
    return mensur_show_number(value,
                              amount >= 10.0  ? 0
                              : amount >= 1.0 ? 1
                              : amount >= 0.1 ? 2
                                              : 3,
                              NUMBER_WIDTH);
}

struct mensur_shown mensur_show_finer(const struct mensur_style *style, enum mensur_kind kind,
                                      double value) {
    double shown = mensur_shown_value(style, kind, value);
    return kind == MENSUR_FORCE
               ? show_two_digits(shown)
               : mensur_show_number(shown, shown_decimals(style, kind) + 1, NUMBER_WIDTH);
}

struct mensur_shown mensur_show_plus_minus(const struct mensur_style *style, enum mensur_kind kind,
                                           double plus_minus) {
    enum { DIGITS = 2 };
    double value = mensur_shown_value(style, kind, plus_minus);
    double last = pow(10.0, -(kind == MENSUR_NUMBER ? 3 : shown_decimals(style, kind)));
    char room[MENSUR_NUMBER_ROOM];
    size_t length = value < last / 2.0 || value >= last * 10.0
                        ? mensur_number_print_significant(value, value < last ? 1 : DIGITS, room)
                        : mensur_number_print(
                              value, kind == MENSUR_NUMBER ? 3 : shown_decimals(style, kind), room);
    return narrowed(value, NUMBER_WIDTH, length, room);
}

/* Texts one behind the other, the last followed by NULL; every one here is short. */
static struct mensur_shown joined(const char *text, ...) {
    struct mensur_shown shown = {""};
    size_t used = 0;
    va_list texts;
    va_start(texts, text);
    for (; text != NULL; text = va_arg(texts, const char *)) {
        size_t length = strlen(text);
        if (used + length < sizeof(shown.text)) {
            memcpy(shown.text + used, text, length + 1);
            used += length;
        }
    }
    va_end(texts);
    return shown;
}

struct mensur_shown mensur_show_in_newtons(const struct mensur_style *style, double force) {
    if (!style->full || style->force_unit == MENSUR_FORCE_N) {
        return (struct mensur_shown){""};
    }
    return joined("(", mensur_show_number(force, 1, NUMBER_WIDTH).text, MENSUR_NO_BREAK "N)", NULL);
}

struct mensur_shown mensur_show_unit(const struct mensur_style *style, enum mensur_kind kind,
                                     double value) {
    const char *unit = mensur_shown_unit(style, kind);
    struct mensur_shown newtons = {""};
    if (kind == MENSUR_FORCE) {
        newtons = mensur_show_in_newtons(style, value);
    }
    return joined(mensur_show(style, kind, value).text, *unit != '\0' ? MENSUR_NO_BREAK : "", unit,
                  *newtons.text != '\0' ? MENSUR_NO_BREAK : "", newtons.text, NULL);
}

struct mensur_shown mensur_show_cut(const struct mensur_style *style, double value) {
    struct mensur_shown shown;
    char room[MENSUR_INCHES_ROOM];
    if (!style->inches) {
        return mensur_show(style, MENSUR_LENGTH, value);
    }
    mensur_inches_print(value, room);
    char *gap = strchr(room, ' ');
    snprintf(shown.text, sizeof(shown.text), "%.*s%s%s",
             gap != NULL ? (int)(gap - room) : (int)strlen(room), room,
             gap != NULL ? MENSUR_NO_BREAK : "", gap != NULL ? gap + 1 : "");
    return shown;
}

struct mensur_shown mensur_show_cut_unit(const struct mensur_style *style, double value) {
    return joined(mensur_show_cut(style, value).text, MENSUR_NO_BREAK,
                  mensur_shown_unit(style, MENSUR_LENGTH), NULL);
}

struct mensur_shown mensur_shown_signed(struct mensur_shown shown) {
    bool nothing = shown.text[strspn(shown.text, "0.")] == '\0';
    bool bare = *shown.text == '-' || *shown.text == '?' || nothing;
    return joined(bare ? "" : "+", shown.text, NULL);
}

struct mensur_shown mensur_show_difference(const struct mensur_style *style, enum mensur_kind kind,
                                           double value) {
    return mensur_shown_signed(mensur_show(style, kind, value));
}

/* The usual base of a family that is not held under the chin is told to one decimal: 7 : 10.0 says
 * as much as 2 : 2.86. */
#define USUAL_BASE 2.0

double mensur_shown_base(const struct mensur_style *style) {
    return style->neck_base > 0.0 ? style->neck_base : USUAL_BASE;
}

static int ratio_decimals(const struct mensur_style *style) {
    return mensur_shown_base(style) > USUAL_BASE ? 1 : 2;
}

struct mensur_shown mensur_show_ratio(const struct mensur_style *style, double stop_per_2_neck) {
    double base = mensur_shown_base(style);
    return joined(
        mensur_show_number(base, 0, 5).text, MENSUR_NO_BREAK ":" MENSUR_NO_BREAK,
        mensur_show_number(stop_per_2_neck * base / USUAL_BASE, ratio_decimals(style), 5).text,
        NULL);
}

/* A range of figures, either side open; unit may be "". */
static struct mensur_shown range(const char *from, const char *to, bool low_open, bool high_open,
                                 const char *unit) {
    const char *gap = *unit != '\0' ? MENSUR_NO_BREAK : "";
    if (low_open) {
        return high_open ? joined("any", NULL) : joined("up to ", to, gap, unit, NULL);
    }
    if (high_open) {
        return joined(from, gap, unit, " or more", NULL);
    }
    return strcmp(from, to) == 0 ? joined(from, gap, unit, NULL)
                                 : joined(from, " to ", to, gap, unit, NULL);
}

struct mensur_shown mensur_show_range(const struct mensur_style *style, enum mensur_kind kind,
                                      double low, double high) {
    return range(mensur_show(style, kind, low).text, mensur_show(style, kind, high).text,
                 isnan(low), isnan(high), mensur_shown_unit(style, kind));
}

struct mensur_shown mensur_show_ratio_range(const struct mensur_style *style, double low,
                                            double high) {
    return range(mensur_show_ratio(style, low).text, mensur_show_ratio(style, high).text,
                 isnan(low), isnan(high), "");
}

struct mensur_shown mensur_show_count(size_t count) {
    struct mensur_shown shown;
    snprintf(shown.text, sizeof(shown.text), "%zu", count);
    return shown;
}

struct mensur_shown mensur_figure_within(const struct mensur_figure *figure,
                                         const struct mensur_style *style, double value,
                                         size_t width) {
    if ((figure->flags & MENSUR_FIGURE_RATIO) != 0) {
        value *= mensur_shown_base(style) / USUAL_BASE;
    }
    return figure->kind == MENSUR_NUMBER && figure->decimals > 0
               ? mensur_show_number(value, figure->decimals, width)
               : mensur_show_within(style, figure->kind, value, width);
}

struct mensur_shown mensur_figure_show(const struct mensur_figure *figure,
                                       const struct mensur_style *style, double value) {
    if ((figure->flags & MENSUR_FIGURE_CUT) != 0 && style->inches) {
        return mensur_show_cut(style, value);
    }
    return (figure->flags & MENSUR_FIGURE_RATIO) != 0 && !isnan(value)
               ? mensur_show_ratio(style, value)
               : mensur_figure_within(figure, style, value, NUMBER_WIDTH);
}

struct mensur_shown mensur_figure_difference(const struct mensur_figure *figure,
                                             const struct mensur_style *style, double value) {
    if ((figure->flags & MENSUR_FIGURE_RATIO) != 0) {
        return mensur_shown_signed(mensur_show_number(value * mensur_shown_base(style) / USUAL_BASE,
                                                      ratio_decimals(style), NUMBER_WIDTH));
    }
    return mensur_shown_signed(mensur_figure_within(figure, style, value, NUMBER_WIDTH));
}

struct mensur_shown mensur_neck_named(const char *note) {
    struct mensur_shown shown;
    size_t letter = *note != '\0';
    const char *moved = note[letter] == 'b' ? "-flat" : note[letter] == '#' ? "-sharp" : "";
    bool vowel = *note == 'A' || *note == 'E' || *note == 'F';
    snprintf(shown.text, sizeof(shown.text), "%s %.*s%s", vowel ? "an" : "a", (int)letter, note,
             moved);
    return shown;
}

double mensur_shown_neck_base(const char *held) {
    return held == NULL || strcmp(held, "chin") == 0 ? 2.0 : 7.0;
}
