/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A source's bytes, piece by piece, from a file or from memory. */
#ifndef MENSUR_READ_INPUT_H
#define MENSUR_READ_INPUT_H

#include <stdio.h>

#include "shop.h"

/* The longest piece. */
#define MENSUR_INPUT_CHUNK 65536

/* An open source. */
struct input {
    FILE *file;                 /* NULL: bytes in memory */
    unsigned char *chunk;       /* owned; for a file */
    const unsigned char *bytes; /* in memory */
    size_t left;                /* bytes still to be handed out, the head's aside */
    size_t head;                /* of a part: bytes of the file's head, until they are handed out */
    size_t from;                /* of a part: where its rows begin */
};

/* Opens a source; MENSUR_READ (errno says why) or MENSUR_MEMORY. */
enum mensur_status mensur_input_open(const struct mensur_source *source, struct input *out);

/* The next piece, borrowed until the next call; length 0 at the end. MENSUR_READ. */
enum mensur_status mensur_input_next(struct input *input, const unsigned char **piece,
                                     size_t *length);

/* Closes it. */
void mensur_input_close(struct input *input);

#endif
