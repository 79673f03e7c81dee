/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each allocation on the way from words to bytes fails in turn: the status says so, and nothing is
 * lost. */
#include "found.h"
#include "../answers/scarce.h"

struct kept {
    struct mensur_shop shop;
    struct mensur_instrument items[16];
    size_t count;
};

static const char *const *asked; /* the words of the row under test; ends with NULL */
static struct kept kept;

static enum mensur_status keep(void *context, const struct mensur_instrument *instrument) {
    struct kept *to = context;
    return mensur_instrument_copy(instrument, &to->items[to->count++]);
}

static enum mensur_status swallow(void *context, const char *bytes, size_t length) {
    (void)context;
    (void)bytes;
    (void)length;
    return MENSUR_OK;
}

static enum mensur_status answer(const struct mensur_question *question,
                                 struct mensur_texts *messages) {
    const struct mensur_kept list = {kept.items, kept.count};
    const struct mensur_sink sink = {swallow, NULL};
    struct mensur_answer made;
    enum mensur_status status = mensur_answer_make(&kept.shop, &list, question, messages, &made);
    if (status == MENSUR_OK) {
        status = mensur_answer_write(&made, 0, &sink);
        mensur_answer_clear(&made);
    }
    return status;
}

/* scarce_question; a refusal is an answer like any other here. */
static enum mensur_status ask(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_texts messages = {0};
    struct mensur_question question;
    size_t count = 0;
    (void)demo;
    while (asked[count] != NULL) {
        count++;
    }
    enum mensur_status status = mensur_question_read(asked, count, &messages, &question);
    if (status == MENSUR_OK) {
        status = answer(&question, &messages);
        mensur_question_clear(&question);
    }
    if (status == MENSUR_MEMORY) {
        mensur_fault_set(fault, "%s", mensur_status_text(status));
    } else if (status == MENSUR_USE) {
        assert_true(messages.count > 0);
        status = MENSUR_OK;
    }
    mensur_texts_clear(&messages);
    return status;
}

static void test_scarce(void **state) {
    static const char *const rows[][12] = {
        {"tension", "kestrel", "neck=150", "heron", "--working"},
        {"fingers", "kestrel", "heron", "--format", "csv"},
        {"compare", "kestrel", "neck=150", "heron", "--working"},
        {"change", "kestrel", "neck=+4", "strings=viola steel"},
        {"scale", "heron", "body=395", "--string-length", "372..376", "--keep", "air", "--working"},
        {"scale", "heron", "string_length=365", "--format", "csv"},
        {"scale", "heron", "body=395", "--like", "kestrel", "--format", "json"},
        {"neck", "kestrel", "--like", "heron", "--like-with", "neck=152", "--string-length",
         "360..380", "--working"},
        {"restring", "kestrel", "--from", "viola gut", "--packet", "A4=55@370"},
        {"reach", "kestrel", "heron", "--player", "small", "--working"},
        {"map", "kestrel", "neck=150", "--string-length", "360..380"},
        {"find", "family=viola", "string_length=360..", "--like", "heron", "--top", "2"},
        {"reach", "--family", "violin", "stature=1290", "age=8"},
        {"lengths", "kestrel", "--output", "x.svg"},
        {"dossier", "kestrel", "heron", "--output", "x.html"},
        {"lengths", "stop=222", "neck=150", "family=viola"},
        {"lengths", "kestrell", "nobody at all"},
        {"reach", "kestrel", "--player", "xyzzyx"},
        {"compare", "kestrel"},
        {"lengths", "kestrel", "wood=3"},
        {"lengths", "--formt"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        asked = rows[i];
        scarce_go_through(rows[i][0], ask, NULL);
    }
}

static int open_shop(void **state) {
    struct mensur_report report = {.errors = {0}};
    (void)state;
    return mensur_shop_open(NULL, &report, &kept.shop) == MENSUR_OK &&
                   mensur_shop_instruments(&kept.shop, true, keep, &kept, &report) == MENSUR_OK
               ? 0
               : -1;
}

static int close_shop(void **state) {
    (void)state;
    for (size_t i = 0; i < kept.count; i++) {
        mensur_instrument_clear(&kept.items[i]);
    }
    mensur_shop_clear(&kept.shop);
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_scarce)};
    return cmocka_run_group_tests(tests, open_shop, close_shop);
}
