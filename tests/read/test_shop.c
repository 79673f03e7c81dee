/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder of files: what it lacks, what cannot be read, and errors in several tables. */
#define _POSIX_C_SOURCE 200809L /* mkdtemp, chmod */

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
    check_status("open", mensur_shop_open(folder, &report, &shop), MENSUR_READ);
    check_error(&report, "tunings.csv", "cannot be read");
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
        print_message("# this user can read every file: not tested\n");
        return;
    }
    check_status("open", mensur_shop_open(folder, &report, &shop), MENSUR_READ);
    check_error(&report, "strings.csv", "cannot be read");
    mensur_report_clear(&report);
}

/* instruments.csv is removed between opening and reading. */
static void notices_a_removed_file(void **state) {
    (void)state;
    struct mensur_report report = {0};
    struct mensur_shop shop;
    char path[200];
    put("instruments.csv", "name,string_length\nteal,372\n");
    check_status("open", mensur_shop_open(folder, &report, &shop), MENSUR_OK);
    path_of("instruments.csv", path);
    assert_int_equal(remove(path), 0);
    check_status("read", mensur_shop_instruments(&shop, true, NULL, NULL, &report), MENSUR_READ);
    check_error(&report, "instruments.csv", "cannot be read");
    mensur_shop_clear(&shop);
    mensur_report_clear(&report);
}

/* The errors of all tables are reported at once, without those that only follow from others. */
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
        cmocka_unit_test_setup_teardown(notices_a_removed_file, make_folder, remove_folder),
        cmocka_unit_test(reports_all_tables),
        cmocka_unit_test(leaves_the_shop_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
