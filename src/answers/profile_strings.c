/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strings of an instrument: their tension, what they bear, what bow and finger feel. */
#include <math.h>
#include <string.h>

#include "figures.h"
#include "fingers.h"
#include "loads.h"
#include "playing.h"
#include "profile.h"
#include "taut_string.h"

/* Usual playing: common practice, no source; reported as assumed. */
static const double usual_bow_speed = 0.2;
static const double usual_bow_distance_m = 0.030;
static const double usual_bow_length_m = 0.328; /* the string that the distance goes with */
static const double usual_friction = 0.5;

static double or_usual(double value, double usual) {
    return isnan(value) ? usual : value;
}

double playing_bow_speed(const struct mensur_terms *terms) {
    return or_usual(terms->bow_speed, usual_bow_speed);
}

double playing_friction(const struct mensur_terms *terms) {
    return or_usual(terms->friction, usual_friction);
}

double playing_bow_distance(const struct mensur_terms *terms, double length) {
    return or_usual(terms->bow_distance, usual_bow_distance_m * length / usual_bow_length_m);
}

static void find_bow_forces(const struct mensur_terms *terms, double length,
                            struct mensur_string_figures *out) {
    double speed = playing_bow_speed(terms);
    double friction = playing_friction(terms);
    double place = playing_bow_distance(terms, length) / length;
    (void)mensur_bow_force_greatest(out->impedance, speed, friction, place,
                                    &out->bow_force_greatest);
    (void)mensur_bow_force_least(out->impedance, speed, friction, place, terms->resistance,
                                 &out->bow_force_least);
}

/* Where the i-th string stands against the mean one at the board's end, m. */
static double clearance_offset(const struct setup *setup, size_t i) {
    double low, high;
    setup_outer_offsets(setup, &low, &high);
    if (isnan(low) || setup->tuning->count < 2) {
        return 0.0;
    }
    double part = (double)i / (double)(setup->tuning->count - 1);
    return low + part * (high - low);
}

double string_clearance(const struct setup *setup, size_t i, double x) {
    double clearance = NAN;
    double board = setup->value[MENSUR_FIELD_BOARD_LENGTH];
    double hollow = or_usual(setup->value[MENSUR_FIELD_HOLLOW], 0.0);
    if (!setup->has_geometry || mensur_clearance(&setup->view, &setup->geometry, board, hollow, x,
                                                 &clearance) != MENSUR_OK) {
        return NAN;
    }
    return clearance + clearance_offset(setup, i) * x / board;
}

/* How high the i-th string stands where it is pressed down, and the way that it then takes. */
static void find_heights(const struct setup *setup, size_t i, struct mensur_string_figures *out) {
    struct mensur_stopped way;
    out->half_place = setup->string_length / 2.0;
    (void)mensur_place_equal(setup->string_length, 2.0, &out->first_place);
    (void)mensur_place_equal(setup->string_length, 12.0, &out->octave_place);
    out->clearance_offset = clearance_offset(setup, i);
    out->first_clearance = string_clearance(setup, i, out->first_place);
    out->octave_clearance = string_clearance(setup, i, out->octave_place);
    out->half_clearance = string_clearance(setup, i, out->half_place);
    if (mensur_stopped_way(setup->string_length, out->half_clearance, out->half_place, &way) ==
        MENSUR_OK) {
        out->stretch = way.stretch;
        out->sounding = way.sounding;
    }
}

struct mensur_stopping string_held(const struct setup *setup,
                                   const struct mensur_string_figures *figures) {
    return (struct mensur_stopping){.length = setup->string_length,
                                    .tension = figures->tension,
                                    .linear_density = figures->linear_density,
                                    .stiffness = figures->fast_stiffness,
                                    .stretch_length = setup->string_length,
                                    .soft_end = or_usual(figures->soft_end, 0.0)};
}

