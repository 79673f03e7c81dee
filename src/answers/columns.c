/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The published keys, in their published order: those agreed first, others behind them. */
#include "columns.h"

#include <string.h>

#define NUMBER(key, type, member, kind)                                                            \
    { key, offsetof(type, member), MENSUR_COLUMN_NUMBER, kind }
#define KNOWN(key, type, member)                                                                   \
    { key, offsetof(type, member), MENSUR_COLUMN_KNOWN, MENSUR_NUMBER }
#define POINTER(key, type, member)                                                                 \
    { key, offsetof(type, member), MENSUR_COLUMN_POINTER, MENSUR_NUMBER }
#define TEXT(key, type, member)                                                                    \
    { key, offsetof(type, member), MENSUR_COLUMN_TEXT, MENSUR_NUMBER }
#define TABLE(items) ((struct mensur_columns){items, sizeof(items) / sizeof((items)[0])})

#define LENGTH(key, member) NUMBER(key, struct mensur_lengths, member, MENSUR_LENGTH)

static const struct mensur_column lengths[] = {
    LENGTH("body_mm", body),
    LENGTH("body_straight_mm", body_straight),
    LENGTH("stop_mm", stop),
    LENGTH("neck_mm", neck),
    LENGTH("string_length_mm", string_length),
    KNOWN("string_length_measured", struct mensur_lengths, string_length_measured),
    LENGTH("string_length_geometry_mm", string_length_geometry),
    NUMBER("stop_per_2_neck", struct mensur_lengths, stop_per_2_neck, MENSUR_NUMBER),
    NUMBER("body_at_semitones", struct mensur_lengths, body_at_semitones, MENSUR_SEMITONES),
    NUMBER("neck_slope_deg", struct mensur_lengths, neck_slope, MENSUR_ANGLE),
    NUMBER("break_angle_deg", struct mensur_lengths, break_angle, MENSUR_ANGLE),
    NUMBER("down_factor", struct mensur_lengths, down_factor, MENSUR_NUMBER),
    LENGTH("left_reach_mm", left_reach),
    LENGTH("bow_reach_mm", bow_reach),
    LENGTH("afterlength_mm", afterlength),
    LENGTH("clearance_at_board_end_mm", clearance_at_board_end),
    LENGTH("bow_room_mm", bow_room),
};

#define STRING(key, member, kind) NUMBER(key, struct mensur_string_figures, member, kind)

static const struct mensur_column strings[] = {
    POINTER("string", struct mensur_string_figures, string),
    TEXT("note", struct mensur_string_figures, note),
    STRING("frequency_Hz", frequency, MENSUR_FREQUENCY),
    STRING("linear_density_g_per_m", linear_density, MENSUR_LINEAR_DENSITY),
    STRING("tension_N", tension, MENSUR_FORCE),
    STRING("stress_MPa", stress, MENSUR_STRESS),
    STRING("breaking_margin_semitones", breaking_margin, MENSUR_SEMITONES),
    STRING("inharmonicity", inharmonicity, MENSUR_NUMBER),
    STRING("impedance_kg_per_s", impedance, MENSUR_NUMBER),
    STRING("force_on_belly_N", force_on_belly, MENSUR_FORCE),
    KNOWN("in_made_for_range", struct mensur_string_figures, in_made_for_range),
    STRING("made_for_low_mm", made_for_low, MENSUR_LENGTH),
    STRING("made_for_high_mm", made_for_high, MENSUR_LENGTH),
    STRING("highest_frequency_Hz", highest_frequency, MENSUR_FREQUENCY),
    STRING("bow_force_least_N", bow_force_least, MENSUR_FORCE),
    STRING("bow_force_greatest_N", bow_force_greatest, MENSUR_FORCE),
    STRING("press_force_first_N", press_force_first, MENSUR_FORCE),
    STRING("press_force_octave_N", press_force_octave, MENSUR_FORCE),
    STRING("rise_low_cents", rise_low_cents, MENSUR_NUMBER),
    STRING("rise_high_cents", rise_high_cents, MENSUR_NUMBER),
};

static const struct mensur_column places[] = {
    NUMBER("semitones", struct mensur_finger_place, semitones, MENSUR_SEMITONES),
    NUMBER("from_nut_mm", struct mensur_finger_place, from_nut, MENSUR_LENGTH),
    NUMBER("to_next_mm", struct mensur_finger_place, to_next, MENSUR_LENGTH),
};

