/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One reader for each table of a shop. */
#ifndef MENSUR_READ_TABLES_H
#define MENSUR_READ_TABLES_H

#include "names.h"
#include "shop.h"

/* Each adds its rows to the stock and its errors and warnings to the report (which may be NULL).
 * MENSUR_OK; MENSUR_DATA after any error; MENSUR_READ; MENSUR_MEMORY. */
typedef enum mensur_status table_reader(struct mensur_source *source, struct mensur_report *report,
                                        struct mensur_stock *stock);

table_reader mensur_read_families;
table_reader mensur_read_tunings;
table_reader mensur_read_materials;
table_reader mensur_read_wires;
table_reader mensur_read_players;

/* The same, after the materials; false: those had errors, and nothing is looked up in them. */
enum mensur_status mensur_read_strings(struct mensur_source *source, struct mensur_report *report,
                                       struct mensur_stock *stock, bool materials);

/* Which other tables an instrument's names are looked up in: those that had errors are not. */
struct lookups {
    bool families, tunings, strings;
};

/* mensur_shop_instruments with a choice of lookups; the names are the caller's to clear, and left
 * sorted; NULL: they are not compared. */
enum mensur_status mensur_read_instruments(struct mensur_source *source,
                                           const struct mensur_stock *stock, struct lookups lookups,
                                           struct names *names, mensur_visit *visit, void *context,
                                           struct mensur_report *report);

#endif
