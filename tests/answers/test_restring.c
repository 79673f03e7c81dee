/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strings for a length: what is aimed at and said, the packets, the feel of another instrument, the
 * wishes that leave nothing, refusals. */
#include "demo.h"
#include "said.h"

#include <stdio.h>
#include <string.h>

#include "restring.h"
#include "stock.h"
#include "string_family.h"
#include "string_model.h"

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
    assert_true(answer.met && !answer.leave && !answer.whole);
    assert_string_equal(answer.choices[0].set, "viola gut short");
    assert_int_equal(answer.string_count, 4);
    assert_int_equal(answer.misses.count + answer.needed_count + answer.order_count, 0);
    check_holds(said(&answer.reason, 0), "present strings (viola gut) on 375.0 mm, the middle");
    check_holds(said(&answer.reason, 0), "no other set that meets every wish comes nearer");
    double length = answer.present.lengths.string_length;
    for (size_t i = 0; i < 4; i++) {
        const struct mensur_string_figures *chosen = &answer.choices[0].strings[i];
        double aim = answer.present.strings[i].tension * pow(0.375 / length, 2.0);
        check_close(chosen->note, chosen->tension, aim, 0, 0.05);
        assert_int_equal(chosen->in_made_for_range, MENSUR_YES);
        check_holds(said(&answer.choices[0].why[i], 0), "the aim; made for 3");
        assert_true(chosen->breaking_margin >= 2.0);
        assert_false(answer.choices[0].kept[i]);
    }
    const struct mensur_assumed *last =
        &answer.present.assumed.items[answer.present.assumed.count - 1];
    assert_string_equal(last[-1].field, "margin in semitones");
    check_close("usual", last[-1].value, 2, 0, 0);
    assert_string_equal(last->field, "margin of a plain gut top string in semitones");
    check_close("gut", last->value, 1, 0, 0);
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
    const struct mensur_string_figures *chosen = &answer.choices[0].strings[3];
    assert_true(answer.choices[0].kept[0] && !answer.choices[0].kept[3]);
    assert_string_equal(said(&answer.misses, 0), "A4: margin to breaking unknown");
    assert_string_equal(chosen->string, "A4 by its packet");
    check_close("the first", chosen->tension, here, 0, 1e-12);
    check_holds(said(&answer.choices[0].why[3], 0),
                "as the wish; the length that it is made for is not known; "
                "its strength is not known");
    mensur_restringing_clear(&answer);
    wish.low = here * pow(440.0 / 430.0, 2.0) - 1e-9;
    wish.high = wish.low + 2e-9;
    ask(demo, &demo->dipper, &wishes, &answer);
    assert_string_equal(answer.choices[0].strings[3].string, "A4 by its packet for 430 Hz, the 2.");
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
    assert_false(answer.met);
    assert_true(answer.leave); /* the nearest of that set are those that it has */
    assert_string_equal(said(&answer.misses, 0), "made for 370.0 to 380.0 mm");
    assert_int_equal(answer.needed_count, 4);
    for (size_t i = 0; i < 4; i++) { /* what has the tension here that the present one has there */
        check_close(answer.needed[i].note, answer.needed[i].linear_density,
                    answer.present.strings[i].linear_density *
                        pow(0.375 / answer.present.lengths.string_length, 2.0),
                    0, 2e-3); /* gut thins a little more there */
    }
    assert_int_equal(said_count(&answer.excluded), 4);
    assert_string_equal(said(&answer.excluded, 3),
                        "A4: its 1 string does not fit: 1 is not made for 361.9 mm; 1 would fit if "
                        "strings made for other lengths were allowed");
    mensur_restringing_clear(&answer);
    wishes.from = "violin gut";
    ask(demo, &demo->kestrel, &wishes, &answer);
    check_holds(said(&answer.excluded, 0), "C3: the set \"violin gut\" has no string for it");
    assert_int_equal(answer.choice_count, 0);
    assert_int_equal(answer.needed_count, 4);
    mensur_restringing_clear(&answer);
    wishes = no_wishes();
    wishes.tensions = &wish;
    wishes.tension_count = 1;
    wishes.any_length = true;
    ask(demo, &demo->kestrel, &wishes, &answer);
    check_holds(said(&answer.excluded, 3), "strings fits: ");
    check_holds(said(&answer.excluded, 3), " less tension than 9.2 kg");
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
    assert_false(answer.met);
    check_holds(said(&answer.misses, 0), "over the limit on the belly");
    const char *over = said(&answer.excluded, said_count(&answer.excluded) - 1);
    check_holds(over, "force on the belly: the lightest strings that meet every other wish press "
                      "with ");
    wishes.most_belly_force = (atof(strstr(over, "with ") + 5) + 0.06) * 9.80665;
    mensur_restringing_clear(&answer);
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_true(answer.met);
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
        assert_true(answer.met && answer.choice_count > 1);
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
        {"is over 0",
         &demo->kestrel,
         {.least_margin = NAN, .most_belly_force = NAN, .grade = -0.5}},
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

