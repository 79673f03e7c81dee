/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The decision on the neck for a given stop, or on the stop for a given neck. */
#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "letters.h"
#include "sentences.h"
#include "telling.h"

#define MOST_NOTES 5 /* of more strings only the tension in all is shown */
/* The most steps in brief, and with the wishes in a table of their own. */
#define MOST_STEPS 9
#define MOST_STEPS_BESIDE 5
#define MOST_WISHES 5 /* of more wishes the table needs the full answer */

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
    return is_ratio(want) ? mensur_show_ratio_range(&document->style, want->low, want->high)
                          : mensur_show_range(&document->style, want->kind, want->low, want->high);
}

/* So much of what a wish is about, with its unit: "1.2 mm", "0.09". */
static struct mensur_shown wish_amount(const struct mensur_document *document,
                                       const struct mensur_want *want, double amount) {
    return want->kind == MENSUR_NUMBER ? mensur_show_number(amount, 2, 7)
                                       : mensur_show_unit(&document->style, want->kind, amount);
}

/* "; now 144.0" or " (now 144.0)" where the present place is proposed and the file has another. */
static void say_before(struct mensur_document *document, const struct mensur_decision *decision,
                       const char *lead, const char *end) {
    if (decision->place_proposed && !isnan(decision->place_before)) {
        mensur_say(document, "%s%s %s%s", lead, mensur_state_word(MENSUR_STATE_NOW),
                   mensur_show_cut(&document->style, decision->place_before).text, end);
    }
}

static const char *present_word(const struct mensur_decision *decision) {
    return mensur_state_word(decision->place_proposed ? MENSUR_STATE_PROPOSED : MENSUR_STATE_NOW);
}

/* "cut the neck 150.5 mm (now 144.0, +6.5).": a plan is cut, of what is built the neck is a new one
 * and the bridge is moved. */
static void say_recommended(struct mensur_document *document,
                            const struct mensur_decision *decision) {
    const struct mensur_style *style = &document->style;
    const char *place = place_word(decision);
    double now = place_now(decision), then = decision->recommended_place;
    struct mensur_shown move = mensur_show_difference(style, MENSUR_LENGTH, then - now);
    bool built = decision->present.lengths.built == MENSUR_YES;
    if (!decision->present_known) {
        mensur_say(document, "no %s yet: usual is %l, recommended %l.", place,
                   decision->usual_place, then);
    } else if (decision->leave || move.text[strspn(move.text, "-0.")] == '\0') {
        mensur_say(document, "leave the %s as %s, %l", place,
                   decision->place_proposed ? present_word(decision) : "it is", now);
        say_before(document, decision, " (", ")");
        mensur_say(document, "%s.",
                   decision->want_count == 0  ? ""
                   : decision->want_count > 1 ? ": it meets every wish"
                                              : ": it meets the wish");
    } else {
        mensur_say(document, "%s%l (%s %s, %s",
                   decision->for_stop
                       ? (built ? "move the bridge to a stop of " : "set the stop to ")
                   : built ? "a new neck of "
                           : "cut the neck ",
                   then, present_word(decision), mensur_show_cut(style, now).text, move.text);
        say_before(document, decision, "; ", "");
        mensur_say(document, ").");
    }
}

/* "string length 368.0 to 372.0 mm gives 1.2 mm": a wish, and how much it would have to give. */
static void say_give(struct mensur_document *document, const struct mensur_want *want,
                     double give) {
    mensur_say(document, "%s %s gives %s", wish_word(want->what), wish_range(document, want).text,
               wish_amount(document, want, give).text);
}

static void tell_facts(struct mensur_document *document, const char *lead,
                       const struct mensur_facts *facts) {
    if (facts->count > 0) {
        mensur_paragraph(document, 0, "%s", lead);
        mensur_say_facts(document, facts);
        mensur_say(document, ".");
    }
}

