/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "words.h"

#include <math.h>
#include <string.h>

const char *words_number(double value, int decimals, struct words *room) {
    mensur_number_print(value, decimals, room->text);
    return room->text;
}

const char *words_length_bare(double metres, bool inches, struct words *room) {
    return inches ? words_number(metres / (MENSUR_MM_PER_INCH / 1e3), 2, room)
                  : words_number(mensur_from_si(MENSUR_LENGTH, metres), 1, room);
}

const char *words_length_unit(bool inches) {
    return inches ? "in" : "mm";
}

const char *words_length(double metres, bool inches, struct words *room) {
    words_length_bare(metres, inches, room);
    strcat(room->text, " ");
    strcat(room->text, words_length_unit(inches));
    return room->text;
}

const char *words_force(double newtons, enum mensur_force_unit unit, struct words *room) {
    const struct mensur_force_unit_info *info = mensur_force_unit_info(unit);
    words_number(newtons / info->newtons, info->decimals, room);
    strcat(room->text, " ");
    strcat(room->text, info->name);
    return room->text;
}

const char *words_percent(double ratio, struct words *room) {
    words_number(fabs(ratio - 1.0) * 100.0, 1, room);
    strcat(room->text, " %");
    return room->text;
}
