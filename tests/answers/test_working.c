/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working against the answers, and its printed arithmetic worked out again by a reader of its
 * own (arithmetic.c): every step of every command, on every instrument of the demonstration. */
#include "demo.h"
#include "worked.h"

static const double pi = 3.14159265358979323846;

/* A result is the answer's own figure (in the result's unit), rounded; NaN leaves no line. */
static void check_figure(const struct mensur_working *working, const char *about, const char *what,
                         double figure) {
    const struct mensur_working_line *line = find_line(working, about, what);
    if (isnan(figure)) {
        assert_null(line);
        return;
    }
    if (line == NULL) {
        fail_msg("no line %s", what);
        return;
    }
    struct worked_out got = read_result(line->result);
    check_close(what, got.value, figure, 1.01 * got.off + 1e-9 * fabs(figure), 0);
}

static void check_lengths(const struct mensur_working *working, const char *about,
                          const struct mensur_lengths *lengths) {
    const struct {
        const char *what;
        double figure;
    } figures[] = {
        {"neck : stop as 2 to", lengths->stop_per_2_neck},
        {"note at which the hand meets the body", lengths->body_at_semitones},
        {"slope of the neck", lengths->neck_slope * 180 / pi},
        {"break angle", lengths->break_angle * 180 / pi},
        {"down factor", lengths->down_factor},
        {"left reach", lengths->left_reach * 1e3},
        {"bow reach", lengths->bow_reach * 1e3},
        {"afterlength", lengths->afterlength * 1e3},
        {"clearance at the board's end", lengths->clearance_at_board_end * 1e3},
        {"bow room", lengths->bow_room * 1e3},
    };
    bool measured = lengths->string_length_measured == MENSUR_YES;
    for (size_t i = 0; i < COUNT_OF(figures); i++) {
        check_figure(working, about, figures[i].what, figures[i].figure);
    }
    check_figure(working, about, "string length",
                 1e3 * (isnan(lengths->string_length_geometry) ? lengths->string_length
                                                               : lengths->string_length_geometry));
    if (measured && !isnan(lengths->string_length_geometry)) {
        check_figure(working, about, "string length that is used", lengths->string_length * 1e3);
    }
}

static void check_strings(const struct mensur_working *working, const char *about,
                          const struct mensur_string_figures *strings, size_t count, bool feel) {
    for (size_t i = 0; i < count; i++) {
        const struct {
            const char *what;
            double figure;
        } figures[] = {
            {"pitch", strings[i].frequency},
            {"tension", strings[i].tension},
            {"stress in the core", strings[i].stress / 1e6},
            {"margin to breaking", strings[i].breaking_margin},
            {"breaking pitch", strings[i].highest_frequency},
            {"inharmonicity", strings[i].inharmonicity},
            {"wave impedance", strings[i].impedance},
            {"force on the belly", strings[i].force_on_belly},
            {"greatest bow force", strings[i].bow_force_greatest},
            {"least bow force", strings[i].bow_force_least},
            {"pressing force at semitone 2", strings[i].press_force_first},
            {"pressing force at the octave", strings[i].press_force_octave},
            {"its rise, held,", strings[i].rise_high_cents},
            {"its rise, free,", strings[i].rise_low_cents},
        };
        for (size_t k = 0; k < (feel ? COUNT_OF(figures) : 8); k++) {
            char what[96];
            snprintf(what, sizeof what, "%s of %s", figures[k].what, strings[i].note);
            check_figure(working, about, what, figures[k].figure);
        }
    }
}

static void check_frames(const struct mensur_working *working, const char *about,
                         const struct mensur_position *positions, size_t count) {
    for (size_t i = 0; i < count; i++) {
        char what[64];
        snprintf(what, sizeof what, "frame in position %s", positions[i].name);
        check_figure(working, about, what, positions[i].frame * 1e3);
    }
}

