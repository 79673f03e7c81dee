/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Profile, comparison, change, decision, reach, map, sizes, what a shop teaches and refused strings
 * when memory fails: every allocation in turn. */
#include "ask.h"
#include "learning.h"
#include "map.h"
#include "ranking.h"
#include "scale.h"
#include "scarce.h"
#include "said.h"
#include "setup.h"

/* What a result holds before it is asked for; a failure leaves it so. */
enum { BEFORE = 0x5a };

static void check_untouched(const void *result, size_t size) {
    const unsigned char *bytes = result;
    for (size_t i = 0; i < size; i++) {
        assert_int_equal(bytes[i], BEFORE);
    }
}

static enum mensur_status profile(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_profile out;
    memset(&out, BEFORE, sizeof out);
    enum mensur_status status = mensur_ask_profile(&demo->shop.stock, &demo->heron, &demo->terms,
                                                   MENSUR_PART_ALL, fault, &out);
    if (status == MENSUR_OK) {
        mensur_profile_clear(&out);
    } else {
        check_untouched(&out, sizeof out);
    }
    return status;
}

/* As much as can be warned of: the pitch, and each string, as the set has none of them. */
static enum mensur_status warned(const struct demo *demo, struct mensur_fault *fault) {
    static char set[] = "cello steel";
    struct mensur_instrument dipper = demo->dipper; /* texts borrowed */
    struct mensur_terms terms = demo->terms;
    struct mensur_profile out;
    dipper.set = set;
    terms.a4 = 350;
    enum mensur_status status =
        mensur_ask_profile(&demo->shop.stock, &dipper, &terms, MENSUR_PART_ALL, fault, &out);
    if (status == MENSUR_OK) {
        mensur_profile_clear(&out);
    }
    return status;
}

/* A hand that every frame is too wide for. */
static enum mensur_status reach(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_instrument *const three[] = {&demo->kestrel, &demo->heron, &demo->bittern};
    struct mensur_player small = *mensur_stock_player(&demo->shop.stock, "middle");
    struct mensur_reaching out;
    small.span.value = 0.05;
    enum mensur_status status = mensur_ask_reach(&demo->shop.stock, three, COUNT_OF(three), &small,
                                                 &demo->terms, fault, &out);
    if (status == MENSUR_OK) {
        mensur_reaching_clear(&out);
    }
    return status;
}

/* Strings that no note of the instrument has one among; each exclusion is told. */
static enum mensur_status no_strings(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_restring_wishes wishes = {
        .least_margin = NAN, .most_belly_force = NAN, .from = "viola gut"};
    struct mensur_restringing out;
    enum mensur_status status =
        mensur_ask_restring(&demo->shop.stock, &demo->bittern, &wishes, &demo->terms, fault, &out);
    if (status == MENSUR_OK) {
        assert_int_equal(out.choice_count, 0);
        assert_int_equal(out.excluded.count, 4);
        mensur_restringing_clear(&out);
    }
    return status;
}

/* Fingers beside another's, as they are told one instrument after the other. */
static enum mensur_status fingers(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_profile first, other;
    long kept = scarce_left; /* the profiles have tests of their own */
    scarce_left = -1;
    check_status("first",
                 mensur_ask_profile(&demo->shop.stock, &demo->kestrel, &demo->terms,
                                    MENSUR_PART_FINGERS, fault, &first),
                 MENSUR_OK);
    check_status("other",
                 mensur_ask_profile(&demo->shop.stock, &demo->bittern, &demo->terms,
                                    MENSUR_PART_FINGERS, fault, &other),
                 MENSUR_OK);
    scarce_left = kept;
    enum mensur_status status = mensur_remark_fingers(&first, &other);
    if (status == MENSUR_MEMORY) {
        mensur_fault_set(fault, "%s", mensur_status_text(status)); /* it has no fault to tell */
    }
    mensur_profile_clear(&first);
    mensur_profile_clear(&other);
    return status;
}

static enum mensur_status freed(enum mensur_status status, struct mensur_comparison *comparison) {
    if (status == MENSUR_OK) {
        mensur_comparison_clear(comparison);
    }
    return status;
}

