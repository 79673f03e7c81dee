/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure answers are where a measurement, moved by what it leaves open, has no answer any more;
 * and which measurements count. */
#include "demo.h"
#include "spread.h"
#include "said.h"

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

/* A bridge a tenth of a millimetre over the board, and measured to two: lower it would carry no
 * string, so what hangs on it is not known to any part. */
static void near_the_board(void **state) {
    const struct demo *demo = *state;
    struct mensur_wishes like = {.like = &demo->heron};
    struct mensur_instrument low;
    struct mensur_decision d;
    check_status("copy", mensur_instrument_copy(&demo->kestrel, &low), MENSUR_OK);
    give(&low, MENSUR_FIELD_BRIDGE, 32.1, 2);
    decide(demo, &low, &like, &d);
    check_close("spread", d.present.spread->lengths.string_length, NAN, 0, 0);
    check_close("place", d.place_low_plus_minus, NAN, 0, 0);
    assert_int_equal(d.too_coarse, MENSUR_UNSURE);
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
 * bridge, a bridge that would lie on the board. */
static void changes_on_the_edge(void **state) {
    const struct demo *demo = *state;
    static const struct mensur_change rows[] = {
        {.field = MENSUR_FIELD_BODY, .value = {.value = 0.217, .plus_minus = 0.040}},
        {.field = MENSUR_FIELD_BRIDGE, .value = {.value = 0.0323, .plus_minus = 0.005}},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_comparison c;
        change(demo, &demo->kestrel, &rows[i], 1, &c);
        assert_null(c.instruments[0].spread);
        check_close("changed", c.instruments[1].spread->lengths.break_angle, NAN, 0, 0);
        mensur_comparison_clear(&c);
    }
}

/* A neck as short as the board allows, and a board that is not known to the millimetre. */
static void recommended_on_the_edge(void **state) {
    const struct demo *demo = *state;
    struct mensur_wish near = {.kind = MENSUR_WISH_STRING_LENGTH, .low = 0.2, .high = 0.36};
    struct mensur_wishes wishes = {.items = &near, .count = 1};
    struct mensur_instrument wren;
    struct mensur_decision d;
    check_status("copy", mensur_instrument_copy(&demo->wren, &wren), MENSUR_OK);
    give(&wren, MENSUR_FIELD_BOARD_LENGTH, 359.9, 2);
    decide(demo, &wren, &wishes, &d);
    assert_true(isfinite(d.present.spread->lengths.string_length));
    check_close("recommended", d.recommended.spread->lengths.string_length, NAN, 0, 0);
    mensur_decision_clear(&d);
    mensur_instrument_clear(&wren);
}

/* The strings of a tuning that was changed, or that there was none of, have spreads of their own.
 */
static void other_tunings(void **state) {
    const struct demo *demo = *state;
    static const struct mensur_change strung[] = {{.set = "five-string synthetic"},
                                                  {.tuning = "five-string"}};
    struct mensur_instrument violin;
    struct mensur_comparison c;
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
    many[0] = (struct mensur_change){.set = "viola steel"};
    many[1] = (struct mensur_change){.tuning = "five-string"};
    many[2] = (struct mensur_change){.set = "viola synthetic"};
    many[3] = (struct mensur_change){.tuning = "viola"};
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

/* No more measurements are moved than there is room for. */
static void more_than_room(void **state) {
    const struct demo *demo = *state;
    struct mensur_stock stock;
    struct mensur_tuning sixteen = *mensur_stock_tuning(&demo->shop.stock, "viola");
    struct mensur_instrument kestrel;
    struct varied varied;
    demo_own_strings(demo, 0, &stock);
    for (size_t i = 0; i < stock.string_count; i++) {
        struct mensur_string_spec *spec = &stock.strings[i];
        spec->linear_density.plus_minus = spec->stated_tension.plus_minus = 1e-6;
        spec->linear_density.value = spec->stated_tension.value = 0.001;
        for (size_t k = 0; k < MENSUR_WRAPS_MAX; k++) {
            spec->wraps[k].thickness = spec->wraps[k].density = spec->linear_density;
        }
    }
    for (sixteen.count = 4; sixteen.count < MENSUR_STRINGS_MAX; sixteen.count++) {
        sixteen.notes[sixteen.count] = sixteen.notes[sixteen.count % 4];
    }
    stock.tunings = &sixteen;
    stock.tuning_count = 1;
    check_status("copy", mensur_instrument_copy(&demo->kestrel, &kestrel), MENSUR_OK);
    give(&kestrel, MENSUR_FIELD_STOP, 214, 0.5);
    varied_make(&stock, &kestrel, NULL, 0, NAN, NAN, &demo->terms, &varied);
    assert_int_equal(varied.spec_count, MENSUR_STRINGS_MAX);
    assert_int_equal(varied.measured_count, MENSUR_MEASUREMENTS_MAX);
    assert_string_equal(varied.measured[0].field, "stop");
    mensur_instrument_clear(&kestrel);
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
                                       cmocka_unit_test(more_than_room)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
