/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of figures as lines, for a test of what is written about it: "figure SCOPE KEY TYPE" of
 * every published one, and "wish WORD UNIT". */
#include <stdio.h>

#include "figures.h"

static const char *const scopes[MENSUR_SCOPE_COUNT] = {
    [MENSUR_SCOPE_INSTRUMENT] = "instrument",
    [MENSUR_SCOPE_TOTAL] = "total",
    [MENSUR_SCOPE_HAND] = "hand",
    [MENSUR_SCOPE_FRETS] = "frets",
    [MENSUR_SCOPE_COMPARED] = "compared",
    [MENSUR_SCOPE_STRING] = "string",
    [MENSUR_SCOPE_PLACE] = "place",
    [MENSUR_SCOPE_POSITION] = "position",
    [MENSUR_SCOPE_TRUE_PLACE] = "true_place",
    [MENSUR_SCOPE_STEP] = "step",
    [MENSUR_SCOPE_STEP_TOTAL] = "step_total",
    [MENSUR_SCOPE_INSTEAD] = "instead",
    [MENSUR_SCOPE_CHOICE] = "choice",
    [MENSUR_SCOPE_CHOICE_TOTAL] = "choice_total",
    [MENSUR_SCOPE_WHOLE_SET] = "whole_set",
    [MENSUR_SCOPE_NEEDED] = "needed",
    [MENSUR_SCOPE_ORDER] = "order",
    [MENSUR_SCOPE_REACH] = "reach",
    [MENSUR_SCOPE_PUPIL_SIZE] = "pupil_size",
};

static const char *const types[] = {[MENSUR_FIGURE_NUMBER] = "number",
                                    [MENSUR_FIGURE_KNOWN] = "known",
                                    [MENSUR_FIGURE_POINTER] = "text",
                                    [MENSUR_FIGURE_TEXT] = "text"};

int main(void) {
    for (enum mensur_scope scope = 0; scope < MENSUR_SCOPE_COUNT; scope++) {
        struct mensur_figures figures = mensur_figures(scope);
        for (size_t i = 0; i < figures.count; i++) {
            const struct mensur_figure *figure = &figures.items[i];
            if ((figure->flags & MENSUR_FIGURE_PUBLISHED) != 0) {
                printf("figure %s %s %s\n", scopes[scope], figure->key, types[figure->type]);
            }
        }
    }
    for (enum mensur_wish_kind kind = 0; kind < MENSUR_WISH_COUNT; kind++) {
        const struct mensur_wish_info *wish = mensur_wish_info(kind);
        printf("wish %s %s\n", wish->word, wish->unit);
    }
    return 0;
}
