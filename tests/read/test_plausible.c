/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measurements held against what is plausible: which slips are named, and that sound rows are left
 * in peace. The figures of the sizes are common practice or from memory, no source; those of the
 * heights were computed from the full sizes apart from this library. */
#include "reading.h"

#include "plausible.h"

#define MEASURES 11

static const enum mensur_field fields[MEASURES] = {
    MENSUR_FIELD_BODY,          MENSUR_FIELD_STOP,        MENSUR_FIELD_NECK,
    MENSUR_FIELD_STRING_LENGTH, MENSUR_FIELD_OVERSTAND,   MENSUR_FIELD_PROJECTION,
    MENSUR_FIELD_BRIDGE,        MENSUR_FIELD_BOARD,       MENSUR_FIELD_ARCH,
    MENSUR_FIELD_SADDLE,        MENSUR_FIELD_BOARD_LENGTH};

/* mm, in the order of the fields. */
static const struct size {
    const char *name, *family;
    double usual[MEASURES];
} sizes[] = {
    {"violin 4/4", "violin", {355, 195, 130, 328.0, 6.5, 27.0, 32.5, 8.7, 11.5, 4.0, 270}},
    {"violin 7/8", "violin", {345, 189, 126, 317.9, 6.4, 26.17, 31.5, 8.54, 11.34, 3.88, 262}},
    {"violin 3/4", "violin", {335, 183, 122, 307.8, 6.3, 25.34, 30.5, 8.37, 11.18, 3.75, 253}},
    {"violin 1/2", "violin", {320, 171, 114, 287.7, 6.09, 23.68, 28.5, 8.04, 10.84, 3.51, 237}},
    {"violin 1/4", "violin", {285, 159, 106, 267.5, 5.87, 22.02, 26.5, 7.7, 10.49, 3.26, 220}},
    {"violin 1/8", "violin", {258, 142, 94.5, 238.7, 5.55, 19.66, 23.67, 7.19, 9.97, 2.91, 196}},
    {"violin 1/16", "violin", {228, 126, 84, 212.0, 5.22, 17.45, 21.0, 6.69, 9.45, 2.58, 174}},
    {"viola 13 in (33.0 cm)",
     "viola",
     {330, 181.2, 120.8, 304.8, 6.27, 25.09, 30.2, 8.32, 11.13, 3.72, 247}},
    {"viola 14 in (35.6 cm)",
     "viola",
     {356, 195.4, 130.3, 328.7, 6.51, 27.06, 32.57, 8.71, 11.51, 4.01, 266}},
    {"viola 38.0 cm",
     "viola",
     {380, 211.0, 140.5, 354.8, 7.75, 30.01, 36.1, 9.24, 12.63, 4.69, 284}},
    {"viola 39.0 cm",
     "viola",
     {390, 216.5, 144.5, 364.4, 7.85, 30.79, 37.05, 9.38, 12.78, 4.81, 292}},
    {"viola 39.5 cm",
     "viola",
     {395, 219.0, 146.0, 368.5, 7.89, 31.15, 37.47, 9.45, 12.84, 4.87, 295}},
    {"viola 40.0 cm",
     "viola",
     {400, 222.0, 148.0, 373.5, 7.95, 31.57, 37.99, 9.52, 12.92, 4.93, 299}},
    {"viola 40.5 cm",
     "viola",
     {405, 223.0, 148.5, 375.0, 7.96, 31.72, 38.16, 9.55, 12.95, 4.96, 300}},
    {"viola 41.0 cm",
     "viola",
     {410, 224.0, 149.5, 377.0, 7.98, 31.86, 38.33, 9.57, 12.97, 4.98, 302}},
    {"viola 41.5 cm", "viola", {415, 225.0, 150.0, 378.5, 8.0, 32.0, 38.5, 9.6, 13.0, 5.0, 303}},
    {"viola 42.0 cm",
     "viola",
     {420, 226.0, 150.5, 380.1, 8.02, 32.14, 38.67, 9.63, 13.03, 5.02, 304}},
    {"viola 42.5 cm",
     "viola",
     {425, 227.0, 151.5, 382.1, 8.04, 32.28, 38.84, 9.65, 13.05, 5.04, 306}},
    {"viola 43.0 cm",
     "viola",
     {430, 228.0, 152.0, 383.6, 8.05, 32.43, 39.01, 9.68, 13.08, 5.07, 307}},
    {"viola 43.5 cm",
     "viola",
     {435, 229.0, 152.5, 385.1, 8.07, 32.57, 39.18, 9.7, 13.1, 5.09, 308}},
    {"five-string viola 40.5 cm (E)",
     "viola",
     {405, 214, 142, 359.4, 7.8, 30.44, 36.62, 9.32, 12.71, 4.76, 288}},
    {"cello 4/4", "cello", {755, 400, 280, 689.1, 20.0, 81.0, 88.5, 20.0, 23.0, 12.0, 579}},
    {"cello 7/8", "cello", {730, 383, 268, 659.7, 19.57, 77.56, 84.74, 19.49, 22.55, 11.49, 554}},
    {"cello 3/4", "cello", {690, 362, 253.5, 623.7, 19.03, 73.31, 80.09, 18.84, 21.99, 10.86, 524}},
    {"cello 1/2", "cello", {645, 332, 232.5, 572.0, 18.22, 67.23, 73.45, 17.88, 21.15, 9.96, 481}},
    {"cello 1/4", "cello", {580, 297, 208, 511.7, 17.23, 60.14, 65.71, 16.73, 20.12, 8.91, 430}},
    {"five-string cello (E4), 7/8",
     "cello",
     {720, 375, 262, 645.5, 19.36, 75.94, 82.97, 19.24, 22.34, 11.25, 542}},
    {"bass 4/4 (rare)",
     "bass",
     {1160, 622, 452, 1093.2, 35.34, 152.95, 163.66, 27.32, 33.29, 30.59, 896}},
    {"bass 3/4, D neck",
     "bass",
     {1110, 603, 437, 1058.6, 34.8, 148.28, 158.66, 26.81, 32.83, 29.66, 868}},
    {"bass 3/4, E-flat neck",
     "bass",
     {1110, 578, 480, 1075.9, 34.07, 142.13, 152.08, 26.14, 32.21, 28.43, 882}},
    {"bass 1/2", "bass", {1020, 560, 404, 981.2, 33.53, 137.7, 147.34, 25.65, 31.75, 27.54, 805}},
    {"bass 1/4", "bass", {940, 515, 372, 902.8, 32.16, 126.64, 135.5, 24.39, 30.58, 25.33, 740}},
};

