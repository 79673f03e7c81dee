/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The decision on the neck for a given stop, or on the stop for a given neck. */
#include <math.h>
#include <string.h>

#include "letters.h"
#include "tell.h"

#define MOST_NOTES 5  /* of more strings only the tension in all is shown */
#define MOST_STEPS 24 /* of more steps only every second, third ... is shown */

static double place_now(const struct mensur_decision *decision) {
    const struct mensur_lengths *lengths = &decision->present.lengths;
    return decision->for_stop ? lengths->stop : lengths->neck;
}

static const char *place_word(const struct mensur_decision *decision) {
    return decision->for_stop ? "stop" : "neck";
}

/* A wish's name in the trade's words. */
static const char *wish_word(const char *what) {
    enum mensur_wish_kind kind;
    return mensur_wish_of(what, &kind)[0] == '\0' ? mensur_wish_figure(kind)->label : what;
}

static bool is_ratio(const struct mensur_want *want) {
    enum mensur_wish_kind kind;
    (void)mensur_wish_of(want->what, &kind);
    return (mensur_wish_figure(kind)->flags & MENSUR_FIGURE_RATIO) != 0;
}

static struct mensur_shown wish_range(const struct mensur_document *document,
                                      const struct mensur_want *want) {
    return is_ratio(want) ? mensur_show_ratio_range(want->low, want->high)
                          : mensur_show_range(&document->style, want->kind, want->low, want->high);
}

/* "cut the neck 150.5 mm (now 144.0, +6.5)." */
static void say_recommended(struct mensur_document *document,
                            const struct mensur_decision *decision) {
    const struct mensur_style *style = &document->style;
    double now = place_now(decision), then = decision->recommended_place;
    struct mensur_shown move = mensur_show_difference(style, MENSUR_LENGTH, then - now);
    if (move.text[strspn(move.text, "-0.")] == '\0') {
        mensur_say(document, "leave the %s as it is, %l.", place_word(decision), now);
    } else {
        mensur_say(document, "%s%l (now %s, %s).",
                   decision->for_stop ? "set the stop to " : "cut the neck ", then,
                   mensur_show(style, MENSUR_LENGTH, now).text, move.text);
    }
}

/* "string length 368.0 to 372.0 mm gives 1.2 mm": a wish, and how much it would have to give. */
static void say_give(struct mensur_document *document, const struct mensur_want *want,
                     double give) {
    mensur_say(document, "%s %s gives %s", wish_word(want->what), wish_range(document, want).text,
               want->kind == MENSUR_NUMBER
                   ? mensur_show_number(give, 2, 7).text
                   : mensur_show_unit(&document->style, want->kind, give).text);
}

static void tell_facts(struct mensur_document *document, const char *lead,
                       const struct mensur_facts *facts) {
    if (facts->count > 0) {
        mensur_paragraph(document, 0, "%s", lead);
        mensur_say_facts(document, facts);
        mensur_say(document, ".");
    }
}

static void tell_words(struct mensur_document *document, const struct mensur_decision *decision) {
    const struct mensur_conflict *conflict = &decision->conflict;
    bool met = decision->can_meet_all && !isnan(decision->recommended_place);
    mensur_paragraph(document, 0, "%n: ", decision->present.instrument);
    if (met) {
        say_recommended(document, decision);
    } else if (decision->reason.count > 0) {
        mensur_say_facts(document, &decision->reason);
        mensur_say(document, ".");
    } else {
        mensur_say(document, "no %s meets every wish.", place_word(decision));
    }
    if (met) {
        tell_facts(document, "Why: ", &decision->reason);
    }
    if (conflict->exists) {
        mensur_paragraph(document, 0, "The least that would do: either the wish for ");
        say_give(document, &decision->wants[conflict->first], conflict->give_first);
        mensur_say(document, ", or the one for ");
        say_give(document, &decision->wants[conflict->second], conflict->give_second);
        mensur_say(document, ".");
    }
    if (decision->costs.count > 0) {
        mensur_paragraph(document, 0, "What it costs the player:");
    }
    mensur_points(document, &decision->costs);
    tell_facts(document, "How sure: ", &decision->how_sure);
}

static struct mensur_shown end_of(const struct mensur_document *document, double place,
                                  const char *open) {
    struct mensur_shown shown = mensur_show(&document->style, MENSUR_LENGTH, place);
    if (isnan(place)) {
        strcpy(shown.text, open);
    }
    return shown;
}

