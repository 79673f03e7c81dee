/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of the table: keys in the order in which JSON and CSV have them, newer keys last. */
#include "figures.h"

#include <math.h>
#include <string.h>

#include "formula_sources.h"
#include "geometry.h"
#include "string_model.h"

#define PUBLISHED MENSUR_FIGURE_PUBLISHED
#define MOVES MENSUR_FIGURE_MOVES
#define PLUS_MINUS MENSUR_FIGURE_PLUS_MINUS
#define CHIN MENSUR_FIGURE_CHIN
#define RATIO MENSUR_FIGURE_RATIO
#define FULL MENSUR_FIGURE_FULL
#define CUT MENSUR_FIGURE_CUT
#define SELDOM MENSUR_FIGURE_SELDOM

/* Of figures that several records have. */
#define STRING_OF_POINTS                                                                           \
    .formula = "√(({S} − {nut.x})² + ({top.y} − {nut.y})²)", .source = FROM_GEOMETRY
#define LEFT_REACH                                                                                 \
    .label = "left reach", .gloss = "lower end of the body to the nut", .symbol = "left_reach",    \
    .formula = "{body_straight} − {nut.x}", .source = FROM_GEOMETRY
#define BOW_REACH                                                                                  \
    .label = "bow reach", .gloss = "lower end of the body to the bridge", .symbol = "bow_reach",   \
    .formula = "{body_straight} − {S}", .source = FROM_GEOMETRY

/* A row; behind kind and flags any of the other members by name. */
#define ROW(key_, record, member, type_, kind_, ...)                                               \
    {                                                                                              \
        .key = (key_), .offset = offsetof(struct record, member), .type = (type_),                 \
        .kind = (kind_), .flags = __VA_ARGS__                                                      \
    }
#define NUMBER(key, record, member, kind, ...)                                                     \
    ROW(key, record, member, MENSUR_FIGURE_NUMBER, kind, __VA_ARGS__)
#define KNOWN(key, record, member, ...)                                                            \
    ROW(key, record, member, MENSUR_FIGURE_KNOWN, MENSUR_NUMBER, __VA_ARGS__)
#define POINTER(key, record, member, ...)                                                          \
    ROW(key, record, member, MENSUR_FIGURE_POINTER, MENSUR_NUMBER, __VA_ARGS__)
#define TEXT(key, record, member, ...)                                                             \
    ROW(key, record, member, MENSUR_FIGURE_TEXT, MENSUR_NUMBER, __VA_ARGS__)

#define LENGTH(key, member, ...) NUMBER(key, mensur_lengths, member, MENSUR_LENGTH, __VA_ARGS__)
#define ANGLE(key, member, ...) NUMBER(key, mensur_lengths, member, MENSUR_ANGLE, __VA_ARGS__)

static const struct mensur_figure instrument[] = {
    LENGTH("body_mm", body, PUBLISHED | CUT, .told = 8, .label = "body",
           .gloss = "the back, with a tape over the arching"),
    LENGTH("body_straight_mm", body_straight, PUBLISHED | FULL, .told = 9,
           .label = "body by calipers", .gloss = "the same in a straight line"),
    LENGTH("stop_mm", stop, PUBLISHED | MOVES | CUT, .told = 2, .label = "stop",
           .gloss = "belly's upper edge to the bridge", .symbol = "S"),
    LENGTH("neck_mm", neck, PUBLISHED | MOVES | CUT, .told = 3, .label = "neck",
           .gloss = "belly's upper edge to the nut", .symbol = "N"),
    LENGTH("string_length_mm", string_length, PUBLISHED | MOVES | PLUS_MINUS | CUT, .told = 1,
           .label = "string length", .gloss = "nut to bridge, the part that sounds", .symbol = "L",
           STRING_OF_POINTS),
    KNOWN("string_length_measured", mensur_lengths, string_length_measured, PUBLISHED),
    LENGTH("string_length_geometry_mm", string_length_geometry, PUBLISHED),
    NUMBER("stop_per_2_neck", mensur_lengths, stop_per_2_neck, MENSUR_NUMBER,
           PUBLISHED | MOVES | RATIO, .told = 4, .label = "neck : stop", .gloss = "the mensur",
           .decimals = 2, .symbol = "stop_per_2_neck", .what = "neck : stop as 2 to",
           .formula = "2·{S}/{N}", .source = FROM_TRADE),
    NUMBER("body_at_semitones", mensur_lengths, body_at_semitones, MENSUR_SEMITONES,
           PUBLISHED | MOVES | PLUS_MINUS, .told = 5, .label = "note at the body",
           .gloss = "up the string, where the hand meets it", .symbol = "body_note",
           .what = "note at which the hand meets the body", .formula = "12·log2({L}/({L} − {N}))",
           .note = "above the open string", .source = FROM_LENGTH),
    ANGLE("neck_slope_deg", neck_slope, PUBLISHED | FULL, .told = 12, .label = "neck slope",
          .gloss = "neck against the plane of the edge", .symbol = "θ", .what = "slope of the neck",
          .formula = "{ψ} − {φ}", .source = FROM_GEOMETRY),
    ANGLE("break_angle_deg", break_angle, PUBLISHED | MOVES | PLUS_MINUS, .told = 10,
          .label = "break angle", .gloss = "string over the bridge; 180: straight",
          .symbol = "break_angle", .formula = "180° − {α} − {β}", .source = FROM_GEOMETRY),
    NUMBER("down_factor", mensur_lengths, down_factor, MENSUR_NUMBER, PUBLISHED | FULL, .told = 11,
           .label = "down factor", .gloss = "part of the tension that presses the belly",
           .decimals = 3, .symbol = "down", .formula = "sin({α}) + sin({β})",
           .source = FROM_STATICS),
    LENGTH("left_reach_mm", left_reach, PUBLISHED | MOVES | PLUS_MINUS | CHIN, .told = 6,
           LEFT_REACH),
    LENGTH("bow_reach_mm", bow_reach, PUBLISHED | MOVES | PLUS_MINUS | CHIN, .told = 7, BOW_REACH),
    LENGTH("afterlength_mm", afterlength, PUBLISHED | CUT, .told = 13, .rests_on = "afterlength",
           .label = "afterlength", .gloss = "bridge to tailpiece", .symbol = "afterlength",
           .formula = "{L}/6", .source = FROM_TRADE),
    LENGTH("clearance_at_board_end_mm", clearance_at_board_end, PUBLISHED | PLUS_MINUS,
           .label = "clearance", .gloss = "strings above the board's end, in mean",
           .symbol = "clearance", .what = "clearance at the board's end",
           .formula = "{c0} + ({c1} − {c0})·{board_length}/{D}", .source = FROM_GEOMETRY),
    LENGTH("bow_room_mm", bow_room, PUBLISHED | MOVES, .told = 17, .rests_on = "board_length",
           .label = "bow room", .gloss = "from the board's end to the bridge", .symbol = "bow_room",
           .formula = "{L} − {board_length}", .source = FROM_DEFINITION),
    KNOWN("built", mensur_lengths, built, PUBLISHED),
    LENGTH("clearance_low_mm", clearance_low, PUBLISHED | CUT, .told = 14, .rests_on = "bridge",
           .label = "clearance, low", .gloss = "lowest string above the board's end"),
    LENGTH("clearance_high_mm", clearance_high, PUBLISHED | CUT, .told = 15, .rests_on = "bridge",
           .label = "clearance, high", .gloss = "highest string above the board's end"),
    NUMBER("first_finger_at_heel_semitones", mensur_lengths, first_finger_at_heel_semitones,
           MENSUR_SEMITONES, PUBLISHED, .told = 16, .rests_on = "heel", .label = "note at the heel",
           .gloss = "first finger with the thumb in the heel"),
    NUMBER("afterlength_semitones", mensur_lengths, afterlength_semitones, MENSUR_SEMITONES,
           PUBLISHED, .label = "note behind the bridge", .gloss = "above the open string"),
    NUMBER("air_volume_cm3", mensur_lengths, air_volume, MENSUR_VOLUME,
           PUBLISHED | FULL | SELDOM | PLUS_MINUS, .told = 18, .label = "air volume",
           .gloss = "inside the body, good to some 5 %", .symbol = "V",
           .what = "volume of the air in the body", .formula = "0.85·{A cm²}·{depth mm}/10",
           .source = FROM_AIR_VOLUME),
    NUMBER("air_note_Hz", mensur_lengths, air_note, MENSUR_FREQUENCY,
           PUBLISHED | FULL | SELDOM | PLUS_MINUS, .told = 19, .label = "air note",
           .gloss = "the lowest of the body's air", .symbol = "f_air",
           .what = "lowest note of the air, as measured"),
};