/* All sentences of facts in one paragraph, apart by semicolons. */
static void tell_changes(struct mensur_document *document, const struct mensur_facts *facts) {
    struct mensur_texts sentences = {0};
    mensur_document_fail(document, mensur_sentences(facts, &document->style, &sentences));
    for (size_t i = 0; i < sentences.count; i++) {
        if (i == 0) {
            mensur_paragraph(document, 0, "What it changes: ");
        }
        mensur_say(document, "%s%s", sentences.items[i], i + 1 < sentences.count ? "; " : ".");
    }
    mensur_texts_clear(&sentences);
}

/* "Nearest: a neck of 149.5 mm misses neck : stop by 0.05 and string length by 2.3 mm." */
static void tell_nearest(struct mensur_document *document, const struct mensur_decision *decision) {
    const char *between = " misses ";
    if (isnan(decision->nearest_place)) {
        return;
    }
    mensur_paragraph(document, 0, "Nearest: a %s of %l", place_word(decision),
                     decision->nearest_place);
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        if (want->miss > 0.0) {
            mensur_say(document, "%s%s by %s", between, wish_word(want->what),
                       wish_amount(document, want, want->miss).text);
            between = ", ";
        }
    }
    mensur_say(document, ".");
}

static bool is_met(const struct mensur_decision *decision) {
    return decision->can_meet_all && !isnan(decision->recommended_place);
}

static void tell_headline(struct mensur_document *document,
                          const struct mensur_decision *decision) {
    mensur_paragraph(document, 0, "%n: ", decision->present.instrument);
    if (is_met(decision)) {
        say_recommended(document, decision);
    } else if (decision->reason.count > 0) {
        mensur_say_facts(document, &decision->reason);
        mensur_say(document, ".");
    } else {
        mensur_say(document, "no %s meets every wish.", place_word(decision));
    }
}

void mensur_tell_decision_words(struct mensur_document *document,
                                const struct mensur_decision *decision) {
    const struct mensur_conflict *conflict = &decision->conflict;
    tell_headline(document, decision);
    if (is_met(decision)) {
        tell_facts(document, "Why: ", &decision->reason);
    }
    if (conflict->exists) {
        mensur_paragraph(document, 0, "The least that would do: either the wish for ");
        say_give(document, &decision->wants[conflict->first], conflict->give_first);
        mensur_say(document, ", or the one for ");
        say_give(document, &decision->wants[conflict->second], conflict->give_second);
        mensur_say(document, ".");
    }
    tell_nearest(document, decision);
    tell_changes(document, &decision->changes);
    tell_facts(document, "How sure: ", &decision->how_sure);
}

static struct mensur_shown end_of(const struct mensur_document *document, double place,
                                  const char *open) {
    struct mensur_shown shown = mensur_show_cut(&document->style, place);
    if (isnan(place)) {
        strcpy(shown.text, open);
    }
    return shown;
}

/* Why it is wished, and what a single value was widened by. */
static void wish_cell(struct mensur_document *document, const struct mensur_decision *decision,
                      const struct mensur_want *want) {
    char text[2 * sizeof(struct mensur_shown)];
    if (strcmp(want->origin, "like") == 0) {
        snprintf(text, sizeof text, "like %.40s", decision->like.instrument);
    } else if (want->give > 0.0) {
        snprintf(text, sizeof text, "asked ± %s", wish_amount(document, want, want->give).text);
    } else {
        snprintf(text, sizeof text, "%s", want->origin);
    }
    mensur_cell(document, text);
}

static bool tells_wants(const struct mensur_document *document,
                        const struct mensur_decision *decision) {
    const struct mensur_want *only = decision->wants;
    return document->style.full
               ? decision->want_count > 0
               : decision->want_count <= MOST_WISHES &&
                     (decision->want_count > 1 || (decision->want_count == 1 && only->give > 0.0));
}

