/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A long instruments.csv in two halves.
 *
 * A line's end is a row's end where no cell in quotes has begun before it (RFC 4180). Such a cell
 * begins with its quote; one after a digit is an inch mark inside a cell and opens nothing. The
 * head is handed out before either half.
 */
#include "halves.h"

#include <stdlib.h>
#include <string.h>

#include "input.h"
#include "tables.h"

struct half {
    struct mensur_source source; /* label and path borrowed */
    struct names names;
};

struct mensur_halves {
    const struct mensur_stock *stock;
    struct half half[2];
};

static bool is_digit(unsigned char byte) {
    return byte >= '0' && byte <= '9';
}

/* True where a quote stands that no digit stands before; *before is the byte before the piece, and
 * becomes its last. */
static bool has_quoted_cell(const unsigned char *piece, size_t length, unsigned char *before) {
    const unsigned char *end = piece + length;
    for (const unsigned char *at = piece; (at = memchr(at, '"', (size_t)(end - at))) != NULL;
         at++) {
        if (!is_digit(at > piece ? at[-1] : *before)) {
            return true;
        }
    }
    *before = piece[length - 1];
    return false;
}

/* Bytes of a head that is the first line, its end included; 0 where the line names nothing. */
static size_t head_length(const unsigned char *piece, size_t length) {
    const unsigned char *end = memchr(piece, '\n', length);
    size_t head = end != NULL ? (size_t)(end - piece) + 1 : 0;
    for (size_t i = 0; i < head; i++) {
        if ((piece[i] >= 'a' && piece[i] <= 'z') || (piece[i] >= 'A' && piece[i] <= 'Z')) {
            return head;
        }
    }
    return 0;
}

/* Looks through a piece for the first row's end at or after the middle, which makes part->to;
 * MENSUR_NO_ANSWER where a cell in quotes begins before it. */
static enum mensur_status look_through(const unsigned char *piece, size_t length, size_t past,
                                       size_t middle, unsigned char *before,
                                       struct mensur_part *part) {
    size_t from = middle > past ? middle - past : 0;
    const unsigned char *end = from < length ? memchr(piece + from, '\n', length - from) : NULL;
    size_t seen = end != NULL ? (size_t)(end - piece) + 1 : length;
    if (has_quoted_cell(piece, seen, before)) {
        return MENSUR_NO_ANSWER;
    }
    part->to = end != NULL ? past + seen : 0;
    return MENSUR_OK;
}

static enum mensur_status find_cut(struct input *input, size_t middle, struct mensur_part *part) {
    unsigned char before = '\n';
    const unsigned char *piece;
    size_t length;
    for (size_t past = 0; part->to == 0; past += length) {
        enum mensur_status status = mensur_input_next(input, &piece, &length);
        if (status != MENSUR_OK) {
            return status;
        }
        part->head = past == 0 ? head_length(piece, length) : part->head;
        if (part->head == 0 || length == 0) {
            return MENSUR_NO_ANSWER;
        }
        middle = middle > part->head ? middle : part->head;
        status = look_through(piece, length, past, middle, &before, part);
        if (status != MENSUR_OK) {
            return status;
        }
    }
    return MENSUR_OK;
}

static enum mensur_status file_size(const char *path, size_t *size) {
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return MENSUR_READ;
    }
    off_t end = fseeko(file, 0, SEEK_END) == 0 ? ftello(file) : -1;
    fclose(file);
    if (end < 0) {
        return MENSUR_NO_ANSWER; /* a pipe */
    }
    *size = (size_t)end;
    return MENSUR_OK;
}

static enum mensur_status cut(const struct mensur_source *source, size_t least,
                              struct mensur_part parts[2]) {
    size_t size = 0;
    struct input input;
    enum mensur_status status =
        source->path != NULL ? file_size(source->path, &size) : MENSUR_NO_ANSWER;
    if (status == MENSUR_OK && size < least) {
        status = MENSUR_NO_ANSWER;
    }
    if (status == MENSUR_OK) {
        status = mensur_input_open(source, &input);
    }
    if (status != MENSUR_OK) {
        return status;
    }
    status = find_cut(&input, size / 2, &parts[0]);
    mensur_input_close(&input);
    if (status == MENSUR_OK && parts[0].to >= size) {
        status = MENSUR_NO_ANSWER;
    }
    parts[0].from = parts[0].head;
    parts[1] = (struct mensur_part){parts[0].head, parts[0].to, size};
    return status;
}

enum mensur_status mensur_halves_open(const struct mensur_shop *shop, size_t least,
                                      struct mensur_halves **halves) {
    const struct mensur_source *source = &shop->sources[MENSUR_TABLE_INSTRUMENTS];
    struct mensur_part parts[2] = {{0, 0, 0}, {0, 0, 0}};
    enum mensur_status status = cut(source, least, parts);
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_halves *made = calloc(1, sizeof(*made));
    if (made == NULL) {
        return MENSUR_MEMORY;
    }
    made->stock = &shop->stock;
    for (int i = 0; i < 2; i++) {
        made->half[i].source = *source;
        made->half[i].source.part = parts[i];
    }
    *halves = made;
    return MENSUR_OK;
}

enum mensur_status mensur_halves_read(struct mensur_halves *halves, int half, mensur_visit *visit,
                                      void *context, struct mensur_report *report) {
    struct lookups all = {true, true, true};
    struct half *own = &halves->half[half];
    return mensur_read_instruments(&own->source, halves->stock, all, &own->names, visit, context,
                                   report);
}

bool mensur_halves_share_names(const struct mensur_halves *halves) {
    return mensur_names_meet(&halves->half[0].names, &halves->half[1].names);
}

void mensur_halves_free(struct mensur_halves *halves) {
    for (int i = 0; halves != NULL && i < 2; i++) {
        mensur_names_clear(&halves->half[i].names);
    }
    free(halves);
}
