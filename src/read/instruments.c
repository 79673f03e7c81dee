/* SPDX-License-Identifier: GPL-3.0-or-later */
/* instruments.csv: the measurements must not contradict each other, and the names must exist. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "plausible.h"
#include "tables.h"
#include "usual.h"

/* The texts, then the measurements in the order of their list. */
enum { NAME, FAMILY, TUNING, STRINGS, NOTE, BUILT, SIZE, FIRST_FIELD };

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
    if (mensur_cell_given(reading, COLUMN(STRING_LENGTH)) || (stop && neck) ||
        (!stop && mensur_cell_given(reading, SIZE))) {
        return;
    }
    if (stop && !has_usual_neck(reading, instrument)) {
        mensur_cell_error(reading, COLUMN(NECK),
                          "neck: it is missing, and no family says how long it usually is; give "
                          "it, or string_length, or a family that has a usual neck");
    } else if (neck) {
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

/* The slip that a refused row shows in one of two cells, behind a colon: ": centimetres? write 3.85
 * cm", of the other cell with its name; else `without`. The cells are read anew, those too that
 * are out of their ranges. */
static void find_slip(const struct reading *reading, enum mensur_field one, enum mensur_field other,
                      const char *without, char *out) {
    struct mensur_quantity measure[MENSUR_FIELD_COUNT];
    struct mensur_findings found;
    char hint[MENSUR_FINDING_ROOM];
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        const char *text = mensur_cell_text(reading, FIRST_FIELD + f);
        measure[f] = MENSUR_UNKNOWN;
        if (text != NULL) {
            (void)mensur_quantity_read_in(
                text, strlen(text), mensur_field_info((enum mensur_field)f)->kind,
                reading->unit[FIRST_FIELD + f], reading->row->decimal_comma, &measure[f]);
        }
    }
    mensur_judge(reading->stock,
                 mensur_stock_family(reading->stock, mensur_cell_text(reading, FAMILY)), measure,
                 &found);
    const struct mensur_finding *finding = mensur_finding_of(&found, one, other);
    if (finding == NULL) {
        snprintf(out, MENSUR_HINT_ROOM, "%s", without);
        return;
    }
    bool named = finding->row || finding->field != one;
    mensur_finding_hint(finding, hint);
    snprintf(out, MENSUR_HINT_ROOM, "%s%s: %s", named ? "; " : "",
             !named         ? ""
             : finding->row ? "all its measurements"
                            : mensur_field_info(finding->field)->name,
             hint);
}

static void find_slip_of_cell(struct reading *reading, int column, char *out) {
    enum mensur_field field = (enum mensur_field)(column - FIRST_FIELD);
    find_slip(reading, field, field, "", out);
}

/* Refuses a measurement that is not more than another (or is less, where they may be equal); a pair
 * with an unknown value passes. */