#define TOTAL(key, member, kind, ...) NUMBER(key, mensur_profile, member, kind, __VA_ARGS__)

static const struct mensur_figure totals[] = {
    TOTAL("total_tension_N", total_tension, MENSUR_FORCE, PUBLISHED | PLUS_MINUS, .told = 1,
          .label = "tension in all", .symbol = "T_all", .source = "sum over the strings"),
    TOTAL("total_force_on_belly_N", total_force_on_belly, MENSUR_FORCE, PUBLISHED | PLUS_MINUS,
          .told = 2, .label = "force on the belly", .symbol = "F_all",
          .what = "force on the belly in all", .source = "sum over the strings"),
    TOTAL("made_for_low_mm", made_for_low, MENSUR_LENGTH, 0),
    TOTAL("made_for_high_mm", made_for_high, MENSUR_LENGTH, 0),
    TOTAL("force_on_treble_foot_N", force_on_treble_foot, MENSUR_FORCE, PUBLISHED | FULL, .told = 3,
          .label = "treble foot", .gloss = "force of the bridge's foot on the belly",
          .rests_on = "foot_spacing", .symbol = "N_treble", .source = FROM_STATICS),
    TOTAL("force_on_bass_foot_N", force_on_bass_foot, MENSUR_FORCE, PUBLISHED | FULL, .told = 4,
          .label = "bass foot", .gloss = "the same of the other foot", .rests_on = "foot_spacing",
          .symbol = "N_bass", .source = FROM_STATICS),
    TOTAL("neck_moment_Nm", neck_moment, MENSUR_NUMBER, PUBLISHED | FULL, .told = 5,
          .label = "neck moment, N m", .gloss = "of the strings at the neck's root", .decimals = 2,
          .symbol = "M", .source = FROM_STATICS),
};

static const struct mensur_figure frets[] = {
    TOTAL("frets", frets, MENSUR_NUMBER, PUBLISHED, .label = "frets",
          .gloss = "how many the family has"),
};

static const struct mensur_figure hand[] = {
    TOTAL("frame_semitones", frame_semitones, MENSUR_SEMITONES, PUBLISHED, .symbol = "hand",
          .what = "first finger to fourth",
          .source = "the family's hand; positions and hand: common practice, no source"),
};

static const struct mensur_figure compared[] = {
    TOTAL("air_semitones_above_first", air_semitones_above_first, MENSUR_SEMITONES, PUBLISHED,
          .label = "air note", .gloss = "of the body's air, above the first one's", .symbol = "air",
          .what = "note of the air above that of the first",
          .formula = "6·log2({A1}/{A2}) + 12·{q}·log2({H1}·{f2}/({H2}·{f1}))",
          .note = "give or take 0.3; q 0.25 to 0.42", .source = FROM_AIR),
};

#define PRESSING                                                                                   \
    .symbol = "F_press", .formula = "{T}·{c}·(1/{x} + 1/({L mm} − {x}))", .source = FROM_STATICS
#define RISING                                                                                     \
    .symbol = "rise", .formula = "1200·log2({f'}/(2·{f}))", .source = FROM_STRETCH, .unit = "cents"
#define CLEARING                                                                                   \
    .symbol = "c", .unit = "fine mm", .source = FROM_GEOMETRY,                                     \
    .formula = "{c0 mm} + ({c1 mm} − {c0 mm})·{x}/{D mm} + 4·{hollow}·{u}·(1 − {u}) + {own}·{u}",  \
    .note = "u = x/board_length; own: against the mean string"
#define STOPPING                                                                                   \
    .symbol = "f'", .source = FROM_STRETCH,                                                        \
    .note = "lf: what shares the stretch; l: what sounds; s: the finger's soft end",               \
    .formula = "√(({T} + {EA}·{δ}/{lf})·(1 + {δ}/{lf})/{μ kg/m})/(2·({l} − {s}))"

