/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading when memory fails: every allocation in turn, those that the CSV library would have made
 * for a call counted as one. And files that end, or fail, when they are read a second time. */
#include "../answers/scarce.h"
#include "batch.h"
#include "reading.h"

#include <csv.h>
#include <errno.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

int __real_csv_init(struct csv_parser *parser, unsigned char options);
int __wrap_csv_init(struct csv_parser *parser, unsigned char options);
size_t __real_csv_parse(struct csv_parser *parser, const void *bytes, size_t length,
                        void (*cell)(void *, size_t, void *), void (*row)(int, void *),
                        void *context);
size_t __wrap_csv_parse(struct csv_parser *parser, const void *bytes, size_t length,
                        void (*cell)(void *, size_t, void *), void (*row)(int, void *),
                        void *context);
int __real_csv_fini(struct csv_parser *parser, void (*cell)(void *, size_t, void *),
                    void (*row)(int, void *), void *context);
int __wrap_csv_fini(struct csv_parser *parser, void (*cell)(void *, size_t, void *),
                    void (*row)(int, void *), void *context);
ssize_t __real_read(int file, void *to, size_t size);
ssize_t __wrap_read(int file, void *to, size_t size);

static long reads_left = -1; /* until a file gives no more; less than 0: it goes on */
static bool out_of_order;    /* it gives no more because it cannot */

int __wrap_csv_init(struct csv_parser *parser, unsigned char options) {
    return scarce_fails() ? -1 : __real_csv_init(parser, options);
}

size_t __wrap_csv_parse(struct csv_parser *parser, const void *bytes, size_t length,
                        void (*cell)(void *, size_t, void *), void (*row)(int, void *),
                        void *context) {
    return length > 0 && scarce_fails()
               ? 0
               : __real_csv_parse(parser, bytes, length, cell, row, context);
}

int __wrap_csv_fini(struct csv_parser *parser, void (*cell)(void *, size_t, void *),
                    void (*row)(int, void *), void *context) {
    return scarce_fails() ? -1 : __real_csv_fini(parser, cell, row, context);
}

ssize_t __wrap_read(int file, void *to, size_t size) {
    if (reads_left >= 0 && reads_left-- <= 0) {
        reads_left = 0;
        errno = 0;
        return out_of_order ? -1 : 0;
    }
    return __real_read(file, to, size);
}

/* The status that a reading has with memory enough comes out as MENSUR_OK. */
static enum mensur_status as_wanted(enum mensur_status status, enum mensur_status wanted,
                                    struct mensur_fault *fault) {
    mensur_fault_set(fault, "%s",
                     mensur_status_text(status)); /* a reading has no fault of its own */
    return status == wanted ? MENSUR_OK : status;
}

static const char twice[] = "name,family,tuning,strings,stop,neck,owner\n"
                            "a,viola,viola,viola gut,222,150,Lane\nb,cello,,,400,280\n"
                            "a,viola,,,221,150\nb,,,,220,150\nc,,,,220,150\na,,,,219,150";

static enum mensur_status names_twice(const struct demo *demo, struct mensur_fault *fault) {
    const struct given given = {MENSUR_TABLE_INSTRUMENTS, twice, 0};
    struct outcome outcome;
    (void)demo;
    read_tables(&given, 1, &outcome);
    enum mensur_status status = as_wanted(outcome.status, MENSUR_DATA, fault);
    clear_outcome(&outcome);
    return status;
}

/* One table that is refused. */
static enum mensur_status refused(enum mensur_table table, const char *text, size_t size,
                                  struct mensur_fault *fault) {
    struct outcome outcome;
    read_table(table, text, size, &outcome);
    enum mensur_status status = as_wanted(outcome.status, MENSUR_DATA, fault);
    clear_outcome(&outcome);
    return status;
}

