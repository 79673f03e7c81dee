/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What `tension --feel --format json` tells of one string of gut, one of steel and one of a wound
 * synthetic core: every figure that its row in the catalogue leads to, null where it leads to none.
 */
#include "figures.h"
#include "string_model.h"
#include "taut_string.h"
#include "demo.h"
#include "present.h"

#include <jansson.h>

struct text {
    char *bytes;
    size_t length;
};

static enum mensur_status keep(void *context, const char *bytes, size_t length) {
    struct text *text = context;
    text->bytes = realloc(text->bytes, text->length + length + 1);
    assert_non_null(text->bytes);
    memcpy(text->bytes + text->length, bytes, length);
    text->length += length;
    text->bytes[text->length] = '\0';
    return MENSUR_OK;
}

/* The program's answer about one instrument. */
static json_t *tension_of(const struct demo *demo, const struct mensur_instrument *instrument,
                          const struct mensur_terms *terms) {
    static const char *const none[] = {NULL};
    struct mensur_heading heading = {.command = "tension",
                                     .shop = "demonstration",
                                     .a4 = 440.0,
                                     .fifths = "pure",
                                     .steps = "equal",
                                     .sources = none,
                                     .view = &mensur_view_tension};
    struct mensur_style style = {.format = MENSUR_FORMAT_JSON, .feel = true};
    struct text text = {NULL, 0};
    struct mensur_sink sink = {keep, &text};
    struct mensur_presenter *presenter = NULL;
    struct mensur_profile profile;
    struct mensur_fault fault;
    check_status(instrument->name,
                 mensur_ask_profile(&demo->shop.stock, instrument, terms, MENSUR_PART_STRINGS,
                                    &fault, &profile),
                 MENSUR_OK);
    check_status("open", mensur_present_open(&heading, &style, &sink, &presenter), MENSUR_OK);
    check_status("tension", mensur_present_profile(presenter, &profile), MENSUR_OK);
    check_status("close", mensur_present_close(presenter, true), MENSUR_OK);
    mensur_profile_clear(&profile);
    json_t *answer = json_loads(text.bytes, 0, NULL);
    assert_non_null(answer);
    free(text.bytes);
    return answer;
}

static const json_t *string_of(const json_t *answer, const char *note) {
    const json_t *strings =
        json_object_get(json_array_get(json_object_get(answer, "answers"), 0), "strings");
    for (size_t i = 0; i < json_array_size(strings); i++) {
        const json_t *string = json_array_get(strings, i);
        if (strcmp(json_string_value(json_object_get(string, "note")), note) == 0) {
            return string;
        }
    }
    fail_msg("no string %s", note);
    return NULL;
}

static bool is_among(const char *key, const char *const *keys) {
    for (; *keys != NULL; keys++) {
        if (strcmp(key, *keys) == 0) {
            return true;
        }
    }
    return false;
}

static const struct {
    const char *row;
    size_t instrument; /* in struct demo */
    const char *note;
    const char *string;
    const char *unknown[12];
    const char *none[2]; /* told as 0 */
} rows[] = {
    {"plain gut",
     offsetof(struct demo, heron),
     "A4",
     "viola A4 gut plain",
     {"cents_per_K", NULL},
     {NULL}},
    {"wound gut",
     offsetof(struct demo, heron),
     "G3",
     "viola G3 gut silver-wound",
     {"inharmonicity", "cents_per_K", NULL},
     {NULL}},
    {"plain steel",
     offsetof(struct demo, swift),
     "E5",
     "violin E5 steel plain 0.260",
     {NULL},
     {NULL}},
    {"stranded steel",
     offsetof(struct demo, bittern),
     "D3",
     "cello D3 steel nickel-wound",
     {"inharmonicity", NULL},
     {NULL}},
    {"wound synthetic, strands not told",
     offsetof(struct demo, wren),
     "C3",
     "viola C3 synthetic silver-wound",
     {"inharmonicity", "cents_per_K", NULL},
     {"inharmonicity_low"}},
    {"only the string measured",
     offsetof(struct demo, dipper),
     "G3",
     "viola G3 synthetic silver-wound short",
     {"inharmonicity", "cents_per_K", "stretch_mm", "cents_per_mm", "force_on_belly_N",
      "press_force_first_N", "press_force_octave_N", "rise_low_cents", "rise_high_cents", NULL},
     {"inharmonicity_low"}},
};

static void test_known(void **state) {
    const struct demo *demo = *state;
    struct mensur_terms terms = demo->terms;
    terms.resistance = 60.0; /* kg/s; without it no least bow force is told */
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const struct mensur_instrument *instrument =
            (const void *)((const char *)demo + rows[i].instrument);
        json_t *answer = tension_of(demo, instrument, &terms);
        const json_t *string = string_of(answer, rows[i].note);
        struct mensur_figures figures = mensur_figures(MENSUR_SCOPE_STRING);
        assert_string_equal(json_string_value(json_object_get(string, "string")), rows[i].string);
        for (size_t k = 0; k < figures.count; k++) {
            const char *key = figures.items[k].key;
            if (strcmp(key, "tuned_to") == 0) {
                assert_true(json_is_null(json_object_get(string, key)));
                continue;
            }
            if ((figures.items[k].flags & MENSUR_FIGURE_PUBLISHED) == 0) {
                continue;
            }
            const json_t *value = json_object_get(string, key);
            bool known = value != NULL && !json_is_null(value) && !json_is_string(value);
            bool text = value != NULL && json_is_string(value);
            if (known == is_among(key, rows[i].unknown) && !text) {
                fail_msg("%s: %s is %s", rows[i].row, key, known ? "told" : "missing");
            }
            bool zero = known && json_is_number(value) && json_number_value(value) == 0.0;
            if (zero != is_among(key, rows[i].none)) {
                fail_msg("%s: %s is %s0", rows[i].row, key, zero ? "" : "not ");
            }
        }
        json_decref(answer);
    }
}

