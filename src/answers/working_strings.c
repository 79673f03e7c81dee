/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of the strings: density and core of each, and one law after the other, each for all
 * strings, so that like numbers stand below each other. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "working.h"
#include "working_parts.h"

#define FROM_MAKER "stated for the string"
#define FROM_CIRCLES "areas of circles; round wire fills π/4 of its ring, ribbon all of it"

/* Where a figure of a string or of its material comes from. */
static const char *origin(double own, const char *material, char *room, size_t size) {
    if (!isnan(own) || material == NULL) {
        return FROM_MAKER;
    }
    snprintf(room, size, "table of materials: %.60s", material);
    return room;
}

/* The density that the string has by its way; name: "μ", or "μ0" of a slack string. */
static void linear_density(struct workbook *book, const struct string_model *model,
                           const char *name, const char *right, const char *note,
                           const char *source) {
    char formula[512];
    snprintf(formula, sizeof formula, "%s = %s", name, right);
    workbook_step(book, "density", formula, note, model->linear_density, IN_G_PER_M, source);
}

static void stated_tension(struct workbook *book, const struct string_model *model,
                           const char *name) {
    const struct mensur_string_spec *spec = model->spec;
    workbook_value(book, "stated tension", "T0", spec->stated_tension.value, IN_NEWTONS,
                   FROM_MAKER);
    workbook_value(book, "string length that it is stated for", "L0", spec->stated_length.value,
                   IN_METRES, FROM_MAKER);
    workbook_value(book, "A4 that it is stated for", "a4", model->stated_a4, IN_HERTZ, FROM_MAKER);
    workbook_value(book, "pitch at that A4", "f0", model->stated_frequency, IN_HERTZ,
                   "as the pitch above");
    linear_density(book, model, name, "1000·{T0}/(4·{L0}²·{f0}²)", "in N, m and Hz",
                   "Mersenne 1636, turned round");
}

static void weighed(struct workbook *book, const struct string_model *model, const char *name) {
    const struct mensur_string_spec *spec = model->spec;
    double count = isnan(spec->weighed_count) ? 1.0 : spec->weighed_count;
    double ball = isnan(spec->ball_mass.value) ? 0.0 : spec->ball_mass.value;
    workbook_value(book, "mass on the scale", "m", spec->weighed_mass.value, IN_GRAMS, FROM_MAKER);
    workbook_value(book, "strings alike on it", "n0", count, IN_NUMBER, FROM_MAKER);
    workbook_value(book, "mass of one ball", "ball", ball, IN_GRAMS, FROM_MAKER);
    workbook_value(book, "length of one string", "l0", spec->weighed_length.value, IN_METRES,
                   FROM_MAKER);
    linear_density(book, model, name, "({m}/{n0} − {ball})/{l0}", "in g and m", FROM_DEFINITION);
}

static void plain(struct workbook *book, const struct string_model *model, const char *name) {
    const struct mensur_string_spec *spec = model->spec;
    char room[96];
    workbook_value(book, "diameter", "d", model->diameter, IN_FINE_MM, FROM_MAKER);
    workbook_value(book, "density of the material", "ρ", model->density, IN_G_PER_CM3,
                   origin(spec->density.value, spec->material, room, sizeof room));
    linear_density(book, model, name, "π/4·{ρ}·{d}²", "in g/cm³ and mm", "area of a circle");
}

