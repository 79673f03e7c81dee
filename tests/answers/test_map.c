/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plane of stop and neck: lines and bands against the instrument as it is changed to a place on
 * them, points against the lengths of each. */
#include "map.h"
#include "said.h"

#include "demo.h"

static struct mensur_map make(const struct demo *demo, const struct mensur_instrument *instrument,
                              const struct mensur_wish *wishes, size_t count) {
    const struct mensur_instrument *const shop[] = {&demo->heron, &demo->kestrel, &demo->wren,
                                                    &demo->swift, &demo->bittern, &demo->dipper};
    struct mensur_mapping *mapping = NULL;
    struct mensur_map map;
    struct mensur_fault fault = {""};
    check_status(fault.text,
                 mensur_map_begin(&demo->shop.stock, instrument,
                                  &(struct mensur_wishes){NULL, wishes, count}, &demo->terms,
                                  &fault, &mapping),
                 MENSUR_OK);
    assert_int_equal(mensur_map_add(mapping, instrument, MENSUR_MAP_ASKED), MENSUR_OK);
    for (size_t i = 0; i < COUNT_OF(shop); i++) {
        assert_int_equal(mensur_map_add(mapping, shop[i], MENSUR_MAP_OF_SHOP), MENSUR_OK);
    }
    assert_int_equal(mensur_map_make(mapping, &map), MENSUR_OK);
    mensur_mapping_free(mapping);
    return map;
}

/* The lengths of an instrument that is changed to a stop and a neck (m). */
static struct mensur_lengths changed(const struct demo *demo,
                                     const struct mensur_instrument *instrument, double stop,
                                     double neck) {
    const struct mensur_change changes[] = {
        {.of = MENSUR_CHANGE_MEASURE, .field = MENSUR_FIELD_STOP, .value = {stop, 0.0}},
        {.of = MENSUR_CHANGE_MEASURE, .field = MENSUR_FIELD_NECK, .value = {neck, 0.0}}};
    struct mensur_comparison comparison;
    struct mensur_terms terms = demo->terms;
    struct mensur_fault fault = {""};
    terms.hold = MENSUR_HOLD_PROJECTION;
    check_status(
        fault.text,
        mensur_ask_change(&demo->shop.stock, instrument, changes, 2, &terms, &fault, &comparison),
        MENSUR_OK);
    struct mensur_lengths lengths = comparison.instruments[1].lengths;
    mensur_comparison_clear(&comparison);
    return lengths;
}

static void lines(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const of[] = {&demo->kestrel, &demo->swift, &demo->bittern};
    for (size_t k = 0; k < COUNT_OF(of); k++) {
        struct mensur_map map = make(demo, of[k], NULL, 0);
        size_t held = 0;
        assert_true(map.line_count >= 4);
        for (size_t i = 0; i < map.line_count; i++) {
            for (size_t column = 0; column < MENSUR_MAP_COLUMNS; column += 12) {
                double neck = map.lines[i].necks[column];
                if (!isnan(neck)) {
                    struct mensur_lengths there = changed(demo, of[k], map.stops[column], neck);
                    check_close("string on its line", there.string_length,
                                map.lines[i].string_length, 1e-9, 0);
                    held++;
                }
            }
        }
        assert_true(held >= map.line_count * 3);
        /* A square whose sides hold the instrument in question. */
        check_close("a square", map.stop_high - map.stop_low, map.neck_high - map.neck_low, 1e-12,
                    0);
        struct mensur_lengths now =
            changed(demo, of[k], map.points[0].lengths.stop, map.points[0].lengths.neck);
        assert_true(now.stop > map.stop_low && now.stop < map.stop_high);
        /* What 1 mm of stop takes off the neck, by the string it leaves as it is. */
        struct mensur_lengths moved =
            changed(demo, of[k], now.stop + 0.001, now.neck + 0.001 * map.neck_per_stop);
        check_close("along the line", moved.string_length, now.string_length, 1e-6, 0);
        mensur_map_clear(&map);
    }
}

