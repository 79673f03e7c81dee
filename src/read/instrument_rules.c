/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules for a whole row of instruments.csv: the measurements must not contradict each other, and
 * the names must exist. */
#include "instrument_rules.h"

#include <math.h>
#include <string.h>

#include "suggest.h"

/* arch and arch_full - edge may differ by this much, the reading error of calipers (ours). */
#define ARCH_SLACK_M 0.00005

#define VALUE(instrument, field) ((instrument)->measure[MENSUR_FIELD_##field].value)

static void check_length(struct reading *reading) {
    bool stop = mensur_cell_given(reading, INSTRUMENT_COLUMN(STOP));
    bool neck = mensur_cell_given(reading, INSTRUMENT_COLUMN(NECK));
    if (mensur_cell_given(reading, INSTRUMENT_COLUMN(STRING_LENGTH)) || (stop && neck)) {
        return;
    }
    if (stop || neck) {
        int missing = stop ? INSTRUMENT_COLUMN(NECK) : INSTRUMENT_COLUMN(STOP);
        mensur_cell_error(reading, missing,
                          "%s: it is missing; an instrument needs both stop and neck, or "
                          "string_length",
                          reading->layout->columns[missing]);
    } else {
        int at = mensur_has_column(reading, INSTRUMENT_COLUMN(STRING_LENGTH))
                     ? INSTRUMENT_COLUMN(STRING_LENGTH)
                     : INSTRUMENT_COLUMN(STOP);
        mensur_cell_error(reading, at,
                          "string_length: it is missing; an instrument needs it, or both stop and "
                          "neck");
    }
}

/* Refuses a measurement that is not more than another (or is less, where they may be equal); a pair
 * with an unknown value passes. */
static void check_pair(struct reading *reading, const struct mensur_instrument *instrument,
                       enum mensur_field smaller, enum mensur_field greater, bool may_be_equal) {
    double small = instrument->measure[smaller].value, great = instrument->measure[greater].value;
    if (small > great || (!may_be_equal && !isnan(small) && !isnan(great) && !(small < great))) {
        char cut[MENSUR_SHORT_ROOM], other[MENSUR_SHORT_ROOM];
        int column = INSTRUMENT_FIRST_FIELD + (int)greater;
        mensur_cell_error(
            reading, column, "%s: \"%s\" is %s than %s, \"%s\"; one of them is wrong",
            reading->layout->columns[column],
            mensur_log_short(mensur_cell_text(reading, column), cut),
            may_be_equal ? "less" : "not more", mensur_field_info(smaller)->name,
            mensur_log_short(mensur_cell_text(reading, INSTRUMENT_FIRST_FIELD + (int)smaller),
                             other));
    }
}

/* Checks arch = arch_full - edge; the edge may be the family's usual one. */
static void check_arch(struct reading *reading, const struct mensur_stock *stock,
                       struct lookups lookups, const struct mensur_instrument *instrument) {
    double full = VALUE(instrument, ARCH_FULL), edge = VALUE(instrument, EDGE);
    if (isnan(full)) {
        return;
    }
    bool own_edge = mensur_cell_given(reading, INSTRUMENT_COLUMN(EDGE));
    const struct mensur_family *family = mensur_stock_family(stock, instrument->family);
    if (!own_edge && family != NULL) {
        edge = family->usual[MENSUR_FIELD_EDGE];
    }
    if (isnan(edge) && (own_edge || !lookups.families)) {
        return; /* the family or the edge has an error of its own */
    }
    if (isnan(edge)) {
        mensur_cell_error(reading, INSTRUMENT_COLUMN(ARCH_FULL),
                          "arch_full: it needs edge, the thickness of the belly's edge; or give "
                          "arch, the height above the edge's top");
    } else if (!(full > edge)) {
        mensur_cell_error(reading, INSTRUMENT_COLUMN(ARCH_FULL),
                          "arch_full: it is not more than the belly's edge is thick; it is "
                          "measured from the ribs");
    } else if (fabs(VALUE(instrument, ARCH) - (full - edge)) > ARCH_SLACK_M) {
        mensur_cell_error(reading, INSTRUMENT_COLUMN(ARCH_FULL),
                          "arch_full: less the edge it is not the arch of this row; give one of "
                          "the two");
    }
}

