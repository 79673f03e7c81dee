/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which names a file gave more than once.
 *
 * Kept is a 64-bit hash of each name (FNV-1a, Fowler, Noll and Vo, its bits mixed at the end, from
 * memory), eight bytes a row; at the file's end they are sorted, and equal ones lie side by side.
 * Only then, if any are equal, is the file read once more: to name the rows, and so that two names
 * that merely share a hash are no error.
 */
#include "names.h"

#include <stdlib.h>
#include <string.h>

/* From here on a sort that takes as long for one as for a hundred is the quicker. */
#define MANY 256

static uint64_t hash_of(const char *text, size_t length) {
    uint64_t hash = UINT64_C(14695981039346656037);
    for (size_t i = 0; i < length; i++) {
        hash = (hash ^ (unsigned char)text[i]) * UINT64_C(1099511628211);
    }
    hash = (hash ^ hash >> 33) * UINT64_C(0xff51afd7ed558ccd);
    hash = (hash ^ hash >> 33) * UINT64_C(0xc4ceb9fe1a85ec53);
    return hash ^ hash >> 33;
}

enum mensur_status mensur_names_add(struct names *names, const struct cell *cell) {
    if (names->count == names->room) {
        size_t room = names->room == 0 ? 64 : names->room * 2;
        uint64_t *hashes = realloc(names->hashes, room * sizeof(*hashes));
        if (hashes == NULL) {
            return MENSUR_MEMORY;
        }
        names->hashes = hashes;
        names->room = room;
    }
    names->hashes[names->count++] = hash_of(cell->text, cell->length);
    return MENSUR_OK;
}

static int compare_hashes(const void *a, const void *b) {
    uint64_t one = *(const uint64_t *)a, other = *(const uint64_t *)b;
    return (one > other) - (one < other);
}

/* One pass of a radix sort: by this byte, those with the same one in the order they had. */
static void sort_by_byte(const uint64_t *from, size_t count, int shift, uint64_t *to) {
    size_t place[256] = {0}, before = 0;
    for (size_t i = 0; i < count; i++) {
        place[from[i] >> shift & 0xFF]++;
    }
    for (int i = 0; i < 256; i++) {
        size_t own = place[i];
        place[i] = before;
        before += own;
    }
    for (size_t i = 0; i < count; i++) {
        to[place[from[i] >> shift & 0xFF]++] = from[i];
    }
}

/* A few are sorted without a second list. Of many the upper half of the bits is sorted, which
 * leaves but a few together to be sorted by the lower half. */
static enum mensur_status sort_hashes(struct names *names) {
    size_t count = names->count, together = 0;
    uint64_t *hashes = names->hashes;
    if (count < MANY) {
        if (count > 1) {
            qsort(hashes, count, sizeof(*hashes), compare_hashes);
        }
        return MENSUR_OK;
    }
    uint64_t *other = malloc(count * sizeof(*other));
    if (other == NULL) {
        return MENSUR_MEMORY;
    }
    for (int shift = 32; shift < 64; shift += 16) {
        sort_by_byte(hashes, count, shift, other);
        sort_by_byte(other, count, shift + 8, hashes);
    }
    free(other);
    for (size_t i = 1; i <= count; i++) {
        if (i < count && hashes[i] >> 32 == hashes[together] >> 32) {
            continue;
        }
        if (i - together > 1) {
            qsort(hashes + together, i - together, sizeof(*hashes), compare_hashes);
        }
        together = i;
    }
    return MENSUR_OK;
}

static bool any_repeated(const struct names *names) {
    for (size_t i = 1; i < names->count; i++) {
        if (names->hashes[i] == names->hashes[i - 1]) {
            return true;
        }
    }
    return false;
}

/* Leaves of the sorted hashes those that came more than once, each once. */
static void keep_repeated(struct names *names) {
    uint64_t *hashes = names->hashes;
    size_t kept = 0;
    for (size_t i = 1; i < names->count; i++) {
        bool again = hashes[i] == hashes[i - 1];
        if (again && (kept == 0 || hashes[kept - 1] != hashes[i])) {
            hashes[kept++] = hashes[i];
        }
    }
    names->count = kept;
}

