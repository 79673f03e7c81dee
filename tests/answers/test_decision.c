/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The decision held against a walk along the neck: every place of a fine grid is tried by the
 * change question, which shares no search with the decision, and each wish must be met exactly
 * inside its interval. */
#include <gsl/gsl_rng.h>

#include "demo.h"
#include "said.h"

enum { GRID = 60, CASES = 40 };

static double figure(const struct mensur_profile *p, const struct mensur_want *want) {
    const char *what = want->what;
    if (strcmp(what, "string_length") == 0) {
        return p->lengths.string_length;
    }
    if (strcmp(what, "ratio") == 0) {
        return p->lengths.stop_per_2_neck;
    }
    if (strcmp(what, "body_note") == 0) {
        return p->lengths.body_at_semitones;
    }
    if (strcmp(what, "left_reach") == 0) {
        return p->lengths.left_reach;
    }
    if (strcmp(what, "total_tension") == 0) {
        return p->total_tension;
    }
    if (strcmp(what, "belly_force") == 0) {
        return p->total_force_on_belly;
    }
    for (size_t i = 0; i < p->string_count; i++) {
        if (strcmp(what + strlen("tension "), p->strings[i].note) == 0) {
            return p->strings[i].tension;
        }
    }
    fail_msg("unknown wish %s", what);
    return NAN;
}

/* The instrument with its neck (stop) at a place, asked for as a maker would. False where no such
 * instrument can be: the board, which stays, would reach past a bridge come so near. */
static bool at_place(const struct demo *demo, const struct mensur_instrument *instrument,
                     bool for_stop, double place, struct mensur_comparison *out) {
    struct mensur_change change = {.field = for_stop ? MENSUR_FIELD_STOP : MENSUR_FIELD_NECK,
                                   .value = {place, 0}};
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_change(&demo->shop.stock, instrument, &change, 1, &demo->terms, &fault, out);
    if (status == MENSUR_NO_ANSWER) {
        return false;
    }
    check_status(fault.text, status, MENSUR_OK);
    return true;
}

/* Inside the interval the wish is met, outside it is not; 1e-9 m beside an end either will do. */
static void check_want(const struct mensur_want *want, double place, double value) {
    if (want->unmoved) { /* 0.4 mm over 80 mm of stop are nothing to decide by */
        return;
    }
    bool met = !(value < want->low) && !(value > want->high);
    bool inside = want->within_reach && !(place < want->place_low) && !(place > want->place_high);
    bool at_end = fabs(place - want->place_low) < 1e-9 || fabs(place - want->place_high) < 1e-9;
    if (met != inside && !at_end) {
        print_error("%s %.6g..%.6g: %.9g at %.6f, interval %.6f..%.6f\n", want->what, want->low,
                    want->high, value, place, want->place_low, want->place_high);
        fail();
    }
}

static void check_walk(const struct demo *demo, const struct mensur_instrument *instrument,
                       const struct mensur_decision *decision) {
    int tried = 0;
    double present =
        instrument->measure[decision->for_stop ? MENSUR_FIELD_STOP : MENSUR_FIELD_NECK].value;
    for (int k = 1; k < GRID; k++) {
        double place = present * (0.5 + (double)k / GRID);
        if (decision->for_stop && place > 0.9 * decision->present.lengths.body_straight) {
            continue;
        }
        struct mensur_comparison c;
        if (!at_place(demo, instrument, decision->for_stop, place, &c)) {
            continue;
        }
        for (size_t i = 0; i < decision->want_count; i++) {
            check_want(&decision->wants[i], place, figure(&c.instruments[1], &decision->wants[i]));
        }
        mensur_comparison_clear(&c);
        tried++;
    }
    assert_true(tried > GRID / 2);
}

/* Two standard uncertainties inside an end that a wish binds. */
static double margin(double plus_minus) {
    return isnan(plus_minus) ? 0 : 2 * plus_minus;
}

/* The present place is left where it lies inside. Else the recommended one lies as surely inside as
 * there is room, and no half millimetre there gives a better string. */
