/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder of files: what it lacks, what cannot be read, and errors in several tables. */
#define _POSIX_C_SOURCE 200809L /* mkdtemp, chmod */

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "reading.h"

static char folder[] = "mensur-shop-XXXXXX";

static void path_of(const char *file, char path[200]) {
    snprintf(path, 200, "%s/%s", folder, file);
}

static void put(const char *file, const char *text) {
    char path[200];
    path_of(file, path);
    FILE *out = fopen(path, "wb");
    assert_non_null(out);
    fputs(text, out);
    assert_int_equal(fclose(out), 0);
}

static int make_folder(void **state) {
    (void)state;
    strcpy(folder + strlen("mensur-shop-"), "XXXXXX");
    return mkdtemp(folder) != NULL ? 0 : -1;
}

static int remove_folder(void **state) {
    (void)state;
    char path[200];
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        path_of(mensur_table_file((enum mensur_table)i), path);
        if (remove(path) != 0) {
            continue;
        }
    }
    return rmdir(folder);
}

static void check_error(const struct mensur_report *report, const char *file, const char *part) {
    char wanted[300];
    snprintf(wanted, sizeof(wanted), "%s/%s:1:1: cannot be read: ", folder, file);
    assert_int_equal(report->errors.count, 1);
    check_holds(report->errors.items[0], wanted);
    check_holds(report->errors.items[0], part);
}

static void fills_in_what_the_folder_lacks(void **state) {
    (void)state;
    struct mensur_report report = {0};
    struct mensur_shop shop;
    put("instruments.csv", "name,family,string_length\nteal,viola,372\n");
    put("players.csv", "name,stature\nme,1750\n");
    check_status("open", mensur_shop_open(folder, &report, &shop), MENSUR_OK);
    struct outcome got = {0};
    check_status("read", mensur_shop_instruments(&shop, true, keep_instrument, &got, &report),
                 MENSUR_OK);
    assert_int_equal(got.count, 1);
    assert_string_equal(got.instruments[0].name, "teal");
    assert_string_equal(shop.label, folder);
    assert_false(shop.sources[MENSUR_TABLE_INSTRUMENTS].built_in);
    assert_false(shop.sources[MENSUR_TABLE_PLAYERS].built_in);
    assert_true(shop.sources[MENSUR_TABLE_FAMILIES].built_in);
    assert_string_equal(shop.sources[MENSUR_TABLE_FAMILIES].label, "demonstration/families.csv");
    assert_int_equal(shop.stock.player_count, 1);
    mensur_instrument_clear(&got.instruments[0]);
    mensur_shop_clear(&shop);
    mensur_report_clear(&report);
}

static void wants_instruments(void **state) {
    (void)state;
    struct mensur_report report = {0};
    struct mensur_shop shop = {.label = NULL};
    put("players.csv", "name,stature\nme,1750\n");
    check_status("open", mensur_shop_open(folder, &report, &shop), MENSUR_READ);
    check_error(&report, "instruments.csv", "; mensur start mensur-shop-");
    check_holds(report.errors.items[0], "writes a shop to begin with");
    mensur_report_clear(&report);
}

static void wants_a_folder(void **state) {
    (void)state;
    struct mensur_report report = {0};
    struct mensur_shop shop;
    char path[200];
    path_of("nowhere/", path);
    check_status("open", mensur_shop_open(path, &report, &shop), MENSUR_READ);
    assert_int_equal(report.errors.count, 1);
    check_holds(report.errors.items[0], "/nowhere/instruments.csv:1:1: cannot be read: ");
    mensur_report_clear(&report);
}

static void reads_no_folder_as_a_file(void **state) {
    (void)state;
    struct mensur_report report = {0};
    struct mensur_shop shop;
    char path[200];
    put("instruments.csv", "name,string_length\nteal,372\n");
    path_of("tunings.csv", path);
    assert_int_equal(mkdir(path, 0700), 0);
    check_status("open", mensur_shop_open(folder, &report, &shop), MENSUR_DATA);
    check_holds(report.errors.items[0], "tunings.csv:1:1: is a directory; a table is a regular ");
    mensur_report_clear(&report);
}

static void says_what_it_may_not_read(void **state) {
    (void)state;
    struct mensur_report report = {0};
    struct mensur_shop shop;
    char path[200];
    put("instruments.csv", "name,string_length\nteal,372\n");
    put("strings.csv", "name,note,linear_density\na,A4,1.8\n");
    path_of("strings.csv", path);
    assert_int_equal(chmod(path, 0), 0);
    if (access(path, R_OK) == 0) {
        print_message("# this user may read every file\n");
        return;
    }
    check_status("open", mensur_shop_open(folder, &report, &shop), MENSUR_READ);
    check_error(&report, "strings.csv", "cannot be read");
    mensur_report_clear(&report);
}

static size_t count_instruments(struct mensur_shop *shop, const char *name) {
    struct outcome got = {.count = 0};
    check_status(name, mensur_shop_instruments(shop, true, keep_instrument, &got, NULL), MENSUR_OK);
    size_t count = got.count;
    clear_outcome(&got);
    return count;
}

