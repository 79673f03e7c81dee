/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shop: tables handed over as bytes, the rest built in. Its instruments are kept, since the
 * page asks after every move of a slider. */
#include <stdlib.h>
#include <string.h>

#include "engine.h"
#include "view.h"

/* The bytes are kept, to be freed: they cannot be const. */
/* NOLINTNEXTLINE(readability-non-const-parameter) */
enum mensur_status page_take(struct page *page, unsigned table, unsigned char *bytes, size_t size) {
    if (table >= MENSUR_TABLE_COUNT) {
        return MENSUR_USE;
    }
    free(page->next[table].bytes);
    page->next[table] = (struct held){bytes, size};
    return MENSUR_OK;
}

static void free_tables(struct held *tables) {
    for (size_t i = 0; i < MENSUR_TABLE_COUNT; i++) {
        free(tables[i].bytes);
        tables[i] = (struct held){.bytes = NULL};
    }
}

static void free_instruments(struct mensur_instrument *instruments, size_t count) {
    for (size_t i = 0; i < count; i++) {
        mensur_instrument_clear(&instruments[i]);
    }
    free(instruments);
}

static void page_shop_clear(struct page *page) {
    mensur_shop_clear(&page->shop);
    free_instruments(page->instruments, page->count);
    free_tables(page->given);
    page->instruments = NULL;
    page->count = page->room = 0;
    page->open = false;
}

/* mensur_visit: keeps a copy of each. */
static enum mensur_status keep(void *context, const struct mensur_instrument *instrument) {
    struct page *page = context;
    if (page->count == page->room) {
        size_t room = 2 * page->room + 16;
        struct mensur_instrument *grown =
            realloc(page->instruments, room * sizeof *page->instruments);
        if (grown == NULL) {
            return MENSUR_MEMORY;
        }
        page->instruments = grown;
        page->room = room;
    }
    enum mensur_status status = mensur_instrument_copy(instrument, &page->instruments[page->count]);
    page->count += status == MENSUR_OK;
    return status;
}

/* Reads the next tables into a page of its own, so that a bad shop does no harm to the open one. */
static enum mensur_status read_next(struct page *page, struct mensur_report *report,
                                    struct page *fresh) {
    struct mensur_bytes tables[MENSUR_TABLE_COUNT];
    size_t count = 0;
    for (size_t i = 0; i < MENSUR_TABLE_COUNT; i++) {
        if (page->next[i].bytes != NULL) {
            tables[count++] = (struct mensur_bytes){(enum mensur_table)i, page->next[i].bytes,
                                                    page->next[i].size};
        }
    }
    enum mensur_status status = mensur_shop_open_bytes(count == 0 ? "demonstration" : "your files",
                                                       tables, count, report, &fresh->shop);
    if (status == MENSUR_OK) {
        fresh->open = true;
        status = mensur_shop_instruments(&fresh->shop, true, keep, fresh, report);
    }
    return status;
}

static json_t *names_of(struct mensur_out *out, const void *first, size_t count, size_t size) {
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++) {
        /* every one of these structs starts with its name */
        const char *const *name = (const void *)((const char *)first + i * size);
        view_add(out, array, view_text(*name));
    }
    return array;
}

static json_t *sets_of(struct mensur_out *out, const struct mensur_stock *stock) {
    json_t *array = json_array(), *seen = json_object();
    for (size_t i = 0; i < stock->string_count; i++) {
        const char *set = stock->strings[i].set;
        if (set != NULL && json_object_get(seen, set) == NULL) {
            view_put(out, seen, set, json_true());
            view_add(out, array, view_text(set));
        }
    }
    json_decref(seen);
    return array;
}

/* The shop's habits, which the page's own controls start from. */
static json_t *settings_of(struct mensur_out *out, const struct mensur_stock *stock) {
    json_t *settings = json_object();
    for (size_t i = 0; i < stock->setting_count; i++) {
        if (stock->settings[i].value != NULL) {
            view_put(out, settings, stock->settings[i].name, view_text(stock->settings[i].value));
        }
    }
    return settings;
}

static json_t *tables_of(struct mensur_out *out, const struct mensur_shop *shop) {
    json_t *array = json_array();
    for (size_t i = 0; i < MENSUR_TABLE_COUNT; i++) {
        json_t *table = json_object();
        view_put(out, table, "file", view_text(mensur_table_file((enum mensur_table)i)));
        view_put(out, table, "rows", json_integer(shop->sources[i].rows));
        view_put(out, table, "built_in", json_boolean(shop->sources[i].built_in));
        view_add(out, array, table);
    }
    return array;
}