static void check_recommended(const struct demo *demo, const struct mensur_instrument *instrument,
                              const struct mensur_decision *d) {
    double present = instrument->measure[d->for_stop ? MENSUR_FIELD_STOP : MENSUR_FIELD_NECK].value;
    double best = (d->present.made_for_low + d->present.made_for_high) / 2;
    double chosen = fabs(d->recommended.lengths.string_length - best);
    double low = d->place_low + margin(d->place_low_plus_minus);
    double high = d->place_high - margin(d->place_high_plus_minus);
    assert_true(d->recommended_place >= d->place_low && d->recommended_place <= d->place_high);
    assert_int_equal(d->leave, present >= d->place_low && present <= d->place_high);
    if (d->leave) {
        check_close("left", d->recommended_place, present, 0, 0);
        assert_int_equal(said_count(&d->changes), 0);
        assert_int_equal(d->instead_count, 0);
        return;
    }
    if (high - low < 0.0005) {
        return;
    }
    assert_true(d->recommended_place >= low - 1e-12 && d->recommended_place <= high + 1e-12);
    for (int k = -4; k <= 4 && !isnan(best); k++) {
        double place = round(d->recommended_place * 2000 + k) / 2000;
        if (place >= low && place <= high) {
            struct mensur_comparison c;
            assert_true(at_place(demo, instrument, d->for_stop, place, &c));
            assert_true(fabs(c.instruments[1].lengths.string_length - best) >= chosen - 2.6e-4);
            mensur_comparison_clear(&c);
        }
    }
}

/* Where not all are met: no place nearby misses the one that is missed most, in neck (stop), by
 * less; and each miss is what the figure there lacks. */
static void check_nearest(const struct demo *demo, const struct mensur_instrument *instrument,
                          const struct mensur_decision *d) {
    struct mensur_comparison there;
    bool missed = false;
    assert_true(isnan(d->likelihood) && !d->leave);
    if (!at_place(demo, instrument, d->for_stop, d->nearest_place, &there)) {
        fail_msg("no instrument at %g", d->nearest_place);
    }
    for (size_t i = 0; i < d->want_count; i++) {
        const struct mensur_want *want = &d->wants[i];
        double value = figure(&there.instruments[1], want);
        double miss = fmax(fmax(want->low - value, value - want->high), 0);
        check_close("miss", want->miss, miss, 1e-9, 1e-9);
        missed = missed || want->miss > 0;
    }
    assert_true(missed);
    if (d->conflict.exists) {
        assert_true(d->nearest_place >= d->wants[d->conflict.first].place_high &&
                    d->nearest_place <= d->wants[d->conflict.second].place_low);
    }
    mensur_comparison_clear(&there);
}

static void check_conflict(const struct demo *demo, const struct mensur_instrument *instrument,
                           const struct mensur_decision *d) {
    if (!d->conflict.exists) {
        return;
    }
    const struct mensur_want *first = &d->wants[d->conflict.first];
    const struct mensur_want *second = &d->wants[d->conflict.second];
    check_close("gap", d->conflict.gap, second->place_low - first->place_high, 1e-15, 0);
    assert_true(d->conflict.gap > 0);
    for (size_t i = 0; i < d->want_count; i++) {
        for (size_t j = 0; j < d->want_count; j++) {
            /* no pair lies farther apart */
            assert_false(d->wants[j].place_low - d->wants[i].place_high > d->conflict.gap + 1e-12);
        }
    }
    struct mensur_comparison there;
    assert_true(at_place(demo, instrument, d->for_stop, second->place_low, &there));
    double value = figure(&there.instruments[1], first);
    double over = value > first->high ? value - first->high : first->low - value;
    check_close("give of the first", d->conflict.give_first, over, 1e-9, 1e-9);
    mensur_comparison_clear(&there);
}

static void check_decision(const struct demo *demo, const struct mensur_instrument *instrument,
                           const struct mensur_decision *d) {
    check_walk(demo, instrument, d);
    assert_true(d->step_count >= 7);
    assert_int_equal(said_count(&d->reason), 1);
    if (d->can_meet_all) {
        check_recommended(demo, instrument, d);
    } else {
        assert_false(d->has_recommended);
        check_close("none", d->recommended_place, NAN, 0, 0);
        check_nearest(demo, instrument, d);
        check_conflict(demo, instrument, d);
    }
}