void mensur_check_measures(struct reading *reading, const struct mensur_stock *stock,
                           struct lookups lookups, const struct mensur_instrument *instrument) {
    check_length(reading);
    check_pair(reading, instrument, MENSUR_FIELD_PROJECTION, MENSUR_FIELD_BRIDGE, false);
    check_pair(reading, instrument, MENSUR_FIELD_BODY_STRAIGHT, MENSUR_FIELD_BODY, true);
    if (isnan(VALUE(instrument, BODY_STRAIGHT))) {
        check_pair(reading, instrument, MENSUR_FIELD_STOP, MENSUR_FIELD_BODY, false);
    } else {
        check_pair(reading, instrument, MENSUR_FIELD_STOP, MENSUR_FIELD_BODY_STRAIGHT, false);
    }
    check_arch(reading, stock, lookups, instrument);
}

static void refuse_name(struct reading *reading, int column, const char *what,
                        const struct known_names *known) {
    char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
    const char *name = mensur_cell_text(reading, column);
    mensur_cell_error(reading, column, "%s: there is no %s \"%s\"; %s",
                      reading->layout->columns[column], what, mensur_log_short(name, cut),
                      mensur_suggest(name, known, suggestion));
}

static bool check_family(struct reading *reading, const struct mensur_stock *stock,
                         const struct mensur_instrument *instrument) {
    if (instrument->family != NULL && mensur_stock_family(stock, instrument->family) == NULL) {
        struct known_names known = {stock->families, stock->family_count, sizeof(*stock->families),
                                    offsetof(struct mensur_family, name)};
        refuse_name(reading, INSTRUMENT_FAMILY, "family", &known);
        return false;
    }
    return true;
}

static bool check_tuning(struct reading *reading, const struct mensur_stock *stock,
                         const struct mensur_instrument *instrument) {
    if (instrument->tuning != NULL && mensur_stock_tuning(stock, instrument->tuning) == NULL) {
        struct known_names known = {stock->tunings, stock->tuning_count, sizeof(*stock->tunings),
                                    offsetof(struct mensur_tuning, name)};
        refuse_name(reading, INSTRUMENT_TUNING, "tuning", &known);
        return false;
    }
    return true;
}

static bool is_set(const struct mensur_stock *stock, const char *set) {
    for (size_t i = 0; i < stock->string_count; i++) {
        if (stock->strings[i].set != NULL && strcmp(stock->strings[i].set, set) == 0) {
            return true;
        }
    }
    return false;
}

static bool warn_of_gaps(struct reading *reading, const struct mensur_stock *stock,
                         const struct mensur_instrument *instrument) {
    const char *name = instrument->tuning != NULL ? instrument->tuning : instrument->family;
    const struct mensur_tuning *tuning = mensur_stock_tuning(stock, name);
    char cut[MENSUR_SHORT_ROOM];
    bool whole = true;
    for (size_t i = 0; tuning != NULL && i < tuning->count; i++) {
        if (mensur_stock_set_string(stock, instrument->set, &tuning->notes[i]) == NULL) {
            mensur_cell_warning(reading, INSTRUMENT_STRINGS,
                                "strings: the set \"%s\" has no string for %s",
                                mensur_log_short(instrument->set, cut), tuning->notes[i].name);
            whole = false;
        }
    }
    return whole;
}

static bool check_set(struct reading *reading, const struct mensur_stock *stock,
                      const struct mensur_instrument *instrument) {
    if (instrument->set == NULL) {
        return true;
    }
    if (is_set(stock, instrument->set)) {
        return warn_of_gaps(reading, stock, instrument);
    }
    struct known_names known = {stock->strings, stock->string_count, sizeof(*stock->strings),
                                offsetof(struct mensur_string_spec, set)};
    refuse_name(reading, INSTRUMENT_STRINGS, "set of strings", &known);
    return false;
}

bool mensur_check_names(struct reading *reading, const struct mensur_stock *stock,
                        struct lookups lookups, const struct mensur_instrument *instrument) {
    bool family = !lookups.families || check_family(reading, stock, instrument);
    bool tuning = !lookups.tunings || check_tuning(reading, stock, instrument);
    bool set = !lookups.strings || check_set(reading, stock, instrument);
    return family && tuning && set;
}
