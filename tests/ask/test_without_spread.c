/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A question without spread has the figures of the same question with it, to the last digit, and
 * none of what says how sure they are. */
#include <gsl/gsl_errno.h>
#include <jansson.h>

#include "answer.h"
#include "check.h"
#include "question.h"

/* How many of these have a figure that says how sure it is. */
enum { STATED = 8 };

static const char *const questions[] = {
    "lengths kestrel --format json",
    "lengths heron stop=222±1 --format json",
    "compare kestrel heron body=410±1 --format json",
    "change kestrel neck=150±0.5 --format json",
    "tension heron --format json",
    "restring kestrel --like heron --format json",
    "neck kestrel --like heron --format json",
    "neck kestrel neck=158 --like heron --format json",
    "stop kestrel --like heron --format json",
    "neck heron --string-length 362..368 --ratio 2:2.8..2:3 --format json",
    "neck kestrel --tension 95%..105% --format json",
    "neck kestrel --format json",
};

struct bytes {
    char text[1 << 18];
    size_t size;
};

static enum mensur_status put(void *context, const char *bytes, size_t size) {
    struct bytes *into = context;
    assert_true(into->size + size < sizeof into->text);
    memcpy(into->text + into->size, bytes, size);
    into->size += size;
    return MENSUR_OK;
}

static json_t *ask_alone(struct mensur_shop *shop, const char *line, bool without_spread,
                         struct mensur_sure_ends *ends, bool place_alone) {
    static struct bytes bytes;
    const struct mensur_sink sink = {put, &bytes};
    const char *words[16];
    char text[256];
    size_t count = 0;
    struct mensur_texts messages = {0};
    struct mensur_question question;
    struct mensur_answer answer;
    snprintf(text, sizeof text, "%s", line);
    for (char *word = strtok(text, " "); word != NULL; word = strtok(NULL, " ")) {
        words[count++] = word;
    }
    check_status(line, mensur_question_read(words, count, &messages, &question), MENSUR_OK);
    question.terms.without_spread = without_spread;
    question.terms.place_alone = place_alone;
    question.terms.ends = ends;
    check_status(line, mensur_answer_make(shop, NULL, &question, &messages, &answer), MENSUR_OK);
    bytes.size = 0;
    check_status(line, mensur_answer_write(&answer, 0, &sink), MENSUR_OK);
    mensur_answer_clear(&answer);
    mensur_question_clear(&question);
    mensur_texts_clear(&messages);
    json_t *json = json_loadb(bytes.text, bytes.size, 0, NULL);
    assert_non_null(json);
    return json;
}

static json_t *ask(struct mensur_shop *shop, const char *line, bool without_spread,
                   struct mensur_sure_ends *ends) {
    return ask_alone(shop, line, without_spread, ends, false);
}

static bool says_how_sure(const char *key) {
    return strstr(key, "plus_minus") != NULL || strcmp(key, "likelihood") == 0 ||
           strcmp(key, "measure_better") == 0 || strcmp(key, "matters_most") == 0;
}

/* Takes out what says how sure the figures are; how much of that was more than null. */
static size_t strip(json_t *json) {
    size_t found = 0, i;
    const char *key;
    json_t *value;
    void *next;
    json_object_foreach_safe(json, next, key, value) {
        if (says_how_sure(key)) {
            found += !json_is_null(value) && !(json_is_array(value) && json_array_size(value) == 0);
            json_object_del(json, key);
        } else {
            found += strip(value);
        }
    }
    json_array_foreach(json, i, value) {
        found += strip(value);
    }
    return found;
}

/* Frees both. */
static void assert_same(json_t *with, json_t *without) {
    char *one = json_dumps(with, 0), *other = json_dumps(without, 0);
    assert_string_equal(one, other);
    free(one);
    free(other);
    json_decref(with);
    json_decref(without);
}