/* Strings that serve are left, whatever the catalogue has that comes a little nearer: here a copy
 * of each string by 0.5 % heavier, and one lighter. */
static void test_leaves(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const left[] = {&demo->heron, &demo->wren, &demo->swift,
                                                    &demo->bittern, &demo->dipper};
    const size_t count = demo->shop.stock.string_count;
    struct mensur_stock stock;
    demo_own_strings(demo, 2 * count, &stock);
    for (size_t k = 0; k < 2 * count; k++) {
        struct mensur_string_spec *spec = &stock.strings[k];
        struct string_model model;
        double frequency = NAN;
        *spec = demo->shop.stock.strings[k % count];
        string_model_make(&stock, spec, demo->terms.fifths, &model);
        check_status("pitch",
                     mensur_open_frequency(spec->note.semitones_from_a4, spec->note.fifths_from_a,
                                           440.0, demo->terms.fifths, &frequency),
                     MENSUR_OK);
        double tension = string_model_tension(&model, 0.36, frequency);
        spec->linear_density.value =
            string_model_tuned_density(&model, tension) * (k < count ? 1.005 : 0.995);
        spec->slack = false;
        spec->set = NULL;
    }
    for (size_t i = 0; i < COUNT_OF(left); i++) {
        for (int copies = 0; copies < 2; copies++) {
            struct mensur_restring_wishes wishes = no_wishes();
            struct mensur_restringing answer;
            struct mensur_fault fault = {""};
            check_status(left[i]->name,
                         mensur_ask_restring(copies == 1 ? &stock : &demo->shop.stock, left[i],
                                             &wishes, &demo->terms, &fault, &answer),
                         MENSUR_OK);
            assert_true(answer.met && answer.leave);
            for (size_t j = 0; j < answer.string_count; j++) {
                assert_true(answer.choices[0].kept[j]);
                assert_string_equal(answer.choices[0].strings[j].string,
                                    answer.present.strings[j].string);
            }
            mensur_restringing_clear(&answer);
        }
    }
    /* Nor do they change what is recommended. */
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    struct mensur_fault fault = {""};
    check_status(
        "kestrel",
        mensur_ask_restring(&stock, &demo->kestrel, &wishes, &demo->terms, &fault, &answer),
        MENSUR_OK);
    assert_true(answer.met && answer.whole);
    assert_string_equal(answer.choices[0].set, "viola gut short");
    mensur_restringing_clear(&answer);
    free(stock.strings);
}

/* A string is exchanged from 2 % of the aim on: the A of a set is made off its aim by so much, and
 * the catalogue's own A would be on it. */
static void test_gain(void **state) {
    const struct demo *demo = *state;
    static const struct {
        double off;
        bool kept;
    } rows[] = {{1.015, true}, {0.985, true}, {1.03, false}, {0.97, false}};
    static char worn[] = "worn";
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_restring_wishes wishes = no_wishes();
        struct mensur_restringing answer, before;
        struct mensur_instrument swift = demo->swift; /* texts borrowed */
        struct mensur_stock stock;
        struct mensur_fault fault = {""};
        demo_own_strings(demo, 4, &stock);
        ask(demo, &demo->swift, &wishes, &before);
        swift.set = worn;
        for (size_t k = 0; k < 4; k++) {
            const struct mensur_string_figures *string = &before.present.strings[k];
            stock.strings[k].name = worn;
            stock.strings[k].set = worn;
            stock.strings[k].note = mensur_stock_tuning(&stock, "violin")->notes[k];
            stock.strings[k].linear_density.value =
                string->linear_density * (k == 2 ? rows[i].off : 1.0);
            stock.strings[k].core_diameter.value = 0.5e-3;
            stock.strings[k].strength.value = 2e9;
        }
        wishes.like = &demo->swift;
        check_status("worn",
                     mensur_ask_restring(&stock, &swift, &wishes, &demo->terms, &fault, &answer),
                     MENSUR_OK);
        assert_true(answer.met);
        assert_true(answer.choices[0].kept[0] && answer.choices[0].kept[1] &&
                    answer.choices[0].kept[3]);
        assert_int_equal(answer.choices[0].kept[2], rows[i].kept);
        assert_int_equal(answer.leave, rows[i].kept);
        mensur_restringing_clear(&answer);
        mensur_restringing_clear(&before);
        free(stock.strings);
    }
}

