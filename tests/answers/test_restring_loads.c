/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What strings do to bridge and neck, with the strings that are there and with those recommended,
 * and how sure that is: against statics worked out here, from tensions and points of the side view.
 */
#include "demo.h"
#include "said.h"

enum { STRINGS = 4 };

/* Two sets of violin strings, with what they weigh at pitch alone, g/m. */
static const char *const notes[STRINGS] = {"G3", "D4", "A4", "E5"};
static const double weights[2][STRINGS] = {{2.55, 1.30, 0.68, 0.41}, {2.75, 1.21, 0.62, 0.37}};
static char now_on[] = "worn", newly[] = "new";

/* The ± of a weight, as a part of it, of each set's strings. */
static const double unsure[STRINGS] = {0.02, 0, 0.01, 0.005};

/* Forces of the feet, N, and the neck's moment, N m; and how sure they are. */
struct loads {
    double treble, bass, moment;
};

/* Across at a place where the outer strings lie so far apart, m, the highest positive. */
static double across(double apart, size_t i) {
    return apart * ((double)i / (STRINGS - 1) - 0.5);
}

/* The foot's share of each string's tension: moments about the other foot, of the string's force
 * down on the bridge and of its force across, which acts at the bridge's height. */
static double foot_share(const struct mensur_instrument *violin,
                         const struct mensur_profile *profile, size_t i, double foot_spacing,
                         double side) {
    const struct mensur_quantity *m = violin->measure;
    const struct mensur_side_points *p = &profile->side;
    double front = hypot(p->top_x - p->nut_x, p->top_y - p->nut_y);
    double behind = hypot(p->body_straight - p->top_x, p->top_y - p->saddle);
    double down = (p->top_y - p->nut_y) / front + (p->top_y - p->saddle) / behind;
    double x = across(m[MENSUR_FIELD_SPACING_BRIDGE].value, i);
    double to_nut = across(m[MENSUR_FIELD_SPACING_NUT].value, i) - x;
    double to_tail = across(m[MENSUR_FIELD_SPACING_TAIL].value, i) - x;
    double sideways = to_nut / front + to_tail / m[MENSUR_FIELD_AFTERLENGTH].value;
    return down / 2.0 + side * (down * x + sideways * m[MENSUR_FIELD_BRIDGE].value) / foot_spacing;
}

/* The arm of all tensions about the neck's root: how far the string's line passes from the board's
 * gluing surface at the belly's edge, (0, overstand). */
static double neck_arm(const struct mensur_instrument *violin,
                       const struct mensur_profile *profile) {
    const struct mensur_side_points *p = &profile->side;
    double run = p->top_x - p->nut_x, rise = p->top_y - p->nut_y;
    double over = violin->measure[MENSUR_FIELD_OVERSTAND].value;
    return (run * (p->nut_y - over) - p->nut_x * rise) / hypot(run, rise);
}

/* Mersenne's law on the point-to-point length, f from fifths of 3/2 on A4 = 440 Hz. */
static double tension_of(const struct mensur_profile *profile, size_t set, size_t i) {
    double f = 440.0 * pow(1.5, (double)i - 2.0), length = profile->lengths.string_length;
    return 4.0 * length * length * f * f * weights[set][i] / 1000.0;
}

static struct loads loads_by_hand(const struct mensur_instrument *violin,
                                  const struct mensur_profile *profile, size_t set,
                                  double foot_spacing) {
    struct loads loads = {0, 0, 0};
    for (size_t i = 0; i < STRINGS; i++) {
        double tension = tension_of(profile, set, i);
        loads.treble += tension * foot_share(violin, profile, i, foot_spacing, 1);
        loads.bass += tension * foot_share(violin, profile, i, foot_spacing, -1);
        loads.moment += tension * neck_arm(violin, profile);
    }
    return loads;
}

/* Tensions go with the weights, so that each string's part is its own ± times what it adds; the
 * tilt goes with one over the feet's distance. */
static struct loads sure_by_hand(const struct mensur_instrument *violin,
                                 const struct mensur_profile *profile, size_t set,
                                 double foot_spacing, double foot_plus_minus) {
    struct loads loads = loads_by_hand(violin, profile, set, foot_spacing);
    double tilt = (loads.treble - loads.bass) / 2.0 * foot_plus_minus / foot_spacing;
    struct loads squares = {tilt * tilt, tilt * tilt, 0};
    for (size_t i = 0; i < STRINGS; i++) {
        double off = unsure[i] * tension_of(profile, set, i);
        squares.treble += pow(off * foot_share(violin, profile, i, foot_spacing, 1), 2);
        squares.bass += pow(off * foot_share(violin, profile, i, foot_spacing, -1), 2);
        squares.moment += pow(off * neck_arm(violin, profile), 2);
    }
    return (struct loads){sqrt(squares.treble), sqrt(squares.bass), sqrt(squares.moment)};
}

