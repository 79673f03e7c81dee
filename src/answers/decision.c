/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's question: which neck does this stop want, or which stop this neck? What the wishes
 * have in common, where they conflict, and the place to recommend; the table in steps; and the
 * strings that would do instead. */
#include "decision.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "change.h"
#include "figures.h"
#include "spread_decision.h"
#include "string_family.h"
#include "taut_string.h"

/* A maker marks a neck to half a millimetre. */
static const double steps_per_m = 2000.0;

/* Nearer than this two places are the same one. */
static const double same_place_m = 1e-9;

/* A place that lies nearer than this to the present one is not told beside it. */
static const double least_aside_m = 0.0005;

/* Where no uncertainty is stated and nothing is wished, inside an end by so much (ours). */
static const double unstated_m = 0.0005;

static void find_common(const struct search *search, const struct wish_list *list,
                        struct mensur_decision *decision) {
    struct ends ends = wish_list_ends(search, list);
    bool reachable = true;
    for (size_t i = 0; i < list->count; i++) {
        reachable = reachable && list->lines[i].want.within_reach;
    }
    decision->can_meet_all = reachable && ends.low <= ends.high;
    decision->place_low = decision->can_meet_all ? ends.low : NAN;
    decision->place_high = decision->can_meet_all ? ends.high : NAN;
    decision->present_known = search->present_known;
    decision->usual_place = search_usual(search);
    decision->made_for_place_low = list->has_made_for ? list->made_for.want.place_low : NAN;
    decision->made_for_place_high = list->has_made_for ? list->made_for.want.place_high : NAN;
}

/* How much a wish would have to give, in its own unit, if its end moved from `own` to `other`. */
static double give(const struct search *search, const struct wish_line *line, double own,
                   double other) {
    return fabs(search_figure(search, line->kind, line->string, other) -
                search_figure(search, line->kind, line->string, own));
}

/* Intervals on a line that have nothing in common hold a pair that has nothing in common: the one
 * that ends first and the one that begins last, which also lie farthest apart. */
static void find_conflict(const struct search *search, const struct wish_list *list,
                          struct mensur_conflict *conflict) {
    double least_high = INFINITY;
    double most_low = -INFINITY;
    for (size_t i = 0; i < list->count; i++) {
        const struct mensur_want *want = &list->lines[i].want;
        if (want->within_reach && want->place_high < least_high) {
            least_high = want->place_high;
            conflict->first = i;
        }
        if (want->within_reach && want->place_low > most_low) {
            most_low = want->place_low;
            conflict->second = i;
        }
    }
    conflict->exists = most_low > least_high && isfinite(most_low) && isfinite(least_high);
    if (conflict->exists) {
        conflict->gap = most_low - least_high;
        conflict->give_first = give(search, &list->lines[conflict->first], least_high, most_low);
        conflict->give_second = give(search, &list->lines[conflict->second], most_low, least_high);
    }
}

/* The middle of a range; NaN where a side is open. */
static double middle(double low, double high) {
    return (low + high) / 2.0;
}

/* The length to come nearest to: the middle of the made-for range, else of the length wish. */
static double best_length(const struct wish_list *list) {
    const struct mensur_want *wish = wish_list_length(list);
    double best =
        list->has_made_for ? middle(list->made_for.want.low, list->made_for.want.high) : NAN;
    return isnan(best) && wish != NULL ? middle(wish->low, wish->high) : best;
}

/* The place in the interval whose string is nearest to a length. The string grows with the place.
 */
static double place_for_length(const struct search *search, double length, struct ends ends) {
    double place = NAN;
    if (search_figure(search, MENSUR_WISH_STRING_LENGTH, 0, ends.low) >= length) {
        return ends.low;
    }
    if (search_figure(search, MENSUR_WISH_STRING_LENGTH, 0, ends.high) <= length) {
        return ends.high;
    }
    return search_place(search, MENSUR_WISH_STRING_LENGTH, 0, length, &place) == MENSUR_OK
               ? fmin(fmax(place, ends.low), ends.high)
               : NAN;
}

/* To half a millimetre, the nearest inside the interval; as it is where none lies inside. */
static double round_inside(double place, struct ends ends) {
    double below = floor(place * steps_per_m) / steps_per_m;
    double above = ceil(place * steps_per_m) / steps_per_m;
    bool below_fits = below >= ends.low && below <= ends.high;
    bool above_fits = above >= ends.low && above <= ends.high;
    if (below_fits && (!above_fits || place - below <= above - place)) {
        return below;
    }
    return above_fits ? above : place;
}