/* One wrapping: its values, its outer diameter, and its term of the sum behind the others. */
static void wrapping(struct workbook *book, const struct string_model *model,
                     const struct mensur_wrap *wrap, size_t number, char *terms) {
    static const char *const inner[] = {"dc", "D1", "D2", "D3"};
    char name[32];
    char formula[64];
    char room[96];
    const struct mensur_winding *winding = &model->windings[number - 1];
    double outside = NAN;
    (void)mensur_outer_diameter(model->diameter, model->windings, number, &outside);
    snprintf(name, sizeof name, "t%zu", number);
    workbook_value(book, winding->flat ? "thickness of the ribbon" : "thickness of the wire", name,
                   winding->thickness, IN_FINE_MM, FROM_MAKER);
    snprintf(name, sizeof name, "ρ%zu", number);
    workbook_value(book, "density of the wrapping", name, winding->density, IN_G_PER_CM3,
                   origin(wrap->density.value, wrap->material, room, sizeof room));
    snprintf(formula, sizeof formula, "D%zu = {%s} + 2·{t%zu}", number, inner[number - 1], number);
    workbook_step(book, "diameter over the wrapping", formula, NULL, outside, IN_FINE_MM,
                  FROM_DEFINITION);
    snprintf(terms + strlen(terms), 96, " + {ρ%zu}%s·({D%zu}² − {%s}²)", number,
             winding->flat ? "" : "·π/4", number, inner[number - 1]);
}

static void wrapped(struct workbook *book, const struct string_model *model, const char *name) {
    const struct mensur_string_spec *spec = model->spec;
    char right[64 + 96 * MENSUR_WRAPS_MAX] = "π/4·({ρc}·{dc}²";
    char room[96];
    size_t number = 0;
    workbook_value(book, "diameter of the core", "dc", model->diameter, IN_FINE_MM, FROM_MAKER);
    workbook_value(book, "density of the core", "ρc", model->density, IN_G_PER_CM3,
                   origin(spec->density.value, spec->material, room, sizeof room));
    for (size_t i = 0; i < MENSUR_WRAPS_MAX; i++) {
        if (!isnan(spec->wraps[i].thickness.value)) {
            wrapping(book, model, &spec->wraps[i], ++number, right);
        }
    }
    strcat(right, ")");
    linear_density(book, model, name, right, "in g/cm³ and mm", FROM_CIRCLES);
}

/* By whichever way string_model.c took. */
static void density(struct workbook *book, const struct string_model *model) {
    const char *name = model->slack ? "μ0" : "μ";
    switch (model->way) {
    case MENSUR_WAY_STATED:
        workbook_value(book, model->slack ? "density of the slack string" : "density", name,
                       model->linear_density, IN_G_PER_M, FROM_MAKER);
        break;
    case MENSUR_WAY_WEIGHED:
        weighed(book, model, name);
        break;
    case MENSUR_WAY_TENSION:
        stated_tension(book, model, name);
        break;
    case MENSUR_WAY_WRAPPED:
        wrapped(book, model, name);
        break;
    case MENSUR_WAY_PLAIN:
        plain(book, model, name);
        break;
    }
}

static bool is_value(double value, double of) {
    return fabs(value - of) <= 1e-6 * of;
}

/* Where the strength was found. */
static const char *strength_origin(const struct workbook *book, const struct string_model *model,
                                   char *room, size_t size) {
    const struct mensur_string_spec *spec = model->spec;
    const struct mensur_material *material = mensur_stock_material(book->stock, spec->material);
    if (!isnan(spec->strength.value) || material == NULL) {
        return origin(spec->strength.value, spec->material, room, size);
    }
    bool low = is_value(material->low_strength, model->strength);
    if (!low && !is_value(material->strength, model->strength)) {
        snprintf(room, size, "table of wire strengths: %.40s%s", spec->material,
                 model->at_least ? ", its first row: at least" : "");
    } else {
        snprintf(room, size, "table of materials: %.40s%s", spec->material,
                 low ? ", the low end" : "");
    }
    return room;
}

static void core(struct workbook *book, const struct string_model *model) {
    const struct mensur_figure *modulus = mensur_figure_named(MENSUR_SCOPE_MODEL, "modulus");
    const struct mensur_figure *second = mensur_figure_named(MENSUR_SCOPE_MODEL, "second_moment");
    const struct mensur_figure *strength = mensur_figure_named(MENSUR_SCOPE_MODEL, "strength_MPa");
    const struct mensur_string_spec *spec = model->spec;
    char room[96];
    workbook_record(book, MENSUR_SCOPE_MODEL, model);
    workbook_row(book, MENSUR_SCOPE_MODEL, "core_area", model);
    workbook_figure(book, modulus, modulus->what, NULL,
                    origin(spec->modulus.value, spec->material, room, sizeof room), model);
    if (model->strands > 1.0) {
        workbook_step(book, second->what, "I = π/64·{dc}⁴/{n}", "strands that slide freely",
                      model->second_moment, IN_MM4, second->source);
    } else {
        workbook_row(book, MENSUR_SCOPE_MODEL, "second_moment", model);
    }
    workbook_figure(book, strength, strength->what, NULL,
                    strength_origin(book, model, room, sizeof room), model);
}