static void bands(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish wishes[] = {
        {.kind = MENSUR_WISH_STRING_LENGTH, .low = 0.365, .high = 0.375},
        {.kind = MENSUR_WISH_RATIO, .low = 2.9, .high = 3.1}};
    struct mensur_map map = make(demo, &demo->kestrel, wishes, 2);
    size_t common = 0, empty = 0;
    assert_int_equal(map.band_count, 2);
    for (size_t column = 0; column < MENSUR_MAP_COLUMNS; column += 8) {
        double stop = map.stops[column];
        for (size_t k = 0; k < 2; k++) {
            double neck = k == 0 ? map.bands[0].low[column] : map.bands[0].high[column];
            check_close("end of the length wish",
                        changed(demo, &demo->kestrel, stop, neck).string_length,
                        k == 0 ? 0.365 : 0.375, 1e-9, 0);
        }
        check_close("longest neck of the ratio", map.bands[1].high[column], 2.0 * stop / 2.9, 0,
                    1e-12);
        check_close("shortest neck of the ratio", map.bands[1].low[column], 2.0 * stop / 3.1, 0,
                    1e-12);
        double low = fmax(map.bands[0].low[column], map.bands[1].low[column]);
        double high = fmin(map.bands[0].high[column], map.bands[1].high[column]);
        if (low <= high) {
            check_close("both begin", map.common_low[column], low, 1e-12, 0);
            check_close("both end", map.common_high[column], high, 1e-12, 0);
            common++;
        } else {
            assert_true(isnan(map.common_low[column]) && isnan(map.common_high[column]));
            empty++;
        }
    }
    assert_true(common > 0 && empty > 0);
    mensur_map_clear(&map);
}

static void points(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish wish = {.kind = MENSUR_WISH_STRING_LENGTH, .low = 0.37, .high = 0.38};
    struct mensur_map map = make(demo, &demo->kestrel, &wish, 1);
    static const struct {
        const char *name;
        bool asked;
        enum mensur_known meets;
        double stop_plus_minus;
    } wanted[] = {{"kestrel", true, MENSUR_NO, 0.0},
                  {"heron", false, MENSUR_YES, 0.0005},
                  {"wren", false, MENSUR_YES, 0.0}};
    assert_int_equal(map.point_count, COUNT_OF(wanted));
    for (size_t i = 0; i < COUNT_OF(wanted); i++) {
        assert_string_equal(map.points[i].name, wanted[i].name);
        assert_int_equal(map.points[i].asked, wanted[i].asked);
        assert_int_equal(map.points[i].meets_all, wanted[i].meets);
        check_close(wanted[i].name, map.points[i].stop_plus_minus, wanted[i].stop_plus_minus, 1e-12,
                    0);
        bool within = map.points[i].lengths.string_length >= 0.37 &&
                      map.points[i].lengths.string_length <= 0.38;
        assert_int_equal(within, wanted[i].meets == MENSUR_YES);
    }
    assert_int_equal(map.others, 2);   /* swift, bittern */
    assert_int_equal(map.unplaced, 1); /* dipper */
    assert_int_equal(map.remarks.count, 1);
    assert_int_equal(map.remarks.items[0].kind, MENSUR_FACT_BODY_AGAINST_STRING);
    mensur_map_clear(&map);
}

static struct mensur_mapping *begin(const struct demo *demo,
                                    const struct mensur_instrument *instrument,
                                    const struct mensur_wishes *wishes, enum mensur_hold hold) {
    struct mensur_mapping *mapping = NULL;
    struct mensur_fault fault = {""};
    struct mensur_terms terms = demo->terms;
    terms.hold = hold;
    check_status(fault.text,
                 mensur_map_begin(&demo->shop.stock, instrument, wishes, &terms, &fault, &mapping),
                 MENSUR_OK);
    return mapping;
}

static struct mensur_instrument placed(const struct mensur_instrument *of, double stop_mm,
                                       double neck_mm) {
    struct mensur_instrument instrument = *of; /* texts borrowed */
    demo_set(&instrument, MENSUR_FIELD_STOP, stop_mm);
    demo_set(&instrument, MENSUR_FIELD_NECK, neck_mm);
    return instrument;
}

