/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of a shop other than its instruments: clear, find by name. */
#include "stock.h"

#include <stdlib.h>

#include "stock_index.h"

void mensur_string_spec_clear(struct mensur_string_spec *spec) {
    free(spec->name);
    free(spec->set);
    free(spec->material);
    free(spec->construction);
    free(spec->source);
    for (int i = 0; i < MENSUR_WRAPS_MAX; i++) {
        free(spec->wraps[i].material);
    }
}

void mensur_stock_clear(struct mensur_stock *stock) {
    for (size_t i = 0; i < stock->family_count; i++) {
        free(stock->families[i].name);
        free(stock->families[i].positions_as_written);
        free(stock->families[i].like);
        free(stock->families[i].small_family);
        free(stock->families[i].source);
    }
    for (size_t i = 0; i < stock->tuning_count; i++) {
        free(stock->tunings[i].name);
    }
    for (size_t i = 0; i < stock->string_count; i++) {
        mensur_string_spec_clear(&stock->strings[i]);
    }
    for (size_t i = 0; i < stock->material_count; i++) {
        free(stock->materials[i].name);
        free(stock->materials[i].source);
    }
    for (size_t i = 0; i < stock->wire_count; i++) {
        free(stock->wires[i].material);
        free(stock->wires[i].source);
    }
    for (size_t i = 0; i < stock->player_count; i++) {
        free(stock->players[i].name);
        free(stock->players[i].note);
    }
    for (size_t i = 0; i < stock->size_count; i++) {
        free(stock->sizes[i].name);
        free(stock->sizes[i].family);
        free(stock->sizes[i].tuning);
        free(stock->sizes[i].source);
    }
    for (size_t i = 0; i < stock->position_count; i++) {
        free(stock->positions[i].list);
        free(stock->positions[i].name);
        free(stock->positions[i].source);
    }
    for (size_t i = 0; i < stock->setting_count; i++) {
        free(stock->settings[i].name);
        free(stock->settings[i].value);
    }
    free(stock->families);
    free(stock->tunings);
    free(stock->strings);
    free(stock->materials);
    free(stock->wires);
    free(stock->players);
    free(stock->bands);
    free(stock->sizes);
    free(stock->positions);
    free(stock->settings);
    mensur_stock_index_free(stock);
    *stock = (struct mensur_stock){0};
}

/* Returns the row of that name; NULL where there is none. */
#define FIND(rows, count, table, wanted)                                                           \
    size_t row = mensur_stock_place(stock, table, wanted);                                         \
    return row < (count) ? &(rows)[row] : NULL

const struct mensur_family *mensur_stock_family(const struct mensur_stock *stock,
                                                const char *name) {
    FIND(stock->families, stock->family_count, MENSUR_NAMED_FAMILIES, name);
}

const struct mensur_tuning *mensur_stock_tuning(const struct mensur_stock *stock,
                                                const char *name) {
    FIND(stock->tunings, stock->tuning_count, MENSUR_NAMED_TUNINGS, name);
}

const struct mensur_tuning *mensur_instrument_tuning(const struct mensur_stock *stock,
                                                     const struct mensur_instrument *instrument) {
    if (instrument->own.count > 0) {
        return &instrument->own;
    }
    if (instrument->tuning != NULL) {
        return mensur_stock_tuning(stock, instrument->tuning);
    }
    const struct mensur_tuning *tuning = mensur_stock_tuning(stock, instrument->family);
    if (tuning != NULL) {
        return tuning;
    }
    const struct mensur_family *family = mensur_stock_family(stock, instrument->family);
    return family != NULL ? mensur_stock_tuning(stock, family->like) : NULL;
}

const struct mensur_material *mensur_stock_material(const struct mensur_stock *stock,
                                                    const char *name) {
    FIND(stock->materials, stock->material_count, MENSUR_NAMED_MATERIALS, name);
}

const struct mensur_player *mensur_stock_player(const struct mensur_stock *stock,
                                                const char *name) {
    FIND(stock->players, stock->player_count, MENSUR_NAMED_PLAYERS, name);
}

const struct mensur_named_size *mensur_stock_size(const struct mensur_stock *stock,
                                                  const char *name) {
    FIND(stock->sizes, stock->size_count, MENSUR_NAMED_SIZES, name);
}

const struct mensur_string_spec *mensur_stock_set_string(const struct mensur_stock *stock,
                                                         const char *set,
                                                         const struct mensur_note *note) {
    for (size_t i = mensur_stock_place(stock, MENSUR_NAMED_SETS, set); i < stock->string_count;
         i = mensur_stock_next_of_set(stock, i)) {
        const struct mensur_string_spec *string = &stock->strings[i];
        if (string->note.semitones_from_a4 == note->semitones_from_a4 &&
            string->note.fifths_from_a == note->fifths_from_a) {
            return string;
        }
    }
    return NULL;
}