/* Least and greatest plausible share of the usual value, in the order of the fields; ours. */
static const double low[MEASURES] = {0.93, 0.94, 0.93, 0.95, 0.7, 0.93, 0.92, 0.7, 0.8, 0.5, 0.94};
static const double high[MEASURES] = {1.07, 1.06, 1.07, 1.05, 1.35, 1.07,
                                      1.08, 1.5,  1.25, 1.6,  1.06};

/* mm; where they are given for a full size, they rule. */
static const struct {
    const char *size;
    enum mensur_field field;
    double low, high;
} full[] = {
    {"violin 4/4", MENSUR_FIELD_BODY, 352, 359},
    {"violin 4/4", MENSUR_FIELD_STRING_LENGTH, 325, 330},
    {"violin 4/4", MENSUR_FIELD_OVERSTAND, 5.5, 7.5},
    {"violin 4/4", MENSUR_FIELD_PROJECTION, 26, 28},
    {"viola 41.5 cm", MENSUR_FIELD_OVERSTAND, 7.5, 8.5},
    {"viola 41.5 cm", MENSUR_FIELD_PROJECTION, 31, 33},
    {"cello 4/4", MENSUR_FIELD_OVERSTAND, 18, 24},
    {"cello 4/4", MENSUR_FIELD_PROJECTION, 79, 82},
    {"bass 3/4, D neck", MENSUR_FIELD_PROJECTION, 135, 160},
};

static const struct unit {
    enum mensur_slip slip;
    double mm;
} units[] = {{MENSUR_SLIP_INCHES, 25.4}, {MENSUR_SLIP_CENTIMETRES, 10}, {MENSUR_SLIP_METRES, 1000}};

static struct mensur_shop shop;

static int open_shop(void **state) {
    struct mensur_report report = {0};
    (void)state;
    enum mensur_status status = mensur_shop_open(NULL, &report, &shop);
    mensur_report_clear(&report);
    return status == MENSUR_OK ? 0 : 1;
}

static int close_shop(void **state) {
    (void)state;
    mensur_shop_clear(&shop);
    return 0;
}