static enum mensur_status compare(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_instrument *const three[] = {&demo->kestrel, &demo->heron, &demo->wren};
    struct mensur_comparison out;
    return freed(
        mensur_ask_compare(&demo->shop.stock, three, COUNT_OF(three), &demo->terms, fault, &out),
        &out);
}

static const struct mensur_change changes[] = {
    {.field = MENSUR_FIELD_STOP, .relative = true, .value = {.value = -0.003}},
    {.field = MENSUR_FIELD_STRING_LENGTH, .value = {.value = 0.371}},
    {.of = MENSUR_CHANGE_STRINGS, .text = "viola steel"},
    {.of = MENSUR_CHANGE_TUNING, .text = "viola"},
};

static enum mensur_status change(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_comparison out;
    return freed(mensur_ask_change(&demo->shop.stock, &demo->heron, changes, COUNT_OF(changes),
                                   &demo->terms, fault, &out),
                 &out);
}

static enum mensur_status changed(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_instrument out;
    enum mensur_status status = mensur_instrument_changed(
        &demo->shop.stock, &demo->heron, changes, COUNT_OF(changes), &demo->terms, fault, &out);
    if (status == MENSUR_OK) {
        mensur_instrument_clear(&out);
    }
    return status;
}

/* A size has its family. */
static const struct mensur_change to[] = {
    {.of = MENSUR_CHANGE_FAMILY, .text = "viola"},
    {.of = MENSUR_CHANGE_SIZE, .text = "violin 1/2"},
};

static enum mensur_status resized(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_instrument out;
    enum mensur_status status = mensur_instrument_changed(&demo->shop.stock, &demo->heron, to,
                                                          COUNT_OF(to), &demo->terms, fault, &out);
    if (status == MENSUR_OK) {
        assert_string_equal(out.family, "violin");
        mensur_instrument_clear(&out);
    }
    return status;
}

static enum mensur_status completed(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_instrument lacking, out;
    long kept = scarce_left;
    scarce_left = -1;
    demo_bare_violin(&lacking);
    lacking.measure[MENSUR_FIELD_OVERSTAND] = MENSUR_UNKNOWN;
    scarce_left = kept;
    enum mensur_status status = mensur_instrument_completed(
        &demo->shop.stock, &lacking, to, COUNT_OF(to), &demo->terms, fault, &out);
    if (status == MENSUR_OK) {
        assert_string_equal(out.family, "violin");
        mensur_instrument_clear(&out);
    }
    mensur_instrument_clear(&lacking);
    return status;
}

static enum mensur_status scale(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_scaling scaling = {.by = MENSUR_SCALE_TO_BODY, .value = 0.395};
    struct mensur_instrument scaled;
    struct mensur_scaled out;
    enum mensur_status status = mensur_ask_scale(&demo->shop.stock, &demo->heron, &scaling,
                                                 &demo->terms, fault, &out, &scaled);
    if (status == MENSUR_OK) {
        mensur_scaled_clear(&out);
        mensur_instrument_clear(&scaled);
    }
    return status;
}

static enum mensur_status decide(const struct demo *demo, const struct mensur_instrument *on,
                                 const struct mensur_wishes *wishes, bool for_stop,
                                 struct mensur_fault *fault) {
    struct mensur_decision out;
    enum mensur_status status =
        mensur_ask_decision(&demo->shop.stock, on, wishes, for_stop, &demo->terms, fault, &out);
    if (status == MENSUR_OK) {
        mensur_decision_clear(&out);
    }
    return status;
}

static enum mensur_status neck_like(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_wish even = {
        .kind = MENSUR_WISH_TENSION, .percent = true, .low = 0.9, .high = 1.1};
    const struct mensur_wishes wishes = {.like = &demo->heron, .items = &even, .count = 1};
    return decide(demo, &demo->kestrel, &wishes, false, fault);
}

static const struct mensur_wish apart[] = {
    {.kind = MENSUR_WISH_STRING_LENGTH, .low = 0.380, .high = 0.385},
    {.kind = MENSUR_WISH_LEFT_REACH, .low = NAN, .high = 0.540},
    {.kind = MENSUR_WISH_TOTAL_TENSION, .low = 200, .high = 500},
};

/* heron's stop says how sure it is, and so the answer does. */
static enum mensur_status neck_in_conflict(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_wishes wishes = {.items = apart, .count = COUNT_OF(apart)};
    return decide(demo, &demo->heron, &wishes, false, fault);
}