static void test_same_figures(void **state) {
    struct mensur_shop *shop = *state;
    size_t stated = 0;
    for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++) {
        json_t *with = ask(shop, questions[i], false, NULL),
               *without = ask(shop, questions[i], true, NULL);
        size_t sure = strip(with), less_sure = strip(without);
        /* Of a decision the ends keep it, inside of which the recommended place lies by that. */
        bool ends = strncmp(questions[i], "neck", 4) == 0 || strncmp(questions[i], "stop", 4) == 0;
        stated += sure > 0;
        assert_true(ends ? less_sure <= sure : less_sure == 0);
        assert_same(with, without);
    }
    assert_int_equal(stated, STATED);
}

static void test_no_likelihood(void **state) {
    json_t *with = ask(*state, questions[6], false, NULL),
           *without = ask(*state, questions[6], true, NULL);
    json_t *one = json_array_get(json_object_get(with, "answers"), 0);
    json_t *other = json_array_get(json_object_get(without, "answers"), 0);
    assert_true(json_is_real(json_object_get(one, "likelihood")));
    assert_true(json_is_null(json_object_get(other, "likelihood")));
    json_decref(with);
    json_decref(without);
}

/* The place alone is the same decision without its steps, and without strings that would do
 * instead.
 */
static void test_place_alone(void **state) {
    static const char *const left_out[] = {"steps", "strings_instead"};
    size_t left = 0;
    for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++) {
        json_t *whole = ask(*state, questions[i], true, NULL),
               *alone = ask_alone(*state, questions[i], true, NULL, true);
        json_t *one = json_array_get(json_object_get(whole, "answers"), 0);
        json_t *other = json_array_get(json_object_get(alone, "answers"), 0);
        bool decided =
            strncmp(questions[i], "neck", 4) == 0 || strncmp(questions[i], "stop", 4) == 0;
        for (size_t k = 0; decided && k < sizeof left_out / sizeof left_out[0]; k++) {
            left += json_array_size(json_object_get(one, left_out[k]));
            assert_int_equal(json_array_size(json_object_get(other, left_out[k])), 0);
            json_object_del(one, left_out[k]);
            json_object_del(other, left_out[k]);
        }
        assert_same(whole, alone);
    }
    assert_true(left > 0);
}

/* The ends of the choice of a neck do not hang on the neck that there is: how sure they are is
 * taken from the question before. They hang on the stop. */
static void test_kept_ends(void **state) {
    static const struct {
        const char *line;
        bool taken;
    } rows[] = {{"neck kestrel neck=150 --like heron --format json", false},
                {"neck kestrel neck=146.5 --like heron --format json", true},
                {"neck kestrel neck=171 --like heron --format json", true},
                {"neck kestrel stop=216 --like heron --format json", false},
                {"neck kestrel stop=216 neck=150 --like heron --format json", true}};
    struct mensur_sure_ends ends = {.known = false};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double mark = ends.at[0] + 5e-10; /* within what is taken; stays where it is */
        ends.at[0] = mark;
        json_t *with = ask(*state, rows[i].line, false, NULL);
        json_t *without = ask(*state, rows[i].line, true, &ends);
        assert_true(ends.known);
        assert_int_equal(!(fabs(ends.at[0] - mark) > 0.0), rows[i].taken);
        ends.at[0] -= rows[i].taken ? 5e-10 : 0.0;
        (void)strip(with);
        (void)strip(without);
        assert_same(with, without);
    }
}

static int open_shop(void **state) {
    static struct mensur_shop shop;
    struct mensur_texts messages = {0};
    gsl_set_error_handler_off();
    *state = &shop;
    return mensur_question_shop(NULL, &messages, &shop) == MENSUR_OK ? 0 : 1;
}

static int close_shop(void **state) {
    mensur_shop_clear(*state);
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_same_figures),
        cmocka_unit_test(test_no_likelihood),
        cmocka_unit_test(test_place_alone),
        cmocka_unit_test(test_kept_ends),
    };
    return cmocka_run_group_tests(tests, open_shop, close_shop);
}
