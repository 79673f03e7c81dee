/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of what bow and finger feel of the strings; symbols of playing.h. */
#include <math.h>
#include <string.h>

#include "working_parts.h"

/* How it is bowed, the same for all strings. */
static void bowing(struct workbook *book, const struct setup *setup,
                   const struct mensur_terms *terms) {
    double distance = playing_bow_distance(terms, setup->string_length);
    workbook_know(book, "L", setup->string_length, IN_LENGTH);
    workbook_value(book, "speed of the bow in m/s", "v", playing_bow_speed(terms), IN_NUMBER,
                   isnan(terms->bow_speed) ? "assumed, usual" : "given");
    workbook_value(book, "sticking less slipping friction", "Δ", playing_friction(terms), IN_NUMBER,
                   isnan(terms->friction) ? "assumed, usual" : "given");
    workbook_value(book, "bow from the bridge", "bow", distance, IN_METRES,
                   isnan(terms->bow_distance) ? "assumed, 30 mm on 328 mm" : "given");
    workbook_step(book, "place of the bow", "b = {bow}/{L m}", NULL,
                  distance / setup->string_length, IN_NUMBER, FROM_DEFINITION);
}

/* The string pressed down at x, where c is its clearance; both are told before their lines. */
static void at_place(struct workbook *book, const struct working_strings *strings, double x) {
    double board = strings->setup->value[MENSUR_FIELD_BOARD_LENGTH];
    workbook_know(book, "x", x, IN_MM);
    workbook_know(book, "u", x / board, IN_NUMBER);
}

/* The line of a string's figure, and the symbols that stand for another thing in each. */
static void feel(struct workbook *book, const struct working_strings *strings, size_t i,
                 const char *key) {
    const struct mensur_string_figures *figures = &strings->figures[i];
    const double half = strings->setup->string_length / 2.0;
    const struct {
        const char *key;
        double x, c, f, lf;
    } others[] = {
        {"first_clearance_mm", figures->first_place, NAN, NAN, NAN},
        {"press_force_first_N", figures->first_place, figures->first_clearance, NAN, NAN},
        {"octave_clearance_mm", figures->octave_place, NAN, NAN, NAN},
        {"press_force_octave_N", figures->octave_place, figures->octave_clearance, NAN, NAN},
        {"stretch_mm", half, figures->half_clearance, NAN, NAN},
        {"stopped_high_Hz", half, NAN, NAN, strings->setup->string_length},
        {"rise_high_cents", NAN, NAN, figures->stopped_high, NAN},
        {"stopped_low_Hz", half, NAN, NAN, string_stretch_length(strings->setup)},
        {"rise_low_cents", NAN, NAN, figures->stopped_low, NAN},
    };
    for (size_t k = 0; k < sizeof others / sizeof others[0]; k++) {
        if (strcmp(others[k].key, key) == 0) {
            at_place(book, strings, others[k].x);
            workbook_know(book, "c", others[k].c, IN_FINE_MM);
            workbook_know(book, "f'", others[k].f, IN_HERTZ);
            workbook_know(book, "lf", others[k].lf, IN_MM);
        }
    }
    workbook_row(book, MENSUR_SCOPE_STRING, key, figures);
}

void working_feel(struct workbook *book, const struct working_strings *strings) {
    static const char *const keys[] = {
        "bow_force_greatest_N", "bow_force_least_N",    "first_clearance_mm", "press_force_first_N",
        "octave_clearance_mm",  "press_force_octave_N", "stiffness_N",        "stretch_mm",
        "stopped_high_Hz",      "rise_high_cents",      "stopped_low_Hz",     "rise_low_cents"};
    const struct setup *setup = strings->setup;
    double hollow = setup->value[MENSUR_FIELD_HOLLOW];
    bowing(book, setup, strings->terms);
    workbook_record(book, MENSUR_SCOPE_GEOMETRY, &setup->geometry);
    workbook_know(book, "hollow", isnan(hollow) ? 0.0 : hollow, IN_MM);
    workbook_know(book, "R", strings->terms->resistance, IN_KG_PER_S);
    for (size_t n = 0; n < sizeof keys / sizeof keys[0]; n++) {
        for (size_t i = 0; i < strings->count; i++) {
            working_know_string(book, strings, i);
            feel(book, strings, i, keys[n]);
        }
    }
    book->of = NULL;
}
