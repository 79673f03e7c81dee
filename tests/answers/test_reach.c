/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's reach: proportions against measured people, the elbow against vectors, and what is
 * answered where something is not known. */
#include <gsl/gsl_randist.h>
#include <gsl/gsl_statistics.h>

#include "../physics/published_table.h"
#include "demo.h"
#include "somebody.h"
#include "said.h"

static const double pi = 3.14159265358979323846;

static struct mensur_reaching ask(const struct demo *demo, const struct mensur_player *player,
                                  const struct mensur_instrument *const *instruments,
                                  size_t count) {
    struct mensur_reaching out;
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_reach(&demo->shop.stock, instruments, count, player, &demo->terms, &fault, &out);
    check_status(fault.text, status, MENSUR_OK);
    return out;
}

/* The mean of a row of the published table, mm: the first number of the cell. */
static double mean_of(const struct published_table *table, const char *quantity) {
    for (size_t i = 0; i < table->count; i++) {
        if (strcmp(table->rows[i].cells[QUANTITY], quantity) == 0) {
            double numbers[8];
            /* The people were measured, and the table was read. */
            assert_string_equal(table->rows[i].cells[STATUS], "VERIFIED");
            assert_true(numbers_after(table->rows[i].cells[EXPECTED], "", numbers, 8) == 5);
            return numbers[0];
        }
    }
    fail_msg("no row %s", quantity);
    return NAN;
}

/* The arm of the mean statures of ANSUR II (2012), held against the lengths of the same people:
 * acromion-radiale, radiale-stylion and hand to within 2 %, by which men's and women's forearms
 * differ from the one ratio for both. */
static void proportions(void **state) {
    const struct demo *demo = *state;
    static const char *const people[] = {"men", "women"};
    const struct mensur_instrument *const one[] = {&demo->kestrel};
    struct published_table table = {0};
    published_read(MENSUR_SHARED_DIR "/published/check-values.csv", &table);
    for (size_t i = 0; i < COUNT_OF(people); i++) {
        char row[80];
        struct mensur_player player = nobody();
        snprintf(row, sizeof row, "stature, %s", people[i]);
        player.stature = mm(mean_of(&table, row));
        struct mensur_reaching reaching = ask(demo, &player, one, 1);
        snprintf(row, sizeof row, "acromion-radiale length (upper arm), %s", people[i]);
        check_close(row, reaching.upper_arm * 1000.0, mean_of(&table, row), 0, 0.02);
        snprintf(row, sizeof row, "radiale-stylion length (forearm), %s", people[i]);
        check_close(row, reaching.forearm * 1000.0, mean_of(&table, row), 0, 0.02);
        snprintf(row, sizeof row, "hand length, %s", people[i]);
        check_close(row, reaching.hand * 1000.0, mean_of(&table, row), 0, 0.02);
        /* The instrument rests on the left half of the body. */
        snprintf(row, sizeof row, "biacromial breadth, %s", people[i]);
        assert_true(reaching.rest_side * 1000.0 < mean_of(&table, row) / 2.0);
        mensur_reaching_clear(&reaching);
    }
    published_clear(&table);
}

/* A woman of ANSUR II's mean stature (2012) on a violin and on two violas. Elbows as the design
 * states them, to 3 degrees; body, stop and neck of the sizes are common practice, no source. A
 * stature alone leaves the elbow open by about 10 degrees. */
static void mean_woman(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *family;
        double body, stop, neck, elbow;
    } sizes[] = {{"violin", 355, 195, 130, 83},
                 {"viola", 405, 223, 148.5, 103},
                 {"viola", 430, 228, 152, 112}};
    struct published_table table = {0};
    struct mensur_instrument made[COUNT_OF(sizes)];
    const struct mensur_instrument *all[COUNT_OF(sizes)];
    struct mensur_player woman = nobody();
    published_read(MENSUR_SHARED_DIR "/published/check-values.csv", &table);
    woman.stature = mm(mean_of(&table, "stature, women"));
    published_clear(&table);
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        mensur_instrument_init(&made[i]);
        assert_int_equal(mensur_text_copy("size", 4, &made[i].name), MENSUR_OK);
        assert_int_equal(
            mensur_text_copy(sizes[i].family, strlen(sizes[i].family), &made[i].family), MENSUR_OK);
        demo_set(&made[i], MENSUR_FIELD_BODY, sizes[i].body);
        demo_set(&made[i], MENSUR_FIELD_STOP, sizes[i].stop);
        demo_set(&made[i], MENSUR_FIELD_NECK, sizes[i].neck);
        all[i] = &made[i];
    }
    struct mensur_reaching reaching = ask(demo, &woman, all, COUNT_OF(sizes));
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        const struct mensur_reach *reach = &reaching.instruments[i];
        check_close(sizes[i].family, reach->elbow * 180 / pi, sizes[i].elbow, 3, 0);
        check_close("about 10", reach->elbow_plus_minus * 180 / pi, 10, 2, 0);
        assert_int_equal(reach->stretched, MENSUR_NO);
        mensur_instrument_clear(&made[i]);
    }
    mensur_reaching_clear(&reaching);
}