static const struct mensur_whole_set *set_named(const struct mensur_restringing *answer,
                                                const char *name, size_t *place) {
    for (*place = 0; *place < answer->set_count; ++*place) {
        if (strcmp(answer->sets[*place].set, name) == 0) {
            return &answer->sets[*place];
        }
    }
    fail_msg("no set %s", name);
    return NULL;
}

/* Complete sets for the tuning alone, the best first, each with what it misses. */
static void test_whole_sets(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    size_t place, steel, now;
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_true(answer.set_count > 10);
    const struct mensur_whole_set *best = set_named(&answer, "viola gut short", &place);
    assert_int_equal(place, 0);
    assert_int_equal(best->misses.count, 0);
    check_close("total", best->total_tension, answer.choices[0].total_tension, 0, 1e-12);
    check_close("off", best->off_aim, answer.choices[0].off_aim, 0, 1e-9);
    double largest = 0.0, off = 0.0;
    for (size_t i = 0; i < 4; i++) {
        double aim = answer.present.strings[i].tension *
                     pow(0.375 / answer.present.lengths.string_length, 2.0);
        largest = fmax(largest, fabs(answer.choices[0].strings[i].tension / aim - 1.0));
        off += fabs(answer.choices[0].strings[i].tension - aim);
    }
    check_close("largest", best->largest_miss_percent, 100.0 * largest, 0.3, 0);
    check_close("off", best->off_aim, off, 0.3, 0);
    const struct mensur_whole_set *set = set_named(&answer, "viola steel short", &steel);
    assert_string_equal(said(&set->misses, 0), "steel");
    assert_int_equal(said_count(&set->misses), 1);
    set = set_named(&answer, "viola gut", &now);
    assert_true(set->present && !best->present && now > steel);
    assert_string_equal(said(&set->misses, 0), "made for 370.0 to 380.0 mm");
    for (size_t k = 0; k < answer.set_count; k++) {
        assert_null(strstr(answer.sets[k].set, "violin"));
        assert_null(strstr(answer.sets[k].set, "five-string")); /* a string would be left over */
    }
    mensur_restringing_clear(&answer);
    /* Asked for by material, or mixed. */
    wishes.material = "steel";
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_true(answer.met);
    for (size_t i = 0; i < 4; i++) {
        assert_non_null(strstr(answer.choices[0].strings[i].string, "steel"));
    }
    double steel_off = answer.choices[0].off_aim;
    mensur_restringing_clear(&answer);
    wishes.material = NULL;
    wishes.mix = true;
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_true(answer.met && answer.choices[0].off_aim < steel_off);
    assert_null(answer.choices[0].set);
    mensur_restringing_clear(&answer);
}

/* Without strings the family's synthetic set says the tension, in proportion to the length; a steel
 * top string goes with synthetic ones. */
static void test_family_aim(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer, wren;
    struct mensur_instrument bare = demo->dipper; /* borrows every text */
    bare.set = NULL;
    ask(demo, &bare, &wishes, &answer);
    ask(demo, &demo->wren, &wishes, &wren); /* it has that set */
    assert_string_equal(wren.present.set, "viola synthetic");
    check_holds(said(&answer.reason, 0), "the tension of the set viola synthetic on the 375.0 mm");
    assert_true(answer.met && !answer.leave);
    for (size_t i = 0; i < 4; i++) {
        const struct mensur_string_figures *string = &answer.choices[0].strings[i];
        double aim = wren.present.strings[i].tension *
                     pow(0.375 / wren.present.lengths.string_length, 2.0) * 0.358 / 0.375;
        check_holds(string->string, "synthetic");
        check_close(string->note, string->tension, aim, 0, 0.07);
    }
    mensur_restringing_clear(&answer);
    mensur_restringing_clear(&wren);
}

