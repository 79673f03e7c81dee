/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of the strings: one law after the other, each for all strings, so that like numbers
 * stand below each other. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "working.h"
#include "working_parts.h"

#define FROM_SLACK "Hooke: the mass stays while the string stretches"

static void make_strings(const struct mensur_stock *stock, const struct setup *setup,
                         const struct mensur_terms *terms, struct working_strings *out) {
    out->setup = setup;
    out->terms = terms;
    out->count = setup->tuning == NULL ? 0 : setup->tuning->count;
    profile_models(stock, setup, terms->fifths, out->models);
    for (size_t i = 0; i < out->count; i++) {
        string_figures(setup, &out->models[i], terms, i, &out->figures[i]);
    }
}

/* What the laws below need of string i. */
static void know_string(struct workbook *book, const struct working_strings *strings, size_t i) {
    const struct mensur_string_figures *figures = &strings->figures[i];
    const struct string_model *model = &strings->models[i];
    workbook_know(book, "L", strings->setup->string_length, IN_METRES);
    workbook_know(book, "f", figures->frequency, IN_HERTZ);
    workbook_know(book, "μ", figures->linear_density, IN_KG_PER_M);
    workbook_know(book, "μ0", model->linear_density, IN_KG_PER_M);
    workbook_know(book, "T", figures->tension, IN_NEWTONS);
    workbook_know(book, "A", model->core_area, IN_MM2);
    workbook_know(book, "I", model->second_moment, IN_MM4);
    workbook_know(book, "E", model->modulus, IN_MPA);
    workbook_know(book, "strength", model->strength, IN_MPA);
    workbook_know(book, "stress", figures->stress, IN_MPA);
    workbook_know(book, "down", strings->setup->geometry.down_factor, IN_NUMBER);
}

typedef void law(struct workbook *book, const struct working_strings *strings, size_t i);

static void pitch(struct workbook *book, const struct working_strings *strings, size_t i) {
    const struct mensur_note *note = &strings->setup->tuning->notes[i];
    bool pure = strings->terms->fifths == MENSUR_FIFTHS_PURE;
    int octaves = (note->semitones_from_a4 - 7 * note->fifths_from_a) / 12;
    workbook_know(book, "A4", strings->terms->a4, IN_HERTZ);
    workbook_know(book, "k", note->fifths_from_a, IN_NUMBER);
    workbook_know(book, "m", octaves, IN_NUMBER);
    workbook_know(book, "s", note->semitones_from_a4, IN_NUMBER);
    workbook_step(book, "pitch", pure ? "f = {A4}·(3/2)^{k}·2^{m}" : "f = {A4}·2^({s}/12)",
                  pure ? "k pure fifths and m octaves from A4" : "s semitones from A4",
                  strings->figures[i].frequency, IN_HERTZ,
                  pure ? "pure fifths: common practice" : "equal temperament");
}

static void slack_pull(struct workbook *book, const struct working_strings *strings, size_t i) {
    const struct string_model *model = &strings->models[i];
    const struct mensur_string_figures *figures = &strings->figures[i];
    double length = strings->setup->string_length;
    double untuned = 2.0 * length * figures->frequency;
    workbook_step(book, "stiffness of the core", "EA = {E}·{A}", NULL,
                  model->modulus * model->core_area, IN_NEWTONS, "Hooke");
    workbook_step(book, "pull if the string did not thin", "B = 4·{L}²·{f}²·{μ0}",
                  "in m, Hz and kg/m", untuned * untuned * model->linear_density, IN_NEWTONS,
                  FROM_MERSENNE);
    workbook_step(book, "pull", "T = 2·{B}/(1 + √(1 + 4·{B}/{EA}))", NULL, figures->tension,
                  IN_NEWTONS, FROM_SLACK);
    workbook_know(book, "μ0", model->linear_density, IN_G_PER_M);
    workbook_step(book, "density at pitch", "μ = {μ0}/(1 + {T}/{EA})", NULL,
                  figures->linear_density, IN_G_PER_M, FROM_SLACK);
}

static void pull(struct workbook *book, const struct working_strings *strings, size_t i) {
    if (strings->models[i].slack) {
        slack_pull(book, strings, i);
        return;
    }
    workbook_step(book, "pull", "T = 4·{L}²·{f}²·{μ}", "in m, Hz and kg/m",
                  strings->figures[i].tension, IN_NEWTONS, FROM_MERSENNE);
}

static void stress(struct workbook *book, const struct working_strings *strings, size_t i) {
    workbook_step(book, "stress in the core", "stress = {T}/{A}", "in N and mm²",
                  strings->figures[i].stress, IN_MPA, FROM_DEFINITION);
}

static void margin(struct workbook *book, const struct working_strings *strings, size_t i) {
    workbook_step(book, "margin to breaking", "margin = 6·log2({strength}/{stress})", NULL,
                  strings->figures[i].breaking_margin, IN_SEMITONES,
                  "pitch goes as the root of the pull");
}

static void highest(struct workbook *book, const struct working_strings *strings, size_t i) {
    workbook_step(book, "breaking pitch", "f_most = √({strength}·{A}/{μ})/(2·{L})",
                  "in MPa, mm², kg/m and m", strings->figures[i].highest_frequency, IN_HERTZ,
                  FROM_MERSENNE);
}