/* Where circles around shoulder and nut cross there is the elbow; the angle there, by a dot
 * product. All in long double, none of it the library's. */
static long double elbow_by_vectors(long double upper, long double fore, long double x,
                                    long double y) {
    long double d = hypotl(x, y);
    long double along = (upper * upper - fore * fore + d * d) / (2 * d);
    long double across = sqrtl(upper * upper - along * along);
    long double ex = (along * x - across * y) / d, ey = (along * y + across * x) / d;
    long double ux = -ex, uy = -ey, fx = x - ex, fy = y - ey;
    return acosl((ux * fx + uy * fy) / (hypotl(ux, uy) * hypotl(fx, fy)));
}

static void elbows(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const all[] = {&demo->heron, &demo->kestrel, &demo->wren,
                                                   &demo->swift};
    /* upper arm, forearm, hand, rest to the side, before, yaw; mm and degrees */
    static const double rows[][6] = {{312, 245, 182, 185, 60, 45},
                                     {271.3, 220.7, 161, -23, 17.5, 30},
                                     {402, 331, 207.5, 211, -41, 71.5},
                                     {299, 299, 188, 190.25, 33, -12},
                                     {610, 90.5, 175, 177, 48.75, 52}};
    size_t known = 0;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_player player = nobody();
        player.upper_arm = mm(rows[i][0]);
        player.forearm = mm(rows[i][1]);
        player.hand = mm(rows[i][2]);
        player.rest_side = mm(rows[i][3]);
        player.rest_forward = mm(rows[i][4]);
        player.yaw.value = rows[i][5] * pi / 180;
        struct mensur_reaching reaching = ask(demo, &player, all, COUNT_OF(all));
        assert_int_equal(reaching.assumed.count, 1); /* the wrist's place */
        for (size_t k = 0; k < reaching.count; k++) {
            const struct mensur_reach *reach = &reaching.instruments[k];
            long double yaw = (long double)rows[i][5] * acosl(-1.0L) / 180;
            long double x =
                (long double)reach->left_reach * sinl(yaw) - (long double)rows[i][3] / 1000;
            long double y =
                (long double)reach->left_reach * cosl(yaw) + (long double)rows[i][4] / 1000;
            long double nut = hypotl(x, y);
            long double wrist = nut - 0.35L * (long double)rows[i][2] / 1000;
            check_close("distance", reach->distance, (double)nut, 0, 1e-13);
            check_close("wrist", reach->wrist, (double)wrist, 0, 1e-13);
            assert_int_equal(reach->stretched, wrist * 1000 > (long double)(rows[i][0] + rows[i][1])
                                                   ? MENSUR_YES
                                                   : MENSUR_NO);
            if (wrist * 1000 <= (long double)(rows[i][0] + rows[i][1]) &&
                wrist * 1000 >= (long double)fabs(rows[i][0] - rows[i][1])) {
                known++;
                check_close("elbow", reach->elbow,
                            (double)elbow_by_vectors((long double)rows[i][0] / 1000,
                                                     (long double)rows[i][1] / 1000,
                                                     x * wrist / nut, y * wrist / nut),
                            0, 1e-10);
            } else {
                assert_true(isnan(reach->elbow));
                assert_true(isnan(reach->elbow_plus_minus));
            }
        }
        mensur_reaching_clear(&reaching);
    }
    assert_in_range(known, 8, 19); /* some are stretched or folded */
}

enum { DRAWS = 20000 };

/* An elbow of the arm as drawn: its stature, its parts' standard deviations by the header's ratios,
 * the stated ± of two measurements. None of the library's. */