/* The least margin is 2 semitones; 1 for a plain gut top string. */
static void test_usual_margins(void **state) {
    const struct demo *demo = *state;
    static char set[] = "violin gut";
    struct mensur_instrument violin = demo->swift; /* borrows every text */
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    violin.set = set;
    ask(demo, &violin, &wishes, &answer);
    double margin = answer.present.strings[3].breaking_margin;
    assert_true(margin > 1.0 && margin < 2.0);
    assert_true(answer.met && answer.leave);
    mensur_restringing_clear(&answer);
    wishes.least_margin = 2.0;
    ask(demo, &violin, &wishes, &answer);
    assert_true(!answer.met && said_holds(&answer.misses, "E5: 1."));
    mensur_restringing_clear(&answer);
}

/* A string that nobody knows to hold comes after those that are known to. */
static void test_unknown_margins(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    struct mensur_fault fault = {""};
    struct mensur_stock stock;
    demo_own_strings(demo, 0, &stock);
    wishes.runners_up = 16;
    for (int all = 0; all < 2; all++) {
        for (size_t k = 0; k < stock.string_count; k++) {
            struct mensur_string_spec *spec = &stock.strings[k];
            bool short_gut = spec->set != NULL && strcmp(spec->set, "viola gut short") == 0;
            if (strcmp(spec->note.name, "C3") == 0 && (all == 1 || short_gut)) {
                double density = NAN;
                struct string_model model;
                string_model_make(&stock, spec, demo->terms.fifths, &model);
                density = isnan(spec->linear_density.value) ? model.linear_density
                                                            : spec->linear_density.value;
                spec->linear_density.value = density;
                spec->core_diameter = spec->diameter = MENSUR_UNKNOWN;
                spec->stated_tension = MENSUR_UNKNOWN;
                spec->slack = false;
            }
        }
        check_status(
            "restring",
            mensur_ask_restring(&stock, &demo->kestrel, &wishes, &demo->terms, &fault, &answer),
            MENSUR_OK);
        assert_true(answer.met);
        for (size_t k = 0; k < answer.choice_count; k++) {
            assert_int_equal(isnan(answer.choices[k].strings[0].breaking_margin), all);
        }
        assert_int_equal(said_holds(&answer.misses, "C3: margin to breaking unknown"), all);
        mensur_restringing_clear(&answer);
    }
    free(stock.strings);
}

/* Gauges: by the printed equation, and the tenths around; equal, graded and liked tensions. */
static void test_to_order(void **state) {
    const struct demo *demo = *state;
    const double pi = 3.14159265358979323846;
    static const struct {
        enum mensur_string_profile profile;
        double grade, ratio; /* of neighbours; 0: as it comes */
    } rows[] = {{MENSUR_PROFILE_NONE, NAN, 0.0},
                {MENSUR_PROFILE_EQUAL, NAN, 1.0},
                {MENSUR_PROFILE_GRADED, NAN, 0.9},
                {MENSUR_PROFILE_GRADED, 0.8, 0.8},
                {MENSUR_PROFILE_LIKE, NAN, 0.0}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_restring_wishes wishes = no_wishes();
        struct mensur_restringing answer;
        double sum = 0.0;
        wishes.to_order = "gut";
        wishes.profile = rows[i].profile;
        wishes.grade = rows[i].grade;
        wishes.like = rows[i].profile == MENSUR_PROFILE_LIKE ? &demo->wren : NULL;
        ask(demo, &demo->heron, &wishes, &answer);
        double length = answer.present.lengths.string_length;
        assert_int_equal(answer.order_count, 4);
        for (size_t k = 0; k < 4; k++) {
            const struct mensur_order *order = &answer.orders[k];
            double f = answer.present.strings[k].frequency;
            double b = 1300.0 * pow(2.0 * length * f, 2.0);
            double sigma = 5.5e9 / 2.0 * (sqrt(1.0 + 4.0 * b / 5.5e9) - 1.0);
            check_close(order->note, order->diameter, sqrt(4.0 * order->tension / (pi * sigma)), 0,
                        1e-9);
            check_close(order->note, order->diameter_thou, order->diameter / 25.4e-6, 0, 1e-12);
            check_close(order->note, order->margin, 6.0 * log2(283e6 / sigma), 1e-9, 0);
            assert_true(order->tenth_below <= order->diameter * (1.0 + 1e-9));
            check_close("tenths", order->tenth_above - order->tenth_below, 1e-4, 1e-12, 0);
            /* on one length the tension goes as the area, the stress being the pitch's */
            check_close("below", order->tension_below,
                        order->tension * pow(order->tenth_below / order->diameter, 2.0), 0, 1e-9);
            check_close("above", order->tension_above,
                        order->tension * pow(order->tenth_above / order->diameter, 2.0), 0, 1e-9);
            if (k > 0 && rows[i].ratio > 0.0) {
                check_close("graded", order[-1].tension / order->tension, rows[i].ratio, 0, 1e-12);
            }
            sum += order->tension;
        }
        if (rows[i].profile != MENSUR_PROFILE_LIKE) { /* the aim's sum is kept */
            check_close("sum", sum, answer.present.total_tension * pow(0.375 / length, 2.0), 0,
                        1e-3);
        }
        mensur_restringing_clear(&answer);
    }
    /* The one that is wished for is had. */
    const struct mensur_wish wish = {
        .kind = MENSUR_WISH_TENSION, .note = "D4", .low = 49.0, .high = 51.0};
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    wishes.to_order = "gut";
    wishes.profile = MENSUR_PROFILE_GRADED;
    wishes.tensions = &wish;
    wishes.tension_count = 1;
    ask(demo, &demo->heron, &wishes, &answer);
    check_close("wished", answer.orders[2].tension, 50.0, 0, 1e-12);
    check_close("upper", answer.orders[3].tension, 50.0 / 0.9, 0, 1e-12);
    mensur_restringing_clear(&answer);
}