/* A stock with the two sets, weights of the sets unsure by `unsure` where they are so. */
static void own_sets(const struct demo *demo, bool now_unsure, bool new_unsure,
                     struct mensur_stock *out) {
    demo_own_strings(demo, (size_t)2 * STRINGS, out);
    for (size_t k = 0; k < (size_t)2 * STRINGS; k++) {
        struct mensur_string_spec *spec = &out->strings[k];
        size_t set = k / STRINGS, i = k % STRINGS;
        spec->set = set == 0 ? now_on : newly;
        spec->name = spec->set;
        check_status(notes[i], mensur_note_read(notes[i], 2, &spec->note), MENSUR_OK);
        bool is_unsure = set == 0 ? now_unsure : new_unsure;
        spec->linear_density = (struct mensur_quantity){
            .value = weights[set][i] / 1000.0,
            .plus_minus = is_unsure ? unsure[i] * weights[set][i] / 1000.0 : NAN};
    }
}

/* A violin without a family, so that nothing is assumed, all measured but what a row leaves out. */
static void whole_violin(double foot_spacing, double plus_minus, struct mensur_instrument *out) {
    static const struct {
        enum mensur_field field;
        double mm;
    } more[] = {{MENSUR_FIELD_BODY_STRAIGHT, 352}, {MENSUR_FIELD_BOARD_NUT, 7},
                {MENSUR_FIELD_AFTERLENGTH, 54},    {MENSUR_FIELD_SPACING_BRIDGE, 33.5},
                {MENSUR_FIELD_SPACING_NUT, 16.5},  {MENSUR_FIELD_SPACING_TAIL, 29}};
    demo_bare_violin(out);
    for (size_t i = 0; i < COUNT_OF(more); i++) {
        demo_set(out, more[i].field, more[i].mm);
    }
    demo_set(out, MENSUR_FIELD_FOOT_SPACING, foot_spacing);
    out->measure[MENSUR_FIELD_FOOT_SPACING].plus_minus = plus_minus / 1000.0;
    (void)mensur_text_copy("violin", 6, &out->tuning);
    (void)mensur_text_copy(now_on, strlen(now_on), &out->set);
}

static void ask(const struct demo *demo, const struct mensur_stock *stock,
                const struct mensur_instrument *violin, struct mensur_restringing *out) {
    const struct mensur_restring_wishes wishes = {
        .least_margin = NAN, .most_belly_force = NAN, .any_length = true, .from = newly};
    struct mensur_fault fault = {""};
    check_status(fault.text, mensur_ask_restring(stock, violin, &wishes, &demo->terms, &fault, out),
                 MENSUR_OK);
    assert_int_equal(out->set_count, 1);
    assert_string_equal(out->choices[0].set, newly);
    assert_false(out->leave);
}

/* As different as single steps of the sum round to; the ± as the first order differs from the
 * difference over one ± either way, at most (u/s)² = 0.001. */
#define CHECK_LOADS(row, record, want, relative)                                                   \
    do {                                                                                           \
        check_close((row), (record)->force_on_treble_foot, (want).treble, 0, (relative));          \
        check_close((row), (record)->force_on_bass_foot, (want).bass, 0, (relative));              \
        check_close((row), (record)->neck_moment, (want).moment, 0, (relative));                   \
    } while (0)

/* Before and after; of the choice and of its set. A measurement that is not there takes its figure
 * with it. */
