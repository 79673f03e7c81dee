/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's reach as text, CSV and JSON. Figures set down by hand: present computes nothing. */
#include "fixtures.h"

#include <jansson.h>

static char player_name[] = "tern";
static char first_name[] = "heron";
static char second_name[] = "bittern";

static struct mensur_position position(const char *name, double frame) {
    struct mensur_position out = {
        .first_finger = 0.0401, .fourth_finger = 0.0401 + frame, .frame = frame};
    snprintf(out.name, sizeof(out.name), "%s", name);
    return out;
}

/* An instrument that is reached, and one that is not held under the chin. */
struct reached {
    struct mensur_reaching reaching;
    struct mensur_reach instruments[2];
};

static void assume(struct mensur_assumptions *assumed, const char *field, double value,
                   enum mensur_kind kind) {
    assumed->items[assumed->count++] = (struct mensur_assumed){
        .field = field, .value = value, .kind = kind, .behind = MENSUR_BEHIND_ALL};
}

static void make(struct reached *out) {
    *out = (struct reached){.reaching = {.player = player_name,
                                         .upper_arm = 0.3123,
                                         .forearm = 0.2451,
                                         .longest = 0.5574,
                                         .rest_side = 0.1871,
                                         .rest_forward = 0.0612,
                                         .yaw = 0.7854,
                                         .span = 0.0874,
                                         .count = 2,
                                         .instruments = out->instruments}};
    out->instruments[0] = (struct mensur_reach){.instrument = first_name,
                                                .left_reach = 0.55888,
                                                .bow_reach = 0.1869,
                                                .distance = 0.50136,
                                                .wrist = 0.43766,
                                                .elbow = 2.2318,
                                                .elbow_plus_minus = 0.1902,
                                                .stretched = MENSUR_NO,
                                                .elbow_apart = 0.0,
                                                .elbow_apart_plus_minus = 0.0,
                                                .position_count = 3};
    out->instruments[0].positions[0] = position("half", 0.08897);
    out->instruments[0].positions[1] = position("1", 0.08397);
    out->instruments[0].positions[2] = position("2", 0.0748);
    out->instruments[1] = (struct mensur_reach){.instrument = second_name,
                                                .left_reach = NAN,
                                                .bow_reach = NAN,
                                                .distance = NAN,
                                                .wrist = NAN,
                                                .elbow = NAN,
                                                .elbow_plus_minus = NAN,
                                                .stretched = MENSUR_UNSURE,
                                                .elbow_apart = NAN,
                                                .elbow_apart_plus_minus = NAN,
                                                .position_count = 2};
    out->instruments[1].positions[0] = position("half", 0.10362);
    out->instruments[1].positions[1] = position("1", 0.09774);
    assume(&out->reaching.assumed, "yaw", 0.7853981633974483, MENSUR_ANGLE);
    assume(&out->instruments[0].assumed, "nut", 0.0005, MENSUR_LENGTH);
    mensur_facts_add(&out->reaching.remarks, MENSUR_FACT_FRAMES_APART,
                     MENSUR_NAMES("heron", "kestrel"), MENSUR_NUMBERS(0.003));
    mensur_facts_add(&out->reaching.basis, MENSUR_FACT_ARM_MEASURED, NULL, NULL);
    mensur_facts_add(&out->reaching.basis, MENSUR_FACT_REST_IS_OURS, NULL,
                     MENSUR_NUMBERS(35, 25, 45));
    mensur_facts_add(&out->instruments[1].warnings, MENSUR_FACT_LENGTH_ALONE,
                     MENSUR_NAMES("bittern"), NULL);
}

static void drop(struct reached *reached) {
    mensur_facts_clear(&reached->reaching.remarks);
    mensur_facts_clear(&reached->reaching.warnings);
    mensur_facts_clear(&reached->reaching.basis);
    mensur_facts_clear(&reached->instruments[0].warnings);
    mensur_facts_clear(&reached->instruments[1].warnings);
}

