/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strings for odd tunings, odd catalogues and odd wishes. */
#include "demo.h"
#include "said.h"

#include <gsl/gsl_rng.h>

#include "working.h"

static struct mensur_restring_wishes no_wishes(void) {
    return (struct mensur_restring_wishes){
        .least_margin = NAN, .most_belly_force = NAN, .any_length = true};
}

static void ask(const struct demo *demo, const struct mensur_stock *stock,
                const struct mensur_instrument *instrument,
                const struct mensur_restring_wishes *wishes, struct mensur_restringing *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_restring(stock, instrument, wishes, &demo->terms, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* A tuning of its own in the place of all others. */
static void tune(struct mensur_stock *stock, struct mensur_tuning *tuning, const char *note) {
    static char name[] = "viola";
    *tuning = (struct mensur_tuning){.name = name, .count = 1};
    check_status(note, mensur_note_read(note, strlen(note), &tuning->notes[0]), MENSUR_OK);
    stock->tunings = tuning;
    stock->tuning_count = 1;
}

/* One string is even with itself. */
static void one_string(void **state) {
    const struct demo *demo = *state;
    struct mensur_stock stock = demo->shop.stock;
    struct mensur_tuning tuning;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    tune(&stock, &tuning, "D4");
    ask(demo, &stock, &demo->kestrel, &wishes, &answer);
    assert_int_equal(answer.string_count, 1);
    check_close("evenness", answer.choices[0].evenness, 0, 0, 0);
    assert_true(answer.choices[0].total_tension > 20.0);
    mensur_restringing_clear(&answer);
}

/* Notes that no string is made for; B#2 is C3 on a keyboard, and another note. */
static void no_strings(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *note, *from;
        bool tuned; /* strings for C3 serve, as the present one does */
        const char *said;
    } rows[] = {{"F#2", NULL, true, NULL},
                {"B#2", NULL, true, NULL},
                {"C2", "viola gut", false, "C2: the set \"viola gut\" has no string for it"}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_stock stock = demo->shop.stock;
        struct mensur_tuning tuning;
        struct mensur_restring_wishes wishes = no_wishes();
        struct mensur_restringing answer;
        wishes.from = rows[i].from;
        tune(&stock, &tuning, rows[i].note);
        ask(demo, &stock, &demo->kestrel, &wishes, &answer);
        assert_int_equal(answer.met, rows[i].tuned);
        if (rows[i].tuned) {
            assert_string_equal(answer.choices[0].strings[0].tuned_to, rows[i].note);
        } else {
            assert_int_equal(answer.choice_count, 0);
            assert_int_equal(said_count(&answer.excluded), 1);
            assert_string_equal(said(&answer.excluded, 0), rows[i].said);
        }
        mensur_restringing_clear(&answer);
    }
}

/* Strings whose tension is not known: one of a set, all of a catalogue. */
static void unknown_tensions(void **state) {
    const struct demo *demo = *state;
    static const char *const from[] = {"viola steel", NULL};
    static const char *const sentences[] = {
        "C3: its 1 string does not fit: 1 has a tension that is not known",
        "have a tension that is not known"};
    for (size_t i = 0; i < COUNT_OF(from); i++) {
        struct mensur_stock stock;
        struct mensur_restring_wishes wishes = no_wishes();
        struct mensur_restringing answer;
        demo_own_strings(demo, 0, &stock);
        for (size_t k = 0; k < stock.string_count; k++) {
            struct mensur_string_spec *spec = &stock.strings[k];
            if (strcmp(spec->note.name, "C3") == 0) {
                struct mensur_string_spec unknown;
                mensur_string_spec_init(&unknown);
                unknown.name = spec->name;
                unknown.set = spec->set;
                unknown.note = spec->note;
                *spec = unknown;
            }
        }
        wishes.from = from[i];
        ask(demo, &stock, &demo->kestrel, &wishes, &answer);
        assert_int_equal(answer.choice_count, 0);
        check_holds(said(&answer.excluded, 0), sentences[i]);
        mensur_restringing_clear(&answer);
        free(stock.strings);
    }
}

/* A range around nothing has a middle that nobody can aim at: it bounds, and aims at nothing. */
static void middle_below_nothing(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish wish = {.kind = MENSUR_WISH_TENSION, .low = -900, .high = 300};
    struct mensur_restring_wishes plain = no_wishes(), wished = no_wishes();
    struct mensur_restringing a, b;
    wished.tensions = &wish;
    wished.tension_count = 1;
    ask(demo, &demo->shop.stock, &demo->kestrel, &plain, &a);
    ask(demo, &demo->shop.stock, &demo->kestrel, &wished, &b);
    check_close("cost", b.choices[0].cost, a.choices[0].cost, 0, 0);
    assert_string_equal(said(&b.reason, 0), said(&a.reason, 0));
    mensur_restringing_clear(&a);
    mensur_restringing_clear(&b);
}

/* Percent are of the liked string where that is known, else of the present one. */
static void percent_of_unknown(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish even = {
        .kind = MENSUR_WISH_TENSION, .percent = true, .low = 0.9, .high = 1.1};
    struct mensur_stock stock;
    struct mensur_profile liked;
    struct mensur_fault fault = {""};
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    size_t changed = 0;
    demo_own_strings(demo, 0, &stock);
    for (size_t i = 0; i < stock.string_count; i++) {
        struct mensur_string_spec *spec = &stock.strings[i];
        if (spec->set != NULL && strcmp(spec->set, demo->wren.set) == 0 &&
            strcmp(spec->note.name, "A4") == 0) {
            spec->linear_density = spec->diameter = spec->core_diameter = MENSUR_UNKNOWN;
            spec->stated_tension = MENSUR_UNKNOWN;
            changed++;
        }
    }
    assert_int_equal(changed, 1);
    check_status(
        "liked",
        mensur_ask_profile(&stock, &demo->wren, &demo->terms, MENSUR_PART_ALL, &fault, &liked),
        MENSUR_OK);
    assert_true(isnan(liked.strings[3].tension));
    wishes.like = &demo->wren;
    wishes.tensions = &even;
    wishes.tension_count = 1;
    ask(demo, &stock, &demo->kestrel, &wishes, &answer);
    const struct mensur_string_figures *chosen = answer.choices[0].strings;
    check_close("A4", chosen[3].tension, answer.present.strings[3].tension, 0, 0.1);
    check_close("C3", chosen[0].tension, liked.strings[0].tension, 0, 0.1);
    mensur_restringing_clear(&answer);
    mensur_profile_clear(&liked);
    free(stock.strings);
}

static void refuses(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument low;
    struct mensur_packet packet;
    struct mensur_fault fault = {""};
    struct mensur_restring_wishes plain = no_wishes(), packed = no_wishes();
    check_status("copy", mensur_instrument_copy(&demo->kestrel, &low), MENSUR_OK);
    demo_set(&low, MENSUR_FIELD_BRIDGE, 31);
    check_status("packet", mensur_packet_read("B#2=55@370", &fault, &packet), MENSUR_OK);
    packed.packets = &packet;
    packed.packet_count = 1;
    const struct {
        const char *row;
        const struct mensur_instrument *instrument;
        const struct mensur_restring_wishes *wishes;
        enum mensur_status want;
        const char *fault;
    } rows[] = {{"on the board", &low, &plain, MENSUR_NO_ANSWER, "lie on the board"},
                {"another note", &demo->kestrel, &packed, MENSUR_USE, "B#2"}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_restringing answer = {.string_count = 77};
        check_status(rows[i].row,
                     mensur_ask_restring(&demo->shop.stock, rows[i].instrument, rows[i].wishes,
                                         &demo->terms, &fault, &answer),
                     rows[i].want);
        check_holds(fault.text, rows[i].fault);
        assert_int_equal(answer.string_count, 77);
    }
    packet.tension = 12.5;
    check_status("overflow", mensur_packet_read("A4=1.7e308lbf@370", &fault, &packet), MENSUR_USE);
    check_close("untouched", packet.tension, 12.5, 0, 0);
    mensur_instrument_clear(&low);
}

/* Sixteen notes of two hundred strings each, with aims that a limit on the belly's force keeps
 * away: so many sets are nearly as good that not all are told apart, and the answer says so. */
static void very_many_strings(void **state) {
    enum { NOTES = 16 };
    const size_t count = 200; /* for each */
    static const char *const notes[NOTES] = {"C2", "G2", "D3", "A3", "E4", "B4", "C3", "G3",
                                             "D4", "A4", "E5", "B5", "C4", "G4", "D5", "A5"};
    static struct mensur_string_spec specs[NOTES * 200];
    static struct mensur_wish wished[NOTES];
    static char name[] = "string";
    const struct demo *demo = *state;
    struct mensur_stock stock = demo->shop.stock;
    struct mensur_tuning tuning;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    struct mensur_working working;
    struct mensur_fault fault = {""};
    gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_rng_set(random, 20275);
    tune(&stock, &tuning, notes[0]);
    tuning.count = NOTES;
    stock.strings = specs;
    stock.string_count = COUNT_OF(specs);
    wishes.tensions = wished;
    wishes.tension_count = NOTES;
    wishes.runners_up = MENSUR_RUNNERS_UP_MAX;
    wishes.most_belly_force = 280.0;
    for (size_t i = 0; i < NOTES; i++) {
        struct mensur_note *note = &tuning.notes[i];
        check_status(notes[i], mensur_note_read(notes[i], 2, note), MENSUR_OK);
        double aim = 48.0 + 8.0 * gsl_rng_uniform(random);
        wished[i] = (struct mensur_wish){
            .kind = MENSUR_WISH_TENSION, .low = aim - 20.0, .high = aim + 20.0};
        strcpy(wished[i].note, notes[i]);
        for (size_t k = 0; k < count; k++) {
            struct mensur_string_spec *spec = &specs[i * count + k];
            mensur_string_spec_init(spec);
            spec->name = name;
            spec->note = *note;
            spec->stated_tension.value = 40.0 + 20.0 * gsl_rng_uniform(random);
            spec->stated_length.value = 0.37;
            spec->stated_a4.value = 440.0;
        }
    }
    ask(demo, &stock, &demo->kestrel, &wishes, &answer);
    assert_int_equal(answer.choice_count, 1 + MENSUR_RUNNERS_UP_MAX);
    assert_true(answer.force_slack > 0.0 && answer.force_slack < 0.1 / 100.0 * 280.0);
    assert_true(answer.choices[0].total_force_on_belly <= 280.0 * (1.0 + 1e-12));
    check_holds(said(&answer.reason, 0),
                "no other set that meets every wish, and presses the belly with at "
                "least 0.1 % less than the limit, comes nearer");
    check_status("working",
                 mensur_ask_working_restring(&stock, &demo->kestrel, &wishes, &answer, &demo->terms,
                                             false, &fault, &working),
                 MENSUR_OK);
    bool is_told = false;
    for (size_t k = 0; k < working.count; k++) {
        is_told = is_told || strcmp(working.lines[k].what, "cost, the least found") == 0;
    }
    assert_true(is_told);
    mensur_working_clear(&working);
    mensur_restringing_clear(&answer);
    gsl_rng_free(random);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_string),         cmocka_unit_test(no_strings),
        cmocka_unit_test(unknown_tensions),   cmocka_unit_test(middle_below_nothing),
        cmocka_unit_test(percent_of_unknown), cmocka_unit_test(refuses),
        cmocka_unit_test(very_many_strings)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
