/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is sought, as it is typed; and which instruments meet it, in which order.
 * tests/cli/find.py has whole shops. */
#include "ranking.h"

#include "demo.h"
#include "instrument.h"

#define OPEN NAN

static struct mensur_sought begun(void) {
    struct mensur_sought sought;
    mensur_sought_init(&sought);
    return sought;
}

/* One wish; lengths in m, angles in rad. */
static const struct {
    const char *word;
    enum mensur_sought_kind kind;
    double low, high, allowed;
    const char *text; /* NULL: a range */
} good[] = {
    {"stop=218..222", MENSUR_SOUGHT_FIGURE, 0.218, 0.222, 1e-15, NULL},
    {"stop_mm=..222", MENSUR_SOUGHT_FIGURE, OPEN, 0.222, 1e-15, NULL},
    {"stop=8-3/4in..", MENSUR_SOUGHT_FIGURE, 0.22225, OPEN, 1e-15, NULL},
    {"stop=218-222", MENSUR_SOUGHT_FIGURE, 0.218, 0.222, 1e-15, NULL},
    /* a hyphen of an exponent parts nothing */
    {"stop=2180e-1-222", MENSUR_SOUGHT_FIGURE, 0.218, 0.222, 1e-15, NULL},
    {"stop=2180E-1-222", MENSUR_SOUGHT_FIGURE, 0.218, 0.222, 1e-15, NULL},
    /* one value, give or take */
    {"stop=220", MENSUR_SOUGHT_FIGURE, 0.219, 0.221, 1e-15, NULL},
    {"first_finger_at_heel_semitones=7", MENSUR_SOUGHT_FIGURE, 6.8, 7.2, 1e-14, NULL},
    {"neck_slope=-5..5", MENSUR_SOUGHT_FIGURE, -0.0872664625997165, 0.0872664625997165, 1e-14,
     NULL},
    {"neck_slope_deg=5", MENSUR_SOUGHT_FIGURE, 0.069813170079773, 0.104719755119660, 1e-14, NULL},
    {"down_factor=0.4", MENSUR_SOUGHT_FIGURE, 0.388, 0.412, 1e-15, NULL},
    {"string_length=372", MENSUR_SOUGHT_FIGURE, 0.371, 0.373, 1e-15, NULL},
    {"tension=A4=60..", MENSUR_SOUGHT_TENSION, 60, OPEN, 1e-13, NULL},
    {"family=viola", MENSUR_SOUGHT_WORD, OPEN, OPEN, 0, "viola"},
    {"strings=a..b", MENSUR_SOUGHT_WORD, OPEN, OPEN, 0, "a..b"},
    {"price=100", MENSUR_SOUGHT_OWNER, OPEN, OPEN, 0, "100"},
    {"price=", MENSUR_SOUGHT_OWNER, OPEN, OPEN, 0, ""},
    {"price=..100.5", MENSUR_SOUGHT_OWNER, OPEN, 100.5, 1e-15, NULL},
    {"price=-3..", MENSUR_SOUGHT_OWNER, -3, OPEN, 1e-15, NULL},
    /* a figure that is a plain number has no unit to leave out */
    {"stop_per_2=3", MENSUR_SOUGHT_OWNER, OPEN, OPEN, 0, "3"},
};

static void reads(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(good); i++) {
        struct mensur_sought sought = begun();
        struct mensur_fault fault = {""};
        check_status(fault.text, mensur_sought_read(good[i].word, &fault, &sought), MENSUR_OK);
        assert_int_equal(sought.count, 1);
        const struct mensur_sought_line *line = &sought.lines[0];
        assert_int_equal(line->column.kind, good[i].kind);
        check_close(good[i].word, line->low, good[i].low, 0, good[i].allowed);
        check_close(good[i].word, line->high, good[i].high, 0, good[i].allowed);
        if (good[i].text == NULL) {
            assert_null(line->text);
        } else {
            assert_string_equal(line->text, good[i].text);
        }
    }
}

#define LONG "a column whose name is far longer than any that somebody would write into a table"

