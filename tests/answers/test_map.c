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

/* Without a stop there is no place; a wish for a string that is not there cannot be asked. */
static void refuses(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish wish = {.kind = MENSUR_WISH_TENSION, .note = "E5", .low = 50.0};
    const struct {
        const struct mensur_instrument *instrument;
        size_t wishes;
        enum mensur_status status;
        const char *says;
    } rows[] = {{&demo->dipper, 0, MENSUR_NO_ANSWER, "measure the stop"},
                {&demo->kestrel, 1, MENSUR_USE, "E5"}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_mapping *mapping = NULL;
        struct mensur_fault fault = {""};
        check_status(rows[i].says,
                     mensur_map_begin(&demo->shop.stock, rows[i].instrument,
                                      &(struct mensur_wishes){NULL, &wish, rows[i].wishes},
                                      &demo->terms, &fault, &mapping),
                     rows[i].status);
        assert_non_null(strstr(fault.text, rows[i].says));
        assert_null(mapping);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(lines), cmocka_unit_test(bands),
                                       cmocka_unit_test(points), cmocka_unit_test(refuses)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
