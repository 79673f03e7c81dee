/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of any bytes is read, or refused with a message that has a line and a column. One program
 * for each table, chosen by -DTABLE=MENSUR_TABLE_...; strings and instruments look names up in the
 * built-in shop, and questions are answered about every accepted instrument. An input that starts
 * with '!' is rows to be put below the built-in table's first row. */
#include <gsl/gsl_errno.h>
#include <string.h>

#include "ask.h"
#include "fuzz.h"
#include "tables.h"

static struct mensur_shop shop;
static struct mensur_terms terms;

static void open_once(void) {
    struct mensur_report report = {.errors = {0}};
    if (shop.label == NULL) {
        gsl_set_error_handler_off();
        mensur_terms_init(&terms);
        MUST(mensur_shop_open(NULL, &report, &shop) == MENSUR_OK);
        mensur_report_clear(&report);
    }
}

static enum mensur_status ask(void *context, const struct mensur_instrument *instrument) {
    struct mensur_profile profile;
    struct mensur_fault fault;
    (void)context;
    if (mensur_ask_profile(&shop.stock, instrument, &terms, MENSUR_PART_ALL, &fault, &profile) ==
        MENSUR_OK) {
        MUST(profile.lengths.string_length > 0.0);
        mensur_profile_clear(&profile);
    }
    return MENSUR_OK;
}

static enum mensur_status read_any(struct mensur_source *source, struct mensur_report *report,
                                   struct mensur_stock *stock) {
    struct reading reading = mensur_reading(TABLE, source, stock, true, report);
    if (TABLE == MENSUR_TABLE_INSTRUMENTS) {
        reading.stock = &shop.stock;
        reading.visit = ask;
    } else if (TABLE == MENSUR_TABLE_STRINGS) {
        stock->materials = shop.stock.materials;
        stock->material_count = shop.stock.material_count;
    }
    return mensur_table_read(&reading);
}

static void try_bytes(const uint8_t *bytes, size_t size) {
    struct mensur_stock stock = {0};
    struct mensur_report report = {.errors = {0}};
    char label[] = "f";
    struct mensur_source source = {.label = label, .bytes = bytes, .size = size};
    enum mensur_status status = read_any(&source, &report, &stock);
    MUST(status == MENSUR_OK || status == MENSUR_DATA);
    MUST((status == MENSUR_DATA) == (report.errors.count > 0));
    for (size_t i = 0; i < report.errors.count; i++) {
        MUST(strncmp(report.errors.items[i], "f:", 2) == 0);
    }
    if (TABLE == MENSUR_TABLE_STRINGS) {
        stock.materials = NULL;
        stock.material_count = 0;
    }
    mensur_stock_clear(&stock);
    mensur_texts_clear(&source.owners);
    mensur_report_clear(&report);
}

static void try_rows(const uint8_t *rows, size_t size) {
    size_t whole;
    const unsigned char *table = mensur_built_in(TABLE, &whole);
    const unsigned char *end = memchr(table, '\n', whole);
    MUST(end != NULL);
    size_t head = (size_t)(end - table) + 1;
    uint8_t *bytes = malloc(head + size);
    MUST(bytes != NULL);
    memcpy(bytes, table, head);
    memcpy(bytes + head, rows, size);
    try_bytes(bytes, head + size);
    free(bytes);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    open_once();
    if (size > 0 && data[0] == '!') {
        try_rows(data + 1, size - 1);
    } else {
        try_bytes(data, size);
    }
    return 0;
}
