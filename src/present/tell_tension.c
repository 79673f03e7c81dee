/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each string: pitch, weight, tension, how near it is to breaking; and how it feels. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tell.h"

/* A string with less margin than this is near breaking (common practice, no source). */
#define NEAR_BREAKING_SEMITONES 1.0

static bool would_break(const struct mensur_string_figures *string) {
    return string->breaking_margin < 0.0;
}

static bool near_breaking(const struct mensur_string_figures *string) {
    return string->breaking_margin < NEAR_BREAKING_SEMITONES && !would_break(string);
}

static bool outside_range(const struct mensur_string_figures *string) {
    return string->in_made_for_range == MENSUR_NO;
}

static void tell_sentence(struct mensur_document *document, const struct mensur_profile *profile) {
    double length = profile->lengths.string_length;
    mensur_paragraph(document, 0, "%n: ", profile->instrument);
    if (isnan(profile->total_tension)) {
        mensur_say(document, "the tension in all is not known");
    } else {
        mensur_say(document, "%p of tension in all", profile->total_tension);
    }
    if (!isnan(profile->total_force_on_belly)) {
        mensur_say(document, ", %p on the belly", profile->total_force_on_belly);
    }
    mensur_say(document, ", on %l of string.", length);
    if (profile->set != NULL) {
        mensur_say(document, " Its set is %n", profile->set);
        if (!isnan(profile->made_for_low) || !isnan(profile->made_for_high)) {
            mensur_say(document, ", made for %s",
                       mensur_show_range(&document->style, MENSUR_LENGTH, profile->made_for_low,
                                         profile->made_for_high)
                           .text);
            mensur_say(document, length < profile->made_for_low    ? ": this string is shorter"
                                 : length > profile->made_for_high ? ": this string is longer"
                                                                   : "");
        }
        mensur_say(document, ".");
    }
}

static const struct mensur_told figures[] = {
    {"note", 5, NULL, NULL, false},
    {"string", 41, NULL, NULL, false}, /* the longest name of the demonstration has 40 letters */
    {"linear_density_g_per_m", 7, NULL, NULL, false},
    {"tension_N", 8, NULL, NULL, false},
    {"breaking_margin_semitones", 8, NULL, NULL, false},
    {"force_on_belly_N", 8, NULL, NULL, false},
};
enum { FIGURES = sizeof(figures) / sizeof(figures[0]) };

/* The first sentence says it of the whole set. */
static bool is_all_outside(const struct mensur_profile *profile) {
    double length = profile->lengths.string_length;
    return length < profile->made_for_low || length > profile->made_for_high;
}

static void tell_columns(struct mensur_document *document) {
    mensur_tell_columns(document, MENSUR_SCOPE_STRING, figures, FIGURES);
    mensur_column_behind(document, MENSUR_CELLS_MARKS, "", 1, 3);
}

static void tell_rows(struct mensur_document *document, const struct mensur_profile *profile) {
    bool full = document->style.full;
    for (size_t i = 0; i < profile->string_count; i++) {
        const struct mensur_string_figures *string = &profile->strings[i];
        bool outside = outside_range(string) && (full || !is_all_outside(profile));
        bool marked =
            would_break(string) || near_breaking(string) || outside || *string->tuned_to != '\0';
        mensur_row(document);
        mensur_cells_of(document, FIGURES, string);
        mensur_cell(document, marked ? "*" : "");
    }
}

static void tell_strings(struct mensur_document *document, const struct mensur_profile *profile) {
    const struct mensur_style *style = &document->style;
    mensur_table(document, MENSUR_TABLE, "Strings of %n", profile->instrument);
    tell_columns(document);
    tell_rows(document, profile);
    mensur_row(document);
    mensur_cells(document, 5, "all", "", "",
                 mensur_show_within(style, MENSUR_FORCE, profile->total_tension, 6).text, "");
    mensur_cell(document,
                mensur_show_within(style, MENSUR_FORCE, profile->total_force_on_belly, 6).text);
}

/* What a full answer adds: pitch, stress, and the forces in newtons. */
static void tell_more(struct mensur_document *document, const struct mensur_profile *profile) {
    static const struct mensur_told more[] = {
        {"note", 5, NULL, NULL, false},
        {"frequency_Hz", 10, NULL, NULL, false},
        {"stress_MPa", 9, NULL, NULL, false},
        {"tension_N", 10, NULL, "N", false},
        {"force_on_belly_N", 10, NULL, "N", false},
    };
    enum { BEFORE_FORCES = 3 };
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "Pitch, stress and forces of the strings of %n",
                 profile->instrument);
    mensur_tell_columns(document, MENSUR_SCOPE_STRING, more, sizeof(more) / sizeof(more[0]));
    for (size_t i = 0; i < profile->string_count; i++) {
        const struct mensur_string_figures *string = &profile->strings[i];
        mensur_row(document);
        mensur_cells_of(document, BEFORE_FORCES, string);
        mensur_cell(document, mensur_show_number(string->tension, 1, 7).text);
        mensur_cell(document, mensur_show_number(string->force_on_belly, 1, 7).text);
    }
}