static void make_strings(const struct workbook *book, const struct setup *setup,
                         struct working_strings *out) {
    out->setup = setup;
    out->count = setup->tuning == NULL ? 0 : setup->tuning->count;
    profile_models(book->stock, setup, book->terms->fifths, out->models);
    for (size_t i = 0; i < out->count; i++) {
        string_figures(setup, &out->models[i], book->terms, i, &out->figures[i]);
    }
}

/* From here on the lines are of string i, and the symbols of its figures stand for its values. */
static void know_string(struct workbook *book, const struct working_strings *strings, size_t i) {
    book->of = strings->figures[i].note;
    workbook_record(book, MENSUR_SCOPE_MODEL, &strings->models[i]);
    workbook_record(book, MENSUR_SCOPE_STRING, &strings->figures[i]);
    workbook_know(book, "L", strings->setup->string_length, IN_LENGTH);
    workbook_know(book, "down", strings->setup->geometry.down_factor, IN_NUMBER);
}

static void pitches(struct workbook *book, const struct working_strings *strings) {
    const struct mensur_figure *figure = mensur_figure_named(MENSUR_SCOPE_STRING, "frequency_Hz");
    for (size_t i = 0; i < strings->count; i++) {
        const struct mensur_note *note = &strings->setup->tuning->notes[i];
        bool pure = book->terms->fifths == MENSUR_FIFTHS_PURE;
        int octaves = (note->semitones_from_a4 - 7 * note->fifths_from_a) / 12;
        know_string(book, strings, i);
        workbook_know(book, "A4", setup_a4(strings->setup, book->terms), IN_HERTZ);
        workbook_know(book, "k", note->fifths_from_a, IN_NUMBER);
        workbook_know(book, "m", octaves, IN_NUMBER);
        workbook_know(book, "s", note->semitones_from_a4, IN_NUMBER);
        workbook_step(book, figure->label,
                      pure ? "f = {A4}·(3/2)^{k}·2^{m}" : "f = {A4}·2^({s}/12)",
                      pure ? "k pure fifths and m octaves from A4" : "s semitones from A4",
                      strings->figures[i].frequency, IN_HERTZ,
                      pure ? "pure fifths: common practice" : "equal temperament");
    }
    book->of = NULL;
}

static void tensions(struct workbook *book, const struct working_strings *strings) {
    for (size_t i = 0; i < strings->count; i++) {
        const struct mensur_string_figures *figures = &strings->figures[i];
        know_string(book, strings, i);
        if (strings->models[i].slack) {
            workbook_row(book, MENSUR_SCOPE_STRING, "stiffness_N", figures);
            workbook_row(book, MENSUR_SCOPE_STRING, "unthinned_tension_N", figures);
            workbook_step(book, "tension", "T = 2·{B}/(1 + √(1 + 4·{B}/{EA}))", NULL,
                          figures->tension, IN_NEWTONS, FROM_SLACK);
            workbook_row(book, MENSUR_SCOPE_STRING, "linear_density_g_per_m", figures);
        } else {
            workbook_row(book, MENSUR_SCOPE_STRING, "tension_N", figures);
        }
    }
    book->of = NULL;
}

static void densities_and_cores(struct workbook *book, const struct working_strings *strings,
                                bool cores) {
    for (size_t i = 0; i < strings->count; i++) {
        book->of = strings->figures[i].note;
        if (strings->models[i].spec != NULL && cores) {
            core(book, &strings->models[i]);
        } else if (strings->models[i].spec != NULL) {
            density(book, &strings->models[i]);
        }
    }
    book->of = NULL;
}