/* What lies surely inside: an end that something binds is left by its margin. Where less than half
 * a millimetre lies so the middle is all that is left. */
static struct ends draw_in(const struct search *search, struct ends ends, double margin_low,
                           double margin_high) {
    struct ends inner = {ends.low > search->low ? ends.low + margin_low : ends.low,
                         ends.high < search->high ? ends.high - margin_high : ends.high};
    double centre = middle(ends.low, ends.high);
    return inner.high - inner.low >= 1.0 / steps_per_m || !(margin_low > 0.0 || margin_high > 0.0)
               ? inner
               : (struct ends){centre, centre};
}

static double place_in(const struct search *search, struct ends whole, struct ends inner,
                       double length) {
    double place = isnan(length) ? fmin(fmax(search->present, inner.low), inner.high)
                                 : place_for_length(search, length, inner);
    /* Where there is room inside it is not rounded out of that; the middle may be. */
    return round_inside(place, inner.low < inner.high ? inner : whole);
}

/* Inside an end by two standard uncertainties; NaN, none being stated, by `unstated`. */
static double margin(double plus_minus, double unstated) {
    return isnan(plus_minus) ? unstated : COVERAGE * plus_minus;
}

/* All wishes are met somewhere: the present place is left where it meets them. */
static void choose_wished(const struct search *search, const struct wish_list *list,
                          struct mensur_decision *decision) {
    const struct ends whole = {decision->place_low, decision->place_high};
    const struct ends inner = draw_in(search, whole, margin(decision->place_low_plus_minus, 0.0),
                                      margin(decision->place_high_plus_minus, 0.0));
    double length = best_length(list);
    double place = place_in(search, whole, inner, length);
    decision->leave = decision->present_known && search->present >= whole.low - same_place_m &&
                      search->present <= whole.high + same_place_m;
    if (decision->leave && !isnan(length) && fabs(place - search->present) >= least_aside_m) {
        decision->aside_place = place;
    }
    decision->recommended_place = decision->leave ? search->present : place;
}

/* Nothing is wished: the present place where the strings are made for it, else the nearest surely
 * inside; without such a range the usual one. What is built is left. */
static void choose_unwished(const struct search *search, const struct wish_list *list,
                            struct mensur_decision *decision) {
    const struct mensur_want *made_for = &list->made_for.want;
    const struct ends whole = {fmax(search->low, made_for->place_low),
                               fmin(search->high, made_for->place_high)};
    bool within = list->has_made_for && made_for->within_reach;
    double place = search->present;
    bool keep = decision->present.lengths.built == MENSUR_YES;
    if (within && !(search->present >= whole.low && search->present <= whole.high)) {
        const struct ends inner =
            draw_in(search, whole, margin(decision->made_for_low_plus_minus, unstated_m),
                    margin(decision->made_for_high_plus_minus, unstated_m));
        place = place_in(search, whole, inner, NAN);
    } else if (!within && !isnan(decision->usual_place) &&
               fabs(decision->usual_place - search->present) >= least_aside_m) {
        place = round_inside(decision->usual_place, (struct ends){search->low, search->high});
    }
    keep = keep || fabs(place - search->present) < same_place_m;
    decision->leave = decision->present_known && keep;
    if (!decision->present_known) {
        place = round_inside(place, within ? whole : (struct ends){search->low, search->high});
    }
    decision->recommended_place = decision->leave ? search->present : place;
}

/* By how much a wish is missed at a place; 0 where it is met. */
static double miss_at(const struct search *search, const struct wish_line *line, double place) {
    double value = search_figure(search, line->kind, line->string, place);
    /* an open side, NaN, gives way */
    return fmax(fmax(line->want.low - value, value - line->want.high), 0.0);
}

/* Not all wishes are met: the place at which the one that is missed most, in neck (stop), is missed
 * least; and by how much each is missed there. A wish out of reach is nearest at an end. */
static void find_nearest(const struct search *search, const struct wish_list *list,
                         struct mensur_decision *decision) {
    struct ends ends = {search->low, search->high};
    for (size_t i = 0; i < list->count; i++) {
        const struct wish_line *line = &list->lines[i];
        double low = line->want.place_low;
        double high = line->want.place_high;
        if (!line->want.within_reach && !line->want.unmoved) {
            low = high = miss_at(search, line, search->low) <= miss_at(search, line, search->high)
                             ? search->low
                             : search->high;
        }
        ends.low = fmax(ends.low, low);
        ends.high = fmin(ends.high, high);
    }
    struct ends between = {fmin(ends.low, ends.high), fmax(ends.low, ends.high)};
    decision->nearest_place = ends.low > ends.high
                                  ? round_inside(middle(ends.low, ends.high), between)
                                  : fmin(fmax(search->present, ends.low), ends.high);
    for (size_t i = 0; i < list->count; i++) {
        decision->wants[i].miss = miss_at(search, &list->lines[i], decision->nearest_place);
    }
}

