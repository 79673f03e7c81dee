/* SPDX-License-Identifier: GPL-3.0-or-later */
/* mensur: read the command line, ask, present, answer with an exit code. */
#include <errno.h>
#include <gsl/gsl_errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

#include "commands.h"

static enum mensur_status answer(const struct options *options) {
    switch (options->command) {
    case COMMAND_START:
        return command_start(options);
    case COMMAND_CHECK:
        return command_check(options);
    case COMMAND_LENGTHS:
    case COMMAND_TENSION:
    case COMMAND_FINGERS:
        return command_rows(options);
    case COMMAND_COMPARE:
        return command_compare(options);
    case COMMAND_CHANGE:
        return command_change(options);
    case COMMAND_NECK:
    case COMMAND_STOP:
        return command_decide(options);
    case COMMAND_RESTRING:
        return command_restring(options);
    case COMMAND_REACH:
        return command_reach(options);
    case COMMAND_SHEET:
        return command_sheet(options);
    case COMMAND_DOSSIER:
        return command_dossier(options);
    case COMMAND_COUNT:
        break;
    }
    return MENSUR_USE;
}

/* Help and version too are answers that must have left whole. */
static enum mensur_status flush_said(void) {
    if (fflush(stdout) == 0 && ferror(stdout) == 0) {
        return MENSUR_OK;
    }
    fprintf(stderr, "mensur: standard output cannot be written: %s\n", strerror(errno));
    return MENSUR_WRITE;
}

int main(int argc, char **argv) {
    struct options options;
    enum mensur_status status = MENSUR_USE;
    /* The library checks domains itself; GSL's own handler would abort the program. */
    gsl_set_error_handler_off();
    /* A reader that closes the pipe is a failed write, said like any other. */
    (void)signal(SIGPIPE, SIG_IGN);
    /* So is a file that grows past what is allowed. */
    (void)signal(SIGXFSZ, SIG_IGN);
    switch (options_read(argc, argv, &options)) {
    case OPTIONS_ASK:
        status = answer(&options);
        break;
    case OPTIONS_SAID:
        status = flush_said();
        break;
    case OPTIONS_WRONG:
        status = MENSUR_USE;
        break;
    }
    options_free(&options);
    return mensur_status_exit_code(status);
}