/* A figure of a string; NaN without a key. */
static double figure_of(const struct mensur_string_figures *figures, const char *key) {
    return key == NULL
               ? NAN
               : mensur_figure_value(mensur_figure_named(MENSUR_SCOPE_STRING, key), figures);
}

/* One sum over the strings; nothing where one of them is not known. */
static void total(struct workbook *book, const char *key, const char *symbol, const char *part_key,
                  const struct mensur_string_figures *strings, size_t count) {
    const struct mensur_figure *figure = mensur_figure_named(MENSUR_SCOPE_TOTAL, key);
    char formula[512];
    double sum = 0.0;
    snprintf(formula, sizeof formula, "%s =", figure->symbol);
    for (size_t i = 0; i < count; i++) {
        char part[24];
        double value = figure_of(&strings[i], part_key);
        snprintf(part, sizeof part, "%s%zu", symbol, i + 1);
        workbook_know(book, part, value, IN_NEWTONS);
        sum += value;
        snprintf(formula + strlen(formula), sizeof formula - strlen(formula), "%s {%s}",
                 i == 0 ? "" : " +", part);
    }
    if (count > 0) {
        workbook_step(book, figure->what != NULL ? figure->what : figure->label, formula, NULL, sum,
                      IN_NEWTONS, figure->source);
    }
}

void working_totals(struct workbook *book, const struct mensur_string_figures *strings,
                    size_t count) {
    total(book, "total_tension_N", "T", "tension_N", strings, count);
    total(book, "total_force_on_belly_N", "F", "force_on_belly_N", strings, count);
}

/* What a string adds to the force of the treble foot. */
static void foot_part(struct workbook *book, const struct mensur_loaded_bridge *bridge,
                      const struct mensur_loaded_string *string, size_t i) {
    const struct {
        const char *symbol;
        double value;
        enum workbook_unit unit;
    } of[] = {{"F", string->tension * bridge->down_factor, IN_NEWTONS},
              {"T", string->tension, IN_NEWTONS},
              {"x", string->at_bridge, IN_MM},
              {"n", string->at_nut, IN_MM},
              {"t", string->at_tail, IN_MM}};
    struct mensur_foot_forces feet;
    char formula[256], name[24];
    if (mensur_foot_forces(bridge, string, 1, &feet) != MENSUR_OK) {
        return;
    }
    for (size_t k = 0; k < sizeof of / sizeof of[0]; k++) {
        snprintf(name, sizeof name, "%s%zu", of[k].symbol, i + 1);
        workbook_know(book, name, of[k].value, of[k].unit);
    }
    snprintf(formula, sizeof formula,
             "N%zu = {F%zu}·(1/2 + {x%zu}/{feet}) + "
             "{T%zu}·(({n%zu} − {x%zu})/{L mm} + ({t%zu} − {x%zu})/{after})·{z}/{feet}",
             i + 1, i + 1, i + 1, i + 1, i + 1, i + 1, i + 1, i + 1);
    workbook_step(book, "its part of the treble foot's force", formula, NULL, feet.treble,
                  IN_NEWTONS, FROM_STATICS);
}

