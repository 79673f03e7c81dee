/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decisions where something is missing, out of reach or on the very edge. */
#include "decision.h"
#include "demo.h"
#include "said.h"

static void decide(const struct demo *demo, const struct mensur_stock *stock,
                   const struct mensur_instrument *instrument, const struct mensur_wishes *wishes,
                   bool for_stop, struct mensur_decision *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_decision(stock, instrument, wishes, for_stop, &demo->terms, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* On one wish, with the demonstration's stock. */
static void decide_one(const struct demo *demo, const struct mensur_instrument *instrument,
                       struct mensur_wish wish, bool for_stop, struct mensur_decision *out) {
    struct mensur_wishes wishes = {.items = &wish, .count = 1};
    decide(demo, &demo->shop.stock, instrument, &wishes, for_stop, out);
}

static struct mensur_wish length(double low_mm, double high_mm) {
    return (struct mensur_wish){
        .kind = MENSUR_WISH_STRING_LENGTH, .low = low_mm / 1000, .high = high_mm / 1000};
}

static struct mensur_wish ratio(double low, double high) {
    return (struct mensur_wish){.kind = MENSUR_WISH_RATIO, .low = low, .high = high};
}

/* A violin without family, tuning and strings, whose string has some 328 mm. */
static void without_strings(void **state) {
    const struct demo *demo = *state;
    const struct {
        const char *row;
        struct mensur_wish wish;
        double wished_mm; /* the length that stands for the wishes; 0: the present one */
        const char *reason;
    } rows[] = {
        {"a range", length(330, 332), 331, "nearest to the middle of the wished length"},
        {"no less than", length(331, NAN), 331, "lies nearest the present one"},
        {"no more than", length(NAN, 326), 326, "lies nearest the present one"},
        {"out of reach above", length(900, 901), 900.5, "meets the wish for the string length"},
        {"out of reach below", length(100, 120), 110, "meets the wish for the string length"},
        {"a ratio that it has", ratio(2.95, 3.05), 0, "meets the wish"},
        {"a ratio that it nearly has", ratio(2.9, 2.95), 330.5725624068041,
         "lies nearest the present one"},
        {"no such ratio", ratio(9, 10), NAN, "meets the wish for the neck : stop"},
    };
    struct mensur_instrument violin;
    demo_bare_violin(&violin);
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_decision d;
        decide_one(demo, &violin, rows[i].wish, false, &d);
        double wished = rows[i].wished_mm / 1000;
        check_close(rows[i].row, d.wished_length,
                    wished < 0.1 ? d.present.lengths.string_length : wished, 1e-12, 0);
        check_holds(said(&d.reason, 0), rows[i].reason);
        assert_int_equal(d.instead_count, 0);
        check_close(rows[i].row, d.steps[0].total_tension, NAN, 0, 0);
        assert_int_equal(d.has_recommended, strstr(said(&d.reason, 0), "no neck") == NULL);
        mensur_decision_clear(&d);
    }
    mensur_instrument_clear(&violin);
}

/* What the neck already is costs nothing; what is liked is named. */
static void kept_and_liked(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin, other;
    struct mensur_decision d;
    demo_bare_violin(&violin);
    demo_bare_violin(&other);
    demo_set(&other, MENSUR_FIELD_NECK, 132);
    decide_one(demo, &violin, ratio(2.95, 3.05), false, &d);
    check_close("kept", d.recommended_place, 0.130, 0, 0);
    assert_int_equal(said_count(&d.changes), 0);
    mensur_decision_clear(&d);
    struct mensur_wishes like = {.like = &other};
    decide(demo, &demo->shop.stock, &violin, &like, false, &d);
    check_close("liked", d.recommended_place, 0.132, 1e-12, 0);
    check_holds(said(&d.reason, 0), "nearest to the liked instrument's string");
    mensur_decision_clear(&d);
    mensur_instrument_clear(&violin);
    mensur_instrument_clear(&other);
}

/* Percent are of the liked instrument's string of that note, if it has one that is known. */
static void percents(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument unstrung;
    struct mensur_profile kestrel, swift;
    struct mensur_fault fault = {""};
    struct mensur_wish wish = {
        .kind = MENSUR_WISH_TENSION, .percent = true, .low = 0.5, .high = 1.5};
    demo_model_violin(&unstrung);
    mensur_ask_profile(&demo->shop.stock, &demo->kestrel, &demo->terms, MENSUR_PART_ALL, &fault,
                       &kestrel);
    mensur_ask_profile(&demo->shop.stock, &demo->swift, &demo->terms, MENSUR_PART_ALL, &fault,
                       &swift);
    const struct {
        const char *row;
        const struct mensur_instrument *like;
        double c3, a4;
    } rows[] = {
        {"of its own", NULL, kestrel.strings[0].tension, kestrel.strings[3].tension},
        {"of a violin's", &demo->swift, kestrel.strings[0].tension, swift.strings[2].tension},
        {"of unknown ones", &unstrung, kestrel.strings[0].tension, kestrel.strings[3].tension}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_wishes wishes = {.like = rows[i].like, .items = &wish, .count = 1};
        struct mensur_decision d;
        decide(demo, &demo->shop.stock, &demo->kestrel, &wishes, false, &d);
        assert_string_equal(d.wants[0].what, "tension C3");
        check_close(rows[i].row, d.wants[0].low, 0.5 * rows[i].c3, 0, 1e-14);
        check_close(rows[i].row, d.wants[3].high, 1.5 * rows[i].a4, 0, 1e-14);
        mensur_decision_clear(&d);
    }
    mensur_profile_clear(&kestrel);
    mensur_profile_clear(&swift);
    mensur_instrument_clear(&unstrung);
}

static void refuses(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin, low_bridge;
    struct mensur_wish many[WISH_LINES_MAX + 2];
    const struct mensur_wish pull = {.kind = MENSUR_WISH_TENSION, .low = 30, .high = 90};
    const struct mensur_wish pulls = {.kind = MENSUR_WISH_TOTAL_TENSION, .low = 200, .high = NAN};
    demo_bare_violin(&violin);
    check_status("copy", mensur_instrument_copy(&demo->kestrel, &low_bridge), MENSUR_OK);
    demo_set(&low_bridge, MENSUR_FIELD_BRIDGE, 31);
    for (size_t i = 0; i < COUNT_OF(many); i++) {
        many[i] = length(350, 380);
    }
    many[WISH_LINES_MAX - 2] = pull; /* one for each string, and there is room for two */
    const struct {
        const char *row;
        const struct mensur_instrument *instrument;
        struct mensur_wishes wishes;
        enum mensur_status want;
        const char *fault;
    } rows[] = {
        {"a string alone",
         &demo->dipper,
         {.items = many, .count = 1},
         MENSUR_NO_ANSWER,
         "on the stop"},
        {"no strings to pull",
         &violin,
         {.items = &pulls, .count = 1},
         MENSUR_USE,
         "name a set in its column strings"},
        {"no notes", &violin, {.items = &pull, .count = 1}, MENSUR_USE, "tuned to any note"},
        {"too many wishes",
         &demo->kestrel,
         {.items = many, .count = COUNT_OF(many)},
         MENSUR_USE,
         "more wishes"},
        {"bridge on the board",
         &low_bridge,
         {.items = many, .count = 1},
         MENSUR_NO_ANSWER,
         "on the board"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_fault fault = {""};
        struct mensur_decision d = {.want_count = 77};
        check_status(rows[i].row,
                     mensur_ask_decision(&demo->shop.stock, rows[i].instrument, &rows[i].wishes,
                                         true, &demo->terms, &fault, &d),
                     rows[i].want);
        check_holds(fault.text, rows[i].fault);
        assert_int_equal(d.want_count, 77);
    }
    mensur_instrument_clear(&violin);
    mensur_instrument_clear(&low_bridge);
}

/* A range of length of which the strings state one side, or that no neck comes to. */
static void ranges(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *row;
        double low, high;
        bool leave;
        const char *reason;
    } rows[] = {
        {"no less than", 0.365, NAN, false, "made for 365.0 mm and more, a neck of 147.1 mm"},
        {"no more than", NAN, 0.36, false, "made for up to 360.0 mm, a neck up to 142.1 mm"},
        {"out of reach", 0.9, 1.0, false, "made for another length than any neck gives"},
        {"none in common", 0.38, 0.37, false, "no length in common"}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_stock stock;
        struct mensur_decision d;
        struct mensur_wish wide = ratio(2, 4);
        struct mensur_wishes wishes = {.items = &wide, .count = 1}, none = {.count = 0};
        demo_own_strings(demo, 0, &stock);
        for (size_t k = 0; k < stock.string_count; k++) {
            stock.strings[k].made_for_low.value = rows[i].low;
            stock.strings[k].made_for_high.value = rows[i].high;
        }
        decide(demo, &stock, &demo->kestrel, &wishes, false, &d);
        assert_int_equal(d.want_count, 1);
        assert_true(d.can_meet_all && d.leave);
        mensur_decision_clear(&d);
        decide(demo, &stock, &demo->kestrel, &none, false, &d);
        assert_int_equal(d.leave, rows[i].leave);
        check_holds(said(&d.reason, 0), rows[i].reason);
        mensur_decision_clear(&d);
        free(stock.strings);
    }
}

/* The string that would do instead: none is known of unknown strings; one of unknown weight is
 * passed over; and a catalogue may write its notes otherwise. */
static void instead(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin;
    struct mensur_stock stock;
    struct mensur_decision d, plain;
    struct mensur_wishes like = {.like = &demo->heron};
    demo_model_violin(&violin);
    decide_one(demo, &violin, length(330, 332), false, &d);
    assert_int_equal(d.instead_count, 4);
    assert_null(d.instead[1].present_string);
    assert_null(d.instead[1].nearest_string);
    check_close("unknown", d.instead[1].needed_linear_density, NAN, 0, 0);
    mensur_decision_clear(&d);
    mensur_instrument_clear(&violin);
    decide(demo, &demo->shop.stock, &demo->kestrel, &like, false, &plain);
    demo_own_strings(demo, 1, &stock);
    stock.strings[0].note = stock.strings[1].note;
    for (size_t i = 1; i < stock.string_count; i++) {
        if (strcmp(stock.strings[i].note.name, "A4") == 0) {
            stock.strings[0].note = stock.strings[i].note;
            strcpy(stock.strings[i].note.name, "a4");
        } else if (stock.strings[i].made_for_low.value < 0.370) {
            stock.strings[0].made_for_low.value = 0.1;
        }
    }
    decide(demo, &stock, &demo->kestrel, &like, false, &d);
    assert_string_equal(d.instead[2].nearest_string, plain.instead[2].nearest_string);
    assert_non_null(plain.instead[3].nearest_string);
    assert_null(d.instead[3].nearest_string);
    assert_non_null(d.instead[3].present_string);
    mensur_decision_clear(&d);
    mensur_decision_clear(&plain);
    free(stock.strings);
}

/* An end of what the wishes allow that lies by the last digit beside half a millimetre: rounding
 * must not leave the interval. With a stop of 216 mm a ratio r ends at 432 mm/r; the strings want a
 * neck of some 156 mm. */
static bool check_end(const struct demo *demo, const struct mensur_instrument *instrument, double r,
                      double half_mm) {
    double end = 2.0 * 0.216 / r;
    bool over = half_mm < 0.155 && floor(end * 2000.0) / 2000.0 > end;
    bool under = half_mm > 0.160 && ceil(end * 2000.0) / 2000.0 < end;
    const struct mensur_wish both[] = {length(200, 600), over ? ratio(r, NAN) : ratio(NAN, r)};
    struct mensur_wishes wishes = {.items = both, .count = 2};
    struct mensur_decision d;
    if (!over && !under) {
        return false;
    }
    decide(demo, &demo->shop.stock, instrument, &wishes, false, &d);
    check_close("end", over ? d.place_high : d.place_low, end, 0, 0);
    assert_true(d.recommended_place >= d.place_low && d.recommended_place <= d.place_high);
    check_close("half a millimetre", d.recommended_place, half_mm, 5.01e-4, 0);
    mensur_decision_clear(&d);
    return true;
}

static void rounds_inside(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument kestrel;
    int found[2] = {0};
    check_status("copy", mensur_instrument_copy(&demo->kestrel, &kestrel), MENSUR_OK);
    demo_set(&kestrel, MENSUR_FIELD_STOP, 216);
    for (int k = 150; k < 430; k++) {
        double half_mm = k / 2000.0;
        bool is_long = half_mm > 0.157;
        double r = 2.0 * 0.216 / half_mm;
        for (int ulp = 0; ulp < 4; ulp++) {
            r = nextafter(r, is_long ? 0.0 : INFINITY);
            found[is_long] += check_end(demo, &kestrel, r, half_mm);
        }
    }
    assert_true(found[0] > 0 && found[1] > 0);
    mensur_instrument_clear(&kestrel);
}

/* The table leaves out the stops that lie past the body's end; the search ends before it. */
static void body_ends_soon(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin;
    struct mensur_decision d;
    demo_bare_violin(&violin);
    violin.measure[MENSUR_FIELD_BODY] = MENSUR_UNKNOWN;
    demo_set(&violin, MENSUR_FIELD_BODY_STRAIGHT, 197);
    decide_one(demo, &violin, length(310, 316), true, &d);
    assert_true(d.can_meet_all);
    assert_true(d.steps[0].place < 0.183);
    check_close("last", d.steps[d.step_count - 1].place, 0.196, 1e-12, 0);
    mensur_decision_clear(&d);
    mensur_instrument_clear(&violin);
}

/* A left reach is met whatever the stop, or by none. */
static void stop_for_reach(void **state) {
    const struct demo *demo = *state;
    struct mensur_decision d;
    struct mensur_profile now;
    struct mensur_fault fault = {""};
    check_status("now",
                 mensur_ask_profile(&demo->shop.stock, &demo->kestrel, &demo->terms,
                                    MENSUR_PART_ALL, &fault, &now),
                 MENSUR_OK);
    for (int over = 0; over < 2; over++) {
        const struct mensur_wish both[] = {{.kind = MENSUR_WISH_LEFT_REACH,
                                            .low = NAN,
                                            .high = now.lengths.left_reach - (over ? 1e-3 : 0)},
                                           length(363, 380)};
        struct mensur_wishes wishes = {.items = both, .count = 2};
        decide(demo, &demo->shop.stock, &demo->kestrel, &wishes, true, &d);
        assert_string_equal(d.wants[0].what, "left_reach");
        assert_true(d.wants[0].unmoved && !d.wants[1].unmoved);
        assert_true(isnan(d.wants[0].place_low) && isnan(d.wants[0].place_high));
        assert_int_equal(d.wants[0].within_reach, !over);
        assert_int_equal(d.can_meet_all, !over);
        if (over) {
            check_holds(said(&d.reason, 0), "whatever the stop");
            /* what the stop does decide is met at the nearest place */
            assert_true(d.wants[0].miss > 0.9e-3);
            check_close("length", d.wants[1].miss, 0, 0, 0);
        }
        mensur_decision_clear(&d);
    }
    mensur_profile_clear(&now);
}

/* What the search itself answers past its ends. */
static void past_the_ends(void **state) {
    const struct demo *demo = *state;
    struct setup setup;
    struct search search;
    double place = 12.5;
    struct mensur_solver *solver = NULL;
    check_status("solver", mensur_solver_make(&solver), MENSUR_OK);
    check_status("setup",
                 setup_make(solver, &demo->shop.stock, &demo->kestrel, NULL, MENSUR_HOLD_PROJECTION,
                            NULL, &setup),
                 MENSUR_OK);
    check_status("search",
                 search_make(&demo->shop.stock, &setup, &demo->terms, false, NULL, &search),
                 MENSUR_OK);
    check_status("long", search_place(&search, MENSUR_WISH_RATIO, 0, 0.9, &place),
                 MENSUR_NO_ANSWER);
    check_status("short", search_place(&search, MENSUR_WISH_RATIO, 0, 9, &place), MENSUR_NO_ANSWER);
    check_close("untouched", place, 12.5, 0, 0);
    check_close("no neck", search_figure(&search, MENSUR_WISH_RATIO, 0, -0.1), NAN, 0, 0);
    mensur_solver_free(solver);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(without_strings), cmocka_unit_test(kept_and_liked),
        cmocka_unit_test(percents),        cmocka_unit_test(refuses),
        cmocka_unit_test(ranges),          cmocka_unit_test(instead),
        cmocka_unit_test(rounds_inside),   cmocka_unit_test(body_ends_soon),
        cmocka_unit_test(stop_for_reach),  cmocka_unit_test(past_the_ends)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
