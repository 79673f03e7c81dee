/* SPDX-License-Identifier: GPL-3.0-or-later */
/* families.csv: how a family is held, its positions, the usual value of each measurement. */
#include <math.h>
#include <string.h>

#include "number.h"
#include "table.h"
#include "tables.h"

enum {
    NAME,
    HELD,
    FRAME,
    POSITIONS,
    CLEARANCE_HIGH,
    CLEARANCE_LOW,
    SOURCE,
    FIRST_FIELD,
    COLUMN_COUNT = FIRST_FIELD + MENSUR_FIELD_COUNT
};

static const char *const columns[COLUMN_COUNT] = {"name",
                                                  "held",
                                                  "frame_semitones",
                                                  "positions",
                                                  "clearance_high_offset",
                                                  "clearance_low_offset",
                                                  "source",
#define NAME_OF(id, name, domain, meaning) name,
                                                  MENSUR_FIELD_LIST(NAME_OF)
#undef NAME_OF
};

static const char *const held_words[] = {
    [MENSUR_CHIN] = "chin", [MENSUR_KNEE] = "knee", [MENSUR_STANDING] = "standing"};

static void read_held(struct reading *reading, struct mensur_family *family) {
    const char *text = mensur_cell_text(reading, HELD);
    char cut[MENSUR_SHORT_ROOM];
    for (int i = 0; text != NULL && i < 3; i++) {
        if (strcmp(text, held_words[i]) == 0) {
            family->held = (enum mensur_held)i;
            return;
        }
    }
    mensur_cell_error(reading, HELD, "held: \"%s\" will not do; write chin, knee or standing",
                      text != NULL ? mensur_log_short(text, cut) : "");
}

/* Rising counts of semitones above the open string, separated by blanks; false where the text is
 * anything else. */
static bool read_positions(const char *text, bool decimal_comma, struct mensur_family *family) {
    size_t count = 0;
    double before = 0;
    while (*text != '\0') {
        size_t used;
        double value;
        if (count == MENSUR_POSITIONS_MAX ||
            mensur_number_read(text, strlen(text), decimal_comma, &used, &value) != MENSUR_OK ||
            (text[used] != ' ' && text[used] != '\0') || !(value > before)) {
            return false;
        }
        family->positions[count++] = before = value;
        text += used + strspn(text + used, " ");
    }
    family->position_count = count;
    return count > 0;
}

static void take_positions(struct reading *reading, struct mensur_family *family) {
    const char *text = mensur_cell_text(reading, POSITIONS);
    if (text == NULL || !read_positions(text, reading->row->decimal_comma, family)) {
        char cut[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, POSITIONS,
                          "positions: \"%s\" will not do; write up to %d rising counts of "
                          "semitones, for example 1 2 4 5 7",
                          text != NULL ? mensur_log_short(text, cut) : "", MENSUR_POSITIONS_MAX);
    }
}

static void read_measures(struct reading *reading, struct mensur_family *family) {
    for (int i = 0; i < MENSUR_FIELD_COUNT; i++) {
        enum range range = mensur_field_info((enum mensur_field)i)->domain == MENSUR_POSITIVE
                               ? RANGE_POSITIVE
                               : RANGE_NOT_NEGATIVE;
        family->usual[i] = mensur_cell_value(reading, FIRST_FIELD + i, MENSUR_LENGTH, range);
    }
    double high = mensur_cell_value(reading, CLEARANCE_HIGH, MENSUR_LENGTH, RANGE_ANY);
    double low = mensur_cell_value(reading, CLEARANCE_LOW, MENSUR_LENGTH, RANGE_ANY);
    family->clearance_high_offset = isnan(high) ? 0.0 : high;
    family->clearance_low_offset = isnan(low) ? 0.0 : low;
}

static void read_frame(struct reading *reading, struct mensur_family *family) {
    if (!mensur_cell_given(reading, FRAME)) {
        mensur_cell_error(reading, FRAME,
                          "frame_semitones: the cell is empty; write how many semitones the hand "
                          "spans from first to fourth finger");
    }
    family->frame_semitones = mensur_cell_value(reading, FRAME, MENSUR_SEMITONES, RANGE_POSITIVE);
}

static enum mensur_status keep(struct mensur_stock *stock, const struct mensur_family *family) {
    struct mensur_family *rows = mensur_grow(stock->families, stock->family_count, sizeof(*rows));
    if (rows == NULL) {
        return MENSUR_MEMORY;
    }
    stock->families = rows;
    rows[stock->family_count++] = *family;
    return MENSUR_OK;
}

static enum mensur_status take_row(struct reading *reading) {
    struct mensur_family family = {0};
    if (mensur_has_column(reading, HELD)) {
        read_held(reading, &family);
    }
    if (mensur_has_column(reading, FRAME)) {
        read_frame(reading, &family);
    }
    if (mensur_has_column(reading, POSITIONS)) {
        take_positions(reading, &family);
    }
    read_measures(reading, &family);
    if (!mensur_row_good(reading)) {
        return MENSUR_OK;
    }
    enum mensur_status status = mensur_cell_copy(reading, NAME, &family.name);
    if (status == MENSUR_OK) {
        status = mensur_cell_copy(reading, SOURCE, &family.source);
    }
    if (status == MENSUR_OK) {
        status = keep(reading->context, &family);
    }
    if (status != MENSUR_OK) {
        mensur_family_clear(&family);
    }
    return status;
}

static const struct layout layout = {
    .columns = columns, .count = COLUMN_COUNT, .required = 4, .named = true, .take_row = take_row};

enum mensur_status mensur_read_families(struct mensur_source *source, struct mensur_report *report,
                                        struct mensur_stock *stock) {
    return mensur_table_read_into(&layout, source, report, stock);
}