struct mensur_stopping string_free(const struct setup *setup,
                                   const struct mensur_string_figures *figures) {
    return (struct mensur_stopping){.length = setup->string_length,
                                    .tension = figures->tension,
                                    .linear_density = figures->linear_density,
                                    .stiffness = figures->stiffness,
                                    .stretch_length = string_stretch_length(setup)};
}

/* Cents by which the octave, stopped where the simple law puts it, sounds too high. */
static double octave_rise(const struct mensur_stopping *string,
                          const struct mensur_string_figures *figures, double *stopped) {
    struct mensur_stopped way = {figures->stretch, figures->sounding};
    double cents = NAN;
    if (mensur_stopped_frequency(string, &way, stopped) == MENSUR_OK) {
        (void)mensur_cents(2.0 * figures->frequency, *stopped, &cents);
    }
    return cents;
}

double string_stretch_length(const struct setup *setup) {
    const double *v = setup->value;
    return setup->string_length + v[MENSUR_FIELD_AFTERLENGTH] + v[MENSUR_FIELD_BEHIND_NUT];
}

static void find_feel(const struct setup *setup, const struct mensur_terms *terms,
                      struct mensur_string_figures *out) {
    double length = setup->string_length;
    find_bow_forces(terms, length, out);
    (void)mensur_press_force(out->tension, length, out->first_clearance, out->first_place,
                             &out->press_force_first);
    (void)mensur_press_force(out->tension, length, out->octave_clearance, out->octave_place,
                             &out->press_force_octave);
    const struct mensur_stopping held = string_held(setup, out);
    const struct mensur_stopping free_to_slide = string_free(setup, out);
    out->rise_high_cents = octave_rise(&held, out, &out->stopped_high);
    out->rise_low_cents = octave_rise(&free_to_slide, out, &out->stopped_low);
}

static enum mensur_known in_range(double length, double low, double high) {
    if (isnan(low) && isnan(high)) {
        return MENSUR_UNSURE;
    }
    return length < low || length > high ? MENSUR_NO : MENSUR_YES;
}

/* What steel is stretched on, 1/K: wood along the grain (an estimate of ours). */
static const double body_expansion = 4e-6;

/* How stiff it is against bending: from strands that slide on each other, of an unknown number
 * however fine, to a core of one piece. */
static void find_bending(const struct setup *setup, const struct string_model *model,
                         struct mensur_string_figures *out) {
    double length = setup->string_length;
    double of_core = NAN;
    double clamped = NAN;
    out->fast_modulus = string_model_fast_modulus(model, out->stress);
    out->fast_stiffness = out->fast_modulus * model->core_area;
    out->greatest_moment = string_model_greatest_moment(model, out->fast_modulus);
    (void)mensur_inharmonicity(length, out->tension, model->modulus, model->second_moment,
                               &out->inharmonicity_low);
    (void)mensur_inharmonicity(length, out->tension, out->fast_modulus, out->greatest_moment,
                               &out->inharmonicity_high);
    if (model->solid && !(out->fast_modulus > model->modulus)) {
        out->inharmonicity = out->inharmonicity_low;
    }
    /* Ends bend the core; the turns of a wrapping open there. */
    out->core_moment = string_model_core_moment(model);
    (void)mensur_end_shortening(out->tension, out->fast_modulus, out->core_moment, &out->soft_end);
    (void)mensur_inharmonicity(length, out->tension, out->fast_modulus, out->core_moment, &of_core);
    if (isnan(model->strands) && !isnan(of_core)) {
        out->inharmonicity_low = 0.0;
    }
    if (mensur_clamped_frequency(out->frequency, of_core, 1, &clamped) == MENSUR_OK) {
        (void)mensur_cents(out->frequency, clamped, &out->clamped_rise_cents);
    }
}

/* What the player does at the peg, and warmth: the peg moves the string slowly from slack to
 * pitch, and little once it is there. */
