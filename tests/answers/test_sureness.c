/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure answers are where a measurement, moved by what it leaves open, has no answer any more;
 * and which measurements count. */
#include "demo.h"
#include "said.h"
#include "setup.h"

/* How often a side view is solved, an instrument set up, and one that is set up moved along its
 * neck (or stop). */
static struct { int solved, made, moved; } counted;

enum mensur_status __real_mensur_geometry_solve(const struct mensur_side_view *view,
                                                struct mensur_geometry *out);
enum mensur_status __wrap_mensur_geometry_solve(const struct mensur_side_view *view,
                                                struct mensur_geometry *out);

enum mensur_status __wrap_mensur_geometry_solve(const struct mensur_side_view *view,
                                                struct mensur_geometry *out) {
    counted.solved++;
    return __real_mensur_geometry_solve(view, out);
}

enum mensur_status __real_setup_make(struct mensur_solver *solver, const struct mensur_stock *stock,
                                     const struct mensur_instrument *instrument,
                                     const struct setup *from, enum mensur_hold hold,
                                     struct mensur_fault *fault, struct setup *out);
enum mensur_status __wrap_setup_make(struct mensur_solver *solver, const struct mensur_stock *stock,
                                     const struct mensur_instrument *instrument,
                                     const struct setup *from, enum mensur_hold hold,
                                     struct mensur_fault *fault, struct setup *out);

enum mensur_status __wrap_setup_make(struct mensur_solver *solver, const struct mensur_stock *stock,
                                     const struct mensur_instrument *instrument,
                                     const struct setup *from, enum mensur_hold hold,
                                     struct mensur_fault *fault, struct setup *out) {
    counted.made++;
    return __real_setup_make(solver, stock, instrument, from, hold, fault, out);
}

enum mensur_status __real_setup_move(const struct setup *from, double neck, double stop,
                                     enum mensur_hold hold, struct setup *out);
enum mensur_status __wrap_setup_move(const struct setup *from, double neck, double stop,
                                     enum mensur_hold hold, struct setup *out);

enum mensur_status __wrap_setup_move(const struct setup *from, double neck, double stop,
                                     enum mensur_hold hold, struct setup *out) {
    counted.moved++;
    return __real_setup_move(from, neck, stop, hold, out);
}

static void give(struct mensur_instrument *instrument, enum mensur_field field, double mm,
                 double plus_minus_mm) {
    instrument->measure[field] =
        (struct mensur_quantity){.value = mm / 1000, .plus_minus = plus_minus_mm / 1000};
}

