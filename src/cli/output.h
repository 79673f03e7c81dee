/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where an answer goes: standard output, or a file that is written whole or not at all. */
#ifndef MENSUR_OUTPUT_H
#define MENSUR_OUTPUT_H

#include <stdbool.h>
#include <stdio.h>

#include "question.h"

/* Files that are written at the same time, at most. */
enum { OUTPUTS_MOST = 32 };

struct output {
    FILE *file;
    const char *path; /* borrowed; NULL: standard output */
    char *scratch;    /* owned: the file beside it that is written first */
    bool overwrite;
    int system_error; /* errno of what failed first */
};

/* MENSUR_USE where a file may not be put there: the path is taken (or, with leave to overwrite, is
 * neither a file nor a link to one). The reason is said on standard error. */
enum mensur_status output_check(const char *path, bool overwrite);

/* Opens a file beside `path` (NULL: standard output), after output_check. MENSUR_USE, MENSUR_WRITE,
 * MENSUR_MEMORY; the reason is said on standard error. */
enum mensur_status output_open(const char *path, bool overwrite, struct output *output);

/* A sink that writes to it. */
struct mensur_sink output_sink(struct output *output);

/* Puts the file in its place (`keep`), or takes it away. Says on standard error what failed. */
enum mensur_status output_close(struct output *output, bool keep);

/* output_close in two steps, for several files: first all bytes are written beside the place
 * (MENSUR_WRITE, said on standard error), then the file is put there (MENSUR_WRITE, not said:
 * system_error is the reason), or taken away. */
enum mensur_status output_finish(struct output *output);
enum mensur_status output_place(struct output *output);
void output_discard(struct output *output);

#endif
