/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shared by the tests of the reader: a shop from texts, its report, the instruments that are read.
 */
#ifndef MENSUR_TEST_READING_H
#define MENSUR_TEST_READING_H

#include "check.h"

#include "shop_files.h"

/* A table as text, of that many bytes (0: up to its terminating NUL). */
struct given {
    enum mensur_table table;
    const char *text;
    size_t size;
};

/* The result of reading. */
struct outcome {
    enum mensur_status status;
    struct mensur_report report;
    struct mensur_shop shop;
    struct mensur_instrument instruments[8];
    size_t count; /* of instruments read; the first eight are kept */
};

static inline enum mensur_status keep_instrument(void *context,
                                                 const struct mensur_instrument *instrument) {
    struct outcome *outcome = context;
    enum mensur_status status = MENSUR_OK;
    if (outcome->count < COUNT_OF(outcome->instruments)) {
        status = mensur_instrument_copy(instrument, &outcome->instruments[outcome->count]);
    }
    outcome->count++;
    return status;
}

/* Opens a shop of these tables and, if that succeeds, reads its instruments. */
static inline void read_tables(const struct given *given, size_t count, struct outcome *outcome) {
    struct mensur_bytes bytes[MENSUR_TABLE_COUNT];
    *outcome = (struct outcome){0};
    for (size_t i = 0; i < count; i++) {
        bytes[i] =
            (struct mensur_bytes){given[i].table, (const unsigned char *)given[i].text,
                                  given[i].size != 0 ? given[i].size : strlen(given[i].text)};
    }
    outcome->status =
        mensur_shop_open_bytes("test", bytes, count, &outcome->report, &outcome->shop);
    if (outcome->status == MENSUR_OK) {
        outcome->status = mensur_shop_instruments(&outcome->shop, true, keep_instrument, outcome,
                                                  &outcome->report);
    }
}

static inline void read_table(enum mensur_table table, const char *text, size_t size,
                              struct outcome *outcome) {
    struct given given = {table, text, size};
    read_tables(&given, 1, outcome);
}

static inline void clear_outcome(struct outcome *outcome) {
    for (size_t i = 0; i < outcome->count && i < COUNT_OF(outcome->instruments); i++) {
        mensur_instrument_clear(&outcome->instruments[i]);
    }
    mensur_report_clear(&outcome->report);
    mensur_shop_clear(&outcome->shop);
}

/* Fails unless the list holds one text for each of these: it must begin with the part before the |
 * and contain the part after it, if any. NULL ends them. */
static inline void check_messages(const char *row, const struct mensur_texts *list,
                                  const char *const *wanted) {
    size_t count = 0;
    for (; wanted[count] != NULL; count++) {
        const char *bar = strchr(wanted[count], '|');
        size_t length = bar != NULL ? (size_t)(bar - wanted[count]) : strlen(wanted[count]);
        const char *got = count < list->count ? list->items[count] : "(nothing)";
        if (strncmp(got, wanted[count], length) != 0 ||
            (bar != NULL && strstr(got + length, bar + 1) == NULL)) {
            fail_msg("%s: got \"%s\", want \"%s\"", row, got, wanted[count]);
        }
    }
    if (list->count != count) {
        fail_msg("%s: %zu messages, want %zu; the last: %s", row, list->count, count,
                 list->items[list->count - 1]);
    }
}

/* A table that is refused, and all its messages. */
struct refusal {
    const char *name;
    enum mensur_table table;
    const char *text;
    size_t size;
    const char *errors[6];
};

static inline void check_refusals(const struct refusal *rows, size_t count) {
    for (size_t i = 0; i < count; i++) {
        struct outcome outcome;
        read_table(rows[i].table, rows[i].text, rows[i].size, &outcome);
        check_messages(rows[i].name, &outcome.report.errors, rows[i].errors);
        check_status(rows[i].name, outcome.status, MENSUR_DATA);
        clear_outcome(&outcome);
    }
}

#endif