/* What the wishes point at: the middle of a length wish, or its one end. */
static double wished_length(const struct search *search, const struct wish_list *list,
                            const struct mensur_decision *decision) {
    const struct mensur_want *length = wish_list_length(list);
    double between = length == NULL ? NAN : middle(length->low, length->high);
    if (length != NULL) {
        return isnan(between) ? fmax(length->low, length->high) : between;
    }
    if (decision->has_recommended) {
        return search_figure(search, MENSUR_WISH_STRING_LENGTH, 0, decision->recommended_place);
    }
    return list->has_made_for ? middle(list->made_for.want.low, list->made_for.want.high) : NAN;
}

static void choose(const struct search *search, const struct wish_list *list,
                   struct mensur_decision *decision) {
    if (!decision->can_meet_all) {
        find_nearest(search, list, decision);
    } else if (list->count > 0) {
        choose_wished(search, list, decision);
    } else {
        choose_unwished(search, list, decision);
    }
    decision->has_recommended = !isnan(decision->recommended_place);
    decision->wished_length = wished_length(search, list, decision);
}

static const double step_m = 0.001;
enum { STEPS_BEYOND = 3 };

/* From the present place to the recommended one; without one, over the ends of the conflict. */
static struct ends find_span(const struct search *search, const struct wish_list *list,
                             const struct mensur_decision *decision) {
    double first = decision->recommended_place; /* NaN gives way */
    double last = first;
    if (decision->conflict.exists) {
        first = list->lines[decision->conflict.first].want.place_high;
        last = list->lines[decision->conflict.second].want.place_low;
    }
    return (struct ends){fmin(search->present, first), fmax(search->present, last)};
}

/* One line of the table; a place where no instrument can be made is left out of it. */
static void add_step(const struct search *search, double place, struct mensur_decision *decision) {
    struct setup setup;
    struct mensur_lengths lengths;
    if (search_setup(search, place, &setup) != MENSUR_OK) {
        return;
    }
    setup_lengths(&setup, &lengths);
    struct mensur_step *out = &decision->steps[decision->step_count++];
    *out = (struct mensur_step){.place = place,
                                .present = fabs(place - search->present) < same_place_m,
                                .recommended =
                                    fabs(place - decision->recommended_place) < same_place_m,
                                .string_length = lengths.string_length,
                                .stop_per_2_neck = lengths.stop_per_2_neck,
                                .body_at_semitones = lengths.body_at_semitones,
                                .left_reach = lengths.left_reach,
                                .bow_reach = lengths.bow_reach,
                                .bow_room = lengths.bow_room,
                                .clearance_at_board_end = lengths.clearance_at_board_end};
    out->total_tension = search_tensions(search, lengths.string_length, out->tension);
    out->total_force_on_belly = out->total_tension * lengths.down_factor;
}

/* Steps of a whole millimetre counted from the present place; a recommended place between two of
 * them is put in. */
static enum mensur_status fill_steps(const struct search *search, const struct wish_list *list,
                                     struct mensur_decision *decision) {
    struct ends span = find_span(search, list, decision);
    int first = (int)floor((span.low - search->present) / step_m + 1e-6) - STEPS_BEYOND;
    int last = (int)ceil((span.high - search->present) / step_m - 1e-6) + STEPS_BEYOND;
    decision->steps = calloc((size_t)(last - first) + 2, sizeof *decision->steps);
    if (decision->steps == NULL) {
        return MENSUR_MEMORY;
    }
    double between = decision->recommended_place; /* NaN compares false: none */
    for (int k = first; k <= last; k++) {
        double place = search->present + k * step_m;
        if (between < place - same_place_m) {
            add_step(search, between, decision);
            between = NAN;
        }
        if (fabs(between - place) < same_place_m) {
            place = between;
            between = NAN;
        }
        add_step(search, place, decision);
    }
    return MENSUR_OK;
}

/* Whether a string states the lengths that it is made for, and this is one of them. */
static bool is_made_for(const struct mensur_string_spec *spec, double length) {
    double low = spec->made_for_low.value;
    double high = spec->made_for_high.value;
    return !(isnan(low) && isnan(high)) && !(length < low) && !(length > high);
}

