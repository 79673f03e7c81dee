/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the answers are, against Monte Carlo (JCGM 101:2008): every stated measurement is drawn
 * anew, every value that is assumed or taken from a material too, each apart, and the whole
 * question asked again. */
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#include "demo.h"
#include "said.h"
#include "usual.h"

/* AddressSanitizer, which gcc and clang each tell in their own way, takes ten times as long. */
#ifndef __has_feature
#define __has_feature(feature) 0
#endif
#if defined(__SANITIZE_ADDRESS__) || __has_feature(address_sanitizer)
enum { DRAWS = 2000 };
#else
enum { DRAWS = 20000 };
#endif

/* One sigma of a deviation from n draws is 1/sqrt(2 n) of it; five are allowed. */
static double allowed(void) {
    return 5 / sqrt(2.0 * DRAWS);
}

/* One sigma of a share of n draws is 1/(2 sqrt(n)) at most; five are allowed, and 0.01 for the
 * likelihood itself, which takes its figures for normally distributed. */
static double allowed_share(void) {
    return 0.01 + 2.5 / sqrt(DRAWS);
}

/* Two instruments and the strings on them, each with ± here and there. */
struct unsure {
    struct mensur_instrument kestrel, heron; /* texts borrowed */
    struct mensur_stock stock;         /* its strings and materials its own, their texts borrowed */
    double off[2][MENSUR_FIELD_COUNT]; /* of the shares of the string, in parts of themselves */
};

/* What is assumed of the two violas, mm, or parts of itself: of a violin, others (stop/195)^0.5
 * times that. A drawn value is given to the instrument as if it were measured, but for the shares
 * of the string. */
static const struct {
    enum mensur_field field;
    double spread;
    bool share, kestrel, heron;
} assumed[] = {{MENSUR_FIELD_BOARD, 0.4, false, true, false},
               {MENSUR_FIELD_BOARD_NUT, 0.4, false, true, false},
               {MENSUR_FIELD_NUT, 0.1, false, true, true},
               {MENSUR_FIELD_SADDLE, 0.75, false, false, true},
               {MENSUR_FIELD_BOARD_LENGTH, 0.01, true, true, true},
               {MENSUR_FIELD_AFTERLENGTH, 0.02, true, true, true}};

static const struct {
    enum mensur_field field;
    double kestrel_mm, heron_mm;
} stated[] = {{MENSUR_FIELD_STOP, 0.7, 0.5},    {MENSUR_FIELD_NECK, 0.5, 0.3},
              {MENSUR_FIELD_OVERSTAND, 0.4, 0}, {MENSUR_FIELD_PROJECTION, 0.6, 0.2},
              {MENSUR_FIELD_BRIDGE, 0.3, 0.4},  {MENSUR_FIELD_BODY, 1.2, 0}};

/* Of a string, in parts of itself, and what made it for a length in parts of that. */
static const struct {
    size_t offset;
    double part;
} stated_of_strings[] = {{offsetof(struct mensur_string_spec, diameter), 0.006},
                         {offsetof(struct mensur_string_spec, core_diameter), 0.008},
                         {offsetof(struct mensur_string_spec, wraps[0].thickness), 0.010},
                         {offsetof(struct mensur_string_spec, linear_density), 0.009},
                         {offsetof(struct mensur_string_spec, density), 0.005},
                         {offsetof(struct mensur_string_spec, made_for_low), 0.002},
                         {offsetof(struct mensur_string_spec, made_for_high), 0.003}};

static struct mensur_quantity *quantity(struct mensur_string_spec *spec, size_t which) {
    return (struct mensur_quantity *)(void *)((char *)spec + stated_of_strings[which].offset);
}