/* Every instrument of the demonstration, and one that was measured and computed. */
static void each_instrument(const struct demo *demo,
                            void (*check)(const struct demo *demo,
                                          const struct mensur_instrument *instrument,
                                          const struct mensur_terms *terms)) {
    const struct mensur_instrument *const all[] = {&demo->heron, &demo->kestrel, &demo->wren,
                                                   &demo->swift, &demo->bittern, &demo->dipper};
    struct mensur_instrument measured;
    struct mensur_terms other = demo->terms;
    other.a4 = 443.7;
    other.fifths = MENSUR_FIFTHS_EQUAL;
    other.steps = MENSUR_STEPS_JUST;
    other.resistance = 250.0;
    other.bow_speed = 0.31;
    for (size_t i = 0; i < COUNT_OF(all); i++) {
        check(demo, all[i], &demo->terms);
        check(demo, all[i], &other);
    }
    demo_model_violin(&measured);
    demo_set(&measured, MENSUR_FIELD_STRING_LENGTH, 327.4);
    demo_set(&measured, MENSUR_FIELD_AFTERLENGTH, 55.25);
    check(demo, &measured, &demo->terms);
    mensur_instrument_clear(&measured);
}

static void lengths_of(const struct demo *demo, const struct mensur_instrument *instrument,
                       const struct mensur_terms *terms) {
    struct mensur_profile profile;
    struct mensur_working working;
    struct mensur_fault fault;
    check_status(instrument->name,
                 mensur_ask_profile(&demo->shop.stock, instrument, terms, MENSUR_PART_LENGTHS,
                                    &fault, &profile),
                 MENSUR_OK);
    check_status(instrument->name,
                 mensur_ask_working_lengths(&demo->shop.stock, instrument, terms, &fault, &working),
                 MENSUR_OK);
    assert_true(check_working(&working) >= (isnan(profile.lengths.stop) ? 3 : 17));
    check_lengths(&working, "", &profile.lengths);
    mensur_working_clear(&working);
    mensur_profile_clear(&profile);
}

static void lengths(void **state) {
    each_instrument(*state, lengths_of);
}

static void tension_of(const struct demo *demo, const struct mensur_instrument *instrument,
                       const struct mensur_terms *terms) {
    struct mensur_profile profile;
    struct mensur_working working;
    struct mensur_fault fault;
    check_status(instrument->name,
                 mensur_ask_profile(&demo->shop.stock, instrument, terms, MENSUR_PART_STRINGS,
                                    &fault, &profile),
                 MENSUR_OK);
    for (int feel = 0; feel < 2; feel++) {
        check_status(instrument->name,
                     mensur_ask_working_tension(&demo->shop.stock, instrument, terms, feel, &fault,
                                                &working),
                     MENSUR_OK);
        check_working(&working);
        check_strings(&working, "", profile.strings, profile.string_count, feel);
        check_figure(&working, "", "tension in all", profile.total_tension);
        check_figure(&working, "", "force on the belly in all", profile.total_force_on_belly);
        mensur_working_clear(&working);
    }
    mensur_profile_clear(&profile);
}

static void tension(void **state) {
    each_instrument(*state, tension_of);
}

static void fingers_of(const struct demo *demo, const struct mensur_instrument *instrument,
                       const struct mensur_terms *terms) {
    struct mensur_profile profile;
    struct mensur_working working;
    struct mensur_fault fault;
    check_status(instrument->name,
                 mensur_ask_profile(&demo->shop.stock, instrument, terms,
                                    MENSUR_PART_FINGERS | MENSUR_PART_TRUE_PLACES, &fault,
                                    &profile),
                 MENSUR_OK);
    check_status(
        instrument->name,
        mensur_ask_working_fingers(&demo->shop.stock, instrument, terms, true, &fault, &working),
        MENSUR_OK);
    check_working(&working);
    check_frames(&working, "", profile.positions, profile.position_count);
    for (size_t i = 1; i < profile.place_count; i++) {
        char what[64];
        snprintf(what, sizeof what, "place of semitone %zu", i);
        check_figure(&working, "", what, profile.places[i].from_nut * 1e3);
    }
    for (size_t i = 0; i < profile.true_place_count; i++) {
        const struct mensur_true_place *place = &profile.true_places[i];
        if (place->semitones > 11.5 && place->semitones < 12.5) {
            char what[64];
            snprintf(what, sizeof what, "true place of the octave of %s", place->note);
            check_figure(&working, "", what, place->from_nut_high * 1e3);
        }
    }
    mensur_working_clear(&working);
    mensur_profile_clear(&profile);
}