static void test_no_resistance(void **state) {
    const struct demo *demo = *state;
    json_t *answer = tension_of(demo, &demo->heron, &demo->terms);
    assert_true(json_is_null(json_object_get(string_of(answer, "A4"), "bow_force_least_N")));
    json_decref(answer);
}

/* Heron's plain gut A4 of 0.76 mm, a slack gauge, its nut measured as 0.5 mm, worked apart with 40
 * digits from a string of 375.755689835116 mm: m = pi/4 1300 d^2 slack, b = 4 L^2 f^2 m, T = 2 b/(1
 * + sqrt(1 + 4 b/EA)) with E = 5.5 GPa, mu = m/(1 + T/EA), stress T/A, margin 6 log2(283
 * MPa/stress), B = pi^2 E I/(T L^2), Z = sqrt(T mu), highest f 2^(margin/12). */
static void test_worked(void **state) {
    static const struct {
        const char *key;
        double want;
    } figures[] = {{"linear_density_g_per_m", 0.57523892964659652462},
                   {"tension_N", 62.896248873617230908},
                   {"stress_MPa", 138.64610678911684900},
                   {"breaking_margin_semitones", 6.1763696836873715536},
                   {"inharmonicity", 1.0010386057236856663e-4},
                   {"impedance_kg_per_s", 0.19021138472984602880},
                   {"highest_frequency_Hz", 628.62558783725388790}};
    const struct demo *demo = *state;
    struct mensur_instrument heron = demo->heron; /* texts borrowed */
    demo_set(&heron, MENSUR_FIELD_NUT, 0.5);
    json_t *answer = tension_of(demo, &heron, &demo->terms);
    const json_t *string = string_of(answer, "A4");
    for (size_t i = 0; i < COUNT_OF(figures); i++) {
        check_close(figures[i].key, json_number_value(json_object_get(string, figures[i].key)),
                    figures[i].want, 0, 2e-13);
    }
    json_decref(answer);
}

/* Every string of the catalogue whose core is told has a margin to breaking, a lower bound where
 * its strands are thinner than the wire table; it is under the one by the high end of the strength.
 */
static void test_margins(void **state) {
    const struct demo *demo = *state;
    const struct mensur_stock *stock = &demo->shop.stock;
    size_t bounds = 0, packets = 0;
    for (size_t i = 0; i < stock->string_count; i++) {
        const struct mensur_string_spec *spec = &stock->strings[i];
        struct string_model model;
        double frequency = NAN, margin = NAN, high = NAN;
        string_model_make(stock, spec, demo->terms.fifths, &model);
        check_status(spec->name,
                     mensur_open_frequency(spec->note.semitones_from_a4, spec->note.fifths_from_a,
                                           440.0, demo->terms.fifths, &frequency),
                     MENSUR_OK);
        double length = (spec->made_for_low.value + spec->made_for_high.value) / 2.0;
        double stress = string_model_tension(&model, length, frequency) / model.core_area;
        (void)mensur_breaking_margin(stress, model.strength, &margin);
        (void)mensur_breaking_margin(stress, model.strength_high, &high);
        if (spec->material == NULL) {
            assert_true(spec->stated_tension.value > 0.0);
            packets++;
        } else if (!(margin > 1.0) || !(margin < high)) {
            fail_msg("%s: margin %g to %g semitones", spec->name, margin, high);
        }
        bounds += model.at_least;
    }
    assert_int_equal(packets, 2);
    print_message("# %zu of %zu margins are lower bounds\n", bounds, stock->string_count);
    assert_true(bounds > 10 && bounds < stock->string_count / 2);
}

/* The greatest stiffness of every string of the catalogue whose core is told over the least: one
 * value for plain strings, under fifty times where the strands are known. The wrappings add less
 * than the core has, where tubes would add up to fifty times as much. */
static void test_stiffness(void **state) {
    const struct demo *demo = *state;
    const struct mensur_stock *stock = &demo->shop.stock;
    double widest = 0.0, most_wrapped = 0.0, least_wrapped = INFINITY;
    for (size_t i = 0; i < stock->string_count; i++) {
        struct string_model model;
        string_model_make(stock, &stock->strings[i], demo->terms.fifths, &model);
        if (isnan(model.core_diameter)) {
            continue;
        }
        double greatest = string_model_greatest_moment(&model, model.modulus);
        double core = string_model_core_moment(&model);
        double range = greatest / model.second_moment;
        assert_true(model.winding_count == 0 ? greatest == core : greatest > core);
        if (model.strands >= 1.0) {
            assert_true(range < 50.0 && range > 1 - 1e-15);
            widest = fmax(widest, range);
        }
        if (model.winding_count > 0) {
            most_wrapped = fmax(most_wrapped, greatest / core - 1.0);
            least_wrapped = fmin(least_wrapped, greatest / core - 1.0);
        }
    }
    print_message("# at most %.0f times; wrappings add %.2g to %.2g of the core\n", widest,
                  least_wrapped, most_wrapped);
    assert_true(widest > 30.0 && most_wrapped < 1.0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_margins), cmocka_unit_test(test_stiffness),
        cmocka_unit_test(test_known),   cmocka_unit_test(test_no_resistance),
        cmocka_unit_test(test_worked),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