/* What may be wished for of the whole instrument, as the fields show it. */
static json_t *wishes_of(struct mensur_out *out) {
    json_t *list = json_array();
    for (enum mensur_wish_kind kind = 0; kind < MENSUR_WISH_COUNT; kind++) {
        const struct mensur_figure *figure = mensur_wish_figure(kind);
        if (mensur_wish_info(kind)->scope == MENSUR_SCOPE_STRING) {
            continue;
        }
        json_t *row = json_object();
        view_put(out, row, "about", view_text(mensur_wish_info(kind)->option));
        view_put(out, row, "label", view_text(figure->label));
        view_put(out, row, "kind",
                 view_text((figure->flags & MENSUR_FIGURE_RATIO) != 0 ? "ratio"
                           : figure->kind == MENSUR_LENGTH            ? "length"
                           : figure->kind == MENSUR_FORCE             ? "force"
                                                                      : "semitones"));
        view_add(out, list, row);
    }
    return list;
}

/* The words of an instrument's states, under those that the script knows them by. */
static json_t *states_of(struct mensur_out *out) {
    static const char *const keys[MENSUR_STATE_COUNT] = {
        [MENSUR_STATE_NOW] = "now",
        [MENSUR_STATE_PROPOSED] = "proposed",
        [MENSUR_STATE_RECOMMENDED] = "recommended",
        [MENSUR_STATE_MODEL] = "model",
    };
    json_t *object = json_object();
    for (int i = 0; i < MENSUR_STATE_COUNT; i++) {
        view_put(out, object, keys[i], view_text(mensur_state_word((enum mensur_state)i)));
    }
    return object;
}

static void put_contents(struct mensur_out *out, json_t *answer, const struct page *page) {
    const struct mensur_stock *stock = &page->shop.stock;
    view_put(out, answer, "shop", view_text(page->shop.label));
    view_put(out, answer, "instruments",
             names_of(out, page->instruments, page->count, sizeof *page->instruments));
    view_put(out, answer, "tunings",
             names_of(out, stock->tunings, stock->tuning_count, sizeof *stock->tunings));
    view_put(out, answer, "families",
             names_of(out, stock->families, stock->family_count, sizeof *stock->families));
    view_put(out, answer, "players",
             names_of(out, stock->players, stock->player_count, sizeof *stock->players));
    view_put(out, answer, "sets", sets_of(out, stock));
    view_put(out, answer, "states", states_of(out));
    view_put(out, answer, "settings", settings_of(out, stock));
    view_put(out, answer, "tables", tables_of(out, &page->shop));
    view_put(out, answer, "wishes", wishes_of(out));
}

static enum mensur_status reply_shop(struct page *page, const struct mensur_report *report) {
    struct mensur_sink sink = {mensur_kept_bytes_add, &page->reply};
    struct mensur_out out;
    mensur_out_open(&out, &sink, false);
    json_t *answer = json_object();
    view_put(&out, answer, "errors", view_texts(&out, &report->errors));
    view_put(&out, answer, "warnings", view_texts(&out, &report->warnings));
    if (page->open) {
        put_contents(&out, answer, page);
    }
    return view_write(&out, answer);
}

enum mensur_status page_open_shop(struct page *page) {
    struct mensur_report report = {.errors = {0}};
    struct page *fresh = calloc(1, sizeof *fresh);
    enum mensur_status status = fresh == NULL ? MENSUR_MEMORY : read_next(page, &report, fresh);
    if (status == MENSUR_OK) {
        page_shop_clear(page);
        memcpy(page->given, page->next, sizeof page->given);
        memset(page->next, 0, sizeof page->next);
        page->shop = fresh->shop;
        page->instruments = fresh->instruments;
        page->count = fresh->count;
        page->room = fresh->room;
        page->open = true;
    } else {
        if (fresh != NULL) {
            page_shop_clear(fresh);
        }
        free_tables(page->next);
    }
    free(fresh);
    enum mensur_status replied = reply_shop(page, &report);
    mensur_report_clear(&report);
    return status == MENSUR_OK ? replied : status;
}