static void find_tuning(const struct setup *setup, const struct string_model *model,
                        struct mensur_string_figures *out) {
    double drawn = string_stretch_length(setup);
    double fast = NAN;
    double cents = NAN;
    (void)mensur_tuning_strain(out->tension, model->modulus, model->core_area, &out->tuning_strain);
    (void)mensur_tuning_strain(out->tension, out->fast_modulus, model->core_area, &fast);
    out->tuning_stretch = drawn * out->tuning_strain;
    if (mensur_cents_per_metre(fast, drawn, &cents) == MENSUR_OK) {
        out->cents_per_mm = cents / 1000.0;
    }
    (void)mensur_cents_per_kelvin(out->tuning_strain, model->expansion - body_expansion,
                                  &out->cents_per_kelvin);
}

/* Every call here leaves its figure unknown where something it needs is. */
static void find_tension(const struct setup *setup, const struct string_model *model,
                         struct mensur_string_figures *out) {
    double length = setup->string_length;
    out->stiffness = model->modulus * model->core_area;
    if (model->slack) {
        (void)mensur_tension(length, out->frequency, model->linear_density,
                             &out->unthinned_tension);
    }
    out->linear_density = string_model_tuned_density(model, out->tension);
    out->strength = model->strength;
    (void)mensur_stress(out->tension, model->core_area, &out->stress);
    (void)mensur_breaking_margin(out->stress, model->strength, &out->breaking_margin);
    (void)mensur_breaking_margin(out->stress, model->strength_high, &out->breaking_margin_high);
    out->breaking_margin_at_least =
        model->at_least && !isnan(out->breaking_margin) ? MENSUR_YES : MENSUR_NO;
    (void)mensur_highest_frequency(length, model->strength, out->linear_density / model->core_area,
                                   &out->highest_frequency);
    find_bending(setup, model, out);
    find_tuning(setup, model, out);
    (void)mensur_impedance(out->tension, out->linear_density, &out->impedance);
}

/* What the totals of all strings are made of. */
static void find_parts_of_totals(const struct setup *setup, const struct string_model *model,
                                 const struct mensur_terms *terms, size_t i,
                                 struct mensur_string_figures *out) {
    strcpy(out->note, setup->tuning->notes[i].name);
    out->frequency = profile_frequency(setup, terms, i);
    if (model->spec != NULL) {
        out->made_for_low = model->spec->made_for_low.value;
        out->made_for_high = model->spec->made_for_high.value;
        out->tension = string_model_tension(model, setup->string_length, out->frequency);
        (void)mensur_force_on_belly(out->tension, setup->geometry.down_factor,
                                    &out->force_on_belly);
    }
}

/* The figures of a string of which all is unknown. */
static void find_figures(const struct setup *setup, const struct string_model *model,
                         const struct mensur_terms *terms, size_t i,
                         struct mensur_string_figures *out) {
    find_parts_of_totals(setup, model, terms, i, out);
    out->breaking_margin_at_least = MENSUR_NO;
    find_heights(setup, i, out);
    if (model->spec == NULL) {
        return;
    }
    out->string = model->spec->name;
    out->density_from = mensur_density_words[model->way];
    out->own = model->spec->own ? MENSUR_YES : MENSUR_NO;
    if (strcmp(model->spec->note.name, out->note) != 0) {
        strcpy(out->tuned_to, out->note);
    }
    out->in_made_for_range = in_range(setup->string_length, out->made_for_low, out->made_for_high);
    find_tension(setup, model, out);
    /* The tensions between which it is at home; unknown where what they follow from is. */
    out->breaking_tension = model->strength * model->core_area;
    out->made_for_tension_low = string_model_tension(model, out->made_for_low, out->frequency);
    out->made_for_tension_high = string_model_tension(model, out->made_for_high, out->frequency);
    find_feel(setup, terms, out);
}

void string_figures(const struct setup *setup, const struct string_model *model,
                    const struct mensur_terms *terms, size_t i, struct mensur_string_figures *out) {
    mensur_figures_unknown(MENSUR_SCOPE_STRING, out);
    find_figures(setup, model, terms, i, out);
}

