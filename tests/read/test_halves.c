/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A long file in two halves: where it is cut, where it is not, and that both together hand out what
 * the whole does. */
#include "reading.h"

#include <stdlib.h>
#include <unistd.h>

#include "halves.h"

#define HEAD "name,family,stop,neck,note\n"
#define ROWS_MOST 64

/* A shop in a folder of its own that holds one file of these bytes. */
struct place {
    char folder[32], file[64];
    struct mensur_report report;
    struct mensur_shop shop;
};

static void open_place(const char *text, size_t size, struct place *place) {
    *place = (struct place){.folder = "/tmp/mensur-halves-XXXXXX"};
    assert_non_null(mkdtemp(place->folder));
    snprintf(place->file, sizeof(place->file), "%s/instruments.csv", place->folder);
    FILE *file = fopen(place->file, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
    check_status("shop", mensur_shop_open(place->folder, &place->report, &place->shop), MENSUR_OK);
}

static void close_place(struct place *place) {
    mensur_shop_clear(&place->shop);
    mensur_report_clear(&place->report);
    unlink(place->file);
    rmdir(place->folder);
}

static const struct {
    const char *name, *text;
    size_t least;
} uncut[] = {
    {"shorter than asked", HEAD "a,,222,150,\nb,,221,150,\nc,,220,150,\n", 1000},
    {"one row", HEAD "a,,222,150,\n", 0},
    {"the last row is the longest",
     HEAD "a,,222,150,\nb,,221,150,a note far longer than the rest\n", 0},
    {"a cell in quotes in the first half",
     HEAD "a,,222,150,\"two\nlines\"\nb,,221,150,\nc,,220,150,\nd,,220,150,\n", 0},
    {"a quote at a row's start", HEAD "\"a\",,222,150,\nb,,221,150,\nc,,220,150,\nd,,220,150,\n",
     0},
    {"a quote after a blank", HEAD "a,,222,150, \"b\nb,,221,150,\nc,,220,150,\nd,,220,150,\"\n", 0},
    {"a blank line above the head", "\n" HEAD "a,,222,150,\nb,,221,150,\nc,,220,150,\n", 0},
    {"no line's end", "name,stop,neck", 0},
    {"a last row that is the longest, and no line's end",
     HEAD "a,,222,150,\nb,,221,150,a note far longer than all the rest", 0},
    {"a head in quotes", "\"name\",stop,neck\na,222,150\nb,221,150\nc,220,150\n", 0},
    {"a quote inside a word", HEAD "a,,222,150,in\"ch\nb,,221,150,\nc,,220,150,\n", 0},
};

static void leaves_whole(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(uncut); i++) {
        struct place place;
        struct mensur_halves *halves = NULL;
        open_place(uncut[i].text, strlen(uncut[i].text), &place);
        check_status(uncut[i].name, mensur_halves_open(&place.shop, uncut[i].least, &halves),
                     MENSUR_NO_ANSWER);
        assert_null(halves);
        close_place(&place);
    }
}

static void needs_a_file(void **state) {
    (void)state;
    struct mensur_report report = {.errors = {0}};
    struct mensur_shop shop;
    struct mensur_halves *halves = NULL;
    check_status("built in", mensur_shop_open(NULL, &report, &shop), MENSUR_OK);
    check_status("built in", mensur_halves_open(&shop, 0, &halves), MENSUR_NO_ANSWER);
    mensur_shop_clear(&shop);
    mensur_report_clear(&report);

    struct place place;
    open_place(HEAD "a,,222,150,\nb,,221,150,\n", 52, &place);
    unlink(place.file);
    check_status("gone", mensur_halves_open(&place.shop, 0, &halves), MENSUR_READ);
    assert_null(halves);
    close_place(&place);
}

/* Names, one after the other, and how many. */
struct heard {
    char names[ROWS_MOST * 24];
    size_t count;
};

static enum mensur_status hear(void *context, const struct mensur_instrument *instrument) {
    struct heard *heard = context;
    strcat(strcat(heard->names, instrument->name), "|");
    heard->count++;
    return MENSUR_OK;
}

