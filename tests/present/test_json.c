/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON, parsed back by jansson: every key with its type, in its order, and every value. */
#include "fixtures.h"

#include <jansson.h>
#include <locale.h>

static const struct mensur_style json_style = {.format = MENSUR_FORMAT_JSON,
                                               .inches = true, /* text alone heeds these two */
                                               .force_unit = MENSUR_FORCE_KG};

static json_t *parse(const char *bytes, size_t length) {
    json_error_t error;
    json_t *whole = json_loadb(bytes, length, JSON_REJECT_DUPLICATES, &error);
    if (whole == NULL) {
        fail_msg("line %d: %s", error.line, error.text);
    }
    return whole;
}

static json_t *answer(size_t i, const struct fixture *fixture) {
    struct memory_sink memory = {0};
    check_status(presentations[i].command,
                 present_all(&presentations[i], fixture, &json_style, &memory), MENSUR_OK);
    assert_int_equal(memory.bytes[memory.length - 1], '\n');
    json_t *whole = parse(memory.bytes, memory.length);
    memory_sink_clear(&memory);
    return whole;
}

/* Types: t text, n number, b true or false, l list, o object; behind it ? where null may stand. */
static bool is_type(const json_t *value, const char *type) {
    if (type[1] == '?' && json_is_null(value)) {
        return true;
    }
    switch (*type) {
    case 't':
        return json_is_string(value);
    case 'n':
        return json_is_number(value);
    case 'b':
        return json_is_boolean(value);
    case 'o':
        return json_is_object(value);
    default:
        return json_is_array(value);
    }
}

/* Keys and types, one behind the other as they stand in the object: "note t tension_N n? ...". */
static void check_keys(json_t *object, const char *shape) {
    char key[64], type[8];
    const char *found;
    json_t *value;
    int used = 0;
    json_object_foreach(object, found, value) {
        const char *space = strchr(shape, ' ');
        assert_non_null(space);
        snprintf(key, sizeof(key), "%.*s", (int)(space - shape), shape);
        shape = space + 1;
        snprintf(type, sizeof(type), "%.*s", (int)strcspn(shape, " "), shape);
        shape += strlen(type);
        shape += *shape == ' ';
        if (strcmp(key, found) != 0 || !is_type(value, type)) {
            fail_msg("wanted %s of type %s, found %s", key, type, found);
        }
        used++;
    }
    if (*shape != '\0') {
        fail_msg("lacking: %s", shape);
    }
}

#define LENGTHS                                                                                    \
    "body_mm n? body_straight_mm n? stop_mm n? neck_mm n? string_length_mm n "                     \
    "string_length_measured b string_length_geometry_mm n? stop_per_2_neck n? "                    \
    "body_at_semitones n? neck_slope_deg n? break_angle_deg n? down_factor n? left_reach_mm n? "   \
    "bow_reach_mm n? afterlength_mm n? clearance_at_board_end_mm n? bow_room_mm n? "               \
    "built b clearance_low_mm n? clearance_high_mm n? first_finger_at_heel_semitones n? "          \
    "afterlength_semitones n? air_volume_cm3 n? air_note_Hz n?"
#define DIFFERENT_LENGTHS                                                                          \
    "body_mm n? body_straight_mm n? stop_mm n? neck_mm n? string_length_mm n "                     \
    "string_length_measured o? string_length_geometry_mm n? stop_per_2_neck n? "                   \
    "body_at_semitones n? neck_slope_deg n? break_angle_deg n? down_factor n? left_reach_mm n? "   \
    "bow_reach_mm n? afterlength_mm n? clearance_at_board_end_mm n? bow_room_mm n? "               \
    "built o? clearance_low_mm n? clearance_high_mm n? first_finger_at_heel_semitones n? "         \
    "afterlength_semitones n? air_volume_cm3 n? air_note_Hz n?"
#define STRING_OF(AT_LEAST)                                                                        \
    "string t? note t frequency_Hz n linear_density_g_per_m n? tension_N n? stress_MPa n? "        \
    "breaking_margin_semitones n? inharmonicity n? impedance_kg_per_s n? force_on_belly_N n? "     \
    "in_made_for_range b? made_for_low_mm n? made_for_high_mm n? "                                 \
    "highest_frequency_Hz n? "                                                                     \
    "bow_force_least_N n? bow_force_greatest_N n? press_force_first_N n? "                         \
    "press_force_octave_N n? rise_low_cents n? rise_high_cents n? tuned_to t? "                    \
    "breaking_margin_at_least " AT_LEAST                                                           \
    " inharmonicity_low n? inharmonicity_high n? stretch_mm n? cents_per_mm n? cents_per_K n? "    \
    "clamped_rise_cents n? density_from t? own b?"
