/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A source's bytes, piece by piece, from a file or from memory. */
#include "input.h"

#include <stdlib.h>

#define CHUNK 65536

enum mensur_status mensur_input_open(const struct mensur_source *source, struct input *out) {
    struct input input = {.bytes = source->bytes, .left = source->size};
    if (source->path != NULL) {
        input.file = fopen(source->path, "rb");
        if (input.file == NULL) {
            return MENSUR_READ;
        }
        input.chunk = malloc(CHUNK);
        if (input.chunk == NULL) {
            fclose(input.file);
            return MENSUR_MEMORY;
        }
        setvbuf(input.file, NULL, _IONBF, 0); /* the chunk is buffer enough */
    }
    *out = input;
    return MENSUR_OK;
}

enum mensur_status mensur_input_next(struct input *input, const unsigned char **piece,
                                     size_t *length) {
    if (input->file != NULL) {
        size_t count = fread(input->chunk, 1, CHUNK, input->file);
        if (count == 0 && ferror(input->file)) {
            return MENSUR_READ;
        }
        *piece = input->chunk;
        *length = count;
        return MENSUR_OK;
    }
    *length = input->left < CHUNK ? input->left : CHUNK;
    *piece = input->bytes;
    if (*length > 0) {
        input->bytes += *length;
        input->left -= *length;
    }
    return MENSUR_OK;
}

void mensur_input_close(struct input *input) {
    if (input->file != NULL) {
        fclose(input->file);
    }
    free(input->chunk);
    *input = (struct input){0};
}
