/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Instruments with a side view, to be drawn; and what is looked for in a drawing. */
#ifndef MENSUR_TEST_PRESENT_DRAWN_H
#define MENSUR_TEST_PRESENT_DRAWN_H

#include "fixtures.h"

/* A side view that belongs to a neck and a stop; the numbers are set down by hand. */
static inline struct mensur_side_points side_view(double neck, double stop) {
    return (struct mensur_side_points){.known = true,
                                       .nut_x = -neck + 0.0009,
                                       .nut_y = -0.00013,
                                       .top_x = stop,
                                       .top_y = 0.0525,
                                       .body_straight = 0.4089,
                                       .saddle = 0.005,
                                       .neck = neck,
                                       .overstand = 0.008,
                                       .arch = 0.0135,
                                       .projection = 0.032,
                                       .bridge = 0.039,
                                       .board = 0.0096,
                                       .board_nut = 0.0078,
                                       .board_length = 0.3016,
                                       .nut = 0.0005,
                                       .board_slope = 0.1295,
                                       .neck_slope = 0.1168,
                                       .front_angle = 0.1464,
                                       .back_angle = 0.2395};
}

static inline struct mensur_profile drawn_profile(const char *name, double neck, double stop) {
    struct mensur_profile profile = fixture_profile(name, neck, stop);
    profile.side = side_view(neck, stop);
    for (size_t i = 0; i < profile.string_count; i++) {
        struct mensur_string_figures *string = &profile.strings[i];
        string->breaking_tension = string->tension * 1.93;
        string->made_for_tension_low = string->tension * 0.97;
        string->made_for_tension_high = string->tension * 1.07;
    }
    return profile;
}

/* Fails unless every number of the attribute lies from low to high. */
static inline void check_range(const char *svg, const char *attribute, double low, double high) {
    const char *at = svg;
    while ((at = strstr(at, attribute)) != NULL) {
        at += strlen(attribute);
        double value = strtod(at, NULL);
        if (value < low || value > high) {
            print_error("%s%.40s\n", attribute, at);
            fail();
        }
    }
}

/* Fails unless tags are opened and closed in order, and no bare & stands in the text. Small, and
 * enough for what one writer writes: no comments, no CDATA, attributes in double quotes. */
static inline void check_well_formed(const char *text, const char *const *void_tags) {
    char open[64][24];
    size_t depth = 0;
    for (const char *at = text; *at != '\0'; at++) {
        if (*at == '&') {
            assert_non_null(strchr("alqg#", at[1]));
            assert_true(strcspn(at, ";") < 7);
        }
        if (*at != '<' || at[1] == '!') {
            continue;
        }
        bool closing = at[1] == '/';
        const char *name = at + (closing ? 2 : 1);
        size_t length = strcspn(name, " >/\n");
        const char *end = strchr(at, '>');
        assert_non_null(end);
        assert_true(length > 0 && length < 24);
        bool is_void = false;
        for (size_t i = 0; void_tags != NULL && void_tags[i] != NULL; i++) {
            is_void = is_void ||
                      (strlen(void_tags[i]) == length && strncmp(void_tags[i], name, length) == 0);
        }
        if (closing) {
            assert_true(depth > 0);
            depth--;
            assert_int_equal(strlen(open[depth]), length);
            assert_memory_equal(open[depth], name, length);
        } else if (end[-1] != '/' && !is_void) {
            assert_true(depth < 64);
            memcpy(open[depth], name, length);
            open[depth++][length] = '\0';
        }
        at = end;
    }
    assert_int_equal(depth, 0);
}

/* Fails where an id stands twice. */
static inline void check_ids(const char *text) {
    for (const char *at = strstr(text, " id=\""); at != NULL; at = strstr(at + 1, " id=\"")) {
        char id[96] = "";
        size_t length = strcspn(at + 5, "\"") + 6;
        assert_true(length < sizeof id);
        memcpy(id, at, length);
        assert_null(strstr(at + 1, id));
    }
}

#endif