static const struct mensur_column positions[] = {
    TEXT("position", struct mensur_position, name),
    NUMBER("first_finger_mm", struct mensur_position, first_finger, MENSUR_LENGTH),
    NUMBER("fourth_finger_mm", struct mensur_position, fourth_finger, MENSUR_LENGTH),
    NUMBER("frame_mm", struct mensur_position, frame, MENSUR_LENGTH),
};

static const struct mensur_column true_places[] = {
    TEXT("note", struct mensur_true_place, note),
    POINTER("string", struct mensur_true_place, string),
    NUMBER("semitones", struct mensur_true_place, semitones, MENSUR_SEMITONES),
    NUMBER("from_nut_low_mm", struct mensur_true_place, from_nut_low, MENSUR_LENGTH),
    NUMBER("from_nut_high_mm", struct mensur_true_place, from_nut_high, MENSUR_LENGTH),
};

#define STEP(key, member, kind) NUMBER(key, struct mensur_step, member, kind)

static const struct mensur_column steps[] = {
    STEP("string_length_mm", string_length, MENSUR_LENGTH),
    STEP("stop_per_2_neck", stop_per_2_neck, MENSUR_NUMBER),
    STEP("body_at_semitones", body_at_semitones, MENSUR_SEMITONES),
    STEP("left_reach_mm", left_reach, MENSUR_LENGTH),
    STEP("bow_room_mm", bow_room, MENSUR_LENGTH),
    STEP("total_tension_N", total_tension, MENSUR_FORCE),
    STEP("total_force_on_belly_N", total_force_on_belly, MENSUR_FORCE),
    STEP("bow_reach_mm", bow_reach, MENSUR_LENGTH),
};

static const struct mensur_column insteads[] = {
    TEXT("note", struct mensur_instead, note),
    NUMBER("present_linear_density_g_per_m", struct mensur_instead, present_linear_density,
           MENSUR_LINEAR_DENSITY),
    NUMBER("needed_linear_density_g_per_m", struct mensur_instead, needed_linear_density,
           MENSUR_LINEAR_DENSITY),
    POINTER("nearest_string", struct mensur_instead, nearest_string),
};

struct mensur_columns mensur_lengths_columns(void) {
    return TABLE(lengths);
}

struct mensur_columns mensur_string_columns(void) {
    return TABLE(strings);
}

struct mensur_columns mensur_place_columns(void) {
    return TABLE(places);
}

struct mensur_columns mensur_position_columns(void) {
    return TABLE(positions);
}

struct mensur_columns mensur_true_place_columns(void) {
    return TABLE(true_places);
}

struct mensur_columns mensur_step_columns(void) {
    return TABLE(steps);
}

struct mensur_columns mensur_instead_columns(void) {
    return TABLE(insteads);
}

/* The member's address; memcpy from it, because its type is the column's to say. */
static const char *member(const struct mensur_column *column, const void *record) {
    return (const char *)record + column->offset;
}

static double number_in_si(const struct mensur_column *column, const void *record) {
    double value;
    memcpy(&value, member(column, record), sizeof(value));
    return value;
}

double mensur_column_number(const struct mensur_column *column, const void *record) {
    return mensur_from_si(column->kind, number_in_si(column, record));
}

enum mensur_known mensur_column_known(const struct mensur_column *column, const void *record) {
    enum mensur_known known;
    memcpy(&known, member(column, record), sizeof(known));
    return known;
}

const char *mensur_column_text(const struct mensur_column *column, const void *record) {
    if (column->type == MENSUR_COLUMN_TEXT) {
        return member(column, record);
    }
    const char *text;
    memcpy(&text, member(column, record), sizeof(text));
    return text;
}

void mensur_columns_subtract(struct mensur_columns columns, const void *record, const void *first,
                             void *out) {
    for (size_t i = 0; i < columns.count; i++) {
        const struct mensur_column *column = &columns.items[i];
        if (column->type == MENSUR_COLUMN_NUMBER) {
            double difference = number_in_si(column, record) - number_in_si(column, first);
            memcpy((char *)out + column->offset, &difference, sizeof(difference));
        }
    }
}
