/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A source's bytes, piece by piece, from a file or from memory. */
#ifndef MENSUR_READ_INPUT_H
#define MENSUR_READ_INPUT_H

#include <stdio.h>

#include "shop.h"

/* An open source. */
struct input {
    FILE *file;           /* NULL: bytes in memory */
    unsigned char *chunk; /* owned; for a file */
    const unsigned char *bytes;
    size_t left; /* of the bytes in memory */
};

/* Opens a source; MENSUR_READ (errno says why) or MENSUR_MEMORY. */
enum mensur_status mensur_input_open(const struct mensur_source *source, struct input *out);

/* The next piece, borrowed until the next call; length 0 at the end. MENSUR_READ. */
enum mensur_status mensur_input_next(struct input *input, const unsigned char **piece,
                                     size_t *length);

/* Closes it. */
void mensur_input_close(struct input *input);

#endif
