/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "lettering.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "letters.h"

#define ELLIPSIS "\xE2\x80\xA6"

/* Combining marks kept on one letter: more would overlap the lines above and below. */
enum { MARKS_MAX = 3 };

/* Characters that are left out: control characters, direction marks, invalid UTF-8, and what XML
 * forbids. */
static bool is_dropped(const struct mensur_letter *letter, const char *text) {
    return (letter->code == '?' && *text != '?') || letter->code == 0xFFFE ||
           letter->code == 0xFFFF;
}

static bool is_within(uint32_t code, const uint32_t (*ranges)[2], size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (code >= ranges[i][0] && code <= ranges[i][1]) {
            return true;
        }
    }
    return false;
}

/* Combining marks and joiners, which take no width (the Unicode blocks of combining marks, and the
 * commonest of other scripts). */
static bool is_mark(uint32_t code) {
    static const uint32_t ranges[][2] = {
        {0x300, 0x36F},   {0x483, 0x489},   {0x591, 0x5BD},   {0x610, 0x61A},   {0x64B, 0x65F},
        {0x6D6, 0x6DC},   {0x93A, 0x93C},   {0x93E, 0x94F},   {0xE31, 0xE31},   {0xE34, 0xE3A},
        {0xE47, 0xE4E},   {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x200B, 0x200F}, {0x20D0, 0x20FF},
        {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}};
    return is_within(code, ranges, sizeof(ranges) / sizeof(ranges[0]));
}

/* Hebrew, Arabic and other scripts written from right to left. */
static bool is_from_the_right(uint32_t code) {
    static const uint32_t ranges[][2] = {
        {0x590, 0x8FF}, {0xFB1D, 0xFDFF}, {0xFE70, 0xFEFC}, {0x10800, 0x10FFF}, {0x1E800, 0x1EFFF}};
    return is_within(code, ranges, sizeof(ranges) / sizeof(ranges[0]));
}

static bool is_square(uint32_t code) {
    static const uint32_t ranges[][2] = {{0x1100, 0x115F},  {0x2E80, 0xA4CF}, {0xAC00, 0xD7A3},
                                         {0xF900, 0xFAFF},  {0xFF00, 0xFF60}, {0x1F000, 0x1FAFF},
                                         {0x20000, 0x3FFFD}};
    return is_within(code, ranges, sizeof(ranges) / sizeof(ranges[0]));
}

/* Width over font size (ours), in hundredths: of ASCII from the blank to the tilde. */
static const unsigned char plain_widths[] = {
    /*   ! " # $ % & ' ( ) * + , - . / */
    32, 32, 41, 61, 61, 102, 61, 32, 41, 41, 61, 80, 32, 41, 32, 41,
    /* 0 1 2 3 4 5 6 7 8 9 : ; < = > ? */
    61, 61, 61, 61, 61, 61, 61, 61, 61, 61, 32, 32, 80, 80, 80, 61,
    /* @ A B C D E F G H I J K L M N O */
    102, 70, 70, 70, 70, 70, 70, 70, 70, 32, 70, 70, 70, 102, 70, 70,
    /* P Q R S T U V W X Y Z [ \ ] ^ _ */
    70, 70, 70, 70, 70, 70, 70, 102, 70, 70, 70, 41, 61, 41, 61, 61,
    /* ` a b c d e f g h i j k l m n o */
    61, 61, 61, 61, 61, 61, 41, 61, 61, 32, 32, 61, 32, 102, 61, 61,
    /* p q r s t u v w x y z { | } ~ */
    61, 61, 41, 61, 41, 61, 61, 102, 61, 61, 61, 61, 32, 61, 80};

static double width_of(uint32_t code) {
    if (code >= ' ' && code <= '~') {
        return plain_widths[code - ' '] / 100.0;
    }
    return is_mark(code) ? 0.0 : is_square(code) ? 1.0 : 0.66;
}

double mensur_lettering_width(const char *text, double size) {
    double width = 0.0;
    while (*text != '\0') {
        struct mensur_letter letter = mensur_letter_at(text);
        width += is_dropped(&letter, text) ? 0.0 : width_of(letter.code);
        text += letter.used;
    }
    return width * size;
}

