/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Preloaded before the program: the MENSUR_FAIL_AT-th allocation that the program itself or its
 * CSV and JSON libraries ask for fails, and every later one of theirs, as when memory is used
 * up; with MENSUR_FAIL_ONCE set it alone fails, and those of all libraries are counted. The file
 * MENSUR_FAIL_MARK is made once one has failed. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t count, size_t size);
extern void *__libc_realloc(void *old, size_t size);

static atomic_long count;
static long fail_at = -1;
static bool once;

static void read_orders(void) {
    const char *order = getenv("MENSUR_FAIL_AT");
    once = getenv("MENSUR_FAIL_ONCE") != NULL;
    fail_at = order != NULL ? atol(order) : 0;
}

static void mark(void) {
    const char *path = getenv("MENSUR_FAIL_MARK");
    int file = path != NULL ? open(path, O_WRONLY | O_CREAT, 0600) : -1;
    if (file >= 0) {
        close(file);
    }
}

static int is_ours(const void *caller) {
    Dl_info info;
    if (dladdr(caller, &info) == 0 || info.dli_fname == NULL) {
        return 0;
    }
    const char *slash = strrchr(info.dli_fname, '/');
    const char *name = slash != NULL ? slash + 1 : info.dli_fname;
    return strcmp(name, "mensur") == 0 || strncmp(name, "libcsv", 6) == 0;
}

static int fails(const void *caller) {
    if (fail_at < 0) {
        read_orders();
    }
    if (fail_at == 0 || (!once && !is_ours(caller))) {
        return 0;
    }
    long at = ++count;
    if (at == fail_at) {
        mark();
    }
    if (at < fail_at || (once && at > fail_at)) {
        return 0;
    }
    errno = ENOMEM;
    return 1;
}

void *malloc(size_t size) {
    return fails(__builtin_return_address(0)) ? NULL : __libc_malloc(size);
}

void *calloc(size_t number, size_t size) {
    return fails(__builtin_return_address(0)) ? NULL : __libc_calloc(number, size);
}

void *realloc(void *old, size_t size) {
    return fails(__builtin_return_address(0)) ? NULL : __libc_realloc(old, size);
}
