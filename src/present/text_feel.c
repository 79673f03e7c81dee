/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the strings feel under the bow and the fingers. */
#include <string.h>

#include "text.h"

#define COLUMNS 10

static void write_string(const struct mensur_table *table, const struct mensur_style *style,
                         const struct mensur_string_figures *string) {
    struct mensur_shown impedance = mensur_show_number(string->impedance, 3, 6);
    struct mensur_shown stiffness = mensur_show_number(string->inharmonicity * 1e6, 1, 8);
    struct mensur_shown least = mensur_show_finer(style, MENSUR_FORCE, string->bow_force_least);
    struct mensur_shown most = mensur_show_finer(style, MENSUR_FORCE, string->bow_force_greatest);
    struct mensur_shown first = mensur_show_finer(style, MENSUR_FORCE, string->press_force_first);
    struct mensur_shown octave = mensur_show_finer(style, MENSUR_FORCE, string->press_force_octave);
    struct mensur_shown low = mensur_show_number(string->rise_low_cents, 1, 6);
    struct mensur_shown high = mensur_show_number(string->rise_high_cents, 1, 6);
    struct mensur_shown top = mensur_show_number(string->highest_frequency, 1, 9);
    const char *cells[COLUMNS] = {string->note, impedance.text, stiffness.text, top.text,
                                  least.text,   most.text,      first.text,     octave.text,
                                  low.text,     high.text};
    mensur_table_row(table, cells);
}

static void explain(struct mensur_presenter *presenter) {
    mensur_paragraph(
        &presenter->out, 0, 0,
        "Wave: how hard the string is to set moving (wave impedance). Stiff: inharmonicity B, how "
        "far the overtones stand too sharp, in millionths. Highest: the pitch that the core bears "
        "on this length. Bow min and max: the least force that starts the note and the greatest "
        "before it scratches. Press 2, at 12: force to stop it two semitones from the nut, and at "
        "the octave. Rise: how much stopping at the octave sharpens it, from free at nut and "
        "bridge to held there. ? is not known; bow min asks for --bridge-resistance.");
}

void mensur_text_feel(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    const char *unit = mensur_shown_unit(&presenter->style, MENSUR_FORCE);
    const struct mensur_table_column columns[COLUMNS] = {
        {{"", "note"}, 6, true},
        {{"wave", "kg/s"}, 7, false},
        {{"stiff", "millionths"}, 11, false},
        {{"highest", "Hz"}, 10, false},
        {{"bow min", unit}, 8, false},
        {{"bow max", unit}, 8, false},
        {{"press 2", unit}, 8, false},
        {{"at 12", unit}, 7, false},
        {{"rise", "cents"}, 7, false},
        {{"to", "cents"}, 7, false},
    };
    struct mensur_table table = {&presenter->out, columns, COLUMNS};
    mensur_text_title(presenter, "How the strings feel");
    mensur_table_head(&table);
    for (size_t i = 0; i < profile->string_count; i++) {
        write_string(&table, &presenter->style, &profile->strings[i]);
    }
    if (presenter->answers == 0) {
        explain(presenter);
    }
}