static size_t count_near(const struct mensur_map *map, double stop, double neck) {
    size_t count = 0;
    for (size_t i = 0; i < map->point_count; i++) {
        count += fabs(map->points[i].lengths.stop - stop) < 1e-9 &&
                 fabs(map->points[i].lengths.neck - neck) < 1e-9;
    }
    return count;
}

/* From sixty points on, what lies within a quarter of a millimetre of another is counted instead,
 * and so is what comes behind four hundred; what lies far from the one in question is beyond. */
static void crowds(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wishes none = {NULL, NULL, 0};
    struct mensur_map map;
    struct mensur_mapping *mapping = begin(demo, &demo->kestrel, &none, MENSUR_HOLD_SLOPE);
    assert_int_equal(mensur_map_add(mapping, &demo->kestrel, MENSUR_MAP_ASKED), MENSUR_OK);
    for (int i = 0; i < 62; i++) { /* of one place: those behind the sixtieth point are crowded */
        struct mensur_instrument twin = placed(&demo->kestrel, 215, 145);
        assert_int_equal(mensur_map_add(mapping, &twin, MENSUR_MAP_OF_SHOP), MENSUR_OK);
    }
    const double near[][2] = {{215.2, 145.2}, {215.2, 145.3}, {215.3, 145.0}};
    for (size_t i = 0; i < COUNT_OF(near); i++) {
        struct mensur_instrument one = placed(&demo->kestrel, near[i][0], near[i][1]);
        assert_int_equal(mensur_map_add(mapping, &one, MENSUR_MAP_OF_SHOP), MENSUR_OK);
    }
    const double far[][2] = {{160, 145}, {300, 145}, {215, 100}, {215, 190}};
    for (size_t i = 0; i < COUNT_OF(far); i++) {
        struct mensur_instrument one = placed(&demo->kestrel, far[i][0], far[i][1]);
        assert_int_equal(mensur_map_add(mapping, &one, MENSUR_MAP_OF_SHOP), MENSUR_OK);
    }
    struct mensur_instrument broken = placed(&demo->kestrel, 215, 145);
    demo_set(&broken, MENSUR_FIELD_BRIDGE, 20); /* below the projection */
    assert_int_equal(mensur_map_add(mapping, &broken, MENSUR_MAP_OF_SHOP), MENSUR_OK);
    assert_int_equal(mensur_map_make(mapping, &map), MENSUR_OK);
    mensur_mapping_free(mapping);
    assert_int_equal(map.crowded, 4);
    assert_int_equal(map.beyond, 4);
    assert_int_equal(map.unplaced, 1);
    assert_int_equal(map.point_count, 62);
    assert_int_equal(count_near(&map, 0.215, 0.145), 59);
    assert_int_equal(count_near(&map, 0.2152, 0.1452), 0);
    assert_int_equal(count_near(&map, 0.2152, 0.1453), 1);
    assert_int_equal(count_near(&map, 0.2153, 0.1450), 1);
    mensur_map_clear(&map);
    mapping = begin(demo, &demo->kestrel, &none, MENSUR_HOLD_UNASKED);
    for (int i = 0; i < (int)MENSUR_MAP_POINTS + 5; i++) {
        struct mensur_instrument one = placed(&demo->kestrel, 205 + i % 20, 140 + i / 20 * 0.5);
        assert_int_equal(mensur_map_add(mapping, &one, MENSUR_MAP_OF_SHOP), MENSUR_OK);
    }
    assert_int_equal(mensur_map_make(mapping, &map), MENSUR_OK);
    mensur_mapping_free(mapping);
    assert_int_equal(map.point_count, MENSUR_MAP_POINTS);
    assert_int_equal(map.crowded, 5);
    mensur_map_clear(&map);
}

/* The one in question comes again with the shop; another of its name is another. Without a family
 * those without one are its kind. */