static char *present(const struct mensur_reaching *reaching, const struct mensur_working *working,
                     struct mensur_style style) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_heading heading = heading_for("reach");
    struct mensur_presenter *presenter;
    check_status("open", mensur_present_open(&heading, &style, &sink, &presenter), MENSUR_OK);
    mensur_present_set_working(presenter, working);
    check_status("present", mensur_present(presenter, &mensur_reaching_answer, reaching),
                 MENSUR_OK);
    check_status("close", mensur_present_close(presenter, true), MENSUR_OK);
    return memory.bytes;
}

static void text(void **state) {
    (void)state;
    struct reached reached;
    make(&reached);
    char *bytes = present(&reached.reaching, NULL, (struct mensur_style){0});
    const char *want =
        "- In position 1 the hand stands 3.0 mm wider on heron than on kestrel.\n"
        "\n"
        "                      left reach  bow reach  to wrist       elbow    opens by\n"
        "instrument                    mm         mm        mm         deg         deg\n"
        "heron                      558.9      186.9     437.7    128 ± 11           -\n"
        "bittern                        ?          ?         ?           ?           ?\n"
        "Left reach: lower end of the body to the nut; bow reach: to the bridge; to\n"
        "wrist: from the left shoulder, hand in first position. Stretched arm: 557.4 mm,\n"
        "180 degrees. ±: one standard uncertainty; a difference is surer (the same arm).\n"
        "The arm was measured; rest, yaw and wrist (35 % of a hand before the nut, 25 to\n"
        "45 %) are ours, no source.\n"
        "\n"
        "The hand's frame, first finger to fourth\n"
        "position              half      1      2\n"
        "mm\n"
        "heron                 89.0*  84.0   74.8\n"
        "bittern              103.6*  97.7*\n"
        "The hand of tern spans 87.4 mm; * is wider than that.\n"
        "\n";
    if (strncmp(bytes, want, strlen(want)) != 0) {
        fail_msg("the text is:\n%s", bytes);
    }
    check_holds(bytes, "Warning: bittern: only its string length is known");
    check_holds(bytes, "yaw 45.0 deg");
    check_page(bytes);
    free(bytes);

    bytes = present(&reached.reaching, NULL, (struct mensur_style){.inches = true});
    check_holds(bytes,
                "heron                      22.00       7.36     17.23    128 ± 11           -");
    check_page(bytes);
    free(bytes);
    drop(&reached);
}

/* About stretched, an elbow without a ±, a difference; and without a span no frame is told. */
static void elbows(void **state) {
    (void)state;
    struct reached reached;
    make(&reached);
    reached.reaching.span = NAN;
    reached.instruments[0].stretched = MENSUR_YES;
    reached.instruments[0].elbow = NAN;
    reached.instruments[0].elbow_plus_minus = NAN;
    reached.instruments[1].left_reach = 0.5021;
    reached.instruments[1].elbow = 2.8711;
    reached.instruments[1].stretched = MENSUR_NO;
    char *bytes = present(&reached.reaching, NULL, (struct mensur_style){0});
    check_holds(bytes, "437.7   stretched           -\n");
    check_holds(bytes, "         165           ?\n");
    assert_null(strstr(bytes, "frame, first finger"));
    assert_null(strchr(bytes, '*'));
    check_page(bytes);
    free(bytes);
    reached.instruments[1].elbow_plus_minus = 0.003;
    reached.instruments[1].elbow_apart = -0.0611;
    reached.instruments[1].elbow_apart_plus_minus = 0.0349;
    bytes = present(&reached.reaching, NULL, (struct mensur_style){0});
    check_holds(bytes, "     165 ± 1      -4 ± 2\n"); /* nothing is surer than the degree told */
    free(bytes);
    bytes = present(&reached.reaching, NULL, (struct mensur_style){.format = MENSUR_FORMAT_JSON});
    check_holds(bytes,
                "\"elbow_deg\": null, \"elbow_plus_minus_deg\": null, \"stretched\": true, ");
    check_holds(bytes, "\"stretched\": false, ");
    check_holds(bytes, "\"span_mm\": null");
    free(bytes);
    drop(&reached);
}

