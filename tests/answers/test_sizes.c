/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sizes and the families' positions as they are shipped: an instrument given by its size alone,
 * and how wide the hand stands on it. */
#include "demo.h"
#include "said.h"

/* By size: string length, break angle and the note under the first finger with the thumb in the
 * heel, worked out apart from the shipped tables' own rules, from values rounded to hundredths of a
 * millimetre. Common practice, no source; basses, small cellos and the smallest violins from
 * memory. */
static const struct {
    const char *name;
    double length, angle, heel; /* mm, degrees, semitones */
} worked_apart[] = {
    {"violin 4/4", 328.0, 158.2, 7.1},
    {"violin 7/8", 317.9, 158.2, 7.0},
    {"violin 3/4", 307.8, 158.2, 7.0},
    {"violin 1/2", 287.7, 158.7, 7.0},
    {"violin 1/4", 267.5, 157.3, 6.9},
    {"violin 1/8", 238.7, 157.4, 6.8},
    {"violin 1/16", 212.0, 157.0, 6.7},
    {"viola 33 cm", 304.8, 158.1, 7.0},
    {"viola 35.6 cm", 328.7, 158.2, 7.1},
    {"viola 38 cm", 354.8, 157.5, 6.9},
    {"viola 40.5 cm", 375.0, 157.9, 7.0},
    {"viola 43.5 cm", 385.1, 159.2, 7.0},
    {"five-string viola 40.5 cm", 359.4, 159.0, 6.9},
    {"cello 4/4", 689.1, 154.7, 6.9},
    {"cello 7/8", 659.7, 154.9, 6.9},
    {"cello 3/4", 623.7, 154.9, 6.8},
    {"cello 1/2", 572.0, 155.3, 6.8},
    {"cello 1/4", 511.7, 155.3, 6.7},
    {"five-string cello 7/8", 645.5, 155.1, 6.8},
    {"bass 4/4", 1093.2, 151.1, 6.9},
    {"bass 3/4 D neck", 1058.6, 150.6, 6.9},
    {"bass 3/4 E-flat neck", 1075.9, 152.0, 7.9},
    {"bass 1/2", 981.2, 150.1, 6.8},
    {"bass 1/4", 902.8, 150.1, 6.8},
};

/* The answer about an instrument of which only the size is given. */
static void profile_of(const struct demo *demo, const struct mensur_named_size *size,
                       unsigned parts, struct mensur_profile *out) {
    struct mensur_instrument instrument;
    struct mensur_fault fault = {""};
    mensur_instrument_init(&instrument);
    instrument.name = size->name;
    instrument.family = size->family;
    instrument.size = size;
    check_status(
        size->name,
        mensur_ask_profile(&demo->shop.stock, &instrument, &demo->terms, parts, &fault, out),
        MENSUR_OK);
}

static const struct mensur_named_size *size_named(const struct demo *demo, const char *name) {
    const struct mensur_named_size *size = mensur_stock_size(&demo->shop.stock, name);
    if (size == NULL) {
        fail_msg("there is no size %s", name);
    }
    return size;
}

static void as_worked_out_apart(void **state) {
    const struct demo *demo = *state;
    for (size_t i = 0; i < COUNT_OF(worked_apart); i++) {
        struct mensur_profile p;
        const char *name = worked_apart[i].name;
        profile_of(demo, size_named(demo, name), MENSUR_PART_LENGTHS, &p);
        check_close(name, p.lengths.string_length * 1e3, worked_apart[i].length, 0.1, 0);
        check_close(name, mensur_from_si(MENSUR_ANGLE, p.lengths.break_angle),
                    worked_apart[i].angle, 0.16, 0);
        check_close(name, p.lengths.first_finger_at_heel_semitones, worked_apart[i].heel, 0.11, 0);
        mensur_profile_clear(&p);
    }
}

/* Of every size: the string is as long as its row says, the break angle in the family's bounds
 * (ours: 156.5 to 159.5 degrees held under the chin, 153 to 156.5 on the cello), a source is named,
 * and what it has by its size is reported as assumed. */
