/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the fingers fall, side by side. */
#include <math.h>
#include <string.h>

#include "view.h"

static const struct mensur_position *position_of(const struct mensur_profile *profile,
                                                 const char *name) {
    for (size_t i = 0; profile != NULL && i < profile->position_count; i++) {
        if (strcmp(profile->positions[i].name, name) == 0) {
            return &profile->positions[i];
        }
    }
    return NULL;
}

static void put_position(const struct sheet *sheet, json_t *row, const char *key, size_t offset,
                         const char *name) {
    double values[2] = {NAN, NAN}, difference = NAN;
    const struct mensur_position *change = position_of(sheet->difference, name);
    for (size_t i = 0; i < sheet->count; i++) {
        const struct mensur_position *position = position_of(&sheet->profiles[i], name);
        if (position != NULL) {
            memcpy(&values[i], (const char *)position + offset, sizeof values[i]);
        }
    }
    if (change != NULL) {
        memcpy(&difference, (const char *)change + offset, sizeof difference);
    }
    view_cells(sheet, row, key, MENSUR_LENGTH, values, difference);
}

json_t *view_positions(const struct sheet *sheet) {
    json_t *array = json_array();
    for (size_t i = 0; i < sheet->profiles[0].position_count; i++) {
        const char *name = sheet->profiles[0].positions[i].name;
        json_t *row = json_object();
        mensur_json_put(sheet->out, row, "position", mensur_json_text(name));
        put_position(sheet, row, "first", offsetof(struct mensur_position, first_finger), name);
        put_position(sheet, row, "fourth", offsetof(struct mensur_position, fourth_finger), name);
        put_position(sheet, row, "frame", offsetof(struct mensur_position, frame), name);
        mensur_json_add(sheet->out, array, row);
    }
    return array;
}

json_t *view_places(const struct sheet *sheet) {
    json_t *array = json_array();
    for (size_t p = 0; p < sheet->profiles[0].place_count; p++) {
        json_t *row = json_object(), *from = json_array(), *next = json_array();
        for (size_t i = 0; i < sheet->count; i++) {
            const struct mensur_finger_place *place = &sheet->profiles[i].places[p];
            bool there = p < sheet->profiles[i].place_count;
            double from_nut = there ? place->from_nut : NAN, to_next = there ? place->to_next : NAN;
            mensur_json_add(sheet->out, from,
                            view_shown(mensur_show(sheet->style, MENSUR_LENGTH, from_nut)));
            mensur_json_add(sheet->out, next,
                            view_shown(mensur_show(sheet->style, MENSUR_LENGTH, to_next)));
        }
        mensur_json_put(sheet->out, row, "semitones", json_integer((json_int_t)p));
        mensur_json_put(sheet->out, row, "from_nut", from);
        mensur_json_put(sheet->out, row, "to_next", next);
        mensur_json_add(sheet->out, array, row);
    }
    return array;
}
