/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A source's bytes, piece by piece, from a file or from memory; the one place where a file of the
 * shop is opened. */
#ifndef MENSUR_READ_INPUT_H
#define MENSUR_READ_INPUT_H

#include <stdint.h>

#include "shop_files.h"

/* Opens a file to be read, without ever waiting for it: a regular one, or a link to one. MENSUR_OK;
 * MENSUR_DATA where it is of another kind, which *kind names ("a directory"); MENSUR_READ (errno
 * says why); MENSUR_MEMORY. */
enum mensur_status mensur_file_open(const char *path, struct mensur_file **out, const char **kind);

/* Its size when it was opened, in bytes. */
size_t mensur_file_size(const struct mensur_file *file);

/* Closes it; NULL is passed over. */
void mensur_file_close(struct mensur_file *file);

/* A reading of a source, from its first byte. */
struct input {
    struct mensur_file *file;   /* NULL: bytes in memory; borrowed */
    unsigned char *chunk;       /* owned; for a file */
    const unsigned char *bytes; /* in memory */
    size_t left;                /* bytes in memory still to be handed out */
    uint64_t length, hash;      /* of what was read of the file so far */
    bool ended;                 /* the file's end was reached */
};

/* Starts a reading, after whatever was read of the file before: one at a time. MENSUR_READ (errno
 * says why); MENSUR_MEMORY. */
enum mensur_status mensur_input_open(const struct mensur_source *source, struct input *out);

/* The next piece, borrowed until the next call; length 0 at the end. MENSUR_READ (errno says why,
 * or is 0). */
enum mensur_status mensur_input_next(struct input *input, const unsigned char **piece,
                                     size_t *length);

/* Whether what was read is of one version of the file: its size and time of modification are those
 * it was opened with, and a reading to the end gave the same bytes as the first one did (a hash of
 * 64 bits). */
bool mensur_input_is_of_one_version(struct input *input);

/* Ends the reading; the file stays open. */
void mensur_input_close(struct input *input);

#endif
