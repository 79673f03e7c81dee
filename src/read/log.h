/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Errors and warnings of one file, each with its line and column. */
#ifndef MENSUR_READ_LOG_H
#define MENSUR_READ_LOG_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#include "shop_files.h"

/* Bytes for a cell's text in a message, with its terminating NUL. */
#define MENSUR_SHORT_ROOM 96

/* Where the messages of one file go, and the status of reading it so far. */
struct log {
    const char *file;             /* as it is named in messages; NULL: they name no place */
    struct mensur_report *report; /* NULL: messages are dropped */
    enum mensur_status
        status;     /* MENSUR_DATA after an error, MENSUR_MEMORY where one could not be kept */
    bool converted; /* the warning of Windows-1252 was given */
    size_t errors, warnings; /* so far; of each the first MENSUR_SAID_MOST are kept */
};

/* So many errors, and so many warnings, of a file are told one by one. */
#define MENSUR_SAID_MOST 10000

/* At a file's end, once: how many there are beside those that were told. */
void mensur_log_end(struct log *log);

/* Adds `FILE:LINE:COLUMN: ` and the message; the status becomes MENSUR_DATA at least. */
void mensur_log_error(struct log *log, long line, int column, const char *format, ...)
    MENSUR_PRINTF(4, 5);

/* The same, or (where it is no error) a warning. */
void mensur_log_add(struct log *log, bool error, long line, int column, const char *format,
                    va_list values) MENSUR_PRINTF(5, 0);

/* Adds a warning in the same form. */
void mensur_log_warning(struct log *log, long line, int column, const char *format, ...)
    MENSUR_PRINTF(4, 5);

/* A text shortened for one line of a message: cut between two letters, control characters as
 * blanks. */
const char *mensur_log_short(const char *text, char out[MENSUR_SHORT_ROOM]);

#endif
