/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Workings of answers in which something is missing, and of questions that do not belong to the
 * answer they are asked about: what is not known has no line, and every line is right. */
#include "demo.h"
#include "worked.h"

static void check_good(enum mensur_status status, const struct mensur_fault *fault,
                       const struct mensur_working *working) {
    check_status(fault->text, status, MENSUR_OK);
    check_working(working);
}

/* No family, no tuning: lengths, and nothing of strings, hand and reach. */
static void bare(void **state) {
    const struct demo *demo = *state;
    const struct mensur_stock *stock = &demo->shop.stock;
    const struct mensur_player *middle = mensur_stock_player(stock, "middle");
    struct mensur_instrument violin;
    struct mensur_working w;
    struct mensur_fault fault = {""};
    demo_bare_violin(&violin);
    const struct mensur_instrument *const one[] = {&violin};
    check_good(mensur_ask_working_lengths(stock, &violin, &demo->terms, &fault, &w), &fault, &w);
    assert_non_null(find_line(&w, "", "break angle"));
    assert_null(find_line(&w, "", "left reach"));
    assert_string_equal(find_line(&w, "", "board_nut")->source, "assumed, a board without taper");
    mensur_working_clear(&w);
    check_good(mensur_ask_working_tension(stock, &violin, &demo->terms, true, &fault, &w), &fault,
               &w);
    assert_null(find_line(&w, "", "tension in all"));
    mensur_working_clear(&w);
    check_good(mensur_ask_working_fingers(stock, &violin, &demo->terms, true, &fault, &w), &fault,
               &w);
    assert_non_null(find_line(&w, "", "place of semitone 7"));
    assert_null(find_line(&w, "", "frame in position 1"));
    mensur_working_clear(&w);
    check_good(mensur_ask_working_reach(stock, one, 1, middle, &demo->terms, &fault, &w), &fault,
               &w);
    assert_null(find_line(&w, "", "shoulder to nut"));
    mensur_working_clear(&w);
    mensur_instrument_clear(&violin);
}

/* A back that does not rise is as long as its tape. */
static void flat_back(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin;
    struct mensur_working w;
    struct mensur_fault fault = {""};
    demo_model_violin(&violin);
    demo_set(&violin, MENSUR_FIELD_BACK_ARCH, 0);
    check_good(mensur_ask_working_lengths(&demo->shop.stock, &violin, &demo->terms, &fault, &w),
               &fault, &w);
    const struct mensur_working_line *line = find_line(&w, "", "straight length of the back");
    assert_string_equal(line->formula, "body_straight = body");
    assert_string_equal(line->result, "355.00 mm");
    assert_null(find_line(&w, "", "bend of the back"));
    mensur_working_clear(&w);
    mensur_instrument_clear(&violin);
}

/* A string of a material that the stock does not know, and of no stated density. */
static void unknown_material(void **state) {
    const struct demo *demo = *state;
    static char unobtainable[] = "unobtainable";
    struct mensur_stock stock;
    struct mensur_working w;
    struct mensur_fault fault = {""};
    demo_own_strings(demo, 0, &stock);
    for (size_t i = 0; i < stock.string_count; i++) {
        if (strcmp(stock.strings[i].note.name, "A4") == 0) {
            stock.strings[i].material = unobtainable;
            stock.strings[i].density = MENSUR_UNKNOWN;
        }
    }
    check_good(mensur_ask_working_tension(&stock, &demo->kestrel, &demo->terms, false, &fault, &w),
               &fault, &w);
    assert_non_null(find_line(&w, "", "tension of D4"));
    assert_null(find_line(&w, "", "tension of A4"));
    mensur_working_clear(&w);
    free(stock.strings);
}

/* mm, NaN not given; which lines tell where the arm is from. */
static const struct {
    const char *row;
    double stature, upper, fore, side, forward;
    bool stature_given, too_far;
    double age;
} arms[] = {
    {"stature", 1700, NAN, NAN, NAN, NAN, true, false, NAN},
    {"of a child", 1330, NAN, NAN, NAN, NAN, true, true, 9.25},
    {"between child and adult", 1640, NAN, NAN, NAN, NAN, true, false, 15.5},
    {"forearm follows", 1700, 310, NAN, 180, 60, true, false, NAN},
    {"side follows", 1700, 310, 250, NAN, 60, true, false, NAN},
    {"forward follows", 1700, 310, 250, 180, NAN, true, false, NAN},
    {"nothing follows", 1700, 310, 250, 180, 60, false, false, NAN},
    {"hand and rest follow", NAN, 312, 245, NAN, NAN, false, false, NAN},
    {"too short an arm", NAN, 200, 150, 185, 60, false, true, NAN},
    {"an arm that does not fold so far", NAN, 910, 190, 177, 48, false, false, NAN},
};