#define STRING(key, member, kind, ...) NUMBER(key, mensur_string_figures, member, kind, __VA_ARGS__)

static const struct mensur_figure strings[] = {
    POINTER("string", mensur_string_figures, string, PUBLISHED, .label = "string"),
    TEXT("note", mensur_string_figures, note, PUBLISHED, .label = "note"),
    STRING("frequency_Hz", frequency, MENSUR_FREQUENCY, PUBLISHED, .told = 1, .label = "pitch",
           .symbol = "f"),
    STRING("linear_density_g_per_m", linear_density, MENSUR_LINEAR_DENSITY, PUBLISHED, .told = 2,
           .label = "mass", .symbol = "μ", .what = "density at pitch",
           .formula = "{μ0 g/m}/(1 + {T}/{EA})", .source = FROM_SLACK),
    STRING("tension_N", tension, MENSUR_FORCE, PUBLISHED, .told = 3, .label = "tension",
           .symbol = "T", .formula = "4·{L m}²·{f}²·{μ kg/m}", .note = "in m, Hz and kg/m",
           .source = FROM_MERSENNE),
    STRING("stress_MPa", stress, MENSUR_STRESS, PUBLISHED, .told = 4, .label = "stress",
           .gloss = "in the core", .symbol = "stress", .what = "stress in the core",
           .formula = "{T}/{A}", .note = "in N and mm²", .source = FROM_DEFINITION),
    STRING("breaking_margin_semitones", breaking_margin, MENSUR_SEMITONES, PUBLISHED, .told = 5,
           .label = "margin",
           .gloss = "how many semitones higher the string could be tuned before it breaks",
           .symbol = "margin", .what = "margin to breaking",
           .formula = "6·log2({strength}/{stress})",
           .source = "pitch goes as the root of the tension"),
    STRING("inharmonicity", inharmonicity, MENSUR_NUMBER, PUBLISHED, .label = "stiff",
           .gloss = "inharmonicity B, how far the overtones stand too sharp", .symbol = "B",
           .what = "inharmonicity", .formula = "π²·{E}·{I}/({T}·{L mm}²)",
           .note = "in MPa, mm⁴, N and mm", .source = "Fletcher 1964, from memory"),
    STRING("impedance_kg_per_s", impedance, MENSUR_NUMBER, PUBLISHED, .label = "wave",
           .gloss = "how hard the string is to set moving (wave impedance)", .decimals = 3,
           .symbol = "Z", .what = "wave impedance", .formula = "√({T}·{μ kg/m})",
           .note = "in N and kg/m", .source = FROM_DEFINITION, .unit = "kg/s"),
    STRING("force_on_belly_N", force_on_belly, MENSUR_FORCE, PUBLISHED, .told = 6, .label = "belly",
           .gloss = "the force on the belly", .symbol = "F", .what = "force on the belly",
           .formula = "{T}·{down}", .source = FROM_STATICS),
    KNOWN("in_made_for_range", mensur_string_figures, in_made_for_range, PUBLISHED,
          .label = "made for"),
    STRING("made_for_low_mm", made_for_low, MENSUR_LENGTH, PUBLISHED),
    STRING("made_for_high_mm", made_for_high, MENSUR_LENGTH, PUBLISHED),
    STRING("highest_frequency_Hz", highest_frequency, MENSUR_FREQUENCY, PUBLISHED,
           .label = "highest", .gloss = "the pitch that the core bears on this length",
           .symbol = "f_most", .what = "breaking pitch",
           .formula = "√({strength}·{A}/{μ kg/m})/(2·{L m})", .note = "in MPa, mm², kg/m and m",
           .source = FROM_MERSENNE),
    STRING("bow_force_least_N", bow_force_least, MENSUR_FORCE, PUBLISHED, .label = "bow min",
           .gloss = "the least force that keeps a note going", .symbol = "F_least",
           .what = "least bow force", .formula = "{Z}²·{v}/(2·{R}·{Δ}·{b}²)",
           .source = FROM_SCHELLENG),
    STRING("bow_force_greatest_N", bow_force_greatest, MENSUR_FORCE, PUBLISHED, .label = "bow max",
           .gloss = "the greatest before it scratches", .symbol = "F_most",
           .what = "greatest bow force", .formula = "2·{Z}·{v}/({Δ}·{b})",
           .source = FROM_SCHELLENG),
    STRING("press_force_first_N", press_force_first, MENSUR_FORCE, PUBLISHED, .label = "press 2",
           .gloss = "force to stop it two semitones from the nut",
           .what = "pressing force at semitone 2", PRESSING),
    STRING("press_force_octave_N", press_force_octave, MENSUR_FORCE, PUBLISHED, .label = "at 12",
           .gloss = "force to stop it at the octave", .what = "pressing force at the octave",
           PRESSING),
    STRING("rise_low_cents", rise_low_cents, MENSUR_NUMBER, PUBLISHED, .label = "rise",
           .gloss = "how much stopping at the octave sharpens it, free at nut and bridge",
           .decimals = 1, .what = "its rise, free,", RISING),
    STRING("rise_high_cents", rise_high_cents, MENSUR_NUMBER, PUBLISHED, .label = "to",
           .gloss = "how much stopping at the octave sharpens it, held at nut and bridge",
           .decimals = 1, .what = "its rise, held,", RISING),
    STRING("breaking_margin_high_semitones", breaking_margin_high, MENSUR_SEMITONES, 0),
    STRING("stiffness_N", stiffness, MENSUR_FORCE, 0, .symbol = "EA",
           .what = "stiffness of the core", .formula = "{E}·{A}", .source = "Hooke"),
    STRING("fast_modulus_GPa", fast_modulus, MENSUR_MODULUS, 0, .symbol = "E_fast",
           .what = "modulus of the core for fast changes",
           .formula = "{E0 GPa} + {growth}·{stress}/1000", .unit = "GPa",
           .source = "Woodhouse and Lynch-Aird 2019, second hand"),
    STRING("fast_stiffness_N", fast_stiffness, MENSUR_FORCE, 0, .symbol = "EA_fast",
           .what = "stiffness of the core against fast changes", .formula = "1000·{E_fast}·{A}",
           .source = "Hooke"),
    STRING("greatest_moment", greatest_moment, MENSUR_NUMBER, 0, .symbol = "I_most",
           .what = "second moment, at most", .source = "one solid core, wrappings as coils",
           .unit = "mm⁴"),
    STRING("core_moment", core_moment, MENSUR_NUMBER, 0, .symbol = "I_core",
           .what = "second moment of the core, at most", .source = "one solid core", .unit = "mm⁴"),
    STRING("soft_end_mm", soft_end, MENSUR_LENGTH, 0, .symbol = "s",
           .what = "soft end at the finger, at most", .formula = "√(1000·{E_fast}·{I_core}/{T})",
           .source = FROM_STIFF, .unit = "fine mm"),
    STRING("tuning_strain", tuning_strain, MENSUR_NUMBER, 0, .symbol = "ε",
           .what = "strain at pitch", .formula = "{T}/{EA}", .source = "Hooke"),
    STRING("unthinned_tension_N", unthinned_tension, MENSUR_FORCE, 0, .symbol = "B",
           .what = "tension if the string did not thin", .formula = "4·{L m}²·{f}²·{μ0 kg/m}",
           .note = "in m, Hz and kg/m", .source = FROM_MERSENNE),
    STRING("clearance_offset_mm", clearance_offset, MENSUR_LENGTH, 0, .symbol = "own",
           .unit = "mm"),
    STRING("first_place_mm", first_place, MENSUR_LENGTH, 0),
    STRING("first_clearance_mm", first_clearance, MENSUR_LENGTH, 0,
           .what = "clearance at semitone 2", CLEARING),
    STRING("octave_place_mm", octave_place, MENSUR_LENGTH, 0),
    STRING("octave_clearance_mm", octave_clearance, MENSUR_LENGTH, 0,
           .what = "clearance at the octave", CLEARING),
    STRING("half_place_mm", half_place, MENSUR_LENGTH, 0),
    STRING("half_clearance_mm", half_clearance, MENSUR_LENGTH, 0),
    STRING("stopping_stretch_mm", stretch, MENSUR_LENGTH, 0, .symbol = "δ",
           .what = "stretch of stopping the octave", .formula = "2·{c}²/({x} + √({x}² + {c}²))",
           .note = "both halves alike", .source = FROM_STRETCH, .unit = "fine mm"),
    STRING("sounding_mm", sounding, MENSUR_LENGTH, 0, .symbol = "l", .unit = "m"),
    STRING("stopped_low_Hz", stopped_low, MENSUR_FREQUENCY, 0,
           .what = "stopped octave, free to slide there,", STOPPING),
    STRING("stopped_high_Hz", stopped_high, MENSUR_FREQUENCY, 0,
           .what = "stopped octave, held at nut and bridge,", STOPPING),
    STRING("strength_MPa", strength, MENSUR_STRESS, 0),
    STRING("breaking_tension_N", breaking_tension, MENSUR_FORCE, 0),
    STRING("made_for_tension_low_N", made_for_tension_low, MENSUR_FORCE, 0),
    STRING("made_for_tension_high_N", made_for_tension_high, MENSUR_FORCE, 0),
    TEXT("tuned_to", mensur_string_figures, tuned_to, PUBLISHED, .label = "tuned to"),
    KNOWN("breaking_margin_at_least", mensur_string_figures, breaking_margin_at_least, PUBLISHED),
    STRING("inharmonicity_low", inharmonicity_low, MENSUR_NUMBER, PUBLISHED, .label = "stiff",
           .gloss = "inharmonicity B, if the strands of the core slide on each other",
           .symbol = "B_least", .what = "inharmonicity, at least",
           .formula = "π²·{E}·{I}/({T}·{L mm}²)", .note = "in MPa, mm⁴, N and mm",
           .source = FROM_STIFF),
    STRING("inharmonicity_high", inharmonicity_high, MENSUR_NUMBER, PUBLISHED, .label = "to",
           .gloss = "inharmonicity B, if the strands of the core bend as one piece",
           .symbol = "B_most", .what = "inharmonicity, at most",
           .formula = "1000·π²·{E_fast}·{I_most}/({T}·{L mm}²)", .note = "in GPa, mm⁴, N and mm",
           .source = FROM_STIFF),
    STRING("stretch_mm", tuning_stretch, MENSUR_LENGTH, PUBLISHED, .label = "stretch",
           .gloss = "drawn from slack to pitch", .symbol = "stretch",
           .what = "drawn from slack to pitch", .formula = "{lf}·{ε}", .source = "Hooke"),
    STRING("cents_per_mm", cents_per_mm, MENSUR_NUMBER, PUBLISHED, .label = "by mm",
           .gloss = "rise for each millimetre by which the string is drawn", .decimals = 0,
           .symbol = "by_mm", .what = "rise for each mm drawn",
           .formula = "865.617·({EA_fast}/{T} + 1)/{lf}",
           .source = "Hooke; pitch goes as the root of the tension", .unit = "cents"),
    STRING("cents_per_K", cents_per_kelvin, MENSUR_NUMBER, PUBLISHED, .label = "by K",
           .gloss = "for each kelvin by which steel and instrument grow warmer", .decimals = 1),
    STRING("clamped_rise_cents", clamped_rise_cents, MENSUR_NUMBER, PUBLISHED, .label = "ends",
           .gloss = "how much higher it sounds at most, were nut and bridge clamps", .decimals = 1),
    POINTER("density_from", mensur_string_figures, density_from, PUBLISHED),
    KNOWN("own", mensur_string_figures, own, PUBLISHED),
};