static void kinds(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wishes none = {NULL, NULL, 0};
    struct mensur_instrument bare, other;
    struct mensur_map map;
    demo_bare_violin(&bare);
    struct mensur_mapping *mapping = begin(demo, &bare, &none, MENSUR_HOLD_UNASKED);
    other = placed(&bare, 196, 130);
    const struct mensur_instrument *const shop[] = {&bare, &other, &demo->kestrel};
    assert_int_equal(mensur_map_add(mapping, &bare, MENSUR_MAP_ASKED), MENSUR_OK);
    for (size_t i = 0; i < COUNT_OF(shop); i++) {
        assert_int_equal(mensur_map_add(mapping, shop[i], MENSUR_MAP_OF_SHOP), MENSUR_OK);
    }
    assert_int_equal(mensur_map_make(mapping, &map), MENSUR_OK);
    mensur_mapping_free(mapping);
    assert_null(map.family);
    assert_int_equal(map.point_count, 2);
    assert_int_equal(map.others, 1);
    mensur_map_clear(&map);
    mapping = begin(demo, &demo->kestrel, &none, MENSUR_HOLD_UNASKED);
    assert_int_equal(mensur_map_add(mapping, &bare, MENSUR_MAP_OF_SHOP), MENSUR_OK);
    assert_int_equal(mensur_map_make(mapping, &map), MENSUR_OK);
    mensur_mapping_free(mapping);
    assert_int_equal(map.others, 1);
    mensur_map_clear(&map);
    mensur_instrument_clear(&bare);
}

/* A tension is wished of a string: of an instrument that has another in its place, or none, it is
 * not known whether it is met. */
static void tensions(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish wish = {
        .kind = MENSUR_WISH_TENSION, .note = "A4", .low = 55, .high = 65};
    const struct mensur_wishes wishes = {NULL, &wish, 1};
    static char one[] = "G3";
    struct mensur_instrument few = demo->kestrel; /* texts borrowed */
    struct mensur_fault fault = {""};
    struct mensur_map map;
    few.tuning = one;
    check_status("tuning", mensur_tuning_read(one, &fault, &few.own), MENSUR_OK);
    const struct {
        const struct mensur_instrument *instrument;
        enum mensur_known meets;
    } rows[] = {{&demo->kestrel, MENSUR_YES}, /* 58.5 N */
                {&demo->heron, MENSUR_YES},   /* 62.9 N */
                {&demo->wren, MENSUR_NO},     /* 66.9 N */
                {&demo->swift, MENSUR_UNSURE},
                {&few, MENSUR_UNSURE}};
    struct mensur_mapping *mapping = begin(demo, &demo->kestrel, &wishes, MENSUR_HOLD_UNASKED);
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        assert_int_equal(mensur_map_add(mapping, rows[i].instrument, MENSUR_MAP_ASKED), MENSUR_OK);
    }
    assert_int_equal(mensur_map_make(mapping, &map), MENSUR_OK);
    mensur_mapping_free(mapping);
    assert_int_equal(map.point_count, COUNT_OF(rows));
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        assert_int_equal(map.points[i].meets_all, rows[i].meets);
    }
    mensur_map_clear(&map);
}

/* A wish that nothing on the map meets has no band and no common part; and where a wide map has
 * places that cannot be built, nothing stands at them. */
