/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The library where memory, the sink or a file gives out: read, ask and present the demonstration
 * as text, CSV and JSON, each allocation, write and reading failing in its turn. Linked with
 * --wrap, so that the library's own calls come through here. */
#include <errno.h>
#include <gsl/gsl_errno.h>
#include <unistd.h>

#include "ask.h"
#include "check.h"
#include "present.h"
#include "shop_files.h"

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *old, size_t size);
ssize_t __real_read(int file, void *to, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *old, size_t size);
ssize_t __wrap_read(int file, void *to, size_t size);

/* The turn that fails, counted down; 0: none. Memory that is used up stays used up. */
static long allocations_left, reads_left;
static bool used_up, read_failed;

static bool memory_is_out(void) {
    used_up = used_up || (allocations_left > 0 && --allocations_left == 0);
    return used_up;
}

void *__wrap_malloc(size_t size) {
    return memory_is_out() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size) {
    return memory_is_out() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *old, size_t size) {
    return memory_is_out() ? NULL : __real_realloc(old, size);
}

/* Before a reading fails, one gives half of what it was asked for, and one is interrupted. */
ssize_t __wrap_read(int file, void *to, size_t size) {
    if (reads_left == 3) {
        reads_left--;
        errno = EINTR;
        return -1;
    }
    if (reads_left > 0 && --reads_left == 0) {
        read_failed = true;
    }
    if (read_failed) {
        errno = EIO;
        return -1;
    }
    return __real_read(file, to, reads_left == 1 ? size / 2 : size);
}

static void all_works(void) {
    allocations_left = 0;
    reads_left = 0;
    used_up = false;
    read_failed = false;
}

/* A sink whose so-manieth write fails. */
struct bucket {
    long writes, fails_at; /* 0: never */
    size_t bytes;
};

static enum mensur_status take(void *context, const char *bytes, size_t length) {
    struct bucket *bucket = context;
    (void)bytes;
    bucket->writes++;
    if (bucket->fails_at != 0 && bucket->writes >= bucket->fails_at) {
        return MENSUR_WRITE;
    }
    bucket->bytes += length;
    return MENSUR_OK;
}

struct telling {
    const struct mensur_shop *shop;
    const struct mensur_terms *terms;
    struct mensur_presenter *presenter;
};

static enum mensur_status tell(void *context, const struct mensur_instrument *instrument) {
    const struct telling *telling = context;
    struct mensur_profile profile;
    struct mensur_fault fault;
    enum mensur_status status = mensur_ask_profile(
        &telling->shop->stock, instrument, telling->terms, MENSUR_PART_ALL, &fault, &profile);
    if (status != MENSUR_OK) {
        return status;
    }
    status = mensur_present_profile(telling->presenter, &profile);
    mensur_profile_clear(&profile);
    return status;
}

static enum mensur_status present_shop(struct mensur_shop *shop, enum mensur_format format,
                                       bool strings, struct bucket *bucket) {
    struct mensur_terms terms;
    mensur_terms_init(&terms);
    const char *command = strings ? "tension" : "lengths";
    const struct mensur_view *view = strings ? &mensur_view_tension : &mensur_view_lengths;
    struct mensur_heading heading = {.command = command,
                                     .shop = shop->label,
                                     .a4 = 440.0,
                                     .fifths = "pure",
                                     .steps = "equal",
                                     .sources = view->sources,
                                     .view = view};
    struct mensur_style style = {.format = format};
    struct mensur_sink sink = {.write = take, .context = bucket};
    struct telling telling = {.shop = shop, .terms = &terms};
    enum mensur_status status = mensur_present_open(&heading, &style, &sink, &telling.presenter);
    if (status != MENSUR_OK) {
        return status;
    }
    status = mensur_shop_instruments(shop, true, tell, &telling, NULL);
    enum mensur_status closed = mensur_present_close(telling.presenter, status == MENSUR_OK);
    return status == MENSUR_OK ? closed : status;
}

static enum mensur_status go_through(enum mensur_format format, bool strings,
                                     struct bucket *bucket) {
    struct mensur_report report = {.errors = {0}};
    struct mensur_shop shop;
    enum mensur_status status = mensur_shop_open(NULL, &report, &shop);
    if (status == MENSUR_OK) {
        status = present_shop(&shop, format, strings, bucket);
        mensur_shop_clear(&shop);
    }
    mensur_report_clear(&report);
    return status;
}

static const enum mensur_format formats[] = {MENSUR_FORMAT_TEXT, MENSUR_FORMAT_CSV,
                                             MENSUR_FORMAT_JSON};

static void without_memory(enum mensur_format format, bool strings) {
    enum mensur_status status = MENSUR_MEMORY;
    for (long at = 1; status != MENSUR_OK; at += 1 + at / 200) {
        struct bucket bucket = {.fails_at = 0};
        char row[64];
        all_works();
        allocations_left = at;
        status = go_through(format, strings, &bucket);
        bool failed = used_up;
        all_works();
        snprintf(row, sizeof row, "format %d, allocation %ld", (int)format, at);
        check_status(row, status, failed ? MENSUR_MEMORY : MENSUR_OK);
    }
}

static void every_allocation_fails(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(formats); i++) {
        without_memory(formats[i], false);
        without_memory(formats[i], true);
    }
}

/* After a write that failed nothing is written any more. */
static void without_sink(enum mensur_format format, bool strings) {
    struct bucket whole = {.fails_at = 0};
    check_status("whole", go_through(format, strings, &whole), MENSUR_OK);
    assert_true(whole.writes > 0);
    for (long at = 1; at <= whole.writes; at++) {
        struct bucket bucket = {.fails_at = at};
        check_status("sink", go_through(format, strings, &bucket), MENSUR_WRITE);
        assert_int_equal(bucket.writes, at);
    }
}

static void every_write_fails(void **state) {
    (void)state;
    all_works();
    for (size_t i = 0; i < COUNT_OF(formats); i++) {
        without_sink(formats[i], false);
        without_sink(formats[i], true);
    }
}

/* A folder of one long file, so that there are several readings. */
static void make_folder(char *folder, char *path) {
    assert_non_null(mkdtemp(folder));
    sprintf(path, "%s/instruments.csv", folder);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    fputs("name,family,stop,neck,note\n", file);
    for (int i = 0; i < 2000; i++) {
        fprintf(file, "bird %d,violin,195,130,%0100d\n", i, i);
    }
    fclose(file);
}

static void every_reading_fails(void **state) {
    (void)state;
    char folder[] = "/tmp/mensur-faults-XXXXXX", path[64];
    make_folder(folder, path);
    long at = 1;
    for (bool reached = true; reached; at++) {
        struct mensur_report report = {.errors = {0}};
        struct mensur_shop shop;
        all_works();
        check_status("open", mensur_shop_open(folder, &report, &shop), MENSUR_OK);
        reads_left = at;
        enum mensur_status status = mensur_shop_instruments(&shop, true, NULL, NULL, &report);
        reached = read_failed;
        all_works();
        check_status("reading", status, reached ? MENSUR_READ : MENSUR_OK);
        if (reached) {
            check_holds(report.errors.items[0], "cannot be read");
        }
        mensur_report_clear(&report);
        mensur_shop_clear(&shop);
    }
    assert_true(at > 4);
    remove(path);
    remove(folder);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_allocation_fails),
        cmocka_unit_test(every_write_fails),
        cmocka_unit_test(every_reading_fails),
    };
    gsl_set_error_handler_off();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