static void decide(const struct demo *demo, const struct mensur_instrument *instrument,
                   const struct mensur_wishes *wishes, struct mensur_decision *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status = mensur_ask_decision(&demo->shop.stock, instrument, wishes, false,
                                                    &demo->terms, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* Out of reach nothing is said of how sure that is. */
static void out_of_reach(void **state) {
    const struct demo *demo = *state;
    struct mensur_wish ratio = {.kind = MENSUR_WISH_RATIO, .low = 9, .high = 10};
    struct mensur_wishes wishes = {.items = &ratio, .count = 1};
    struct mensur_decision d;
    decide(demo, &demo->heron, &wishes, &d);
    assert_false(d.can_meet_all || d.conflict.exists);
    assert_int_equal(d.too_coarse, MENSUR_UNSURE);
    assert_int_equal(said_count(&d.how_sure), 0);
    mensur_decision_clear(&d);
}

/* A bridge a hundredth of a millimetre over the projection, and measured to two millimetres: a
 * hundredth of that lower it would carry no string, so what hangs on it is not known to any part.
 */
static void near_the_board(void **state) {
    const struct demo *demo = *state;
    struct mensur_wishes like = {.like = &demo->heron};
    struct mensur_instrument low;
    struct mensur_decision d;
    check_status("copy", mensur_instrument_copy(&demo->kestrel, &low), MENSUR_OK);
    give(&low, MENSUR_FIELD_BRIDGE, 32.01, 2);
    decide(demo, &low, &like, &d);
    check_close("spread", d.present.spread->lengths.string_length, NAN, 0, 0);
    check_close("place", d.place_low_plus_minus, NAN, 0, 0);
    assert_int_equal(d.too_coarse, MENSUR_UNSURE);
    assert_int_equal(said_count(&d.how_sure), 0);
    mensur_decision_clear(&d);
    like.like = &low;
    decide(demo, &demo->heron, &like, &d);
    check_close("liked", d.like.spread->lengths.string_length, NAN, 0, 0);
    check_close("place by it", d.place_low_plus_minus, NAN, 0, 0);
    assert_int_equal(said_count(&d.how_sure), 0);
    mensur_decision_clear(&d);
    mensur_instrument_clear(&low);
}

/* Two wishes less than a millimetre apart, on a stop that is known to four. */
static void coarse_conflict(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument coarse;
    struct mensur_profile now;
    struct mensur_fault fault = {""};
    struct mensur_decision d;
    check_status("copy", mensur_instrument_copy(&demo->kestrel, &coarse), MENSUR_OK);
    give(&coarse, MENSUR_FIELD_STOP, 214, 4);
    check_status(
        "now",
        mensur_ask_profile(&demo->shop.stock, &coarse, &demo->terms, MENSUR_PART_ALL, &fault, &now),
        MENSUR_OK);
    const struct mensur_wish apart[] = {
        {.kind = MENSUR_WISH_STRING_LENGTH, .low = now.lengths.string_length + 0.0005, .high = NAN},
        {.kind = MENSUR_WISH_LEFT_REACH, .low = NAN, .high = now.lengths.left_reach - 0.0003}};
    struct mensur_wishes wishes = {.items = apart, .count = 2};
    decide(demo, &coarse, &wishes, &d);
    assert_true(d.conflict.exists);
    assert_int_equal(d.too_coarse, MENSUR_YES);
    check_holds(said(&d.how_sure, 0),
                "too coarse to tell whether the wishes conflict. Measure the stop");
    mensur_decision_clear(&d);
    mensur_profile_clear(&now);
    mensur_instrument_clear(&coarse);
}

static void change(const struct demo *demo, const struct mensur_instrument *instrument,
                   const struct mensur_change *changes, size_t count,
                   struct mensur_comparison *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_change(&demo->shop.stock, instrument, changes, count, &demo->terms, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* Changes that cannot be made again with the measurement moved: a body that would end before the
 * bridge, a bridge that would lie on the board; and of an instrument that cannot be made itself. */
static void changes_on_the_edge(void **state) {
    const struct demo *demo = *state;
    static const struct mensur_change rows[] = {
        {.field = MENSUR_FIELD_BODY, .value = {.value = 0.217, .plus_minus = 0.400}},
        {.field = MENSUR_FIELD_BRIDGE, .value = {.value = 0.03203, .plus_minus = 0.005}},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_comparison c;
        change(demo, &demo->kestrel, &rows[i], 1, &c);
        assert_null(c.instruments[0].spread);
        check_close("changed", c.instruments[1].spread->lengths.break_angle, NAN, 0, 0);
        mensur_comparison_clear(&c);
    }
    struct mensur_instrument low = demo->kestrel; /* texts borrowed */
    struct mensur_comparison c;
    const struct mensur_change longer = {
        .field = MENSUR_FIELD_NECK, .relative = true, .value = {.value = 0.006}};
    give(&low, MENSUR_FIELD_BRIDGE, 32.01, 2);
    change(demo, &low, &longer, 1, &c);
    for (size_t i = 0; i < c.count; i++) {
        check_close("of none", c.instruments[i].spread->lengths.break_angle, NAN, 0, 0);
    }
    mensur_comparison_clear(&c);
}

/* A neck as short as the board allows, and a board that is not known to the centimetre. */
static void recommended_on_the_edge(void **state) {
    const struct demo *demo = *state;
    struct mensur_wish near = {.kind = MENSUR_WISH_STRING_LENGTH, .low = 0.2, .high = 0.36};
    struct mensur_wishes wishes = {.items = &near, .count = 1};
    struct mensur_instrument wren;
    struct mensur_decision d;
    check_status("copy", mensur_instrument_copy(&demo->wren, &wren), MENSUR_OK);
    give(&wren, MENSUR_FIELD_BOARD_LENGTH, 359.9, 20);
    decide(demo, &wren, &wishes, &d);
    assert_true(isfinite(d.present.spread->lengths.string_length));
    check_close("recommended", d.recommended.spread->lengths.string_length, NAN, 0, 0);
    mensur_decision_clear(&d);
    mensur_instrument_clear(&wren);
}

/* The strings of a tuning that was changed, or that there was none of, have spreads of their own.
 */
static void other_tunings(void **state) {
    struct demo known = *(const struct demo *)*state; /* its own materials, which are known well */
    const struct demo *demo = &known;
    static const struct mensur_change strung[] = {
        {.of = MENSUR_CHANGE_STRINGS, .text = "five-string synthetic"},
        {.of = MENSUR_CHANGE_TUNING, .text = "five-string"}};
    struct mensur_instrument violin;
    struct mensur_comparison c;
    struct mensur_stock *stock = &known.shop.stock;
    struct mensur_material *materials = calloc(stock->material_count, sizeof *materials);
    assert_non_null(materials);
    for (size_t i = 0; i < stock->material_count; i++) {
        materials[i] = stock->materials[i];
        materials[i].density_spread = materials[i].strength_spread = 0;
    }
    stock->materials = materials;
    demo_bare_violin(&violin);
    give(&violin, MENSUR_FIELD_NECK, 130, 1);
    change(demo, &violin, strung, 2, &c);
    const struct mensur_profile *now = &c.instruments[1];
    assert_int_equal(now->string_count, 5);
    check_close("without strings", c.instruments[0].spread->total_tension, NAN, 0, 0);
    double part = now->spread->lengths.string_length / now->lengths.string_length;
    for (size_t i = 0; i < now->string_count; i++) {
        const struct mensur_string_figures *string = &now->strings[i];
        assert_string_equal(now->spread->strings[i].note, string->note);
        /* T goes as the square of the length, of slack strings too but for their stretch */
        check_close(string->note, now->spread->strings[i].tension, 2 * part * string->tension, 0,
                    1e-3);
    }
    mensur_comparison_clear(&c);
    free(materials);
    mensur_instrument_clear(&violin);
}

/* Of many changes to one measurement the last holds, with its ±. */
static void changes_that_overtake(void **state) {
    const struct demo *demo = *state;
    struct mensur_change many[MENSUR_FIELD_COUNT + 5];
    struct mensur_comparison c, once;
    for (size_t i = 0; i < COUNT_OF(many); i++) {
        many[i] = (struct mensur_change){
            .field = MENSUR_FIELD_NECK,
            .value = {.value = 0.100 + 0.001 * (double)i, .plus_minus = 0.003}};
    }
    many[0] = (struct mensur_change){.of = MENSUR_CHANGE_STRINGS, .text = "viola steel"};
    many[1] = (struct mensur_change){.of = MENSUR_CHANGE_TUNING, .text = "five-string"};
    many[2] = (struct mensur_change){.of = MENSUR_CHANGE_STRINGS, .text = "viola synthetic"};
    many[3] = (struct mensur_change){.of = MENSUR_CHANGE_TUNING, .text = "viola"};
    many[COUNT_OF(many) - 1].value.plus_minus = 0.0007;
    const struct mensur_change last[] = {many[2], many[3], many[COUNT_OF(many) - 1]};
    change(demo, &demo->kestrel, many, COUNT_OF(many), &c);
    change(demo, &demo->kestrel, last, COUNT_OF(last), &once);
    check_close("length", c.instruments[1].spread->lengths.string_length,
                once.instruments[1].spread->lengths.string_length, 0, 0);
    check_close("tension", c.instruments[1].spread->strings[3].tension,
                once.instruments[1].spread->strings[3].tension, 0, 0);
    mensur_comparison_clear(&c);
    mensur_comparison_clear(&once);
}

/* A wrapping may say how sure it is, and nothing else does; another set's is not asked. */
static void wrappings(void **state) {
    const struct demo *demo = *state;
    for (int which = 0; which < 3; which++) {
        struct mensur_stock stock;
        struct mensur_profile profile;
        struct mensur_fault fault = {""};
        size_t changed = 0;
        demo_own_strings(demo, 0, &stock);
        for (size_t i = 0; i < stock.string_count; i++) {
            struct mensur_string_spec *spec = &stock.strings[i];
            bool own = spec->set != NULL && strcmp(spec->set, demo->kestrel.set) == 0;
            if (spec->set == NULL || own != (which < 2) || isnan(spec->wraps[0].thickness.value)) {
                continue;
            }
            struct mensur_wrap *wrap = &spec->wraps[0];
            if (which == 0) {
                wrap->thickness.plus_minus = 0.05 * wrap->thickness.value;
            } else {
                wrap->density = (struct mensur_quantity){.value = 9000, .plus_minus = 450};
            }
            changed++;
        }
        assert_true(changed > 0);
        check_status("profile",
                     mensur_ask_profile(&stock, &demo->kestrel, &demo->terms, MENSUR_PART_ALL,
                                        &fault, &profile),
                     MENSUR_OK);
        assert_int_equal(profile.spread != NULL, which < 2);
        if (profile.spread != NULL) {
            check_close("length", profile.spread->lengths.string_length, 0, 0, 0);
            assert_true(profile.spread->total_tension > 0);
            check_holds(profile.spread->matters[0].field, "wrapping's");
        }
        mensur_profile_clear(&profile);
        free(stock.strings);
    }
}

/* As many measurements as there can be: sixteen strings, each with every ±, on an instrument with
 * every ±, which is held against another one with as many; the last of them is moved too. */
static void as_many_as_can_be(void **state) {
    const struct demo *demo = *state;
    enum { SETS = 2 };
    static char sets[SETS][8] = {"this", "that"};
    static char tuning[] = "sixteen";
    struct mensur_string_spec specs[SETS * MENSUR_STRINGS_MAX];
    struct mensur_tuning sixteen = {.name = tuning, .count = MENSUR_STRINGS_MAX};
    struct mensur_stock stock = demo->shop.stock;
    struct mensur_instrument both[SETS] = {demo->kestrel, demo->heron}; /* texts borrowed */
    const struct mensur_wish percent = {
        .kind = MENSUR_WISH_TENSION, .note = "B8", .percent = true, .low = 1.003, .high = 1.01};
    struct mensur_wishes wishes = {.like = &both[1], .items = &percent, .count = 1};
    const struct mensur_quantity some = {.value = 0.001, .plus_minus = 1e-6};
    struct mensur_decision d;
    struct mensur_fault fault = {""};
    for (size_t i = 0; i < MENSUR_STRINGS_MAX; i++) {
        char name[3] = {"AB"[i % 2], "12345678"[i / 2], '\0'};
        check_status(name, mensur_note_read(name, 2, &sixteen.notes[i]), MENSUR_OK);
    }
    for (size_t i = 0; i < COUNT_OF(specs); i++) {
        struct mensur_string_spec *spec = &specs[i];
        mensur_string_spec_init(spec);
        spec->name = spec->set = sets[i / MENSUR_STRINGS_MAX];
        spec->note = sixteen.notes[i % MENSUR_STRINGS_MAX];
        spec->linear_density = spec->stated_tension = spec->stated_length = spec->diameter =
            spec->density = spec->core_diameter = spec->modulus = spec->strength = some;
        spec->stated_a4 = (struct mensur_quantity){.value = 440, .plus_minus = 1};
        spec->made_for_low = (struct mensur_quantity){.value = 0.3, .plus_minus = 0.001};
        spec->made_for_high = (struct mensur_quantity){.value = 0.4, .plus_minus = 0.001};
        for (size_t k = 0; k < MENSUR_WRAPS_MAX; k++) {
            spec->wraps[k].thickness = spec->wraps[k].density = some;
        }
    }
    /* only the last string's weight is not known well */
    specs[COUNT_OF(specs) - 1].linear_density.plus_minus = 2e-5;
    stock.strings = specs;
    stock.string_count = COUNT_OF(specs);
    stock.tunings = &sixteen;
    stock.tuning_count = 1;
    for (size_t i = 0; i < SETS; i++) {
        both[i].set = sets[i];
        both[i].tuning = tuning;
        for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
            both[i].measure[f].plus_minus = 1e-6;
        }
    }
    enum mensur_status status =
        mensur_ask_decision(&stock, &both[0], &wishes, false, &demo->terms, &fault, &d);
    check_status(fault.text, status, MENSUR_OK);
    assert_string_equal(d.like.spread->matters[0].field, "nut"); /* which is assumed */
    assert_true(d.like.spread->strings[15].tension > 10 * d.like.spread->strings[14].tension);
    assert_string_equal(d.matters[0].field, "heron B8 linear_density");
    mensur_decision_clear(&d);
}

/* Ten measurements say how sure they are, eight values are assumed: board, board_nut, nut,
 * board_length, afterlength and heel, density and strength of gut. An answer sets its instrument up
 * 2 n + 1 times, once as it is and twice for each of these, of an instrument or of its strings;
 * with a second instrument, each of both. */
static void set_ups(void **state) {
    const struct demo *demo = *state;
    enum { TEN = 10, EIGHT = 8, ONCE = 2 * (TEN + EIGHT) + 1, MOVES = 50 };
    static const enum mensur_field fields[] = {
        MENSUR_FIELD_STOP,       MENSUR_FIELD_NECK,      MENSUR_FIELD_OVERSTAND,
        MENSUR_FIELD_PROJECTION, MENSUR_FIELD_BRIDGE,    MENSUR_FIELD_BODY,
        MENSUR_FIELD_SADDLE,     MENSUR_FIELD_ARCH_FULL, MENSUR_FIELD_EDGE};
    const struct mensur_change longer = {
        .field = MENSUR_FIELD_NECK, .relative = true, .value = {.value = 0.006}};
    const struct mensur_wish total = {.kind = MENSUR_WISH_TOTAL_TENSION, .low = 196, .high = 206};
    struct mensur_wishes wishes = {.items = &total, .count = 1};
    struct mensur_instrument kestrel = demo->kestrel; /* texts borrowed */
    struct mensur_stock stock;
    struct mensur_profile profile;
    struct mensur_comparison comparison;
    struct mensur_decision decision;
    struct mensur_fault fault = {""};
    demo_own_strings(demo, 0, &stock);
    for (size_t i = 0; i < COUNT_OF(fields); i++) {
        assert_true(kestrel.measure[fields[i]].value > 0);
        kestrel.measure[fields[i]].plus_minus = 0.0002;
    }
    for (size_t i = 0; i < stock.string_count; i++) {
        bool a4 = strcmp(stock.strings[i].name, "viola A4 gut plain") == 0;
        stock.strings[i].diameter.plus_minus = a4 ? 0.01 * stock.strings[i].diameter.value : 0;
    }
    memset(&counted, 0, sizeof counted);
    check_status(
        "profile",
        mensur_ask_profile(&stock, &kestrel, &demo->terms, MENSUR_PART_ALL, &fault, &profile),
        MENSUR_OK);
    assert_true(profile.spread->strings[3].tension > profile.spread->strings[2].tension);
    assert_int_equal(counted.made, ONCE);
    assert_int_equal(counted.solved, ONCE);
    assert_int_equal(counted.moved, 0);
    mensur_profile_clear(&profile);

    memset(&counted, 0, sizeof counted);
    check_status("change",
                 mensur_ask_change(&stock, &kestrel, &longer, 1, &demo->terms, &fault, &comparison),
                 MENSUR_OK);
    assert_int_equal(counted.made, 2 * ONCE);
    assert_int_equal(counted.solved, 2 * ONCE);
    mensur_comparison_clear(&comparison);

    memset(&counted, 0, sizeof counted);
    check_status(
        "decision",
        mensur_ask_decision(&stock, &kestrel, &wishes, false, &demo->terms, &fault, &decision),
        MENSUR_OK);
    assert_true(decision.can_meet_all);
    assert_int_equal(counted.made, ONCE);
    assert_in_range(counted.moved, 1, MOVES * ONCE);
    mensur_decision_clear(&decision);

    memset(&counted, 0, sizeof counted);
    wishes.like = &demo->heron;
    check_status(
        "decision with a liked instrument",
        mensur_ask_decision(&stock, &kestrel, &wishes, false, &demo->terms, &fault, &decision),
        MENSUR_OK);
    /* the liked one says of one measurement more how sure it is, and leaves out nut, saddle,
     * board_length, afterlength and heel */
    assert_int_equal(counted.made, 2 * (ONCE + 2 * (1 + 5)));
    assert_in_range(counted.moved, 1, MOVES * (ONCE + 2 * (1 + 5)));
    mensur_decision_clear(&decision);
    free(stock.strings);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(out_of_reach),
                                       cmocka_unit_test(near_the_board),
                                       cmocka_unit_test(coarse_conflict),
                                       cmocka_unit_test(changes_on_the_edge),
                                       cmocka_unit_test(recommended_on_the_edge),
                                       cmocka_unit_test(other_tunings),
                                       cmocka_unit_test(changes_that_overtake),
                                       cmocka_unit_test(wrappings),
                                       cmocka_unit_test(set_ups),
                                       cmocka_unit_test(as_many_as_can_be)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
