/* SPDX-License-Identifier: GPL-3.0-or-later */
/* instruments.csv: the measurements must not contradict each other, and the names must exist. */
#include <math.h>
#include <string.h>

#include "tables.h"
#include "usual.h"

/* The texts, then the measurements in the order of their list. */
enum { NAME, FAMILY, TUNING, STRINGS, NOTE, FIRST_FIELD };

/* Column of a measurement. */
#define COLUMN(field) (FIRST_FIELD + (int)MENSUR_FIELD_##field)

/* arch and arch_full - edge may differ by this much, the reading error of calipers (ours). */
#define ARCH_SLACK_M 0.00005

#define VALUE(instrument, field) ((instrument)->measure[MENSUR_FIELD_##field].value)

/* Tells whether the family says how long a neck usually is for a stop; or may, where there is an
 * error in its file. */
static bool has_usual_neck(const struct reading *reading,
                           const struct mensur_instrument *instrument) {
    const struct mensur_family *family = mensur_stock_family(reading->stock, instrument->family);
    return reading->bad.is[MENSUR_TABLE_FAMILIES] ||
           (family == NULL && instrument->family != NULL) /* which is told by its own name */ ||
           !isnan(mensur_family_usual(reading->stock, family, MENSUR_FIELD_NECK,
                                      VALUE(instrument, STOP)));
}

static void check_length(struct reading *reading, const struct mensur_instrument *instrument) {
    bool stop = mensur_cell_given(reading, COLUMN(STOP));
    bool neck = mensur_cell_given(reading, COLUMN(NECK));
    if (mensur_cell_given(reading, COLUMN(STRING_LENGTH)) || (stop && neck)) {
        return;
    }
    if (stop && !has_usual_neck(reading, instrument)) {
        mensur_cell_error(reading, COLUMN(NECK),
                          "neck: it is missing, and no family says how long it usually is; give "
                          "it, or string_length, or a family that has a usual neck");
    } else if (neck && !stop) {
        mensur_cell_error(reading, COLUMN(STOP),
                          "stop: it is missing; an instrument needs stop (without a neck the "
                          "family's usual one is assumed), or string_length");
    } else if (!stop) {
        int at = mensur_has_column(reading, COLUMN(STRING_LENGTH)) ? COLUMN(STRING_LENGTH)
                                                                   : COLUMN(STOP);
        mensur_cell_error(reading, at,
                          "string_length: it is missing; an instrument needs it, or stop and, "
                          "unless its family has a usual one, neck");
    }
}

/* Refuses a measurement that is not more than another (or is less, where they may be equal); a pair
 * with an unknown value passes. */
static void check_pair(struct reading *reading, const struct mensur_instrument *instrument,
                       enum mensur_field smaller, enum mensur_field greater, bool may_be_equal) {
    double small = instrument->measure[smaller].value, great = instrument->measure[greater].value;
    if (small > great || (!may_be_equal && !isnan(small) && !isnan(great) && !(small < great))) {
        char cut[MENSUR_SHORT_ROOM], other[MENSUR_SHORT_ROOM];
        int column = FIRST_FIELD + (int)greater;
        mensur_cell_error(
            reading, column, "%s: \"%s\" is %s than %s, \"%s\"; one of them is wrong",
            reading->layout->columns[column].name,
            mensur_log_short(mensur_cell_text(reading, column), cut),
            may_be_equal ? "less" : "not more", mensur_field_info(smaller)->name,
            mensur_log_short(mensur_cell_text(reading, FIRST_FIELD + (int)smaller), other));
    }
}

/* Checks arch = arch_full - edge; the edge may be the family's usual one. */
static void check_arch(struct reading *reading, const struct mensur_instrument *instrument) {
    double full = VALUE(instrument, ARCH_FULL), edge = VALUE(instrument, EDGE);
    if (isnan(full)) {
        return;
    }
    bool own_edge = mensur_cell_given(reading, COLUMN(EDGE));
    const struct mensur_family *family = mensur_stock_family(reading->stock, instrument->family);
    if (!own_edge && family != NULL) {
        edge =
            mensur_family_usual(reading->stock, family, MENSUR_FIELD_EDGE, VALUE(instrument, STOP));
    }
    if (isnan(edge) && (own_edge || reading->bad.is[MENSUR_TABLE_FAMILIES])) {
        return; /* the family or the edge has an error of its own */
    }
    if (isnan(edge)) {
        mensur_cell_error(reading, COLUMN(ARCH_FULL),
                          "arch_full: it needs edge, the thickness of the belly's edge; or give "
                          "arch, the height above the edge's top");
    } else if (!(full > edge)) {
        mensur_cell_error(reading, COLUMN(ARCH_FULL),
                          "arch_full: it is not more than the belly's edge is thick; it is "
                          "measured from the ribs");
    } else if (fabs(VALUE(instrument, ARCH) - (full - edge)) > ARCH_SLACK_M) {
        mensur_cell_error(reading, COLUMN(ARCH_FULL),
                          "arch_full: less the edge it is not the arch of this row; give one of "
                          "the two");
    }
}

