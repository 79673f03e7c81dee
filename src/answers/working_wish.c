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
    struct mensur_string_figures figures = {.tension = tension};
    book->of = search->setup->tuning->notes[i].name;
    workbook_know(book, "L", length, IN_LENGTH);
    workbook_know(book, "f", search->frequencies[i], IN_HERTZ);
    workbook_know(book, "μ", string_model_tuned_density(model, tension), IN_KG_PER_M);
    workbook_row(book, MENSUR_SCOPE_STRING, "tension_N", &figures);
    book->of = NULL;
}

static void all_pulls(struct workbook *book, const struct search *search,
                      const struct setup *setup) {
    struct mensur_string_figures figures[MENSUR_STRINGS_MAX];
    for (size_t i = 0; i < search->string_count; i++) {
        figures[i].tension =
            string_model_tension(&search->models[i], setup->string_length, search->frequencies[i]);
        figures[i].force_on_belly = figures[i].tension * setup->geometry.down_factor;
        pull(book, search, setup, i);
    }
    working_totals(book, figures, search->string_count);
}

/* The figure of a wish on an instrument whose neck or stop has been moved. */
void working_wish(struct workbook *book, const struct search *search, const struct setup *setup,
                  const struct mensur_want *want) {
    const enum mensur_wish_kind kind = working_wish_kind(want);
    struct mensur_lengths lengths;
    setup_lengths(setup, &lengths);
    if (kind != MENSUR_WISH_RATIO) {
        working_points(book, setup);
    }
    switch (kind) {
    case MENSUR_WISH_RATIO:
    case MENSUR_WISH_BODY_NOTE:
    case MENSUR_WISH_LEFT_REACH:
        workbook_row(book, MENSUR_SCOPE_INSTRUMENT, mensur_wish_info(kind)->key, &lengths);
        break;
    case MENSUR_WISH_TENSION:
        pull(book, search, setup, string_of(search, want));
        break;
    case MENSUR_WISH_TOTAL_TENSION:
    case MENSUR_WISH_BELLY_FORCE:
        workbook_value(book, "down factor", "down", setup->geometry.down_factor, IN_NUMBER,
                       FROM_GEOMETRY);
        all_pulls(book, search, setup);
        break;
    case MENSUR_WISH_STRING_LENGTH:
        break;
    }
}