/* Density that string i of the tuning would have at pitch, kg/m; NaN unknown. */
static double density_here(const struct search *search, const struct mensur_string_spec *spec,
                           size_t i) {
    struct string_model model;
    string_model_make(search->stock, spec, search->terms->fifths, &model);
    double tension =
        string_model_tension(&model, search->setup->string_length, search->frequencies[i]);
    return string_model_tuned_density(&model, tension);
}

static bool same_material(const struct mensur_string_spec *one,
                          const struct mensur_string_spec *other) {
    return one != NULL && one->material != NULL && other->material != NULL &&
           strcmp(one->material, other->material) == 0;
}

/* The string of the catalogue for string i of the tuning whose density is nearest, by ratio: of
 * those with the present one's core material, where there are any, and of them those made for the
 * present length. */
static const struct mensur_string_spec *nearest_string(const struct search *search, size_t i,
                                                       double density, double *nearest_density) {
    const struct mensur_note *note = &search->setup->tuning->notes[i];
    const char *family = search->setup->family == NULL ? NULL : search->setup->family->name;
    const struct mensur_string_spec *nearest = NULL;
    int most_alike = -1;
    double least = INFINITY;
    for (size_t k = 0; k < search->stock->string_count; k++) {
        const struct mensur_string_spec *spec = &search->stock->strings[k];
        if (strcmp(spec->note.name, note->name) != 0) {
            continue;
        }
        int alike = (same_material(search->models[i].spec, spec) ? 2 : 0) +
                    (is_made_for(spec, search->setup->string_length) ? 1 : 0);
        if (alike < most_alike) {
            continue;
        }
        double here = density_here(search, spec, i);
        double off = fabs(log(here / density));
        bool nearer = off < least || (alike > most_alike && !isnan(off));
        if (nearer &&
            (spec == search->models[i].spec || string_is_for_family(search->stock, family, spec))) {
            most_alike = alike;
            least = off;
            nearest = spec;
            *nearest_density = here;
        }
    }
    return nearest;
}

/* With the neck left as it is, a string must weigh as much more as the square of the lengths to
 * have here the tension of the present one on the wished length. */
static void find_instead(const struct search *search, double wished_length, size_t i,
                         struct mensur_instead *out) {
    const struct string_model *model = &search->models[i];
    double length = search->setup->string_length;
    double here = string_model_tension(model, length, search->frequencies[i]);
    double there = string_model_tension(model, wished_length, search->frequencies[i]);
    mensur_figures_unknown(MENSUR_SCOPE_INSTEAD, out);
    out->present_linear_density = string_model_tuned_density(model, here);
    out->wished_tension = there;
    out->wished_linear_density = string_model_tuned_density(model, there);
    strcpy(out->note, search->setup->tuning->notes[i].name);
    out->present_string = model->spec == NULL ? NULL : model->spec->name;
    if (mensur_density_for_tension(length, search->frequencies[i], there,
                                   &out->needed_linear_density) == MENSUR_OK) {
        const struct mensur_string_spec *nearest =
            nearest_string(search, i, out->needed_linear_density, &out->nearest_linear_density);
        out->nearest_string = nearest == NULL ? NULL : nearest->name;
    }
}

static unsigned parts_of(const struct search *search) {
    return search->terms->place_alone ? MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS : MENSUR_PART_ALL;
}

static enum mensur_status fill_recommended(const struct search *search, struct mensur_fault *fault,
                                           struct mensur_decision *decision) {
    struct setup setup;
    enum mensur_status status = search_setup(search, decision->recommended_place, &setup);
    if (status != MENSUR_OK) {
        return status;
    }
    decision->cuts_built = decision->cuts_built || change_cuts(search->setup, &setup);
    return profile_make(search->stock, &setup, search->terms, parts_of(search), fault,
                        &decision->recommended);
}

/* What follows from how sure the ends are: the place, what would do instead, and the steps. */
static enum mensur_status fill_choice(const struct search *search, const struct wish_list *list,
                                      struct mensur_fault *fault,
                                      struct mensur_decision *decision) {
    enum mensur_status status = MENSUR_OK;
    choose(search, list, decision);
    bool place_alone = search->terms->place_alone;
    decision->instead_count = decision->leave || place_alone ? 0 : search->string_count;
    for (size_t i = 0; i < decision->instead_count; i++) {
        find_instead(search, decision->wished_length, i, &decision->instead[i]);
    }
    if (decision->has_recommended) {
        status = fill_recommended(search, fault, decision);
    }
    return status == MENSUR_OK && !place_alone ? fill_steps(search, list, decision) : status;
}

