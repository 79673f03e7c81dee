/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sheet: finger places at true size, as pages to print or as one long strip. */
#include <stdio.h>
#include <string.h>

#include "drawing_output.h"
#include "sheet.h"

static enum mensur_status read_paper(const struct options *options, struct mensur_sheet *sheet) {
    const char *paper = options->text[OPTION_ID_paper];
    if (drawing_kind(options) == DRAWING_SVG) {
        sheet->paper = MENSUR_SHEET_STRIP;
    } else if (paper == NULL || strcmp(paper, "a4") == 0) {
        sheet->paper = MENSUR_SHEET_A4;
    } else if (strcmp(paper, "letter") == 0) {
        sheet->paper = MENSUR_SHEET_LETTER;
    }
    if (paper != NULL && strcmp(paper, "a4") != 0 && strcmp(paper, "letter") != 0) {
        fprintf(stderr, "mensur: --paper takes %s, not \"%s\"\n",
                option_info(OPTION_ID_paper)->value, paper);
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

static enum mensur_status check_use(const struct options *options) {
    enum drawing_kind kind = drawing_kind(options);
    if (kind != DRAWING_PDF && kind != DRAWING_SVG) {
        fprintf(stderr, "mensur: a sheet wants --output FILE.pdf (pages to print) or FILE.svg (one "
                        "long strip)\n");
        return MENSUR_USE;
    }
    if (options->name_count > MENSUR_SHEET_INSTRUMENTS) {
        fprintf(stderr, "mensur: a sheet holds two instruments; \"%s\" is one too many\n",
                options->names[MENSUR_SHEET_INSTRUMENTS]);
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

static enum mensur_status draw_strip(const void *answer, const struct mensur_drawing_style *style,
                                     const struct mensur_sink *sink) {
    (void)style;
    return mensur_sheet_page(answer, 0, sink);
}

static enum mensur_status write_pages(const struct question *question,
                                      const struct mensur_sheet *sheet) {
    GByteArray *pages[MENSUR_SHEET_PAGES];
    size_t count = 0;
    enum mensur_status status = mensur_sheet_pages(sheet, &count);
    for (size_t i = 0; i < count; i++) {
        pages[i] = g_byte_array_new();
        struct mensur_sink sink = byte_sink(pages[i]);
        if (status == MENSUR_OK) {
            status = mensur_sheet_page(sheet, i, &sink);
        }
    }
    if (status == MENSUR_OK) {
        status = drawing_write_pages(question, "Finger places at true size", pages, count);
    } else {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    for (size_t i = 0; i < count; i++) {
        g_byte_array_free(pages[i], TRUE);
    }
    return status;
}

static enum mensur_status make(struct question *question) {
    const struct options *options = question->options;
    struct mensur_profile profiles[MENSUR_SHEET_INSTRUMENTS];
    struct mensur_sheet sheet = {.profiles = profiles, .figures = question->style};
    size_t count = 0;
    enum mensur_status status = read_paper(options, &sheet);
    if (status == MENSUR_OK) {
        status = profiles_of_names(question, profiles, &count);
    }
    sheet.count = count;
    if (status == MENSUR_OK) {
        status = sheet.paper == MENSUR_SHEET_STRIP ? drawing_write(question, draw_strip, &sheet)
                                                   : write_pages(question, &sheet);
    }
    for (size_t i = 0; i < count; i++) {
        mensur_profile_clear(&profiles[i]);
    }
    return status;
}

enum mensur_status command_sheet(const struct options *options) {
    struct question question;
    enum mensur_status status = check_use(options);
    if (status != MENSUR_OK) {
        return status;
    }
    status = question_open(options, &question);
    if (status != MENSUR_OK) {
        return status;
    }
    status = options->name_count == 0
                 ? shopfront_say_names(&question.shop, "name one instrument or two")
                 : make(&question);
    question_clear(&question);
    return status;
}
