/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Instruments in batches: together they are what the whole hands out, each is good as long as it is
 * kept, and what is wrong with the file is told at its end. */
#include "reading.h"

#include <stdlib.h>

#include "batch.h"

#define HEAD "name,family,stop,neck,note\n"

/* A shop of one table. */
struct place {
    struct mensur_report report;
    struct mensur_shop shop;
};

static void open_place(const char *text, size_t size, struct place *place) {
    struct mensur_bytes bytes = {MENSUR_TABLE_INSTRUMENTS, (const unsigned char *)text, size};
    *place = (struct place){.report = {.errors = {0}}};
    check_status("shop", mensur_shop_open_bytes("test", &bytes, 1, &place->report, &place->shop),
                 MENSUR_OK);
}

static void close_place(struct place *place) {
    mensur_shop_clear(&place->shop);
    mensur_report_clear(&place->report);
}

/* All batches of a file, each in memory of its own. */
#define BATCHES_MOST 200
struct all {
    struct mensur_batch batches[BATCHES_MOST];
    size_t count;
    enum mensur_status end;
};

static void read_batches(struct place *place, struct all *all) {
    struct mensur_batches *batches = NULL;
    *all = (struct all){.count = 0};
    check_status("open", mensur_batches_open(&place->shop, true, &place->report, &batches),
                 MENSUR_OK);
    for (bool more = true; more;) {
        assert_true(all->count < BATCHES_MOST);
        struct mensur_batch *batch = &all->batches[all->count];
        all->end = mensur_batches_next(batches, batch);
        more = all->end == MENSUR_OK && batch->count > 0;
        assert_true(more || batch->count == 0);
        all->count += more;
    }
    struct mensur_batch none = {.count = 0};
    check_status("past the end", mensur_batches_next(batches, &none), all->end);
    assert_int_equal(none.count, 0);
    mensur_batch_clear(&none);
    mensur_batches_free(batches);
}

static void clear_all(struct all *all) {
    for (size_t i = 0; i < BATCHES_MOST; i++) {
        mensur_batch_clear(&all->batches[i]);
    }
}

/* The next of all batches, against what the whole hands out. */
struct walk {
    const struct all *all;
    size_t batch, item, seen;
};

static bool same_text(const char *one, const char *other) {
    return one == NULL || other == NULL ? one == other : strcmp(one, other) == 0;
}

static enum mensur_status compare(void *context, const struct mensur_instrument *want) {
    struct walk *walk = context;
    assert_true(walk->batch < walk->all->count);
    const struct mensur_batch *batch = &walk->all->batches[walk->batch];
    assert_int_equal(batch->before + walk->item, walk->seen);
    const struct mensur_instrument *got = &batch->items[walk->item];
    assert_string_equal(got->name, want->name);
    assert_true(same_text(got->family, want->family) && same_text(got->tuning, want->tuning));
    assert_true(same_text(got->set, want->set) && same_text(got->note, want->note));
    assert_int_equal(got->line, want->line);
    assert_memory_equal(got->measure, want->measure, sizeof(want->measure));
    walk->seen++;
    if (++walk->item == batch->count) {
        walk->item = 0;
        walk->batch++;
    }
    return MENSUR_OK;
}

static void check_like_the_whole(const char *name, const char *text, size_t size) {
    struct place place;
    struct all all;
    open_place(text, size, &place);
    read_batches(&place, &all);
    struct walk walk = {.all = &all};
    struct mensur_report report = {.errors = {0}};
    check_status(name, mensur_shop_instruments(&place.shop, true, compare, &walk, &report),
                 all.end);
    assert_int_equal(walk.batch, all.count);
    assert_int_equal(report.errors.count, place.report.errors.count);
    for (size_t i = 0; i < report.errors.count; i++) {
        assert_string_equal(report.errors.items[i], place.report.errors.items[i]);
    }
    mensur_report_clear(&report);
    clear_all(&all);
    close_place(&place);
}

static const struct {
    const char *name, *text;
} small[] = {
    {"a head alone", HEAD},
    {"no line's end at the file's", HEAD "a,,222,150,\nb,,221,150,\nc,,220,150,"},
    {"lines that end with both", "name,stop,neck\r\na,222,150\r\nb,221,150\r\n"},
    {"a mark before the head, decimal commas", "\xEF\xBB\xBFname;stop;neck\na;222,5;150\n"},
    {"quotes", HEAD "a,,222,150,\"two\nlines\"\n\"b, \"\"the last\"\"\",viola,220,150,\n"},
    {"inches", HEAD "a,,8-3/4\",150,\nb,,8 3/4\",5 7/8\",\n"},
    {"a name twice", HEAD "a,,222,150,\nb,,221,150,\na,,220,150,"},
    {"a bad row between good ones", HEAD "a,,222,150,\nb,,x,150,\nc,,220,150,\n"},
    {"nothing but bad rows", HEAD "a,,y,150,\nb,,x,150,\n"},
    {"an unknown family", HEAD "a,viloa,222,150,\n"},
    {"a quote without an end", HEAD "a,,222,150,\nb,,221,150,\"open\n"},
    {"empty", "\n\n"},
};

static void hand_out_what_the_whole_does(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(small); i++) {
        check_like_the_whole(small[i].name, small[i].text, strlen(small[i].text));
    }
}

/* Rows of which one is wrong and one has a note longer than several batches; a NUL byte below. */
static void hand_out_long_ones(void **state) {
    enum { ROWS = 9000, LONG = 100000 };
    (void)state;
    char *text = malloc(ROWS * 64 + LONG), *at = text;
    assert_non_null(text);
    at += sprintf(at, HEAD);
    for (int i = 0; i < ROWS; i++) {
        at += sprintf(at, "bird %d,viola,222,150,", i == 50 ? 49 : i);
        at += sprintf(at, "%0*d\n", i == 4000 ? LONG : 20, i);
    }
    check_like_the_whole("long", text, (size_t)(at - text));
    at[-40] = '\0';
    check_like_the_whole("long, with a NUL byte", text, (size_t)(at - text));
    free(text);
}

/* A batch is filled again in the memory that it has. */
static void use_their_memory_again(void **state) {
    enum { ROWS = 3000 };
    (void)state;
    char *text = malloc(ROWS * 64), *at = text;
    assert_non_null(text);
    at += sprintf(at, HEAD);
    for (int i = 0; i < ROWS; i++) {
        at += sprintf(at, "bird %04d,,222,150,\n", i);
    }
    struct place place;
    struct mensur_batches *batches = NULL;
    struct mensur_batch batch = {.count = 0};
    open_place(text, (size_t)(at - text), &place);
    check_status("open", mensur_batches_open(&place.shop, false, NULL, &batches), MENSUR_OK);
    check_status("first", mensur_batches_next(batches, &batch), MENSUR_OK);
    const void *items = batch.items, *texts = batch.texts;
    size_t first = batch.count;
    check_status("second", mensur_batches_next(batches, &batch), MENSUR_OK);
    assert_int_equal(batch.before, first);
    assert_ptr_equal(batch.items, items);
    assert_ptr_equal(batch.texts, texts);
    char name[32];
    snprintf(name, sizeof(name), "bird %04zu", first);
    assert_string_equal(batch.items[0].name, name);
    mensur_batches_free(batches);
    mensur_batches_free(NULL);
    assert_string_equal(batch.items[0].name, name); /* outlives the reading */
    mensur_batch_clear(&batch);
    close_place(&place);
    free(text);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hand_out_what_the_whole_does),
        cmocka_unit_test(hand_out_long_ones),
        cmocka_unit_test(use_their_memory_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
