/* SPDX-License-Identifier: GPL-3.0-or-later */
/* instruments.csv: passed to the visit function row by row; rows are not kept. */
#include <math.h>
#include <string.h>

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

/* The latest combinations of family, tuning and set that were checked without error or warning: a
 * long file repeats a few, which then need no second look-up. */
#define CHECKED_MOST 8
#define CHECKED_LONGEST 40

struct checked_names {
    char text[3][CHECKED_LONGEST]; /* empty: not given */
};

/* What take_row needs. */
struct row_target {
    const struct mensur_stock *stock;
    struct lookups lookups;
    mensur_visit *visit;
    void *context;
    struct checked_names checked[CHECKED_MOST];
    size_t checked_count; /* kept so far; a new one replaces the oldest */
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

static const char *or_empty(const char *text) {
    return text != NULL ? text : "";
}

static bool is_checked(const struct row_target *out, const struct mensur_instrument *instrument) {
    size_t count = out->checked_count < CHECKED_MOST ? out->checked_count : CHECKED_MOST;
    for (size_t i = 0; i < count; i++) {
        const struct checked_names *checked = &out->checked[i];
        if (strcmp(checked->text[2], or_empty(instrument->set)) == 0 &&
            strcmp(checked->text[0], or_empty(instrument->family)) == 0 &&
            strcmp(checked->text[1], or_empty(instrument->tuning)) == 0) {
            return true;
        }
    }
    return false;
}

static void keep_checked(struct row_target *out, const struct mensur_instrument *instrument) {
    const char *names[3] = {or_empty(instrument->family), or_empty(instrument->tuning),
                            or_empty(instrument->set)};
    struct checked_names checked = {{""}};
    for (int i = 0; i < 3; i++) {
        size_t length = strlen(names[i]);
        if (length >= CHECKED_LONGEST) {
            return;
        }
        memcpy(checked.text[i], names[i], length);
    }
    out->checked[out->checked_count++ % CHECKED_MOST] = checked;
}

static void check_names(struct reading *reading, struct row_target *out,
                        const struct mensur_instrument *instrument) {
    if (!is_checked(out, instrument) &&
        mensur_check_names(reading, out->stock, out->lookups, instrument)) {
        keep_checked(out, instrument);
    }
}

static enum mensur_status take_row(struct reading *reading) {
    struct row_target *out = reading->context;
    /* its texts are the row's own cells, which are valid until the visit returns */
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
        check_names(reading, out, &instrument);
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
                                           struct names *names, mensur_visit *visit, void *context,
                                           struct mensur_report *report) {
    struct row_target out = {
        .stock = stock, .lookups = lookups, .visit = visit, .context = context};
    struct reading reading = {.layout = &layout,
                              .source = source,
                              .log = {.file = source->label, .report = report},
                              .names = names,
                              .context = &out};
    return mensur_table_read(&reading);
}
