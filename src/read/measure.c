/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads one value of a measurement as a cell of its column is read. */
#include "measure.h"

#include <string.h>

#include "log.h"

enum mensur_status mensur_read_measure(enum mensur_field field, const char *text, bool relative,
                                       struct mensur_fault *fault, struct mensur_quantity *out) {
    const char *name = mensur_field_info(field)->name;
    enum mensur_kind kind = mensur_field_info(field)->kind;
    struct mensur_quantity quantity;
    char cut[MENSUR_SHORT_ROOM];
    if (mensur_quantity_read(text, strlen(text), kind, false, &quantity) != MENSUR_OK) {
        char wanted[MENSUR_WANTED_ROOM];
        mensur_fault_set(fault, "%s: \"%s\" is not %s", name, mensur_log_short(text, cut),
                         mensur_quantity_wanted(text, strlen(text), kind, false, wanted));
        return MENSUR_USE;
    }
    if (!relative && mensur_field_check(field, quantity.value) != MENSUR_OK) {
        mensur_fault_set(fault, "%s: \"%s\" is out of its range, which is %s", name,
                         mensur_log_short(text, cut), mensur_field_domain_text(field));
        return MENSUR_USE;
    }
    *out = quantity;
    return MENSUR_OK;
}