static void bands_end(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish wishes[] = {
        {.kind = MENSUR_WISH_STRING_LENGTH, .low = 3.0, .high = 3.1},
        {.kind = MENSUR_WISH_STRING_LENGTH, .low = 0.365, .high = 0.375}};
    struct mensur_map map = make(demo, &demo->kestrel, wishes, 2);
    for (size_t column = 0; column < MENSUR_MAP_COLUMNS; column++) {
        assert_true(!isnan(map.bands[1].low[column]));
        assert_true(isnan(map.bands[0].low[column]) && isnan(map.bands[0].high[column]));
        assert_true(isnan(map.common_low[column]) && isnan(map.common_high[column]));
    }
    mensur_map_clear(&map);
    const struct mensur_wish ratio = {.kind = MENSUR_WISH_RATIO, .low = 2.9, .high = 3.1};
    /* Beside a longer body the map goes on past the end of the own one. */
    struct mensur_instrument longer = placed(&demo->kestrel, 440, 290);
    demo_set(&longer, MENSUR_FIELD_BODY, 700);
    struct mensur_mapping *mapping =
        begin(demo, &demo->kestrel, &(struct mensur_wishes){NULL, &ratio, 1}, MENSUR_HOLD_UNASKED);
    assert_int_equal(mensur_map_add(mapping, &longer, MENSUR_MAP_ASKED), MENSUR_OK);
    assert_int_equal(mensur_map_make(mapping, &map), MENSUR_OK);
    mensur_mapping_free(mapping);
    size_t none = 0;
    for (size_t column = 0; column < MENSUR_MAP_COLUMNS; column++) {
        bool there = !isnan(map.bands[0].low[column]);
        assert_true(there || isnan(map.common_low[column]));
        none += there ? 0U : 1U;
    }
    assert_in_range(none, 1, MENSUR_MAP_COLUMNS - 1);
    assert_int_equal(map.line_count, 0); /* from corner to corner */
    mensur_map_clear(&map);
}

/* String lengths have lines at round millimetres: 2, 5, 10 or 20, at most twelve over the map. */
static void round_lines(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wishes none = {NULL, NULL, 0};
    static const struct {
        double stop, neck, step; /* mm */
        size_t lines;
    } rows[] = {{214, 144, 5, 8},
                {222, 150, 5, 8},
                {240, 165, 10, 8},
                {290, 200, 20, 9},
                {400, 280, 50, 8}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_map map;
        struct mensur_instrument other = placed(&demo->kestrel, rows[i].stop, rows[i].neck);
        struct mensur_mapping *mapping = begin(demo, &demo->kestrel, &none, MENSUR_HOLD_UNASKED);
        assert_int_equal(mensur_map_add(mapping, &other, MENSUR_MAP_ASKED), MENSUR_OK);
        assert_int_equal(mensur_map_make(mapping, &map), MENSUR_OK);
        assert_int_equal(map.line_count, rows[i].lines);
        for (size_t k = 0; k < map.line_count; k++) {
            double mm = map.lines[k].string_length * 1000;
            check_close("a round length", mm, round(mm / rows[i].step) * rows[i].step, 0, 1e-12);
            check_close("one step on", mm - map.lines[0].string_length * 1000,
                        (double)k * rows[i].step, 1e-9, 0);
        }
        mensur_mapping_free(mapping);
        mensur_map_clear(&map);
    }
}

/* Without a stop there is no place; a wish for a string that is not there cannot be asked. */
static void refuses(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish wish = {.kind = MENSUR_WISH_TENSION, .note = "E5", .low = 50.0};
    struct mensur_instrument broken = placed(&demo->kestrel, 214, 144);
    demo_set(&broken, MENSUR_FIELD_BRIDGE, 20); /* below the projection */
    const struct {
        const struct mensur_instrument *instrument, *like;
        size_t wishes;
        enum mensur_status status;
        const char *says;
    } rows[] = {{&demo->dipper, NULL, 0, MENSUR_NO_ANSWER, "measure the stop"},
                {&demo->kestrel, NULL, 1, MENSUR_USE, "E5"},
                {&broken, NULL, 0, MENSUR_NO_ANSWER, "bridge"},
                {&demo->kestrel, &broken, 0, MENSUR_NO_ANSWER, "bridge"}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_mapping *mapping = NULL;
        struct mensur_fault fault = {""};
        check_status(rows[i].says,
                     mensur_map_begin(&demo->shop.stock, rows[i].instrument,
                                      &(struct mensur_wishes){rows[i].like, &wish, rows[i].wishes},
                                      &demo->terms, &fault, &mapping),
                     rows[i].status);
        assert_non_null(strstr(fault.text, rows[i].says));
        assert_null(mapping);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines),     cmocka_unit_test(bands),       cmocka_unit_test(points),
        cmocka_unit_test(crowds),    cmocka_unit_test(kinds),       cmocka_unit_test(tensions),
        cmocka_unit_test(bands_end), cmocka_unit_test(round_lines), cmocka_unit_test(refuses)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