static void fill(const struct size *size, struct mensur_quantity *measure) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        measure[f] = MENSUR_UNKNOWN;
    }
    for (int i = 0; i < MEASURES; i++) {
        measure[fields[i]].value = size->usual[i] / 1000.0;
    }
}

static void judge(const struct size *size, const struct mensur_quantity *measure,
                  struct mensur_findings *out) {
    mensur_judge(&shop.stock, mensur_stock_family(&shop.stock, size->family), measure, out);
}

/* A number from 0 to 1, the same in every run (Numerical Recipes' linear congruence). */
static double draw(void) {
    static unsigned seed = 20261125U;
    seed = seed * 1664525U + 1013904223U;
    return (seed >> 8) / 16777216.0;
}

/* A value within the plausible band, m. */
static double draw_value(const struct size *size, int m) {
    double from = low[m] * size->usual[m], to = high[m] * size->usual[m];
    for (size_t i = 0; i < COUNT_OF(full); i++) {
        if (strcmp(full[i].size, size->name) == 0 && full[i].field == fields[m]) {
            from = full[i].low;
            to = full[i].high;
        }
    }
    return (from + draw() * (to - from)) / 1000.0;
}

/* A row within the plausible bands, every cell or those that a shop happens to have; the string is
 * longer than stop + neck, as it is on every instrument. */
static void draw_row(const struct size *size, bool all, struct mensur_quantity *measure) {
    fill(size, measure);
    for (int i = 0; i < MEASURES; i++) {
        struct mensur_quantity *cell = &measure[fields[i]];
        bool needed = fields[i] == MENSUR_FIELD_STOP || fields[i] == MENSUR_FIELD_NECK;
        cell->value = draw_value(size, i);
        if (!all && !needed && draw() < 0.5) {
            *cell = MENSUR_UNKNOWN;
        }
    }
}

/* All findings in one text. */
static const char *told(const struct mensur_findings *got) {
    static char text[4000];
    size_t length = 0;
    text[0] = '\0';
    for (size_t i = 0; i < got->count; i++) {
        char subject[MENSUR_FINDING_ROOM], hint[MENSUR_FINDING_ROOM];
        mensur_finding_subject(&got->items[i], subject);
        mensur_finding_hint(&got->items[i], hint);
        length += (size_t)snprintf(text + length, sizeof text - length, "%s%s: %s",
                                   i > 0 ? "; " : "", subject, hint);
    }
    return text;
}

static void says_nothing_of_the_usual(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        struct mensur_quantity measure[MENSUR_FIELD_COUNT];
        struct mensur_findings got;
        fill(&sizes[i], measure);
        judge(&sizes[i], measure, &got);
        if (got.count > 0) {
            fail_msg("%s: %s", sizes[i].name, told(&got));
        }
    }
}

/* What one slip was told as. */
struct tally {
    size_t right, wrong, silent;
};

/* Counts a row in which one cell stands in another unit: named rightly, not named (at most unusual,
 * or to be measured again), or anything else. */
static void count(struct tally *tally, const struct mensur_findings *got, enum mensur_field field,
                  enum mensur_slip slip, const char *size) {
    bool named = false, other = false;
    for (size_t i = 0; i < got->count; i++) {
        const struct mensur_finding *finding = &got->items[i];
        bool right = finding->field == field && finding->slip == slip && !finding->row;
        named = named || right;
        other = other || (!right && finding->slip != MENSUR_SLIP_UNUSUAL &&
                          finding->slip != MENSUR_SLIP_UNKNOWN);
    }
    tally->right += named && !other;
    tally->silent += !named && !other;
    tally->wrong += other;
    if (other) {
        print_message("# %s: %s\n", size, told(got));
    }
}

/* One cell of a row of usual values. Of an overstand 0 is lawful, so 0.6 mm is too. */
static void names_the_unit_of_one_cell(void **state) {
    struct tally overstands = {0}, others = {0};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        for (int m = 0; m < MEASURES; m++) {
            for (size_t u = 0; u < COUNT_OF(units); u++) {
                struct mensur_quantity measure[MENSUR_FIELD_COUNT];
                struct mensur_findings got;
                fill(&sizes[i], measure);
                measure[fields[m]].value /= units[u].mm;
                judge(&sizes[i], measure, &got);
                count(fields[m] == MENSUR_FIELD_OVERSTAND ? &overstands : &others, &got, fields[m],
                      units[u].slip, sizes[i].name);
            }
        }
    }
    print_message("# %zu named rightly, %zu wrongly, %zu not; of overstands %zu, %zu, %zu\n",
                  others.right, others.wrong, others.silent, overstands.right, overstands.wrong,
                  overstands.silent);
    assert_int_equal(others.wrong + overstands.wrong, 0);
    assert_int_equal(others.right + others.silent, 960);
    assert_true(others.right >= 951); /* 99 % of 32 sizes x 10 measurements x 3 units */
}

