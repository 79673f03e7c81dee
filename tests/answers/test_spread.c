/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the answers are, against Monte Carlo (JCGM 101:2008): every stated measurement is drawn
 * anew and the whole question asked again. */
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#include "demo.h"
#include "said.h"

enum { DRAWS = 20000, FIGURES = 6, DECISION_DRAWS = 3000 };

static const struct {
    enum mensur_field field;
    double mm;
} stated[] = {{MENSUR_FIELD_STOP, 0.7},      {MENSUR_FIELD_NECK, 0.5},
              {MENSUR_FIELD_OVERSTAND, 0.4}, {MENSUR_FIELD_PROJECTION, 0.6},
              {MENSUR_FIELD_BRIDGE, 0.3},    {MENSUR_FIELD_BODY, 1.2}};

static void unsure_kestrel(const struct demo *demo, struct mensur_instrument *out) {
    (void)mensur_instrument_copy(&demo->kestrel, out);
    for (size_t i = 0; i < COUNT_OF(stated); i++) {
        out->measure[stated[i].field].plus_minus = stated[i].mm / 1000;
    }
}

static void draw(gsl_rng *rng, const struct mensur_instrument *from,
                 struct mensur_instrument *out) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        out->measure[f].value = from->measure[f].value +
                                gsl_ran_gaussian_ziggurat(rng, 1) * from->measure[f].plus_minus;
        out->measure[f].plus_minus = 0;
    }
}

struct moments {
    double mean, sum;
    int count;
};

static void take(struct moments *m, double value) {
    double off = value - m->mean;
    m->mean += off / ++m->count;
    m->sum += off * (value - m->mean);
}

static double deviation(const struct moments *m) {
    return sqrt(m->sum / (m->count - 1));
}

static void figures_of(const struct mensur_profile *p, double *out) {
    const double figures[FIGURES] = {p->lengths.string_length, p->lengths.left_reach,
                                     p->lengths.break_angle,   p->lengths.body_at_semitones,
                                     p->total_tension,         p->total_force_on_belly};
    memcpy(out, figures, sizeof figures);
}

/* One sigma of a deviation from n draws is 1/sqrt(2 n) of it, here half a percent; five are
 * allowed. */
static void test_profile(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument unsure;
    struct mensur_instrument drawn;
    struct mensur_profile profile;
    struct mensur_fault fault = {""};
    struct moments moments[FIGURES] = {{0, 0, 0}};
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    unsure_kestrel(demo, &unsure);
    (void)mensur_instrument_copy(&unsure, &drawn);
    gsl_rng_set(rng, 101);
    for (int i = 0; i < DRAWS; i++) {
        double figures[FIGURES];
        draw(rng, &unsure, &drawn);
        check_status("draw",
                     mensur_ask_profile(&demo->shop.stock, &drawn, &demo->terms,
                                        MENSUR_PART_STRINGS, &fault, &profile),
                     MENSUR_OK);
        assert_null(profile.spread);
        figures_of(&profile, figures);
        for (int k = 0; k < FIGURES; k++) {
            take(&moments[k], figures[k]);
        }
        mensur_profile_clear(&profile);
    }
    check_status("ask",
                 mensur_ask_profile(&demo->shop.stock, &unsure, &demo->terms, MENSUR_PART_ALL,
                                    &fault, &profile),
                 MENSUR_OK);
    const struct mensur_spread *s = profile.spread;
    const double got[FIGURES] = {s->lengths.string_length, s->lengths.left_reach,
                                 s->lengths.break_angle,   s->lengths.body_at_semitones,
                                 s->total_tension,         s->total_force_on_belly};
    static const char *const names[FIGURES] = {"string", "left reach", "break angle",
                                               "note",   "pull",       "belly"};
    for (int k = 0; k < FIGURES; k++) {
        check_close(names[k], got[k], deviation(&moments[k]), 0, 0.025);
    }
    assert_string_equal(s->matters[0].field, "stop");
    check_close("frame goes as the string", s->positions[1].frame / profile.positions[1].frame,
                s->lengths.string_length / profile.lengths.string_length, 0, 1e-12);
    mensur_profile_clear(&profile);
    mensur_instrument_clear(&unsure);
    mensur_instrument_clear(&drawn);
    gsl_rng_free(rng);
}