/* What the file has in place of what is proposed; it may be too little for an answer. */
static enum mensur_status fill_before(const struct search *search,
                                      struct mensur_decision *decision) {
    const struct mensur_instrument *now = search->setup->instrument, *was = now->was;
    enum mensur_field field = decision->for_stop ? MENSUR_FIELD_STOP : MENSUR_FIELD_NECK;
    struct mensur_fault unsaid = {""};
    struct setup setup;
    if (decision->present.proposed_count == 0) {
        return MENSUR_OK;
    }
    decision->place_before = was->measure[field].value;
    decision->place_proposed =
        !isnan(now->measure[field].value) &&
        !(fabs(now->measure[field].value - decision->place_before) < same_place_m);
    enum mensur_status status = setup_make(search->setup->solver, search->stock, was, NULL,
                                           search->terms->hold, &unsaid, &setup);
    if (status == MENSUR_OK) {
        status = profile_make(search->stock, &setup, search->terms, parts_of(search), &unsaid,
                              &decision->before);
    }
    decision->has_before = status == MENSUR_OK;
    decision->cuts_built = decision->has_before && change_cuts(&setup, search->setup);
    return status == MENSUR_MEMORY ? status : MENSUR_OK;
}

/* Everything about a search that is ready; the answer is filled in as far as it comes. */
static enum mensur_status decide(const struct search *search, const struct mensur_wishes *wishes,
                                 struct mensur_fault *fault, struct mensur_decision *decision) {
    struct wish_list list;
    struct setup liked;
    struct decision_spread *spread = NULL;
    enum mensur_status status = profile_make(search->stock, search->setup, search->terms,
                                             parts_of(search), fault, &decision->present);
    if (status == MENSUR_OK) {
        status = fill_before(search, decision);
    }
    if (status == MENSUR_OK && wishes->like != NULL) {
        status = setup_make(search->setup->solver, search->stock, wishes->like, NULL,
                            search->terms->hold, fault, &liked);
        if (status == MENSUR_OK) {
            status = profile_make(search->stock, &liked, search->terms, parts_of(search), fault,
                                  &decision->like);
        }
        decision->has_like = status == MENSUR_OK;
    }
    if (status == MENSUR_OK) {
        status = wish_list_make(search, wishes, &decision->present,
                                decision->has_like ? &decision->like : NULL, fault, &list);
    }
    if (status != MENSUR_OK) {
        return status;
    }
    wish_list_find(search, &list);
    decision->wants = calloc(list.count + 1, sizeof *decision->wants);
    if (decision->wants == NULL) {
        return MENSUR_MEMORY;
    }
    decision->want_count = list.count;
    for (size_t i = 0; i < list.count; i++) {
        decision->wants[i] = list.lines[i].want;
    }
    find_common(search, &list, decision);
    if (!decision->can_meet_all) {
        find_conflict(search, &list, &decision->conflict);
    }
    status =
        spread_ends(search, decision->has_like ? &liked : NULL, wishes, &list, decision, &spread);
    if (status == MENSUR_OK) {
        status = fill_choice(search, &list, fault, decision);
    }
    if (status == MENSUR_OK) {
        status = spread_chosen(spread, decision);
    }
    decision_spread_free(spread);
    return status == MENSUR_OK ? decision_facts(search, &list, decision) : status;
}

enum mensur_status mensur_ask_decision(const struct mensur_stock *stock,
                                       const struct mensur_instrument *instrument,
                                       const struct mensur_wishes *wishes, bool for_stop,
                                       const struct mensur_terms *terms, struct mensur_fault *fault,
                                       struct mensur_decision *out) {
    struct setup setup;
    struct search search;
    struct mensur_decision *decision = calloc(1, sizeof *decision); /* too large for the stack */
    if (decision == NULL) {
        return tell_memory(MENSUR_MEMORY, fault);
    }
    decision->for_stop = for_stop;
    decision->conflict.gap = NAN;
    decision->recommended_place = decision->aside_place = decision->place_before = NAN;
    decision->nearest_place = decision->likelihood = NAN;
    struct mensur_solver *solver = NULL;
    enum mensur_status status = mensur_solver_make(&solver);
    if (status == MENSUR_OK) {
        status = setup_make(solver, stock, instrument, NULL, terms->hold, fault, &setup);
    }
    if (status == MENSUR_OK) {
        status = search_make(stock, &setup, terms, for_stop, fault, &search);
    }
    if (status == MENSUR_OK) {
        status = decide(&search, wishes, fault, decision);
    }
    mensur_solver_free(solver);
    if (status != MENSUR_OK) {
        mensur_decision_clear(decision);
    } else {
        *out = *decision;
    }
    free(decision);
    return tell_memory(status, fault);
}