static void inharmonicity(struct workbook *book, const struct working_strings *strings, size_t i) {
    workbook_know(book, "L", strings->setup->string_length, IN_MM);
    workbook_step(book, "inharmonicity", "B = π²·{E}·{I}/({T}·{L}²)", "in MPa, mm⁴, N and mm",
                  strings->figures[i].inharmonicity, IN_NUMBER, "Fletcher 1964, from memory");
}

static void impedance(struct workbook *book, const struct working_strings *strings, size_t i) {
    workbook_step(book, "wave impedance", "Z = √({T}·{μ})", "in N and kg/m",
                  strings->figures[i].impedance, IN_KG_PER_S, FROM_DEFINITION);
}

static void belly(struct workbook *book, const struct working_strings *strings, size_t i) {
    workbook_step(book, "force on the belly", "F = {T}·{down}", NULL,
                  strings->figures[i].force_on_belly, IN_NEWTONS, FROM_STATICS);
}

static void apply(struct workbook *book, const struct working_strings *strings, law *each) {
    for (size_t i = 0; i < strings->count; i++) {
        book->of = strings->figures[i].note;
        know_string(book, strings, i);
        each(book, strings, i);
    }
    book->of = NULL;
}

static void densities_and_cores(struct workbook *book, const struct mensur_stock *stock,
                                const struct working_strings *strings, bool cores) {
    for (size_t i = 0; i < strings->count; i++) {
        book->of = strings->figures[i].note;
        if (strings->models[i].spec != NULL && cores) {
            working_core(book, stock, &strings->models[i]);
        } else if (strings->models[i].spec != NULL) {
            working_density(book, stock, &strings->models[i], strings->terms);
        }
    }
    book->of = NULL;
}

/* One sum over the strings; nothing where one of them is not known. */
static void total(struct workbook *book, const char *what, const char *name, const char *symbol,
                  const double *parts, size_t count) {
    char formula[512];
    double sum = 0.0;
    snprintf(formula, sizeof formula, "%s =", name);
    for (size_t i = 0; i < count; i++) {
        char part[24];
        snprintf(part, sizeof part, "%s%zu", symbol, i + 1);
        workbook_know(book, part, parts[i], IN_NEWTONS);
        sum += parts[i];
        snprintf(formula + strlen(formula), sizeof formula - strlen(formula), "%s {%s}",
                 i == 0 ? "" : " +", part);
    }
    if (count > 0) {
        workbook_step(book, what, formula, NULL, sum, IN_NEWTONS, "sum over the strings");
    }
}

void working_totals(struct workbook *book, const struct mensur_string_figures *strings,
                    size_t count) {
    double pulls[MENSUR_RESULT_STRINGS];
    double forces[MENSUR_RESULT_STRINGS];
    for (size_t i = 0; i < count; i++) {
        pulls[i] = strings[i].tension;
        forces[i] = strings[i].force_on_belly;
    }
    total(book, "pull in all", "T_all", "T", pulls, count);
    total(book, "force on the belly in all", "F_all", "F", forces, count);
}

void working_laws(struct workbook *book, const struct mensur_stock *stock,
                  const struct working_strings *strings) {
    static law *const laws[] = {stress, margin, highest, inharmonicity, impedance, belly};
    apply(book, strings, pitch);
    densities_and_cores(book, stock, strings, false);
    apply(book, strings, pull);
    densities_and_cores(book, stock, strings, true);
    for (size_t i = 0; i < sizeof laws / sizeof laws[0]; i++) {
        apply(book, strings, laws[i]);
    }
    working_totals(book, strings->figures, strings->count);
}

void working_strings(struct workbook *book, const struct mensur_stock *stock,
                     const struct setup *setup, const struct mensur_terms *terms, bool feel) {
    struct working_strings strings;
    make_strings(stock, setup, terms, &strings);
    working_laws(book, stock, &strings);
    if (feel) {
        working_feel(book, setup, terms, strings.models, strings.figures, strings.count);
    }
}

void working_down_factor(struct workbook *book, const struct setup *setup) {
    workbook_value(book, "down factor", "down", setup->geometry.down_factor, IN_NUMBER,
                   FROM_LENGTHS);
}

void working_pulls(struct workbook *book, const struct mensur_stock *stock,
                   const struct setup *setup, const struct mensur_terms *terms) {
    struct working_strings strings;
    make_strings(stock, setup, terms, &strings);
    apply(book, &strings, pitch);
    densities_and_cores(book, stock, &strings, false);
    apply(book, &strings, pull);
    working_totals(book, strings.figures, strings.count);
}

enum mensur_status mensur_ask_working_tension(const struct mensur_stock *stock,
                                              const struct mensur_instrument *instrument,
                                              const struct mensur_terms *terms, bool feel,
                                              struct mensur_fault *fault,
                                              struct mensur_working *out) {
    struct setup setup;
    struct workbook book;
    enum mensur_status status = setup_make(stock, instrument, NULL, terms->hold, fault, &setup);
    if (status != MENSUR_OK) {
        return status;
    }
    workbook_open(&book, terms->inches);
    working_string_length(&book, &setup);
    working_down_factor(&book, &setup);
    working_strings(&book, stock, &setup, terms, feel);
    return workbook_close(&book, fault, out);
}