size_t mensur_lettering_line(const char *text, double size, double width) {
    double used = 0.0;
    size_t end = 0;
    for (size_t at = 0; text[at] != '\0';) {
        struct mensur_letter letter = mensur_letter_at(text + at);
        used += is_dropped(&letter, text + at) ? 0.0 : width_of(letter.code);
        at += letter.used;
        if (text[at] == '\0' || (text[at] == ' ' && text[at - 1] != ' ')) {
            if (used * size > width && end > 0) {
                return end;
            }
            end = at;
        }
    }
    return end;
}

/* Copies letters up to a width; tells whether all fitted and whether any is written from right to
 * left. Returns the end of the copy. */
static char *copy_letters(const char *text, double width, size_t marks_max, char *to, bool *whole,
                          bool *turns) {
    size_t marks = 0;
    double used = 0.0;
    *whole = true;
    while (*text != '\0') {
        struct mensur_letter letter = mensur_letter_at(text);
        bool dropped = is_dropped(&letter, text);
        text += letter.used;
        marks = is_mark(letter.code) ? marks + 1 : 0;
        if (dropped || marks > marks_max) {
            continue;
        }
        used += width_of(letter.code);
        if (used > width) {
            *whole = false;
            break;
        }
        *turns = *turns || is_from_the_right(letter.code);
        memcpy(to, letter.bytes, letter.length);
        to += letter.length;
    }
    return to;
}

static char *fitted(const char *text, double ems, size_t marks_max) {
    bool whole = true;
    bool turns = false;
    size_t lead = strlen(MENSUR_ISOLATE);
    char *copy = malloc(strlen(text) + lead + strlen(MENSUR_ISOLATE_END) + strlen(ELLIPSIS) + 1);
    if (copy == NULL) {
        return NULL;
    }
    char *end = copy_letters(text, ems, marks_max, copy + lead, &whole, &turns);
    if (!whole) {
        /* again, with room for the ellipsis */
        turns = false;
        end = copy_letters(text, ems - 0.9, marks_max, copy + lead, &whole, &turns);
        while (end > copy + lead && end[-1] == ' ') {
            end--;
        }
        memcpy(end, ELLIPSIS, strlen(ELLIPSIS));
        end += strlen(ELLIPSIS);
    }
    if (turns) {
        /* The letters follow. NOLINTNEXTLINE(bugprone-not-null-terminated-result) */
        memcpy(copy, MENSUR_ISOLATE, lead);
        memcpy(end, MENSUR_ISOLATE_END, strlen(MENSUR_ISOLATE_END) + 1);
        return copy;
    }
    *end = '\0';
    memmove(copy, copy + lead, (size_t)(end - copy) - lead + 1);
    return copy;
}

bool mensur_lettering_turns(const char *text) {
    while (*text != '\0') {
        struct mensur_letter letter = mensur_letter_at(text);
        if (is_from_the_right(letter.code)) {
            return true;
        }
        text += letter.used;
    }
    return false;
}

char *mensur_lettering_fit(const char *text, double size, double width) {
    return fitted(text, width / size, MARKS_MAX);
}

/* The first letter from which the rest takes no more than a width; never a mark, which belongs to
 * the letter before it. */
static const char *tail_within(const char *text, double ems) {
    while (*text != '\0' &&
           (mensur_lettering_width(text, 1.0) > ems || is_mark(mensur_letter_at(text).code))) {
        text += mensur_letter_at(text).used;
    }
    return text;
}

char *mensur_lettering_fit_ends(const char *text, double size, double width) {
    double half = (width / size - 0.9) / 2.0; /* beside the ellipsis */
    bool fits = mensur_lettering_width(text, size) <= width;
    if (fits || half <= 0.0 || mensur_lettering_turns(text)) {
        return mensur_lettering_fit(text, size, width);
    }
    char *front = fitted(text, half + 0.9, MARKS_MAX); /* with its ellipsis */
    char *back = fitted(tail_within(text, half), INFINITY, MARKS_MAX);
    char *both = NULL;
    if (front != NULL && back != NULL) {
        const char *rest = back + strspn(back, " ");
        both = malloc(strlen(front) + strlen(rest) + 1);
        if (both != NULL) {
            strcat(strcpy(both, front), rest);
        }
    }
    free(front);
    free(back);
    return both;
}

char *mensur_lettering_whole(const char *text) {
    return fitted(text, INFINITY, SIZE_MAX);
}