static void check_pair(struct reading *reading, const struct mensur_instrument *instrument,
                       enum mensur_field smaller, enum mensur_field greater, bool may_be_equal) {
    double small = instrument->measure[smaller].value, great = instrument->measure[greater].value;
    if (small > great || (!may_be_equal && !isnan(small) && !isnan(great) && !(small < great))) {
        char cut[MENSUR_SHORT_ROOM], other[MENSUR_SHORT_ROOM], hint[MENSUR_HINT_ROOM];
        int column = FIRST_FIELD + (int)greater;
        find_slip(reading, greater, smaller, "; one of them is wrong", hint);
        mensur_cell_error(
            reading, column, "%s: \"%s\" is %s than %s, \"%s\"%s",
            reading->layout->columns[column].name,
            mensur_log_short(mensur_cell_text(reading, column), cut),
            may_be_equal ? "less" : "not more", mensur_field_info(smaller)->name,
            mensur_log_short(mensur_cell_text(reading, FIRST_FIELD + (int)smaller), other), hint);
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
    const struct mensur_tuning *tuning = mensur_instrument_tuning(reading->stock, instrument);
    const struct mensur_string_spec *strings[MENSUR_STRINGS_MAX];
    char cut[MENSUR_SHORT_ROOM];
    bool whole = true;
    if (tuning != NULL) {
        mensur_stock_set_strings(reading->stock, instrument->set, tuning, strings);
    }
    for (size_t i = 0; tuning != NULL && i < tuning->count; i++) {
        if (strings[i] == NULL) {
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
        bool written_out = names[i].column == TUNING && instrument->own.count > 0;
        if (name == NULL || reading->bad.is[names[i].table] || written_out) {
            continue;
        }
        if (mensur_name_is_in(reading, names[i].table, name)) {
            sound = (names[i].column != STRINGS || warn_of_gaps(reading, instrument)) && sound;
            continue;
        }
        char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
        struct mensur_fault fault = {""};
        struct mensur_tuning none = {.count = 0};
        sound = false;
        if (names[i].column == TUNING && mensur_tuning_is_written(name)) {
            (void)mensur_tuning_read(name, &fault, &none);
            mensur_cell_error(reading, TUNING, "tuning: %s", fault.text);
            continue;
        }
        mensur_cell_error(reading, names[i].column, "%s: there is no %s \"%s\"; %s",
                          reading->layout->columns[names[i].column].name, names[i].what,
                          mensur_log_short(name, cut),
                          mensur_reading_suggest(reading, name, &known, suggestion));
    }
    return sound;
}

/* A tuning that is none of the shop's by its name may be written out; an instrument that stands in
 * no file, and has none, has the notes of its set. */
static void read_tuning(struct reading *reading, struct mensur_instrument *instrument) {
    if (instrument->tuning == NULL && reading->log.file == NULL) {
        (void)mensur_stock_set_tuning(reading->stock, instrument->set, &instrument->own);
    }
    if (instrument->tuning != NULL &&
        mensur_stock_tuning(reading->stock, instrument->tuning) == NULL) {
        (void)mensur_tuning_read(instrument->tuning, NULL, &instrument->own);
    }
}

static const char *or_empty(const char *text) {
    return text != NULL ? text : "";
}

/* A text that is not given is the empty one. */
static bool is_same(const char *kept, const char *text) {
    return text == NULL ? *kept == '\0' : *kept == *text && strcmp(kept, text) == 0;
}

static bool is_sound(const struct reading *reading, const struct mensur_instrument *instrument) {
    size_t count = reading->sound_count < SOUND_MOST ? reading->sound_count : SOUND_MOST;
    for (size_t i = 0; i < count; i++) {
        const struct sound_names *sound = &reading->sound[i];
        if (is_same(sound->text[2], instrument->set) &&
            is_same(sound->text[0], instrument->family) &&
            is_same(sound->text[1], instrument->tuning)) {
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

static void warn_of_findings(struct reading *reading, const struct mensur_instrument *instrument) {
    struct mensur_findings found;
    mensur_judge(reading->stock, mensur_stock_family(reading->stock, instrument->family),
                 instrument->measure, &found);
    for (size_t i = 0; i < found.count; i++) {
        char subject[MENSUR_FINDING_ROOM], hint[MENSUR_FINDING_ROOM];
        mensur_finding_subject(&found.items[i], subject);
        mensur_finding_hint(&found.items[i], hint);
        mensur_cell_warning(reading, FIRST_FIELD + (int)found.items[i].field, "%s: %s", subject,
                            hint);
    }
}

static void check(struct reading *reading, void *row) {
    struct mensur_instrument *instrument = row;
    instrument->line = reading->row->line;
    if (reading->head_bad) {
        return;
    }
    check_measures(reading, instrument);
    read_tuning(reading, instrument);
    if (!is_sound(reading, instrument) && look_up(reading, instrument)) {
        keep_sound(reading, instrument);
    }
    if (reading->judged && !reading->row_bad) {
        warn_of_findings(reading, instrument);
    }
}

/* The size whose body, stop and neck the row has where it gives none; its family, and the tuning of
 * the size, unless the row names its own. */
static void read_size(struct reading *reading, int column, void *row) {
    struct mensur_instrument *instrument = row;
    const char *text = mensur_cell_text(reading, column);
    if (text == NULL || reading->bad.is[MENSUR_TABLE_SIZES]) {
        return;
    }
    instrument->size = mensur_stock_size(reading->stock, text);
    if (instrument->size == NULL) {
        char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
        struct known_names known = mensur_names_in(reading->stock, MENSUR_TABLE_SIZES);
        mensur_cell_error(reading, column, "size: there is no size \"%s\"; %s",
                          mensur_log_short(text, cut),
                          mensur_reading_suggest(reading, text, &known, suggestion));
        return;
    }
    if (instrument->family == NULL) {
        instrument->family = instrument->size->family;
    }
    if (instrument->tuning == NULL) {
        instrument->tuning = instrument->size->tuning;
    }
}

/* Reads whether the instrument exists. */
static void read_built(struct reading *reading, int column, void *row) {
    struct mensur_instrument *instrument = row;
    const char *text = mensur_cell_text(reading, column);
    if (text != NULL && !mensur_built_read(text, &instrument->built)) {
        char cut[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, column,
                          "built: \"%s\" is neither yes nor no; write yes for an instrument that "
                          "exists, no for a plan or a model",
                          mensur_log_short(text, cut));
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
                                        [BUILT] = {.name = "built", .rule = read_built},
                                        [SIZE] = {.name = "model_size", .rule = read_size},
#define MEASURE(id, title, unit, values, power, way, meaning)                                      \
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
    .enough = {{COLUMN(STRING_LENGTH), COLUMN(STRING_LENGTH)},
               {COLUMN(STOP), COLUMN(NECK)},
               {SIZE, SIZE}},
    .less = COLUMN(STOP),
    .needs_one = "the columns are missing that every row needs: string_length, or stop",
    .check = check,
    .blank = blank,
    .hint = find_slip_of_cell};