static void players(void **state) {
    const struct demo *demo = *state;
    static char name[] = "somebody";
    const struct mensur_instrument *const one[] = {&demo->kestrel};
    for (size_t i = 0; i < COUNT_OF(arms); i++) {
        struct mensur_player player = {.name = name,
                                       .age = arms[i].age,
                                       .stature = {.value = arms[i].stature / 1000},
                                       .upper_arm = {.value = arms[i].upper / 1000},
                                       .forearm = {.value = arms[i].fore / 1000},
                                       .rest_side = {.value = arms[i].side / 1000},
                                       .rest_forward = {.value = arms[i].forward / 1000},
                                       .hand = {.value = i == 6 ? 0.181 : NAN},
                                       .yaw = {.value = 0.7854},
                                       .span = MENSUR_UNKNOWN};
        struct mensur_working w;
        struct mensur_fault fault = {""};
        check_good(
            mensur_ask_working_reach(&demo->shop.stock, one, 1, &player, &demo->terms, &fault, &w),
            &fault, &w);
        assert_int_equal(find_line(&w, NULL, "stature") != NULL, arms[i].stature_given);
        assert_int_equal(find_line(&w, NULL, "age in years") != NULL, !isnan(arms[i].age));
        assert_int_equal(find_line(&w, NULL, "beyond the arm's length by") != NULL,
                         arms[i].too_far);
        mensur_working_clear(&w);
    }
}

#define LENGTH(low_mm, high_mm)                                                                    \
    { .kind = MENSUR_WISH_STRING_LENGTH, .low = (low_mm) / 1e3, .high = (high_mm) / 1e3 }

static const struct {
    const char *row;
    struct mensur_wish wish;
    const char *about, *what; /* a line that must be there */
    const char *without;      /* one that must not */
    const char *source;       /* of the first */
} decisions[] = {
    {"a range", LENGTH(330.0, 332.0), "all wishes together", "string length to come nearest to",
     "conflict", "range wished for"},
    {"no length",
     {.kind = MENSUR_WISH_RATIO, .low = 2.8, .high = 2.9},
     "recommended",
     "fingers wider by",
     "string length to come nearest to",
     "every spacing goes as the length"},
    {"open below", LENGTH(NAN, 327.0), "all wishes together", "greatest that meets every wish",
     "least that meets every wish", "what all intervals have in common"},
    {"open above", LENGTH(329.0, NAN), "all wishes together", "least that meets every wish",
     "greatest that meets every wish", "what all intervals have in common"},
    {"wider than the search", LENGTH(100.0, 900.0), "wish for string length",
     "least neck that it allows", "gap in the neck",
     "end of the search, where the wish is met still"},
};

/* A violin without strings, so that no range of theirs stands in. */
static void decided(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin;
    demo_bare_violin(&violin);
    for (size_t i = 0; i < COUNT_OF(decisions); i++) {
        struct mensur_wishes wishes = {.items = &decisions[i].wish, .count = 1};
        struct mensur_decision d;
        struct mensur_working w;
        struct mensur_fault fault = {""};
        check_status(decisions[i].row,
                     mensur_ask_decision(&demo->shop.stock, &violin, &wishes, false, &demo->terms,
                                         &fault, &d),
                     MENSUR_OK);
        check_good(
            mensur_ask_working_decision(&demo->shop.stock, &violin, &d, &demo->terms, &fault, &w),
            &fault, &w);
        const struct mensur_working_line *line =
            find_line(&w, decisions[i].about, decisions[i].what);
        assert_non_null(line);
        assert_string_equal(line->source, decisions[i].source);
        assert_null(find_line(&w, NULL, decisions[i].without));
        mensur_working_clear(&w);
        mensur_decision_clear(&d);
    }
    mensur_instrument_clear(&violin);
}