static void every_size(void **state) {
    const struct demo *demo = *state;
    const struct mensur_stock *stock = &demo->shop.stock;
    assert_true(stock->size_count >= 41);
    for (size_t i = 0; i < stock->size_count; i++) {
        const struct mensur_named_size *size = &stock->sizes[i];
        const struct mensur_family *family = mensur_stock_family(stock, size->family);
        struct mensur_profile p;
        size_t told = 0;
        assert_non_null(size->source);
        assert_non_null(family);
        profile_of(demo, size, MENSUR_PART_LENGTHS, &p);
        double angle = mensur_from_si(MENSUR_ANGLE, p.lengths.break_angle);
        check_close(size->name, p.lengths.string_length, size->string_length, 0.0003, 0);
        check_close(size->name, p.lengths.body, size->body, 0, 0);
        if (family->held == MENSUR_CHIN && !(angle > 156.5 && angle < 159.5)) {
            fail_msg("%s: break angle %g", size->name, angle);
        }
        if (strstr(size->family, "cello") != NULL && !(angle > 153 && angle < 156.5)) {
            fail_msg("%s: break angle %g", size->name, angle);
        }
        for (size_t k = 0; k < p.assumed.count; k++) {
            told += strcmp(p.assumed.items[k].field, "stop") == 0 ||
                    strcmp(p.assumed.items[k].field, "neck") == 0 ||
                    strcmp(p.assumed.items[k].field, "body") == 0;
        }
        assert_int_equal(told, 3);
        if (p.warnings.count > 0) {
            fail_msg("%s: %s", size->name, said(&p.warnings, 0));
        }
        mensur_profile_clear(&p);
    }
}

/* What is given stands above the size: a stop, and the string that a neck would contradict. */
static void given_above_size(void **state) {
    const struct demo *demo = *state;
    static char name[] = "pupil";
    struct mensur_instrument instrument;
    struct mensur_fault fault = {""};
    struct mensur_profile p;
    mensur_instrument_init(&instrument);
    instrument.name = name;
    instrument.size = size_named(demo, "violin 1/2");
    instrument.family = instrument.size->family;
    demo_set(&instrument, MENSUR_FIELD_STOP, 168);
    check_status("stop",
                 mensur_ask_profile(&demo->shop.stock, &instrument, &demo->terms,
                                    MENSUR_PART_LENGTHS, &fault, &p),
                 MENSUR_OK);
    check_close("stop", p.lengths.stop * 1e3, 168, 1e-9, 0);
    check_close("neck", p.lengths.neck * 1e3, 112, 1e-9, 0); /* 2 : 3 */
    check_close("body", p.lengths.body * 1e3, 320, 1e-9, 0);
    mensur_profile_clear(&p);
    instrument.measure[MENSUR_FIELD_STOP] = MENSUR_UNKNOWN;
    demo_set(&instrument, MENSUR_FIELD_STRING_LENGTH, 290);
    check_status("string",
                 mensur_ask_profile(&demo->shop.stock, &instrument, &demo->terms,
                                    MENSUR_PART_LENGTHS, &fault, &p),
                 MENSUR_OK);
    check_close("string", p.lengths.string_length * 1e3, 290, 1e-9, 0);
    check_close("stop", p.lengths.stop, NAN, 0, 0);
    mensur_profile_clear(&p);
}

/* First finger above the open string and frame, semitones, by family and position: common practice,
 * no source; the bass's from memory. */
