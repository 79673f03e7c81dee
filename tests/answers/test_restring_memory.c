/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What becomes of new strings when memory fails: every allocation in turn. */
#include "scarce.h"

/* Lets every allocation fail in turn until none is left to. */
static void test_each_allocation(void **state) {
    const struct demo *demo = *state;
    struct mensur_packet packet;
    struct mensur_fault fault;
    struct mensur_restringing whole;
    struct mensur_restring_wishes wishes = {.like = &demo->heron,
                                            .least_margin = NAN,
                                            .most_belly_force = 72.0,
                                            .any_length = true,
                                            .runners_up = 16,
                                            .packets = &packet,
                                            .packet_count = 1};
    check_status("packet", mensur_packet_read("A4=49@370", &fault, &packet), MENSUR_OK);
    check_status("whole",
                 mensur_ask_restring(&demo->shop.stock, &demo->kestrel, &wishes, &demo->terms,
                                     &fault, &whole),
                 MENSUR_OK);
    assert_int_equal(whole.choice_count, 17);
    int refused = 0;
    bool failed = true;
    for (long count = 0; failed; count++) {
        struct mensur_restringing answer = {.string_count = 77};
        scarce_left = count;
        enum mensur_status status = mensur_ask_restring(&demo->shop.stock, &demo->kestrel, &wishes,
                                                        &demo->terms, &fault, &answer);
        failed = scarce_left < 0;
        scarce_left = -1;
        if (!failed) {
            check_status("all there", status, MENSUR_OK);
            check_close("cost", answer.choices[16].cost, whole.choices[16].cost, 0, 0);
            mensur_restringing_clear(&answer);
        } else {
            check_status("refused", status, MENSUR_MEMORY);
            check_holds(fault.text, "memory");
            assert_int_equal(answer.string_count, 77);
            refused++;
        }
    }
    assert_true(refused > 80);
    mensur_restringing_clear(&whole);
}

/* Of an instrument that says how sure its stop is, with a string that is in no catalogue. */
static enum mensur_status sure(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_packet packet;
    const struct mensur_wish wish = {
        .kind = MENSUR_WISH_TENSION, .note = "A4", .low = 49.5, .high = 50.5};
    struct mensur_restring_wishes wishes = {.least_margin = NAN,
                                            .most_belly_force = NAN,
                                            .tensions = &wish,
                                            .tension_count = 1,
                                            .packets = &packet,
                                            .packet_count = 1};
    struct mensur_restringing answer;
    long kept = scarce_left; /* what is typed has a test of its own */
    scarce_left = -1;
    check_status("packet", mensur_packet_read("A4=50@375.8", fault, &packet), MENSUR_OK);
    scarce_left = kept;
    enum mensur_status status =
        mensur_ask_restring(&demo->shop.stock, &demo->heron, &wishes, &demo->terms, fault, &answer);
    if (status == MENSUR_OK) {
        assert_true(answer.choice_count > 0);
        check_holds(answer.choices[0].strings[3].string, "by its packet");
        mensur_restringing_clear(&answer);
    }
    return status;
}

static void test_how_sure(void **state) {
    scarce_go_through("restring", sure, *state);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_each_allocation),
                                       cmocka_unit_test(test_how_sure)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
