/* SPDX-License-Identifier: GPL-3.0-or-later */
/* check --usual: the shop's families, with what is usual in the shop, as rows of families.csv. */
#include <math.h>
#include <stdlib.h>

#include "asking.h"
#include "learning.h"
#include "shop_files.h"

#if defined(__GNUC__) && !defined(__clang__)
/* gcc's analyser takes memory for lost that is kept by what a family that was learned points to. */
#pragma GCC diagnostic ignored "-Wanalyzer-malloc-leak"
#endif

/* Instruments on their way. */
struct lesson {
    struct asking *asking;
    struct mensur_learned *learned; /* the answer */
    struct mensur_learning *learning;
    size_t without_family;
};

static enum mensur_status visit(void *context, const struct mensur_instrument *instrument) {
    struct lesson *lesson = context;
    const struct mensur_shop *shop = lesson->asking->shop;
    const struct mensur_family *family = mensur_stock_family(&shop->stock, instrument->family);
    if (family == NULL) {
        lesson->without_family++;
        return MENSUR_OK;
    }
    return mensur_learning_add(lesson->learning, family, instrument,
                               shop->sources[MENSUR_TABLE_INSTRUMENTS].label,
                               &lesson->learned->families[family - shop->stock.families].warnings);
}

static enum mensur_status read_instruments(struct lesson *lesson) {
    struct asking *asking = lesson->asking;
    struct mensur_report report = {.errors = {0}};
    enum mensur_status status = mensur_shop_instruments(asking->shop, true, visit, lesson, &report);
    enum mensur_status said = ask_say_report(&report, asking->messages);
    return status == MENSUR_OK ? said : status;
}

/* What there is to say of a family that has instruments. */
static enum mensur_status say_of(const struct mensur_learnt *learnt, struct mensur_texts *out) {
    const char *name = learnt->row.name;
    enum mensur_status status = MENSUR_OK;
    if (learnt->without_stop > 0) {
        status =
            mensur_texts_add(out,
                             "mensur: %s: %zu without a plausible, measured stop: left out, as "
                             "they cannot be scaled",
                             name, learnt->without_stop);
    }
    if (status == MENSUR_OK && !learnt->learnt && learnt->instruments + learnt->without_stop > 0) {
        status = mensur_texts_add(out,
                                  "mensur: %s: %zu instrument%s, fewer than %d: left out, its "
                                  "row stays as it was",
                                  name, learnt->instruments, learnt->instruments == 1 ? "" : "s",
                                  MENSUR_LEARNING_LEAST);
    }
    if (status == MENSUR_OK && learnt->parted) {
        status = mensur_texts_add(out,
                                  "mensur: %s: half of its stops lie below own_from: small_family, "
                                  "small_to and own_from are left out, its own values rule at "
                                  "every stop",
                                  name);
    }
    return status;
}

/* The row of a family, cell by cell. */
static enum mensur_status make_cells(const struct mensur_learnt *learnt,
                                     struct mensur_learned_family *out) {
    const struct mensur_family *row = &learnt->row;
    struct mensur_table_cell cell;
    size_t count = 0;
    while (mensur_family_cell(row, count, &cell)) {
        count++;
    }
    out->cells = calloc(count + 1, sizeof *out->cells);
    if (out->cells == NULL) {
        return MENSUR_MEMORY;
    }
    for (out->cell_count = 0; out->cell_count < count; out->cell_count++) {
        (void)mensur_family_cell(row, out->cell_count, &out->cells[out->cell_count]);
    }
    out->name = row->name;
    out->instruments = learnt->instruments;
    out->learnt = learnt->learnt;
    return MENSUR_OK;
}

/* Columns that are empty in every row are left out. */
static void drop_empty_columns(struct mensur_learned *learned) {
    size_t kept = 0;
    for (size_t i = 0; learned->count > 0 && i < learned->families[0].cell_count; i++) {
        bool used = false;
        for (size_t f = 0; f < learned->count; f++) {
            const struct mensur_table_cell *cell = &learned->families[f].cells[i];
            used = used || cell->text != NULL || !isnan(cell->number);
            learned->families[f].cells[kept] = *cell;
        }
        kept += used;
    }
    for (size_t f = 0; f < learned->count; f++) {
        learned->families[f].cell_count = kept;
    }
}

static enum mensur_status make_rows(struct lesson *lesson) {
    struct mensur_learned *learned = lesson->learned;
    struct mensur_texts *messages = lesson->asking->messages;
    enum mensur_status status = MENSUR_OK;
    bool any = false;
    for (size_t f = 0; f < learned->count && status == MENSUR_OK; f++) {
        struct mensur_learnt learnt;
        struct mensur_texts *warnings = &learned->families[f].warnings;
        status = mensur_learning_row(lesson->learning, f, &learnt);
        status = status == MENSUR_OK ? say_of(&learnt, warnings) : status;
        status = status == MENSUR_OK ? make_cells(&learnt, &learned->families[f]) : status;
        for (size_t i = 0; i < warnings->count && status == MENSUR_OK; i++) {
            status = mensur_texts_add(messages, "%s", warnings->items[i]);
        }
        any = any || (status == MENSUR_OK && learnt.learnt);
    }
    if (status == MENSUR_OK && lesson->without_family > 0) {
        status = mensur_texts_add(messages, "mensur: %zu without a family: left out",
                                  lesson->without_family);
    }
    if (status == MENSUR_OK && !any) {
        status =
            SAY(messages,
                "nothing is learnt: no family has %d instruments with a plausible, measured stop",
                MENSUR_LEARNING_LEAST);
        return status == MENSUR_USE ? MENSUR_NOT_MET : status;
    }
    if (status == MENSUR_OK) {
        drop_empty_columns(learned);
    }
    return status;
}

/* A families.csv stands in place of the built-in one, and its rows name each other: the families
 * that taught nothing keep their rows. */
enum mensur_status ask_make_learned(struct asking *asking) {
    const struct mensur_stock *stock = &asking->shop->stock;
    struct mensur_learned *learned = ask_record(asking->answer, &mensur_learned_answer);
    if (learned == NULL) {
        return MENSUR_MEMORY;
    }
    struct lesson lesson = {.asking = asking, .learned = learned};
    learned->families = calloc(stock->family_count + 1, sizeof *learned->families);
    if (learned->families == NULL) {
        return MENSUR_MEMORY;
    }
    learned->count = stock->family_count;
    enum mensur_status status = mensur_learning_begin(stock, &lesson.learning);
    status = status == MENSUR_OK ? read_instruments(&lesson) : status;
    status = status == MENSUR_OK ? make_rows(&lesson) : status;
    learned->learning = lesson.learning;
    return status;
}