static void fingers(void **state) {
    each_instrument(*state, fingers_of);
}

/* Strings whose density comes about in other ways: stated, stated slack, by a stated tension. */
static void densities(void **state) {
    struct demo *demo = *state;
    struct mensur_string_spec *strings = demo->shop.stock.strings;
    struct mensur_string_spec *kept = calloc(demo->shop.stock.string_count, sizeof *kept);
    size_t found = 0;
    assert_non_null(kept);
    memcpy(kept, strings, demo->shop.stock.string_count * sizeof *kept);
    for (size_t i = 0; i < demo->shop.stock.string_count; i++) {
        if (strings[i].set == NULL || strcmp(strings[i].set, demo->kestrel.set) != 0) {
            continue;
        }
        switch (found++) {
        case 0:
            strings[i].linear_density.value = 0.0051234;
            break;
        case 1:
            strings[i].linear_density.value = 0.0022345;
            strings[i].slack = true;
            break;
        case 2:
            strings[i].stated_tension.value = 47.3;
            strings[i].stated_length.value = 0.3725;
            strings[i].stated_a4.value = 442.0;
            break;
        default:
            strings[i].strength.value = 3.21e8;
            break;
        }
    }
    assert_true(found >= 4);
    tension_of(demo, &demo->kestrel, &demo->terms);
    memcpy(strings, kept, demo->shop.stock.string_count * sizeof *kept);
    free(kept);
}

static void compared(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const three[] = {&demo->heron, &demo->wren, &demo->bittern};
    struct mensur_comparison comparison;
    struct mensur_working working;
    struct mensur_fault fault;
    check_status("compare",
                 mensur_ask_compare(&demo->shop.stock, three, 3, &demo->terms, &fault, &comparison),
                 MENSUR_OK);
    check_status("compare",
                 mensur_ask_working_compare(&demo->shop.stock, three, 3, &demo->terms, true, &fault,
                                            &working),
                 MENSUR_OK);
    check_working(&working);
    for (size_t i = 0; i < 3; i++) {
        const struct mensur_profile *profile = &comparison.instruments[i];
        check_lengths(&working, three[i]->name, &profile->lengths);
        check_strings(&working, three[i]->name, profile->strings, profile->string_count, true);
        check_frames(&working, three[i]->name, profile->positions, profile->position_count);
        check_figure(&working, three[i]->name, "tension in all", profile->total_tension);
    }
    check_figure(&working, "wren against heron", "longer string by",
                 comparison.differences[0].lengths.string_length * 1e3);
    check_figure(&working, "wren against heron", "fingers wider by",
                 (comparison.instruments[1].lengths.string_length /
                      comparison.instruments[0].lengths.string_length -
                  1) *
                     100);
    check_figure(&working, "bittern against heron", "longer string by",
                 comparison.differences[1].lengths.string_length * 1e3);
    for (size_t i = 0; i < working.count; i++) { /* nothing in percent between two families */
        const struct mensur_working_line *line = &working.lines[i];
        assert_false(line->about != NULL && strcmp(line->about, "bittern against heron") == 0 &&
                     strchr(line->result, '%') != NULL);
    }
    mensur_working_clear(&working);
    mensur_comparison_clear(&comparison);
}

