/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of what bow and finger feel of the strings; symbols of playing.h. */
#include <math.h>

#include "fingers.h"
#include "playing.h"
#include "working_parts.h"

#define FROM_SCHELLENG "Woodhouse, Euphonics, 9.3.1; Schelleng 1973, from memory"
#define FROM_STRETCH "Pythagoras and Hooke: the stopped string is longer, so tighter and thinner"

/* One string of an instrument. */
struct felt {
    const struct setup *setup;
    const struct mensur_terms *terms;
    const struct string_model *model;
    const struct mensur_string_figures *figures;
    size_t i; /* of the tuning */
};

typedef void feeling(struct workbook *book, const struct felt *felt);

/* How it is bowed, the same for all strings. */
static void bowing(struct workbook *book, const struct setup *setup,
                   const struct mensur_terms *terms) {
    double distance = playing_bow_distance(terms, setup->string_length);
    workbook_know(book, "L", setup->string_length, IN_METRES);
    workbook_value(book, "speed of the bow in m/s", "v", playing_bow_speed(terms), IN_NUMBER,
                   isnan(terms->bow_speed) ? "assumed, usual" : "given");
    workbook_value(book, "sticking less slipping friction", "Δ", playing_friction(terms), IN_NUMBER,
                   isnan(terms->friction) ? "assumed, usual" : "given");
    workbook_value(book, "bow from the bridge", "bow", distance, IN_METRES,
                   isnan(terms->bow_distance) ? "assumed, 30 mm on 328 mm" : "given");
    workbook_step(book, "place of the bow", "b = {bow}/{L}", NULL, distance / setup->string_length,
                  IN_NUMBER, FROM_DEFINITION);
}

static void greatest(struct workbook *book, const struct felt *felt) {
    workbook_step(book, "greatest bow force", "F_most = 2·{Z}·{v}/({Δ}·{b})", NULL,
                  felt->figures->bow_force_greatest, IN_NEWTONS, FROM_SCHELLENG);
}

static void least(struct workbook *book, const struct felt *felt) {
    workbook_know(book, "R", felt->terms->resistance, IN_KG_PER_S);
    workbook_step(book, "least bow force", "F_least = {Z}²·{v}/(2·{R}·{Δ}·{b}²)", NULL,
                  felt->figures->bow_force_least, IN_NEWTONS, FROM_SCHELLENG);
}

static double place(const struct felt *felt, double semitones) {
    double x = NAN;
    (void)mensur_place_equal(felt->setup->string_length, semitones, &x);
    return x;
}

/* The clearance of a string at a place, part by part. */
static void clearance(struct workbook *book, const struct felt *felt, const char *what, double x) {
    const struct setup *setup = felt->setup;
    const struct mensur_geometry *g = &setup->geometry;
    const struct mensur_side_view *view = &setup->view;
    double board = setup->value[MENSUR_FIELD_BOARD_LENGTH];
    double hollow = setup->value[MENSUR_FIELD_HOLLOW];
    double along = cos(g->board_slope);
    double mean = NAN;
    double own = string_clearance(setup, felt->i, x);
    hollow = isnan(hollow) ? 0.0 : hollow;
    (void)mensur_clearance(view, g, board, hollow, x, &mean);
    workbook_know(book, "x", x, IN_MM);
    workbook_know(book, "c0", view->nut * cos(g->board_taper), IN_MM);
    workbook_know(book, "c1", (view->bridge - view->projection) * along, IN_MM);
    workbook_know(book, "D",
                  (g->top_x - g->nut_x) * along + (g->top_y - g->nut_y) * sin(g->board_slope),
                  IN_MM);
    workbook_know(book, "hollow", hollow, IN_MM);
    workbook_know(book, "u", x / board, IN_NUMBER);
    workbook_know(book, "own", (own - mean) * board / x, IN_MM);
    workbook_step(
        book, what, "c = {c0} + ({c1} − {c0})·{x}/{D} + 4·{hollow}·{u}·(1 − {u}) + {own}·{u}",
        "u = x/board_length; own: against the mean string", own, IN_FINE_MM, FROM_GEOMETRY);
}

static void press(struct workbook *book, const struct felt *felt, const char *what, double x,
                  double force) {
    workbook_know(book, "L", felt->setup->string_length, IN_MM);
    workbook_know(book, "x", x, IN_MM);
    workbook_know(book, "c", string_clearance(felt->setup, felt->i, x), IN_FINE_MM);
    workbook_step(book, what, "F_press = {T}·{c}·(1/{x} + 1/({L} − {x}))", NULL, force, IN_NEWTONS,
                  FROM_STATICS);
}

static void clearance_first(struct workbook *book, const struct felt *felt) {
    clearance(book, felt, "clearance at semitone 2", place(felt, 2.0));
}

static void press_first(struct workbook *book, const struct felt *felt) {
    press(book, felt, "pressing force at semitone 2", place(felt, 2.0),
          felt->figures->press_force_first);
}

static void clearance_octave(struct workbook *book, const struct felt *felt) {
    clearance(book, felt, "clearance at the octave", place(felt, 12.0));
}

