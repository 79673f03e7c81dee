/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Texts and exit codes of the status codes, from the list in the header. */
#include "status.h"

#include <stddef.h>

struct row {
    const char *text;
    int exit_code;
};

static const struct row rows[] = {
#define ROW(name, exit_code, text) [MENSUR_##name] = {text, exit_code},
    MENSUR_STATUS_LIST(ROW)
#undef ROW
};

static const struct row *find(enum mensur_status status) {
    /* through a long, because the enum may be signed or not */
    long at = (long)status;
    return at >= 0 && at < (long)(sizeof(rows) / sizeof(rows[0])) ? &rows[at] : NULL;
}

const char *mensur_status_text(enum mensur_status status) {
    const struct row *row = find(status);
    return row != NULL ? row->text : "unknown status";
}

int mensur_status_exit_code(enum mensur_status status) {
    const struct row *row = find(status);
    return row != NULL ? row->exit_code : 5;
}