static enum mensur_status stop_for_length(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_wishes wishes = {.items = apart, .count = 1};
    return decide(demo, &demo->heron, &wishes, true, fault);
}

static enum mensur_status neck_proposed(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_wishes wishes = {.items = apart, .count = 1};
    struct mensur_instrument proposed;
    long kept = scarce_left; /* the change has a test of its own */
    scarce_left = -1;
    check_status("changed",
                 mensur_instrument_changed(&demo->shop.stock, &demo->kestrel, changes, 1,
                                           &demo->terms, fault, &proposed),
                 MENSUR_OK);
    proposed.was = &demo->kestrel;
    scarce_left = kept;
    enum mensur_status status = decide(demo, &proposed, &wishes, false, fault);
    mensur_instrument_clear(&proposed);
    return status;
}

static enum mensur_status true_places(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_profile out;
    enum mensur_status status =
        mensur_ask_profile(&demo->shop.stock, &demo->kestrel, &demo->terms,
                           MENSUR_PART_FINGERS | MENSUR_PART_TRUE_PLACES, fault, &out);
    if (status == MENSUR_OK) {
        mensur_profile_clear(&out);
    }
    return status;
}

/* As scarce_question asks for words, which these two have no fault to tell by. */
static enum mensur_status told(enum mensur_status status, struct mensur_fault *fault) {
    if (status == MENSUR_MEMORY) {
        mensur_fault_set(fault, "%s", mensur_status_text(status));
    }
    return status;
}

static enum mensur_status map_of(const struct demo *demo, struct mensur_mapping *mapping) {
    const struct mensur_instrument *const others[] = {&demo->heron, &demo->wren};
    struct mensur_map out;
    enum mensur_status status = mensur_map_add(mapping, &demo->kestrel, MENSUR_MAP_ASKED);
    for (size_t i = 0; i < COUNT_OF(others) && status == MENSUR_OK; i++) {
        status = mensur_map_add(mapping, others[i], MENSUR_MAP_OF_SHOP);
    }
    status = status == MENSUR_OK ? mensur_map_make(mapping, &out) : status;
    if (status == MENSUR_OK) {
        assert_int_equal(out.point_count, 3);
        mensur_map_clear(&out);
    }
    return status;
}

static enum mensur_status map(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_wishes wishes = {.like = &demo->heron, .items = apart, .count = 1};
    struct mensur_mapping *mapping = NULL;
    enum mensur_status status =
        mensur_map_begin(&demo->shop.stock, &demo->kestrel, &wishes, &demo->terms, fault, &mapping);
    if (status == MENSUR_OK) {
        status = told(map_of(demo, mapping), fault);
        mensur_mapping_free(mapping);
    }
    return status;
}

static enum mensur_status sizes(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_player pupil = *mensur_stock_player(&demo->shop.stock, "middle");
    struct mensur_reaching out;
    pupil.age = 8;
    enum mensur_status status =
        mensur_ask_sizes(&demo->shop.stock, "violin", &pupil, &demo->terms, fault, &out);
    if (status == MENSUR_OK) {
        mensur_reaching_clear(&out);
    }
    return status;
}

/* Twenty of them, so that the lists of what they state grow; each with two slips to be said. */
static enum mensur_status learning(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_stock *stock = &demo->shop.stock;
    const struct mensur_family *viola = mensur_stock_family(stock, "viola");
    struct mensur_instrument kestrel = demo->kestrel; /* texts borrowed */
    struct mensur_learning *made = NULL;
    struct mensur_learnt learnt = {.instruments = 0};
    struct mensur_texts said = {0};
    kestrel.measure[MENSUR_FIELD_STRING_LENGTH].value = NAN; /* it follows from the neck */
    kestrel.measure[MENSUR_FIELD_AFTERLENGTH].value = 0.060;
    kestrel.measure[MENSUR_FIELD_BOARD_LENGTH].value = 0.290;
    kestrel.measure[MENSUR_FIELD_NUT].value = kestrel.measure[MENSUR_FIELD_SADDLE].value = 0.1;
    enum mensur_status status = mensur_learning_begin(stock, &made);
    for (int i = 0; i < 20 && status == MENSUR_OK; i++) {
        status = mensur_learning_add(made, viola, &kestrel, "shop.csv", &said);
    }
    status = status == MENSUR_OK
                 ? mensur_learning_row(made, (size_t)(viola - stock->families), &learnt)
                 : status;
    if (status == MENSUR_OK) {
        assert_int_equal(learnt.instruments, 20);
        assert_int_equal(said.count, 40);
    }
    mensur_texts_clear(&said);
    mensur_learning_free(made);
    return told(status, fault);
}

