/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Preloaded before the program: before its MENSUR_CHANGE_AT-th reading of a file whose path ends as
 * MENSUR_CHANGE_OF, the shell runs MENSUR_CHANGE, once. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

typedef ssize_t read_bytes(int file, void *to, size_t size);

static atomic_long count;

static bool is_watched(int file) {
    char link[64], path[4096];
    const char *end = getenv("MENSUR_CHANGE_OF");
    snprintf(link, sizeof link, "/proc/self/fd/%d", file);
    ssize_t length = readlink(link, path, sizeof path);
    size_t last = end != NULL ? strlen(end) : 0;
    return last > 0 && length >= (ssize_t)last &&
           memcmp(path + (size_t)length - last, end, last) == 0;
}

ssize_t read(int file, void *to, size_t size) {
    const char *at = getenv("MENSUR_CHANGE_AT"), *change = getenv("MENSUR_CHANGE");
    if (at != NULL && change != NULL && is_watched(file) && ++count == atol(at)) {
        unsetenv("LD_PRELOAD");
        if (system(change) != 0) {
            abort();
        }
    }
    read_bytes *real = (read_bytes *)dlsym(RTLD_NEXT, "read");
    return real(file, to, size);
}
