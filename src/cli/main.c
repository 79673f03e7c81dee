/* SPDX-License-Identifier: GPL-3.0-or-later */
/* mensur: words to a question, the shop, the answer, an exit code. */
#include <errno.h>
#include <fcntl.h>
#include <gsl/gsl_errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "commands.h"
#include "folder.h"
#include "found.h"
#include "say.h"
#include "shop_files.h"

/* --shop, else MENSUR_SHOP; NULL: the demonstration. */
static const char *folder_of(const struct mensur_question *question) {
    const char *folder = question->shop != NULL ? question->shop : getenv("MENSUR_SHOP");
    return folder == NULL || (question->shop == NULL && folder[0] == '\0') ? NULL : folder;
}

/* Whether the answer goes to the shop's own families.csv, emptied by the shell before the program
 * started: `mensur check --usual --shop my > my/families.csv`. */
static enum mensur_status find_own_output(const struct mensur_question *question,
                                          const char *folder, bool *own) {
    struct stat there, out;
    *own = false;
    if (!question->usual || question->output != NULL || folder == NULL) {
        return MENSUR_OK;
    }
    char *path = mensur_table_path(folder, MENSUR_TABLE_FAMILIES);
    if (path == NULL) {
        return say_status(MENSUR_MEMORY);
    }
    *own = stat(path, &there) == 0 && fstat(STDOUT_FILENO, &out) == 0 && S_ISREG(there.st_mode) &&
           there.st_size == 0 && there.st_dev == out.st_dev && there.st_ino == out.st_ino;
    free(path);
    return MENSUR_OK;
}

/* Reads the question once more, now that the shop's habits are known. */
static enum mensur_status settle(const struct mensur_shop *shop, const char *const *words,
                                 size_t count, struct mensur_texts *messages,
                                 struct mensur_question *question) {
    struct mensur_question settled;
    enum mensur_status status = mensur_question_read_in(shop, words, count, messages, &settled);
    if (status == MENSUR_OK) {
        mensur_question_clear(question);
        *question = settled;
    }
    return status;
}

/* A file that the shell emptied, and that no answer was written to, would be refused from now on.
 */
static void say_emptied(bool emptied, const char *folder) {
    if (emptied) {
        say_line("mensur: %s/%s is left empty by the shell: take it away; --output writes a file "
                 "whole or not at all",
                 folder, mensur_table_file(MENSUR_TABLE_FAMILIES));
    }
}

static enum mensur_status ask_shop(const char *const *words, size_t count,
                                   struct mensur_question *question) {
    struct mensur_texts messages = {0};
    struct mensur_shop shop;
    const char *folder = folder_of(question);
    bool own_output = false;
    enum mensur_status status = folder_check(folder);
    if (status == MENSUR_OK) {
        status = find_own_output(question, folder, &own_output);
    }
    if (status != MENSUR_OK) {
        return status;
    }
    status = mensur_question_shop_without(
        folder, own_output ? MENSUR_TABLE_FAMILIES : MENSUR_TABLE_COUNT, &messages, &shop);
    if (status != MENSUR_OK) {
        say_emptied(own_output, folder);
        return say(&messages, status);
    }
    status = settle(&shop, words, count, &messages, question);
    bool every = question->every && question->medium == MENSUR_MEDIUM_WORDS;
    status = status != MENSUR_OK ? say(&messages, status)
             : every             ? answer_every(question, &shop, &messages)
                                 : answer(question, &shop, &messages);
    say_emptied(own_output && status != MENSUR_OK, folder);
    mensur_shop_clear(&shop);
    return status;
}

static enum mensur_status write_to(void *context, const char *bytes, size_t length) {
    return fwrite(bytes, 1, length, context) == length ? MENSUR_OK : MENSUR_WRITE;
}

/* Help and version too are answers that must have left whole. */
static enum mensur_status help(const struct mensur_question *question) {
    bool missing = question->help == MENSUR_HELP_MISSING;
    struct mensur_sink sink = missing ? say_sink() : (struct mensur_sink){write_to, stdout};
    (void)mensur_help_write(question, &sink);
    if (missing) {
        return MENSUR_USE;
    }
    if (fflush(stdout) == 0 && ferror(stdout) == 0) {
        return MENSUR_OK;
    }
    say_line("mensur: standard output cannot be written: %s", strerror(errno));
    return MENSUR_WRITE;
}

static enum mensur_status ask(const char *const *words, size_t count) {
    struct mensur_texts messages = {0};
    struct mensur_question question;
    enum mensur_status status =
        say(&messages, mensur_question_read(words, count, &messages, &question));
    if (status != MENSUR_OK) {
        return status;
    }
    status = question.help != MENSUR_HELP_NONE ? help(&question)
             : question.start != NULL          ? start(&question)
                                               : ask_shop(words, count, &question);
    mensur_question_clear(&question);
    return status;
}

/* Where a standard stream is closed as the program starts, the next file that is opened would take
 * its number, and the answer or a message be written into that file. A folder in its place takes no
 * byte. */
static enum mensur_status hold_closed_streams(void) {
    for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; stream++) {
        /* what is opened has the lowest number that is free */
        int held = fcntl(stream, F_GETFD) < 0 ? open("/", O_RDONLY) : stream;
        if (held != stream) {
            say_line("mensur: a standard stream is closed, and nothing can stand in its place: %s",
                     strerror(errno));
            return MENSUR_READ;
        }
    }
    return MENSUR_OK;
}

int main(int argc, char **argv) {
    enum mensur_status status = hold_closed_streams();
    if (status != MENSUR_OK) {
        return mensur_status_exit_code(status);
    }
    /* The library checks domains itself; GSL's own handler would abort the program. */
    gsl_set_error_handler_off();
    /* A reader that closes the pipe has read enough: the program ends, even where whoever started
     * it ignores that signal. */
    (void)signal(SIGPIPE, SIG_DFL);
    /* A file that grows past what is allowed is a failed write, said like any other. */
    (void)signal(SIGXFSZ, SIG_IGN);
    size_t count = argc > 1 ? (size_t)argc - 1 : 0;
    return mensur_status_exit_code(
        say_at_least(ask((const char *const *)argv + (argc > 0), count)));
}
