/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * For each table of names a hash table of row numbers, with open addressing (Knuth, The Art of
 * Computer Programming 3, 6.4, algorithm L, from memory), at most half full; the hash is FNV-1a
 * (Fowler, Noll and Vo, from memory). The strings of a set are chained in their order.
 */
#include "stock_index.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#if defined(__GNUC__) && !defined(__clang__)
/* gcc's analyser takes memory for lost that is kept by an index. */
#pragma GCC diagnostic ignored "-Wanalyzer-malloc-leak"
#endif

/* Fewer rows than this are gone through as quickly. */
#define ROWS_LEAST 32

struct name_index {
    const void *rows; /* as they lay at the last update */
    size_t count;     /* of them that are noted */
    size_t *slots;    /* row + 1 of the first of each name; 0: free */
    size_t room;      /* slots: a power of two */
    /* of sets alone: by row the next of the same set; by first row the last; the rows' count: none
     */
    size_t *next, *last;
};

struct mensur_stock_index {
    struct name_index of[MENSUR_NAMED_COUNT];
};

/* The names of a table. */
struct names_view {
    const char *rows;
    size_t count, size, offset;
};

#define VIEW(list, number, row, title)                                                             \
    (struct names_view) {                                                                          \
        (const void *)stock->list, stock->number, sizeof(struct row), offsetof(struct row, title)  \
    }

static struct names_view view_of(const struct mensur_stock *stock, enum mensur_named_table table) {
    switch (table) {
    case MENSUR_NAMED_FAMILIES:
        return VIEW(families, family_count, mensur_family, name);
    case MENSUR_NAMED_TUNINGS:
        return VIEW(tunings, tuning_count, mensur_tuning, name);
    case MENSUR_NAMED_MATERIALS:
        return VIEW(materials, material_count, mensur_material, name);
    case MENSUR_NAMED_PLAYERS:
        return VIEW(players, player_count, mensur_player, name);
    case MENSUR_NAMED_SIZES:
        return VIEW(sizes, size_count, mensur_named_size, name);
    default:
        return VIEW(strings, string_count, mensur_string_spec, set);
    }
}

static const char *name_at(const struct names_view *view, size_t row) {
    const char *name;
    memcpy(&name, view->rows + row * view->size + view->offset, sizeof(name));
    return name;
}

static bool is_named(const struct names_view *view, size_t row, const char *name) {
    const char *own = name_at(view, row);
    return own != NULL && *own == *name && strcmp(own, name) == 0;
}

static size_t hash_of(const char *text) {
    uint64_t hash = UINT64_C(14695981039346656037);
    for (; *text != '\0'; text++) {
        hash = (hash ^ (unsigned char)*text) * UINT64_C(1099511628211);
    }
    return (size_t)(hash ^ hash >> 32);
}

/* The slot of a name: of its first row, or the free one where it would stand. */
static size_t *slot_of(const struct name_index *index, const struct names_view *view,
                       const char *name) {
    size_t at = hash_of(name) & (index->room - 1);
    while (index->slots[at] != 0 && !is_named(view, index->slots[at] - 1, name)) {
        at = (at + 1) & (index->room - 1);
    }
    return &index->slots[at];
}

/* The index of a table as it is now; NULL: there is none. */
static const struct name_index *index_of(const struct mensur_stock *stock,
                                         enum mensur_named_table table,
                                         const struct names_view *view) {
    const struct name_index *index = stock->index != NULL ? &stock->index->of[table] : NULL;
    bool current = index != NULL && index->slots != NULL && index->count == view->count &&
                   index->rows == view->rows;
    return current ? index : NULL;
}

static size_t go_through(const struct names_view *view, size_t from, const char *name) {
    while (from < view->count && !is_named(view, from, name)) {
        from++;
    }
    return from;
}

size_t mensur_stock_place(const struct mensur_stock *stock, enum mensur_named_table table,
                          const char *name) {
    const struct names_view view = view_of(stock, table);
    const struct name_index *index = index_of(stock, table, &view);
    if (name == NULL) {
        return view.count;
    }
    if (index == NULL) {
        return go_through(&view, 0, name);
    }
    size_t row = *slot_of(index, &view, name);
    return row > 0 ? row - 1 : view.count;
}

size_t mensur_stock_next_of_set(const struct mensur_stock *stock, size_t row) {
    const struct names_view view = view_of(stock, MENSUR_NAMED_SETS);
    const struct name_index *index = index_of(stock, MENSUR_NAMED_SETS, &view);
    if (index != NULL) {
        return index->next[row] < view.count ? index->next[row] : view.count;
    }
    return go_through(&view, row + 1, name_at(&view, row));
}

static void note_row(struct name_index *index, const struct names_view *view, size_t row) {
    const char *name = name_at(view, row);
    if (index->next != NULL) {
        index->next[row] = SIZE_MAX;
        index->last[row] = row;
    }
    if (name == NULL) {
        return;
    }
    size_t *slot = slot_of(index, view, name);
    if (*slot == 0) {
        *slot = row + 1;
    } else if (index->next != NULL) {
        size_t first = *slot - 1;
        index->next[index->last[first]] = row;
        index->last[first] = row;
    }
}

/* Room for twice as many rows; all are noted anew. */
static enum mensur_status grow(struct name_index *index, const struct names_view *view,
                               bool chained) {
    size_t room = (size_t)4 * ROWS_LEAST;
    while (room < 4 * view->count) {
        room *= 2;
    }
    struct name_index wider = {.rows = view->rows, .room = room};
    wider.slots = calloc(room, sizeof(*wider.slots));
    wider.next = chained ? malloc(room * sizeof(*wider.next)) : NULL;
    wider.last = chained ? malloc(room * sizeof(*wider.last)) : NULL;
    if (wider.slots == NULL || (chained && (wider.next == NULL || wider.last == NULL))) {
        free(wider.slots);
        free(wider.next);
        free(wider.last);
        return MENSUR_MEMORY;
    }
    free(index->slots);
    free(index->next);
    free(index->last);
    *index = wider;
    return MENSUR_OK;
}

static enum mensur_status update(struct name_index *index, const struct names_view *view,
                                 bool chained) {
    if (view->count < ROWS_LEAST || (view->count == index->count && view->rows == index->rows)) {
        return MENSUR_OK;
    }
    bool anew = index->slots == NULL || view->count < index->count || index->room < 2 * view->count;
    if (anew && grow(index, view, chained) != MENSUR_OK) {
        return MENSUR_MEMORY;
    }
    for (; index->count < view->count; index->count++) {
        note_row(index, view, index->count);
    }
    index->rows = view->rows;
    return MENSUR_OK;
}

enum mensur_status mensur_stock_index_update(struct mensur_stock *stock) {
    enum mensur_status status = MENSUR_OK;
    if (stock->index == NULL) {
        stock->index = calloc(1, sizeof(*stock->index));
    }
    if (stock->index == NULL) {
        return MENSUR_MEMORY;
    }
    for (int i = 0; i < MENSUR_NAMED_COUNT && status == MENSUR_OK; i++) {
        const struct names_view view = view_of(stock, (enum mensur_named_table)i);
        status = update(&stock->index->of[i], &view, i == MENSUR_NAMED_SETS);
    }
    return status;
}

void mensur_stock_index_free(struct mensur_stock *stock) {
    for (int i = 0; stock->index != NULL && i < MENSUR_NAMED_COUNT; i++) {
        free(stock->index->of[i].slots);
        free(stock->index->of[i].next);
        free(stock->index->of[i].last);
    }
    free(stock->index);
    stock->index = NULL;
}