static double drawn_elbow(const double *part, double left_reach) {
    long double x = (long double)(left_reach * sin(part[5]) - part[3]);
    long double y = (long double)(left_reach * cos(part[5]) + part[4]);
    long double nut = hypotl(x, y);
    long double wrist = nut - (long double)(part[6] * part[2]);
    return (double)elbow_by_vectors((long double)part[0], (long double)part[1], x * wrist / nut,
                                    y * wrist / nut);
}

/* Monte Carlo (JCGM 101:2008) against the first order: both elbows and their difference, of a
 * player of whom stature and forearm are known with a ±, on two instruments. */
static void sureness(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const both[] = {&demo->swift, &demo->kestrel};
    struct mensur_player player = nobody();
    player.stature = (struct mensur_quantity){1.760, 0.010};
    player.forearm = (struct mensur_quantity){0.268, 0.004};
    struct mensur_reaching reaching = ask(demo, &player, both, 2);
    gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
    double *drawn = calloc(3 * DRAWS, sizeof *drawn);
    assert_non_null(random);
    assert_non_null(drawn);
    for (size_t i = 0; i < DRAWS; i++) {
        double stature = 1.760 + gsl_ran_gaussian(random, 0.010);
        const double part[] = {0.191 * stature + gsl_ran_gaussian(random, 0.0071 * 1.760),
                               0.268 + gsl_ran_gaussian(random, 0.004),
                               0.110 * stature + gsl_ran_gaussian(random, 0.0042 * 1.760),
                               0.11 * stature + gsl_ran_gaussian(random, 0.012 * 1.760),
                               0.036 * stature + gsl_ran_gaussian(random, 0.012 * 1.760),
                               pi / 4 + gsl_ran_gaussian(random, 5 * pi / 180),
                               gsl_ran_flat(random, 0.25, 0.45)};
        double *elbow = &drawn[i];
        elbow[0] = drawn_elbow(part, reaching.instruments[0].left_reach);
        elbow[DRAWS] = drawn_elbow(part, reaching.instruments[1].left_reach);
        elbow[2 * DRAWS] = elbow[DRAWS] - elbow[0];
    }
    check_close("violin", reaching.instruments[0].elbow_plus_minus, gsl_stats_sd(drawn, 1, DRAWS),
                0, 0.05);
    check_close("viola", reaching.instruments[1].elbow_plus_minus,
                gsl_stats_sd(drawn + DRAWS, 1, DRAWS), 0, 0.05);
    check_close("apart", reaching.instruments[1].elbow_apart_plus_minus,
                gsl_stats_sd(drawn + 2 * DRAWS, 1, DRAWS), 0, 0.1);
    check_close("apart", reaching.instruments[1].elbow_apart,
                reaching.instruments[1].elbow - reaching.instruments[0].elbow, 1e-15, 0);
    /* The arm is the same, so the difference is surer than either elbow. */
    assert_true(reaching.instruments[1].elbow_apart_plus_minus <
                reaching.instruments[0].elbow_plus_minus / 3);
    gsl_rng_free(random);
    free(drawn);
    mensur_reaching_clear(&reaching);
}

/* A short arm: about stretched on the instruments with a long reach, and no elbow is told; nothing
 * is said of what it cannot do. */
static void about_stretched(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const both[] = {&demo->kestrel, &demo->swift};
    struct mensur_player player = nobody();
    player.stature = mm(1240.0);
    struct mensur_reaching reaching = ask(demo, &player, both, 2);
    check_close("longest", reaching.longest, 0.341 * 1.240, 0, 1e-14);
    assert_int_equal(reaching.instruments[0].stretched, MENSUR_YES);
    assert_int_equal(reaching.instruments[1].stretched, MENSUR_NO);
    assert_true(isnan(reaching.instruments[0].elbow));
    assert_true(isnan(reaching.instruments[0].elbow_plus_minus));
    assert_true(isnan(reaching.instruments[0].elbow_apart));
    assert_true(reaching.instruments[0].wrist > reaching.longest);
    assert_int_equal(reaching.reference, 1); /* the first whose elbow is known */
    assert_true(said_holds(&reaching.remarks, "On kestrel the arm of somebody is about stretched"));
    assert_true(said_holds(&reaching.remarks, "On swift the elbow of somebody stands at about"));
    assert_false(said_holds(&reaching.remarks, "cannot"));
    assert_false(said_holds(&reaching.remarks, "opens"));
    assert_int_equal(mensur_reaching_too_wide(&reaching, &reaching.instruments[0].positions[0]),
                     MENSUR_UNSURE);
    mensur_reaching_clear(&reaching);
}