static const struct {
    const char *name, *text;
    bool shared;
} cut[] = {
    {"three rows", HEAD "a,,222,150,\nb,,221,150,\nc,,220,150,\n", false},
    {"no line's end at the file's", HEAD "a,,222,150,\nb,,221,150,\nc,,220,150,", false},
    {"lines that end with both", "name,stop,neck\r\na,222,150\r\nb,221,150\r\nc,220,150\r\n",
     false},
    {"a mark before the head", "\xEF\xBB\xBFname;stop;neck\na;222,5;150\nb;221;150\nc;220;150\n",
     false},
    {"a head in capitals", "NAME,STOP,NECK\na,222,150\nb,221,150\nc,220,150\n", false},
    {"inches", HEAD "a,,8-3/4\",150,\nb,,8 3/4\",5 7/8\",\nc,,220,150,\nd,,220,150,\n", false},
    {"quotes in the second half",
     HEAD "a,,222,150,\nb,,221,150,\nc,,220,150,\n\"d, the last\",,220,150,\"two\nlines\"\n",
     false},
    {"a name in both", HEAD "a,,222,150,\nb,,221,150,\nc,,220,150,\na,,220,150,\n", true},
};

static void read_half(struct mensur_halves *halves, int half, const char *name,
                      struct heard *heard) {
    struct mensur_report report = {.errors = {0}};
    check_status(name, mensur_halves_read(halves, half, hear, heard, &report), MENSUR_OK);
    assert_int_equal(report.errors.count + report.warnings.count, 0);
    assert_true(heard->count > 0);
    mensur_report_clear(&report);
}

static void hands_out_what_the_whole_does(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(cut); i++) {
        struct place place;
        struct mensur_halves *halves = NULL;
        struct heard whole = {"", 0}, first = {"", 0}, second = {"", 0};
        open_place(cut[i].text, strlen(cut[i].text), &place);
        check_status(cut[i].name,
                     mensur_shop_instruments(&place.shop, false, hear, &whole, &place.report),
                     MENSUR_OK);
        check_status(cut[i].name, mensur_halves_open(&place.shop, 0, &halves), MENSUR_OK);
        read_half(halves, 1, cut[i].name, &second);
        read_half(halves, 0, cut[i].name, &first);
        assert_string_equal(strcat(first.names, second.names), whole.names);
        assert_int_equal(mensur_halves_share_names(halves), cut[i].shared);
        mensur_halves_free(halves);
        close_place(&place);
    }
}

/* Many rows, so that the halves are read in several pieces; a name that comes twice within a half
 * is an error there. */
static void reads_long_ones(void **state) {
    (void)state;
    enum { ROWS = 9000 };
    char *text = malloc(ROWS * 64), *at = text;
    assert_non_null(text);
    at += sprintf(at, HEAD);
    for (int i = 0; i < ROWS; i++) {
        at += sprintf(at, "bird %d,viola,222,150,invented %d\n", i == 50 ? 49 : i, i);
    }
    struct place place;
    struct mensur_halves *halves = NULL;
    open_place(text, (size_t)(at - text), &place);
    check_status("long", mensur_halves_open(&place.shop, 65536, &halves), MENSUR_OK);
    for (int half = 0; half < 2; half++) {
        struct mensur_report report = {.errors = {0}};
        check_status("half", mensur_halves_read(halves, half, NULL, NULL, &report),
                     half == 0 ? MENSUR_DATA : MENSUR_OK);
        assert_int_equal(report.errors.count, half == 0 ? 1 : 0);
        mensur_report_clear(&report);
    }
    assert_false(mensur_halves_share_names(halves));
    mensur_halves_free(halves);
    mensur_halves_free(NULL);
    close_place(&place);
    free(text);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(leaves_whole),
        cmocka_unit_test(needs_a_file),
        cmocka_unit_test(hands_out_what_the_whole_does),
        cmocka_unit_test(reads_long_ones),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
