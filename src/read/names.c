/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Which names a file gave before.
 *
 * Kept is a 64-bit hash of each name (FNV-1a, Fowler, Noll and Vo, its bits mixed at the end, from
 * memory), eight bytes a row in a table at most three quarters full. Where a hash was there before,
 * the file is read once more at the end: to name the first row, and so that two names that merely
 * share a hash are no error.
 */
#include "names.h"

#include <stdlib.h>
#include <string.h>

static uint64_t hash_of(const char *text, size_t length) {
    uint64_t hash = UINT64_C(14695981039346656037);
    for (size_t i = 0; i < length; i++) {
        hash = (hash ^ (unsigned char)text[i]) * UINT64_C(1099511628211);
    }
    hash = (hash ^ hash >> 33) * UINT64_C(0xff51afd7ed558ccd);
    hash = (hash ^ hash >> 33) * UINT64_C(0xc4ceb9fe1a85ec53);
    hash ^= hash >> 33;
    return hash != 0 ? hash : 1;
}

/* Where a hash stands, or the free slot where it would. */
static size_t slot_of(const uint64_t *slots, size_t room, uint64_t hash) {
    size_t at = (size_t)hash & (room - 1);
    while (slots[at] != 0 && slots[at] != hash) {
        at = (at + 1) & (room - 1);
    }
    return at;
}

static bool make_room(struct names *names) {
    if (names->count < names->room / 4 * 3) {
        return true;
    }
    size_t room = names->room == 0 ? 64 : names->room * 2;
    uint64_t *slots = calloc(room, sizeof(*slots));
    if (slots == NULL) {
        return false;
    }
    for (size_t i = 0; i < names->room; i++) {
        if (names->slots[i] != 0) {
            slots[slot_of(slots, room, names->slots[i])] = names->slots[i];
        }
    }
    free(names->slots);
    names->slots = slots;
    names->room = room;
    return true;
}

static enum mensur_status add_hit(struct names *names, uint64_t hash, const struct cell *cell) {
    size_t count = names->hit_count;
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

enum mensur_status mensur_names_add(struct names *names, const struct cell *cell, bool *again) {
    if (!make_room(names)) {
        return MENSUR_MEMORY;
    }
    uint64_t hash = hash_of(cell->text, cell->length);
    size_t at = slot_of(names->slots, names->room, hash);
    *again = names->slots[at] != 0;
    if (*again) {
        return add_hit(names, hash, cell);
    }
    names->slots[at] = hash;
    names->count++;
    return MENSUR_OK;
}

static int compare_hits(const void *a, const void *b) {
    const struct name_hit *one = a, *other = b;
    if (one->hash != other->hash) {
        return one->hash < other->hash ? -1 : 1;
    }
    return strcmp(one->name, other->name);
}

/* The first hit of its like, which stands for all of them; NULL where there is none. */
static struct name_hit *find_hit(const struct names *names, const struct name_hit *key) {
    size_t low = 0, high = names->hit_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (compare_hits(&names->hits[middle], key) < 0) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    struct name_hit *hit = low < names->hit_count ? &names->hits[low] : NULL;
    return hit != NULL && compare_hits(hit, key) == 0 ? hit : NULL;
}

/* Every row of the second reading: is it the first of a name that came twice? */
static enum mensur_status find_first(void *context, const struct row *row) {
    struct names *names = context;
    if (names->column >= row->count) {
        return MENSUR_OK;
    }
    struct cell *cell = &row->cells[names->column];
    struct name_hit key = {.hash = hash_of(cell->text, cell->length), .name = cell->text};
    struct name_hit *hit = find_hit(names, &key);
    if (hit != NULL && hit->first == 0) {
        hit->first = cell->line;
    }
    return MENSUR_OK;
}

static int compare_lines(const void *a, const void *b) {
    const struct name_hit *one = a, *other = b;
    return (one->line > other->line) - (one->line < other->line);
}

static void report_hits(struct names *names, struct log *log) {
    char text[MENSUR_SHORT_ROOM];
    for (size_t i = 1; i < names->hit_count; i++) {
        if (compare_hits(&names->hits[i - 1], &names->hits[i]) == 0) {
            names->hits[i].first = names->hits[i - 1].first;
        }
    }
    qsort(names->hits, names->hit_count, sizeof(*names->hits), compare_lines);
    for (size_t i = 0; i < names->hit_count; i++) {
        const struct name_hit *hit = &names->hits[i];
        if (hit->first != 0 && hit->first < hit->line) {
            mensur_log_error(log, hit->line, names->column + 1,
                             "name: \"%s\" stands in line %ld already; give each its own name",
                             mensur_log_short(hit->name, text), hit->first);
        }
    }
}

enum mensur_status mensur_names_report(struct names *names, const struct mensur_source *source,
                                       struct log *log) {
    if (names->hit_count == 0) {
        return MENSUR_OK;
    }
    struct log silent = {.file = log->file};
    qsort(names->hits, names->hit_count, sizeof(*names->hits), compare_hits);
    enum mensur_status status = mensur_rows_read(source, &silent, find_first, names);
    if (status != MENSUR_OK && status != MENSUR_DATA) {
        return status;
    }
    report_hits(names, log);
    return MENSUR_OK;
}

void mensur_names_clear(struct names *names) {
    for (size_t i = 0; i < names->hit_count; i++) {
        free(names->hits[i].name);
    }
    free(names->hits);
    free(names->slots);
    *names = (struct names){0};
}