static void positions(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *family, *name;
        double first, frame;
    } rows[] = {
        {"violin", "half", 1, 5},
        {"violin", "1", 2, 5},
        {"violin", "2", 4, 5},
        {"violin", "3", 5, 5},
        {"violin", "4", 7, 5},
        {"violin", "5", 9, 5},
        {"violin", "6", 11, 5},
        {"violin", "7", 12, 5},
        {"viola", "3", 5, 5},
        {"five-string viola", "7", 12, 5},
        {"cello", "half", 1, 3},
        {"cello", "1", 2, 3},
        {"cello", "1 extended back", 1, 4},
        {"cello", "1 extended", 2, 4},
        {"cello", "2 lower", 3, 3},
        {"cello", "2 upper", 4, 3},
        {"cello", "3 lower", 5, 3},
        {"cello", "3 upper", 6, 3},
        {"cello", "4", 7, 3},
        {"cello", "5 lower", 8, 3},
        {"cello", "5 upper", 9, 3},
        {"cello", "6 lower", 10, 3},
        {"cello", "6 upper", 11, 3},
        {"cello", "7", 12, 3},
        {"cello", "thumb", 12, 5},
        {"cello", "thumb low", 7, 5},
        {"bass", "half", 1, 2},
        {"bass", "1", 2, 2},
        {"bass", "2", 3, 2},
        {"bass", "2-3", 4, 2},
        {"bass", "3", 5, 2},
        {"bass", "3-4", 6, 2},
        {"bass", "4", 7, 2},
        {"bass", "5", 8, 2},
        {"bass", "5-6", 9, 2},
        {"bass", "6", 10, 2},
        {"bass", "6-7", 11, 2},
        {"bass", "7", 12, 2},
        {"bass", "thumb", 12, 5},
        {"bass E-flat neck", "5", 8, 2},
        {"treble viol", "1", 1, 4},
        {"treble viol", "4", 4, 4},
        {"tenor viol", "5", 5, 3},
        {"bass viol", "1", 1, 3},
        {"bass viol", "5", 5, 3},
    };
    static const struct {
        const char *family;
        size_t count;
        double frame;
    } lists[] = {{"violin", 8, 5}, {"viola", 8, 5},       {"cello", 16, 3},
                 {"bass", 13, 2},  {"treble viol", 4, 4}, {"bass viol", 5, 3}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const struct mensur_family *family = mensur_stock_family(&demo->shop.stock, rows[i].family);
        assert_non_null(family);
        size_t at = 0;
        while (at < family->position_count &&
               strcmp(family->positions[at].name, rows[i].name) != 0) {
            at++;
        }
        if (at == family->position_count) {
            fail_msg("%s has no position %s", rows[i].family, rows[i].name);
        }
        check_close(rows[i].name, family->positions[at].first, rows[i].first, 0, 0);
        check_close(rows[i].name, family->positions[at].frame, rows[i].frame, 0, 0);
    }
    for (size_t i = 0; i < COUNT_OF(lists); i++) {
        const struct mensur_family *family =
            mensur_stock_family(&demo->shop.stock, lists[i].family);
        assert_int_equal(family->position_count, lists[i].count);
        check_close(lists[i].family, family->frame_semitones, lists[i].frame, 0, 0);
    }
}

/* The hand's span in equal steps on round lengths, mm: computed apart. */
static void frames(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *family, *position;
        double length, span;
    } rows[] = {
        {"violin", "1", 328, 73.3},          {"viola", "1", 375, 83.8},
        {"violin", "1", 288, 64.4},          {"violin", "1", 267.5, 59.8},
        {"cello", "1", 690, 97.8},           {"cello", "1 extended", 690, 126.8},
        {"cello", "1 extended", 660, 121.3}, {"cello", "1 extended", 624, 114.7},
        {"cello", "1 extended", 572, 105.1}, {"bass", "half", 1060, 109.2},
        {"bass", "1", 1060, 103.0},          {"bass viol", "1", 690, 103.6},
        {"bass viol", "2", 690, 97.8},       {"tenor viol", "1", 505, 75.8},
        {"treble viol", "1", 350, 68.2},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument instrument;
        struct mensur_profile p;
        struct mensur_fault fault = {""};
        char name[] = "hand", family[24];
        mensur_instrument_init(&instrument);
        snprintf(family, sizeof family, "%s", rows[i].family);
        instrument.name = name;
        instrument.family = family;
        demo_set(&instrument, MENSUR_FIELD_STRING_LENGTH, rows[i].length);
        check_status("fingers",
                     mensur_ask_profile(&demo->shop.stock, &instrument, &demo->terms,
                                        MENSUR_PART_FINGERS, &fault, &p),
                     MENSUR_OK);
        double frame = NAN;
        for (size_t k = 0; k < p.position_count; k++) {
            frame =
                strcmp(p.positions[k].name, rows[i].position) == 0 ? p.positions[k].frame : frame;
        }
        check_close(rows[i].family, frame * 1e3, rows[i].span, 0.051, 0);
        mensur_profile_clear(&p);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_worked_out_apart),
        cmocka_unit_test(every_size),
        cmocka_unit_test(given_above_size),
        cmocka_unit_test(positions),
        cmocka_unit_test(frames),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