/* An arm so nearly stretched that its ± would pass 180 degrees has none. */
static void nearly_stretched(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const one[] = {&demo->kestrel};
    struct mensur_player player = nobody();
    player.stature = mm(1330.0);
    struct mensur_reaching reaching = ask(demo, &player, one, 1);
    assert_true(reaching.instruments[0].elbow > 150 * pi / 180);
    assert_true(isnan(reaching.instruments[0].elbow_plus_minus));
    assert_int_equal(reaching.instruments[0].stretched, MENSUR_NO);
    assert_true(said_holds(&reaching.remarks, "degrees, nearly stretched"));
    mensur_reaching_clear(&reaching);
}

/* The elbow comes first: how far it opens, with the sureness of the difference. */
static void compared(void **state) {
    const struct demo *demo = *state;
    const struct mensur_player *small = mensur_stock_player(&demo->shop.stock, "small");
    const struct mensur_instrument *const both[] = {&demo->kestrel, &demo->heron};
    const struct mensur_instrument *const three[] = {&demo->bittern, &demo->heron, &demo->kestrel};
    const struct mensur_instrument *const many[] = {&demo->kestrel, &demo->heron, &demo->wren,
                                                    &demo->swift};
    struct mensur_reaching reaching = ask(demo, small, both, 2);
    check_holds(said(&reaching.remarks, 0), "On heron the elbow of small opens by about 3 ± 1 "
                                            "degrees from about 117 ± 12 on kestrel");
    check_holds(said(&reaching.remarks, 1), "On heron the left arm reaches 6.0 mm farther");
    check_holds(said(&reaching.remarks, 1), "the bow arm 8.0 mm less far");
    assert_false(said_holds(&reaching.remarks, "stands at"));
    assert_false(said_holds(&reaching.remarks, "child"));
    mensur_reaching_clear(&reaching);
    reaching = ask(demo, small, three, 3);
    check_holds(said(&reaching.remarks, 0), "On kestrel the elbow of small closes by about 3 ± 1 "
                                            "degrees from about 120 ± 13 on heron");
    check_holds(said(&reaching.remarks, 1), "there is no arm model for a cello");
    assert_int_equal(reaching.reference, 1);
    mensur_reaching_clear(&reaching);
    /* Of many those on which it opens and closes most. */
    reaching = ask(demo, small, many, COUNT_OF(many));
    check_holds(said(&reaching.remarks, 0), "On heron the elbow of small opens by about 3 ± 1");
    check_holds(said(&reaching.remarks, 1), "On swift the elbow of small closes by about 24 ± 3");
    assert_int_equal(reaching.remarks.count, 2);
    mensur_reaching_clear(&reaching);
}

/* A child has other ratios, and there is a size that fits. */
static void child(void **state) {
    const struct demo *demo = *state;
    const struct mensur_player *young = mensur_stock_player(&demo->shop.stock, "young");
    const struct mensur_instrument *const one[] = {&demo->swift};
    assert_non_null(young);
    check_close("age", young->age, 9, 0, 0);
    struct mensur_reaching reaching = ask(demo, young, one, 1);
    check_close("upper arm", reaching.upper_arm, 1.330 * (0.180 + 0.0011 * 9), 0, 1e-14);
    check_close("forearm", reaching.forearm, 1.330 * (0.136 + 0.0009 * 9), 0, 1e-14);
    assert_true(said_holds(&reaching.remarks, "On a child's size that fits"));
    assert_true(said_holds(&reaching.basis,
                           "Of the stature at 9.0 years: upper arm 19.0 %, forearm 14.4 %"));
    mensur_reaching_clear(&reaching);
}

/* An arm that does not fold so far has no elbow either. */
static void too_near(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const one[] = {&demo->swift};
    struct mensur_player player = nobody();
    player.upper_arm = mm(900.0);
    player.forearm = mm(120.0);
    player.rest_side = mm(171.0);
    player.rest_forward = mm(52.0);
    struct mensur_reaching reaching = ask(demo, &player, one, 1);
    assert_int_equal(reaching.instruments[0].stretched, MENSUR_NO);
    assert_true(isnan(reaching.instruments[0].elbow));
    assert_true(said_holds(&reaching.remarks, "folded as far as it goes"));
    mensur_reaching_clear(&reaching);
}

