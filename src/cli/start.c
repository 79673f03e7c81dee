/* SPDX-License-Identifier: GPL-3.0-or-later */
/* start: the built-in files, written out as they are. */
#include <errno.h>
#include <glib.h>
#include <stdio.h>
#include <unistd.h>

#include "commands.h"
#include "output.h"
#include "say.h"
#include "shop_files.h"

static char *path_of(const char *folder, enum mensur_table table) {
    return g_build_filename(folder, mensur_table_file(table), NULL);
}

/* Says every file that is in the way. */
static enum mensur_status check_all(const char *folder, bool overwrite) {
    enum mensur_status status = MENSUR_OK;
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        char *path = path_of(folder, (enum mensur_table)i);
        enum mensur_status one = output_check(path, overwrite);
        status = one != MENSUR_OK ? one : status;
        g_free(path);
    }
    return status;
}

static enum mensur_status make_folder(const char *folder) {
    if (g_mkdir_with_parents(folder, 0777) == 0) {
        return MENSUR_OK;
    }
    say_line("mensur: the folder %s cannot be made: %s", folder, g_strerror(errno));
    return MENSUR_WRITE;
}

/* The files of a shop on their way to their places. */
struct files {
    struct output outputs[MENSUR_TABLE_COUNT];
    char *paths[MENSUR_TABLE_COUNT];
};

_Static_assert((int)MENSUR_TABLE_COUNT <= (int)OUTPUTS_MOST,
               "all files are written at the same time");

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
    GString *replaced = g_string_new(failed > 0 && overwrite ? "replaced were already" : NULL);
    for (int i = 0; i < failed; i++) {
        if (overwrite) {
            g_string_append_printf(replaced, "%s %s", i > 0 ? "," : "", files->paths[i]);
        } else {
            (void)unlink(files->paths[i]);
        }
    }
    say_line("mensur: %s cannot be written: %s; %s", files->paths[failed],
             g_strerror(files->outputs[failed].system_error),
             replaced->len > 0 ? replaced->str : "nothing was changed");
    g_string_free(replaced, TRUE);
    return MENSUR_WRITE;
}

static enum mensur_status write_files(const char *folder, bool overwrite) {
    struct files files = {.paths = {NULL}};
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        files.paths[i] = path_of(folder, (enum mensur_table)i);
    }
    enum mensur_status status = write_beside(&files, overwrite);
    for (int i = 0; i < MENSUR_TABLE_COUNT && status == MENSUR_OK; i++) {
        if (output_place(&files.outputs[i]) != MENSUR_OK) {
            status = undo(&files, i, overwrite);
        }
    }
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        output_discard(&files.outputs[i]);
        g_free(files.paths[i]);
    }
    return status;
}

enum mensur_status start(const struct mensur_question *question) {
    bool overwrite = question->overwrite;
    const char *folder = question->start;
    enum mensur_status status = check_all(folder, overwrite);
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
            say_line("mensur: standard output cannot be written: %s", g_strerror(errno));
            status = MENSUR_WRITE;
        }
    }
    return status;
}