#define STRING STRING_OF("b")
#define DIFFERENT_STRING STRING_OF("o?")
#define POSITION "position t first_finger_mm n fourth_finger_mm n frame_mm n"
#define WITH " assumed l warnings l"
#define SURE " plus_minus o? matters_most l?"
#define DECISION(place)                                                                            \
    "instrument t wants l can_meet_all b " place "_low_mm n? " place                               \
    "_high_mm n? leave b recommended_" place                                                       \
    "_mm n? likelihood n? measure_better t? nearest_" place "_mm n? misses l usual_" place         \
    "_mm n? made_for_" place "_low_mm n? made_for_" place "_high_mm n? aside_" place               \
    "_mm n? reason t conflict o? " place "_low_plus_minus_mm n? " place                            \
    "_high_plus_minus_mm n? too_coarse b? matters_most l? steps l strings_instead l costs "        \
    "l" WITH
#define WANT(place)                                                                                \
    "what t low n? high n? unit t " place "_low_mm n? " place "_high_mm n? within_reach b origin " \
    "t give n?"
#define STEP(place)                                                                                \
    place "_mm n string_length_mm n stop_per_2_neck n body_at_semitones n left_reach_mm n? "       \
          "bow_room_mm n tension_N l total_tension_N n? total_force_on_belly_N n? "                \
          "bow_reach_mm n? present b recommended b"
#define LOADS "force_on_treble_foot_N n? force_on_bass_foot_N n? neck_moment_Nm n?"
#define TOTALS                                                                                     \
    "set t? off_aim_N n? largest_step_N n? total_tension_N n? total_force_on_belly_N n? " LOADS

static const struct {
    size_t presentation;
    const char *path; /* keys and numbers from the answer on; "" the answer itself */
    const char *shape;
} shapes[] = {
    {0, "", "instrument t " LENGTHS WITH SURE},
    {0, "assumed.0", "field t value n unit t?"},
    {0, "assumed.3", "field t value t unit t?"},
    {2, "",
     "instrument t string_length_mm n strings l total_tension_N n? "
     "total_force_on_belly_N n? " LOADS WITH SURE},
    {2, "strings.0", STRING},
    {2, "strings.3", STRING},
    {3, "",
     "instrument t string_length_mm n frame_semitones n? frets n? places l positions l "
     "true_places l remarks l" WITH SURE},
    {3, "places.0", "semitones n from_nut_mm n to_next_mm n?"},
    {3, "places.24", "semitones n from_nut_mm n to_next_mm o?"},
    {3, "positions.0", POSITION},
    {4, "", "instruments l differences l remarks l" WITH},
    {4, "instruments.1",
     "instrument t " LENGTHS " strings l total_tension_N n? "
     "total_force_on_belly_N n? " LOADS " air_semitones_above_first n? positions l" SURE},
    {4, "differences.0",
     "instrument t " DIFFERENT_LENGTHS " strings l total_tension_N n? "
     "total_force_on_belly_N n? " LOADS " air_semitones_above_first n? positions l"},
    {4, "instruments.0.strings.2", STRING},
    {4, "differences.0.strings.2", DIFFERENT_STRING},
    {4, "differences.0.positions.1", POSITION},
    {4, "assumed.0", "field t value n unit t? instrument t"},
    {6, "", DECISION("neck")},
    {6, "wants.1", WANT("neck")},
    {6, "steps.0", STEP("neck")},
    {6, "strings_instead.1",
     "note t present_linear_density_g_per_m n? "
     "needed_linear_density_g_per_m n? nearest_string t?"},
    {7, "", DECISION("stop")},
    {7, "wants.0", WANT("stop")},
    {7, "steps.0", STEP("stop")},
    {7, "conflict", "first t second t gap_stop_mm n give_first n give_second n"},
    {8, "",
     "instrument t string_length_mm n can_meet_all b leave b whole_sets l present o chosen "
     "l " TOTALS " misses l runners_up l needed l to_order l reason t excluded l" WITH SURE},
    {8, "whole_sets.0",
     "set t total_tension_N n total_force_on_belly_N n? largest_miss_percent n? off_aim_N n? "
     "largest_step_N n? force_on_treble_foot_N n? force_on_bass_foot_N n? neck_moment_Nm n? "
     "present b misses l"},
    {8, "present",
     "set t? total_tension_N n? total_force_on_belly_N n? force_on_treble_foot_N n? "
     "force_on_bass_foot_N n? neck_moment_Nm n?" SURE},
    {8, "needed.0", "note t linear_density_g_per_m n"},
    {8, "to_order.0",
     "note t material t diameter_mm n diameter_thou n tension_N n breaking_margin_semitones n "
     "linear_density_g_per_m n tenth_below_mm n tension_below_N n tenth_above_mm n "
     "tension_above_N n thickest_mm n plain b"},
    {8, "chosen.0", STRING " kept b why t?"},
    {8, "runners_up.0", "chosen l " TOTALS},
    {9, "", "file t rows n" WITH},
};