static const struct mensur_assumed *assumed(const struct mensur_assumptions *list,
                                            const char *field) {
    for (size_t i = 0; i < list->count; i++) {
        if (strcmp(list->items[i].field, field) == 0) {
            return &list->items[i];
        }
    }
    return NULL;
}

/* What a player leaves out follows from the stature, or from the arm. */
static void defaults(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const one[] = {&demo->wren};
    struct mensur_player player = nobody();
    player.upper_arm = mm(323.0);
    player.forearm = mm(249.0);
    struct mensur_reaching reaching = ask(demo, &player, one, 1);
    assert_int_equal(reaching.assumed.count, 5);
    check_close("hand", assumed(&reaching.assumed, "hand")->value, 0.323 * 0.572, 0, 1e-14);
    check_close("side", assumed(&reaching.assumed, "rest_side")->value, 0.323 * 0.572, 0, 1e-14);
    check_close("forward", assumed(&reaching.assumed, "rest_forward")->value, 0.106 * 0.572, 0,
                1e-14);
    check_close("yaw", assumed(&reaching.assumed, "yaw")->value, pi / 4, 0, 1e-15);
    check_close("wrist", assumed(&reaching.assumed, "wrist_before_nut")->value,
                0.35 * 0.323 * 0.572, 0, 1e-14);
    assert_null(assumed(&reaching.assumed, "upper_arm"));
    assert_true(said_holds(&reaching.basis, "Of upper arm and forearm: hand 32.3 %"));
    mensur_reaching_clear(&reaching);

    player = nobody();
    player.stature = mm(1727.0);
    player.forearm = mm(251.0);
    player.yaw.value = 0.6;
    reaching = ask(demo, &player, one, 1);
    assert_int_equal(reaching.assumed.count, 5);
    check_close("upper arm", assumed(&reaching.assumed, "upper_arm")->value, 0.191 * 1.727, 0,
                1e-14);
    check_close("forearm", reaching.forearm, 0.251, 0, 1e-15);
    check_close("longest", reaching.longest, 0.191 * 1.727 + 0.251, 0, 1e-14);
    check_close("hand", reaching.hand, 0.110 * 1.727, 0, 1e-14);
    assert_null(assumed(&reaching.assumed, "yaw"));
    assert_true(said_holds(&reaching.basis, "Of the stature: upper arm 19.1 %"));
    /* What reaches do not follow from is not assumed here. */
    assert_null(assumed(&reaching.instruments[0].assumed, "afterlength"));
    assert_non_null(assumed(&reaching.instruments[0].assumed, "board"));
    mensur_reaching_clear(&reaching);
}

/* The hand's frame by position, against its span. */
static void spans(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const both[] = {&demo->heron, &demo->bittern};
    struct mensur_player player = nobody();
    struct mensur_profile profile;
    struct mensur_fault fault;
    player.stature = mm(1702.0);
    player.span = mm(78.5);
    struct mensur_reaching reaching = ask(demo, &player, both, 2);
    for (size_t i = 0; i < 2; i++) {
        const struct mensur_reach *reach = &reaching.instruments[i];
        check_status("profile",
                     mensur_ask_profile(&demo->shop.stock, both[i], &demo->terms,
                                        MENSUR_PART_FINGERS, &fault, &profile),
                     MENSUR_OK);
        assert_int_equal(reach->position_count, profile.position_count);
        for (size_t k = 0; k < reach->position_count; k++) {
            check_close("frame", reach->positions[k].frame, profile.positions[k].frame, 0, 0);
            assert_int_equal(mensur_reaching_too_wide(&reaching, &reach->positions[k]),
                             profile.positions[k].frame > 0.0785 ? MENSUR_YES : MENSUR_NO);
        }
        mensur_profile_clear(&profile);
    }
    assert_true(
        said_holds(&reaching.remarks, "wider than the span of 78.5 mm in position half, 1 (up to"));
    /* A cello has no arm model: no reach, said in one line and no warning; the hand is answered all
     * the same. */
    assert_true(isnan(reaching.instruments[1].left_reach));
    assert_true(isnan(reaching.instruments[1].bow_reach));
    assert_true(isnan(reaching.instruments[1].elbow));
    assert_int_equal(reaching.instruments[1].stretched, MENSUR_UNSURE);
    assert_int_equal(reaching.instruments[1].warnings.count, 0);
    assert_true(said_holds(&reaching.remarks, "bittern: there is no arm model for a cello"));
    assert_true(said_holds(&reaching.remarks, "On bittern the hand's frame is wider"));
    mensur_reaching_clear(&reaching);

    player.span = mm(131.0);
    reaching = ask(demo, &player, both, 1);
    assert_true(said_holds(&reaching.remarks,
                           "On heron every position lies within the hand's span of 131.0 mm"));
    mensur_reaching_clear(&reaching);
    player.span = mm(135.0); /* extended back, the hand spans 134.3 mm on the cello */
    reaching = ask(demo, &player, both, 2);
    assert_true(said_holds(&reaching.remarks, "On each of them every position lies within"));
    assert_false(said_holds(&reaching.remarks, "On heron every position"));
    mensur_reaching_clear(&reaching);
}