static const struct {
    const char *word, *says;
} bad[] = {
    {"viola", "\"viola\" is no wish"},
    {"=3", "\"=3\" is no wish"},
    {"", "\"\" is no wish"},
    {"stop=", "stop: \"\" is no range and no value"},
    {"stop=..", "no range"},
    {"stop=220-", "no range"},
    {"stop=e-220", "no range"},
    {"stop=re-220", "no range"},
    {"stop=x", "no range"},
    {"stop=x..220", "no range"},
    {"stop=220..x", "no range"},
    {"stop=222..218", "the lower end first"},
    {"string_length=long", "\"long\" is no range"},
    {"price=..", "price: \"..\" is no range of numbers"},
    {"price=x..3", "no range of numbers"},
    {"price=..100,5", "no range of numbers"}, /* 1,200 might be meant */
    {"price=3..4 EUR", "no range of numbers"},
    {"price=4..3", "no range of numbers"},
    {LONG "=3..x", "a column whose name is far longer than any that somebody wou: \"3..x\" is no"},
};

static void refuses(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(bad); i++) {
        struct mensur_sought sought = begun();
        struct mensur_fault fault = {""};
        check_status(bad[i].word, mensur_sought_read(bad[i].word, &fault, &sought), MENSUR_USE);
        check_holds(fault.text, bad[i].says);
        assert_int_equal(sought.count, 0);
    }
}

/* There is room for so many wishes, and for the family of what is liked. */
static void too_many(void **state) {
    (void)state;
    struct mensur_sought sought = begun();
    struct mensur_fault fault = {""};
    for (int i = 0; i < MENSUR_SOUGHT_LINES - 1; i++) {
        check_status("one more", mensur_sought_read("stop=220", &fault, &sought), MENSUR_OK);
    }
    check_status("too many", mensur_sought_read("stop=220", &fault, &sought), MENSUR_USE);
    check_holds(fault.text, "more than 47 wishes");
    assert_int_equal(sought.count, MENSUR_SOUGHT_LINES - 1);
}

static void steps_and_top(void **state) {
    static const struct {
        const char *word;
        size_t place;
        double step; /* NaN: refused */
    } steps[] = {
        {"string_length=3", MENSUR_NEAR_LENGTH, 0.003},
        {"left_reach=1/4in", MENSUR_NEAR_LEFT, 0.00635},
        {"body_note=0.5", MENSUR_NEAR_NOTE, 0.5},
        {"total_tension=5%", MENSUR_NEAR_TENSION, 0.05},
        {"total_tension=5", 0, NAN},
        {"string_length=3%", 0, NAN},
        {"string_length=", 0, NAN},
        {"string_length=x", 0, NAN},
        {"string_length=0", 0, NAN},
        {"string_length", 0, NAN},
        {"string=3", 0, NAN},
        {"", 0, NAN},
    };
    static const struct {
        const char *word;
        size_t top; /* 0: refused */
    } tops[] = {{"1", 1},          {"020", 20}, {"999999999", 999999999},
                {"1000000000", 0}, {"0", 0},    {"-1", 0},
                {"", 0},           {"x", 0},    {"3x", 0},
                {"1.5", 0}};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(steps); i++) {
        struct mensur_sought sought = begun();
        struct mensur_fault fault = {""};
        enum mensur_status status = mensur_sought_near(steps[i].word, &fault, &sought);
        check_status(steps[i].word, status, isnan(steps[i].step) ? MENSUR_USE : MENSUR_OK);
        if (status == MENSUR_OK) {
            check_close(steps[i].word, sought.near[steps[i].place], steps[i].step, 0, 1e-15);
        } else {
            check_holds(fault.text, "is no step of string_length=2 left_reach=5");
        }
    }
    for (size_t i = 0; i < COUNT_OF(tops); i++) {
        struct mensur_sought sought = begun();
        struct mensur_fault fault = {""};
        check_status(tops[i].word, mensur_sought_top(tops[i].word, &fault, &sought),
                     tops[i].top > 0 ? MENSUR_OK : MENSUR_USE);
        assert_int_equal(sought.top, tops[i].top);
    }
}

/* The shop: the demonstration's, one without a family and without cells of the owner's, and one
 * whose strings nobody knows. */
enum { SHOP = 8 };
struct shop {
    struct mensur_instrument instruments[SHOP];
    struct mensur_texts heads;
};