#define PLACE(key, member, kind, ...) NUMBER(key, mensur_finger_place, member, kind, __VA_ARGS__)

static const struct mensur_figure places[] = {
    PLACE("semitones", semitones, MENSUR_SEMITONES, PUBLISHED, .label = "semitones"),
    PLACE("from_nut_mm", from_nut, MENSUR_LENGTH, PUBLISHED, .label = "from nut"),
    PLACE("to_next_mm", to_next, MENSUR_LENGTH, PUBLISHED, .label = "to next"),
};

#define POSITION(key, member, kind, ...) NUMBER(key, mensur_position, member, kind, __VA_ARGS__)

static const struct mensur_figure positions[] = {
    TEXT("position", mensur_position, name, PUBLISHED, .label = "position"),
    POSITION("first_finger_mm", first_finger, MENSUR_LENGTH, PUBLISHED, .label = "first finger",
             .symbol = "first"),
    POSITION("fourth_finger_mm", fourth_finger, MENSUR_LENGTH, PUBLISHED, .label = "fourth finger",
             .symbol = "fourth"),
    POSITION("frame_mm", frame, MENSUR_LENGTH, PUBLISHED | PLUS_MINUS, .label = "frame",
             .gloss = "first finger to fourth in that position", .symbol = "frame",
             .formula = "{fourth} − {first}", .note = "from first finger to fourth",
             .source = FROM_DEFINITION),
    POSITION("first_finger_semitones", first_semitones, MENSUR_SEMITONES, 0),
};

