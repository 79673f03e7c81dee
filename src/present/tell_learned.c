/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is usual in a shop, as rows of families.csv. */
#include <math.h>

#include "number.h"
#include "telling.h"

/* A number as a table of the shop has it: fifteen digits, so that nothing is lost on the way. */
static void exact_cell(struct mensur_csv *row, const struct mensur_table_cell *cell) {
    char room[MENSUR_NUMBER_ROOM];
    (void)mensur_number_print_significant(mensur_from_si(cell->kind, cell->number), 15, room);
    mensur_csv_word(row, room);
}

/* A row of families.csv: texts as they stand there, as it is to be read again. */
static void learned_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct mensur_learned *learned = answer;
    const struct mensur_learned_family *family = &learned->families[i];
    for (size_t j = 0; j < family->cell_count; j++) {
        const struct mensur_table_cell *cell = &family->cells[j];
        if (row->head) {
            mensur_csv_word(row, cell->head);
        } else if (cell->text != NULL) {
            mensur_csv_quoted(row, "", cell->text);
        } else if (isnan(cell->number)) {
            mensur_csv_word(row, "");
        } else {
            exact_cell(row, cell);
        }
    }
}

static void csv(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_learned *learned = record;
    mensur_csv_rows(presenter, learned_row, learned, learned->count);
}

/* The row's numbers are in the units of families.csv. */
static void json(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_learned *learned = record;
    for (size_t i = 0; i < learned->count; i++) {
        const struct mensur_learned_family *family = &learned->families[i];
        struct mensur_json answer = json_begin_answer(presenter);
        mensur_json_text(&answer, "family", family->name);
        mensur_json_count(&answer, "instruments", (long)family->instruments);
        mensur_json_bool(&answer, "learnt", family->learnt);
        mensur_json_begin(&answer, "row", '{');
        for (size_t j = 0; j < family->cell_count; j++) {
            const struct mensur_table_cell *cell = &family->cells[j];
            if (cell->text != NULL) {
                mensur_json_text(&answer, cell->head, cell->text);
            } else {
                mensur_json_number(&answer, cell->head, cell->kind, cell->number);
            }
        }
        mensur_json_end(&answer, '}');
        json_put_empty(&answer, "assumed");
        mensur_json_texts(&answer, "warnings", &family->warnings);
        json_end_part(presenter, &answer, i, learned->count);
    }
}

static void clear(void *record) {
    mensur_learned_clear(record);
}

const struct mensur_answer_kind mensur_learned_answer = {
    .size = sizeof(struct mensur_learned),
    .clear = clear,
    .csv = csv,
    .json = json,
};
