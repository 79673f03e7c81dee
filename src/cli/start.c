/* SPDX-License-Identifier: GPL-3.0-or-later */
/* start: the built-in files, written out as they are. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "commands.h"
#include "folder.h"
#include "output.h"
#include "say.h"
#include "shop_files.h"

/* The files of a shop on their way to their places. */
struct files {
    struct output outputs[MENSUR_TABLE_COUNT];
    char *paths[MENSUR_TABLE_COUNT];
};

_Static_assert((int)MENSUR_TABLE_COUNT <= (int)OUTPUTS_MOST,
               "all files are written at the same time");

/* Says every file that is in the way. */
static enum mensur_status check_all(const struct files *files, bool overwrite) {
    enum mensur_status status = MENSUR_OK;
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        enum mensur_status one = output_check(files->paths[i], overwrite);
        status = one != MENSUR_OK ? one : status;
    }
    return status;
}

/* Writes every file beside its place. */
static enum mensur_status write_beside(struct files *files, bool overwrite) {
    enum mensur_status status = MENSUR_OK;
    for (int i = 0; i < MENSUR_TABLE_COUNT && status == MENSUR_OK; i++) {
        size_t size = 0;
        struct output *output = &files->outputs[i];
        const unsigned char *bytes = mensur_built_in((enum mensur_table)i, &size);
        status = output_open(files->paths[i], overwrite, output);
        if (status == MENSUR_OK) {
            struct mensur_sink sink = output_sink(output);
            (void)sink.write(sink.context, (const char *)bytes, size);
            status = output_finish(output);
        }
    }
    return status;
}

/* A file that could not be put in its place: those before it are taken away again where they are
 * new, and said where they replaced others. */
static enum mensur_status undo(const struct files *files, int failed, bool overwrite) {
    say_line("mensur: %s cannot be written: %s%s", files->paths[failed],
             strerror(files->outputs[failed].system_error),
             failed > 0 && overwrite ? "" : "; nothing was changed");
    for (int i = 0; i < failed; i++) {
        if (overwrite) {
            say_line("mensur: %s was replaced already", files->paths[i]);
        } else {
            (void)unlink(files->paths[i]);
        }
    }
    return MENSUR_WRITE;
}

static enum mensur_status write_files(struct files *files, bool overwrite) {
    enum mensur_status status = write_beside(files, overwrite);
    for (int i = 0; i < MENSUR_TABLE_COUNT && status == MENSUR_OK; i++) {
        if (output_place(&files->outputs[i]) != MENSUR_OK) {
            status = undo(files, i, overwrite);
        }
    }
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        output_discard(&files->outputs[i]);
    }
    return status;
}

static enum mensur_status write_shop(const char *folder, bool overwrite) {
    struct files files = {.paths = {NULL}};
    enum mensur_status status = MENSUR_OK;
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        files.paths[i] = mensur_table_path(folder, (enum mensur_table)i);
        status = files.paths[i] == NULL ? MENSUR_MEMORY : status;
    }
    if (status != MENSUR_OK) {
        (void)say_status(status);
    } else {
        status = check_all(&files, overwrite);
        status = status == MENSUR_OK ? folder_make(folder) : status;
        status = status == MENSUR_OK ? write_files(&files, overwrite) : status;
    }
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        free(files.paths[i]);
    }
    return status;
}

enum mensur_status start(const struct mensur_question *question) {
    const char *folder = question->start;
    enum mensur_status status = write_shop(folder, question->overwrite);
    if (status == MENSUR_OK) {
        printf("The demonstration shop stands in %s: its instruments are invented, so put your\n"
               "own into instruments.csv with any spreadsheet. Then ask, for example:\n\n"
               "  mensur check --shop %s\n"
               "  mensur neck kestrel --like heron --shop %s\n",
               folder, folder, folder);
        if (fflush(stdout) != 0) {
            say_line("mensur: standard output cannot be written: %s", strerror(errno));
            status = MENSUR_WRITE;
        }
    }
    return status;
}