static void tell_wants(struct mensur_document *document, const struct mensur_decision *decision) {
    bool together = !isnan(decision->place_low) && !isnan(decision->place_high);
    if (!tells_wants(document, decision)) {
        return;
    }
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
        mensur_cells(document, 4, wish_word(want->what), wish_range(document, want).text,
                     end_of(document, want->place_low, open).text,
                     end_of(document, want->place_high, open).text);
        wish_cell(document, decision, want);
    }
    if (decision->want_count > 1) {
        mensur_row(document);
        mensur_cells(document, 5, "all together", "",
                     end_of(document, together ? decision->place_low : NAN, "none").text,
                     end_of(document, together ? decision->place_high : NAN, "none").text, "");
    }
}

/* A state of the instrument, or the one it shall be like. */
struct beside {
    enum mensur_state state;
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
    struct beside beside[MENSUR_STATE_COUNT];
    size_t count = 0;
    if (decision->has_before) {
        beside[count++] = (struct beside){MENSUR_STATE_NOW, &decision->before};
    }
    beside[count++] = (struct beside){decision->present.proposed_count > 0 ? MENSUR_STATE_PROPOSED
                                                                           : MENSUR_STATE_NOW,
                                      &decision->present};
    if (decision->has_recommended && !decision->leave) {
        beside[count++] = (struct beside){MENSUR_STATE_RECOMMENDED, &decision->recommended};
    }
    if (decision->has_like) {
        beside[count++] = (struct beside){MENSUR_STATE_MODEL, &decision->like};
    }
    if (count == 1) {
        return;
    }
    mensur_heading(document, MENSUR_HEADING_PART, "Side by side");
    if (decision->has_like) {
        mensur_paragraph(document, 0, "The model is %n.", decision->like.instrument);
    }
    mensur_table(document, MENSUR_TABLE, "What moves with the %s, side by side",
                 place_word(decision));
    mensur_column_of(document, MENSUR_CELLS_WORDS, "", NULL, 21);
    mensur_column_of(document, MENSUR_CELLS_WORDS, "", NULL, 10);
    for (size_t i = 0; i < count; i++) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, mensur_state_word(beside[i].state), NULL,
                         11);
    }
    tell_beside_rows(document, beside, count, MENSUR_SCOPE_INSTRUMENT);
    tell_beside_rows(document, beside, count, MENSUR_SCOPE_TOTAL);
}

enum { STEP_FIGURES = 5 };

/* In a full answer of each string where there are few, else of all together. */
static const struct mensur_told step_totals[] = {
    {"total_tension_N", 9, "tension", NULL, false},
    {"total_force_on_belly_N", 8, "belly", NULL, false},
};

static size_t note_count(const struct mensur_document *document,
                         const struct mensur_decision *decision) {
    size_t count = decision->present.string_count;
    return count > MOST_NOTES || !document->style.full ? 0 : count;
}

static void tell_step_columns(struct mensur_document *document,
                              const struct mensur_decision *decision) {
    const struct mensur_style *style = &document->style;
    size_t notes = note_count(document, decision);
    const struct mensur_shown base = mensur_show_number(mensur_shown_base(style), 0, 5);
    char to[sizeof base.text + 4];
    snprintf(to, sizeof to, "%s to", base.text);
    const struct mensur_told step_figures[STEP_FIGURES] = {
        {"string_length_mm", 7, "string", NULL, false}, {"stop_per_2_neck", 6, to, "", false},
        {"body_at_semitones", 5, "note", NULL, false},  {"left_reach_mm", 7, "reach", NULL, false},
        {"bow_room_mm", 6, "room", NULL, false},
    };
    mensur_column_of(document, MENSUR_CELLS_FIGURES, place_word(decision),
                     mensur_shown_unit(style, MENSUR_LENGTH), style->inches ? 9 : 7);
    mensur_tell_columns(document, MENSUR_SCOPE_STEP, step_figures, STEP_FIGURES);
    for (size_t i = 0; i < notes; i++) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, decision->present.strings[i].note,
                         mensur_shown_unit(style, MENSUR_FORCE), notes < MOST_NOTES ? 6 : 5);
    }
    if (notes == 0) {
        mensur_tell_columns(document, MENSUR_SCOPE_STEP_TOTAL, step_totals, 2);
    }
    mensur_column_behind(document, MENSUR_CELLS_MARKS, "", 1, 15);
}