static void changed(void **state) {
    struct demo *demo = *state;
    struct mensur_instrument measured;
    struct mensur_change changes[] = {
        {.field = MENSUR_FIELD_NECK, .relative = true, .value = {.value = 0.0037}},
        {.field = MENSUR_FIELD_STOP, .relative = true, .value = {.value = -0.0021}}};
    demo_model_violin(&measured);
    demo_set(&measured, MENSUR_FIELD_STRING_LENGTH, 329.1);
    for (int hold = 0; hold < 2; hold++) {
        struct mensur_comparison comparison;
        struct mensur_working working;
        struct mensur_fault fault;
        struct mensur_terms terms = demo->terms;
        terms.hold = hold == 0 ? MENSUR_HOLD_PROJECTION : MENSUR_HOLD_SLOPE;
        check_status("change",
                     mensur_ask_change(&demo->shop.stock, &measured, changes, 2, &terms, &fault,
                                       &comparison),
                     MENSUR_OK);
        check_status("change",
                     mensur_ask_working_change(&demo->shop.stock, &measured, changes, 2, &terms,
                                               false, &fault, &working),
                     MENSUR_OK);
        check_working(&working);
        for (size_t i = 0; i < 2; i++) {
            const struct mensur_lengths *figures = &comparison.instruments[i].lengths;
            const char *about = i == 0 ? "now" : "proposed";
            check_figure(&working, about, "string length that is used",
                         figures->string_length * 1e3);
            check_figure(&working, about, "break angle", figures->break_angle * 180 / pi);
            check_figure(&working, about, "left reach", figures->left_reach * 1e3);
            check_figure(&working, about, "bow room", figures->bow_room * 1e3);
        }
        mensur_working_clear(&working);
        mensur_comparison_clear(&comparison);
    }
    mensur_instrument_clear(&measured);
}

struct wished {
    const char *name;
    bool for_stop;
    enum mensur_wish_kind kinds[4];
    const char *ranges[4];
    size_t count;
    bool like;
};

static const struct wished wished[] = {
    {"a length and a reach",
     false,
     {MENSUR_WISH_STRING_LENGTH, MENSUR_WISH_LEFT_REACH},
     {"366..373.5", "..561"},
     2,
     false},
    {"no neck for all",
     false,
     {MENSUR_WISH_BODY_NOTE, MENSUR_WISH_TENSION},
     {"..9.1", "A4=44..46"},
     2,
     true},
    {"totals",
     false,
     {MENSUR_WISH_TOTAL_TENSION, MENSUR_WISH_BELLY_FORCE},
     {"170..185", "..70.5"},
     2,
     false},
    {"the stop",
     true,
     {MENSUR_WISH_STRING_LENGTH, MENSUR_WISH_RATIO},
     {"367..372", "2:2.9..2:3.1"},
     2,
     false},
    {"as it is", false, {MENSUR_WISH_RATIO}, {"2:2.9..2:3.1", NULL}, 1, false},
    {"nothing", false, {MENSUR_WISH_RATIO}, {NULL, NULL}, 0, false},
    {"nothing, of the stop", true, {MENSUR_WISH_RATIO}, {NULL, NULL}, 0, false},
    {"an open side", true, {MENSUR_WISH_BELLY_FORCE}, {"66..", NULL}, 1, false},
};

static void check_want(const struct mensur_working *working, const struct mensur_want *want,
                       bool for_stop) {
    char about[64];
    snprintf(about, sizeof about, "wish for %s", want->what);
    for (char *at = about; *at != '\0'; at++) {
        *at = *at == '_' ? ' ' : *at;
    }
    check_figure(working, about,
                 for_stop ? "least stop that it allows" : "least neck that it allows",
                 want->place_low * 1e3);
    check_figure(working, about,
                 for_stop ? "greatest stop that it allows" : "greatest neck that it allows",
                 want->place_high * 1e3);
}

static void decided(void **state) {
    const struct demo *demo = *state;
    for (size_t i = 0; i < COUNT_OF(wished); i++) {
        struct mensur_wish items[4];
        struct mensur_wishes wishes = {wished[i].like ? &demo->heron : NULL, items,
                                       wished[i].count};
        struct mensur_decision decision;
        struct mensur_working working;
        struct mensur_fault fault;
        for (size_t k = 0; k < wished[i].count; k++) {
            check_status(
                wished[i].name,
                mensur_wish_read(wished[i].kinds[k], wished[i].ranges[k], &fault, &items[k]),
                MENSUR_OK);
        }
        check_status(wished[i].name,
                     mensur_ask_decision(&demo->shop.stock, &demo->kestrel, &wishes,
                                         wished[i].for_stop, &demo->terms, &fault, &decision),
                     MENSUR_OK);
        check_status(wished[i].name,
                     mensur_ask_working_decision(&demo->shop.stock, &demo->kestrel, &decision,
                                                 &demo->terms, &fault, &working),
                     MENSUR_OK);
        check_working(&working);
        check_lengths(&working, "now", &decision.present.lengths);
        for (size_t k = 0; k < decision.want_count; k++) {
            check_want(&working, &decision.wants[k], wished[i].for_stop);
        }
        if (decision.has_recommended && !decision.leave) {
            check_lengths(&working, "recommended", &decision.recommended.lengths);
        }
        check_figure(&working, "conflict",
                     wished[i].for_stop ? "gap in the stop" : "gap in the neck",
                     decision.conflict.exists ? decision.conflict.gap * 1e3 : NAN);
        for (size_t k = 0; k < decision.instead_count; k++) {
            char what[64];
            snprintf(what, sizeof what, "density for that tension here of %s",
                     decision.instead[k].note);
            check_figure(&working, "other strings instead", what,
                         decision.instead[k].needed_linear_density * 1e3);
        }
        mensur_working_clear(&working);
        mensur_decision_clear(&decision);
    }
}

