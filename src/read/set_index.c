/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of sets and notes with open addressing. */
#include "set_index.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { LEAST_ROOM = 64 };

/* FNV-1a over the set's name and the note. */
static uint64_t hash_of(const char *set, const struct mensur_note *note) {
    uint64_t hash = 14695981039346656037u;
    for (const char *at = set; *at != '\0'; at++) {
        hash = (hash ^ (unsigned char)*at) * 1099511628211u;
    }
    hash = (hash ^ (uint64_t)(int64_t)note->semitones_from_a4) * 1099511628211u;
    hash = (hash ^ (uint64_t)(int64_t)note->fifths_from_a) * 1099511628211u;
    return hash ^ hash >> 32;
}

/* The slot of a set's string for a note, or the empty one where it would be. */
static size_t slot_of(const struct set_index *index, const struct mensur_stock *stock,
                      const char *set, const struct mensur_note *note) {
    size_t slot = (size_t)hash_of(set, note) & (index->room - 1);
    for (; index->slots[slot] != 0; slot = (slot + 1) & (index->room - 1)) {
        const struct mensur_string_spec *spec = &stock->strings[index->slots[slot] - 1];
        if (spec->note.semitones_from_a4 == note->semitones_from_a4 &&
            spec->note.fifths_from_a == note->fifths_from_a && strcmp(spec->set, set) == 0) {
            break;
        }
    }
    return slot;
}

/* Room for all strings of the stock, at most half of it taken; false without memory. */
static bool make_room(struct set_index *index, const struct mensur_stock *stock) {
    size_t room = index->room == 0 ? LEAST_ROOM : index->room;
    while (room < 2 * (stock->string_count + 1)) {
        room *= 2;
    }
    if (room == index->room) {
        return true;
    }
    size_t *slots = calloc(room, sizeof *slots);
    if (slots == NULL) {
        return false;
    }
    free(index->slots);
    *index = (struct set_index){slots, room, 0};
    return true;
}

enum mensur_status mensur_set_index_find(struct set_index *index, const struct mensur_stock *stock,
                                         const char *set, const struct mensur_note *note,
                                         const struct mensur_string_spec **found) {
    if (set == NULL) {
        *found = NULL;
        return MENSUR_OK;
    }
    if (!make_room(index, stock)) {
        return MENSUR_MEMORY;
    }
    for (; index->taken < stock->string_count; index->taken++) {
        const struct mensur_string_spec *spec = &stock->strings[index->taken];
        if (spec->set != NULL) {
            size_t slot = slot_of(index, stock, spec->set, &spec->note);
            index->slots[slot] = index->taken + 1; /* a set has one string for each note */
        }
    }
    size_t place = index->slots[slot_of(index, stock, set, note)];
    *found = place == 0 ? NULL : &stock->strings[place - 1];
    return MENSUR_OK;
}

void mensur_set_index_clear(struct set_index *index) {
    free(index->slots);
    *index = (struct set_index){NULL, 0, 0};
}
