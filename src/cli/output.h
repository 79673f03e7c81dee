/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where an answer goes: standard output, or a file that is written whole or not at all. */
#ifndef MENSUR_OUTPUT_H
#define MENSUR_OUTPUT_H

#include <stdbool.h>
#include <stdio.h>

#include "question.h"

struct output {
    FILE *file;
    const char *path; /* borrowed; NULL: standard output */
    char *scratch;    /* owned: the file beside it that is written first */
    bool overwrite;
    int system_error; /* errno of the first failed write */
};

/* Opens a file beside `path` (NULL: standard output). MENSUR_USE where the path is taken and may
 * not be overwritten, MENSUR_WRITE; the reason is said on standard error. */
enum mensur_status output_open(const char *path, bool overwrite, struct output *output);

/* A sink that writes to it. */
struct mensur_sink output_sink(struct output *output);

/* Puts the file in its place (`keep`), or takes it away. Says on standard error what failed. */
enum mensur_status output_close(struct output *output, bool keep);

/* Writes bytes to a file, whole or not at all. */
enum mensur_status output_bytes(const char *path, bool overwrite, const void *bytes, size_t size);

#endif
