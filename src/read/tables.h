/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The layouts of all tables. */
#ifndef MENSUR_READ_TABLES_H
#define MENSUR_READ_TABLES_H

#include "table.h"

extern const struct layout mensur_families_layout, mensur_instruments_layout,
    mensur_materials_layout, mensur_players_layout, mensur_positions_layout, mensur_settings_layout,
    mensur_strings_layout, mensur_sizes_layout, mensur_tunings_layout, mensur_wires_layout;

/* A reading of a table, still to be opened; the report may be NULL. */
struct reading mensur_reading(enum mensur_table table, struct mensur_source *source,
                              struct mensur_stock *stock, bool compared,
                              struct mensur_report *report);

#endif