static double uniform(gsl_rng *rng, double low, double high) {
    return low + (high - low) * gsl_rng_uniform(rng);
}

/* A range of a figure around what it is now; sometimes open, sometimes far off. */
static struct mensur_wish random_wish(gsl_rng *rng, enum mensur_wish_kind kind, double now) {
    double middle = now * uniform(rng, 0.93, 1.10);
    double half = now * uniform(rng, 0.002, 0.03);
    struct mensur_wish wish = {.kind = kind, .low = middle - half, .high = middle + half};
    unsigned long open = gsl_rng_uniform_int(rng, 6);
    wish.low = open == 0 ? NAN : wish.low;
    wish.high = open == 1 ? NAN : wish.high;
    return wish;
}

static size_t random_wishes(gsl_rng *rng, const struct mensur_profile *p, struct mensur_wish *out) {
    const double now[] = {p->lengths.string_length,     p->lengths.stop_per_2_neck,
                          p->lengths.body_at_semitones, p->lengths.left_reach,
                          p->strings[0].tension,        p->total_tension,
                          p->total_force_on_belly};
    size_t count = 0;
    for (int kind = 0; kind < 7; kind++) {
        if (!isnan(now[kind]) && gsl_rng_uniform(rng) < 0.4) {
            out[count] = random_wish(rng, (enum mensur_wish_kind)kind, now[kind]);
            if (kind == MENSUR_WISH_TENSION) {
                strcpy(out[count].note, p->strings[0].note);
            }
            count++;
        }
    }
    return count;
}

static void run_case(const struct demo *demo, const struct mensur_instrument *instrument,
                     gsl_rng *rng, bool for_stop) {
    struct mensur_fault fault = {""};
    struct mensur_profile profile;
    struct mensur_decision decision;
    struct mensur_wish items[8];
    check_status("profile",
                 mensur_ask_profile(&demo->shop.stock, instrument, &demo->terms, MENSUR_PART_ALL,
                                    &fault, &profile),
                 MENSUR_OK);
    struct mensur_wishes wishes = {.items = items, .count = random_wishes(rng, &profile, items)};
    if (wishes.count > 0) {
        enum mensur_status status = mensur_ask_decision(&demo->shop.stock, instrument, &wishes,
                                                        for_stop, &demo->terms, &fault, &decision);
        check_status(fault.text, status, MENSUR_OK);
        check_decision(demo, instrument, &decision);
        mensur_decision_clear(&decision);
    }
    mensur_profile_clear(&profile);
}

static void test_walk(void **state) {
    struct demo *demo = *state;
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    const struct mensur_instrument *list[] = {&demo->heron, &demo->kestrel, &demo->wren,
                                              &demo->swift, &demo->bittern};
    gsl_rng_set(rng, 20261125);
    for (int i = 0; i < CASES; i++) {
        demo->terms.hold = i % 3 == 0 ? MENSUR_HOLD_SLOPE : MENSUR_HOLD_PROJECTION;
        /* Held at its slope a long neck soon lies over the bridge: the neck alone moves little. */
        bool for_stop = i % 2 == 1 && demo->terms.hold == MENSUR_HOLD_PROJECTION;
        run_case(demo, list[i % 5], rng, for_stop);
    }
    demo->terms.hold = MENSUR_HOLD_PROJECTION;
    gsl_rng_free(rng);
}

/* The main job: kestrel's neck like heron. */
static void test_main_job(void **state) {
    const struct demo *demo = *state;
    struct mensur_wishes wishes = {.like = &demo->heron};
    struct mensur_decision d;
    struct mensur_fault fault = {""};
    check_status("ask",
                 mensur_ask_decision(&demo->shop.stock, &demo->kestrel, &wishes, false,
                                     &demo->terms, &fault, &d),
                 MENSUR_OK);
    assert_true(d.can_meet_all);
    assert_int_equal(d.want_count, 1);
    assert_string_equal(d.wants[0].what, "string_length");
    check_close("like, low end", d.wants[0].low, d.like.lengths.string_length - 0.001, 1e-15, 0);
    /* to half a millimetre */
    check_close("rounded", d.recommended_place * 2000, round(d.recommended_place * 2000), 1e-9, 0);
    assert_true(fabs(d.recommended.lengths.string_length - d.like.lengths.string_length) <= 0.001);
    assert_true(said_count(&d.changes) >= 3);
    /* with the neck as it is, strings as much heavier as the square of the lengths, but for what a
     * slack gauge thins more on the longer one */
    double ratio = d.like.lengths.string_length / d.present.lengths.string_length;
    for (size_t i = 0; i < d.instead_count; i++) {
        check_close(d.instead[i].note,
                    d.instead[i].needed_linear_density / d.instead[i].present_linear_density,
                    ratio * ratio, 0, strcmp(d.instead[i].note, "A4") == 0 ? 3e-3 : 1e-13);
        assert_non_null(d.instead[i].nearest_string);
    }
    mensur_decision_clear(&d);
}

