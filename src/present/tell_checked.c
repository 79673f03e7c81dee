/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The files of a shop: how many rows each has, and what is doubtful in it. */
#include <stdlib.h>

#include "telling.h"

static void tell(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_told_files *checked = record;
    struct mensur_document *document = &presenter->document;
    for (size_t i = 0; i < checked->count; i++) {
        const struct mensur_told_file *file = &checked->files[i];
        size_t rows = (size_t)(file->rows > 0 ? file->rows : 0);
        mensur_paragraph(document, 0, "%n: %s, ", file->file,
                         mensur_told_count(rows, file->row_name, file->row_name).text);
        if (file->warnings.count == 0) {
            mensur_say(document, "nothing wrong.");
        } else {
            mensur_say(document, "no error, %s.",
                       mensur_told_count(file->warnings.count, "warning", "warnings").text);
        }
        mensur_gather_warnings(&presenter->gathered, &file->warnings);
    }
    mensur_out_fail(&presenter->out, presenter->gathered.status);
}

static void checked_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct mensur_told_files *checked = answer;
    const struct mensur_told_file *file = &checked->files[i];
    mensur_csv_text(row, "file", file->file);
    mensur_csv_count(row, "rows", file->rows);
    mensur_csv_count(row, "warnings", (long)file->warnings.count);
}

static void csv(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_told_files *checked = record;
    mensur_csv_rows(presenter, checked_row, checked, checked->count);
}

static void json(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_told_files *checked = record;
    for (size_t i = 0; i < checked->count; i++) {
        const struct mensur_told_file *file = &checked->files[i];
        struct mensur_json answer = json_begin_answer(presenter);
        mensur_json_text(&answer, "file", file->file);
        mensur_json_count(&answer, "rows", file->rows);
        json_put_empty(&answer, "assumed");
        mensur_json_texts(&answer, "warnings", &file->warnings);
        json_end_part(presenter, &answer, i, checked->count);
    }
}

static void clear(void *record) {
    struct mensur_told_files *checked = record;
    for (size_t i = 0; i < checked->count; i++) {
        mensur_texts_clear(&checked->files[i].warnings);
    }
    free(checked->files);
}

const struct mensur_answer_kind mensur_checked_answer = {
    .size = sizeof(struct mensur_told_files),
    .clear = clear,
    .tell = tell,
    .csv = csv,
    .json = json,
};