/* Strings of its own, beside which the catalogue's stand. */
static enum mensur_status own_strings(const struct demo *demo, struct mensur_fault *fault) {
    const struct given given[] = {
        {MENSUR_TABLE_INSTRUMENTS, "name,price,string_length,strings\nx,5,372,gut\n", 0},
        {MENSUR_TABLE_STRINGS, "name,note,set,linear_density\na,A4,gut,1.8\n", 0}};
    struct outcome outcome;
    (void)demo;
    read_tables(given, COUNT_OF(given), &outcome);
    enum mensur_status status = as_wanted(outcome.status, MENSUR_OK, fault);
    clear_outcome(&outcome);
    return status;
}

static enum mensur_status empty(const struct demo *demo, struct mensur_fault *fault) {
    (void)demo;
    return refused(MENSUR_TABLE_TUNINGS, "\n", 1, fault);
}

static enum mensur_status nul(const struct demo *demo, struct mensur_fault *fault) {
    (void)demo;
    return refused(MENSUR_TABLE_TUNINGS, "name,notes\nviola,C3\0", 20, fault);
}

static enum mensur_status bad_rows(const struct demo *demo, struct mensur_fault *fault) {
    (void)demo;
    return refused(MENSUR_TABLE_INSTRUMENTS,
                   "name,stop,neck,stop,bridgee\na,x,y\n,222,150,\nb,-1,0\n", 0, fault);
}

static enum mensur_status from_folder(const char *folder, enum mensur_status wanted,
                                      struct mensur_fault *fault) {
    struct mensur_report report = {.errors = {0}};
    struct mensur_shop shop = {.label = NULL};
    enum mensur_status status = mensur_shop_open(folder, &report, &shop);
    if (status == MENSUR_OK) {
        status = mensur_shop_instruments(&shop, true, NULL, NULL, &report);
        mensur_shop_clear(&shop);
    }
    mensur_report_clear(&report);
    return as_wanted(status, wanted, fault);
}

static enum mensur_status nowhere(const struct demo *demo, struct mensur_fault *fault) {
    (void)demo;
    return from_folder("/nowhere at all", MENSUR_READ, fault);
}

static char folder[] = "/tmp/mensur-memory-XXXXXX", path[64];

static enum mensur_status file(const struct demo *demo, struct mensur_fault *fault) {
    (void)demo;
    return from_folder(folder, MENSUR_DATA, fault);
}

/* In batches, the second into the memory of the first; one cell is longer than the room for all. */
static enum mensur_status batches(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_report report = {.errors = {0}};
    struct mensur_shop shop = {.label = NULL};
    struct mensur_batches *made = NULL;
    struct mensur_batch batch = {.count = 0};
    static char text[sizeof twice + 200000];
    (void)demo;
    memset(text, 'x', sizeof text);
    memcpy(text, twice, strlen(twice));
    memcpy(text + strlen(twice), "\nd,viola,,,222,150,", 19);
    const struct mensur_bytes bytes = {MENSUR_TABLE_INSTRUMENTS, (const unsigned char *)text,
                                       sizeof text};
    long kept = scarce_left; /* the shop has rows of its own */
    scarce_left = -1;
    check_status("shop", mensur_shop_open_bytes("test", &bytes, 1, &report, &shop), MENSUR_OK);
    scarce_left = kept;
    enum mensur_status status = mensur_batches_open(&shop, true, &report, &made);
    for (size_t count = 1; status == MENSUR_OK && count > 0; count = batch.count) {
        status = mensur_batches_next(made, &batch);
    }
    mensur_batches_free(made);
    mensur_batch_clear(&batch);
    mensur_shop_clear(&shop);
    mensur_report_clear(&report);
    return as_wanted(status, MENSUR_DATA, fault);
}

/* What is done to the file once the shop is open, so that it cannot be read. */
enum harm { GIVES_NOTHING, TOUCHED, GONE_BY_THEN, FAILS_BY_THEN };

