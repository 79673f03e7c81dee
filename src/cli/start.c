/* SPDX-License-Identifier: GPL-3.0-or-later */
/* start: the built-in files, written out as they are. */
#include <errno.h>
#include <glib.h>
#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

#include "commands.h"
#include "output.h"
#include "shop_files.h"

static char *path_of(const char *folder, enum mensur_table table) {
    return g_build_filename(folder, mensur_table_file(table), NULL);
}

/* Says every file that is in the way. */
static enum mensur_status check_free(const char *folder) {
    enum mensur_status status = MENSUR_OK;
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        struct stat there;
        char *path = path_of(folder, (enum mensur_table)i);
        if (lstat(path, &there) == 0) {
            fprintf(stderr, "mensur: %s is already there; --overwrite replaces it\n", path);
            status = MENSUR_USE;
        }
        g_free(path);
    }
    return status;
}

static enum mensur_status make_folder(const char *folder) {
    if (g_mkdir_with_parents(folder, 0777) == 0) {
        return MENSUR_OK;
    }
    fprintf(stderr, "mensur: the folder %s cannot be made: %s\n", folder, g_strerror(errno));
    return MENSUR_WRITE;
}

/* Files written before one that failed are taken away again, unless they replaced others. */
static void take_away(const char *folder, int count) {
    for (int i = 0; i < count; i++) {
        char *path = path_of(folder, (enum mensur_table)i);
        (void)unlink(path);
        g_free(path);
    }
}

static enum mensur_status write_files(const char *folder, bool overwrite) {
    enum mensur_status status = MENSUR_OK;
    for (int i = 0; i < MENSUR_TABLE_COUNT && status == MENSUR_OK; i++) {
        size_t size = 0;
        const unsigned char *bytes = mensur_built_in((enum mensur_table)i, &size);
        char *path = path_of(folder, (enum mensur_table)i);
        status = output_bytes(path, overwrite, bytes, size);
        g_free(path);
        if (status != MENSUR_OK && !overwrite) {
            take_away(folder, i);
        }
    }
    return status;
}

enum mensur_status start(const struct mensur_question *question) {
    bool overwrite = question->overwrite;
    const char *folder = question->start;
    enum mensur_status status = overwrite ? MENSUR_OK : check_free(folder);
    if (status == MENSUR_OK) {
        status = make_folder(folder);
    }
    if (status == MENSUR_OK) {
        status = write_files(folder, overwrite);
    }
    if (status == MENSUR_OK) {
        printf("The demonstration shop stands in %s: its instruments are invented, so put your\n"
               "own into instruments.csv with any spreadsheet. Then ask, for example:\n\n"
               "  mensur check --shop %s\n"
               "  mensur neck kestrel --like heron --shop %s\n",
               folder, folder, folder);
        if (fflush(stdout) != 0) {
            fprintf(stderr, "mensur: standard output cannot be written: %s\n", g_strerror(errno));
            status = MENSUR_WRITE;
        }
    }
    return status;
}