/* Without any reach there is no table of arms; in brief none of frames. */
static void no_arms(void **state) {
    (void)state;
    struct reached reached;
    make(&reached);
    reached.reaching.instruments = &reached.instruments[1];
    reached.reaching.count = 1;
    char *bytes = present(&reached.reaching, NULL, (struct mensur_style){0});
    assert_null(strstr(bytes, "left reach"));
    assert_null(strstr(bytes, "opens by"));
    assert_non_null(strstr(bytes, "first finger to fourth"));
    free(bytes);
    bytes = present(&reached.reaching, NULL, (struct mensur_style){.no_sources = true});
    assert_null(strstr(bytes, "first finger to fourth"));
    free(bytes);
    drop(&reached);
}

/* As many positions as there may be, and names of every kind. */
static void awkward(void **state) {
    (void)state;
    for (size_t i = 0; i < awkward_name_count; i++) {
        struct reached reached;
        char *name = NULL;
        make(&reached);
        assert_int_equal(mensur_text_copy(awkward_names[i], strlen(awkward_names[i]), &name),
                         MENSUR_OK);
        reached.reaching.player = name;
        reached.instruments[0].instrument = name;
        reached.instruments[1].instrument = name;
        reached.instruments[1].position_count = MENSUR_RESULT_POSITIONS;
        for (size_t k = 2; k < MENSUR_RESULT_POSITIONS; k++) {
            char label[8];
            snprintf(label, sizeof(label), "%zu", k);
            reached.instruments[1].positions[k] = position(label, 1.2345);
        }
        char *bytes = present(&reached.reaching, NULL, (struct mensur_style){0});
        check_holds(bytes, "15\n");
        check_page(bytes);
        free(bytes);
        for (int format = MENSUR_FORMAT_CSV; format <= MENSUR_FORMAT_JSON; format++) {
            free(present(&reached.reaching, NULL,
                         (struct mensur_style){.format = (enum mensur_format)format}));
        }
        free(name);
        drop(&reached);
    }
}

static void csv(void **state) {
    (void)state;
    struct reached reached;
    make(&reached);
    char *bytes =
        present(&reached.reaching, NULL, (struct mensur_style){.format = MENSUR_FORMAT_CSV});
    assert_string_equal(
        bytes, "instrument,player,left_reach_mm,bow_reach_mm,elbow_deg,"
               "elbow_plus_minus_deg,stretched,frame_half_mm,frame_1_mm,frame_2_mm,span_mm\n"
               "heron,tern,558.8800,186.9000,127.873,10.8977,false,88.9700,83.9700,74.8000,"
               "87.4000\n"
               "bittern,tern,,,,,,103.6200,97.7400,,87.4000\n");
    free(bytes);
    drop(&reached);
}

static const char *const keys[] = {
    "instrument", "player",   "left_reach_mm", "bow_reach_mm", "elbow_deg", "elbow_plus_minus_deg",
    "stretched",  "frame_mm", "span_mm",       "assumed",      "warnings"};