/* The other measurements, at full size (mm); common practice, basses from memory, no source. */
static void names_the_unit_of_the_others(void **state) {
    static const enum mensur_field others[] = {
        MENSUR_FIELD_WIDTH_UPPER,  MENSUR_FIELD_WIDTH_MIDDLE,   MENSUR_FIELD_WIDTH_LOWER,
        MENSUR_FIELD_RIB,          MENSUR_FIELD_BOARD_NUT,      MENSUR_FIELD_NUT,
        MENSUR_FIELD_SPACING_NUT,  MENSUR_FIELD_SPACING_BRIDGE, MENSUR_FIELD_CLEARANCE_HIGH,
        MENSUR_FIELD_CLEARANCE_LOW};
    static const struct {
        const char *size;
        double usual[COUNT_OF(others)];
    } rows[] = {{"violin 4/4", {168, 112, 206, 30.5, 7, 0.4, 16.5, 33.5, 3.5, 5.5}},
                {"violin 1/4", {133, 91, 163, 26, 6.19, 0.38, 14.2, 28.7, 3, 4.8}},
                {"viola 41.5 cm", {195, 133, 240, 38.2, 7.8, 0.5, 17, 36, 4.5, 6.5}},
                {"cello 4/4", {342, 230, 438, 115, 15, 0.7, 22, 47, 5, 8}},
                {"bass 3/4, D neck", {520, 360, 650, 185, 20.86, 1, 30.7, 83.3, 6.9, 10.9}}};
    struct tally tally = {0};
    (void)state;
    for (size_t r = 0; r < COUNT_OF(rows); r++) {
        size_t i = 0;
        while (strcmp(sizes[i].name, rows[r].size) != 0) {
            i++;
        }
        for (size_t k = 0; k < COUNT_OF(others) * COUNT_OF(units); k++) {
            struct mensur_quantity measure[MENSUR_FIELD_COUNT];
            struct mensur_findings got;
            size_t f = k / COUNT_OF(units), u = k % COUNT_OF(units);
            fill(&sizes[i], measure);
            measure[others[f]].value = rows[r].usual[f] / 1000.0;
            judge(&sizes[i], measure, &got);
            assert_string_equal(told(&got), "");
            measure[others[f]].value /= units[u].mm;
            judge(&sizes[i], measure, &got);
            count(&tally, &got, others[f], units[u].slip, sizes[i].name);
        }
    }
    print_message("# other measurements: %zu named rightly, %zu wrongly, %zu not\n", tally.right,
                  tally.wrong, tally.silent);
    assert_int_equal(tally.wrong, 0);
    assert_int_equal(tally.silent, 0);
}

/* One cell of a row anywhere within the bands, of which half of the others may be missing. */
static void names_the_unit_in_drawn_rows(void **state) {
    struct tally tally = {0};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        for (int row = 0; row < 300; row++) {
            struct mensur_quantity measure[MENSUR_FIELD_COUNT];
            struct mensur_findings got;
            int m = row % MEASURES, u = row % 3;
            draw_row(&sizes[i], false, measure);
            if (!isnan(measure[fields[m]].value) && fields[m] != MENSUR_FIELD_OVERSTAND) {
                measure[fields[m]].value /= units[u].mm;
                judge(&sizes[i], measure, &got);
                count(&tally, &got, fields[m], units[u].slip, sizes[i].name);
            }
        }
    }
    print_message("# drawn rows: %zu named rightly, %zu wrongly, %zu not\n", tally.right,
                  tally.wrong, tally.silent);
    assert_int_equal(tally.wrong, 0);
    /* Saddles between the bands of two units are not named. */
    assert_true((double)tally.right >= 0.98 * (double)(tally.right + tally.silent));
}