static void press_octave(struct workbook *book, const struct felt *felt) {
    press(book, felt, "pressing force at the octave", place(felt, 12.0),
          felt->figures->press_force_octave);
}

static double stiffness(const struct felt *felt) {
    return felt->model->modulus * felt->model->core_area;
}

static void core(struct workbook *book, const struct felt *felt) {
    workbook_know(book, "E", felt->model->modulus, IN_MPA);
    workbook_know(book, "A", felt->model->core_area, IN_MM2);
    workbook_step(book, "stiffness of the core", "EA = {E}·{A}", NULL, stiffness(felt), IN_NEWTONS,
                  "Hooke");
}

/* How much longer the string is that is stopped at the octave. */
static double stretch_of(const struct felt *felt) {
    double x = felt->setup->string_length / 2.0;
    double c = string_clearance(felt->setup, felt->i, x);
    return 2.0 * c * (c / (x + hypot(x, c)));
}

static void stretch(struct workbook *book, const struct felt *felt) {
    double x = felt->setup->string_length / 2.0;
    workbook_know(book, "x", x, IN_MM);
    workbook_know(book, "c", string_clearance(felt->setup, felt->i, x), IN_FINE_MM);
    workbook_step(book, "stretch of stopping the octave", "δ = 2·{c}²/({x} + √({x}² + {c}²))",
                  "both halves alike", stretch_of(felt), IN_FINE_MM, FROM_STRETCH);
}

static double whole_length(const struct felt *felt) {
    const double *v = felt->setup->value;
    return felt->setup->string_length + v[MENSUR_FIELD_AFTERLENGTH] + v[MENSUR_FIELD_BEHIND_NUT];
}

/* The stopped octave, where a length of string shares the stretch. */
static void octave(struct workbook *book, const struct felt *felt, const char *what,
                   double shared) {
    double x = felt->setup->string_length / 2.0;
    double c = string_clearance(felt->setup, felt->i, x);
    struct mensur_stopping string = {felt->setup->string_length, felt->figures->tension,
                                     felt->figures->linear_density, stiffness(felt), shared};
    struct mensur_stopped made = {.frequency = NAN};
    (void)mensur_stop_string(&string, c, x, &made);
    double stopped = made.frequency;
    workbook_know(book, "EA", stiffness(felt), IN_NEWTONS);
    workbook_know(book, "δ", stretch_of(felt), IN_FINE_MM);
    workbook_know(book, "lf", shared, IN_MM);
    workbook_know(book, "l", hypot(x, c), IN_METRES);
    workbook_step(book, what, "f' = √(({T} + {EA}·{δ}/{lf})·(1 + {δ}/{lf})/{μ})/(2·{l})",
                  "lf: what shares the stretch; l: what sounds", stopped, IN_HERTZ, FROM_STRETCH);
}

static void rise(struct workbook *book, const struct felt *felt, const char *what, double cents) {
    double stopped = 2.0 * felt->figures->frequency * exp2(cents / 1200.0);
    workbook_know(book, "f'", stopped, IN_HERTZ);
    workbook_step(book, what, "rise = 1200·log2({f'}/(2·{f}))", NULL, cents, IN_CENTS,
                  FROM_STRETCH);
}

static void octave_held(struct workbook *book, const struct felt *felt) {
    octave(book, felt, "stopped octave, held at nut and bridge,", felt->setup->string_length);
}

static void rise_held(struct workbook *book, const struct felt *felt) {
    rise(book, felt, "its rise, held,", felt->figures->rise_high_cents);
}

static void octave_free(struct workbook *book, const struct felt *felt) {
    octave(book, felt, "stopped octave, free to slide there,", whole_length(felt));
}

static void rise_free(struct workbook *book, const struct felt *felt) {
    rise(book, felt, "its rise, free,", felt->figures->rise_low_cents);
}

static void know_string(struct workbook *book, const struct felt *felt) {
    book->of = felt->figures->note;
    workbook_know(book, "L", felt->setup->string_length, IN_METRES);
    workbook_know(book, "T", felt->figures->tension, IN_NEWTONS);
    workbook_know(book, "f", felt->figures->frequency, IN_HERTZ);
    workbook_know(book, "μ", felt->figures->linear_density, IN_KG_PER_M);
    workbook_know(book, "Z", felt->figures->impedance, IN_KG_PER_S);
}

void working_feel(struct workbook *book, const struct setup *setup,
                  const struct mensur_terms *terms, const struct string_model *models,
                  const struct mensur_string_figures *figures, size_t count) {
    static feeling *const feelings[] = {
        greatest, least,   clearance_first, press_first, clearance_octave, press_octave,
        core,     stretch, octave_held,     rise_held,   octave_free,      rise_free};
    bowing(book, setup, terms);
    for (size_t n = 0; n < sizeof feelings / sizeof feelings[0]; n++) {
        for (size_t i = 0; i < count; i++) {
            struct felt felt = {setup, terms, &models[i], &figures[i], i};
            know_string(book, &felt);
            feelings[n](book, &felt);
        }
    }
    book->of = NULL;
}
