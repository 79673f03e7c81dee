/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "result_use.h"

#include <stdlib.h>
#include <string.h>

#include "texts.h"

static void fact_clear(struct mensur_fact *fact) {
    for (int i = 0; i < MENSUR_FACT_NAMES; i++) {
        free(fact->name[i]);
    }
}

static enum mensur_status make_room(struct mensur_facts *list) {
    if (list->count < list->room) {
        return MENSUR_OK;
    }
    size_t room = list->room == 0 ? 4 : 2 * list->room;
    struct mensur_fact *items = realloc(list->items, room * sizeof *items);
    if (items == NULL) {
        return MENSUR_MEMORY;
    }
    list->items = items;
    list->room = room;
    return MENSUR_OK;
}

void mensur_facts_add(struct mensur_facts *list, enum mensur_fact_kind kind,
                      const char *const *names, const double *numbers) {
    struct mensur_fact fact = {.kind = kind};
    if (list->status == MENSUR_OK) {
        list->status = make_room(list);
    }
    for (int i = 0; names != NULL && i < MENSUR_FACT_NAMES && list->status == MENSUR_OK; i++) {
        if (names[i] != NULL) {
            list->status = mensur_text_copy(names[i], strlen(names[i]), &fact.name[i]);
        }
    }
    if (list->status != MENSUR_OK) {
        fact_clear(&fact);
        return;
    }
    if (numbers != NULL) {
        memcpy(fact.number, numbers, sizeof fact.number);
    }
    list->items[list->count++] = fact;
}

void mensur_facts_clear(struct mensur_facts *list) {
    for (size_t i = 0; i < list->count; i++) {
        fact_clear(&list->items[i]);
    }
    free(list->items);
    *list = (struct mensur_facts){0};
}