static void check_measures(struct reading *reading, const struct mensur_instrument *instrument) {
    check_length(reading, instrument);
    check_pair(reading, instrument, MENSUR_FIELD_PROJECTION, MENSUR_FIELD_BRIDGE, false);
    check_pair(reading, instrument, MENSUR_FIELD_BODY_STRAIGHT, MENSUR_FIELD_BODY, true);
    if (isnan(VALUE(instrument, BODY_STRAIGHT))) {
        check_pair(reading, instrument, MENSUR_FIELD_STOP, MENSUR_FIELD_BODY, false);
    } else {
        check_pair(reading, instrument, MENSUR_FIELD_STOP, MENSUR_FIELD_BODY_STRAIGHT, false);
    }
    check_arch(reading, instrument);
}

/* Warns of a set without a string for a note of the tuning; true where it has all. */
static bool warn_of_gaps(struct reading *reading, const struct mensur_instrument *instrument) {
    const char *name = instrument->tuning != NULL ? instrument->tuning : instrument->family;
    const struct mensur_tuning *tuning = mensur_stock_tuning(reading->stock, name);
    char cut[MENSUR_SHORT_ROOM];
    bool whole = true;
    for (size_t i = 0; tuning != NULL && i < tuning->count; i++) {
        if (mensur_stock_set_string(reading->stock, instrument->set, &tuning->notes[i]) == NULL) {
            mensur_cell_warning(reading, STRINGS, "strings: the set \"%s\" has no string for %s",
                                mensur_log_short(instrument->set, cut), tuning->notes[i].name);
            whole = false;
        }
    }
    return whole;
}

/* Refuses unknown names of family, tuning and set; true where there was nothing to say. */
static bool look_up(struct reading *reading, const struct mensur_instrument *instrument) {
    static const struct {
        int column;
        enum mensur_table table;
        const char *what;
    } names[] = {{FAMILY, MENSUR_TABLE_FAMILIES, "family"},
                 {TUNING, MENSUR_TABLE_TUNINGS, "tuning"},
                 {STRINGS, MENSUR_TABLE_STRINGS, "set of strings"}};
    bool sound = true;
    for (size_t i = 0; i < sizeof(names) / sizeof(names[0]); i++) {
        struct known_names known = mensur_names_in(reading->stock, names[i].table);
        const char *name = mensur_cell_text(reading, names[i].column);
        if (name == NULL || reading->bad.is[names[i].table]) {
            continue;
        }
        if (mensur_is_known(name, &known)) {
            sound = (names[i].column != STRINGS || warn_of_gaps(reading, instrument)) && sound;
            continue;
        }
        char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
        mensur_cell_error(reading, names[i].column, "%s: there is no %s \"%s\"; %s",
                          reading->layout->columns[names[i].column].name, names[i].what,
                          mensur_log_short(name, cut), mensur_suggest(name, &known, suggestion));
        sound = false;
    }
    return sound;
}

static const char *or_empty(const char *text) {
    return text != NULL ? text : "";
}

static bool is_sound(const struct reading *reading, const struct mensur_instrument *instrument) {
    size_t count = reading->sound_count < SOUND_MOST ? reading->sound_count : SOUND_MOST;
    for (size_t i = 0; i < count; i++) {
        const struct sound_names *sound = &reading->sound[i];
        if (strcmp(sound->text[2], or_empty(instrument->set)) == 0 &&
            strcmp(sound->text[0], or_empty(instrument->family)) == 0 &&
            strcmp(sound->text[1], or_empty(instrument->tuning)) == 0) {
            return true;
        }
    }
    return false;
}

static void keep_sound(struct reading *reading, const struct mensur_instrument *instrument) {
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
    reading->sound[reading->sound_count++ % SOUND_MOST] = sound;
}

static void blank(void *row) {
    mensur_instrument_init(row);
}

static void check(struct reading *reading, void *row) {
    struct mensur_instrument *instrument = row;
    instrument->line = reading->row->line;
    if (reading->head_bad) {
        return;
    }
    check_measures(reading, instrument);
    if (!is_sound(reading, instrument) && look_up(reading, instrument)) {
        keep_sound(reading, instrument);
    }
}

#define TEXT(title, member)                                                                        \
    { .name = (title), .how = CELL_TEXT, .at = offsetof(struct mensur_instrument, member) }

static const struct column columns[] = {[NAME] = {.name = "name",
                                                  .how = CELL_TEXT,
                                                  .at = offsetof(struct mensur_instrument, name),
                                                  .required = true},
                                        [FAMILY] = TEXT("family", family),
                                        [TUNING] = TEXT("tuning", tuning),
                                        [STRINGS] = TEXT("strings", set),
                                        [NOTE] = TEXT("note", note),
#define MEASURE(id, title, unit, values, power, meaning)                                           \
    {.name = (title),                                                                              \
     .how = CELL_QUANTITY,                                                                         \
     .at = offsetof(struct mensur_instrument, measure[MENSUR_FIELD_##id]),                         \
     .kind = MENSUR_##unit,                                                                        \
     .domain = MENSUR_##values},
                                        MENSUR_FIELD_LIST(MEASURE)
#undef MEASURE
};

const struct layout mensur_instruments_layout = {
    .columns = columns,
    .count = sizeof(columns) / sizeof(columns[0]),
    .named = true,
    .enough = {{COLUMN(STRING_LENGTH), COLUMN(STRING_LENGTH)}, {COLUMN(STOP), COLUMN(NECK)}},
    .less = COLUMN(STOP),
    .needs_one = "the columns are missing that every row needs: string_length, or stop",
    .check = check,
    .blank = blank};