static void json(void **state) {
    (void)state;
    struct reached reached;
    json_error_t error;
    make(&reached);
    char *bytes = present(&reached.reaching, NULL,
                          (struct mensur_style){.format = MENSUR_FORMAT_JSON, .inches = true});
    json_t *whole = json_loads(bytes, JSON_REJECT_DUPLICATES, &error);
    assert_non_null(whole);
    json_t *answers = json_object_get(whole, "answers");
    assert_int_equal(json_array_size(answers), 2); /* one an instrument */
    for (size_t i = 0; i < 2; i++) {
        const char *key;
        json_t *value;
        size_t at = 0;
        json_object_foreach(json_array_get(answers, i), key, value) {
            assert_true(at < COUNT_OF(keys));
            assert_string_equal(key, keys[at++]);
        }
        assert_int_equal(at, COUNT_OF(keys)); /* no more, no less */
    }
    json_t *heron = json_array_get(answers, 0), *bittern = json_array_get(answers, 1);
    check_close("reach", json_number_value(json_object_get(heron, "left_reach_mm")), 558.88, 0,
                1e-14);
    check_close("elbow", json_number_value(json_object_get(heron, "elbow_deg")),
                2.2318 * 180 / 3.14159265358979323846, 0, 1e-14);
    assert_true(json_is_false(json_object_get(heron, "stretched")));
    check_close("frame",
                json_number_value(json_object_get(json_object_get(heron, "frame_mm"), "half")),
                88.97, 0, 1e-14);
    assert_true(json_is_null(json_object_get(bittern, "left_reach_mm")));
    assert_true(json_is_null(json_object_get(bittern, "stretched")));
    assert_int_equal(json_object_size(json_object_get(bittern, "frame_mm")), 2);
    assert_int_equal(json_array_size(json_object_get(heron, "assumed")), 2);
    assert_int_equal(json_array_size(json_object_get(bittern, "warnings")), 1);
    json_decref(whole);
    free(bytes);
    drop(&reached);
}

/* Each answer has the steps about its own instrument, and those about all. */
static void working(void **state) {
    (void)state;
    static char none[] = "", formula[] = "d = 2·r", numbers[] = "2·3.00", result[] = "6.00 mm";
    static char whats[][8] = {"arm", "first", "second"};
    struct mensur_working_line lines[3];
    struct reached reached;
    json_error_t error;
    make(&reached);
    for (size_t i = 0; i < 3; i++) {
        lines[i] =
            (struct mensur_working_line){i == 0 ? MENSUR_WORKING_ALL : i - 1,
                                         i == 0 ? none : reached.instruments[i - 1].instrument,
                                         whats[i],
                                         formula,
                                         numbers,
                                         result,
                                         none};
    }
    struct mensur_working steps = {3, 3, lines};
    char *bytes =
        present(&reached.reaching, &steps, (struct mensur_style){.format = MENSUR_FORMAT_JSON});
    json_t *whole = json_loads(bytes, JSON_REJECT_DUPLICATES, &error);
    assert_non_null(whole);
    static const char *const want[] = {"heron: first", "bittern: second"};
    for (size_t i = 0; i < 2; i++) {
        json_t *own =
            json_object_get(json_array_get(json_object_get(whole, "answers"), i), "working");
        assert_int_equal(json_array_size(own), 2);
        assert_string_equal(json_string_value(json_object_get(json_array_get(own, 0), "what")),
                            "arm");
        assert_string_equal(json_string_value(json_object_get(json_array_get(own, 1), "what")),
                            want[i]);
    }
    json_decref(whole);
    free(bytes);
    drop(&reached);
}

/* Whatever the sink answers is kept. */
static void refused(void **state) {
    (void)state;
    struct reached reached;
    make(&reached);
    for (int format = MENSUR_FORMAT_TEXT; format <= MENSUR_FORMAT_JSON; format++) {
        struct memory_sink memory = {.refuse_after = 200};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_heading heading = heading_for("reach");
        struct mensur_style style = {.format = (enum mensur_format)format};
        struct mensur_presenter *presenter;
        check_status("open", mensur_present_open(&heading, &style, &sink, &presenter), MENSUR_OK);
        check_status("present",
                     mensur_present(presenter, &mensur_reaching_answer, &reached.reaching),
                     MENSUR_WRITE);
        check_status("close", mensur_present_close(presenter, true), MENSUR_WRITE);
        memory_sink_clear(&memory);
    }
    drop(&reached);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text),    cmocka_unit_test(elbows),  cmocka_unit_test(no_arms),
        cmocka_unit_test(awkward), cmocka_unit_test(csv),     cmocka_unit_test(json),
        cmocka_unit_test(working), cmocka_unit_test(refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