/* No plain gut string of the catalogue is thicker than such strings are ordered. */
static void test_thickest_plain(void **state) {
    const struct demo *demo = *state;
    size_t plain = 0;
    for (size_t k = 0; k < demo->shop.stock.string_count; k++) {
        const struct mensur_string_spec *spec = &demo->shop.stock.strings[k];
        char family[32] = "";
        if (spec->set == NULL || spec->material == NULL || strcmp(spec->material, "gut") != 0 ||
            !isnan(spec->core_diameter.value) || isnan(spec->diameter.value)) {
            continue;
        }
        snprintf(family, sizeof family, "%.*s", (int)strcspn(spec->set, " "), spec->set);
        plain++;
        assert_true(spec->diameter.value <= restring_thickest_plain(family));
    }
    assert_true(plain > 20);
    assert_true(restring_thickest_plain("bass") > restring_thickest_plain("cello"));
    assert_true(restring_thickest_plain("cello") > restring_thickest_plain(NULL));
}

/* Strings serve the family that their set is named after, and others by the table; a shop's own
 * serve everywhere. */
static void test_family_of_a_string(void **state) {
    static const struct {
        const char *set, *note, *family;
        bool string, whole;
    } rows[] = {
        {"viola gut", "A4", "viola", true, true},
        {"treble viol gut", "A4", "viola", false, false},
        {"five-string synthetic", "A4", "viola", true, true},
        {"five-string cello synthetic", "A3", "viola", false, false},
        {"violin synthetic", "A4", "viola", false, true},
        {"violin synthetic", "E5", "viola", true, true},
        {"violin synthetic", "A4", "cello", false, false},
        {"treble viol gut", "A4", "treble viol", true, true},
        {"treble viol gut", "A4", NULL, true, true},
        {"of no kind", "A4", "cello", true, true},
    };
    const struct demo *demo = *state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_string_spec spec;
        char set[64];
        mensur_string_spec_init(&spec);
        snprintf(set, sizeof set, "%s", rows[i].set);
        spec.set = set;
        snprintf(spec.note.name, sizeof spec.note.name, "%s", rows[i].note);
        const char *family = rows[i].family;
        assert_int_equal(string_is_for_family(&demo->shop.stock, family, &spec), rows[i].string);
        assert_int_equal(string_set_is_for_family(&demo->shop.stock, family, &spec), rows[i].whole);
        spec.own = true;
        assert_true(string_is_for_family(&demo->shop.stock, family, &spec));
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_leaves),
        cmocka_unit_test(test_gain),
        cmocka_unit_test(test_whole_sets),
        cmocka_unit_test(test_family_aim),
        cmocka_unit_test(test_usual_margins),
        cmocka_unit_test(test_unknown_margins),
        cmocka_unit_test(test_to_order),
        cmocka_unit_test(test_thickest_plain),
        cmocka_unit_test(test_family_of_a_string),
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