/* "* Near breaking: A4, E5." for the strings of which told is true. */
static void tell_marked(struct mensur_document *document, const struct mensur_profile *profile,
                        bool (*told)(const struct mensur_string_figures *), const char *what) {
    size_t found = 0;
    for (size_t i = 0; i < profile->string_count; i++) {
        if (told(&profile->strings[i])) {
            if (found == 0) {
                mensur_paragraph(document, 2, "* %s: ", what);
            }
            mensur_say(document, found++ == 0 ? "%s" : ", %s", profile->strings[i].note);
        }
    }
    if (found > 0) {
        mensur_say(document, ".");
    }
}

/* The strings that are used for another note than their own. */
static void tell_tuned(struct mensur_document *document, const struct mensur_profile *profile) {
    size_t found = 0;
    for (size_t i = 0; i < profile->string_count; i++) {
        const struct mensur_string_figures *string = &profile->strings[i];
        if (*string->tuned_to == '\0') {
            continue;
        }
        if (found == 0) {
            mensur_paragraph(document, 2, "* Tuned to another note than its own: ");
        }
        mensur_say(document, found++ == 0 ? "%n tuned to %s" : ", %n tuned to %s", string->string,
                   string->tuned_to);
    }
    if (found > 0) {
        mensur_say(document, ".");
    }
}

static void tell_marks(struct mensur_document *document, const struct mensur_profile *profile) {
    tell_marked(document, profile, would_break, "Would break before it is in tune");
    tell_marked(document, profile, near_breaking, "Near breaking, under one semitone from it");
    tell_tuned(document, profile);
    if (document->style.full || !is_all_outside(profile)) {
        tell_marked(document, profile, outside_range,
                    "Outside the length that the string is made for");
    }
    mensur_tell_bounds(document, profile->strings, profile->string_count);
    mensur_tell_own(document, profile->strings, profile->string_count, false);
}

static const struct mensur_told feelings[] = {
    {"note", 6, NULL, NULL, false},
    {"impedance_kg_per_s", 7, NULL, "kg/s", false},
    {"bow_force_least_N", 8, NULL, NULL, true},
    {"bow_force_greatest_N", 8, NULL, NULL, true},
    {"press_force_first_N", 8, NULL, NULL, true},
    {"press_force_octave_N", 7, NULL, NULL, true},
    {"rise_low_cents", 7, NULL, "cents", false},
    {"rise_high_cents", 7, NULL, "cents", false},
};
enum { FEELINGS = sizeof(feelings) / sizeof(feelings[0]), BEFORE = 2, BEHIND = 4 };

static const struct mensur_told tunings[] = {
    {"note", 6, NULL, NULL, false},
    {"inharmonicity_high", 13, "stiff", "millionths", false},
    {"clamped_rise_cents", 8, NULL, "cents", false},
    {"highest_frequency_Hz", 10, NULL, NULL, false},
    {"stretch_mm", 9, NULL, NULL, false},
    {"cents_per_mm", 8, NULL, "cents", false},
    {"cents_per_K", 8, NULL, "cents", false},
};
enum { TUNINGS = sizeof(tunings) / sizeof(tunings[0]) };

/* To two digits, as it is known no better. */
static struct mensur_shown roughly(double value) {
    if (!(value > 0.0)) {
        return mensur_show_number(value, 0, 7);
    }
    double tens = floor(log10(value));
    double last = pow(10.0, tens - 1.0);
    return mensur_show_number(round(value / last) * last, tens < 1.0 ? 1 - (int)tens : 0, 7);
}

/* "5.8-1200"; one value where both are alike. */
static struct mensur_shown between(double low, double high) {
    struct mensur_shown least = roughly(low), most = roughly(high), both = {"?"};
    if (isnan(high)) {
        return both;
    }
    if (strcmp(least.text, most.text) == 0) {
        return most;
    }
    snprintf(both.text, sizeof(both.text), "%.6s-%.6s", least.text, most.text);
    return both;
}

static void tell_bowed(struct mensur_document *document, const struct mensur_profile *profile) {
    mensur_table(document, MENSUR_TABLE, "How the strings of %n feel", profile->instrument);
    mensur_tell_columns(document, MENSUR_SCOPE_STRING, feelings, FEELINGS);
    for (size_t i = 0; i < profile->string_count; i++) {
        const struct mensur_string_figures *string = &profile->strings[i];
        const double bow[] = {string->bow_force_least, string->bow_force_greatest};
        mensur_row(document);
        mensur_cells_of(document, BEFORE, string);
        for (size_t k = 0; k < 2; k++) {
            double shown = mensur_shown_value(&document->style, MENSUR_FORCE, bow[k]);
            mensur_cell(document, roughly(shown).text);
        }
        mensur_cells_of(document, BEHIND, string);
    }
    if (document->explain) {
        mensur_paragraph(
            document, 0,
            "Wave: how hard the string is to set moving (wave impedance). Bow min and max: the "
            "least force that keeps a note going and the greatest before it scratches. Press 2, at "
            "12: force to stop it two semitones from the nut, and at the octave. Rise: how much "
            "stopping at the octave sharpens it, from free at nut and bridge to held there. ? is "
            "not known%s.",
            mensur_style_names_options(&document->style) ? "; bow min asks for --bridge-resistance"
                                                         : "");
    }
}