#define TRUE_PLACE(key, member, kind, ...) NUMBER(key, mensur_true_place, member, kind, __VA_ARGS__)

static const struct mensur_figure true_places[] = {
    TEXT("note", mensur_true_place, note, PUBLISHED),
    POINTER("string", mensur_true_place, string, PUBLISHED),
    TRUE_PLACE("semitones", semitones, MENSUR_SEMITONES, PUBLISHED),
    TRUE_PLACE("from_nut_low_mm", from_nut_low, MENSUR_LENGTH, PUBLISHED),
    TRUE_PLACE("from_nut_high_mm", from_nut_high, MENSUR_LENGTH, PUBLISHED),
};

#define STEP(key, member, kind, ...) NUMBER(key, mensur_step, member, kind, __VA_ARGS__)

static const struct mensur_figure steps[] = {
    STEP("string_length_mm", string_length, MENSUR_LENGTH, PUBLISHED),
    STEP("stop_per_2_neck", stop_per_2_neck, MENSUR_NUMBER, PUBLISHED | RATIO, .decimals = 2),
    STEP("body_at_semitones", body_at_semitones, MENSUR_SEMITONES, PUBLISHED),
    STEP("left_reach_mm", left_reach, MENSUR_LENGTH, PUBLISHED),
    STEP("bow_room_mm", bow_room, MENSUR_LENGTH, PUBLISHED),
    STEP("clearance_at_board_end_mm", clearance_at_board_end, MENSUR_LENGTH, 0),
};

static const struct mensur_figure step_totals[] = {
    STEP("total_tension_N", total_tension, MENSUR_FORCE, PUBLISHED),
    STEP("total_force_on_belly_N", total_force_on_belly, MENSUR_FORCE, PUBLISHED),
    STEP("bow_reach_mm", bow_reach, MENSUR_LENGTH, PUBLISHED),
};

#define INSTEAD(key, member, ...)                                                                  \
    NUMBER(key, mensur_instead, member, MENSUR_LINEAR_DENSITY, __VA_ARGS__)

static const struct mensur_figure insteads[] = {
    TEXT("note", mensur_instead, note, PUBLISHED, .label = "note"),
    INSTEAD("present_linear_density_g_per_m", present_linear_density, PUBLISHED, .label = "now"),
    INSTEAD("needed_linear_density_g_per_m", needed_linear_density, PUBLISHED, .label = "needed",
            .symbol = "μ_needed", .what = "density for that tension here",
            .formula = "1000·{T}/(4·{L m}²·{f}²)", .note = "in N, m and Hz",
            .source = "Mersenne 1636, turned round"),
    POINTER("nearest_string", mensur_instead, nearest_string, PUBLISHED, .label = "nearest string"),
    INSTEAD("nearest_linear_density_g_per_m", nearest_linear_density, 0, .label = "nearest"),
    NUMBER("wished_tension_N", mensur_instead, wished_tension, MENSUR_FORCE, 0, .symbol = "T",
           .what = "tension on the wished length", .formula = "4·{L_wished m}²·{f}²·{μ kg/m}",
           .note = "in m, Hz and kg/m", .source = FROM_MERSENNE),
    INSTEAD("wished_linear_density_g_per_m", wished_linear_density, 0, .symbol = "μ"),
    POINTER("present_string", mensur_instead, present_string, 0),
};

#define CHOICE(key, member, kind, ...) NUMBER(key, mensur_choice, member, kind, __VA_ARGS__)

static const struct mensur_figure choices[] = {
    POINTER("set", mensur_choice, set, PUBLISHED),
    CHOICE("off_aim_N", off_aim, MENSUR_FORCE, PUBLISHED, .label = "off aim"),
    CHOICE("largest_step_N", largest_step, MENSUR_FORCE, PUBLISHED, .label = "largest step"),
    CHOICE("evenness", evenness, MENSUR_NUMBER, 0),
    CHOICE("cost", cost, MENSUR_NUMBER, 0),
};

static const struct mensur_figure choice_totals[] = {
    CHOICE("total_tension_N", total_tension, MENSUR_FORCE, PUBLISHED),
    CHOICE("total_force_on_belly_N", total_force_on_belly, MENSUR_FORCE, PUBLISHED),
    CHOICE("force_on_treble_foot_N", force_on_treble_foot, MENSUR_FORCE, PUBLISHED),
    CHOICE("force_on_bass_foot_N", force_on_bass_foot, MENSUR_FORCE, PUBLISHED),
    CHOICE("neck_moment_Nm", neck_moment, MENSUR_NUMBER, PUBLISHED, .decimals = 2),
};

#define WHOLE(key, member, kind, ...) NUMBER(key, mensur_whole_set, member, kind, __VA_ARGS__)

static const struct mensur_figure whole_sets[] = {
    POINTER("set", mensur_whole_set, set, PUBLISHED, .label = "set"),
    WHOLE("total_tension_N", total_tension, MENSUR_FORCE, PUBLISHED, .label = "tension"),
    WHOLE("total_force_on_belly_N", total_force_on_belly, MENSUR_FORCE, PUBLISHED),
    WHOLE("largest_miss_percent", largest_miss_percent, MENSUR_NUMBER, PUBLISHED, .decimals = 1),
    WHOLE("off_aim_N", off_aim, MENSUR_FORCE, PUBLISHED, .label = "off aim"),
    WHOLE("largest_step_N", largest_step, MENSUR_FORCE, PUBLISHED, .label = "largest step"),
    WHOLE("force_on_treble_foot_N", force_on_treble_foot, MENSUR_FORCE, PUBLISHED),
    WHOLE("force_on_bass_foot_N", force_on_bass_foot, MENSUR_FORCE, PUBLISHED),
    WHOLE("neck_moment_Nm", neck_moment, MENSUR_NUMBER, PUBLISHED, .decimals = 2),
};