static void tell_wants(struct mensur_document *document, const struct mensur_decision *decision) {
    bool together = !isnan(decision->place_low) && !isnan(decision->place_high);
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "The wishes, and what each allows");
    mensur_column_of(document, MENSUR_CELLS_WORDS, "wish", NULL, 21);
    mensur_column_of(document, MENSUR_CELLS_WORDS, "wanted", NULL, 24);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, place_word(decision),
                     document->style.inches ? "from in" : "from mm", 8);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, place_word(decision),
                     document->style.inches ? "to in" : "to mm", 8);
    mensur_column_behind(document, MENSUR_CELLS_WORDS, "why", 2, 19);
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        const char *open = want->within_reach ? "any" : "none";
        mensur_row(document);
        mensur_cells(document, 5, wish_word(want->what), wish_range(document, want).text,
                     end_of(document, want->place_low, open).text,
                     end_of(document, want->place_high, open).text,
                     want->origin != NULL ? want->origin : "");
    }
    mensur_row(document);
    mensur_cells(document, 5, "all together", "",
                 end_of(document, together ? decision->place_low : NAN, "none").text,
                 end_of(document, together ? decision->place_high : NAN, "none").text, "");
}

/* As it is, as recommended, and the instrument it shall be like; some may be missing. */
struct beside {
    const char *head;
    const struct mensur_profile *profile;
};

static double beside_value(const struct beside *beside, enum mensur_scope scope,
                           const struct mensur_figure *figure) {
    return mensur_figure_value(figure, mensur_told_record(beside->profile, scope, ""));
}

static void tell_beside_rows(struct mensur_document *document, const struct beside *beside,
                             size_t count, enum mensur_scope scope) {
    const struct mensur_figure *figure;
    for (size_t i = 0; (figure = mensur_figure_told(scope, i)) != NULL; i++) {
        size_t known = 0;
        for (size_t j = 0; j < count; j++) {
            known += isnan(beside_value(&beside[j], scope, figure)) ? 0 : 1;
        }
        if (known == 0 ||
            (scope == MENSUR_SCOPE_INSTRUMENT && (figure->flags & MENSUR_FIGURE_MOVES) == 0)) {
            continue;
        }
        mensur_row(document);
        mensur_cells(document, 2, figure->label, mensur_shown_unit(&document->style, figure->kind));
        for (size_t j = 0; j < count; j++) {
            double value = beside_value(&beside[j], scope, figure);
            mensur_cell(document, mensur_figure_show(figure, &document->style, value).text);
        }
    }
}

static void tell_beside(struct mensur_document *document, const struct mensur_decision *decision) {
    struct beside beside[3] = {{"as it is", &decision->present}};
    size_t count = 1;
    if (decision->has_recommended) {
        beside[count++] = (struct beside){"best", &decision->recommended};
    }
    if (decision->has_like) {
        beside[count++] = (struct beside){"like", &decision->like};
    }
    if (count == 1) {
        return;
    }
    mensur_heading(document, MENSUR_HEADING_PART, "Side by side");
    if (decision->has_like) {
        mensur_paragraph(document, 0, "Like is %n.", decision->like.instrument);
    }
    mensur_table(document, MENSUR_TABLE, "What moves with the %s, side by side",
                 place_word(decision));
    mensur_column_of(document, MENSUR_CELLS_WORDS, "", NULL, 21);
    mensur_column_of(document, MENSUR_CELLS_WORDS, "", NULL, 10);
    for (size_t i = 0; i < count; i++) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, beside[i].head, NULL, 11);
    }
    tell_beside_rows(document, beside, count, MENSUR_SCOPE_INSTRUMENT);
    tell_beside_rows(document, beside, count, MENSUR_SCOPE_TOTAL);
}

static const struct mensur_told step_figures[] = {
    {"string_length_mm", 8, "string", NULL, false}, {"stop_per_2_neck", 6, "2 to", "", false},
    {"body_at_semitones", 6, "note", NULL, false},  {"left_reach_mm", 8, "reach", NULL, false},
    {"bow_room_mm", 6, "room", NULL, false},
};
enum { STEP_FIGURES = sizeof(step_figures) / sizeof(step_figures[0]) };

/* Of each string where there are few, else of all together. */
static const struct mensur_told step_total = {"total_tension_N", 8, "tension", NULL, false};

static size_t note_count(const struct mensur_decision *decision) {
    size_t count = decision->present.string_count;
    return count > MOST_NOTES ? 0 : count;
}

