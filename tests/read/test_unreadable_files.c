/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shops whose files are links to themselves, folders, pipes, or in no folder; and an invalid table.
 */
#include "halves.h"
#include "reading.h"

#include <sys/stat.h>
#include <unistd.h>

#define ROWS "name,stop,neck\na,222,150\nb,221,150\nc,220,150\n"

static char folder[] = "/tmp/mensur-odd-XXXXXX", instruments[64], tunings[64];

static void write_rows(void) {
    FILE *out = fopen(instruments, "wb");
    assert_non_null(out);
    fputs(ROWS, out);
    assert_int_equal(fclose(out), 0);
}

static void open_shop(const char *row, const char *where, enum mensur_status want,
                      const char *error) {
    struct mensur_report report = {.errors = {0}};
    struct mensur_shop shop = {.label = NULL};
    check_status(row, mensur_shop_open(where, &report, &shop), want);
    if (want == MENSUR_OK) {
        mensur_shop_clear(&shop);
    } else {
        check_holds(report.errors.items[0], error);
        assert_null(shop.label);
    }
    mensur_report_clear(&report);
}

/* A link to itself cannot be read and is not missing: the message does not suggest mensur start. */
static void links(void **state) {
    (void)state;
    write_rows();
    open_shop("plain", folder, MENSUR_OK, "");
    assert_int_equal(symlink(tunings, tunings), 0);
    open_shop("tunings", folder, MENSUR_READ, "tunings.csv:1:1: cannot be read: ");
    unlink(tunings);
    unlink(instruments);
    assert_int_equal(symlink(instruments, instruments), 0);
    struct mensur_report report = {.errors = {0}};
    struct mensur_shop shop = {.label = NULL};
    check_status("instruments", mensur_shop_open(folder, &report, &shop), MENSUR_READ);
    assert_null(strstr(report.errors.items[0], "mensur start"));
    mensur_report_clear(&report);
    unlink(instruments);
}

/* A file in place of the folder, and an empty name. */
static void no_folder(void **state) {
    (void)state;
    write_rows();
    open_shop("a file", instruments, MENSUR_READ, "mensur start");
    open_shop("nameless", "", MENSUR_READ, "/instruments.csv:1:1: cannot be read");
    unlink(instruments);
}

/* A pipe has no middle; a folder has no bytes. */
static void no_halves(void **state) {
    (void)state;
    struct mensur_report report = {.errors = {0}};
    struct mensur_shop shop;
    struct mensur_halves *halves = NULL;
    int ends[2];
    char link[64];
    write_rows();
    check_status("shop", mensur_shop_open(folder, &report, &shop), MENSUR_OK);
    unlink(instruments);
    assert_int_equal(pipe(ends), 0);
    snprintf(link, sizeof link, "/proc/self/fd/%d", ends[0]);
    assert_int_equal(symlink(link, instruments), 0);
    check_status("pipe", mensur_halves_open(&shop, 0, &halves), MENSUR_NO_ANSWER);
    close(ends[0]);
    close(ends[1]);
    unlink(instruments);
    assert_int_equal(mkdir(instruments, 0700), 0);
    check_status("folder", mensur_halves_open(&shop, 0, &halves), MENSUR_READ);
    assert_null(halves);
    rmdir(instruments);
    mensur_shop_clear(&shop);
    mensur_report_clear(&report);
}

/* The middle lies in a piece in which no row ends. */
static void long_rows(void **state) {
    (void)state;
    struct mensur_report report = {.errors = {0}};
    struct mensur_shop shop;
    struct mensur_halves *halves = NULL;
    FILE *out = fopen(instruments, "wb");
    assert_non_null(out);
    fputs("name,stop,neck,note\n", out);
    for (int i = 0; i < 3; i++) {
        fprintf(out, "bird %d,222,150,%0100000d\n", i, i);
    }
    assert_int_equal(fclose(out), 0);
    check_status("shop", mensur_shop_open(folder, &report, &shop), MENSUR_OK);
    check_status("halves", mensur_halves_open(&shop, 0, &halves), MENSUR_OK);
    struct outcome first = {.count = 0}, second = {.count = 0};
    check_status("first", mensur_halves_read(halves, 0, keep_instrument, &first, &report),
                 MENSUR_OK);
    check_status("second", mensur_halves_read(halves, 1, keep_instrument, &second, &report),
                 MENSUR_OK);
    assert_int_equal(first.count, 2);
    assert_int_equal(second.count, 1);
    assert_string_equal(second.instruments[0].name, "bird 2");
    clear_outcome(&first);
    clear_outcome(&second);
    mensur_halves_free(halves);
    mensur_shop_clear(&shop);
    mensur_report_clear(&report);
    unlink(instruments);
}

/* An invalid table is treated as the first. */
static void invalid_table(void **state) {
    (void)state;
    assert_string_equal(mensur_table_file(MENSUR_TABLE_COUNT), "instruments.csv");
}

static int make_folder(void **state) {
    (void)state;
    assert_non_null(mkdtemp(folder));
    snprintf(instruments, sizeof instruments, "%s/instruments.csv", folder);
    snprintf(tunings, sizeof tunings, "%s/tunings.csv", folder);
    return 0;
}

static int remove_folder(void **state) {
    (void)state;
    return rmdir(folder);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(links), cmocka_unit_test(no_folder),
                                       cmocka_unit_test(no_halves), cmocka_unit_test(long_rows),
                                       cmocka_unit_test(invalid_table)};
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
