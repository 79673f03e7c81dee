/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wishes and packets as they are typed: LOW..HIGH, open on either side, or LOW-HIGH, ends included,
 * or one value, give or take what is usual; and NOTE=TENSION@LENGTH. */
#include <math.h>
#include <string.h>

#include "ask.h"
#include "figures.h"

static enum mensur_status refuse(enum mensur_wish_kind kind, const char *text,
                                 struct mensur_fault *fault) {
    mensur_fault_set(fault,
                     "\"%s\" is no range and no value for this wish; write LOW..HIGH or one value, "
                     "for example %s or %s",
                     text, mensur_wish_info(kind)->example, mensur_wish_info(kind)->one);
    return MENSUR_USE;
}

/* `2:2.9` as stop per 2 neck. */
static enum mensur_status read_ratio(const char *text, size_t length, double *value) {
    const char *colon = memchr(text, ':', length);
    struct mensur_quantity neck;
    struct mensur_quantity stop;
    if (colon == NULL) {
        return MENSUR_DATA;
    }
    size_t before = (size_t)(colon - text);
    if (mensur_quantity_read(text, before, MENSUR_NUMBER, true, &neck) != MENSUR_OK ||
        mensur_quantity_read(colon + 1, length - before - 1, MENSUR_NUMBER, true, &stop) !=
            MENSUR_OK ||
        !(neck.value > 0.0)) {
        return MENSUR_DATA;
    }
    *value = 2.0 * stop.value / neck.value;
    return MENSUR_OK;
}

/* One end of a range; an empty one is open. */
static enum mensur_status read_end(enum mensur_wish_kind kind, const char *text, size_t length,
                                   bool percent, double *value) {
    struct mensur_quantity quantity;
    if (length == 0) {
        *value = NAN;
        return MENSUR_OK;
    }
    if (kind == MENSUR_WISH_RATIO) {
        return read_ratio(text, length, value);
    }
    if (percent) {
        if (text[length - 1] != '%' ||
            mensur_quantity_read(text, length - 1, MENSUR_NUMBER, true, &quantity) != MENSUR_OK) {
            return MENSUR_DATA;
        }
        *value = quantity.value / 100.0;
        return MENSUR_OK;
    }
    enum mensur_status status =
        mensur_quantity_read(text, length, mensur_wish_figure(kind)->kind, true, &quantity);
    if (status == MENSUR_OK) {
        *value = quantity.value;
    }
    return status;
}

/* Takes `A4=` off the front of a tension wish. */
static enum mensur_status read_note(const char **text, char *name) {
    const char *equals = strchr(*text, '=');
    struct mensur_note note;
    if (equals == NULL) {
        return MENSUR_OK;
    }
    if (mensur_note_read(*text, (size_t)(equals - *text), &note) != MENSUR_OK) {
        return MENSUR_DATA;
    }
    memcpy(name, note.name, sizeof note.name);
    *text = equals + 1;
    return MENSUR_OK;
}

/* Where a range is parted: at `..`, or at the hyphen of LOW-HIGH, which neither begins the text nor
 * stands in a number: 14-1/2 is a mixed number, 1e-3 has an exponent. NULL: it is one value. */
static const char *find_joint(const char *range, size_t *width) {
    const char *dots = strstr(range, "..");
    *width = dots != NULL ? 2 : 1;
    for (const char *at = range; dots == NULL && *at != '\0'; at++) {
        size_t digits = strspn(at + 1, "0123456789");
        bool mixed = digits > 0 && at[1 + digits] == '/';
        bool exponent = at > range + 1 && (at[-1] == 'e' || at[-1] == 'E') &&
                        strchr("0123456789.,", at[-2]) != NULL;
        if (*at == '-' && at > range && !mixed && !exponent) {
            return at;
        }
    }
    return dots;
}

/* Whether a force is written without its unit. */
static bool is_bare(const char *text, size_t length) {
    return length > 0 && strspn(text, "0123456789.,+ ") >= length;
}

/* An end of a force's range that is written without a unit has the other one's: "4.3..4.6kg". */
static enum mensur_status read_force_end(const char *text, size_t length, const char *other,
                                         size_t other_length, double *value) {
    char joined[64];
    size_t digits = other_length;
    while (digits > 0 && strchr("0123456789.,", other[digits - 1]) == NULL) {
        digits--;
    }
    size_t unit = other_length - digits;
    if (!is_bare(text, length) || is_bare(other, other_length)) {
        return read_end(MENSUR_WISH_TENSION, text, length, false, value);
    }
    if (length + unit >= sizeof joined) {
        return MENSUR_DATA;
    }
    memcpy(joined, text, length);
    memcpy(joined + length, other + digits, unit);
    return read_end(MENSUR_WISH_TENSION, joined, length + unit, false, value);
}

