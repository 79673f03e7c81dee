/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A value with its unit, of every kind; the value read is finite, and its printed form can be read.
 */
#include <math.h>
#include <string.h>

#include "fuzz.h"
#include "number.h"
#include "quantity.h"

static void print_and_read(double value, int digits) {
    char text[MENSUR_NUMBER_ROOM];
    size_t used;
    double again;
    size_t length = mensur_number_print_significant(value, digits, text);
    MUST(length < sizeof text && text[length] == '\0');
    /* rounded up to few digits, larger numbers exceed the greatest double */
    if (fabs(value) < 1e307) {
        MUST(mensur_number_read(text, length, false, &used, &again) == MENSUR_OK && used == length);
        MUST(digits < 17 || !(again < value || again > value));
    }
    length = mensur_number_print(value, digits, text);
    MUST(length < sizeof text && text[length] == '\0');
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct mensur_quantity quantity;
    if (size == 0) {
        return 0;
    }
    bool decimal_comma = (data[0] & 1) != 0;
    const struct mensur_unit *inch = mensur_unit_find(MENSUR_LENGTH, "in");
    char wanted[MENSUR_WANTED_ROOM];
    for (int kind = 0; kind < MENSUR_KIND_COUNT; kind++) {
        quantity = (struct mensur_quantity){.value = NAN};
        if (mensur_quantity_read((const char *)data + 1, size - 1, (enum mensur_kind)kind,
                                 decimal_comma, &quantity) != MENSUR_OK) {
            MUST(isnan(quantity.value));
            MUST(strlen(mensur_quantity_wanted((const char *)data + 1, size - 1,
                                               (enum mensur_kind)kind, decimal_comma, wanted)) > 0);
            continue;
        }
        MUST(isfinite(quantity.value) && quantity.plus_minus >= 0.0 &&
             isfinite(quantity.plus_minus));
        print_and_read(quantity.value, data[0] % 17 + 1);
        if (kind == MENSUR_LENGTH &&
            mensur_quantity_read_in((const char *)data + 1, size - 1, MENSUR_LENGTH, inch,
                                    decimal_comma, &quantity) == MENSUR_OK) {
            MUST(isfinite(quantity.value) && isfinite(quantity.plus_minus));
        }
    }
    return 0;
}