static void stop_in_conflict(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish apart[] = {LENGTH(372.0, 380.0),
                                        {.kind = MENSUR_WISH_RATIO, .low = NAN, .high = 2.95}};
    struct mensur_wishes wishes = {.items = apart, .count = 2};
    struct mensur_decision d;
    struct mensur_working w;
    struct mensur_fault fault = {""};
    check_status("stop",
                 mensur_ask_decision(&demo->shop.stock, &demo->kestrel, &wishes, true, &demo->terms,
                                     &fault, &d),
                 MENSUR_OK);
    assert_true(d.conflict.exists);
    check_good(mensur_ask_working_decision(&demo->shop.stock, &demo->kestrel, &d, &demo->terms,
                                           &fault, &w),
               &fault, &w);
    const struct mensur_working_line *line = find_line(&w, "conflict", "gap in the stop");
    assert_non_null(line);
    check_close("gap", read_result(line->result).value, d.conflict.gap * 1000, 0.0051, 0);
    mensur_working_clear(&w);
    mensur_decision_clear(&d);
}

static struct mensur_restring_wishes no_wishes(void) {
    return (struct mensur_restring_wishes){
        .least_margin = NAN, .most_belly_force = NAN, .any_length = true};
}

static void restring(const struct demo *demo, const struct mensur_stock *stock,
                     const struct mensur_restring_wishes *wishes, struct mensur_restringing *r,
                     struct mensur_working *w) {
    struct mensur_fault fault = {""};
    check_status("restring",
                 mensur_ask_restring(stock, &demo->kestrel, wishes, &demo->terms, &fault, r),
                 MENSUR_OK);
    check_good(mensur_ask_working_restring(stock, &demo->kestrel, wishes, r, &demo->terms, false,
                                           &fault, w),
               &fault, w);
}

/* A wish for one note is what it aims at; the others aim at nothing, and have no term. */
static void restrung_by_wish(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish wish = {
        .kind = MENSUR_WISH_TENSION, .note = "A4", .low = 40, .high = 90};
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing r;
    struct mensur_working w;
    wishes.tensions = &wish;
    wishes.tension_count = 1;
    restring(demo, &demo->shop.stock, &wishes, &r, &w);
    assert_string_equal(find_line(&w, "", "wished tension of A4")->result, "65.00 N");
    assert_null(find_line(&w, "", "wished tension of D4"));
    assert_non_null(find_line(&w, "the recommended set", "off the wished tension of A4"));
    assert_null(find_line(&w, "the recommended set", "off the wished tension of D4"));
    mensur_working_clear(&w);
    mensur_restringing_clear(&r);
}

/* One string has no step to another; where it aims at nothing, or there is none, there is no cost.
 */
static void restrung_alone(void **state) {
    const struct demo *demo = *state;
    struct mensur_stock stock = demo->shop.stock;
    static char name[] = "viola";
    struct mensur_tuning one = {.name = name, .count = 1};
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing r;
    struct mensur_working w;
    stock.tunings = &one;
    stock.tuning_count = 1;
    check_status("D4", mensur_note_read("D4", 2, &one.notes[0]), MENSUR_OK);
    restring(demo, &stock, &wishes, &r, &w);
    assert_non_null(find_line(&w, "the recommended set", "cost, the least there is"));
    assert_null(find_line(&w, "the recommended set", "evenness"));
    mensur_working_clear(&w);
    mensur_restringing_clear(&r);
    /* Its set has no such string, so nothing says what one is to tension. */
    check_status("E5", mensur_note_read("E5", 2, &one.notes[0]), MENSUR_OK);
    restring(demo, &stock, &wishes, &r, &w);
    assert_int_equal(r.choices[0].cost, 0);
    assert_non_null(find_line(&w, "the recommended set", "pitch of E5"));
    assert_null(find_line(&w, "the recommended set", "cost, the least there is"));
    mensur_working_clear(&w);
    mensur_restringing_clear(&r);
    check_status("G#1", mensur_note_read("G#1", 3, &one.notes[0]), MENSUR_OK);
    restring(demo, &stock, &wishes, &r, &w);
    assert_int_equal(r.choice_count, 0);
    assert_null(find_line(&w, NULL, "cost, the least there is"));
    mensur_working_clear(&w);
    mensur_restringing_clear(&r);
}

/* Asked with other wishes than the answer's, strings that those exclude are not told of; nor is a
 * string without a name. */