static void decide(const struct demo *demo, const struct mensur_instrument *instrument,
                   const struct mensur_wishes *wishes, bool for_stop, struct mensur_decision *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status = mensur_ask_decision(&demo->shop.stock, instrument, wishes, for_stop,
                                                    &demo->terms, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* What was asked rules: the range that the strings are made for chooses among the necks that it
 * leaves, is told where the result lies outside it, and defeats nothing. */
static void test_made_for(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *row;
        enum mensur_wish_kind kind;
        double low, high;
        bool leave;
        double place_mm;
        const char *why;
    } rows[] = {
        {"met as it is", MENSUR_WISH_RATIO, 2.9, 3.1, true, 144,
         "its strings are made for 370.0 to 380.0 mm, so that this one is short for them"},
        {"chooses among them", MENSUR_WISH_RATIO, 2.5, 2.9, false, 157,
         "in the middle of what its"},
        {"and the nearest to it", MENSUR_WISH_RATIO, 2.8, 2.9, false, 152.5, "as near as"},
        {"outside it", MENSUR_WISH_RATIO, 3.1, 3.2, false, 138, "is shorter than that"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const struct mensur_wish wish = {
            .kind = rows[i].kind, .low = rows[i].low, .high = rows[i].high};
        const struct mensur_wishes wishes = {.items = &wish, .count = 1};
        struct mensur_decision d;
        decide(demo, &demo->kestrel, &wishes, false, &d);
        assert_int_equal(d.want_count, 1);
        assert_true(d.can_meet_all);
        assert_int_equal(d.leave, rows[i].leave);
        check_close(rows[i].row, d.recommended_place * 1000, rows[i].place_mm, 1e-9, 0);
        check_holds(said(&d.reason, 0), rows[i].why);
        mensur_decision_clear(&d);
    }
}

/* Nothing is wished: by the strings' range, by the usual neck : stop, and as it stands. */
static void test_unwished(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument unstrung, built, cello, violin;
    check_status("copy", mensur_instrument_copy(&demo->kestrel, &unstrung), MENSUR_OK);
    check_status("copy", mensur_instrument_copy(&demo->kestrel, &built), MENSUR_OK);
    check_status("copy", mensur_instrument_copy(&demo->bittern, &cello), MENSUR_OK);
    free(unstrung.set);
    unstrung.set = NULL;
    free(cello.set);
    cello.set = NULL;
    built.built = MENSUR_YES;
    cello.built = MENSUR_NO;
    demo_bare_violin(&violin);
    const struct {
        const char *row;
        const struct mensur_instrument *instrument;
        bool for_stop, leave;
        double place_mm, usual_mm;
        const char *why;
    } rows[] = {
        {"inside the range", &demo->heron, false, true, 150, 148, "this one gives 375.8 mm"},
        {"outside it", &demo->kestrel, false, false, 153, 428.0 / 3,
         "its strings are made for 370.0 to 380.0 mm, a neck of 152.1 to 162.1 mm; 153.0 mm, which "
         "gives 370.9 mm, is nearest to the present one of those that lie surely inside; the usual "
         "neck for this stop is 142.7 mm (2 : 3.00)"},
        {"the stop", &demo->kestrel, true, false, 223, 216, "a stop of 222."},
        {"built", &built, false, true, 144, 428.0 / 3,
         "it is built, and nothing is wished of it; its strings are made for 370.0 to 380.0 mm"},
        {"no strings", &unstrung, false, false, 142.5, 428.0 / 3,
         "it is the usual one, and no more than that: no strings are known"},
        {"no strings, as usual", &cello, false, true, 280, 280,
         "it is the usual one, and no strings are known"},
        {"no family", &violin, false, true, 130, NAN, "nor a usual neck : stop is known"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_decision d;
        decide(demo, rows[i].instrument, &(struct mensur_wishes){.count = 0}, rows[i].for_stop, &d);
        assert_true(d.can_meet_all && d.want_count == 0 && isnan(d.likelihood));
        assert_int_equal(d.leave, rows[i].leave);
        check_close(rows[i].row, d.recommended_place * 1000, rows[i].place_mm, 1e-9, 0);
        check_close(rows[i].row, d.usual_place * 1000, rows[i].usual_mm, 1e-9, 0);
        check_holds(said(&d.reason, 0), rows[i].why);
        mensur_decision_clear(&d);
    }
    mensur_instrument_clear(&unstrung);
    mensur_instrument_clear(&built);
    mensur_instrument_clear(&cello);
    mensur_instrument_clear(&violin);
}

/* The place lies two standard uncertainties inside each end as far as there is room, and a place
 * that is left is left close to an end too. */
static void test_inside(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *row;
        double neck, stop, neck_pm, stop_pm; /* mm */
        double low, high;                    /* mm of string */
        bool leave;
        double place_mm; /* NaN: the middle, to half a millimetre */
    } rows[] = {
        {"left", 144, 214, 0.5, 0.5, 361.5, 380, true, 144},
        {"room", 144, 214, 0, 0.5, 363, 370, false, 151},
        {"room for one half", 144, 214, 0, 0.5, 363, 366.1, false, 147},
        {"no room", 144, 214, 0, 2, 363, 370, false, NAN},
        {"exact", 144, 214, 0, 0, 363, 370, false, 152},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument kestrel = demo->kestrel; /* texts borrowed */
        const struct mensur_wish wish = {.kind = MENSUR_WISH_STRING_LENGTH,
                                         .low = rows[i].low / 1000,
                                         .high = rows[i].high / 1000};
        const struct mensur_wishes wishes = {.items = &wish, .count = 1};
        struct mensur_decision d;
        kestrel.measure[MENSUR_FIELD_NECK].plus_minus = rows[i].neck_pm / 1000;
        kestrel.measure[MENSUR_FIELD_STOP].plus_minus = rows[i].stop_pm / 1000;
        decide(demo, &kestrel, &wishes, false, &d);
        double middle = round((d.place_low + d.place_high) * 1000) / 2;
        assert_int_equal(d.leave, rows[i].leave);
        check_close(rows[i].row, d.recommended_place * 1000,
                    isnan(rows[i].place_mm) ? middle : rows[i].place_mm, 1e-9, 0);
        mensur_decision_clear(&d);
    }
}

static void test_refusals(void **state) {
    const struct demo *demo = *state;
    struct mensur_wish reach = {.kind = MENSUR_WISH_LEFT_REACH, .low = NAN, .high = 0.560};
    struct mensur_wish tension = {.kind = MENSUR_WISH_TENSION, .note = "E5", .low = 50, .high = 60};
    const struct {
        const char *row;
        const struct mensur_instrument *instrument;
        struct mensur_wishes wishes;
        enum mensur_status want;
    } rows[] = {{"reach of a cello", &demo->bittern, {.items = &reach, .count = 1}, MENSUR_USE},
                {"a note it lacks", &demo->kestrel, {.items = &tension, .count = 1}, MENSUR_USE},
                {"string alone", &demo->dipper, {.items = &reach, .count = 1}, MENSUR_NO_ANSWER}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_fault fault = {""};
        struct mensur_decision d = {.want_count = 77};
        check_status(rows[i].row,
                     mensur_ask_decision(&demo->shop.stock, rows[i].instrument, &rows[i].wishes,
                                         false, &demo->terms, &fault, &d),
                     rows[i].want);
        assert_int_equal(d.want_count, 77);
        assert_true(fault.text[0] != '\0');
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_walk),     cmocka_unit_test(test_main_job),
        cmocka_unit_test(test_made_for), cmocka_unit_test(test_unwished),
        cmocka_unit_test(test_inside),   cmocka_unit_test(test_refusals)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
