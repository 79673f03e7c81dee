/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which cautions apply, and behind which figures an assumed value stands. */
#include "cautions.h"
#include "demo.h"
#include "said.h"
#include "setup.h"

enum { BREAKING = 1, BELLY = 2, RESTORER = 4, REACH = 8 };

static unsigned kinds(const struct mensur_facts *cautions) {
    unsigned found = 0;
    for (size_t i = 0; i < cautions->count; i++) {
        unsigned kind = 1U << (unsigned)(cautions->items[i].kind - MENSUR_FACT_CAUTION_BREAKING);
        assert_int_equal(found & kind, 0); /* each once */
        found |= kind;
    }
    return found;
}

static char name[] = "wren";

/* An instrument as it is and as changed. */
static const struct {
    const char *row;
    enum mensur_known built;
    bool changed;
    double margin, neck, overstand, belly; /* semitones, m, m, ratio */
    unsigned want;
} changes[] = {
    {"nothing", MENSUR_YES, true, 2.0, 0.15, 0.008, 1.0, 0},
    {"margin under 2", MENSUR_YES, true, 1.99, 0.15, 0.008, 1.0, BREAKING},
    {"margin unknown", MENSUR_YES, true, NAN, 0.15, 0.008, 1.0, BREAKING},
    {"belly up by 5 %", MENSUR_YES, true, 9, 0.15, 0.008, 1.05, 0},
    {"belly up by over 5 %", MENSUR_YES, true, 9, 0.15, 0.008, 1.051, BELLY},
    {"belly down", MENSUR_YES, true, 9, 0.15, 0.008, 0.8, 0},
    {"belly unknown", MENSUR_YES, true, 9, 0.15, 0.008, NAN, 0},
    {"two instruments", MENSUR_YES, false, 9, 0.17, 0.008, 1.2, 0},
    {"a new neck", MENSUR_YES, true, 9, 0.151, 0.008, 1.0, RESTORER},
    {"the neck set again", MENSUR_YES, true, 9, 0.15, 0.0085, 1.0, RESTORER},
    {"a plan", MENSUR_NO, true, 9, 0.17, 0.006, 1.0, 0},
    {"all", MENSUR_YES, true, 0.3, 0.17, 0.006, 1.2, BREAKING | BELLY | RESTORER},
};

/* What is cut is told by the change itself (tests/answers/test_change.c). */
static void of_changes(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(changes); i++) {
        struct mensur_profile two[2] = {{.string_count = 2}, {.string_count = 2}};
        struct mensur_comparison comparison = {.count = 2,
                                               .instruments = two,
                                               .changed = changes[i].changed,
                                               .cuts_built = (changes[i].want & RESTORER) != 0};
        struct mensur_facts cautions = {0};
        for (size_t k = 0; k < 2; k++) {
            two[k].strings[0] = (struct mensur_string_figures){
                .string = name, .breaking_margin = k == 0 ? 9.0 : changes[i].margin};
            two[k].strings[1] = (struct mensur_string_figures){.breaking_margin = NAN};
            two[k].lengths.built = changes[i].built;
            two[k].lengths.neck = k == 0 ? 0.15 : changes[i].neck;
            two[k].side.overstand = k == 0 ? 0.008 : changes[i].overstand;
            two[k].total_force_on_belly = k == 0 ? 70.0 : 70.0 * changes[i].belly;
        }
        cautions_of_comparison(&comparison, &cautions);
        if (kinds(&cautions) != changes[i].want) {
            fail_msg("%s: %x", changes[i].row, kinds(&cautions));
        }
        mensur_facts_clear(&cautions);
    }
}

/* The larger share is told, and over a tenth that a restorer is to be asked. */
static void joined(void **state) {
    (void)state;
    struct mensur_facts one = {0}, other = {0};
    mensur_facts_add(&one, MENSUR_FACT_CAUTION_BELLY, NULL, MENSUR_NUMBERS(1.06, 1.06 - 1.1));
    mensur_facts_add(&other, MENSUR_FACT_CAUTION_BELLY, NULL, MENSUR_NUMBERS(1.12, 1.12 - 1.1));
    mensur_facts_add(&other, MENSUR_FACT_CAUTION_REACH, NULL, NULL);
    assert_string_equal(said(&one, 0), "6.0 % more force on the belly");
    cautions_join(&other, &one);
    assert_int_equal(kinds(&one), BELLY | REACH);
    assert_string_equal(said(&one, 0),
                        "12 % more force on the belly than it was set up for: ask its restorer");
    mensur_facts_clear(&one);
    mensur_facts_clear(&other);
}

