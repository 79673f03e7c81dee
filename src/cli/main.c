/* SPDX-License-Identifier: GPL-3.0-or-later */
/* mensur: words to a question, the shop, the answer, an exit code. */
#include <errno.h>
#include <glib.h>
#include <gsl/gsl_errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

#include "commands.h"
#include "say.h"

/* --shop, else MENSUR_SHOP; NULL: the demonstration. */
static const char *folder_of(const struct mensur_question *question) {
    const char *folder = question->shop != NULL ? question->shop : g_getenv("MENSUR_SHOP");
    return folder == NULL || (question->shop == NULL && folder[0] == '\0') ? NULL : folder;
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

static enum mensur_status ask_shop(const char *const *words, size_t count,
                                   struct mensur_question *question) {
    struct mensur_texts messages = {0};
    struct mensur_shop shop;
    enum mensur_status status = mensur_question_shop(folder_of(question), &messages, &shop);
    if (status != MENSUR_OK) {
        return say(&messages, status);
    }
    status = settle(&shop, words, count, &messages, question);
    bool every = question->every && question->medium == MENSUR_MEDIUM_WORDS;
    status = status != MENSUR_OK ? say(&messages, status)
             : every             ? answer_every(question, &shop, &messages)
                                 : answer(question, &shop, &messages);
    mensur_shop_clear(&shop);
    return status;
}

static enum mensur_status write_to(void *context, const char *bytes, size_t length) {
    return fwrite(bytes, 1, length, context) == length ? MENSUR_OK : MENSUR_WRITE;
}

/* Help and version too are answers that must have left whole. */
static enum mensur_status help(const struct mensur_question *question) {
    bool missing = question->help == MENSUR_HELP_MISSING;
    struct mensur_sink sink = {write_to, missing ? stderr : stdout};
    (void)mensur_help_write(question, &sink);
    if (missing) {
        return MENSUR_USE;
    }
    if (fflush(stdout) == 0 && ferror(stdout) == 0) {
        return MENSUR_OK;
    }
    fprintf(stderr, "mensur: standard output cannot be written: %s\n", strerror(errno));
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

int main(int argc, char **argv) {
    /* The library checks domains itself; GSL's own handler would abort the program. */
    gsl_set_error_handler_off();
    /* A reader that closes the pipe is a failed write, said like any other. */
    (void)signal(SIGPIPE, SIG_IGN);
    /* So is a file that grows past what is allowed. */
    (void)signal(SIGXFSZ, SIG_IGN);
    size_t count = argc > 1 ? (size_t)argc - 1 : 0;
    return mensur_status_exit_code(ask((const char *const *)argv + (argc > 0), count));
}