/* What the strings do to the bridge's feet and to the neck's root. */
static void loads(struct workbook *book, const struct working_strings *strings) {
    const struct setup *setup = strings->setup;
    const struct mensur_geometry *g = &setup->geometry;
    struct mensur_loaded_bridge bridge;
    struct mensur_loaded_string loaded[MENSUR_STRINGS_MAX];
    double tension = 0.0, down = 0.0;
    size_t count = profile_loaded(setup, strings->figures, strings->count, &bridge, loaded);
    for (size_t i = 0; i < count; i++) {
        tension += strings->figures[i].tension;
        down += strings->figures[i].force_on_belly;
    }
    struct profile_loads done = profile_loads(setup, strings->figures, count, tension);
    if (!isnan(done.treble_foot)) {
        char formula[512] = "N_treble =";
        workbook_value(book, "the feet's middles", "feet", bridge.foot_spacing, IN_MM,
                       "foot_spacing");
        workbook_value(book, "strings over the feet", "z", bridge.height, IN_MM, "bridge");
        workbook_value(book, "string behind the bridge", "after", bridge.afterlength, IN_MM,
                       "afterlength");
        for (size_t i = 0; i < count; i++) {
            book->of = strings->figures[i].note;
            foot_part(book, &bridge, &loaded[i], i);
            snprintf(formula + strlen(formula), sizeof formula - strlen(formula), "%s {N%zu}",
                     i == 0 ? "" : " +", i + 1);
        }
        book->of = NULL;
        workbook_step(book, "treble foot", formula, NULL, done.treble_foot, IN_NEWTONS,
                      FROM_STATICS);
        workbook_know(book, "F_all", down, IN_NEWTONS);
        workbook_step(book, "bass foot", "N_bass = {F_all} − {N_treble}", NULL, done.bass_foot,
                      IN_NEWTONS, FROM_STATICS);
    }
    if (!isnan(done.neck_moment)) {
        double over = g->nut_y - g->nut_x * tan(g->front_angle);
        workbook_know(book, "α", g->front_angle, IN_DEGREES);
        workbook_know(book, "T_all", tension, IN_NEWTONS);
        workbook_value(book, "strings over the edge at the neck's root", "y", over, IN_MM,
                       FROM_GEOMETRY);
        workbook_value(book, "overstand", "over", setup->value[MENSUR_FIELD_OVERSTAND], IN_MM,
                       "overstand");
        workbook_step(book, "moment at the neck's root, N m",
                      "M = {T_all}·({y} − {over})·cos({α})/1000", "in N and mm", done.neck_moment,
                      IN_NUMBER, FROM_STATICS);
    }
}

/* A string whose stiffness is one value has no range of it, and one whose modulus does not grow
 * none for fast changes. */
static bool is_told(const char *law, const struct working_strings *strings, size_t i) {
    bool one = !isnan(strings->figures[i].inharmonicity);
    if (strcmp(law, "fast_modulus_GPa") == 0) {
        return !isnan(strings->models[i].fast_modulus);
    }
    return !one || (strcmp(law, "greatest_moment") != 0 && strcmp(law, "inharmonicity_low") != 0 &&
                    strcmp(law, "inharmonicity_high") != 0);
}

void working_laws(struct workbook *book, const struct working_strings *strings) {
    static const char *const laws[] = {"stress_MPa",           "breaking_margin_semitones",
                                       "highest_frequency_Hz", "inharmonicity",
                                       "fast_modulus_GPa",     "greatest_moment",
                                       "inharmonicity_low",    "inharmonicity_high",
                                       "impedance_kg_per_s",   "force_on_belly_N"};
    pitches(book, strings);
    densities_and_cores(book, strings, false);
    tensions(book, strings);
    densities_and_cores(book, strings, true);
    for (size_t n = 0; n < sizeof laws / sizeof laws[0]; n++) {
        for (size_t i = 0; i < strings->count; i++) {
            know_string(book, strings, i);
            if (is_told(laws[n], strings, i)) {
                workbook_row(book, MENSUR_SCOPE_STRING, laws[n], &strings->figures[i]);
            }
        }
    }
    book->of = NULL;
    working_totals(book, strings->figures, strings->count);
    loads(book, strings);
}