double profile_frequency(const struct setup *setup, const struct mensur_terms *terms, size_t i) {
    const struct mensur_note *note = &setup->tuning->notes[i];
    double frequency = NAN;
    (void)mensur_open_frequency(note->semitones_from_a4, note->fifths_from_a,
                                setup_a4(setup, terms), terms->fifths, &frequency);
    return frequency;
}

void profile_models(const struct mensur_stock *stock, const struct setup *setup,
                    enum mensur_fifths fifths, struct string_model *models) {
    const struct mensur_string_spec *strings[MENSUR_STRINGS_MAX];
    if (setup->tuning == NULL) {
        return;
    }
    mensur_stock_set_strings(stock, setup->instrument->set, setup->tuning, strings);
    for (size_t i = 0; i < setup->tuning->count; i++) {
        string_model_make(stock, strings[i], fifths, &models[i]);
    }
}

double profile_base_tension(const struct mensur_string_figures *present,
                            const struct mensur_profile *like) {
    for (size_t i = 0; like != NULL && i < like->string_count; i++) {
        const struct mensur_string_figures *liked = &like->strings[i];
        if (strcmp(liked->note, present->note) == 0 && !isnan(liked->tension)) {
            return liked->tension;
        }
    }
    return present->tension;
}

size_t profile_loaded(const struct setup *setup, const struct mensur_string_figures *strings,
                      size_t count, struct mensur_loaded_bridge *bridge,
                      struct mensur_loaded_string *loaded) {
    const double *v = setup->value;
    *bridge = (struct mensur_loaded_bridge){
        .down_factor = setup->geometry.down_factor,
        .string_length = setup->string_length,
        .afterlength = v[MENSUR_FIELD_AFTERLENGTH],
        .height = v[MENSUR_FIELD_BRIDGE],
        .foot_spacing = v[MENSUR_FIELD_FOOT_SPACING],
    };
    for (size_t i = 0; i < count; i++) {
        loaded[i] = (struct mensur_loaded_string){
            .tension = strings[i].tension,
            .at_bridge = profile_across(v[MENSUR_FIELD_SPACING_BRIDGE], i, count),
            .at_nut = profile_across(v[MENSUR_FIELD_SPACING_NUT], i, count),
            .at_tail = profile_across(v[MENSUR_FIELD_SPACING_TAIL], i, count),
        };
    }
    return count;
}

struct profile_loads profile_loads(const struct setup *setup,
                                   const struct mensur_string_figures *strings, size_t count,
                                   double total_tension) {
    struct profile_loads loads = {NAN, NAN, NAN};
    struct mensur_loaded_bridge bridge;
    struct mensur_loaded_string loaded[MENSUR_RESULT_STRINGS];
    struct mensur_foot_forces feet;
    (void)profile_loaded(setup, strings, count, &bridge, loaded);
    if (mensur_foot_forces(&bridge, loaded, count, &feet) == MENSUR_OK) {
        loads.treble_foot = feet.treble;
        loads.bass_foot = feet.bass;
    }
    (void)mensur_neck_moment(&setup->geometry, setup->value[MENSUR_FIELD_OVERSTAND], total_tension,
                             &loads.neck_moment);
    return loads;
}

/* The totals, and the range of length common to all strings that state one; none where they exclude
 * each other. */
static void find_totals(const struct setup *setup, struct mensur_profile *profile) {
    profile->made_for_low = NAN;
    profile->made_for_high = NAN;
    profile->total_tension = profile->string_count == 0 ? NAN : 0.0;
    profile->total_force_on_belly = profile->total_tension;
    for (size_t i = 0; i < profile->string_count; i++) {
        const struct mensur_string_figures *string = &profile->strings[i];
        profile->made_for_low = fmax(profile->made_for_low, string->made_for_low);
        profile->made_for_high = fmin(profile->made_for_high, string->made_for_high);
        profile->total_tension += string->tension;
        profile->total_force_on_belly += string->force_on_belly;
    }
    if (profile->made_for_low > profile->made_for_high) {
        profile->made_for_low = NAN;
        profile->made_for_high = NAN;
    }
    struct profile_loads loads =
        profile_loads(setup, profile->strings, profile->string_count, profile->total_tension);
    profile->force_on_treble_foot = loads.treble_foot;
    profile->force_on_bass_foot = loads.bass_foot;
    profile->neck_moment = loads.neck_moment;
}