/* A neck that is set anew is as sure as it is set; one that is moved, as it was. */
static void test_change(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument unsure;
    struct mensur_fault fault = {""};
    static const struct {
        const char *row;
        struct mensur_change change;
        double want_mm;
    } rows[] = {{"moved", {.field = MENSUR_FIELD_NECK, .relative = true, .value = {0.006, 0}}, 0.5},
                {"set", {.field = MENSUR_FIELD_NECK, .value = {0.150, 0}}, 0},
                {"set, and how sure", {.field = MENSUR_FIELD_NECK, .value = {0.150, 0.0002}}, 0.2}};
    unsure_kestrel(demo, &unsure);
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_comparison c;
        check_status(rows[i].row,
                     mensur_ask_change(&demo->shop.stock, &unsure, &rows[i].change, 1, &demo->terms,
                                       &fault, &c),
                     MENSUR_OK);
        check_close(rows[i].row, c.instruments[1].spread->lengths.neck * 1000, rows[i].want_mm,
                    1e-9, 1e-9);
        mensur_comparison_clear(&c);
    }
    mensur_instrument_clear(&unsure);
}

static void ask(const struct demo *demo, const struct mensur_instrument *instrument,
                struct mensur_decision *out) {
    static const struct mensur_wish wish = {
        .kind = MENSUR_WISH_STRING_LENGTH, .low = 0.370, .high = 0.376};
    struct mensur_wishes wishes = {.items = &wish, .count = 1};
    struct mensur_fault fault = {""};
    check_status("ask",
                 mensur_ask_decision(&demo->shop.stock, instrument, &wishes, false, &demo->terms,
                                     &fault, out),
                 MENSUR_OK);
}

static void test_decision(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument unsure;
    struct mensur_instrument drawn;
    struct mensur_decision decision;
    struct moments low = {0, 0, 0};
    struct moments high = {0, 0, 0};
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    unsure_kestrel(demo, &unsure);
    (void)mensur_instrument_copy(&unsure, &drawn);
    gsl_rng_set(rng, 102);
    for (int i = 0; i < DECISION_DRAWS; i++) {
        draw(rng, &unsure, &drawn);
        ask(demo, &drawn, &decision);
        take(&low, decision.place_low);
        take(&high, decision.place_high);
        assert_int_equal(said_count(&decision.how_sure), 0);
        mensur_decision_clear(&decision);
    }
    ask(demo, &unsure, &decision);
    /* five sigmas of 1/sqrt(2 n) */
    check_close("low end", decision.place_low_plus_minus, deviation(&low), 0, 0.065);
    check_close("high end", decision.place_high_plus_minus, deviation(&high), 0, 0.065);
    assert_int_equal(decision.too_coarse, MENSUR_NO);
    mensur_decision_clear(&decision);
    unsure.measure[MENSUR_FIELD_STOP].plus_minus = 0.003;
    ask(demo, &unsure, &decision);
    assert_int_equal(decision.too_coarse, MENSUR_YES);
    check_holds(said(&decision.how_sure, 0), "too coarse to decide");
    check_holds(said(&decision.how_sure, 0), "Measure the stop better");
    mensur_decision_clear(&decision);
    mensur_instrument_clear(&unsure);
    mensur_instrument_clear(&drawn);
    gsl_rng_free(rng);
}

/* A string's own ± moves its pull, and nobody else's. */
static void test_string(void **state) {
    struct demo *demo = *state;
    struct mensur_string_spec *spec = NULL;
    struct mensur_profile profile;
    struct mensur_fault fault = {""};
    for (size_t i = 0; i < demo->shop.stock.string_count; i++) {
        if (strcmp(demo->shop.stock.strings[i].name, "viola A4 gut plain") == 0) {
            spec = &demo->shop.stock.strings[i];
        }
    }
    assert_non_null(spec);
    spec->diameter.plus_minus = 0.02 * spec->diameter.value;
    check_status("ask",
                 mensur_ask_profile(&demo->shop.stock, &demo->kestrel, &demo->terms,
                                    MENSUR_PART_ALL, &fault, &profile),
                 MENSUR_OK);
    check_close("A4, twice the diameter's", profile.spread->strings[3].tension,
                0.04 * profile.strings[3].tension, 0, 1e-6);
    check_close("C3", profile.spread->strings[0].tension, 0, 1e-9, 0);
    assert_string_equal(profile.spread->matters[0].field, "A4 diameter");
    mensur_profile_clear(&profile);
    spec->diameter.plus_minus = 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_profile), cmocka_unit_test(test_change),
        cmocka_unit_test(test_decision), cmocka_unit_test(test_string)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
