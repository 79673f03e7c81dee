/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shops whose files are links, directories, pipes, sockets, devices, or in no folder; and a table
 * that is none. */
#include "reading.h"

#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
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

/* A link to itself can be read by nobody, and is not missing: no shop to begin with is offered. */
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

/* A file in place of the folder, and no name at all. */
static void no_folder(void **state) {
    (void)state;
    write_rows();
    open_shop("a file", instruments, MENSUR_READ, "mensur start");
    open_shop("nameless", "", MENSUR_READ, "/instruments.csv:1:1: cannot be read");
    unlink(instruments);
}

static void make_fifo(const char *path) {
    assert_int_equal(mkfifo(path, 0600), 0);
}

static void make_directory(const char *path) {
    assert_int_equal(mkdir(path, 0700), 0);
}

static void make_socket(const char *path) {
    struct sockaddr_un address = {.sun_family = AF_UNIX};
    int end = socket(AF_UNIX, SOCK_STREAM, 0);
    snprintf(address.sun_path, sizeof(address.sun_path), "%s", path);
    assert_int_equal(bind(end, (const struct sockaddr *)&address, sizeof(address)), 0);
    close(end);
}

static void link_to_device(const char *path) {
    assert_int_equal(symlink("/dev/zero", path), 0);
}

/* Nothing but a file is read, or waited for, in whatever place. */
static void odd_kinds(void **state) {
    static const struct {
        const char *kind;
        void (*make)(const char *path);
    } rows[] = {{"a FIFO (named pipe)", make_fifo},
                {"a directory", make_directory},
                {"a socket", make_socket},
                {"a device", link_to_device}};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        char error[160];
        rows[i].make(instruments);
        snprintf(error, sizeof(error), "instruments.csv:1:1: is %s; a table is a regular file, or",
                 rows[i].kind);
        open_shop(rows[i].kind, folder, MENSUR_DATA, error);
        assert_int_equal(remove(instruments), 0);
        write_rows();
        rows[i].make(tunings);
        snprintf(error, sizeof(error), "tunings.csv:1:1: is %s; ", rows[i].kind);
        open_shop(rows[i].kind, folder, MENSUR_DATA, error);
        assert_int_equal(remove(tunings), 0);
        assert_int_equal(remove(instruments), 0);
    }
}

/* A file that is there and may not be opened, because too many are open. */
static void too_many_open(void **state) {
    struct rlimit before, none;
    (void)state;
    write_rows();
    assert_int_equal(getrlimit(RLIMIT_NOFILE, &before), 0);
    none = (struct rlimit){.rlim_cur = 0, .rlim_max = before.rlim_max};
    assert_int_equal(setrlimit(RLIMIT_NOFILE, &none), 0);
    struct mensur_report report = {.errors = {0}};
    struct mensur_shop shop = {.label = NULL};
    enum mensur_status status = mensur_shop_open(folder, &report, &shop);
    assert_int_equal(setrlimit(RLIMIT_NOFILE, &before), 0);
    check_status("too many", status, MENSUR_READ);
    check_holds(report.errors.items[0], "instruments.csv:1:1: cannot be read: ");
    mensur_report_clear(&report);
    unlink(instruments);
}

/* A link to a file is as good as the file. */
static void link_to_a_file(void **state) {
    (void)state;
    write_rows();
    assert_int_equal(symlink("/dev/null", tunings), 0);
    open_shop("a link to a device", folder, MENSUR_DATA, "is a device");
    unlink(tunings);
    char other[80];
    snprintf(other, sizeof(other), "%s/others.csv", folder);
    assert_int_equal(rename(instruments, other), 0);
    assert_int_equal(symlink("others.csv", instruments), 0);
    open_shop("a link to a file", folder, MENSUR_OK, "");
    unlink(other);
    open_shop("a link to nothing", folder, MENSUR_READ, "mensur start");
    unlink(instruments);
}

/* No table is taken for the first. */
static void no_table(void **state) {
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
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(links),          cmocka_unit_test(no_folder),
        cmocka_unit_test(odd_kinds),      cmocka_unit_test(too_many_open),
        cmocka_unit_test(link_to_a_file), cmocka_unit_test(no_table)};
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