static void restrung_otherwise(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes(), others = no_wishes();
    struct mensur_restringing r;
    struct mensur_working w;
    struct mensur_fault fault = {""};
    others.from = "violin steel";
    restring(demo, &demo->shop.stock, &wishes, &r, &w);
    assert_non_null(find_line(&w, "the recommended set", "diameter over the wrapping of C3"));
    mensur_working_clear(&w);
    check_good(mensur_ask_working_restring(&demo->shop.stock, &demo->kestrel, &others, &r,
                                           &demo->terms, false, &fault, &w),
               &fault, &w);
    assert_null(find_line(&w, "the recommended set", "diameter over the wrapping of C3"));
    mensur_working_clear(&w);
    r.choices[0].strings[0].string = NULL;
    check_good(mensur_ask_working_restring(&demo->shop.stock, &demo->kestrel, &wishes, &r,
                                           &demo->terms, false, &fault, &w),
               &fault, &w);
    assert_null(find_line(&w, "the recommended set", "diameter over the wrapping of C3"));
    assert_non_null(find_line(&w, "the recommended set", "diameter over the wrapping of G3"));
    mensur_working_clear(&w);
    mensur_restringing_clear(&r);
}

/* What cannot be answered has no working. */
static void refuses(void **state) {
    const struct demo *demo = *state;
    const struct mensur_stock *stock = &demo->shop.stock;
    const struct mensur_wish cello = {.kind = MENSUR_WISH_TENSION, .note = "C2", .low = 100};
    const struct mensur_change on_board = {.field = MENSUR_FIELD_BRIDGE, .value = {.value = 0.031}};
    struct mensur_restring_wishes wishes = no_wishes(), lacking = no_wishes();
    struct mensur_restringing r = {.choice_count = 0};
    struct mensur_decision d = {.want_count = 0};
    struct mensur_instrument low, bare_violin;
    struct mensur_working w = {.count = 77};
    struct mensur_fault fault = {""};
    lacking.tensions = &cello;
    lacking.tension_count = 1;
    check_status("copy", mensur_instrument_copy(&demo->kestrel, &low), MENSUR_OK);
    demo_set(&low, MENSUR_FIELD_BRIDGE, 31);
    demo_bare_violin(&bare_violin);
    check_status("decision", mensur_ask_working_decision(stock, &low, &d, &demo->terms, &fault, &w),
                 MENSUR_NO_ANSWER);
    check_status("change",
                 mensur_ask_working_change(stock, &demo->kestrel, &on_board, 1, &demo->terms, false,
                                           &fault, &w),
                 MENSUR_NO_ANSWER);
    check_status(
        "changed",
        mensur_ask_working_change(stock, &low, &on_board, 1, &demo->terms, false, &fault, &w),
        MENSUR_NO_ANSWER);
    check_status(
        "restring",
        mensur_ask_working_restring(stock, &low, &wishes, &r, &demo->terms, false, &fault, &w),
        MENSUR_NO_ANSWER);
    check_status("a note it lacks",
                 mensur_ask_working_restring(stock, &demo->kestrel, &lacking, &r, &demo->terms,
                                             false, &fault, &w),
                 MENSUR_USE);
    check_holds(fault.text, "tuned to C2");
    assert_int_equal(w.count, 77);
    /* Without a tuning there is nothing to choose, and so nothing but the length to tell. */
    check_good(mensur_ask_working_restring(stock, &bare_violin, &wishes, &r, &demo->terms, false,
                                           &fault, &w),
               &fault, &w);
    assert_null(find_line(&w, NULL, "wished tension"));
    mensur_working_clear(&w);
    check_good(mensur_ask_working_compare(stock, NULL, 0, &demo->terms, false, &fault, &w), &fault,
               &w);
    assert_int_equal(w.count, 0);
    mensur_working_clear(&w);
    mensur_instrument_clear(&low);
    mensur_instrument_clear(&bare_violin);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(bare),
                                       cmocka_unit_test(flat_back),
                                       cmocka_unit_test(unknown_material),
                                       cmocka_unit_test(players),
                                       cmocka_unit_test(decided),
                                       cmocka_unit_test(stop_in_conflict),
                                       cmocka_unit_test(restrung_by_wish),
                                       cmocka_unit_test(restrung_alone),
                                       cmocka_unit_test(restrung_otherwise),
                                       cmocka_unit_test(refuses)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