/* Only the string of this one was measured. */
static void no_geometry(void **state) {
    const struct demo *demo = *state;
    const struct mensur_player *tall = mensur_stock_player(&demo->shop.stock, "tall");
    const struct mensur_instrument *const one[] = {&demo->dipper};
    struct mensur_reaching reaching = ask(demo, tall, one, 1);
    assert_true(isnan(reaching.instruments[0].left_reach));
    assert_int_equal(reaching.instruments[0].stretched, MENSUR_UNSURE);
    assert_true(reaching.instruments[0].position_count > 0);
    assert_int_equal(reaching.assumed.count, 0); /* no arm was computed */
    check_holds(said(&reaching.remarks, 0), "dipper: its left reach is not known");
    mensur_reaching_clear(&reaching);
}

static void inches(void **state) {
    const struct demo *demo = *state;
    const struct mensur_player *small = mensur_stock_player(&demo->shop.stock, "small");
    const struct mensur_instrument *const both[] = {&demo->kestrel, &demo->heron};
    struct mensur_terms terms = demo->terms;
    struct mensur_reaching reaching;
    struct mensur_fault fault;
    check_status("inches",
                 mensur_ask_reach(&demo->shop.stock, both, 2, small, &terms, &fault, &reaching),
                 MENSUR_OK);
    check_holds(said_as(&reaching.remarks, &(struct mensur_style){.inches = true}, 1),
                "0.24 in farther");
    mensur_reaching_clear(&reaching);
}

static void refuses(void **state) {
    const struct demo *demo = *state;
    const struct mensur_player *small = mensur_stock_player(&demo->shop.stock, "small");
    const struct mensur_instrument *const one[] = {&demo->kestrel};
    struct mensur_reaching out;
    struct mensur_fault fault;
    struct mensur_player player = nobody();
    memset(&out, 0x5a, sizeof out);
    check_status("no instrument",
                 mensur_ask_reach(&demo->shop.stock, one, 0, small, &demo->terms, &fault, &out),
                 MENSUR_USE);
    player.upper_arm = mm(303.0);
    check_status("half an arm",
                 mensur_ask_reach(&demo->shop.stock, one, 1, &player, &demo->terms, &fault, &out),
                 MENSUR_USE);
    check_holds(fault.text, "somebody: neither a stature, nor upper_arm and forearm");
    struct mensur_instrument low;
    demo_model_violin(&low);
    demo_set(&low, MENSUR_FIELD_BRIDGE, 27.1);
    demo_set(&low, MENSUR_FIELD_NUT, 0.0);
    demo_set(&low, MENSUR_FIELD_PROJECTION, 27.4);
    const struct mensur_instrument *const bad[] = {&demo->kestrel, &low};
    check_status("string on the board",
                 mensur_ask_reach(&demo->shop.stock, bad, 2, small, &demo->terms, &fault, &out),
                 MENSUR_NO_ANSWER);
    check_holds(fault.text, "model violin");
    mensur_instrument_clear(&low);
    const unsigned char *bytes = (const unsigned char *)&out;
    for (size_t i = 0; i < sizeof out; i++) {
        assert_int_equal(bytes[i], 0x5a); /* untouched */
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(proportions),     cmocka_unit_test(mean_woman),
        cmocka_unit_test(elbows),          cmocka_unit_test(sureness),
        cmocka_unit_test(about_stretched), cmocka_unit_test(nearly_stretched),
        cmocka_unit_test(compared),        cmocka_unit_test(child),
        cmocka_unit_test(too_near),        cmocka_unit_test(defaults),
        cmocka_unit_test(spans),           cmocka_unit_test(no_geometry),
        cmocka_unit_test(inches),          cmocka_unit_test(refuses),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
