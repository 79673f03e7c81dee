/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A source's bytes, piece by piece, from a file or from memory. */
#include "input.h"

#include <stdint.h>
#include <stdlib.h>

#define CHUNK MENSUR_INPUT_CHUNK

enum mensur_status mensur_input_open(const struct mensur_source *source, struct input *out) {
    struct input input = {.bytes = source->bytes, .left = source->size};
    if (source->path != NULL) {
        bool part = source->part.to > 0;
        input.left = part ? source->part.to - source->part.from : SIZE_MAX;
        input.head = part ? source->part.head : 0;
        input.from = source->part.from;
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

/* A piece of the file; of a part the head is one, and the rows follow elsewhere. */
static enum mensur_status read_piece(struct input *input, size_t *length) {
    bool head = input->head > 0;
    size_t most = head ? input->head : input->left < CHUNK ? input->left : CHUNK;
    size_t count = fread(input->chunk, 1, most, input->file);
    if (count == 0 && ferror(input->file)) {
        return MENSUR_READ;
    }
    if (head && fseeko(input->file, (off_t)input->from, SEEK_SET) != 0) {
        return MENSUR_READ;
    }
    input->left -= head ? 0 : count;
    input->head = 0;
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

void mensur_input_close(struct input *input) {
    if (input->file != NULL) {
        fclose(input->file);
    }
    free(input->chunk);
    *input = (struct input){0};
}
