/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wishes and packets as they are typed: LOW..HIGH, open on either side, ends included; and
 * NOTE=TENSION@LENGTH. */
#include <math.h>
#include <string.h>

#include "ask.h"
#include "figures.h"

static enum mensur_status refuse(enum mensur_wish_kind kind, const char *text,
                                 struct mensur_fault *fault) {
    mensur_fault_set(fault, "\"%s\" is no range for this wish; write LOW..HIGH, for example %s",
                     text, mensur_wish_info(kind)->example);
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

static bool is_sound(const struct mensur_wish *wish) {
    bool open = isnan(wish->low) && isnan(wish->high);
    /* A comparison with an open end is false, as it should be. */
    return !open && !(wish->low < 0.0) && !(wish->high <= 0.0) && !(wish->low > wish->high);
}

enum mensur_status mensur_wish_read(enum mensur_wish_kind kind, const char *text,
                                    struct mensur_fault *fault, struct mensur_wish *out) {
    struct mensur_wish wish = {.kind = kind};
    const char *range = text;
    if (kind == MENSUR_WISH_TENSION && read_note(&range, wish.note) != MENSUR_OK) {
        return refuse(kind, text, fault);
    }
    const char *dots = strstr(range, "..");
    if (dots == NULL) {
        return refuse(kind, text, fault);
    }
    wish.percent = kind == MENSUR_WISH_TENSION && strchr(range, '%') != NULL;
    if (read_end(kind, range, (size_t)(dots - range), wish.percent, &wish.low) != MENSUR_OK ||
        read_end(kind, dots + 2, strlen(dots + 2), wish.percent, &wish.high) != MENSUR_OK ||
        !is_sound(&wish)) {
        return refuse(kind, text, fault);
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