static void unsure_make(const struct demo *demo, struct unsure *out) {
    out->kestrel = demo->kestrel;
    out->heron = demo->heron;
    for (size_t i = 0; i < COUNT_OF(stated); i++) {
        out->kestrel.measure[stated[i].field].plus_minus = stated[i].kestrel_mm / 1000;
        out->heron.measure[stated[i].field].plus_minus = stated[i].heron_mm / 1000;
    }
    memset(out->off, 0, sizeof out->off);
    demo_own_strings(demo, 0, &out->stock);
    for (size_t i = 0; i < out->stock.string_count; i++) {
        for (size_t k = 0; k < COUNT_OF(stated_of_strings); k++) {
            struct mensur_quantity *q = quantity(&out->stock.strings[i], k);
            q->plus_minus = isnan(q->value) ? 0 : stated_of_strings[k].part * q->value;
        }
        /* no two of a set alike, so that one of them binds */
        out->stock.strings[i].made_for_low.value -= 0.004 * (double)(i % 4);
        out->stock.strings[i].made_for_high.value += 0.004 * (double)(i % 4);
    }
}

/* The same with each ± drawn, and none left. */
static void unsure_copy(const struct unsure *from, struct unsure *out) {
    *out = *from;
    out->stock.strings = calloc(from->stock.string_count, sizeof *out->stock.strings);
    assert_non_null(out->stock.strings);
    memcpy(out->stock.strings, from->stock.strings,
           from->stock.string_count * sizeof *out->stock.strings);
    out->stock.materials = calloc(from->stock.material_count, sizeof *out->stock.materials);
    assert_non_null(out->stock.materials);
    memcpy(out->stock.materials, from->stock.materials,
           from->stock.material_count * sizeof *out->stock.materials);
    out->kestrel.assumed_off = out->off[0];
    out->heron.assumed_off = out->off[1];
}

static void draw_one(gsl_rng *rng, const struct mensur_quantity *from,
                     struct mensur_quantity *out) {
    out->plus_minus = 0;
    if (from->plus_minus > 0) {
        out->value = from->value + gsl_ran_gaussian_ziggurat(rng, 1) * from->plus_minus;
    }
}

static void draw_assumed(gsl_rng *rng, const struct unsure *from, size_t row,
                         struct mensur_instrument *out, double *off) {
    enum mensur_field field = assumed[row].field;
    double by = gsl_ran_gaussian_ziggurat(rng, 1) * assumed[row].spread;
    if (assumed[row].share) {
        off[field] = by;
        return;
    }
    const struct mensur_family *viola = mensur_stock_family(&from->stock, "viola");
    double stop = out->measure[MENSUR_FIELD_STOP].value;
    double value =
        mensur_family_usual(&from->stock, viola, field, stop) + by / 1000 * sqrt(stop / 0.195);
    out->measure[field].value = fmax(value, 0); /* of a nut five deviations are more than it is */
}

/* A material's ends are half its range from the middle; evenly spread between them it would be as
 * sure as this. */
static double drawn_value(gsl_rng *rng, double value, double spread) {
    return spread > 0 ? value + gsl_ran_gaussian_ziggurat(rng, 1) * spread : value;
}

static void draw(gsl_rng *rng, const struct unsure *from, struct unsure *out) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        draw_one(rng, &from->kestrel.measure[f], &out->kestrel.measure[f]);
        draw_one(rng, &from->heron.measure[f], &out->heron.measure[f]);
    }
    for (size_t i = 0; i < COUNT_OF(assumed); i++) {
        if (assumed[i].kestrel) {
            draw_assumed(rng, from, i, &out->kestrel, out->off[0]);
        }
        if (assumed[i].heron) {
            draw_assumed(rng, from, i, &out->heron, out->off[1]);
        }
    }
    for (size_t i = 0; i < from->stock.material_count; i++) {
        const struct mensur_material *material = &from->stock.materials[i];
        out->stock.materials[i].density =
            drawn_value(rng, material->density, material->density_spread);
        out->stock.materials[i].strength =
            drawn_value(rng, material->strength, material->strength_spread);
    }
    for (size_t i = 0; i < from->stock.string_count; i++) {
        const struct mensur_string_spec *spec = &from->stock.strings[i];
        /* of the sets that are on; the others move nothing */
        if (spec->set != NULL && (strcmp(spec->set, from->kestrel.set) == 0 ||
                                  strcmp(spec->set, from->heron.set) == 0)) {
            for (size_t k = 0; k < COUNT_OF(stated_of_strings); k++) {
                draw_one(rng, quantity(&from->stock.strings[i], k),
                         quantity(&out->stock.strings[i], k));
            }
        }
    }
}