static struct mensur_shown step_mark(const struct mensur_decision *decision,
                                     const struct mensur_step *step) {
    struct mensur_shown mark = {""};
    if (step->recommended || step->present) {
        snprintf(mark.text, sizeof mark.text, "<-" MENSUR_NO_BREAK "%s",
                 step->recommended && step->present ? "stays"
                 : step->recommended                ? mensur_state_word(MENSUR_STATE_RECOMMENDED)
                                                    : present_word(decision));
    }
    return mark;
}

static void tell_step(struct mensur_document *document, const struct mensur_decision *decision,
                      const struct mensur_step *step, const char *mark) {
    const struct mensur_style *style = &document->style;
    size_t notes = note_count(document, decision);
    mensur_row(document);
    mensur_cell(document, style->inches
                              ? mensur_show_cut(style, step->place).text
                              : mensur_show_within(style, MENSUR_LENGTH, step->place, 6).text);
    mensur_cells_of(document, STEP_FIGURES, step);
    for (size_t i = 0; i < notes; i++) {
        mensur_cell(document, mensur_show_within(style, MENSUR_FORCE, step->tension[i],
                                                 notes < MOST_NOTES ? 5 : 4)
                                  .text);
    }
    if (notes == 0) {
        mensur_cells_of(document, 2, step);
    }
    mensur_cell(document, mark);
}

/* The liked instrument in the columns of a step. */
static void tell_like(struct mensur_document *document, const struct mensur_decision *decision) {
    const struct mensur_profile *like = &decision->like;
    struct mensur_step step = {
        .place = decision->for_stop ? like->lengths.stop : like->lengths.neck,
        .string_length = like->lengths.string_length,
        .stop_per_2_neck = like->lengths.stop_per_2_neck,
        .body_at_semitones = like->lengths.body_at_semitones,
        .left_reach = like->lengths.left_reach,
        .bow_room = like->lengths.bow_room,
        .total_tension = like->total_tension,
        .total_force_on_belly = like->total_force_on_belly,
    };
    char mark[48];
    for (size_t i = 0; i < decision->present.string_count; i++) {
        const struct mensur_string_figures *string =
            mensur_told_string(like, decision->present.strings[i].note);
        step.tension[i] = string == NULL ? NAN : string->tension;
    }
    snprintf(mark, sizeof mark, "%.40s", like->instrument);
    tell_step(document, decision, &step, mark);
}

/* Whole millimetres that a step lies from the present place; LONG_MAX where it lies between. */
static long steps_from_present(const struct mensur_decision *decision,
                               const struct mensur_step *step) {
    double mm = (step->place - place_now(decision)) * 1000.0;
    return fabs(mm - round(mm)) < 1e-6 ? lround(mm) : LONG_MAX;
}

/* Whether a step is shown where only every so manieth is: counted from the present place, as far as
 * the recommended one (or all of it) and one beyond. */
static bool is_shown(const struct mensur_decision *decision, const struct mensur_step *step,
                     long stride) {
    double now = place_now(decision);
    double far = isnan(decision->recommended_place) ? now : decision->recommended_place;
    double beyond = (double)stride * 0.001 + 1e-9;
    long from = steps_from_present(decision, step);
    bool near =
        (step->place >= fmin(now, far) - beyond && step->place <= fmax(now, far) + beyond) ||
        decision->conflict.exists;
    return step->present || step->recommended ||
           (near && from != LONG_MAX && labs(from) % stride == 0);
}