void assume_playing(const struct mensur_terms *terms, double length,
                    struct mensur_assumptions *assumed) {
    if (isnan(terms->bow_speed)) {
        assume(assumed, "bow_speed in m/s", MENSUR_BEHIND_FEEL, usual_bow_speed, MENSUR_NUMBER,
               NULL);
    }
    if (isnan(terms->bow_distance)) {
        assume(assumed, "bow_distance", MENSUR_BEHIND_FEEL, playing_bow_distance(terms, length),
               MENSUR_LENGTH, NULL);
    }
    if (isnan(terms->friction)) {
        assume(assumed, "friction", MENSUR_BEHIND_FEEL, usual_friction, MENSUR_NUMBER, NULL);
    }
}

static void warn_string(const char *instrument, const char *set,
                        const struct mensur_string_figures *figures,
                        const struct string_model *model, struct mensur_facts *warnings) {
    if (model->spec == NULL) {
        if (set != NULL) {
            mensur_facts_add(warnings, MENSUR_FACT_SET_LACKS_NOTE,
                             MENSUR_NAMES(instrument, set, figures->note), NULL);
        }
    } else if (model->slack && isnan(figures->tension)) {
        mensur_facts_add(warnings, MENSUR_FACT_SLACK_UNKNOWN,
                         MENSUR_NAMES(instrument, model->spec->name), NULL);
    } else if (figures->breaking_margin < 1.0 && !model->at_least) {
        mensur_facts_add(warnings,
                         figures->breaking_margin < 0.0 ? MENSUR_FACT_WOULD_BREAK
                                                        : MENSUR_FACT_NEAR_BREAKING,
                         MENSUR_NAMES(instrument, model->spec->name, figures->note), NULL);
    }
}

void profile_strings_of(const struct mensur_stock *stock, const struct setup *setup,
                        const struct mensur_terms *terms,
                        const struct mensur_string_spec *const *strings,
                        struct mensur_profile *profile) {
    profile->string_count = setup->tuning->count;
    for (size_t i = 0; i < profile->string_count; i++) {
        struct string_model model;
        string_model_make(stock, strings[i], terms->fifths, &model);
        string_figures(setup, &model, terms, i, &profile->strings[i]);
    }
    find_totals(setup, profile);
}

void profile_strings(const struct mensur_stock *stock, const struct setup *setup,
                     const struct mensur_terms *terms, unsigned parts,
                     struct mensur_profile *profile) {
    bool remarks = (parts & MENSUR_PART_FIGURES_ALONE) == 0;
    struct mensur_string_figures unknown = {.string = NULL};
    struct string_model models[MENSUR_STRINGS_MAX];
    mensur_figures_unknown(MENSUR_SCOPE_STRING, &unknown);
    profile_models(stock, setup, terms->fifths, models);
    profile->string_count = setup->tuning == NULL ? 0 : setup->tuning->count;
    for (size_t i = 0; i < profile->string_count; i++) {
        profile->strings[i] = unknown;
        if ((parts & MENSUR_PART_RANKED) != 0) {
            find_parts_of_totals(setup, &models[i], terms, i, &profile->strings[i]);
        } else {
            find_figures(setup, &models[i], terms, i, &profile->strings[i]);
        }
        if (remarks) {
            warn_string(profile->instrument, profile->set, &profile->strings[i], &models[i],
                        &profile->warnings);
        }
    }
    find_totals(setup, profile);
    if (remarks && profile->set != NULL && profile->string_count > 0) {
        assume_playing(terms, setup->string_length, &profile->assumed);
    }
}
