/* SPDX-License-Identifier: GPL-3.0-or-later */
/* instruments.csv: handed out row by row; nothing of a row is kept. */
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

static bool is_sound(const struct instruments *out, const struct mensur_instrument *instrument) {
    size_t count = out->sound_count < SOUND_MOST ? out->sound_count : SOUND_MOST;
    for (size_t i = 0; i < count; i++) {
        const struct sound_names *sound = &out->sound[i];
        if (strcmp(sound->text[2], or_empty(instrument->set)) == 0 &&
            strcmp(sound->text[0], or_empty(instrument->family)) == 0 &&
            strcmp(sound->text[1], or_empty(instrument->tuning)) == 0) {
            return true;
        }
    }
    return false;
}

static void keep_sound(struct instruments *out, const struct mensur_instrument *instrument) {
    const char *names[3] = {or_empty(instrument->family), or_empty(instrument->tuning),
                            or_empty(instrument->set)};
    struct sound_names sound = {{""}};
    for (int i = 0; i < 3; i++) {
        size_t length = strlen(names[i]);
        if (length >= SOUND_LONGEST) {
            return;
        }
        memcpy(sound.text[i], names[i], length);
    }
    out->sound[out->sound_count++ % SOUND_MOST] = sound;
}

static void check_names(struct reading *reading, struct instruments *out,
                        const struct mensur_instrument *instrument) {
    if (!is_sound(out, instrument) &&
        mensur_check_names(reading, out->stock, out->lookups, instrument)) {
        keep_sound(out, instrument);
    }
}

static enum mensur_status take_row(struct reading *reading) {
    struct instruments *out = reading->context;
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

void mensur_instruments_init(struct instruments *instruments, struct mensur_source *source,
                             const struct mensur_stock *stock, struct lookups lookups,
                             bool compared, struct mensur_report *report) {
    *instruments = (struct instruments){.stock = stock, .lookups = lookups};
    instruments->reading = (struct reading){.layout = &layout,
                                            .source = source,
                                            .log = {.file = source->label, .report = report},
                                            .names = compared ? &instruments->names : NULL,
                                            .context = instruments};
}

void mensur_instruments_clear(struct instruments *instruments) {
    mensur_names_clear(&instruments->names);
}