static size_t shown_count(const struct mensur_decision *decision, long stride) {
    size_t count = 0;
    for (size_t i = 0; i < decision->step_count; i++) {
        count += is_shown(decision, &decision->steps[i], stride) ? 1 : 0;
    }
    return count;
}

static void tell_steps(struct mensur_document *document, const struct mensur_decision *decision) {
    size_t most = (tells_wants(document, decision) ? MOST_STEPS_BESIDE : MOST_STEPS) -
                  (decision->has_like ? 1u : 0u);
    bool full = document->style.full;
    long stride = 1;
    if (decision->step_count == 0 || (!full && !decision->can_meet_all)) {
        return;
    }
    while (!full && shown_count(decision, stride) > most) {
        stride++;
    }
    if (full) {
        mensur_heading(document, MENSUR_HEADING_PART, "Step by step");
    } else {
        mensur_gap(document);
    }
    mensur_table(document, MENSUR_TABLE, "What moves with the %s, step by step",
                 place_word(decision));
    tell_step_columns(document, decision);
    for (size_t i = 0; i < decision->step_count; i++) {
        const struct mensur_step *step = &decision->steps[i];
        if (full || is_shown(decision, step, stride)) {
            tell_step(document, decision, step, step_mark(decision, step).text);
        }
    }
    if (decision->has_like) {
        tell_like(document, decision);
    }
    const struct mensur_shown base = mensur_show_number(mensur_shown_base(&document->style), 0, 5);
    mensur_paragraph(document, 0,
                     "%s to: neck : stop as %s to this. Note: where the hand meets the body, in "
                     "semitones. Reach: left hand's. Room: for the bow. %s",
                     base.text, base.text,
                     note_count(document, decision) > 0 ? "Below the notes: each string's tension."
                                                        : "Belly: the force on it.");
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
    if (decision->can_meet_all && !document->style.full) {
        mensur_paragraph(document, 0,
                         "The other way: leave the %s and change the strings; --full "
                         "says which.",
                         place_word(decision));
        return;
    }
    mensur_heading(document, MENSUR_HEADING_PART, "The other way: other strings");
    mensur_paragraph(document, 0, "Leave the %s as %s, and these strings would have the tension ",
                     place_word(decision),
                     decision->place_proposed ? present_word(decision) : "it is");
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
    mensur_tell_decision_words(document, decision);
    tell_wants(document, decision);
    if (document->style.full) {
        tell_beside(document, decision);
    }
    tell_steps(document, decision);
    tell_instead(document, decision);
}

void mensur_tell_decision_made(struct mensur_document *document,
                               const struct mensur_decision *decision) {
    mensur_tell_decision_words(document, decision);
    tell_wants(document, decision);
    tell_beside(document, decision);
}

static void tell(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_decision *decision = record;
    static const struct mensur_assumptions none;
    telling_gather_profile(presenter, decision->present.instrument, &decision->present,
                           TELLING_BEHIND_BOTH | MENSUR_BEHIND_ROOM);
    if (decision->has_recommended && !decision->leave) {
        telling_gather(presenter, decision->present.instrument, &none, 0,
                       &decision->recommended.warnings);
    }
    if (decision->has_like) {
        telling_gather_profile(presenter, decision->like.instrument, &decision->like,
                               TELLING_BEHIND_BOTH);
    }
    if (!telling_is_written(presenter, MENSUR_HTML_ANSWER)) {
        tell_headline(&presenter->document, decision);
        telling_write(presenter, MENSUR_HTML_HEADLINE);
        return;
    }
    mensur_tell_decision(&presenter->document, decision);
}