/* Both ends of a range. A hyphen parts two ends: an open side takes `..`. */
static enum mensur_status read_range(enum mensur_wish_kind kind, const char *range,
                                     struct mensur_wish *wish) {
    size_t width;
    const char *joint = find_joint(range, &width);
    size_t before = joint == NULL ? strlen(range) : (size_t)(joint - range);
    const char *behind = joint == NULL ? range : joint + width;
    if (width == 1 && (before == 0 || *behind == '\0')) {
        return MENSUR_DATA;
    }
    const size_t after = strlen(behind);
    bool force = mensur_wish_figure(kind)->kind == MENSUR_FORCE && !wish->percent;
    enum mensur_status status = force ? read_force_end(range, before, behind, after, &wish->low)
                                      : read_end(kind, range, before, wish->percent, &wish->low);
    if (status == MENSUR_OK) {
        status = force ? read_force_end(behind, after, range, before, &wish->high)
                       : read_end(kind, behind, after, wish->percent, &wish->high);
    }
    if (status == MENSUR_OK && joint == NULL) {
        if (!(wish->low > 0.0)) {
            return MENSUR_DATA;
        }
        const struct mensur_wish_info *info = mensur_wish_info(kind);
        wish->give = info->give_is_part ? info->give * wish->low : info->give;
        wish->high = wish->low + wish->give;
        wish->low = fmax(wish->low - wish->give, 0.0);
    }
    return status;
}

static bool is_sound(const struct mensur_wish *wish) {
    bool open = isnan(wish->low) && isnan(wish->high);
    /* A comparison with an open end is false, as it should be. */
    return !open && !(wish->low < 0.0) && !(wish->high <= 0.0);
}

enum mensur_status mensur_wish_read(enum mensur_wish_kind kind, const char *text,
                                    struct mensur_fault *fault, struct mensur_wish *out) {
    struct mensur_wish wish = {.kind = kind};
    const char *range = text;
    if (kind == MENSUR_WISH_TENSION && read_note(&range, wish.note) != MENSUR_OK) {
        return refuse(kind, text, fault);
    }
    wish.percent = kind == MENSUR_WISH_TENSION && strchr(range, '%') != NULL;
    if (read_range(kind, range, &wish) != MENSUR_OK || !is_sound(&wish)) {
        return refuse(kind, text, fault);
    }
    if (wish.low > wish.high) {
        mensur_fault_set(fault,
                         "\"%s\" ends below where it begins; write the lower end first, for "
                         "example %s",
                         text, mensur_wish_info(kind)->example);
        return MENSUR_USE;
    }
    if (kind == MENSUR_WISH_TENSION && wish.note[0] == '\0' && !wish.percent) {
        mensur_fault_set(fault,
                         "\"%s\" names no note; write a note before the range (A4=50..58), or "
                         "percents for all strings (95%%..105%%)",
                         text);
        return MENSUR_USE;
    }
    *out = wish;
    return MENSUR_OK;
}

static bool read_positive(const char *text, size_t length, enum mensur_kind kind, double *value) {
    struct mensur_quantity quantity;
    if (mensur_quantity_read(text, length, kind, true, &quantity) != MENSUR_OK ||
        !(quantity.value > 0.0)) {
        return false;
    }
    *value = quantity.value;
    return true;
}

/* TENSION@LENGTH or TENSION@LENGTH@A4 */
static bool read_figures(const char *text, struct mensur_packet *packet) {
    const char *at = strchr(text, '@');
    packet->a4 = NAN;
    if (at == NULL || !read_positive(text, (size_t)(at - text), MENSUR_FORCE, &packet->tension)) {
        return false;
    }
    const char *length = at + 1;
    const char *second = strchr(length, '@');
    size_t size = second == NULL ? strlen(length) : (size_t)(second - length);
    return read_positive(length, size, MENSUR_LENGTH, &packet->length) &&
           (second == NULL ||
            read_positive(second + 1, strlen(second + 1), MENSUR_FREQUENCY, &packet->a4));
}

enum mensur_status mensur_range_read(enum mensur_kind kind, const char *text, double *low,
                                     double *high) {
    struct mensur_quantity ends[2] = {MENSUR_UNKNOWN, MENSUR_UNKNOWN};
    size_t width;
    const char *joint = find_joint(text, &width);
    size_t before = joint == NULL ? strlen(text) : (size_t)(joint - text);
    const char *behind = joint == NULL ? text : joint + width;
    size_t after = strlen(behind);
    if ((width == 1 && (before == 0 || after == 0)) || (joint != NULL && before + after == 0) ||
        (before > 0 && mensur_quantity_read(text, before, kind, true, &ends[0]) != MENSUR_OK) ||
        (after > 0 && mensur_quantity_read(behind, after, kind, true, &ends[1]) != MENSUR_OK) ||
        ends[0].value > ends[1].value) {
        return MENSUR_USE;
    }
    double give = joint != NULL              ? 0.0
                  : kind == MENSUR_LENGTH    ? 0.001
                  : kind == MENSUR_SEMITONES ? 0.2
                  : kind == MENSUR_ANGLE     ? mensur_to_si(MENSUR_ANGLE, 1.0)
                                             : 0.03 * fabs(ends[0].value);
    *low = ends[0].value - give;
    *high = ends[1].value + give;
    return MENSUR_OK;
}

enum mensur_status mensur_packet_read(const char *text, struct mensur_fault *fault,
                                      struct mensur_packet *out) {
    const char *equals = strchr(text, '=');
    struct mensur_packet packet;
    if (equals == NULL ||
        mensur_note_read(text, (size_t)(equals - text), &packet.note) != MENSUR_OK ||
        !read_figures(equals + 1, &packet)) {
        mensur_fault_set(fault,
                         "\"%s\" is no packet; write NOTE=TENSION@LENGTH, for example A4=55@370, "
                         "and a third @ with its A4 where that is another (A4=55@370@442)",
                         text);
        return MENSUR_USE;
    }
    *out = packet;
    return MENSUR_OK;
}