static void restrung(void **state) {
    const struct demo *demo = *state;
    struct mensur_packet packet;
    struct mensur_fault fault;
    check_status("packet", mensur_packet_read("A4=61.9@372", &fault, &packet), MENSUR_OK);
    const struct mensur_restring_wishes rows[] = {
        {.least_margin = NAN, .most_belly_force = NAN, .any_length = true},
        {.like = &demo->heron,
         .same_impedance = true,
         .any_length = true,
         .least_margin = 1.5,
         .most_belly_force = NAN,
         .packets = &packet,
         .packet_count = 1},
        {.like = &demo->wren, .any_length = true, .least_margin = NAN, .most_belly_force = 82},
        {.least_margin = 30, .most_belly_force = NAN},
        {.least_margin = NAN,
         .most_belly_force = NAN,
         .profile = MENSUR_PROFILE_GRADED,
         .to_order = "gut"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_restringing restringing;
        struct mensur_working working;
        check_status("restring",
                     mensur_ask_restring(&demo->shop.stock, &demo->kestrel, &rows[i], &demo->terms,
                                         &fault, &restringing),
                     MENSUR_OK);
        assert_true(restringing.choice_count > 0);
        check_status("restring",
                     mensur_ask_working_restring(&demo->shop.stock, &demo->kestrel, &rows[i],
                                                 &restringing, &demo->terms, true, &fault,
                                                 &working),
                     MENSUR_OK);
        check_working(&working);
        for (size_t k = 0; k < restringing.order_count; k++) {
            char what[64];
            snprintf(what, sizeof what, "gauge of the slack string of %s",
                     restringing.orders[k].note);
            check_figure(&working, "to order", what, 1e3 * restringing.orders[k].diameter);
        }
        check_strings(&working, "the recommended set", restringing.choices[0].strings,
                      restringing.string_count, true);
        check_figure(&working, "the recommended set",
                     restringing.whole ? "cost of the whole set" : "cost, the least there is",
                     restringing.choices[0].cost);
        check_figure(&working, "the recommended set", "evenness", restringing.choices[0].evenness);
        mensur_working_clear(&working);
        mensur_restringing_clear(&restringing);
    }
}

static void reached(void **state) {
    const struct demo *demo = *state;
    static const char *const players[] = {"small", "middle", "tall", "young"};
    const struct mensur_instrument *const three[] = {&demo->heron, &demo->swift, &demo->bittern};
    for (size_t i = 0; i < COUNT_OF(players); i++) {
        const struct mensur_player *player = mensur_stock_player(&demo->shop.stock, players[i]);
        struct mensur_reaching reaching;
        struct mensur_working working;
        struct mensur_fault fault;
        check_status(
            players[i],
            mensur_ask_reach(&demo->shop.stock, three, 3, player, &demo->terms, &fault, &reaching),
            MENSUR_OK);
        check_status(players[i],
                     mensur_ask_working_reach(&demo->shop.stock, three, 3, player, &demo->terms,
                                              &fault, &working),
                     MENSUR_OK);
        check_working(&working);
        check_figure(&working, "", "arm stretched out, to the wrist", reaching.longest * 1e3);
        for (size_t k = 0; k < 3; k++) {
            const struct mensur_reach *reach = &reaching.instruments[k];
            check_figure(&working, three[k]->name, "left reach", reach->left_reach * 1e3);
            check_figure(&working, three[k]->name, "bow reach", reach->bow_reach * 1e3);
            check_figure(&working, three[k]->name, "shoulder to nut", reach->distance * 1e3);
            check_figure(&working, three[k]->name, "shoulder to wrist, in first position",
                         reach->wrist * 1e3);
            check_figure(&working, three[k]->name, "angle of the elbow", reach->elbow * 180 / pi);
            check_figure(&working, three[k]->name, "its standard uncertainty",
                         reach->elbow_plus_minus * 180 / pi);
            check_frames(&working, three[k]->name, reach->positions, reach->position_count);
        }
        for (size_t k = 0; k < working.count; k++) {
            size_t instrument = working.lines[k].instrument;
            assert_true(instrument < 3
                            ? strcmp(working.lines[k].about, three[instrument]->name) == 0
                            : instrument == MENSUR_WORKING_ALL);
        }
        mensur_working_clear(&working);
        mensur_reaching_clear(&reaching);
    }
}

/* In inches the lengths are inches, and the arithmetic holds as well. */
static void inches(void **state) {
    const struct demo *demo = *state;
    struct mensur_terms terms = demo->terms;
    struct mensur_profile profile;
    struct mensur_working working;
    struct mensur_fault fault;
    terms.inches = true;
    check_status("inches",
                 mensur_ask_profile(&demo->shop.stock, &demo->wren, &terms, MENSUR_PART_LENGTHS,
                                    &fault, &profile),
                 MENSUR_OK);
    check_status(
        "inches",
        mensur_ask_working_lengths(&demo->shop.stock, &demo->wren, &terms, &fault, &working),
        MENSUR_OK);
    check_working(&working);
    check_holds(find_line(&working, "", "string length")->result, " in");
    check_figure(&working, "", "string length", profile.lengths.string_length / 0.0254);
    mensur_working_clear(&working);
    mensur_profile_clear(&profile);
}

/* What the question refuses, its working refuses; what was in place stays. */
static void refuses(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument bare;
    struct mensur_working working;
    struct mensur_fault fault = {""};
    memset(&working, 0x3c, sizeof working);
    struct mensur_working kept = working;
    mensur_instrument_init(&bare);
    (void)mensur_text_copy("bare", 4, &bare.name);
    check_status(
        "lengths",
        mensur_ask_working_lengths(&demo->shop.stock, &bare, &demo->terms, &fault, &working),
        MENSUR_NO_ANSWER);
    check_status(
        "tension",
        mensur_ask_working_tension(&demo->shop.stock, &bare, &demo->terms, true, &fault, &working),
        MENSUR_NO_ANSWER);
    check_status(
        "fingers",
        mensur_ask_working_fingers(&demo->shop.stock, &bare, &demo->terms, true, &fault, &working),
        MENSUR_NO_ANSWER);
    check_holds(fault.text, "bare");
    const struct mensur_instrument *const pair[] = {&demo->kestrel, &bare};
    check_status("compare",
                 mensur_ask_working_compare(&demo->shop.stock, pair, 2, &demo->terms, false, &fault,
                                            &working),
                 MENSUR_NO_ANSWER);
    const struct mensur_change change = {
        .field = MENSUR_FIELD_STOP, .relative = true, .value = {.value = -1.0}};
    check_status("change",
                 mensur_ask_working_change(&demo->shop.stock, &demo->kestrel, &change, 1,
                                           &demo->terms, false, &fault, &working),
                 MENSUR_USE);
    assert_memory_equal(&working, &kept, sizeof kept);
    mensur_instrument_clear(&bare);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lengths),   cmocka_unit_test(tension),  cmocka_unit_test(fingers),
        cmocka_unit_test(densities), cmocka_unit_test(compared), cmocka_unit_test(changed),
        cmocka_unit_test(decided),   cmocka_unit_test(restrung), cmocka_unit_test(reached),
        cmocka_unit_test(inches),    cmocka_unit_test(refuses),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