static json_t *at_path(json_t *value, const char *path) {
    while (*path != '\0') {
        char part[64];
        snprintf(part, sizeof(part), "%.*s", (int)strcspn(path, "."), path);
        value = json_is_array(value) ? json_array_get(value, (size_t)atoi(part))
                                     : json_object_get(value, part);
        if (value == NULL) {
            fail_msg("nothing at %s", path);
        }
        path += strlen(part);
        path += *path == '.';
    }
    return value;
}

static json_t *in_answer(json_t *whole, size_t i, const char *path) {
    return at_path(json_array_get(json_object_get(whole, "answers"), i), path);
}

static void test_keys(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < COUNT_OF(shapes); i++) {
        json_t *whole = answer(shapes[i].presentation, fixture);
        check_keys(whole, "mensur t command t shop t a4_Hz n fifths t steps t answers l "
                          "cautions l sources l");
        check_keys(in_answer(whole, 0, shapes[i].path), shapes[i].shape);
        json_decref(whole);
    }
    fixture_clear(fixture);
}

static const struct {
    size_t presentation, answer;
    const char *path;
    double want; /* NaN: null */
} numbers[] = {
    {0, 0, "neck_mm", 144},
    {0, 0, "string_length_mm", 362.37},
    {0, 0, "neck_slope_deg", 5.25402298134965}, /* 0.0917 rad */
    {0, 1, "neck_mm", NAN},
    {0, 0, "assumed.1.value", 0.5},
    {1, 5, "string_length_mm", 358},
    {2, 0, "strings.0.linear_density_g_per_m", 4.271},
    {2, 0, "strings.3.tension_N", NAN},
    {2, 0, "strings.1.rise_high_cents", 4.71},
    {4, 0, "differences.0.neck_mm", 6},
    {4, 0, "differences.0.strings.1.frequency_Hz", 0},
    {6, 0, "wants.0.low", 374.8},
    {6, 0, "wants.1.low", NAN},
    {6, 0, "wants.2.high", 3.1},
    {6, 0, "recommended_neck_mm", 150.5},
    {6, 0, "steps.1.tension_N.2", 55.31},
    {6, 0, "steps.1.tension_N.3", NAN},
    {7, 0, "recommended_stop_mm", NAN},
    {7, 0, "conflict.gap_stop_mm", 5.3},
    {7, 0, "conflict.give_first", 6.17},
    {7, 0, "conflict.give_second", 4.9},
    {8, 0, "off_aim_N", 4.13},
    {8, 0, "runners_up.0.off_aim_N", 5.13},
    {8, 0, "runners_up.0.largest_step_N", 11.9},
    {8, 0, "whole_sets.0.largest_miss_percent", 7.31},
    {8, 0, "whole_sets.0.total_force_on_belly_N", NAN},
    {8, 0, "needed.0.linear_density_g_per_m", 0.621},
    {8, 0, "to_order.0.diameter_mm", 0.776},
    {9, 1, "rows", 3},
};

static void test_numbers(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < COUNT_OF(numbers); i++) {
        json_t *whole = answer(numbers[i].presentation, fixture);
        json_t *value = in_answer(whole, numbers[i].answer, numbers[i].path);
        assert_true(json_is_null(value) == isnan(numbers[i].want));
        check_close(numbers[i].path, json_is_null(value) ? NAN : json_number_value(value),
                    numbers[i].want, 0, 1e-11);
        json_decref(whole);
    }
    fixture_clear(fixture);
}

