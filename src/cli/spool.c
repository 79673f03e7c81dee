/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spool.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { BUFFER = 65536 };

void spool_open(struct spool *spool) {
    *spool = (struct spool){.buffer = malloc(BUFFER)};
    spool->lost = spool->buffer == NULL;
}

void spool_close(struct spool *spool) {
    if (spool->file != NULL) {
        (void)fclose(spool->file);
    }
    free(spool->buffer);
    *spool = (struct spool){.lost = true};
}

static bool write_all(int file, const char *bytes, size_t length) {
    while (length > 0) {
        ssize_t count = write(file, bytes, length);
        if (count < 0 && errno != EINTR) {
            return false;
        }
        bytes += count > 0 ? count : 0;
        length -= count > 0 ? (size_t)count : 0;
    }
    return true;
}

static void drain(struct spool *spool) {
    spool->file = spool->file == NULL ? tmpfile() : spool->file;
    if (spool->file == NULL || !write_all(fileno(spool->file), spool->buffer, spool->used)) {
        spool->lost = true;
    }
    spool->used = 0;
}

static enum mensur_status write_bytes(void *context, const char *bytes, size_t length) {
    struct spool *spool = context;
    while (length > 0 && !spool->lost) {
        size_t room = BUFFER - spool->used, part = length < room ? length : room;
        memcpy(spool->buffer + spool->used, bytes, part);
        spool->used += part;
        bytes += part;
        length -= part;
        if (spool->used == BUFFER) {
            drain(spool);
        }
    }
    return MENSUR_OK;
}

struct mensur_sink spool_sink(struct spool *spool) {
    return (struct mensur_sink){.write = write_bytes, .context = spool};
}

bool spool_is_whole(struct spool *spool) {
    if (!spool->lost && spool->file != NULL) {
        drain(spool);
    }
    return !spool->lost;
}

/* The next bytes of the file, which its buffer is free for; -1 where it cannot be read. */
static ssize_t read_piece(const struct spool *spool) {
    ssize_t count;
    do {
        count = read(fileno(spool->file), spool->buffer, BUFFER);
    } while (count < 0 && errno == EINTR);
    return count;
}

static enum mensur_status pour_file(const struct spool *spool, const struct mensur_sink *to) {
    enum mensur_status status =
        lseek(fileno(spool->file), 0, SEEK_SET) == 0 ? MENSUR_OK : MENSUR_READ;
    while (status == MENSUR_OK) {
        ssize_t count = read_piece(spool);
        if (count <= 0) {
            return count == 0 ? MENSUR_OK : MENSUR_READ;
        }
        status = to->write(to->context, spool->buffer, (size_t)count);
    }
    return status;
}

enum mensur_status spool_pour(struct spool *spool, const struct mensur_sink *to) {
    return spool->file != NULL ? pour_file(spool, to)
                               : to->write(to->context, spool->buffer, spool->used);
}