static void step_row(struct mensur_csv *row, const void *answer, size_t i) {
    static const struct mensur_step none;
    const struct mensur_decision *decision = answer;
    const struct mensur_step *step = row->head ? &none : &decision->steps[i];
    mensur_csv_text(row, "instrument", decision->present.instrument);
    mensur_csv_number(row, decision->for_stop ? "stop_mm" : "neck_mm", MENSUR_LENGTH, step->place);
    mensur_csv_figures(row, MENSUR_SCOPE_STEP, step, false);
    for (size_t j = 0; j < decision->present.string_count; j++) {
        char key[32];
        snprintf(key, sizeof(key), "tension_%s_N", decision->present.strings[j].note);
        mensur_csv_number(row, key, MENSUR_FORCE, step->tension[j]);
    }
    mensur_csv_figures(row, MENSUR_SCOPE_STEP_TOTAL, step, false);
    mensur_csv_known(row, "present", step->present ? MENSUR_YES : MENSUR_NO);
    mensur_csv_known(row, "recommended", step->recommended ? MENSUR_YES : MENSUR_NO);
}

static void csv(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_decision *decision = record;
    mensur_csv_rows(presenter, step_row, decision, decision->step_count);
}

/* A length under a key that names the place decided on, such as "neck_low_mm" or "stop_low_mm". */
static void put_place(struct mensur_json *to, const struct mensur_decision *decision,
                      const char *before, const char *behind, double place) {
    char key[40];
    snprintf(key, sizeof(key), "%s%s%s", before, decision->for_stop ? "stop" : "neck", behind);
    mensur_json_number(to, key, MENSUR_LENGTH, place);
}

static void put_wants(struct mensur_json *to, const struct mensur_decision *decision) {
    mensur_json_begin(to, "wants", '[');
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        mensur_json_begin(to, NULL, '{');
        mensur_json_text(to, "what", want->what);
        mensur_json_number(to, "low", want->kind, want->low);
        mensur_json_number(to, "high", want->kind, want->high);
        mensur_json_text(to, "unit", want->unit);
        put_place(to, decision, "", "_low_mm", want->place_low);
        put_place(to, decision, "", "_high_mm", want->place_high);
        mensur_json_bool(to, "within_reach", want->within_reach);
        mensur_json_text(to, "origin", want->origin);
        mensur_json_number(to, "give", want->kind, want->give > 0.0 ? want->give : NAN);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

/* By how much the nearest place misses which wishes. */
static void put_misses(struct mensur_json *to, const struct mensur_decision *decision) {
    mensur_json_begin(to, "misses", '[');
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        if (want->miss > 0.0) {
            mensur_json_begin(to, NULL, '{');
            mensur_json_text(to, "what", want->what);
            mensur_json_number(to, "by", want->kind, want->miss);
            mensur_json_text(to, "unit", want->unit);
            mensur_json_end(to, '}');
        }
    }
    mensur_json_end(to, ']');
}

static void put_conflict(struct mensur_json *to, const struct mensur_decision *decision) {
    const struct mensur_conflict *pair = &decision->conflict;
    if (!pair->exists) {
        mensur_json_null(to, "conflict");
        return;
    }
    const struct mensur_want *first = &decision->wants[pair->first];
    const struct mensur_want *second = &decision->wants[pair->second];
    mensur_json_begin(to, "conflict", '{');
    mensur_json_text(to, "first", first->what);
    mensur_json_text(to, "second", second->what);
    put_place(to, decision, "gap_", "_mm", pair->gap);
    mensur_json_number(to, "give_first", first->kind, pair->give_first);
    mensur_json_number(to, "give_second", second->kind, pair->give_second);
    mensur_json_end(to, '}');
}