/* How it is bowed, the same for all strings. */
static void bowing(struct workbook *book, const struct setup *setup) {
    const struct mensur_terms *terms = book->terms;
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

/* What is felt, in order; by their keys, the figures that x, c and f' stand for in a formula. */
static const struct feeling {
    const char *key, *x, *c, *pitch;
    bool slides; /* the whole string shares the stretch, not its length alone */
} feelings[] = {
    {"bow_force_greatest_N", NULL, NULL, NULL, false},
    {"bow_force_least_N", NULL, NULL, NULL, false},
    {"first_clearance_mm", "first_place_mm", NULL, NULL, false},
    {"press_force_first_N", "first_place_mm", "first_clearance_mm", NULL, false},
    {"octave_clearance_mm", "octave_place_mm", NULL, NULL, false},
    {"press_force_octave_N", "octave_place_mm", "octave_clearance_mm", NULL, false},
    {"stiffness_N", NULL, NULL, NULL, true},
    {"tuning_strain", NULL, NULL, NULL, true},
    {"stretch_mm", NULL, NULL, NULL, true},
    {"fast_stiffness_N", NULL, NULL, NULL, false},
    {"cents_per_mm", NULL, NULL, NULL, true},
    {"core_moment", NULL, NULL, NULL, false},
    {"soft_end_mm", NULL, NULL, NULL, false},
    {"stopping_stretch_mm", "half_place_mm", "half_clearance_mm", NULL, false},
    {"stopped_high_Hz", NULL, NULL, NULL, false},
    {"rise_high_cents", NULL, NULL, "stopped_high_Hz", false},
    {"stopped_low_Hz", NULL, NULL, NULL, true},
    {"rise_low_cents", NULL, NULL, "stopped_low_Hz", false},
};

static void feel(struct workbook *book, const struct working_strings *strings, size_t i,
                 const struct feeling *feeling) {
    const struct setup *setup = strings->setup;
    const struct mensur_string_figures *figures = &strings->figures[i];
    double x = figure_of(figures, feeling->x);
    know_string(book, strings, i);
    workbook_know(book, "x", x, IN_MM);
    workbook_know(book, "u", x / setup->value[MENSUR_FIELD_BOARD_LENGTH], IN_NUMBER);
    workbook_know(book, "c", figure_of(figures, feeling->c), IN_FINE_MM);
    workbook_know(book, "f'", figure_of(figures, feeling->pitch), IN_HERTZ);
    const struct mensur_stopping string =
        feeling->slides ? string_free(setup, figures) : string_held(setup, figures);
    workbook_know(book, "EA", string.stiffness, IN_NEWTONS);
    workbook_know(book, "s", string.soft_end, IN_METRES);
    workbook_know(book, "lf", string.stretch_length, IN_MM);
    workbook_row(book, MENSUR_SCOPE_STRING, feeling->key, figures);
}

void working_feel(struct workbook *book, const struct working_strings *strings) {
    const struct setup *setup = strings->setup;
    double hollow = setup->value[MENSUR_FIELD_HOLLOW];
    bowing(book, setup);
    workbook_record(book, MENSUR_SCOPE_GEOMETRY, &setup->geometry);
    workbook_know(book, "hollow", isnan(hollow) ? 0.0 : hollow, IN_MM);
    workbook_know(book, "R", book->terms->resistance, IN_KG_PER_S);
    for (size_t n = 0; n < sizeof feelings / sizeof feelings[0]; n++) {
        for (size_t i = 0; i < strings->count; i++) {
            feel(book, strings, i, &feelings[n]);
        }
    }
    book->of = NULL;
}

void working_strings(struct workbook *book, const struct setup *setup, bool feel) {
    struct working_strings strings;
    make_strings(book, setup, &strings);
    working_laws(book, &strings);
    if (feel) {
        working_feel(book, &strings);
    }
}

void working_down_factor(struct workbook *book, const struct setup *setup) {
    workbook_value(book, "down factor", "down", setup->geometry.down_factor, IN_NUMBER,
                   FROM_LENGTHS);
}

void working_tensions(struct workbook *book, const struct setup *setup) {
    struct working_strings strings;
    make_strings(book, setup, &strings);
    pitches(book, &strings);
    densities_and_cores(book, &strings, false);
    tensions(book, &strings);
    working_totals(book, strings.figures, strings.count);
}

enum mensur_status mensur_ask_working_tension(const struct mensur_stock *stock,
                                              const struct mensur_instrument *instrument,
                                              const struct mensur_terms *terms, bool feel,
                                              struct mensur_fault *fault,
                                              struct mensur_working *out) {
    struct setup setup;
    struct workbook book;
    workbook_open(&book, stock, terms, fault);
    if (workbook_setup(&book, instrument, NULL, &setup)) {
        working_string_length(&book, &setup);
        working_down_factor(&book, &setup);
        working_strings(&book, &setup, feel);
    }
    return workbook_close(&book, out);
}