static enum mensur_status add_hit(struct names *names, uint64_t hash, const struct cell *cell) {
    size_t count = names->hit_count;
    if (count == MENSUR_HITS_MOST) {
        names->hits_left_out = true;
        return MENSUR_OK;
    }
    if ((count & (count - 1)) == 0) { /* full at each power of two */
        size_t room = count == 0 ? 1 : count * 2;
        struct name_hit *hits = realloc(names->hits, room * sizeof(*hits));
        if (hits == NULL) {
            return MENSUR_MEMORY;
        }
        names->hits = hits;
    }
    struct name_hit hit = {.hash = hash, .line = cell->line};
    if (mensur_text_copy(cell->text, cell->length, &hit.name) != MENSUR_OK) {
        return MENSUR_MEMORY;
    }
    names->hits[names->hit_count++] = hit;
    return MENSUR_OK;
}

/* Every row of the second reading: is its name's hash one that came more than once? */
static enum mensur_status find_hit(void *context, const struct row *row) {
    struct names *names = context;
    bool head = !names->past_head;
    names->past_head = true;
    if (head || names->column >= row->count) {
        return MENSUR_OK;
    }
    const struct cell *cell = &row->cells[names->column];
    uint64_t hash = hash_of(cell->text, cell->length);
    bool repeated =
        bsearch(&hash, names->hashes, names->count, sizeof(hash), compare_hashes) != NULL;
    return repeated ? add_hit(names, hash, cell) : MENSUR_OK;
}

/* By name, and those of one name by line. */
static int compare_hits(const void *a, const void *b) {
    const struct name_hit *one = a, *other = b;
    int order = compare_hashes(&one->hash, &other->hash);
    order = order != 0 ? order : strcmp(one->name, other->name);
    return order != 0 ? order : (one->line > other->line) - (one->line < other->line);
}

static int compare_lines(const void *a, const void *b) {
    const struct name_hit *one = a, *other = b;
    return (one->line > other->line) - (one->line < other->line);
}

/* Gives every hit the line of the first of its name. */
static void find_firsts(struct names *names) {
    struct name_hit *hits = names->hits;
    qsort(hits, names->hit_count, sizeof(*hits), compare_hits);
    for (size_t i = 0; i < names->hit_count; i++) {
        bool same = i > 0 && strcmp(hits[i - 1].name, hits[i].name) == 0;
        hits[i].first = same ? hits[i - 1].first : hits[i].line;
    }
    qsort(hits, names->hit_count, sizeof(*hits), compare_lines);
}

static void report_hits(const struct names *names, struct log *log) {
    char text[MENSUR_SHORT_ROOM];
    if (names->hits_left_out) {
        mensur_log_error(log, 1, names->column + 1,
                         "name: more than %d rows share their name with another; give each its own",
                         MENSUR_HITS_MOST);
    }
    for (size_t i = 0; i < names->hit_count; i++) {
        const struct name_hit *hit = &names->hits[i];
        if (hit->first < hit->line) {
            mensur_log_error(log, hit->line, names->column + 1,
                             "name: \"%s\" stands in line %ld already; give each its own name",
                             mensur_log_short(hit->name, text), hit->first);
        }
    }
}

/* What is wrong with the file was said by the first reading; said is only why this one fails. */
static enum mensur_status read_again(struct names *names, const struct mensur_source *source,
                                     struct log *log) {
    struct mensur_report report = {.errors = {0}};
    struct log own = {.file = log->file, .report = &report};
    enum mensur_status status = mensur_rows_read(source, &own, find_hit, names);
    if (status == MENSUR_READ && log->report != NULL) {
        const char *why = report.errors.items[report.errors.count - 1];
        status = mensur_texts_add(&log->report->errors, "%s", why) == MENSUR_OK ? MENSUR_READ
                                                                                : MENSUR_MEMORY;
    }
    mensur_report_clear(&report);
    return status;
}

enum mensur_status mensur_names_report(struct names *names, const struct mensur_source *source,
                                       struct log *log) {
    enum mensur_status status = sort_hashes(names);
    if (status != MENSUR_OK || !any_repeated(names)) {
        return status;
    }
    keep_repeated(names);
    status = read_again(names, source, log);
    if (status != MENSUR_OK && status != MENSUR_DATA) {
        return status;
    }
    if (names->hit_count > 0) {
        find_firsts(names);
    }
    report_hits(names, log);
    return MENSUR_OK;
}

void mensur_names_clear(struct names *names) {
    for (size_t i = 0; i < names->hit_count; i++) {
        free(names->hits[i].name);
    }
    free(names->hits);
    free(names->hashes);
    *names = (struct names){0};
}
