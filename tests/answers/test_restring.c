/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strings for a length: what is aimed at and said, the packets, the feel of another instrument, the
 * wishes that leave nothing, refusals. */
#include "demo.h"
#include "said.h"

static struct mensur_restring_wishes no_wishes(void) {
    return (struct mensur_restring_wishes){
        .least_margin = NAN, .most_belly_force = NAN, .runners_up = 3};
}

static void ask(const struct demo *demo, const struct mensur_instrument *instrument,
                const struct mensur_restring_wishes *wishes, struct mensur_restringing *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_restring(&demo->shop.stock, instrument, wishes, &demo->terms, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* The tension of the present set in the middle of its range is aimed at, said, and nearly met. */
static void test_present_aim(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_int_equal(answer.choice_count, 4);
    assert_int_equal(answer.string_count, 4);
    check_holds(said(&answer.reason, 0), "present strings (viola gut) on 375.0 mm, the middle");
    check_holds(said(&answer.reason, 0), "no other set that meets every wish comes nearer");
    double length = answer.present.lengths.string_length;
    for (size_t i = 0; i < 4; i++) {
        const struct mensur_string_figures *chosen = &answer.choices[0].strings[i];
        double aim = answer.present.strings[i].tension * pow(0.375 / length, 2.0);
        check_close(chosen->note, chosen->tension, aim, 0, 0.05);
        assert_int_equal(chosen->in_made_for_range, MENSUR_YES);
        check_holds(said(&answer.choices[0].why[i], 0), "the aim; made for 3");
        assert_true(isnan(chosen->breaking_margin) || chosen->breaking_margin >= 1.0);
    }
    assert_string_equal(answer.present.assumed.items[answer.present.assumed.count - 1].field,
                        "margin in semitones");
    mensur_restringing_clear(&answer);
}

/* Like itself and of any length, an instrument keeps its own strings, at no cost. */
static void test_like_itself(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    wishes.like = &demo->kestrel;
    wishes.any_length = true;
    for (int impedance = 0; impedance < 2; impedance++) {
        wishes.same_impedance = impedance == 1;
        ask(demo, &demo->kestrel, &wishes, &answer);
        check_close("cost", answer.choices[0].cost, 0, 1e-12, 0);
        check_close("evenness", answer.choices[0].evenness, 0, 1e-6, 0);
        for (size_t i = 0; i < answer.string_count; i++) {
            /* two strings of the catalogue may be of one make: the density tells */
            check_close("density", answer.choices[0].strings[i].linear_density,
                        answer.present.strings[i].linear_density, 0, 1e-12);
        }
        check_holds(said(&answer.choices[0].why[0], 0),
                    "kg, as the liked string; made for 370.0 to 380.0 mm, "
                    "which this instrument's string is not; ");
        check_holds(said(&answer.reason, 0),
                    impedance == 1 ? "The aim is the wave impedance"
                                   : "The aim is the tension of the strings of kestrel");
        mensur_restringing_clear(&answer);
    }
}

/* Only the length was measured: nothing is said of the belly, and the strings are chosen. */
static void test_length_alone(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    ask(demo, &demo->dipper, &wishes, &answer);
    assert_true(answer.choice_count > 0);
    check_close("belly", answer.choices[0].total_force_on_belly, NAN, 0, 0);
    assert_true(answer.choices[0].total_tension > 150.0);
    mensur_restringing_clear(&answer);
}

static struct mensur_packet packet_of(const char *text) {
    struct mensur_packet packet;
    struct mensur_fault fault = {""};
    check_status(text, mensur_packet_read(text, &fault, &packet), MENSUR_OK);
    return packet;
}

/* A packet has on its own length the tension it says, and by the square of the lengths on another.
 */
static void test_packets(void **state) {
    const struct demo *demo = *state;
    const struct mensur_packet packets[] = {packet_of("A4=55@370"), packet_of("A4=55@370@430"),
                                            packet_of("C3=5 kgf@14.5 in")};
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_wish wish = {.kind = MENSUR_WISH_TENSION, .note = "A4"};
    struct mensur_restringing answer;
    double here = 55.0 * pow(358.0 / 370.0, 2.0);
    wishes.packets = packets;
    wishes.packet_count = COUNT_OF(packets);
    wishes.tensions = &wish;
    wishes.tension_count = 1;
    wish.low = here - 1e-9;
    wish.high = here + 1e-9;
    ask(demo, &demo->dipper, &wishes, &answer);
    assert_int_equal(answer.choice_count, 4);
    const struct mensur_string_figures *chosen = &answer.choices[0].strings[3];
    assert_string_equal(chosen->string, "A4 by its packet");
    check_close("the first", chosen->tension, here, 0, 1e-12);
    check_holds(said(&answer.choices[0].why[3], 0),
                "as the wish; the length that it is made for is not known; "
                "its strength is not known");
    mensur_restringing_clear(&answer);
    wish.low = here * pow(440.0 / 430.0, 2.0) - 1e-9;
    wish.high = wish.low + 2e-9;
    ask(demo, &demo->dipper, &wishes, &answer);
    assert_string_equal(answer.choices[0].strings[3].string, "A4 by its packet, the 2.");
    mensur_restringing_clear(&answer);
    /* kgf and inch are exact: 9.80665 N, 25.4 mm */
    wish = (struct mensur_wish){.kind = MENSUR_WISH_TENSION, .note = "C3"};
    wish.low = 5.0 * 9.80665 * pow(358.0 / (14.5 * 25.4), 2.0) - 1e-9;
    wish.high = wish.low + 2e-9;
    ask(demo, &demo->dipper, &wishes, &answer);
    assert_string_equal(answer.choices[0].strings[0].string, "C3 by its packet");
    mensur_restringing_clear(&answer);
}

static void test_unreadable_packets(void **state) {
    (void)state;
    static const char *const texts[] = {"",
                                        "A4",
                                        "A4=",
                                        "A4=55",
                                        "A4=55@",
                                        "A4=@370",
                                        "A4=55@370@",
                                        "H4=55@370",
                                        "=55@370",
                                        "A4=-5@370",
                                        "A4=0@370",
                                        "A4=55@0",
                                        "A4=55 mm@370",
                                        "A4=55@370 N",
                                        "A4=55@370@0",
                                        "55@370",
                                        "A4=55@370@440@3",
                                        "A4=nan@370"};
    for (size_t i = 0; i < COUNT_OF(texts); i++) {
        struct mensur_packet packet = {.tension = 12.5};
        struct mensur_fault fault;
        check_status(texts[i], mensur_packet_read(texts[i], &fault, &packet), MENSUR_USE);
        check_holds(fault.text, "is no packet; write NOTE=TENSION@LENGTH");
        check_close(texts[i], packet.tension, 12.5, 0, 0);
    }
}

/* None fits: which wish leaves none, and what would. */
static void test_excluded(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_wish wish = {.kind = MENSUR_WISH_TENSION, .note = "A4", .low = 90, .high = 99};
    struct mensur_restringing answer;
    wishes.from = "viola gut";
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_int_equal(answer.choice_count, 0);
    assert_int_equal(said_count(&answer.excluded), 4);
    assert_string_equal(said(&answer.excluded, 3),
                        "A4: its 1 string does not fit: 1 is not made for 361.9 mm; 1 would fit if "
                        "strings made for other lengths were allowed");
    mensur_restringing_clear(&answer);
    wishes.from = "violin gut";
    ask(demo, &demo->kestrel, &wishes, &answer);
    check_holds(said(&answer.excluded, 0), "C3: the set \"violin gut\" has no string for it");
    mensur_restringing_clear(&answer);
    wishes = no_wishes();
    wishes.tensions = &wish;
    wishes.tension_count = 1;
    wishes.any_length = true;
    ask(demo, &demo->kestrel, &wishes, &answer);
    check_holds(said(&answer.excluded, 0), "strings fits: ");
    check_holds(said(&answer.excluded, 0), " have less tension than 9.2 kg");
    mensur_restringing_clear(&answer);
    wishes = no_wishes();
    wishes.least_margin = 30;
    ask(demo, &demo->kestrel, &wishes, &answer);
    check_holds(said(&answer.excluded, 1), " nearer to breaking than 30.0 semitones");
    mensur_restringing_clear(&answer);
}

/* The least force that is left is told, and is the limit at which one set is found. */
static void test_belly(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    double least = INFINITY;
    ask(demo, &demo->kestrel, &wishes, &answer);
    double best = answer.choices[0].total_force_on_belly;
    double first_cost = answer.choices[0].cost;
    mensur_restringing_clear(&answer);
    wishes.most_belly_force = best - 1e-9;
    wishes.runners_up = 16;
    ask(demo, &demo->kestrel, &wishes, &answer);
    for (size_t k = 0; k < answer.choice_count; k++) {
        assert_true(answer.choices[k].total_force_on_belly <= wishes.most_belly_force);
        assert_true(answer.choices[k].cost > first_cost);
        least = fmin(least, answer.choices[k].total_force_on_belly);
    }
    assert_true(least < best);
    mensur_restringing_clear(&answer);
    wishes.most_belly_force = 40;
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_int_equal(answer.choice_count, 0);
    const char *over = said(&answer.excluded, said_count(&answer.excluded) - 1);
    check_holds(over, "force on the belly: the lightest strings that meet every other wish press "
                      "with ");
    wishes.most_belly_force = (atof(strstr(over, "with ") + 5) + 0.06) * 9.80665;
    mensur_restringing_clear(&answer);
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_true(answer.choice_count > 0);
    mensur_restringing_clear(&answer);
}

/* Wishes for one note narrow each other, in whatever order they come; an open side gives way. */
static void test_narrowing(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish all = {
        .kind = MENSUR_WISH_TENSION, .percent = true, .low = 0.9, .high = 1.16};
    const struct mensur_wish a4 = {
        .kind = MENSUR_WISH_TENSION, .note = "A4", .low = 61.0, .high = NAN};
    const struct mensur_wish orders[2][2] = {{all, a4}, {a4, all}};
    for (size_t i = 0; i < 2; i++) {
        struct mensur_restring_wishes wishes = no_wishes();
        struct mensur_restringing answer;
        wishes.tensions = orders[i];
        wishes.tension_count = 2;
        wishes.any_length = true;
        wishes.runners_up = 16;
        ask(demo, &demo->kestrel, &wishes, &answer);
        assert_int_equal(answer.choice_count, 17);
        double most = 1.16 * answer.present.strings[3].tension;
        double middle = (61.0 + most) / 2.0;
        char off[16];
        double tension = answer.choices[0].strings[3].tension;
        snprintf(off, sizeof off, "%.1f %% %s", fabs(tension / middle - 1.0) * 100.0,
                 tension < middle ? "under" : "over");
        check_holds(said(&answer.choices[0].why[3], 0), off);
        for (size_t k = 0; k < answer.choice_count; k++) {
            tension = answer.choices[k].strings[3].tension;
            assert_true(tension >= 61.0 && tension <= most);
        }
        mensur_restringing_clear(&answer);
    }
}

/* Refusals: each with the words that help on. */
static void test_refusals(void **state) {
    const struct demo *demo = *state;
    const struct mensur_packet stray = packet_of("E5=70@330");
    const struct mensur_wish b4 = {
        .kind = MENSUR_WISH_TENSION, .note = "B4", .low = 40, .high = 50};
    const struct mensur_wish percent = {
        .kind = MENSUR_WISH_TENSION, .percent = true, .low = 0.9, .high = 1.1};
    struct mensur_instrument bare = demo->kestrel; /* borrows every text */
    struct mensur_instrument untuned = demo->dipper;
    bare.set = NULL;
    untuned.family = NULL;
    untuned.tuning = NULL;
    const struct {
        const char *words;
        const struct mensur_instrument *instrument;
        struct mensur_restring_wishes wishes;
    } rows[] = {
        {"no string is tuned to B4", &demo->kestrel, {.tensions = &b4, .tension_count = 1}},
        {"no percentage of the tension of C3", &bare, {.tensions = &percent, .tension_count = 1}},
        {"did you mean \"viola gut\"?", &demo->kestrel, {.from = "viola gutt"}},
        {"there is no set of strings \"cobweb\"", &demo->kestrel, {.from = "cobweb"}},
        {"a packet is given for E5", &demo->kestrel, {.packets = &stray, .packet_count = 1}},
        {"runners-up at most", &demo->kestrel, {.runners_up = 17}},
        {"0 semitones or more", &demo->kestrel, {.least_margin = -0.5}},
        {"0 semitones or more", &demo->kestrel, {.least_margin = INFINITY}},
        {"more than 0 N", &demo->kestrel, {.most_belly_force = -3}},
        {"no limit on the force on the belly can be kept", &demo->dipper, {.most_belly_force = 70}},
        {"without a tuning", &untuned, {.runners_up = 1}},
        {"no string of known feel", &demo->kestrel, {.like = &demo->bittern}},
        {"no string of known feel", &demo->kestrel, {.like = &bare}},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_restring_wishes wishes = rows[i].wishes;
        struct mensur_restringing answer = {.string_count = 77};
        struct mensur_fault fault = {""};
        if (wishes.most_belly_force == 0.0) {
            wishes.most_belly_force = NAN;
        }
        check_status(rows[i].words,
                     mensur_ask_restring(&demo->shop.stock, rows[i].instrument, &wishes,
                                         &demo->terms, &fault, &answer),
                     MENSUR_USE);
        check_holds(fault.text, rows[i].words);
        assert_int_equal(answer.string_count, 77);
    }
}

/* The neck's other way out names strings made for the length that stays, where there are any. */
static void test_instead(void **state) {
    const struct demo *demo = *state;
    struct mensur_wishes wishes = {.like = &demo->heron};
    struct mensur_decision decision;
    struct mensur_fault fault = {""};
    check_status("neck",
                 mensur_ask_decision(&demo->shop.stock, &demo->kestrel, &wishes, false,
                                     &demo->terms, &fault, &decision),
                 MENSUR_OK);
    for (size_t i = 0; i < decision.instead_count; i++) {
        const struct mensur_instead *instead = &decision.instead[i];
        const struct mensur_stock *stock = &demo->shop.stock;
        assert_non_null(instead->nearest_string);
        for (size_t k = 0; k < stock->string_count; k++) {
            if (strcmp(stock->strings[k].name, instead->nearest_string) == 0) {
                double length = decision.present.lengths.string_length;
                assert_true(stock->strings[k].made_for_low.value <= length);
                assert_true(stock->strings[k].made_for_high.value >= length);
            }
        }
        check_close(instead->note, instead->nearest_linear_density, instead->needed_linear_density,
                    0, 0.05);
    }
    mensur_decision_clear(&decision);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_present_aim),
        cmocka_unit_test(test_like_itself),
        cmocka_unit_test(test_length_alone),
        cmocka_unit_test(test_packets),
        cmocka_unit_test(test_unreadable_packets),
        cmocka_unit_test(test_excluded),
        cmocka_unit_test(test_belly),
        cmocka_unit_test(test_narrowing),
        cmocka_unit_test(test_refusals),
        cmocka_unit_test(test_instead),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