static void tell_step_columns(struct mensur_document *document,
                              const struct mensur_decision *decision) {
    const struct mensur_style *style = &document->style;
    size_t notes = note_count(decision);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, place_word(decision),
                     mensur_shown_unit(style, MENSUR_LENGTH), 7);
    mensur_tell_columns(document, MENSUR_SCOPE_STEP, step_figures, STEP_FIGURES);
    for (size_t i = 0; i < notes; i++) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, decision->present.strings[i].note,
                         mensur_shown_unit(style, MENSUR_FORCE), notes < MOST_NOTES ? 7 : 6);
    }
    if (notes == 0) {
        mensur_tell_columns(document, MENSUR_SCOPE_STEP_TOTAL, &step_total, 1);
    }
    mensur_column_behind(document, MENSUR_CELLS_MARKS, "", 1, 9);
}

static const char *step_mark(const struct mensur_step *step) {
    if (step->recommended) {
        return step->present ? "<-" MENSUR_NO_BREAK "stays" : "<-" MENSUR_NO_BREAK "best";
    }
    return step->present ? "<-" MENSUR_NO_BREAK "now" : "";
}

static void tell_step(struct mensur_document *document, const struct mensur_decision *decision,
                      const struct mensur_step *step) {
    const struct mensur_style *style = &document->style;
    size_t notes = note_count(decision);
    mensur_row(document);
    mensur_cell(document, mensur_show_within(style, MENSUR_LENGTH, step->place, 6).text);
    mensur_cells_of(document, STEP_FIGURES, step);
    for (size_t i = 0; i < notes; i++) {
        mensur_cell(document, mensur_show_within(style, MENSUR_FORCE, step->tension[i],
                                                 notes < MOST_NOTES ? 6 : 5)
                                  .text);
    }
    if (notes == 0) {
        mensur_cells_of(document, 1, step);
    }
    mensur_cell(document, step_mark(step));
}

static void tell_steps(struct mensur_document *document, const struct mensur_decision *decision) {
    size_t stride = (decision->step_count + MOST_STEPS - 1) / MOST_STEPS;
    if (decision->step_count == 0) {
        return;
    }
    mensur_heading(document, MENSUR_HEADING_PART, "Step by step");
    mensur_table(document, MENSUR_TABLE, "What moves with the %s, step by step",
                 place_word(decision));
    tell_step_columns(document, decision);
    for (size_t i = 0; i < decision->step_count; i++) {
        const struct mensur_step *step = &decision->steps[i];
        if (i % stride == 0 || step->present || step->recommended) {
            tell_step(document, decision, step);
        }
    }
    mensur_paragraph(document, 0,
                     "2 to: neck : stop as 2 to this. Note: where the hand meets the body, in "
                     "semitones (st) above the open string. Reach: lower end of the body to the "
                     "nut. Room: between the board's end and the bridge, for the bow. Below the "
                     "notes: the tension of each string.");
}

static void tell_instead(struct mensur_document *document, const struct mensur_decision *decision) {
    static const struct mensur_told figures[] = {
        {"note", 6, NULL, NULL, false},
        {"present_linear_density_g_per_m", 9, NULL, NULL, false},
        {"needed_linear_density_g_per_m", 9, NULL, NULL, false},
        {"nearest_linear_density_g_per_m", 9, NULL, NULL, false},
    };
    if (decision->instead_count == 0) {
        return;
    }
    mensur_heading(document, MENSUR_HEADING_PART, "The other way: other strings");
    mensur_paragraph(document, 0,
                     "Leave the %s as it is, and these strings would have the tension ",
                     place_word(decision));
    if (!isnan(decision->wished_length)) {
        mensur_say(document, "of the present ones on %l:", decision->wished_length);
    } else {
        mensur_say(document, "that is wished:");
    }
    mensur_table(document, MENSUR_TABLE, "Strings instead");
    mensur_tell_columns(document, MENSUR_SCOPE_INSTEAD, figures, 4);
    mensur_column_behind(document, MENSUR_CELLS_NAMES,
                         mensur_figure_named(MENSUR_SCOPE_INSTEAD, "nearest_string")->label, 2, 47);
    for (size_t i = 0; i < decision->instead_count; i++) {
        const struct mensur_instead *instead = &decision->instead[i];
        mensur_row(document);
        mensur_cells_of(document, 4, instead);
        mensur_cell(document, instead->nearest_string != NULL ? instead->nearest_string
                                                              : "(none in the catalogue)");
    }
}

void mensur_tell_decision(struct mensur_document *document,
                          const struct mensur_decision *decision) {
    tell_words(document, decision);
    tell_wants(document, decision);
    tell_beside(document, decision);
    tell_steps(document, decision);
    tell_instead(document, decision);
}
