/* SPDX-License-Identifier: GPL-3.0-or-later */
/* instruments.csv: handed out row by row; nothing of a row is kept. */
#include <math.h>

#include "instrument_rules.h"

static const char *const columns[INSTRUMENT_COLUMN_COUNT] = {"name",
                                                             "family",
                                                             "tuning",
                                                             "strings",
                                                             "note",
#define NAME_OF(id, name, domain, meaning) name,
                                                             MENSUR_FIELD_LIST(NAME_OF)
#undef NAME_OF
};

/* What the reading hands on. */
struct hand_out {
    const struct mensur_stock *stock;
    struct lookups lookups;
    mensur_visit *visit;
    void *context;
};

static bool has_enough(const struct reading *reading) {
    return mensur_has_column(reading, INSTRUMENT_COLUMN(STRING_LENGTH)) ||
           (mensur_has_column(reading, INSTRUMENT_COLUMN(STOP)) &&
            mensur_has_column(reading, INSTRUMENT_COLUMN(NECK)));
}

static void read_measures(struct reading *reading, struct mensur_instrument *instrument) {
    for (int i = 0; i < MENSUR_FIELD_COUNT; i++) {
        enum range range = mensur_field_info((enum mensur_field)i)->domain == MENSUR_POSITIVE
                               ? RANGE_POSITIVE
                               : RANGE_NOT_NEGATIVE;
        instrument->measure[i] =
            mensur_cell_quantity(reading, INSTRUMENT_FIRST_FIELD + i, MENSUR_LENGTH, range);
    }
}

static enum mensur_status take_row(struct reading *reading) {
    const struct hand_out *out = reading->context;
    /* its texts are the row's own cells, which live until the visit returns */
    struct mensur_instrument instrument = {
        .name = mensur_cell_text(reading, INSTRUMENT_NAME),
        .family = mensur_cell_text(reading, INSTRUMENT_FAMILY),
        .tuning = mensur_cell_text(reading, INSTRUMENT_TUNING),
        .set = mensur_cell_text(reading, INSTRUMENT_STRINGS),
        .note = mensur_cell_text(reading, INSTRUMENT_NOTE),
        .line = reading->row->line,
    };
    read_measures(reading, &instrument);
    if (!reading->head_bad) {
        mensur_check_measures(reading, out->stock, out->lookups, &instrument);
        mensur_check_names(reading, out->stock, out->lookups, &instrument);
    }
    if (!mensur_row_good(reading) || out->visit == NULL) {
        return MENSUR_OK;
    }
    return out->visit(out->context, &instrument);
}

static const struct layout layout = {
    .columns = columns,
    .count = INSTRUMENT_COLUMN_COUNT,
    .required = 1,
    .named = true,
    .has_enough = has_enough,
    .needs_one = "the columns are missing that every row needs: string_length, or both stop and "
                 "neck",
    .take_row = take_row};

enum mensur_status mensur_read_instruments(struct mensur_source *source,
                                           const struct mensur_stock *stock, struct lookups lookups,
                                           bool names, mensur_visit *visit, void *context,
                                           struct mensur_report *report) {
    struct names seen = {0};
    struct hand_out out = {stock, lookups, visit, context};
    struct reading reading = {.layout = &layout,
                              .source = source,
                              .log = {.file = source->label, .report = report},
                              .names = names ? &seen : NULL,
                              .context = &out};
    enum mensur_status status = mensur_table_read(&reading);
    mensur_names_clear(&seen);
    return status;
}
