/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels, as in shortest paths with a resource (order of Pareto). Without room for more of them the
 * search is slower, and not other. */
#include "restring_labels.h"

#include <stdlib.h>

enum {
    LABELS_MAX = 1 << 20,   /* in all */
    LABELS_LOOKED_AT = 512, /* of a rung */
    FIRST_ROOM = 1024
};

/* A way from the first note to a rung. */
struct label {
    int64_t cost;
    double force;
    size_t next; /* the rung's label before it, plus 1; 0: none */
};

int restring_compare(const size_t *a, const size_t *b, size_t notes) {
    for (size_t i = 0; i < notes; i++) {
        if (a[i] != b[i]) {
            return a[i] < b[i] ? -1 : 1;
        }
    }
    return 0;
}

enum mensur_status labels_make(const struct ladders *ladders, size_t wanted, struct labels *out) {
    *out = (struct labels){.notes = ladders->count, .wanted = wanted};
    for (size_t i = 0; i < ladders->count; i++) {
        out->first[i] = out->head_count;
        out->head_count += ladders->items[i].count;
    }
    out->heads = calloc(out->head_count, sizeof *out->heads);
    return out->heads == NULL ? MENSUR_MEMORY : MENSUR_OK;
}

void labels_clear(struct labels *labels) {
    free(labels->heads);
    free(labels->items);
    free(labels->places);
    *labels = (struct labels){.count = 0};
}

void labels_forget(struct labels *labels) {
    labels->count = 0;
    for (size_t k = 0; k < labels->head_count; k++) {
        labels->heads[k] = 0;
    }
}

static bool has_room(struct labels *labels) {
    if (labels->count < labels->room) {
        return true;
    }
    size_t room = labels->room == 0 ? FIRST_ROOM : 2 * labels->room;
    if (room > LABELS_MAX) {
        return false;
    }
    struct label *items = realloc(labels->items, room * sizeof *items);
    if (items == NULL) {
        return false;
    }
    labels->items = items;
    size_t *places = realloc(labels->places, room * labels->notes * sizeof *places);
    if (places == NULL) {
        return false;
    }
    labels->places = places;
    labels->room = room;
    return true;
}

static void keep(struct labels *labels, size_t *head, size_t i, const size_t *places, int64_t cost,
                 double force) {
    if (!has_room(labels)) {
        return;
    }
    size_t *own = labels->places + labels->count * labels->notes;
    for (size_t k = 0; k <= i; k++) {
        own[k] = places[k];
    }
    labels->items[labels->count++] = (struct label){.cost = cost, .force = force, .next = *head};
    *head = labels->count;
}

static bool is_better(const struct labels *labels, size_t k, size_t i, const size_t *places,
                      int64_t cost, double force) {
    const struct label *label = &labels->items[k];
    if (label->force > force || label->cost > cost) {
        return false;
    }
    return label->cost < cost ||
           restring_compare(labels->places + k * labels->notes, places, i + 1) < 0;
}

bool labels_outdo(struct labels *labels, size_t i, size_t rung, const size_t *places, int64_t cost,
                  double force) {
    size_t *head = &labels->heads[labels->first[i] + rung];
    size_t better = 0;
    size_t at = *head;
    for (size_t seen = 0; at != 0 && seen < LABELS_LOOKED_AT; seen++) {
        if (is_better(labels, at - 1, i, places, cost, force) && ++better == labels->wanted) {
            return true;
        }
        at = labels->items[at - 1].next;
    }
    keep(labels, head, i, places, cost, force);
    return false;
}