static void says_nothing_of_sound_rows(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        for (int row = 0; row < 2000; row++) {
            struct mensur_quantity measure[MENSUR_FIELD_COUNT];
            struct mensur_findings got;
            draw_row(&sizes[i], row % 2 == 0, measure);
            judge(&sizes[i], measure, &got);
            if (got.count > 0) {
                fail_msg("%s: %s", sizes[i].name, told(&got));
            }
        }
    }
}

static void leave_stop_and_neck(struct mensur_quantity *measure) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        if (f != MENSUR_FIELD_STOP && f != MENSUR_FIELD_NECK) {
            measure[f] = MENSUR_UNKNOWN;
        }
    }
}

static void check_only(const struct size *size, const struct mensur_quantity *measure,
                       enum mensur_slip slip, bool row) {
    struct mensur_findings got;
    judge(size, measure, &got);
    if (got.count != 1 || got.items[0].row != row || got.items[0].slip != slip) {
        fail_msg("%s, want slip %d: %s", size->name, (int)slip, told(&got));
    }
}

/* Whole rows in one unit: all cells, half of them, stop and neck alone. */
static void names_the_unit_of_a_row(void **state) {
    static const struct unit marked[] = {{MENSUR_SLIP_INCHES, 25.4},
                                         {MENSUR_SLIP_CENTIMETRES, 10},
                                         {MENSUR_SLIP_METRES, 1000},
                                         {MENSUR_SLIP_POINT, 0.1},
                                         {MENSUR_SLIP_POINT, 0.001}};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        for (size_t u = 0; u < COUNT_OF(marked); u++) {
            for (int row = 0; row < 40; row++) {
                struct mensur_quantity measure[MENSUR_FIELD_COUNT];
                draw_row(&sizes[i], row % 2 == 0, measure);
                if (row % 4 == 3) {
                    leave_stop_and_neck(measure);
                }
                for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
                    measure[f].value /= marked[u].mm;
                }
                check_only(&sizes[i], measure, marked[u].slip, true);
            }
        }
    }
}

static void names_exchanged_cells(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        for (int row = 0; row < 100; row++) {
            struct mensur_quantity measure[MENSUR_FIELD_COUNT];
            draw_row(&sizes[i], row % 2 == 0, measure);
            if (row % 4 == 3) {
                leave_stop_and_neck(measure);
            }
            struct mensur_quantity stop = measure[MENSUR_FIELD_STOP];
            measure[MENSUR_FIELD_STOP] = measure[MENSUR_FIELD_NECK];
            measure[MENSUR_FIELD_NECK] = stop;
            check_only(&sizes[i], measure, MENSUR_SLIP_EXCHANGED, false);
        }
    }
}

static void names_a_string_that_was_added_up(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        struct mensur_quantity measure[MENSUR_FIELD_COUNT];
        fill(&sizes[i], measure);
        double sum = measure[MENSUR_FIELD_STOP].value + measure[MENSUR_FIELD_NECK].value;
        measure[MENSUR_FIELD_STRING_LENGTH].value = sum;
        check_only(&sizes[i], measure, MENSUR_SLIP_SUM, false);
    }
}

