/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a struct page is made of: the tables handed over, the shop read from them, the reply. */
#ifndef MENSUR_PAGE_ENGINE_SHOP_H
#define MENSUR_PAGE_ENGINE_SHOP_H

#include "engine.h"
#include "shop.h"

/* Bytes that grow. */
struct reply {
    char *bytes;
    size_t size, room;
};

/* A table in memory; no bytes where it is the built-in one. */
struct held {
    unsigned char *bytes; /* owned */
    size_t size;
};

struct page {
    struct held given[MENSUR_TABLE_COUNT]; /* tables of the open shop */
    struct held next[MENSUR_TABLE_COUNT];  /* tables of the shop to be opened */
    struct mensur_shop shop;
    bool open;
    struct mensur_instrument *instruments; /* of the open shop; owned */
    size_t count, room;
    struct reply reply;
};

/* Tables: takes over bytes for the next shop; opens it, and keeps the old one where it is bad. The
 * reply says what is in the shop, or what was found wrong, in JSON. */
enum mensur_status page_take(struct page *page, unsigned table, unsigned char *bytes, size_t size);
enum mensur_status page_open_shop(struct page *page);
void page_shop_clear(struct page *page);
#endif