static const struct {
    size_t presentation, answer;
    const char *path, *want;
} texts[] = {
    {0, 0, "instrument", "kestrel"},
    {0, 0, "assumed.0.unit", "mm"},
    {0, 0, "assumed.3.value", "viola"},
    {4, 0, "assumed.4.instrument", "heron"},
    {4, 0, "warnings.1", "heron: the set \"viola gut\" has no string for A4"},
    {7, 0, "conflict.first", "tension A4"},
    {7, 0, "conflict.second", "string_length"},
    {7, 0, "reason", ""},
    {6, 0, "strings_instead.0.nearest_string", "viola C3 synthetic silver-wound"},
    {8, 0, "chosen.0.why", "tension 52.0 N"},
    {8, 0, "runners_up.0.set", "viola gut short"},
    {8, 0, "whole_sets.0.misses.0", "made for 380.0 to 400.0 mm"},
    {8, 0, "misses.0", "A4: 3.2 N under the wish"},
    {9, 1, "warnings.0", "players.csv:2:4: an unknown column \"shoe\""},
};

static void test_texts(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < COUNT_OF(texts); i++) {
        json_t *whole = answer(texts[i].presentation, fixture);
        const char *text = json_string_value(in_answer(whole, texts[i].answer, texts[i].path));
        assert_non_null(text);
        assert_string_equal(text, texts[i].want);
        json_decref(whole);
    }
    fixture_clear(fixture);
}

/* One instrument as it is and as changed has the same warning: once is enough. */
static void test_a_warning_once(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    json_t *whole = answer(5, fixture);
    assert_int_equal(json_array_size(in_answer(whole, 0, "warnings")), 1);
    json_decref(whole);
    fixture_clear(fixture);
}

static void test_no_answer(void **state) {
    (void)state;
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_presenter *presenter = NULL;
    struct mensur_heading heading = heading_for("lengths");
    heading.shop = "caf\xE9 \"shop\"\n"; /* a folder need not be UTF-8 */
    check_status("open", mensur_present_open(&heading, &json_style, &sink, &presenter), MENSUR_OK);
    check_status("close", mensur_present_close(presenter, true), MENSUR_OK);
    json_t *whole = parse(memory.bytes, memory.length);
    assert_string_equal(json_string_value(json_object_get(whole, "shop")), "caf? \"shop\"\n");
    assert_int_equal(json_array_size(json_object_get(whole, "answers")), 0);
    assert_int_equal(json_array_size(json_object_get(whole, "cautions")), 0);
    assert_int_equal(json_array_size(json_object_get(whole, "sources")), 2);
    json_decref(whole);
    memory_sink_clear(&memory);
}

/* Whatever the locale's decimal mark, one byte or more; a locale that is not there is passed over.
 */
static void test_locales(void **state) {
    (void)state;
    static const char *const locales[] = {"C", "de_DE.UTF-8", "ps_AF.UTF-8", "fa_IR.UTF-8"};
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < COUNT_OF(locales); i++) {
        if (setlocale(LC_ALL, locales[i]) == NULL) {
            continue;
        }
        char *text = presented(presentations[0].present, "lengths", fixture, json_style);
        check_holds(text, "\"a4_Hz\": 440, ");
        check_holds(text, "{\"instrument\": \"kestrel\", \"body_mm\": 410, "
                          "\"body_straight_mm\": 408.9, \"stop_mm\": 214, ");
        check_holds(text, "\"neck_slope_deg\": 5.25402298134965, ");
        free(text);
    }
    setlocale(LC_ALL, "C");
    fixture_clear(fixture);
}

static void test_awkward_names(void **state) {
    (void)state;
    for (size_t i = 0; i < awkward_name_count; i++) {
        struct fixture *fixture = fixture_make();
        free(fixture->kestrel.instrument);
        assert_int_equal(mensur_text_copy(awkward_names[i], strlen(awkward_names[i]),
                                          &fixture->kestrel.instrument),
                         MENSUR_OK);
        json_t *whole = answer(0, fixture);
        assert_string_equal(json_string_value(in_answer(whole, 0, "instrument")), awkward_names[i]);
        json_decref(whole);
        fixture_clear(fixture);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_keys),          cmocka_unit_test(test_numbers),
        cmocka_unit_test(test_texts),         cmocka_unit_test(test_a_warning_once),
        cmocka_unit_test(test_no_answer),     cmocka_unit_test(test_locales),
        cmocka_unit_test(test_awkward_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