static void open_shop(const struct demo *demo, struct shop *shop) {
    static char price[] = "Price", remark[] = "Remark", stop[] = "stop";
    static char *heads[] = {price, remark, stop};
    /* each cell with its end mark; the string's own ends the last */
    static char heron[] = "100\0good\0x", kestrel[] = "90 EUR\0\0y", wren[] = "100.0\0Bad\0",
                swift[] = "20\0alto\0", bittern[] = "\0\0", dipper[] = "7\0\0x";
    struct mensur_instrument all[SHOP] = {demo->heron,  demo->kestrel, demo->wren,
                                          demo->swift,  demo->bittern, demo->dipper,
                                          demo->dipper, demo->kestrel};
    const struct mensur_owners owners[SHOP] = {{heron, sizeof heron},
                                               {kestrel, sizeof kestrel},
                                               {wren, sizeof wren},
                                               {swift, sizeof swift},
                                               {bittern, sizeof bittern},
                                               {dipper, sizeof dipper},
                                               {NULL, 0},
                                               {NULL, 0}};
    static char bare[] = "bare", unstrung[] = "unstrung";
    all[6].name = bare;
    all[6].family = NULL;
    all[7].name = unstrung;
    all[7].set = NULL;
    for (size_t i = 0; i < SHOP; i++) {
        all[i].owners = owners[i];
        all[i].line = (long)i + 2;
        shop->instruments[i] = all[i];
    }
    shop->heads = (struct mensur_texts){.items = heads, .count = COUNT_OF(heads)};
}

/* A question and the names that answer it, in their order; or a fault. */
static const struct question {
    const char *name, *words[3], *sort, *like;
    const char *order; /* NULL: refused */
    const char *says;
} questions[] = {
    {"all", {NULL}, NULL, NULL, "heron kestrel wren swift bittern dipper bare unstrung ", NULL},
    {"figures",
     {"string_length=360..376", "stop=..220"},
     NULL,
     NULL,
     "kestrel wren unstrung ",
     NULL},
    {"a word, in any capitals", {"family=VIOLIN"}, NULL, NULL, "swift ", NULL},
    {"a text that is not there", {"strings=viola gut"}, NULL, NULL, "heron kestrel ", NULL},
    {"an owner's number, however it is written", {"price=100"}, NULL, NULL, "heron wren ", NULL},
    {"a number under others, in capitals", {"PRICE=20"}, NULL, NULL, "swift ", NULL},
    {"an owner's text", {"remark=GOOD"}, NULL, NULL, "heron ", NULL},
    {"a number that is text there", {"price=90 eur"}, NULL, NULL, "kestrel ", NULL},
    {"a range", {"price=..20"}, NULL, NULL, "swift dipper ", NULL},
    {"a range that ends at 0", {"price=..0"}, NULL, NULL, "", NULL},
    {"a head that is a figure's too", {"own_stop=x"}, NULL, NULL, "heron dipper ", NULL},
    {"tension of a string",
     {"tension=A4=1.."},
     NULL,
     NULL,
     "heron kestrel wren swift dipper bare ",
     NULL},
    {"total of the strings", {"total_tension=400.."}, NULL, NULL, "bittern ", NULL},
    {"greatest first, unknown last",
     {NULL},
     "-stop",
     NULL,
     "bittern heron wren kestrel unstrung swift dipper bare ",
     NULL},
    {"by a word",
     {NULL},
     "family",
     NULL,
     "bittern heron kestrel wren dipper unstrung swift bare ",
     NULL},
    {"by the owner's numbers, texts, nothing",
     {NULL},
     "price",
     NULL,
     "dipper swift heron wren kestrel bittern bare unstrung ",
     NULL},
    {"by the owner's texts",
     {NULL},
     "remark",
     NULL,
     "swift wren heron kestrel bittern dipper bare unstrung ",
     NULL},
    {"like heron, in its family", {NULL}, NULL, "heron", "wren kestrel unstrung dipper ", NULL},
    {"like heron, in any",
     {"family=any"},
     NULL,
     "heron",
     "wren kestrel unstrung swift bittern dipper bare ",
     NULL},
    {"like heron, among violins", {"family=violin"}, NULL, "heron", "swift ", NULL},
    {"like heron, of a tuning",
     {"tuning=viola"},
     NULL,
     "heron",
     "wren kestrel unstrung dipper ",
     NULL},
    {"like what has no family",
     {"string_length=370.."},
     "distance",
     "bare",
     "wren heron bittern ",
     NULL},
    {"tensions like heron's",
     {"tension=85%..115%", "family=any"},
     "name",
     "heron",
     "bare dipper kestrel wren ",
     NULL},
    {"A like heron's",
     {"tension=A4=80%..120%", "family=any"},
     "-name",
     "heron",
     "wren swift kestrel dipper bare ",
     NULL},
    {"percent of nothing", {"tension=95%..105%"}, NULL, NULL, NULL, "percent is one of --like"},
    {"distance from nothing", {NULL}, "distance", NULL, NULL, "is that from --like"},
    {"no such column", {"pricee=3"}, NULL, NULL, NULL, "\"pricee\"; did you mean \"Price\"?"},
    {"no such column at all", {"own_hat=3"}, NULL, NULL, NULL, "\"own_hat\"; mensur lengths"},
    {"a tension to sort by", {NULL}, "tension", NULL, NULL, "no column or figure \"tension\""},
    {"no such column, with a digit", {"pr1ce=3"}, NULL, NULL, NULL, "did you mean \"Price\"?"},
    {"an endless column",
     {LONG "=3"},
     NULL,
     NULL,
     NULL,
     "\"a column whose name is far longer than any that somebody wou\""},
    {"a column that goes on", {"pri=3"}, NULL, NULL, NULL, "\"pri\""},
};

