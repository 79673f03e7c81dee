/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spool.h"

#include <signal.h>

/* A short answer stays in memory and touches no disk. */
enum { SPOOL_BUFFER = 65536 };

void spool_open(struct spool *spool) {
    /* A file size limit is a failed write, not the end of the program. */
    (void)signal(SIGXFSZ, SIG_IGN);
    spool->file = tmpfile();
    if (spool->file != NULL) {
        (void)setvbuf(spool->file, NULL, _IOFBF, SPOOL_BUFFER);
    }
}

void spool_close(struct spool *spool) {
    if (spool->file != NULL) {
        (void)fclose(spool->file);
    }
    spool->file = NULL;
}

static enum mensur_status write_bytes(void *context, const char *bytes, size_t length) {
    struct spool *spool = context;
    if (spool->file != NULL && length > 0 && fwrite(bytes, 1, length, spool->file) != length) {
        spool_close(spool);
    }
    return MENSUR_OK;
}

struct mensur_sink spool_sink(struct spool *spool) {
    return (struct mensur_sink){.write = write_bytes, .context = spool};
}

bool spool_is_whole(struct spool *spool) {
    if (spool->file != NULL && (fflush(spool->file) != 0 || ferror(spool->file) != 0)) {
        spool_close(spool);
    }
    return spool->file != NULL;
}

enum mensur_status spool_pour(struct spool *spool, const struct mensur_sink *to) {
    char chunk[SPOOL_BUFFER / 4];
    rewind(spool->file);
    for (size_t length; (length = fread(chunk, 1, sizeof chunk, spool->file)) > 0;) {
        enum mensur_status status = to->write(to->context, chunk, length);
        if (status != MENSUR_OK) {
            return status;
        }
    }
    return ferror(spool->file) == 0 ? MENSUR_OK : MENSUR_READ;
}