/* Single rows, mm (NaN: not given), and what is said of them. */
static void says_what_would_do(void **state) {
    static const struct {
        const char *family;
        double body, stop, neck, string_length, bridge, arch;
        const char *want;
    } rows[] = {
        {"viola", 410, 8.6, 150, NAN, NAN, NAN, "stop 8.6: inches? write 8.6 in"},
        {"viola", 410, 22.2, 150, NAN, NAN, NAN, "stop 22.2: centimetres? write 22.2 cm"},
        {"viola", 410, 0.222, 150, NAN, NAN, NAN, "stop 0.222: metres? write 0.222 m"},
        {"viola", 410, 2220, 150, NAN, NAN, NAN,
         "stop 2220: a point lost, or millimetres marked otherwise? write 222 mm"},
        {"viola", 410, 222, 150, NAN, 3.85, NAN, "bridge 3.85: centimetres? write 3.85 cm"},
        {"violin", 535, 195, 130, NAN, NAN, NAN, "body 535: two digits exchanged? write 355 mm"},
        {"cello", 755, 280, 400, NAN, NAN, NAN,
         "stop 280: stop and neck exchanged? write 400 mm, and 280 mm for neck"},
        {"violin", 14, 7.7, 5.1, NAN, NAN, NAN,
         "all its measurements: inches? write body 14 in, and the others so too"},
        {"bass", 11100, 6030, 4370, NAN, NAN, NAN,
         "all its measurements: a point lost, or millimetres marked otherwise? write body 1110 mm, "
         "and the others so too"},
        {"viola", 438, 228, 347, NAN, NAN, NAN,
         "neck 347: measured with the head? it ends at the nut"},
        {"violin", 355, 195, 130, NAN, NAN, 15.5,
         "arch 15.5: measured from the ribs' plane? write it as arch_full"},
        {"violin", 355, 195, 130, 325, NAN, NAN,
         "string_length 325: stop and neck added? measure from nut to bridge"},
        {"violin", 355, 194.8, 130.1, 325, NAN, NAN,
         "string_length 325: stop and neck added? measure from nut to bridge"},
        {"violin", 355, 194.8, 130.1, 325.2, NAN, NAN, ""}, /* it was measured more finely */
        {"violin", 355, 60, 130, NAN, NAN, NAN, "stop 60: measure again"},
        {"viola", 410, 222, 150, NAN, 25, NAN, "bridge 25: measure again"},
        {"violin", NAN, NAN, NAN, 12.9, NAN, NAN, "string_length 12.9: inches? write 12.9 in"},
        {"violin", 361, 195, 130, NAN, NAN, NAN, ""}, /* of a 7/8 that is common */
        {"violin", 390, 195, 130, NAN, NAN, NAN,
         "body 390: unusual; 352 to 359 mm is common at this size"},
        {"lute", 14, 7.7, 5.1, NAN, NAN, NAN, ""}, /* no such family */
    };
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const double values[] = {rows[i].body,          rows[i].stop,   rows[i].neck,
                                 rows[i].string_length, rows[i].bridge, rows[i].arch};
        static const enum mensur_field at[] = {MENSUR_FIELD_BODY,   MENSUR_FIELD_STOP,
                                               MENSUR_FIELD_NECK,   MENSUR_FIELD_STRING_LENGTH,
                                               MENSUR_FIELD_BRIDGE, MENSUR_FIELD_ARCH};
        struct mensur_quantity measure[MENSUR_FIELD_COUNT];
        struct mensur_findings got;
        for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
            measure[f] = MENSUR_UNKNOWN;
        }
        for (size_t k = 0; k < COUNT_OF(at); k++) {
            measure[at[k]].value = values[k] / 1000.0;
        }
        mensur_judge(&shop.stock, mensur_stock_family(&shop.stock, rows[i].family), measure, &got);
        assert_string_equal(told(&got), rows[i].want);
    }
}

/* A family of the shop's own has no sizes: its heights are judged at the stop. */
static void judges_an_own_family_by_its_heights(void **state) {
    const struct given given[] = {
        {MENSUR_TABLE_FAMILIES,
         "name,held,frame_semitones,positions,stop,bridge\npochette,chin,5,1 2,120,20\n", 0},
        {MENSUR_TABLE_INSTRUMENTS, "name,stop,neck\nx,120,80\n", 0}};
    struct outcome outcome;
    struct mensur_quantity measure[MENSUR_FIELD_COUNT];
    struct mensur_findings got;
    (void)state;
    read_tables(given, COUNT_OF(given), &outcome);
    check_status("own family", outcome.status, MENSUR_OK);
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        measure[f] = MENSUR_UNKNOWN;
    }
    measure[MENSUR_FIELD_STOP].value = 0.12;
    measure[MENSUR_FIELD_BRIDGE].value = 0.002;
    const struct mensur_family *family = mensur_stock_family(&outcome.shop.stock, "pochette");
    mensur_judge(&outcome.shop.stock, family, measure, &got);
    assert_string_equal(told(&got), "bridge 2: centimetres? write 2 cm");
    clear_outcome(&outcome);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(says_nothing_of_the_usual),
        cmocka_unit_test(names_the_unit_of_one_cell),
        cmocka_unit_test(names_the_unit_of_the_others),
        cmocka_unit_test(names_the_unit_in_drawn_rows),
        cmocka_unit_test(says_nothing_of_sound_rows),
        cmocka_unit_test(names_the_unit_of_a_row),
        cmocka_unit_test(names_exchanged_cells),
        cmocka_unit_test(names_a_string_that_was_added_up),
        cmocka_unit_test(says_what_would_do),
        cmocka_unit_test(judges_an_own_family_by_its_heights),
    };
    return cmocka_run_group_tests(tests, open_shop, close_shop);
}
