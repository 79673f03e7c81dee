/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of the fingers: places, frames, and true places at the octave. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "playing.h"
#include "profile.h"
#include "working.h"
#include "working_parts.h"

#define FROM_ROOT "the stopped string sounds the octave there; found by a root finder"

static void place(struct workbook *book, const struct mensur_finger_place *place) {
    const enum mensur_steps steps = book->terms->steps;
    char what[64];
    double ratio = NAN;
    bool equal = steps == MENSUR_STEPS_EQUAL;
    int semitones = (int)place->semitones;
    (void)terms_step_ratio(book->terms, semitones, &ratio);
    workbook_know(book, "s", place->semitones, IN_NUMBER);
    workbook_know(book, "r", ratio, IN_NUMBER);
    snprintf(what, sizeof what, "place of semitone %d", semitones);
    workbook_step(book, what, equal ? "x = {L}·(1 − 2^(−{s}/12))" : "x = {L}·(1 − 1/{r})",
                  equal ? "equal steps" : "r: ratio of the step", place->from_nut, IN_LENGTH,
                  FROM_LENGTH);
}

static void frame(struct workbook *book, const struct mensur_position *position) {
    const struct mensur_figure *figure = mensur_figure_named(MENSUR_SCOPE_POSITION, "frame_mm");
    char what[64];
    snprintf(what, sizeof what, "frame in position %s", position->name);
    workbook_record(book, MENSUR_SCOPE_POSITION, position);
    workbook_figure(book, figure, what, figure->formula, figure->source, position);
}

void working_frames(struct workbook *book, const struct setup *setup,
                    const struct mensur_position *positions, size_t count) {
    const struct mensur_profile hand = {
        .frame_semitones = setup->family == NULL ? NAN : setup->family->frame_semitones};
    workbook_know(book, "L", setup->string_length, IN_LENGTH);
    workbook_row(book, MENSUR_SCOPE_HAND, "frame_semitones", &hand);
    for (size_t i = 0; i < count; i++) {
        frame(book, &positions[i]);
    }
}

void working_wider(struct workbook *book, double length, double other) {
    workbook_know(book, "L1", length, IN_LENGTH);
    workbook_know(book, "L2", other, IN_LENGTH);
    workbook_step(book, "fingers wider by", "spread = {L2}/{L1} − 1", NULL, other / length - 1.0,
                  IN_PERCENT, "every spacing goes as the length");
}

/* The octave's true place with one length that shares the stretch. */
static void true_octave(struct workbook *book, const struct setup *setup,
                        const struct mensur_string_figures *figures, size_t i,
                        const struct mensur_stopping *string, double x) {
    double c = string_clearance(setup, i, x);
    struct mensur_stopped way = {NAN, NAN};
    const struct mensur_figure *stopped =
        mensur_figure_named(MENSUR_SCOPE_STRING, "stopped_high_Hz");
    struct mensur_string_figures there = *figures;
    double frequency = NAN;
    /* Where there is no such place, way and pitch stay unknown. */
    (void)mensur_stopped_way(setup->string_length, c, x, &way);
    (void)mensur_stopped_frequency(string, &way, &frequency);
    workbook_value(book, "true place of the octave", "x", x, IN_LENGTH, FROM_ROOT);
    workbook_know(book, "c", c, IN_FINE_MM);
    workbook_know(book, "L", setup->string_length, IN_LENGTH);
    workbook_step(book, "stretch of stopping it there",
                  "δ = {c}²/({x mm} + √({x mm}² + {c}²)) + {c}²/(({L mm} − {x mm}) + √(({L mm} − "
                  "{x mm})² + {c}²))",
                  "c: clearance there, in mm", way.stretch, IN_FINE_MM, FROM_ROOT);
    workbook_know(book, "EA", string->stiffness, IN_NEWTONS);
    workbook_know(book, "s", string->soft_end, IN_METRES);
    workbook_know(book, "lf", string->stretch_length, IN_MM);
    workbook_know(book, "l", way.sounding, IN_METRES);
    there.stopped_high = frequency;
    workbook_figure(book, stopped, "pitch of the string stopped there", stopped->formula, FROM_ROOT,
                    &there);
}

/* The octave of a string among the true places; NULL where it has none. */
static const struct mensur_true_place *octave_of(const struct mensur_profile *profile,
                                                 const char *note) {
    for (size_t i = 0; i < profile->true_place_count; i++) {
        const struct mensur_true_place *true_place = &profile->true_places[i];
        if (strcmp(true_place->note, note) == 0 && lround(true_place->semitones) == 12) {
            return true_place;
        }
    }
    return NULL;
}

static void true_octaves(struct workbook *book, const struct setup *setup,
                         const struct mensur_profile *profile) {
    struct string_model models[MENSUR_STRINGS_MAX];
    profile_models(book->stock, setup, book->terms->fifths, models);
    for (size_t i = 0; setup->tuning != NULL && i < setup->tuning->count; i++) {
        const char *note = setup->tuning->notes[i].name;
        const struct mensur_true_place *octave = octave_of(profile, note);
        if (octave != NULL) {
            struct mensur_string_figures figures;
            string_figures(setup, &models[i], book->terms, i, &figures);
            book->of = note;
            workbook_record(book, MENSUR_SCOPE_STRING, &figures);
            const struct mensur_stopping held = string_held(setup, &figures);
            const struct mensur_stopping free_to_slide = string_free(setup, &figures);
            true_octave(book, setup, &figures, i, &held, octave->from_nut_low);
            true_octave(book, setup, &figures, i, &free_to_slide, octave->from_nut_high);
        }
    }
    book->of = NULL;
}

enum mensur_status mensur_ask_working_fingers(const struct mensur_stock *stock,
                                              const struct mensur_instrument *instrument,
                                              const struct mensur_terms *terms, bool true_places,
                                              struct mensur_fault *fault,
                                              struct mensur_working *out) {
    struct setup setup;
    struct workbook book;
    struct mensur_profile profile = {.instrument = NULL};
    unsigned parts = MENSUR_PART_FINGERS | (true_places ? (unsigned)MENSUR_PART_TRUE_PLACES : 0u);
    workbook_open(&book, stock, terms, fault);
    if (workbook_setup(&book, instrument, NULL, &setup)) {
        book.status = profile_make(stock, &setup, terms, parts, fault, &profile);
    }
    if (book.status == MENSUR_OK) {
        working_string_length(&book, &setup);
        for (size_t i = 1; i < profile.place_count; i++) {
            place(&book, &profile.places[i]);
        }
        working_frames(&book, &setup, profile.positions, profile.position_count);
        workbook_value(&book, "neck", "N", setup.value[MENSUR_FIELD_NECK], IN_LENGTH, "given");
        workbook_row(&book, MENSUR_SCOPE_INSTRUMENT, "body_at_semitones", &profile.lengths);
        true_octaves(&book, &setup, &profile);
        mensur_profile_clear(&profile);
    }
    return workbook_close(&book, out);
}
