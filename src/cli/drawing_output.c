/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing_output.h"

#include <stdio.h>

#include "paper.h"

enum drawing_kind drawing_kind(const struct options *options) {
    const char *path = options->text[OPTION_ID_output];
    if (path == NULL || options->text[OPTION_ID_format] != NULL) {
        return DRAWING_NONE;
    }
    return g_str_has_suffix(path, ".svg")   ? DRAWING_SVG
           : g_str_has_suffix(path, ".pdf") ? DRAWING_PDF
           : g_str_has_suffix(path, ".png") ? DRAWING_PNG
                                            : DRAWING_NONE;
}

bool drawing_refused(const struct options *options, const char *what) {
    bool asked = drawing_kind(options) != DRAWING_NONE;
    if (asked) {
        fprintf(stderr, "mensur: there is no drawing of %s; write .csv, .json or text\n", what);
    }
    return asked;
}

static enum mensur_status keep_bytes(void *context, const char *bytes, size_t length) {
    g_byte_array_append(context, (const guint8 *)bytes, (guint)length);
    return MENSUR_OK;
}

struct mensur_sink byte_sink(GByteArray *bytes) {
    return (struct mensur_sink){.write = keep_bytes, .context = bytes};
}

static struct mensur_paper_page page_of(const GByteArray *bytes) {
    return (struct mensur_paper_page){.svg = (const char *)bytes->data, .length = bytes->len};
}

/* MENSUR_WRITE was, or will be, said where the file is closed. */
static enum mensur_status say_failed(enum mensur_status status) {
    if (status == MENSUR_DATA) {
        fprintf(stderr, "mensur: the drawing is too large for a picture; write .svg or .pdf\n");
        return MENSUR_USE;
    }
    if (status == MENSUR_MEMORY) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    return status;
}

/* Closes the file, keeping it only where all went well. */
static enum mensur_status close_with(struct output *output, enum mensur_status status) {
    status = say_failed(status);
    enum mensur_status closed = output_close(output, status == MENSUR_OK);
    return closed == MENSUR_OK ? status : closed;
}

static enum mensur_status open_file(const struct question *question, struct output *output) {
    const struct options *options = question->options;
    return output_open(options->text[OPTION_ID_output], options->flag[OPTION_ID_overwrite], output);
}

static enum mensur_status write_on_paper(enum drawing_kind kind, draw_answer *draw,
                                         const void *answer,
                                         const struct mensur_drawing_style *style,
                                         const struct mensur_sink *sink) {
    GByteArray *bytes = g_byte_array_new();
    struct mensur_sink into = byte_sink(bytes);
    enum mensur_status status = draw(answer, style, &into);
    struct mensur_paper_page page = page_of(bytes);
    if (status == MENSUR_OK) {
        status = kind == DRAWING_PDF ? mensur_paper_pdf(&page, 1, NULL, sink)
                                     : mensur_paper_png(&page, sink);
    }
    g_byte_array_free(bytes, TRUE);
    return status;
}

enum mensur_status drawing_write(const struct question *question, draw_answer *draw,
                                 const void *answer) {
    enum drawing_kind kind = drawing_kind(question->options);
    struct mensur_drawing_style style = {.figures = question->style};
    struct output output;
    enum mensur_status status = open_file(question, &output);
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_sink sink = output_sink(&output);
    /* A dossier is no drawing, and is written as it is like an SVG. */
    status = kind == DRAWING_SVG || kind == DRAWING_NONE
                 ? draw(answer, &style, &sink)
                 : write_on_paper(kind, draw, answer, &style, &sink);
    return close_with(&output, status);
}

enum mensur_status drawing_write_pages(const struct question *question, const char *title,
                                       GByteArray *const *pages, size_t count) {
    struct mensur_paper_page *list = g_new0(struct mensur_paper_page, count);
    struct output output;
    enum mensur_status status = open_file(question, &output);
    for (size_t i = 0; i < count; i++) {
        list[i] = page_of(pages[i]);
    }
    if (status == MENSUR_OK) {
        struct mensur_sink sink = output_sink(&output);
        status = close_with(&output, mensur_paper_pdf(list, count, title, &sink));
    }
    g_free(list);
    return status;
}

/* Profiles of the instruments named, and what of them is drawn. */
struct rows {
    struct mensur_profile *profiles;
    size_t count;
    unsigned parts;
};

static enum mensur_status draw_rows(const void *answer, const struct mensur_drawing_style *style,
                                    const struct mensur_sink *sink) {
    const struct rows *rows = answer;
    return mensur_draw_profiles(rows->profiles, rows->count, rows->parts, style, sink);
}

static unsigned parts_of(enum command command, size_t count) {
    switch (command) {
    case COMMAND_TENSION:
        return MENSUR_DRAW_PULL;
    case COMMAND_FINGERS:
        return MENSUR_DRAW_PLACES;
    default:
        return count == 1 ? MENSUR_DRAW_SIDE | MENSUR_DRAW_BRIDGE : MENSUR_DRAW_SIDE;
    }
}

enum mensur_status profiles_of_names(struct question *question, struct mensur_profile *profiles,
                                     size_t *count) {
    const struct options *options = question->options;
    struct mensur_instrument *instruments = NULL;
    struct mensur_fault fault = {""};
    *count = 0;
    enum mensur_status status =
        shopfront_find(&question->shop, options->names, options->name_count, &instruments);
    if (status != MENSUR_OK) {
        return status;
    }
    while (*count < options->name_count && status == MENSUR_OK) {
        status = mensur_ask_profile(&question->shop.stock, &instruments[*count], &question->terms,
                                    MENSUR_PART_ALL, &fault, &profiles[*count]);
        if (status == MENSUR_OK) {
            ++*count;
        } else {
            say_fault(question, &instruments[*count], &fault);
        }
    }
    shopfront_free(instruments, options->name_count);
    return status;
}

enum mensur_status drawing_of_rows(struct question *question) {
    const struct options *options = question->options;
    if (options->name_count == 0 || options->flag[OPTION_ID_every]) {
        return shopfront_say_names(&question->shop, "a drawing shows instruments that are named");
    }
    struct rows rows = {.profiles = g_new0(struct mensur_profile, options->name_count),
                        .parts = parts_of(options->command, options->name_count)};
    enum mensur_status status = profiles_of_names(question, rows.profiles, &rows.count);
    if (status == MENSUR_OK) {
        status = drawing_write(question, draw_rows, &rows);
    }
    for (size_t i = 0; i < rows.count; i++) {
        mensur_profile_clear(&rows.profiles[i]);
    }
    g_free(rows.profiles);
    return status;
}
