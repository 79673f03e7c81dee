/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The page's engine: the library as a WebAssembly module. The script hands over the shop's files
 * and asks in the program's words; the engine answers with the program's bytes, or with the figures
 * that the page sets down (view.h). All of it hangs on one struct page, so that nothing is global.
 */
#ifndef MENSUR_PAGE_ENGINE_H
#define MENSUR_PAGE_ENGINE_H

#include "bytes.h"
#include "found.h"
#include "shop_files.h"

/* A table in memory; no bytes where it is the built-in one. */
struct held {
    unsigned char *bytes; /* owned */
    size_t size;
};

/* The latest drawing for a place of the page, by the lead of its ids. */
struct page_place {
    char id[24];
    struct mensur_kept_drawing kept;
};

struct page {
    struct held given[MENSUR_TABLE_COUNT]; /* tables of the open shop */
    struct held next[MENSUR_TABLE_COUNT];  /* tables of the shop to be opened */
    struct mensur_shop shop;
    bool open;
    struct mensur_instrument *instruments; /* of the open shop; owned */
    size_t count, room;
    char *words;             /* of the latest question; owned */
    const char *id;          /* begins the ids of the answer under way; NULL: as the program's */
    unsigned parts;          /* of enum mensur_html_parts, of that answer; 0: all */
    bool moving;             /* questions are asked without spread, drawings keep their axes */
    struct mensur_axes axes; /* of the latest drawings */
    struct mensur_sure_ends ends; /* of the latest decision while something is moved */
    struct mensur_question question;
    struct mensur_answer answer;  /* to the latest question */
    struct page_place places[12]; /* in the order in which they were first drawn */
    struct mensur_kept_bytes reply;
};

/* Tables: takes over bytes for the next shop; opens it, and keeps the old one where it is bad. The
 * reply says what is in the shop, or what was found wrong, in JSON. */
enum mensur_status page_take(struct page *page, unsigned table, unsigned char *bytes, size_t size);
enum mensur_status page_open_shop(struct page *page);

/* Writes instruments.csv with the changes of the question made, as one that was read again. */
enum mensur_status page_write_instruments(const struct page *page, const struct mensur_sink *sink);

/* Writes its rows of the instruments that the question names, as the shop has them. */
enum mensur_status page_write_named(const struct page *page, const struct mensur_sink *sink);

/* Figures of one instrument or two, under their keys. */
enum mensur_status page_write_figures(const struct mensur_answer *answer,
                                      const struct mensur_sink *sink);

/* Keys of figures, a NUL behind each; present_alone: of that instrument alone which the decision
 * is about. */
struct page_keys {
    const char *text;
    size_t size;
    bool present_alone;
};

/* Those figures of a decision's instruments, each under its state: now, proposed, recommended,
 * model; of the one decided on alone under its own. */
enum mensur_status page_write_decided(const struct mensur_decision *decision,
                                      const struct mensur_style *style,
                                      const struct page_keys *keys, const struct mensur_sink *sink);

/* The wishes of a decision, with what the end of each grows by a mm of neck (stop). */
enum mensur_status page_write_wishes(const struct mensur_decision *decision,
                                     const struct mensur_style *style,
                                     const struct mensur_sink *sink);

/* Where the axes of the latest drawings stand, in px and mm. */
enum mensur_status page_write_axes(const struct mensur_axes *axes, const struct mensur_sink *sink);

/* Every measurement of the first instrument found, whether or not it can be answered. */
enum mensur_status page_write_fields(const struct mensur_answer *made,
                                     const struct mensur_sink *sink);

#endif