/* A decision cautions of what moves, and of nothing where the neck stays. */
static void of_decisions(void **state) {
    (void)state;
    for (int k = 0; k < 4; k++) {
        struct mensur_facts cautions = {0};
        struct mensur_decision decision = {.for_stop = k == 2,
                                           .has_recommended = k != 3,
                                           .cuts_built = k != 2,
                                           .recommended_place = k == 0 ? 0.15 : 0.16};
        decision.present.lengths =
            (struct mensur_lengths){.built = MENSUR_YES, .neck = 0.15, .stop = 0.22};
        decision.recommended.lengths = decision.present.lengths;
        decision.recommended.lengths.neck = k == 1 ? 0.16 : 0.15;
        decision.present.total_force_on_belly = 70.0;
        decision.recommended.total_force_on_belly = 75.0;
        cautions_of_decision(&decision, &cautions);
        assert_int_equal(kinds(&cautions), k == 1 ? BELLY | RESTORER : k == 2 ? BELLY : 0);
        mensur_facts_clear(&cautions);
    }
}

/* Usual spreads of the measurements that may be assumed, mm; ours, as physics.md lists them. */
static const struct {
    enum mensur_field field;
    double spread_mm;
} spreads[] = {
    {MENSUR_FIELD_ARCH, 1},        {MENSUR_FIELD_PROJECTION, 0.5}, {MENSUR_FIELD_BRIDGE, 0.4},
    {MENSUR_FIELD_SADDLE, 0.75},   {MENSUR_FIELD_OVERSTAND, 0.4},  {MENSUR_FIELD_BOARD, 0.4},
    {MENSUR_FIELD_BOARD_NUT, 0.4}, {MENSUR_FIELD_NUT, 0.1},        {MENSUR_FIELD_BACK_ARCH, 1},
    {MENSUR_FIELD_BEHIND_NUT, 5},  {MENSUR_FIELD_HOLLOW, 0.3},
};

/* A value stands behind what prints otherwise, by half a tenth of a millimetre or of a degree or
 * more, where it is off by its usual spread. The violin has all its heights measured, so that none
 * follows from another. */
static void stands_behind(void **state) {
    const struct demo *demo = *state;
    static const double half = 0.5e-4;
    const double half_angle = 0.05 * 3.14159265358979323846 / 180;
    for (size_t i = 0; i < COUNT_OF(spreads); i++) {
        struct mensur_change change = {
            .field = spreads[i].field, .relative = true, .value = {spreads[i].spread_mm / 1e3, 0}};
        const char *field = mensur_field_info(spreads[i].field)->name;
        struct mensur_comparison moved;
        struct mensur_fault fault = {""};
        check_status(field,
                     mensur_ask_change(&demo->shop.stock, &demo->swift, &change, 1, &demo->terms,
                                       &fault, &moved),
                     MENSUR_OK);
        const struct mensur_lengths *by = &moved.differences[0].lengths;
        unsigned want = (fabs(by->string_length) >= half ? MENSUR_BEHIND_LENGTH : 0U) |
                        (fabs(by->break_angle) >= half_angle ? MENSUR_BEHIND_BREAK : 0U) |
                        (fabs(by->neck_slope) >= half_angle ? MENSUR_BEHIND_SLOPE : 0U) |
                        (fabs(by->left_reach) >= half ? MENSUR_BEHIND_REACH : 0U) |
                        (fabs(by->clearance_at_board_end) >= half ? MENSUR_BEHIND_CLEARANCE : 0U);
        unsigned all = MENSUR_BEHIND_LENGTH | MENSUR_BEHIND_BREAK | MENSUR_BEHIND_SLOPE |
                       MENSUR_BEHIND_REACH | MENSUR_BEHIND_CLEARANCE;
        unsigned behind = assumed_behind(spreads[i].field);
        if ((behind & all) != want) {
            fail_msg("%s stands behind %x, moves %x", field, behind, want);
        }
        mensur_comparison_clear(&moved);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(of_changes),
        cmocka_unit_test(joined),
        cmocka_unit_test(of_decisions),
        cmocka_unit_test(stands_behind),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