static void unsure_clear(struct unsure *unsure) {
    free(unsure->stock.strings);
}

static void drawn_clear(struct unsure *drawn) {
    free(drawn->stock.materials);
    unsure_clear(drawn);
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

/* A figure by its place in the profile, and in the spread. */
#define BOTH(name, member)                                                                         \
    { name, offsetof(struct mensur_profile, member), offsetof(struct mensur_spread, member) }

static const struct {
    const char *name;
    size_t in_profile, in_spread;
} figures[] = {BOTH("string", lengths.string_length),
               BOTH("left reach", lengths.left_reach),
               BOTH("break angle", lengths.break_angle),
               BOTH("note", lengths.body_at_semitones),
               BOTH("clearance", lengths.clearance_at_board_end),
               BOTH("bow room", lengths.bow_room),
               BOTH("afterlength", lengths.afterlength),
               BOTH("A4 margin", strings[3].breaking_margin),
               BOTH("C3 tension", strings[0].tension),
               BOTH("A4 tension", strings[3].tension),
               BOTH("A4 inharmonicity", strings[3].inharmonicity),
               BOTH("A4 made for", strings[3].made_for_low),
               BOTH("D4 press", strings[2].press_force_octave),
               BOTH("pull", total_tension),
               BOTH("belly", total_force_on_belly),
               BOTH("first finger", positions[1].first_finger),
               BOTH("frame", positions[1].frame)};

static double at(const void *record, size_t offset) {
    return *(const double *)(const void *)((const char *)record + offset);
}

static void profile_of(const struct demo *demo, const struct unsure *unsure, unsigned parts,
                       struct mensur_profile *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_profile(&unsure->stock, &unsure->kestrel, &demo->terms, parts, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

static void test_profile(void **state) {
    const struct demo *demo = *state;
    struct unsure unsure;
    struct unsure drawn;
    struct mensur_profile profile;
    struct moments moments[COUNT_OF(figures)] = {{0, 0, 0}};
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    unsure_make(demo, &unsure);
    unsure_copy(&unsure, &drawn);
    gsl_rng_set(rng, 101);
    for (int i = 0; i < DRAWS; i++) {
        draw(rng, &unsure, &drawn);
        profile_of(demo, &drawn, MENSUR_PART_ALL | MENSUR_PART_FIGURES_ALONE, &profile);
        for (size_t k = 0; k < COUNT_OF(figures); k++) {
            take(&moments[k], at(&profile, figures[k].in_profile));
        }
        mensur_profile_clear(&profile);
    }
    profile_of(demo, &unsure, MENSUR_PART_ALL, &profile);
    for (size_t k = 0; k < COUNT_OF(figures); k++) {
        check_close(figures[k].name, at(profile.spread, figures[k].in_spread),
                    deviation(&moments[k]), 0, allowed());
    }
    assert_string_equal(profile.spread->matters[0].field, "stop");
    check_close("frame goes as the string",
                profile.spread->positions[1].frame / profile.positions[1].frame,
                profile.spread->lengths.string_length / profile.lengths.string_length, 0, 1e-8);
    mensur_profile_clear(&profile);
    unsure_clear(&unsure);
    drawn_clear(&drawn);
    gsl_rng_free(rng);
}

/* A neck that is set anew is as sure as it is set; one that is moved, as it was. */
static void test_change(void **state) {
    const struct demo *demo = *state;
    struct unsure unsure;
    struct mensur_fault fault = {""};
    static const struct {
        const char *row;
        struct mensur_change change;
        double want_mm;
    } rows[] = {{"moved", {.field = MENSUR_FIELD_NECK, .relative = true, .value = {0.006, 0}}, 0.5},
                {"set", {.field = MENSUR_FIELD_NECK, .value = {0.150, 0}}, 0},
                {"set, and how sure", {.field = MENSUR_FIELD_NECK, .value = {0.150, 0.0002}}, 0.2}};
    unsure_make(demo, &unsure);
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_comparison c;
        check_status(rows[i].row,
                     mensur_ask_change(&unsure.stock, &unsure.kestrel, &rows[i].change, 1,
                                       &demo->terms, &fault, &c),
                     MENSUR_OK);
        check_close(rows[i].row, c.instruments[1].spread->lengths.neck * 1000, rows[i].want_mm,
                    1e-9, 1e-9);
        mensur_comparison_clear(&c);
    }
    unsure_clear(&unsure);
}

#define WISH(of, from, to)                                                                         \
    { .kind = (of), .low = (from), .high = (to) }
#define TENSION(of_percent, from, to)                                                              \
    {                                                                                              \
        .kind = MENSUR_WISH_TENSION, .note = "A4", .percent = (of_percent), .low = (from),         \
        .high = (to)                                                                               \
    }
#define LENGTH(from, to) WISH(MENSUR_WISH_STRING_LENGTH, from, to)
#define ANY LENGTH(0.3, 0.5) /* so that no wish follows from what the strings are made for */

static char other_set[] = "viola synthetic";

/* Wishes of every kind that strings have a part in, and some that they have none in. Neither end
 * lies where one wish takes over from another: there the first order does not hold. */
static const struct {
    const char *row;
    bool for_stop, like;
    char *liked_set; /* NULL: its own, which is the other's too */
    struct mensur_wish wishes[2];
    size_t count;
    const char *matters; /* most, behind the less sure end */
} decisions[] = {
    {"length", false, false, NULL, {LENGTH(0.370, 0.376)}, 1, "stop"},
    {"length, of the stop", true, false, NULL, {LENGTH(0.370, 0.376)}, 1, "neck"},
    {"made for", false, false, NULL, {WISH(MENSUR_WISH_RATIO, 2.7, 3.2)}, 1, "stop"},
    {"total",
     false,
     false,
     NULL,
     {WISH(MENSUR_WISH_TOTAL_TENSION, 196, 207), ANY},
     2,
     "gut density"},
    {"belly", false, false, NULL, {WISH(MENSUR_WISH_BELLY_FORCE, 75.5, 80), ANY}, 2, "gut density"},
    {"newtons", false, false, NULL, {TENSION(false, 60, 64), ANY}, 2, "gut density"},
    /* the string is the same before and after */
    {"percent", false, false, NULL, {TENSION(true, 1.02, 1.1), ANY}, 2, "neck"},
    /* and on both instruments */
    {"like", false, true, NULL, {TENSION(true, 0.998, 1.1)}, 1, "stop"},
    /* a conflict */
    {"like, others", false, true, other_set, {TENSION(true, 0.98, 1.1)}, 1, "gut density"},
};

static void decide(const struct demo *demo, const struct unsure *unsure, size_t row,
                   struct mensur_decision *out) {
    struct mensur_wishes wishes = {.like = decisions[row].like ? &unsure->heron : NULL,
                                   .items = decisions[row].wishes,
                                   .count = decisions[row].count};
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_decision(&unsure->stock, &unsure->kestrel, &wishes, decisions[row].for_stop,
                            &demo->terms, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* Where the wishes begin and end; in a conflict the end comes first. */
static void ends_of(const struct mensur_decision *decision, double *low, double *high) {
    *low = -INFINITY;
    *high = INFINITY;
    for (size_t i = 0; i < decision->want_count; i++) {
        *low = fmax(*low, decision->wants[i].place_low);
        *high = fmin(*high, decision->wants[i].place_high);
    }
}

/* What stands at the recommended place is as sure as the instrument changed to that place. */
static void check_recommended(const struct demo *demo, const struct unsure *unsure,
                              const struct mensur_decision *decision) {
    const struct mensur_change change = {.field = decision->for_stop ? MENSUR_FIELD_STOP
                                                                     : MENSUR_FIELD_NECK,
                                         .value = {.value = decision->recommended_place}};
    struct mensur_comparison c;
    struct mensur_fault fault = {""};
    check_status(
        "changed",
        mensur_ask_change(&unsure->stock, &unsure->kestrel, &change, 1, &demo->terms, &fault, &c),
        MENSUR_OK);
    for (size_t k = 0; k < COUNT_OF(figures); k++) {
        check_close(figures[k].name, at(decision->recommended.spread, figures[k].in_spread),
                    at(c.instruments[1].spread, figures[k].in_spread), 1e-15, 1e-7);
    }
    mensur_comparison_clear(&c);
}

static void test_decision(void **state) {
    const struct demo *demo = *state;
    struct unsure unsure;
    struct unsure drawn;
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    unsure_make(demo, &unsure);
    unsure_copy(&unsure, &drawn);
    for (size_t row = 0; row < COUNT_OF(decisions); row++) {
        struct mensur_decision decision;
        struct moments moments[4] = {{0, 0, 0}};
        char name[64];
        gsl_rng_set(rng, 102 + row);
        unsure.heron.set =
            decisions[row].liked_set == NULL ? demo->heron.set : decisions[row].liked_set;
        drawn.heron.set = unsure.heron.set;
        for (int i = 0; i < DRAWS; i++) {
            double low;
            double high;
            draw(rng, &unsure, &drawn);
            decide(demo, &drawn, row, &decision);
            ends_of(&decision, &low, &high);
            take(&moments[0], low);
            take(&moments[1], high);
            take(&moments[2], decision.made_for_place_low);
            take(&moments[3], decision.made_for_place_high);
            mensur_decision_clear(&decision);
        }
        decide(demo, &unsure, row, &decision);
        snprintf(name, sizeof name, "%s, low end", decisions[row].row);
        check_close(name, decision.place_low_plus_minus, deviation(&moments[0]), 0, allowed());
        snprintf(name, sizeof name, "%s, high end", decisions[row].row);
        check_close(name, decision.place_high_plus_minus, deviation(&moments[1]), 0, allowed());
        check_close("made for, low end", decision.made_for_low_plus_minus, deviation(&moments[2]),
                    0, allowed());
        check_close("made for, high end", decision.made_for_high_plus_minus, deviation(&moments[3]),
                    0, allowed());
        assert_string_equal(decision.matters[0].field, decisions[row].matters);
        if (decision.has_recommended && !decision.leave) {
            check_recommended(demo, &unsure, &decision);
        }
        mensur_decision_clear(&decision);
    }
    unsure_clear(&unsure);
    drawn_clear(&drawn);
    gsl_rng_free(rng);
}

/* Wishes whose figures share measurements, at the recommended place, which the maker keeps to, and
 * at the present one, which is only as sure as it was measured. */
static const struct {
    const char *row;
    bool for_stop, like, leave;
    struct mensur_wish wishes[3];
    size_t count;
} likely[] = {
    {"one", false, false, false, {LENGTH(0.370, 0.3725)}, 1},
    {"one, open", false, false, true, {LENGTH(0.3615, NAN)}, 1},
    {"one, left", false, false, true, {LENGTH(0.3615, 0.364)}, 1},
    {"one, of the stop", true, false, false, {LENGTH(0.370, 0.372)}, 1},
    {"like", false, true, false, {LENGTH(0.3, 0.5)}, 1},
    {"like, and a percentage", false, true, false, {TENSION(true, 0.985, 1.03)}, 1},
    {"two that share the stop",
     false,
     false,
     true,
     {LENGTH(0.361, 0.3635), WISH(MENSUR_WISH_RATIO, 2.955, 2.985)},
     2},
    {"two that share it, cut",
     false,
     false,
     false,
     {LENGTH(0.365, 0.3675), WISH(MENSUR_WISH_RATIO, 2.88, 2.905)},
     2},
    {"two, one of strings",
     false,
     false,
     true,
     {LENGTH(0.3614, 0.364), WISH(MENSUR_WISH_TOTAL_TENSION, 189, 194.6)},
     2},
    {"three, two of them share the stop",
     false,
     false,
     true,
     {LENGTH(0.361, 0.3635), WISH(MENSUR_WISH_RATIO, 2.955, 2.985), TENSION(false, 56.7, 60)},
     3},
    {"three, cut",
     false,
     false,
     false,
     {LENGTH(0.3655, 0.368), WISH(MENSUR_WISH_LEFT_REACH, 0.5555, 0.558),
      WISH(MENSUR_WISH_BELLY_FORCE, 74.4, 78.9)},
     3},
    {"percent of its own", false, false, false, {TENSION(true, 1.02, 1.03)}, 1},
};

static double wished_figure(const struct mensur_profile *profile, const struct mensur_wish *wish) {
    switch (wish->kind) {
    case MENSUR_WISH_STRING_LENGTH:
        return profile->lengths.string_length;
    case MENSUR_WISH_RATIO:
        return profile->lengths.stop_per_2_neck;
    case MENSUR_WISH_LEFT_REACH:
        return profile->lengths.left_reach;
    case MENSUR_WISH_TOTAL_TENSION:
        return profile->total_tension;
    case MENSUR_WISH_BELLY_FORCE:
        return profile->total_force_on_belly;
    default:
        return profile->strings[3].tension; /* of A4 */
    }
}

/* Whether one drawn instrument, with its neck (stop) at the place where it is to be cut, meets
 * every wish. */
static bool is_met(const struct demo *demo, const struct unsure *drawn, size_t row, double place) {
    const unsigned parts = MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS | MENSUR_PART_FIGURES_ALONE;
    struct unsure cut = *drawn;
    struct mensur_profile now, then, liked;
    struct mensur_fault fault = {""};
    bool met = true;
    if (!likely[row].leave) {
        cut.kestrel.measure[likely[row].for_stop ? MENSUR_FIELD_STOP : MENSUR_FIELD_NECK].value =
            place;
    }
    profile_of(demo, drawn, parts, &now);
    profile_of(demo, &cut, parts, &then);
    check_status(
        "liked",
        mensur_ask_profile(&drawn->stock, &drawn->heron, &demo->terms, parts, &fault, &liked),
        MENSUR_OK);
    for (size_t i = 0; i < likely[row].count; i++) {
        const struct mensur_wish *wish = &likely[row].wishes[i];
        double of = !wish->percent     ? 1
                    : likely[row].like ? liked.strings[3].tension
                                       : now.strings[3].tension;
        double figure = wished_figure(&then, wish) / of;
        met = met && !(figure < wish->low) && !(figure > wish->high);
    }
    if (likely[row].like) {
        met = met && fabs(then.lengths.string_length - liked.lengths.string_length) <= 0.001;
    }
    mensur_profile_clear(&now);
    mensur_profile_clear(&then);
    mensur_profile_clear(&liked);
    return met;
}

static void test_likelihood(void **state) {
    const struct demo *demo = *state;
    struct unsure unsure;
    struct unsure drawn;
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    unsure_make(demo, &unsure);
    unsure_copy(&unsure, &drawn);
    for (size_t row = 0; row < COUNT_OF(likely); row++) {
        const struct mensur_wishes wishes = {.like = likely[row].like ? &unsure.heron : NULL,
                                             .items = likely[row].wishes,
                                             .count = likely[row].count};
        struct mensur_decision decision;
        struct mensur_fault fault = {""};
        int met = 0;
        check_status(likely[row].row,
                     mensur_ask_decision(&unsure.stock, &unsure.kestrel, &wishes,
                                         likely[row].for_stop, &demo->terms, &fault, &decision),
                     MENSUR_OK);
        assert_true(decision.can_meet_all);
        assert_int_equal(decision.leave, likely[row].leave);
        gsl_rng_set(rng, 300 + row);
        for (int i = 0; i < DRAWS; i++) {
            draw(rng, &unsure, &drawn);
            met += is_met(demo, &drawn, row, decision.recommended_place);
        }
        check_close(likely[row].row, decision.likelihood, (double)met / DRAWS, allowed_share(), 0);
        mensur_decision_clear(&decision);
    }
    unsure_clear(&unsure);
    drawn_clear(&drawn);
    gsl_rng_free(rng);
}

/* Very likely, likely, and what to measure better; by the instrument, and by its strings, where a
 * wish hangs on them. Of a conflict whether the measurements can tell it. */
static void test_verdict(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *row;
        struct mensur_wish wish;
        double stop_mm, diameter_part;
        bool by_material; /* the strings' density is their material's */
        enum mensur_known too_coarse;
        double least, most; /* likelihood */
        const char *holds;  /* NULL: nothing is said */
    } rows[] = {
        {"fine", TENSION(false, 60, 64), 0.1, 0.0001, false, MENSUR_NO, 0.99, 1,
         "very likely (99 %)"},
        {"likely", LENGTH(0.371, 0.374), 1, 0, true, MENSUR_YES, 0.8, 0.95, "likely (8"},
        {"stop", TENSION(false, 60, 61.3), 3, 0.0001, false, MENSUR_YES, 0.2, 0.8,
         "measure the stop better before anything is cut"},
        {"string", TENSION(false, 60, 64), 0.1, 0.05, false, MENSUR_YES, 0.2, 0.8,
         "measure the A4 diameter better"},
        {"string alone", TENSION(false, 60, 64), 0, 0.05, false, MENSUR_YES, 0.2, 0.8,
         "the A4 diameter better"},
        {"material", TENSION(false, 60, 62), 0.1, 0.0001, true, MENSUR_YES, 0.2, 0.8,
         "measure the gut density better"},
        {"stop alone", LENGTH(0.370, 0.376), 0.1, 0, true, MENSUR_NO, 0.99, 1,
         "very likely (99 %)"},
        {"no string counts", LENGTH(0.370, 0.376), 0, 0.05, true, MENSUR_UNSURE, NAN, NAN, NULL},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_wishes wishes = {.items = &rows[i].wish, .count = 1};
        struct mensur_instrument kestrel = demo->kestrel; /* texts borrowed */
        struct mensur_stock stock;
        struct mensur_decision decision;
        struct mensur_fault fault = {""};
        demo_own_strings(demo, 0, &stock);
        kestrel.measure[MENSUR_FIELD_STOP].plus_minus = rows[i].stop_mm / 1000;
        for (size_t k = 0; k < stock.string_count; k++) {
            stock.strings[k].diameter.plus_minus =
                rows[i].diameter_part * stock.strings[k].diameter.value;
            const struct mensur_material *material =
                mensur_stock_material(&stock, stock.strings[k].material);
            if (!rows[i].by_material && material != NULL) {
                stock.strings[k].density.value = material->density;
            }
        }
        check_status(
            rows[i].row,
            mensur_ask_decision(&stock, &kestrel, &wishes, false, &demo->terms, &fault, &decision),
            MENSUR_OK);
        assert_int_equal(decision.too_coarse, rows[i].too_coarse);
        if (rows[i].holds != NULL) {
            if (!(decision.likelihood >= rows[i].least && decision.likelihood <= rows[i].most)) {
                fail_msg("%s: likelihood %g", rows[i].row, decision.likelihood);
            }
            check_holds(said(&decision.how_sure, 0), rows[i].holds);
        } else {
            assert_int_equal(said_count(&decision.how_sure), 0);
            check_close(rows[i].row, decision.place_low_plus_minus, NAN, 0, 0);
            check_close(rows[i].row, decision.likelihood, NAN, 0, 0);
        }
        mensur_decision_clear(&decision);
        free(stock.strings);
    }
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
    /* and that of gut's density, 1261 to 1339 kg/m3, stated slack: T (1 + T/EA) goes as the density
     * and, as EA does, as the diameter's square; what is assumed of the board moves the string a
     * little */
    double tension = profile.strings[3].tension;
    double stretch = tension / (5.5e9 * 3.14159265358979323846 / 4 * pow(spec->diameter.value, 2));
    double by_density = 39 / sqrt(3) / 1300 * (1 + stretch) / (1 + 2 * stretch);
    check_close("A4, twice the diameter's", profile.spread->strings[3].tension,
                hypot(0.04, by_density) * tension, 0, 1e-4);
    check_close("C3, which nothing is stated of", profile.spread->strings[0].tension, 0, 1e-9, 0);
    assert_string_equal(profile.spread->matters[0].field, "A4 diameter");
    assert_string_equal(profile.spread->matters[0].of, "total_tension_N");
    assert_false(profile.spread->matters[0].assumed);
    assert_string_equal(profile.spread->matters[1].field, "gut density");
    assert_true(profile.spread->matters[1].assumed);
    mensur_profile_clear(&profile);
    spec->diameter.plus_minus = 0;
}

/* A violin that gives body, stop and neck, and says of its neck how sure it is. Heights are drawn
 * as if they were measured: projection and clearance over it apart, the bridge on both. */
static void test_assumed_heights(void **state) {
    const struct demo *demo = *state;
    static const struct {
        enum mensur_field field;
        double usual, spread; /* mm */
    } heights[] = {{MENSUR_FIELD_BACK_ARCH, 10.7, 1},  {MENSUR_FIELD_OVERSTAND, 6.5, 0.4},
                   {MENSUR_FIELD_BOARD, 8.7, 0.4},     {MENSUR_FIELD_BOARD_NUT, 7, 0.4},
                   {MENSUR_FIELD_NUT, 0.4, 0.1},       {MENSUR_FIELD_ARCH, 11.5, 1},
                   {MENSUR_FIELD_PROJECTION, 27, 0.5}, {MENSUR_FIELD_BRIDGE, 5.5, 0.4},
                   {MENSUR_FIELD_SADDLE, 4, 0.75},     {MENSUR_FIELD_NECK, 130, 0.3}};
    struct mensur_instrument violin;
    struct mensur_profile profile;
    struct mensur_fault fault = {""};
    struct moments angle = {0, 0, 0}, length = {0, 0, 0};
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_rng_set(rng, 103);
    mensur_instrument_init(&violin);
    check_status("name", mensur_text_copy("violin", 6, &violin.name), MENSUR_OK);
    check_status("family", mensur_text_copy("violin", 6, &violin.family), MENSUR_OK);
    demo_set(&violin, MENSUR_FIELD_BODY, 355);
    demo_set(&violin, MENSUR_FIELD_STOP, 195);
    violin.measure[MENSUR_FIELD_NECK] = (struct mensur_quantity){0.130, 0.0003};
    check_status("ask",
                 mensur_ask_profile(&demo->shop.stock, &violin, &demo->terms, MENSUR_PART_LENGTHS,
                                    &fault, &profile),
                 MENSUR_OK);
    const struct mensur_spread *spread = profile.spread;
    check_close("angle", mensur_from_si(MENSUR_ANGLE, spread->lengths.break_angle), 0.8, 0.05, 0);
    /* the neck's, then the angle's */
    assert_string_equal(spread->matters[0].field, "neck");
    const struct mensur_matter *last = &spread->matters[spread->matter_count - 3];
    assert_string_equal(last->of, "break_angle_deg");
    assert_string_equal(last->field, "arch");
    assert_true(last->assumed);
    assert_string_equal(last[1].field, "projection");
    assert_string_equal(last[2].field, "saddle");
    for (int i = 0; i < DRAWS; i++) {
        struct mensur_instrument drawn = violin; /* texts borrowed */
        struct mensur_profile got;
        for (size_t h = 0; h < COUNT_OF(heights); h++) {
            double mm = heights[h].usual + gsl_ran_gaussian_ziggurat(rng, 1) * heights[h].spread;
            demo_set(&drawn, heights[h].field, mm);
        }
        drawn.measure[MENSUR_FIELD_BRIDGE].value += drawn.measure[MENSUR_FIELD_PROJECTION].value;
        check_status("draw",
                     mensur_ask_profile(&demo->shop.stock, &drawn, &demo->terms,
                                        MENSUR_PART_LENGTHS | MENSUR_PART_FIGURES_ALONE, &fault,
                                        &got),
                     MENSUR_OK);
        take(&angle, got.lengths.break_angle);
        take(&length, got.lengths.string_length);
        mensur_profile_clear(&got);
    }
    check_close("angle", spread->lengths.break_angle, deviation(&angle), 0, allowed());
    check_close("length", spread->lengths.string_length, deviation(&length), 0, allowed());
    mensur_profile_clear(&profile);
    /* Nothing is stated: there is no plus or minus at all. */
    violin.measure[MENSUR_FIELD_NECK].plus_minus = 0;
    check_status("ask",
                 mensur_ask_profile(&demo->shop.stock, &violin, &demo->terms, MENSUR_PART_LENGTHS,
                                    &fault, &profile),
                 MENSUR_OK);
    assert_null(profile.spread);
    mensur_profile_clear(&profile);
    mensur_instrument_clear(&violin);
    gsl_rng_free(rng);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_profile),        cmocka_unit_test(test_change),
        cmocka_unit_test(test_decision),       cmocka_unit_test(test_likelihood),
        cmocka_unit_test(test_verdict),        cmocka_unit_test(test_string),
        cmocka_unit_test(test_assumed_heights)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