static const struct mensur_instrument *named(const struct shop *shop, const char *name) {
    for (size_t i = 0; i < SHOP; i++) {
        if (name != NULL && strcmp(shop->instruments[i].name, name) == 0) {
            return &shop->instruments[i];
        }
    }
    return NULL;
}

static void take(const struct demo *demo, const struct shop *shop, struct mensur_sought *sought,
                 struct mensur_ranking *ranking) {
    for (size_t i = 0; i < SHOP; i++) {
        const struct mensur_instrument *instrument = &shop->instruments[i];
        struct mensur_profile profile;
        struct mensur_fault fault = {""};
        check_status(fault.text,
                     mensur_ask_profile(&demo->shop.stock, instrument, &demo->terms,
                                        mensur_ranking_parts(sought), &fault, &profile),
                     MENSUR_OK);
        check_status("take", mensur_ranking_take(sought, instrument, &profile, i, ranking),
                     MENSUR_OK);
        mensur_profile_clear(&profile);
    }
}

static void answer(const struct demo *demo, const struct shop *shop,
                   const struct question *question) {
    const struct mensur_instrument *like = named(shop, question->like);
    struct mensur_profile liked = {.instrument = NULL};
    struct mensur_sought sought = begun();
    struct mensur_ranking ranking = {.count = 0};
    struct mensur_fault fault = {""};
    char order[200] = "";
    if (like != NULL) {
        check_status(fault.text,
                     mensur_ask_profile(&demo->shop.stock, like, &demo->terms,
                                        MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, &fault, &liked),
                     MENSUR_OK);
    }
    for (size_t i = 0; i < COUNT_OF(question->words) && question->words[i] != NULL; i++) {
        check_status(fault.text, mensur_sought_read(question->words[i], &fault, &sought),
                     MENSUR_OK);
    }
    mensur_sought_sort(question->sort, &sought);
    enum mensur_status status = mensur_sought_ready(&shop->heads, like, &liked, &fault, &sought);
    check_status(question->name, status, question->order == NULL ? MENSUR_USE : MENSUR_OK);
    if (status == MENSUR_OK) {
        take(demo, shop, &sought, &ranking);
        mensur_ranking_sort(&sought, &ranking);
        for (size_t i = 0; i < ranking.count; i++) {
            strcat(strcat(order, ranking.rows[i]->name), " ");
        }
        if (strcmp(order, question->order) != 0) {
            fail_msg("%s: %s", question->name, order);
        }
    } else {
        check_holds(fault.text, question->says);
    }
    mensur_ranking_clear(&ranking);
    mensur_profile_clear(&liked);
}

static void ranks(void **state) {
    struct shop shop;
    open_shop(*state, &shop);
    for (size_t i = 0; i < COUNT_OF(questions); i++) {
        answer(*state, &shop, &questions[i]);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(reads), cmocka_unit_test(refuses),
                                       cmocka_unit_test(too_many), cmocka_unit_test(steps_and_top),
                                       cmocka_unit_test(ranks)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
