/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From an answer to bytes. */
#include "answer_kind.h"
#include "dossier.h"
#include "drawing.h"
#include "pages.h"
#include "sheet.h"
#include "ways.h"

static enum mensur_status present_profiles(const struct mensur_answer *answer,
                                           struct mensur_presenter *presenter) {
    enum mensur_status status = MENSUR_OK;
    if (answer->profile_count == 2 && !answer->question->working) {
        mensur_present_of_two(presenter);
    }
    for (size_t i = 0; i < answer->profile_count && status == MENSUR_OK; i++) {
        if (answer->question->working) {
            mensur_present_set_working(presenter, &answer->workings[i]);
        }
        mensur_present_set_owners(presenter, answer->found[i].asked->owners.cells);
        status = mensur_present_profile(presenter, &answer->profiles[i]);
    }
    return status;
}

static enum mensur_status present(const struct mensur_answer *answer,
                                  struct mensur_presenter *presenter) {
    if (answer->kind == NULL) {
        return answer->profile_count > 0 ? present_profiles(answer, presenter) : MENSUR_USE;
    }
    if (answer->question->working) {
        mensur_present_set_working(presenter, &answer->working);
    }
    return mensur_present(presenter, answer->kind, answer->told);
}

static enum mensur_status write_words(const struct mensur_answer *answer,
                                      const struct mensur_sink *sink) {
    struct mensur_presenter *presenter = NULL;
    struct mensur_style style = answer->question->style;
    style.illustrate = style.whole_page ? mensur_draw_illustration : style.illustrate;
    enum mensur_status status = mensur_present_open(&answer->heading, &style, sink, &presenter);
    if (status != MENSUR_OK) {
        return status;
    }
    status = present(answer, presenter);
    enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
    return status == MENSUR_OK ? closed : status;
}

static struct mensur_dossier dossier_of(const struct mensur_answer *answer) {
    bool several = answer->comparison != NULL;
    struct mensur_dossier dossier = {
        .heading = &answer->heading,
        .profiles = several ? answer->comparison->instruments : answer->profiles,
        .count = several ? answer->comparison->count : answer->profile_count,
        .comparison = answer->comparison,
        .decision = answer->decision,
        .customer = answer->question->customer,
        .date = answer->question->date,
        .figures = answer->question->style};
    dossier.figures.illustrate = mensur_draw_illustration;
    dossier.figures.no_sources = false;
    return dossier;
}

static bool is_dossier(const struct mensur_answer *answer) {
    return answer->question->command == COMMAND_DOSSIER;
}

/* A dossier on paper: `pages` where it is not NULL, else a page is written. */
static enum mensur_status set_dossier(const struct mensur_answer *answer, size_t *pages,
                                      size_t page, const struct mensur_sink *sink) {
    const struct mensur_dossier dossier = dossier_of(answer);
    struct mensur_document document;
    mensur_document_open(&document, &dossier.figures, false);
    mensur_dossier_tell(&dossier, &document);
    enum mensur_status status =
        pages != NULL ? mensur_pages_count(&document, answer->question->paper, pages)
                      : mensur_pages_write(&document, answer->question->paper, page, sink);
    mensur_document_free(&document);
    return status;
}

static bool is_sheet(const struct mensur_answer *answer) {
    return answer->question->command == COMMAND_SHEET;
}

static struct mensur_sheet sheet_of(const struct mensur_answer *answer) {
    return (struct mensur_sheet){.profiles = answer->profiles,
                                 .count = answer->profile_count,
                                 .paper = answer->question->paper,
                                 .marks = answer->question->marks,
                                 .added = answer->question->added_tapes,
                                 .heading = answer->heading.title,
                                 .figures = answer->question->style};
}

static bool is_template(const struct mensur_answer *answer) {
    return answer->question->command == COMMAND_TEMPLATE;
}

struct mensur_template ask_template_of(const struct mensur_answer *answer) {
    bool changed = answer->comparison != NULL;
    return (struct mensur_template){.profile = changed ? &answer->comparison->instruments[1]
                                                       : &answer->profiles[0],
                                    .paper = answer->question->paper,
                                    .heading = answer->heading.title,
                                    .date = answer->question->date,
                                    .figures = answer->question->style};
}

enum mensur_status mensur_answer_draw(const struct mensur_answer *answer, unsigned parts,
                                      const struct mensur_drawing_style *style,
                                      const struct mensur_sink *sink) {
    const struct mensur_answer_kind *kind = answer->kind;
    struct mensur_illustration drawing = {.parts = 0};
    if (kind != NULL ? kind->drawing == NULL : answer->profile_count == 0) {
        return MENSUR_USE;
    }
    if (kind != NULL) {
        kind->drawing(answer->told, &drawing);
        drawing.parts = kind->file_parts != 0 ? kind->file_parts : drawing.parts;
    } else {
        const struct mensur_view *view = answer->question->way->view;
        drawing =
            (struct mensur_illustration){.parts = view != NULL ? mensur_view_drawing(view) : 0,
                                         .profiles = answer->profiles,
                                         .count = answer->profile_count};
        /* The bridge is that of the first one: among several it would be taken for all. */
        if (answer->profile_count > 1) {
            drawing.parts &= ~(unsigned)MENSUR_DRAW_BRIDGE;
        }
    }
    drawing.parts = parts != 0 ? parts : drawing.parts;
    return mensur_draw_file(&drawing, style, sink);
}

enum mensur_status mensur_answer_pages(const struct mensur_answer *answer, size_t *pages) {
    const struct mensur_sheet sheet = sheet_of(answer);
    const struct mensur_template template = ask_template_of(answer);
    *pages = 1;
    return is_template(answer) ? mensur_template_pages(&template, pages)
           : is_dossier(answer) && answer->question->medium == MENSUR_MEDIUM_PDF
               ? set_dossier(answer, pages, 0, NULL)
           : is_sheet(answer) ? mensur_sheet_pages(&sheet, pages)
                              : MENSUR_OK;
}

const char *mensur_answer_title(const struct mensur_answer *answer) {
    return is_sheet(answer)      ? MENSUR_SHEET_TITLE
           : is_template(answer) ? MENSUR_TEMPLATE_TITLE
           : is_dossier(answer)  ? "Dossier"
                                 : NULL;
}

enum mensur_status mensur_answer_write(const struct mensur_answer *answer, size_t page,
                                       const struct mensur_sink *sink) {
    const struct mensur_sheet sheet = sheet_of(answer);
    const struct mensur_template template = ask_template_of(answer);
    const struct mensur_dossier dossier = dossier_of(answer);
    const struct mensur_drawing_style style = {.figures = answer->question->style};
    switch (answer->question->medium) {
    case MENSUR_MEDIUM_WORDS:
        return write_words(answer, sink);
    case MENSUR_MEDIUM_HTML:
        return mensur_dossier_write(&dossier, sink);
    default:
        return is_template(answer)  ? mensur_template_page(&template, page, sink)
               : is_dossier(answer) ? set_dossier(answer, NULL, page, sink)
               : is_sheet(answer)   ? mensur_sheet_page(&sheet, page, sink)
                                    : mensur_answer_draw(answer, 0, &style, sink);
    }
}