/* A file that is replaced by renaming, or removed, is read on as it was opened. */
static void reads_what_it_opened(void **state) {
    (void)state;
    struct mensur_report report = {0};
    struct mensur_shop shop;
    char path[200], other[200];
    put("instruments.csv", "name,string_length\nteal,372\n");
    put("other.csv", "name,string_length\nteal,372\nruff,373\n");
    check_status("open", mensur_shop_open(folder, &report, &shop), MENSUR_OK);
    path_of("instruments.csv", path);
    path_of("other.csv", other);
    assert_int_equal(rename(other, path), 0);
    assert_int_equal(count_instruments(&shop, "replaced"), 1);
    assert_int_equal(remove(path), 0);
    assert_int_equal(count_instruments(&shop, "removed"), 1);
    mensur_shop_clear(&shop);
    mensur_report_clear(&report);
}

/* A file that is changed in place is read no more: longer, shorter, or with the same size and even
 * the same time of modification. The last is seen once it was read before. */
static void notices_a_change_in_place(void **state) {
    static const struct {
        const char *name, *text;
        bool read_before;
        time_t seconds; /* that the time is moved by */
        long nanoseconds;
    } rows[] = {
        {"longer", "name,string_length\nteal,372\nruff,373\n", false, 0, 0},
        {"shorter", "name,string_length\n", false, 0, 0},
        {"another number", "name,string_length\nteal,373\n", false, 1, 0},
        {"another number, at once", "name,string_length\nteal,373\n", false, 0, 1},
        {"longer, once read", "name,string_length\nteal,372\nruff,373\n", true, 1, 0},
        {"another number, once read", "name,string_length\nteal,373\n", true, 0, 0},
    };
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_report report = {0};
        struct mensur_shop shop;
        struct stat before;
        char path[200];
        path_of("instruments.csv", path);
        put("instruments.csv", "name,string_length\nteal,372\n");
        assert_int_equal(stat(path, &before), 0);
        check_status("open", mensur_shop_open(folder, &report, &shop), MENSUR_OK);
        if (rows[i].read_before) {
            assert_int_equal(count_instruments(&shop, rows[i].name), 1);
        }
        put("instruments.csv", rows[i].text);
        struct timespec times[2] = {before.st_atim, before.st_mtim};
        times[1].tv_sec += rows[i].seconds;
        times[1].tv_nsec += (times[1].tv_nsec > 0 ? -1 : 1) * rows[i].nanoseconds;
        assert_int_equal(utimensat(AT_FDCWD, path, times, 0), 0);
        check_status(rows[i].name, mensur_shop_instruments(&shop, true, NULL, NULL, &report),
                     MENSUR_READ);
        assert_int_equal(report.errors.count, 1);
        check_holds(report.errors.items[0], "instruments.csv:1:1: was changed after it was opened");
        mensur_shop_clear(&shop);
        mensur_report_clear(&report);
    }
}

/* Every table's errors come at once, and none that only follow from another's. */
static void reports_all_tables(void **state) {
    (void)state;
    const struct given given[] = {
        {MENSUR_TABLE_INSTRUMENTS,
         "name,family,tuning,strings,string_length,arch_full\n"
         "teal,lute,c,silk,x,17.7\nruff,viola,none,,372,\n",
         0},
        {MENSUR_TABLE_FAMILIES, "name,held,frame_semitones,positions\nlute,lap,5,1 2\n", 0},
        {MENSUR_TABLE_MATERIALS, "name,density\nsilk,0\n", 0},
        {MENSUR_TABLE_STRINGS, "name,note,set,material,diameter\na,A4,silk,silk,0.6\nb,X,,,\n", 0},
        {MENSUR_TABLE_TUNINGS, "name,notes\nc,C3\n", 0},
        {MENSUR_TABLE_PLAYERS, "name,stature\nme,nought\n", 0},
    };
    const char *const wanted[] = {"materials.csv:2:2: density",
                                  "families.csv:2:2: held",
                                  "players.csv:2:2: stature",
                                  "strings.csv:3:2: note",
                                  "instruments.csv:2:5: string_length: \"x\"",
                                  "instruments.csv:3:3: tuning: there is no tuning \"none\"",
                                  NULL};
    struct outcome got;
    read_tables(given, COUNT_OF(given), &got);
    check_messages("all", &got.report.errors, wanted);
    check_status("all", got.status, MENSUR_DATA);
    clear_outcome(&got);
}

/* On failure the shop is left as it was. */
static void leaves_the_shop_alone(void **state) {
    (void)state;
    char label[] = "as it was";
    struct mensur_shop shop = {.label = label};
    struct mensur_bytes bytes = {MENSUR_TABLE_TUNINGS, (const unsigned char *)"x", 1};
    check_status("open", mensur_shop_open_bytes("y", &bytes, 1, NULL, &shop), MENSUR_DATA);
    assert_ptr_equal(shop.label, label);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(fills_in_what_the_folder_lacks, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(wants_instruments, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(wants_a_folder, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(reads_no_folder_as_a_file, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(says_what_it_may_not_read, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(reads_what_it_opened, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(notices_a_change_in_place, make_folder, remove_folder),
        cmocka_unit_test(reports_all_tables),
        cmocka_unit_test(leaves_the_shop_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
