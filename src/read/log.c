/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Errors and warnings of one file, each with its line and column. */
#include "log.h"

#include <stdio.h>
#include <string.h>

#include "utf8.h"

#define CUT "\xE2\x80\xA6" /* an ellipsis */

/* A longer message is cut; cells that it quotes are shortened before. */
#define MESSAGE_ROOM 1024

static void tell(struct log *log, bool error, long line, int column, const char *message) {
    struct mensur_texts *list = error ? &log->report->errors : &log->report->warnings;
    enum mensur_status status =
        log->file == NULL
            ? mensur_texts_add(list, "%s", message)
            : mensur_texts_add(list, "%s:%ld:%d: %s", log->file, line, column, message);
    if (status != MENSUR_OK) {
        log->status = MENSUR_MEMORY;
    }
}

void mensur_log_add(struct log *log, bool error, long line, int column, const char *format,
                    va_list values) {
    if (error && log->status == MENSUR_OK) {
        log->status = MENSUR_DATA;
    }
    size_t *count = error ? &log->errors : &log->warnings;
    if (++*count <= MENSUR_SAID_MOST && log->report != NULL) {
        char message[MESSAGE_ROOM];
        vsnprintf(message, sizeof(message), format, values);
        tell(log, error, line, column, message);
    }
}

void mensur_log_end(struct log *log) {
    const size_t counts[] = {log->warnings, log->errors};
    for (int error = 0; error < 2; error++) {
        size_t count = counts[error];
        if (count > MENSUR_SAID_MOST && log->report != NULL) {
            char message[MESSAGE_ROOM];
            size_t more = count - MENSUR_SAID_MOST;
            snprintf(message, sizeof(message),
                     "%zu more %s%s of this file %s not told; mend these first", more,
                     error ? "error" : "warning", more == 1 ? "" : "s", more == 1 ? "is" : "are");
            tell(log, error, 1, 1, message);
        }
    }
    log->errors = log->warnings = 0;
}

void mensur_log_error(struct log *log, long line, int column, const char *format, ...) {
    va_list values;
    va_start(values, format);
    mensur_log_add(log, true, line, column, format, values);
    va_end(values);
}

void mensur_log_warning(struct log *log, long line, int column, const char *format, ...) {
    va_list values;
    va_start(values, format);
    mensur_log_add(log, false, line, column, format, values);
    va_end(values);
}

const char *mensur_log_short(const char *text, char out[MENSUR_SHORT_ROOM]) {
    size_t length = strlen(text), most = MENSUR_SHORT_ROOM - sizeof(CUT);
    bool cut = length > most;
    if (cut) {
        length = mensur_utf8_whole(text, most);
    }
    length = mensur_utf8_calm(text, length, out);
    memcpy(out + length, cut ? CUT : "", cut ? sizeof(CUT) : 1);
    return out;
}

void mensur_report_clear(struct mensur_report *report) {
    mensur_texts_clear(&report->errors);
    mensur_texts_clear(&report->warnings);
}