static const struct mensur_figure needed[] = {
    TEXT("note", mensur_needed, note, PUBLISHED, .label = "note"),
    NUMBER("linear_density_g_per_m", mensur_needed, linear_density, MENSUR_LINEAR_DENSITY,
           PUBLISHED, .label = "needed"),
};

#define ORDER(key, member, kind, ...) NUMBER(key, mensur_order, member, kind, __VA_ARGS__)

static const struct mensur_figure orders[] = {
    TEXT("note", mensur_order, note, PUBLISHED, .label = "note"),
    POINTER("material", mensur_order, material, PUBLISHED, .label = "material"),
    ORDER("stress_MPa", stress, MENSUR_STRESS, 0, .symbol = "σ",
          .what = "tension over the slack area",
          .formula = "{E}/2·(√(1 + 4·{ρ}·(2·{L m}·{f})²/(1000·{E})) − 1)",
          .note = "in N/mm², g/cm³, m and Hz", .source = FROM_SLACK),
    ORDER("diameter_mm", diameter, MENSUR_LENGTH, PUBLISHED, .label = "gauge", .symbol = "d",
          .what = "gauge of the slack string", .formula = "√(4·{T}/(π·{σ}))",
          .note = "in N and N/mm²", .source = FROM_SLACK, .unit = "fine mm"),
    ORDER("diameter_thou", diameter_thou, MENSUR_NUMBER, PUBLISHED, .label = "gauge",
          .decimals = 1),
    ORDER("tension_N", tension, MENSUR_FORCE, PUBLISHED, .label = "tension", .symbol = "T"),
    ORDER("breaking_margin_semitones", margin, MENSUR_SEMITONES, PUBLISHED, .label = "margin"),
    ORDER("linear_density_g_per_m", linear_density, MENSUR_LINEAR_DENSITY, PUBLISHED,
          .label = "mass"),
    ORDER("tenth_below_mm", tenth_below, MENSUR_LENGTH, PUBLISHED, .label = "below"),
    ORDER("tension_below_N", tension_below, MENSUR_FORCE, PUBLISHED, .label = "tension"),
    ORDER("tenth_above_mm", tenth_above, MENSUR_LENGTH, PUBLISHED, .label = "above"),
    ORDER("tension_above_N", tension_above, MENSUR_FORCE, PUBLISHED, .label = "tension"),
    ORDER("thickest_mm", thickest, MENSUR_LENGTH, PUBLISHED),
    KNOWN("plain", mensur_order, plain, PUBLISHED),
};

#define FROM_SPREADS                                                                               \
    "JCGM 100:2008, 5.1.2, from memory, over the spreads of what was assumed and every stated ±"
#define REACH(key, member, kind, ...) NUMBER(key, mensur_reach, member, kind, __VA_ARGS__)

static const struct mensur_figure reaches[] = {
    REACH("left_reach_mm", left_reach, MENSUR_LENGTH, PUBLISHED, LEFT_REACH),
    REACH("bow_reach_mm", bow_reach, MENSUR_LENGTH, PUBLISHED, BOW_REACH),
    REACH("elbow_deg", elbow, MENSUR_ANGLE, PUBLISHED, .label = "elbow",
          .gloss = "180 is a stretched arm", .symbol = "elbow", .what = "angle of the elbow",
          .formula = "acos(({upper}² + {fore}² − {w}²)/(2·{upper}·{fore}))",
          .source = "law of cosines"),
    REACH("elbow_plus_minus_deg", elbow_plus_minus, MENSUR_ANGLE, PUBLISHED, .symbol = "u_elbow",
          .what = "its standard uncertainty", .source = FROM_SPREADS),
    KNOWN("stretched", mensur_reach, stretched, PUBLISHED, .label = "stretched"),
    REACH("elbow_apart_deg", elbow_apart, MENSUR_ANGLE, 0, .label = "opens by"),
    REACH("elbow_apart_plus_minus_deg", elbow_apart_plus_minus, MENSUR_ANGLE, 0,
          .symbol = "u_apart", .what = "standard uncertainty of the difference",
          .source = FROM_SPREADS),
    REACH("distance_mm", distance, MENSUR_LENGTH, 0, .symbol = "d", .what = "shoulder to nut",
          .formula = "√({side}² + {forward}²)", .source = FROM_ABOVE),
    REACH("wrist_mm", wrist, MENSUR_LENGTH, 0, .label = "to wrist",
          .gloss = "from the left shoulder, seen from above", .symbol = "w",
          .what = "shoulder to wrist, in first position",
          .formula = "{d} − {wrist_share}·{hand_length}",
          .source = "the hand lies along the line to the nut: our estimate"),
    REACH("nut_side_mm", nut_side, MENSUR_LENGTH, 0, .symbol = "side",
          .what = "nut, to the left of the shoulder",
          .formula = "{left_reach}·sin({yaw}) − {rest_side}", .source = FROM_ABOVE),
    REACH("nut_forward_mm", nut_forward, MENSUR_LENGTH, 0, .symbol = "forward",
          .what = "nut, before the shoulder", .formula = "{left_reach}·cos({yaw}) + {rest_forward}",
          .source = FROM_ABOVE),
};

#define SIZE(key, member, kind) NUMBER(key, mensur_pupil_size, member, kind, PUBLISHED)

static const struct mensur_figure pupil_sizes[] = {
    KNOWN("recommended", mensur_pupil_size, recommended, PUBLISHED),
    KNOWN("within_plus_minus", mensur_pupil_size, open, PUBLISHED),
    SIZE("age_low_years", age_low, MENSUR_NUMBER),
    SIZE("age_high_years", age_high, MENSUR_NUMBER),
    SIZE("stature_low_mm", stature_low, MENSUR_LENGTH),
    SIZE("stature_high_mm", stature_high, MENSUR_LENGTH),
    SIZE("from_stature_mm", from_stature, MENSUR_LENGTH),
    SIZE("from_age_years", from_age, MENSUR_NUMBER),
};

