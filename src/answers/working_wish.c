/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of one wish at one place: the figure that it is about, from the nut on. */
#include "working_wish.h"

#include <math.h>
#include <string.h>

#include "figures.h"
#include "taut_string.h"

/* The wish that a want's name stands for. */
enum mensur_wish_kind working_wish_kind(const struct mensur_want *want) {
    enum mensur_wish_kind kind;
    (void)mensur_wish_of(want->what, &kind);
    return kind;
}

static size_t string_of(const struct search *search, const struct mensur_want *want) {
    for (size_t i = 0; i < search->string_count; i++) {
        if (strcmp(search->setup->tuning->notes[i].name, want->what + strlen("tension ")) == 0) {
            return i;
        }
    }
    return 0;
}

/* The pull of string i on an instrument whose string length is told. */
static void pull(struct workbook *book, const struct search *search, const struct setup *setup,
                 size_t i) {
    const struct string_model *model = &search->models[i];
    double length = setup->string_length;
    double tension = string_model_tension(model, length, search->frequencies[i]);
    book->of = search->setup->tuning->notes[i].name;
    workbook_know(book, "L", length, IN_METRES);
    workbook_know(book, "f", search->frequencies[i], IN_HERTZ);
    workbook_know(book, "μ", string_model_tuned_density(model, tension), IN_KG_PER_M);
    workbook_step(book, "pull", "T = 4·{L}²·{f}²·{μ}", "in m, Hz and kg/m", tension, IN_NEWTONS,
                  FROM_MERSENNE);
    workbook_know(book, "L", length, IN_LENGTH);
    book->of = NULL;
}

static double all_pulls(struct workbook *book, const struct search *search,
                        const struct setup *setup) {
    struct mensur_string_figures figures[MENSUR_STRINGS_MAX];
    double sum = 0.0;
    for (size_t i = 0; i < search->string_count; i++) {
        figures[i].tension =
            string_model_tension(&search->models[i], setup->string_length, search->frequencies[i]);
        figures[i].force_on_belly = figures[i].tension * setup->geometry.down_factor;
        sum += figures[i].tension;
        pull(book, search, setup, i);
    }
    workbook_know(book, "T_all", sum, IN_NEWTONS);
    working_totals(book, figures, search->string_count);
    return sum;
}

/* The figure of a wish on an instrument whose neck or stop has been moved. */
void working_wish(struct workbook *book, const struct search *search, const struct setup *setup,
                  const struct mensur_want *want) {
    const enum mensur_wish_kind kind = working_wish_kind(want);
    double value = NAN;
    if (kind != MENSUR_WISH_RATIO) {
        working_points(book, setup);
    }
    switch (kind) {
    case MENSUR_WISH_RATIO:
        (void)mensur_stop_per_2_neck(setup->view.stop, setup->view.neck, &value);
        workbook_step(book, "neck : stop as 2 to", "stop_per_2_neck = 2·{S}/{N}", NULL, value,
                      IN_NUMBER, FROM_TRADE);
        break;
    case MENSUR_WISH_BODY_NOTE:
        (void)mensur_body_at_semitones(setup->string_length, setup->view.neck, &value);
        workbook_step(book, "note at which the hand meets the body",
                      "body_note = 12·log2({L}/({L} − {N}))", "above the open string", value,
                      IN_SEMITONES, "pitch goes as 1/length");
        break;
    case MENSUR_WISH_LEFT_REACH:
        workbook_step(book, "left reach", "left_reach = {body_straight} − {nut.x}", NULL,
                      setup_left_reach(setup), IN_LENGTH, FROM_GEOMETRY);
        break;
    case MENSUR_WISH_TENSION:
        pull(book, search, setup, string_of(search, want));
        break;
    case MENSUR_WISH_TOTAL_TENSION:
    case MENSUR_WISH_BELLY_FORCE:
        workbook_value(book, "down factor", "down", setup->geometry.down_factor, IN_NUMBER,
                       FROM_GEOMETRY);
        (void)all_pulls(book, search, setup);
        break;
    case MENSUR_WISH_STRING_LENGTH:
        break;
    }
}