static void before_and_after(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *row;
        double foot_spacing;
        int left_out; /* a measurement; -1: none */
        bool feet, moment;
    } rows[] = {
        {"31 mm", 31, -1, true, true},
        {"28 mm", 28, -1, true, true},
        {"40 mm", 40, -1, true, true},
        {"without overstand", 31, MENSUR_FIELD_OVERSTAND, false, false},
        {"without the strings' places at the bridge", 31, MENSUR_FIELD_SPACING_BRIDGE, false, true},
        {"without the feet's distance", 31, MENSUR_FIELD_FOOT_SPACING, false, true},
        {"without the bridge's height", 31, MENSUR_FIELD_BRIDGE, false, false},
        {"without the strings' places at the nut", 31, MENSUR_FIELD_SPACING_NUT, false, true}};
    for (size_t r = 0; r < COUNT_OF(rows); r++) {
        struct mensur_stock stock;
        struct mensur_instrument violin;
        struct mensur_restringing answer;
        own_sets(demo, false, false, &stock);
        whole_violin(rows[r].foot_spacing, NAN, &violin);
        if (rows[r].left_out >= 0) {
            demo_set(&violin, (enum mensur_field)rows[r].left_out, NAN);
            demo_set(&violin, MENSUR_FIELD_STRING_LENGTH, 328);
        }
        ask(demo, &stock, &violin, &answer);
        for (size_t set = 0; set < 2; set++) {
            struct loads want =
                loads_by_hand(&violin, &answer.present, set, rows[r].foot_spacing / 1000.0);
            want.treble = rows[r].feet ? want.treble : NAN;
            want.bass = rows[r].feet ? want.bass : NAN;
            want.moment = rows[r].moment ? want.moment : NAN;
            if (set == 0) {
                CHECK_LOADS(rows[r].row, &answer.present, want, 1e-12);
            } else {
                CHECK_LOADS(rows[r].row, &answer.choices[0], want, 1e-12);
                CHECK_LOADS(rows[r].row, &answer.sets[0], want, 1e-12);
            }
        }
        assert_null(answer.present.spread);
        assert_null(answer.spread);
        mensur_restringing_clear(&answer);
        mensur_instrument_clear(&violin);
        free(stock.strings);
    }
}

/* How sure they are: of the strings that are there by their weights, of the new ones by theirs, of
 * both by the distance of the feet. */
static void how_sure(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *row;
        bool now_unsure, new_unsure;
        double foot_plus_minus; /* mm */
    } rows[] = {{"the weights of the strings that are there", true, false, NAN},
                {"of the new ones", false, true, NAN},
                {"the feet", false, false, 0.9},
                {"all", true, true, 0.9}};
    for (size_t r = 0; r < COUNT_OF(rows); r++) {
        const double feet = 31e-3, off = fmax(0.0, rows[r].foot_plus_minus / 1000.0);
        struct mensur_stock stock;
        struct mensur_instrument violin;
        struct mensur_restringing answer;
        own_sets(demo, rows[r].now_unsure, rows[r].new_unsure, &stock);
        whole_violin(1000.0 * feet, rows[r].foot_plus_minus, &violin);
        ask(demo, &stock, &violin, &answer);
        for (size_t set = 0; set < 2; set++) {
            bool is_unsure = set == 0 ? rows[r].now_unsure : rows[r].new_unsure;
            const struct mensur_spread *spread = set == 0 ? answer.present.spread : answer.spread;
            struct loads all = sure_by_hand(&violin, &answer.present, set, feet, off);
            struct loads tilt = loads_by_hand(&violin, &answer.present, set, feet);
            double alone = fabs(tilt.treble - tilt.bass) / 2.0 * off / feet;
            struct loads want = is_unsure ? all : (struct loads){alone, alone, 0};
            if (!is_unsure && !(off > 0.0)) {
                assert_null(spread);
            } else {
                assert_non_null(spread);
                CHECK_LOADS(rows[r].row, spread, want, 1e-3);
            }
        }
        mensur_restringing_clear(&answer);
        mensur_instrument_clear(&violin);
        free(stock.strings);
    }
}

/* A string that stays is one string: the same ± before and after. */
static void kept(void **state) {
    const struct demo *demo = *state;
    const struct mensur_restring_wishes wishes = {
        .least_margin = NAN, .most_belly_force = NAN, .any_length = true, .from = now_on};
    struct mensur_stock stock;
    struct mensur_instrument violin;
    struct mensur_restringing answer;
    struct mensur_fault fault = {""};
    own_sets(demo, true, false, &stock);
    whole_violin(31, 0.9, &violin);
    check_status(fault.text,
                 mensur_ask_restring(&stock, &violin, &wishes, &demo->terms, &fault, &answer),
                 MENSUR_OK);
    assert_true(answer.leave);
    const struct loads now = {answer.present.spread->force_on_treble_foot,
                              answer.present.spread->force_on_bass_foot,
                              answer.present.spread->neck_moment};
    CHECK_LOADS("kept", answer.spread, now, 0);
    mensur_restringing_clear(&answer);
    mensur_instrument_clear(&violin);
    free(stock.strings);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(before_and_after),
                                       cmocka_unit_test(how_sure), cmocka_unit_test(kept)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