#define GEOMETRY(key, member, kind, ...) NUMBER(key, mensur_geometry, member, kind, __VA_ARGS__)
#define POINT(key, member, ...)                                                                    \
    GEOMETRY(key, member, MENSUR_LENGTH, 0, .source = FROM_GEOMETRY, __VA_ARGS__)
#define SLOPE(key, member, ...)                                                                    \
    GEOMETRY(key, member, MENSUR_ANGLE, 0, .source = FROM_GEOMETRY, __VA_ARGS__)

static const struct mensur_figure geometries[] = {
    SLOPE("board_taper_deg", board_taper, .symbol = "φ", .what = "taper of the board",
          .formula = "atan(({board} − {board_nut})/{N})"),
    POINT("rise_mm", rise, .symbol = "H", .what = "rise of the board's line to the bridge",
          .formula = "{arch} + {projection} − {overstand}"),
    POINT("board_top_mm", board_top, .symbol = "q",
          .what = "top of the board above its gluing surface", .formula = "{board}·cos({φ})"),
    SLOPE("board_slope_deg", board_slope, .symbol = "ψ", .what = "slope of the board's top",
          .formula = "atan({H}/{S}) − asin({q}/√({H}² + {S}²))"),
    SLOPE("neck_slope_deg", neck_slope, .symbol = "θ"),
    POINT("nut_height_mm", nut_height, .symbol = "h", .what = "string at the nut above the neck",
          .formula = "{board_nut} + {nut}"),
    POINT("top_x_mm", top_x, .told = 0),
    POINT("top_y_mm", top_y, .symbol = "top.y", .what = "top of the bridge",
          .formula = "{arch} + {bridge}"),
    POINT("nut_x_mm", nut_x, .symbol = "nut.x", .what = "nut, from the belly's edge",
          .formula = "−{N}·cos({θ}) − {h}·sin({θ})"),
    POINT("nut_y_mm", nut_y, .symbol = "nut.y", .what = "nut, above the belly's edge",
          .formula = "{overstand} − {N}·sin({θ}) + {h}·cos({θ})"),
    GEOMETRY("string_length_mm", string_length, MENSUR_LENGTH, 0, .symbol = "L.geometry",
             .what = "string length", STRING_OF_POINTS),
    SLOPE("front_angle_deg", front_angle, .symbol = "α",
          .what = "angle of the string before the bridge",
          .formula = "atan(({top.y} − {nut.y})/({S} − {nut.x}))"),
    SLOPE("back_angle_deg", back_angle, .symbol = "β",
          .what = "angle of the string behind the bridge",
          .formula = "atan(({top.y} − {saddle})/({body_straight} − {S}))"),
    SLOPE("break_angle_deg", break_angle, .told = 0),
    GEOMETRY("down_factor", down_factor, MENSUR_NUMBER, 0, .symbol = "down"),
    POINT("left_reach_mm", left_reach, .told = 0),
    POINT("bow_reach_mm", bow_reach, .told = 0),
    POINT("above_nut_mm", above_nut, .symbol = "c0",
          .what = "string above the board's line at the nut", .formula = "{nut}·cos({φ})"),
    POINT("above_bridge_mm", above_bridge, .symbol = "c1", .what = "the same at the bridge",
          .formula = "({bridge} − {projection})·cos({ψ})"),
    POINT("board_way_mm", board_way, .symbol = "D",
          .what = "way from nut to bridge along the board's line",
          .formula = "({S} − {nut.x})·cos({ψ}) + ({top.y} − {nut.y})·sin({ψ})"),
};

#define BACK(key, member, kind, ...)                                                               \
    NUMBER(key, mensur_back, member, kind, 0,                                                      \
           .source = "arc of a parabola; a is found by a root finder", __VA_ARGS__)

static const struct mensur_figure backs[] = {
    BACK("half_mm", half, MENSUR_LENGTH, .symbol = "a",
         .what = "half of the straight back, with which the next two lines hold"),
    BACK("bend", bend, MENSUR_NUMBER, .symbol = "t", .what = "bend of the back",
         .formula = "2·{back_arch}/{a}"),
    BACK("straight_mm", straight, MENSUR_LENGTH, .symbol = "body_straight",
         .what = "straight length of the back", .formula = "2·{a}"),
};

#define MODEL(key, member, kind, ...) NUMBER(key, string_model, member, kind, 0, __VA_ARGS__)

static const struct mensur_figure models[] = {
    MODEL("linear_density_g_per_m", linear_density, MENSUR_LINEAR_DENSITY, .symbol = "μ0"),
    MODEL("core_diameter_mm", core_diameter, MENSUR_LENGTH, .symbol = "dc", .unit = "fine mm"),
    MODEL("core_area", core_area, MENSUR_NUMBER, .symbol = "A", .what = "area of the core",
          .formula = "π/4·{dc}²", .source = "area of a circle", .unit = "mm²"),
    MODEL("modulus", modulus, MENSUR_MODULUS, .symbol = "E", .what = "modulus of the core"),
    MODEL("fast_modulus", fast_modulus, MENSUR_MODULUS, .symbol = "E0",
          .what = "modulus for fast changes, without stress"),
    MODEL("fast_growth", fast_growth, MENSUR_NUMBER, .symbol = "growth",
          .what = "by how much it grows with the stress"),
    MODEL("expansion", expansion, MENSUR_NUMBER, .what = "expansion of the core"),
    MODEL("strands", strands, MENSUR_NUMBER, .symbol = "n"),
    MODEL("second_moment", second_moment, MENSUR_NUMBER, .symbol = "I",
          .what = "second moment of the core", .formula = "π/64·{dc}⁴",
          .source = "second moment of a circle", .unit = "mm⁴"),
    MODEL("strength_MPa", strength, MENSUR_STRESS, .symbol = "strength",
          .what = "strength of the core"),
};

#define AIR(key, member, kind, ...)                                                                \
    NUMBER(key, mensur_body_air, member, kind, 0, .source = FROM_AIR_VOLUME, __VA_ARGS__)