static void do_harm(enum harm harm) {
    static time_t touches; /* each another time */
    const struct timespec times[2] = {{.tv_nsec = UTIME_OMIT}, {.tv_sec = ++touches}};
    if (harm == TOUCHED) {
        assert_int_equal(utimensat(AT_FDCWD, path, times, 0), 0);
    } else {
        reads_left = harm == GIVES_NOTHING ? 0 : 2; /* all of it, and its end: then no more */
        out_of_order = harm != GONE_BY_THEN;
    }
}

/* Reads the instruments of a shop whose file was harmed after it was opened. */
static enum mensur_status read_harmed(enum harm harm, struct mensur_report *report) {
    struct mensur_shop shop = {.label = NULL};
    long kept = scarce_left; /* the shop has rows of its own */
    scarce_left = -1;
    check_status("shop", mensur_shop_open(folder, report, &shop), MENSUR_OK);
    scarce_left = kept;
    do_harm(harm);
    enum mensur_status status = mensur_shop_instruments(&shop, true, NULL, NULL, report);
    reads_left = -1;
    out_of_order = false;
    mensur_shop_clear(&shop);
    return status;
}

static enum mensur_status harmed(enum harm harm, struct mensur_fault *fault) {
    struct mensur_report report = {.errors = {0}};
    enum mensur_status status = as_wanted(read_harmed(harm, &report), MENSUR_READ, fault);
    mensur_report_clear(&report);
    return status;
}

static enum mensur_status gives_nothing(const struct demo *demo, struct mensur_fault *fault) {
    (void)demo;
    return harmed(GIVES_NOTHING, fault);
}

static enum mensur_status touched(const struct demo *demo, struct mensur_fault *fault) {
    (void)demo;
    return harmed(TOUCHED, fault);
}

static enum mensur_status fails_by_then(const struct demo *demo, struct mensur_fault *fault) {
    (void)demo;
    return harmed(FAILS_BY_THEN, fault);
}

static int make_file(void **state) {
    (void)state;
    assert_non_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/instruments.csv", folder);
    FILE *out = fopen(path, "wb");
    assert_non_null(out);
    fputs(twice, out);
    return fclose(out);
}

static int remove_file(void **state) {
    (void)state;
    return unlink(path) + rmdir(folder);
}

static void each_allocation(void **state) {
    static const struct {
        const char *row;
        scarce_question *ask;
    } rows[] = {{"names that come twice", names_twice},
                {"strings beside the catalogue", own_strings},
                {"empty file", empty},
                {"NUL", nul},
                {"bad rows", bad_rows},
                {"no folder", nowhere},
                {"file", file},
                {"batches", batches},
                {"a file that gives nothing", gives_nothing},
                {"a file that was touched", touched},
                {"a file that gives nothing the second time", fails_by_then}};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        scarce_go_through(rows[i].row, rows[i].ask, NULL);
    }
}

/* What is said, once; a file whose names are to be looked for once more and which is empty, or
 * cannot be read, by then has names that came twice, and nobody can say where. */
static void says_why(void **state) {
    static const struct {
        const char *name, *error;
        enum harm harm;
    } rows[] = {
        {"gives nothing", ":1:1: cannot be read: the system gives no reason", GIVES_NOTHING},
        {"touched", ":1:1: was changed after it was opened", TOUCHED},
        {"gone by then", ":1:1: was changed after it was opened", GONE_BY_THEN},
        {"fails by then", ":1:1: cannot be read: ", FAILS_BY_THEN},
    };
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_report report = {.errors = {0}};
        check_status(rows[i].name, read_harmed(rows[i].harm, &report), MENSUR_READ);
        assert_int_equal(report.errors.count, 1);
        check_holds(report.errors.items[0], rows[i].error);
        mensur_report_clear(&report);
        check_status(rows[i].name, read_harmed(rows[i].harm, NULL), MENSUR_READ);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_allocation),
                                       cmocka_unit_test(says_why)};
    return cmocka_run_group_tests(tests, make_file, remove_file);
}
