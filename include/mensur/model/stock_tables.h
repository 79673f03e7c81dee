/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * What a shop holds besides its instruments, as struct mensur_shop has it; what is in the tables is
 * the library's own.
 */
#ifndef MENSUR_STOCK_TABLES_H
#define MENSUR_STOCK_TABLES_H

#include <stddef.h>

/** The tables of a shop; owns all of them. All zero is an empty stock. */
struct mensur_stock {
    struct mensur_family *families;
    size_t family_count;
    struct mensur_tuning *tunings;
    size_t tuning_count;
    struct mensur_string_spec *strings;
    size_t string_count;
    struct mensur_material *materials;
    size_t material_count;
    struct mensur_wire_strength *wires; /**< grouped by material, in order of diameter */
    size_t wire_count;
    struct mensur_player *players;
    size_t player_count;
    struct mensur_named_size *sizes; /**< that instruments are made in */
    size_t size_count;
    struct mensur_list_position *positions; /**< of the hand, in lists that families name */
    size_t position_count;
    struct mensur_bands *bands; /**< of the families, made from the sizes */
    size_t band_count;
    struct mensur_setting *settings;
    size_t setting_count;
    struct mensur_stock_index *index; /**< of the names in long tables; NULL: none */
};

#endif