static const struct mensur_figure airs[] = {
    AIR("outline_cm2", outline, MENSUR_NUMBER, .symbol = "A", .what = "outline of the body",
        .formula = "{body mm}·(0.32·{width_upper mm} + 0.27·{width_middle mm} + "
                   "0.34·{width_lower mm})/100",
        .unit = "cm²"),
    AIR("depth_mm", depth, MENSUR_LENGTH, .symbol = "depth", .what = "depth inside",
        .formula = "{rib} + ({arch_full} + {back_arch} + {edge})/2 − {plate}"),
};

#define TABLE(rows)                                                                                \
    { rows, sizeof(rows) / sizeof((rows)[0]) }

struct mensur_figures mensur_figures(enum mensur_scope scope) {
    static const struct mensur_figures tables[MENSUR_SCOPE_COUNT] = {
        [MENSUR_SCOPE_INSTRUMENT] = TABLE(instrument),
        [MENSUR_SCOPE_TOTAL] = TABLE(totals),
        [MENSUR_SCOPE_HAND] = TABLE(hand),
        [MENSUR_SCOPE_FRETS] = TABLE(frets),
        [MENSUR_SCOPE_COMPARED] = TABLE(compared),
        [MENSUR_SCOPE_STRING] = TABLE(strings),
        [MENSUR_SCOPE_PLACE] = TABLE(places),
        [MENSUR_SCOPE_POSITION] = TABLE(positions),
        [MENSUR_SCOPE_TRUE_PLACE] = TABLE(true_places),
        [MENSUR_SCOPE_STEP] = TABLE(steps),
        [MENSUR_SCOPE_STEP_TOTAL] = TABLE(step_totals),
        [MENSUR_SCOPE_INSTEAD] = TABLE(insteads),
        [MENSUR_SCOPE_CHOICE] = TABLE(choices),
        [MENSUR_SCOPE_CHOICE_TOTAL] = TABLE(choice_totals),
        [MENSUR_SCOPE_WHOLE_SET] = TABLE(whole_sets),
        [MENSUR_SCOPE_NEEDED] = TABLE(needed),
        [MENSUR_SCOPE_ORDER] = TABLE(orders),
        [MENSUR_SCOPE_REACH] = TABLE(reaches),
        [MENSUR_SCOPE_PUPIL_SIZE] = TABLE(pupil_sizes),
        [MENSUR_SCOPE_GEOMETRY] = TABLE(geometries),
        [MENSUR_SCOPE_BACK] = TABLE(backs),
        [MENSUR_SCOPE_MODEL] = TABLE(models),
        [MENSUR_SCOPE_AIR] = TABLE(airs),
    };
    return tables[scope];
}

const struct mensur_figure *mensur_figure_named(enum mensur_scope scope, const char *key) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        if (strcmp(figures.items[i].key, key) == 0) {
            return &figures.items[i];
        }
    }
    return NULL;
}

const struct mensur_figure *mensur_figure_told(enum mensur_scope scope, size_t place) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        if (figures.items[i].told == place + 1) {
            return &figures.items[i];
        }
    }
    return NULL;
}

/* The member's address; memcpy from it, because its type is the figure's to say. */
static const char *member(const struct mensur_figure *figure, const void *record) {
    return (const char *)record + figure->offset;
}

double mensur_figure_value(const struct mensur_figure *figure, const void *record) {
    double value;
    memcpy(&value, member(figure, record), sizeof(value));
    return value;
}

void mensur_figure_put(const struct mensur_figure *figure, double value, void *record) {
    memcpy((char *)record + figure->offset, &value, sizeof(value));
}

enum mensur_known mensur_figure_known(const struct mensur_figure *figure, const void *record) {
    enum mensur_known known;
    memcpy(&known, member(figure, record), sizeof(known));
    return known;
}

const char *mensur_figure_text(const struct mensur_figure *figure, const void *record) {
    const char *text = member(figure, record);
    if (figure->type == MENSUR_FIGURE_TEXT) {
        return *text == '\0' ? NULL : text;
    }
    memcpy(&text, member(figure, record), sizeof(text));
    return text;
}

void mensur_figures_unknown(enum mensur_scope scope, void *record) {
    static const double unknown = NAN;
    static const enum mensur_known unsure = MENSUR_UNSURE;
    static const char *const none = NULL;
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        char *at = (char *)record + figures.items[i].offset;
        switch (figures.items[i].type) {
        case MENSUR_FIGURE_NUMBER:
            memcpy(at, &unknown, sizeof(unknown));
            break;
        case MENSUR_FIGURE_KNOWN:
            memcpy(at, &unsure, sizeof(unsure));
            break;
        case MENSUR_FIGURE_POINTER:
            memcpy(at, &none, sizeof(none)); /* NOLINT(bugprone-sizeof-expression): the pointer */
            break;
        case MENSUR_FIGURE_TEXT:
            *at = '\0';
            break;
        }
    }
}

void mensur_figures_subtract(enum mensur_scope scope, const void *record, const void *first,
                             void *out) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        const struct mensur_figure *figure = &figures.items[i];
        if (figure->type == MENSUR_FIGURE_NUMBER) {
            mensur_figure_put(
                figure, mensur_figure_value(figure, record) - mensur_figure_value(figure, first),
                out);
        }
    }
}

#define WISH(X, id, word, option, type, value, restring, meaning, scope, ...)                      \
    [MENSUR_WISH_##id] = {#word, option, MENSUR_SCOPE_##scope, __VA_ARGS__},
static const struct mensur_wish_info wishes[MENSUR_WISH_COUNT] = {MENSUR_WISH_LIST(WISH, )};

const struct mensur_wish_info *mensur_wish_info(enum mensur_wish_kind kind) {
    return &wishes[kind];
}

const struct mensur_figure *mensur_wish_figure(enum mensur_wish_kind kind) {
    return mensur_figure_named(wishes[kind].scope, wishes[kind].key);
}

const char *mensur_wish_of(const char *what, enum mensur_wish_kind *out) {
    size_t length = strcspn(what, " ");
    *out = MENSUR_WISH_TENSION;
    for (size_t i = 0; i < MENSUR_WISH_COUNT; i++) {
        if (strncmp(wishes[i].word, what, length) == 0 && wishes[i].word[length] == '\0') {
            *out = (enum mensur_wish_kind)i;
        }
    }
    return what[length] == ' ' ? what + length + 1 : "";
}
