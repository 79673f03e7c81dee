/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A source's bytes, piece by piece, from a file or from memory.
 *
 * A file is opened once and read by its descriptor alone, so that one which is put in its place by
 * renaming is not mixed with it. The kind is looked at before opening, because to open a device can
 * have an effect, and after it, because another file may have come in between.
 */
#include "input.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The longest piece. */
#define CHUNK 65536

struct mensur_file {
    int descriptor;
    struct stat opened;    /* as it was when it was opened */
    bool known;            /* it was read to its end once: */
    uint64_t length, hash; /* what that reading gave */
};

/* NULL for a regular file. */
static const char *odd_kind(mode_t mode) {
    return S_ISREG(mode)    ? NULL
           : S_ISDIR(mode)  ? "a directory"
           : S_ISFIFO(mode) ? "a FIFO (named pipe)"
           : S_ISSOCK(mode) ? "a socket"
                            : "a device";
}

static enum mensur_status open_descriptor(const char *path, struct mensur_file *file,
                                          const char **kind) {
    if (stat(path, &file->opened) != 0) {
        return MENSUR_READ;
    }
    *kind = odd_kind(file->opened.st_mode);
    if (*kind != NULL) {
        return MENSUR_DATA;
    }
    file->descriptor = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    if (file->descriptor < 0) {
        return MENSUR_READ;
    }
    if (fstat(file->descriptor, &file->opened) != 0) {
        return MENSUR_READ;
    }
    *kind = odd_kind(file->opened.st_mode);
    return *kind == NULL ? MENSUR_OK : MENSUR_DATA;
}

enum mensur_status mensur_file_open(const char *path, struct mensur_file **out, const char **kind) {
    struct mensur_file *file = calloc(1, sizeof(*file));
    if (file == NULL) {
        return MENSUR_MEMORY;
    }
    file->descriptor = -1;
    enum mensur_status status = open_descriptor(path, file, kind);
    if (status == MENSUR_OK) {
        *out = file;
        return MENSUR_OK;
    }
    int why = errno;
    mensur_file_close(file);
    errno = why;
    return status;
}

size_t mensur_file_size(const struct mensur_file *file) {
    return (size_t)file->opened.st_size;
}

void mensur_file_close(struct mensur_file *file) {
    if (file != NULL && file->descriptor >= 0) {
        (void)close(file->descriptor);
    }
    free(file);
}

enum mensur_status mensur_input_open(const struct mensur_source *source, struct input *out) {
    struct input input = {.file = source->file, .bytes = source->bytes, .left = source->size};
    if (input.file != NULL && lseek(input.file->descriptor, 0, SEEK_SET) != 0) {
        return MENSUR_READ;
    }
    if (input.file != NULL) {
        input.chunk = malloc(CHUNK);
        if (input.chunk == NULL) {
            return MENSUR_MEMORY;
        }
    }
    *out = input;
    return MENSUR_OK;
}

/* A hash goes on over eight bytes, or less at the end; each step can be undone, so that files that
 * differ in eight bytes of one place have different ones. */
static inline uint64_t hash_word(uint64_t hash, const unsigned char *bytes, size_t length) {
    uint64_t word = 0;
    memcpy(&word, bytes, length);
    hash = (hash ^ word) * UINT64_C(0x9e3779b97f4a7c15); /* 2^64 / golden ratio, odd */
    return hash ^ hash >> 32;
}

static uint64_t hash_on(uint64_t hash, const unsigned char *bytes, size_t length) {
    for (; length >= 8; bytes += 8, length -= 8) {
        hash = hash_word(hash, bytes, 8);
    }
    return length > 0 ? hash_word(hash, bytes, length) : hash;
}

/* A piece of the file, whole unless the file ends in it: so every reading hashes the same words. */
static enum mensur_status read_piece(struct input *input, size_t *length) {
    size_t count = 0;
    while (count < CHUNK && !input->ended) {
        ssize_t more = read(input->file->descriptor, input->chunk + count, CHUNK - count);
        if (more < 0 && errno == EINTR) {
            continue;
        }
        if (more < 0) {
            return MENSUR_READ;
        }
        count += (size_t)more;
        input->ended = more == 0;
    }
    input->hash = hash_on(input->hash, input->chunk, count);
    input->length += count;
    *length = count;
    return MENSUR_OK;
}

enum mensur_status mensur_input_next(struct input *input, const unsigned char **piece,
                                     size_t *length) {
    if (input->file != NULL) {
        *piece = input->chunk;
        return read_piece(input, length);
    }
    *length = input->left < CHUNK ? input->left : CHUNK;
    *piece = input->bytes;
    if (*length > 0) {
        input->bytes += *length;
        input->left -= *length;
    }
    return MENSUR_OK;
}

static bool is_as_opened(const struct mensur_file *file) {
    struct stat now;
    return fstat(file->descriptor, &now) == 0 && now.st_size == file->opened.st_size &&
           now.st_mtim.tv_sec == file->opened.st_mtim.tv_sec &&
           now.st_mtim.tv_nsec == file->opened.st_mtim.tv_nsec;
}

bool mensur_input_is_of_one_version(struct input *input) {
    struct mensur_file *file = input->file;
    if (file == NULL) {
        return true;
    }
    if (input->ended && !file->known) {
        file->known = true;
        file->length = input->length;
        file->hash = input->hash;
    }
    bool same = !input->ended || (file->length == input->length && file->hash == input->hash);
    return same && is_as_opened(file);
}

void mensur_input_close(struct input *input) {
    free(input->chunk);
    *input = (struct input){0};
}