/* Rows of one part of a file, joined to those of another. */
static enum mensur_status ranking(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_sought sought;
    struct mensur_profile profile;
    struct mensur_ranking parts[2] = {{.count = 0}, {.count = 0}};
    long kept = scarce_left; /* the profile has a test of its own */
    scarce_left = -1;
    mensur_sought_init(&sought);
    check_status("profile",
                 mensur_ask_profile(&demo->shop.stock, &demo->heron, &demo->terms,
                                    mensur_ranking_parts(&sought), fault, &profile),
                 MENSUR_OK);
    scarce_left = kept;
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < 4 && status == MENSUR_OK; i++) {
        status = mensur_ranking_take(&sought, &demo->heron, &profile, i, &parts[i / 3]);
    }
    for (size_t i = 0; i < 2 && status == MENSUR_OK; i++) {
        struct mensur_ranking whole = {.count = 0};
        status = mensur_ranking_join(&sought, &parts[i], &whole);
        assert_int_equal(parts[i].count, 0);
        mensur_ranking_clear(&whole);
    }
    for (size_t i = 0; i < 2; i++) {
        mensur_ranking_clear(&parts[i]);
    }
    mensur_profile_clear(&profile);
    return told(status, fault);
}

static void each_allocation(void **state) {
    static const struct {
        const char *row;
        scarce_question *ask;
    } rows[] = {{"profile", profile},
                {"warned", warned},
                {"reach", reach},
                {"no strings", no_strings},
                {"fingers", fingers},
                {"compare", compare},
                {"change", change},
                {"changed", changed},
                {"resized", resized},
                {"completed", completed},
                {"scale", scale},
                {"neck like heron", neck_like},
                {"neck in conflict", neck_in_conflict},
                {"stop for a length", stop_for_length},
                {"neck of what is proposed", neck_proposed},
                {"true places", true_places},
                {"map like heron", map},
                {"sizes for a pupil", sizes},
                {"learning", learning},
                {"ranking", ranking}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        scarce_go_through(rows[i].row, rows[i].ask, *state);
    }
}

/* Measurements that no instrument can have: a back that rises further than it is long, a bridge
 * under the board's line, and too few to make anything of. */
static void refused_set_up(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *row;
        enum mensur_field field;
        double mm;
    } rows[] = {{"back", MENSUR_FIELD_BACK_ARCH, 300},
                {"bridge", MENSUR_FIELD_BRIDGE, 5},
                {"stop", MENSUR_FIELD_STOP, NAN}};
    struct mensur_solver *solver = NULL;
    check_status("solver", mensur_solver_make(&solver), MENSUR_OK);
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument instrument = demo->kestrel; /* texts borrowed */
        struct mensur_fault fault = {""};
        struct setup setup;
        struct mensur_profile profile;
        demo_set(&instrument, rows[i].field, rows[i].mm);
        demo_set(&instrument, MENSUR_FIELD_BODY_STRAIGHT, NAN);
        demo_set(&instrument, MENSUR_FIELD_STRING_LENGTH, NAN);
        memset(&setup, BEFORE, sizeof setup);
        memset(&profile, BEFORE, sizeof profile);
        check_status(rows[i].row,
                     setup_make(solver, &demo->shop.stock, &instrument, NULL,
                                MENSUR_HOLD_PROJECTION, &fault, &setup),
                     MENSUR_NO_ANSWER);
        check_untouched(&setup, sizeof setup);
        check_status(rows[i].row,
                     mensur_ask_profile_with(solver, &demo->shop.stock, &instrument, &demo->terms,
                                             MENSUR_PART_ALL, &fault, &profile),
                     MENSUR_NO_ANSWER);
        check_untouched(&profile, sizeof profile);
    }
    mensur_solver_free(solver);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_allocation),
                                       cmocka_unit_test(refused_set_up)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
