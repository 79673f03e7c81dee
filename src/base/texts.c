/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Messages: one fault, a growing list of texts, copies of text, distance between words.
 *
 * Distance: Damerau 1964, A technique for computer detection and correction of spelling errors,
 * Commun. ACM 7, 171-176; restricted form (no letter is changed twice).
 */
#include "texts.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "utf8.h"

#define LONGEST_WORD 64
#define FAR_APART 1000

void mensur_fault_set(struct mensur_fault *fault, const char *format, ...) {
    if (fault == NULL) {
        return;
    }
    va_list values;
    va_start(values, format);
    int length = vsnprintf(fault->text, sizeof(fault->text), format, values);
    va_end(values);
    if (length < 0) {
        fault->text[0] = '\0';
    } else if ((size_t)length >= sizeof(fault->text)) {
        size_t last = sizeof(fault->text) - 1;
        size_t whole = mensur_utf8_whole(fault->text, last);
        fault->text[whole > 0 ? whole : last] = '\0'; /* what has no letter at all stays */
    }
}

static enum mensur_status make_room(struct mensur_texts *list) {
    if (list->count < list->room) {
        return MENSUR_OK;
    }
    size_t room = list->room == 0 ? 8 : list->room * 2;
    if (room > SIZE_MAX / sizeof(char *)) {
        return MENSUR_MEMORY;
    }
    char **items = realloc(list->items, room * sizeof(*items));
    if (items == NULL) {
        return MENSUR_MEMORY;
    }
    list->items = items;
    list->room = room;
    return MENSUR_OK;
}

enum mensur_status mensur_texts_add(struct mensur_texts *list, const char *format, ...) {
    va_list values;
    va_start(values, format);
    int length = vsnprintf(NULL, 0, format, values);
    va_end(values);
    if (length < 0 || make_room(list) != MENSUR_OK) {
        return MENSUR_MEMORY;
    }
    char *text = malloc((size_t)length + 1);
    if (text == NULL) {
        return MENSUR_MEMORY;
    }
    va_start(values, format);
    vsnprintf(text, (size_t)length + 1, format, values);
    va_end(values);
    list->items[list->count++] = text;
    return MENSUR_OK;
}

void mensur_texts_clear(struct mensur_texts *list) {
    for (size_t i = 0; i < list->count; i++) {
        free(list->items[i]);
    }
    free(list->items);
    *list = (struct mensur_texts){0};
}

enum mensur_status mensur_text_copy(const char *text, size_t length, char **out) {
    char *copy = malloc(length + 1);
    if (copy == NULL) {
        return MENSUR_MEMORY;
    }
    if (length > 0) {
        memcpy(copy, text, length);
    }
    copy[length] = '\0';
    *out = copy;
    return MENSUR_OK;
}

static int small(char letter) {
    return letter >= 'A' && letter <= 'Z' ? letter - 'A' + 'a' : letter;
}

static int least(int a, int b) {
    return a < b ? a : b;
}

int mensur_text_distance(const char *a, const char *b) {
    int count[3][LONGEST_WORD + 1]; /* the last three rows of the table, row i in i % 3 */
    size_t a_length = strlen(a), b_length = strlen(b);
    if (a_length > LONGEST_WORD || b_length > LONGEST_WORD) {
        return FAR_APART;
    }
    for (size_t j = 0; j <= b_length; j++) {
        count[0][j] = (int)j;
    }
    for (size_t i = 1; i <= a_length; i++) {
        int *row = count[i % 3], *above = count[(i + 2) % 3], *two_above = count[(i + 1) % 3];
        row[0] = (int)i;
        for (size_t j = 1; j <= b_length; j++) {
            int same = small(a[i - 1]) == small(b[j - 1]) ? 0 : 1;
            row[j] = least(least(above[j] + 1, row[j - 1] + 1), above[j - 1] + same);
            if (i > 1 && j > 1 && small(a[i - 1]) == small(b[j - 2]) &&
                small(a[i - 2]) == small(b[j - 1])) {
                row[j] = least(row[j], two_above[j - 2] + 1);
            }
        }
    }
    return count[a_length % 3][b_length];
}