static void put_steps(struct mensur_json *to, const struct mensur_decision *decision) {
    mensur_json_begin(to, "steps", '[');
    for (size_t i = 0; i < decision->step_count; i++) {
        const struct mensur_step *step = &decision->steps[i];
        mensur_json_begin(to, NULL, '{');
        put_place(to, decision, "", "_mm", step->place);
        json_put_figures(to, MENSUR_SCOPE_STEP, step, false);
        mensur_json_begin(to, "tension_N", '[');
        for (size_t j = 0; j < decision->present.string_count; j++) {
            mensur_json_number(to, NULL, MENSUR_FORCE, step->tension[j]);
        }
        mensur_json_end(to, ']');
        json_put_figures(to, MENSUR_SCOPE_STEP_TOTAL, step, false);
        mensur_json_bool(to, "present", step->present);
        mensur_json_bool(to, "recommended", step->recommended);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

void json_decision(struct mensur_json *answer, const struct mensur_decision *decision) {
    const struct mensur_profile *present = &decision->present, *like = &decision->like;
    struct mensur_texts warnings = {0};
    put_wants(answer, decision);
    mensur_json_bool(answer, "can_meet_all", decision->can_meet_all);
    put_place(answer, decision, "", "_low_mm", decision->place_low);
    put_place(answer, decision, "", "_high_mm", decision->place_high);
    mensur_json_bool(answer, "leave", decision->leave);
    put_place(answer, decision, "recommended_", "_mm", decision->recommended_place);
    mensur_json_number(answer, "likelihood", MENSUR_NUMBER, decision->likelihood);
    mensur_json_text(answer, "measure_better",
                     decision->measure_better[0] != '\0' ? decision->measure_better : NULL);
    put_place(answer, decision, "nearest_", "_mm", decision->nearest_place);
    put_misses(answer, decision);
    put_place(answer, decision, "usual_", "_mm", decision->usual_place);
    put_place(answer, decision, "made_for_", "_low_mm", decision->made_for_place_low);
    put_place(answer, decision, "made_for_", "_high_mm", decision->made_for_place_high);
    put_place(answer, decision, "aside_", "_mm", decision->aside_place);
    json_put_sentence(answer, "reason", &decision->reason);
    put_conflict(answer, decision);
    put_place(answer, decision, "", "_low_plus_minus_mm", decision->place_low_plus_minus);
    put_place(answer, decision, "", "_high_plus_minus_mm", decision->place_high_plus_minus);
    json_put_known(answer, "too_coarse", decision->too_coarse);
    if (decision->how_sure.count == 0) {
        mensur_json_null(answer, "matters_most");
    } else {
        json_put_matters(answer, decision->matters, decision->matter_count);
    }
    put_steps(answer, decision);
    json_put_records(answer, "strings_instead", MENSUR_SCOPE_INSTEAD, decision->instead,
                     decision->instead_count, sizeof(decision->instead[0]), false);
    json_put_facts(answer, "costs", &decision->changes);
    mensur_json_begin(answer, "assumed", '[');
    json_add_assumed(answer, present->instrument, &present->assumed);
    json_add_sentences(answer, &present->warnings, &warnings);
    if (decision->has_recommended && !decision->leave) {
        json_add_sentences(answer, &decision->recommended.warnings, &warnings);
    }
    if (decision->has_like) {
        json_add_assumed(answer, like->instrument, &like->assumed);
        json_add_sentences(answer, &like->warnings, &warnings);
    }
    mensur_json_end(answer, ']');
    json_put_warnings(answer, &warnings);
}

static void json(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_decision *decision = record;
    struct mensur_json answer = json_begin_profile(presenter, &decision->present);
    json_decision(&answer, decision);
    json_end_answer(presenter, &answer);
}

static void cautions(const void *record, struct mensur_facts *cautions) {
    cautions_of_decision(record, cautions);
}

static void drawing(const void *record, struct mensur_illustration *drawing) {
    *drawing = (struct mensur_illustration){.parts = MENSUR_DRAW_WISHES | MENSUR_DRAW_SIDE,
                                            .decision = record};
}

const struct mensur_answer_kind mensur_decision_answer = {
    .sources = mensur_sources_whole,
    .cautions = cautions,
    .drawing = drawing,
    .tell = tell,
    .csv = csv,
    .json = json,
};