static void tell_tuning(struct mensur_document *document, const struct mensur_profile *profile) {
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "How the strings of %n are tuned", profile->instrument);
    mensur_tell_columns(document, MENSUR_SCOPE_STRING, tunings, TUNINGS);
    for (size_t i = 0; i < profile->string_count; i++) {
        const struct mensur_string_figures *string = &profile->strings[i];
        mensur_row(document);
        mensur_cells_of(document, 1, string);
        mensur_cell(
            document,
            between(string->inharmonicity_low * 1e6, string->inharmonicity_high * 1e6).text);
        mensur_cell(document, mensur_show_number(string->clamped_rise_cents, 1, 7).text);
        mensur_cell(document, mensur_show_number(string->highest_frequency, 1, 9).text);
        mensur_cells_of(document, 1, string);
        mensur_cell(document, mensur_show_number(string->cents_per_mm, 0, 7).text);
        mensur_cells_of(document, 1, string);
    }
    if (document->explain) {
        mensur_paragraph(
            document, 0,
            "Stiff: inharmonicity B, how far the overtones stand too sharp, in millionths, from "
            "strands that slide on each other to one piece wound with coils. Ends: how much higher "
            "it sounds at most, were nut and bridge clamps. Highest: the pitch that the core bears "
            "on this length. Stretch: drawn from slack to pitch. By mm: how much it "
            "rises for each millimetre drawn. By K: for each kelvin that it and the instrument "
            "grow warmer, half as much again while the string alone is warm (steel; gut and "
            "synthetics follow the air's damp more than its warmth).");
    }
}

static void tell_feel(struct mensur_document *document, const struct mensur_profile *profile) {
    mensur_heading(document, MENSUR_HEADING_PART, "How the strings feel");
    tell_bowed(document, profile);
    tell_tuning(document, profile);
}

/* What the strings do to belly and neck, where no assumed place stands for a measured one. */
static void tell_loads(struct mensur_document *document, const struct mensur_profile *profile) {
    const struct mensur_figure *foot =
        mensur_figure_named(MENSUR_SCOPE_TOTAL, "force_on_treble_foot_N");
    bool feet =
        !isnan(profile->force_on_treble_foot) && !mensur_told_as_assumed(foot, &profile->assumed);
    if (!feet && isnan(profile->neck_moment)) {
        return;
    }
    mensur_paragraph(document, 0, "%s",
                     feet ? "The bridge's treble foot presses the belly with " : "");
    if (feet) {
        mensur_say(document, "%p, the bass foot with %p. ", profile->force_on_treble_foot,
                   profile->force_on_bass_foot);
    }
    if (!isnan(profile->neck_moment)) {
        mensur_say(document, "The strings bend the neck at its root with %s N m.",
                   mensur_show_number(profile->neck_moment, 2, 8).text);
    }
}

static const char margin_words[] = "Margin: semitones (st) to breaking. Belly: the force on it.";

void mensur_tell_tension(struct mensur_document *document, const struct mensur_profile *profile) {
    tell_sentence(document, profile);
    mensur_gap(document);
    tell_strings(document, profile);
    tell_marks(document, profile);
    if (document->explain) {
        mensur_paragraph(document, 0, "%s", margin_words);
    }
    if (document->style.full) {
        tell_more(document, profile);
        tell_loads(document, profile);
    }
    mensur_tell_spread(document, profile->instrument, profile->spread, MENSUR_SURE_STRINGS);
    if (document->style.feel) {
        tell_feel(document, profile);
    }
}

void mensur_tell_tension_of_two(struct mensur_document *document, const struct mensur_profile *one,
                                const struct mensur_profile *two) {
    const struct mensur_profile *const of[] = {one, two};
    tell_sentence(document, one);
    tell_sentence(document, two);
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "Strings of %n and %n", one->instrument, two->instrument);
    tell_columns(document);
    for (size_t k = 0; k < 2; k++) {
        mensur_row(document);
        mensur_cells(document, 2, "", of[k]->instrument);
        tell_rows(document, of[k]);
    }
    for (size_t k = 0; k < 2; k++) {
        tell_marks(document, of[k]);
    }
    mensur_paragraph(document, 0, "%s", margin_words);
    for (size_t k = 0; k < 2; k++) {
        mensur_tell_spread(document, of[k]->instrument, of[k]->spread, MENSUR_SURE_STRINGS);
    }
}
