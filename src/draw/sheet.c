/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Divides a sheet into pages and writes them. */
#include "sheet.h"

#include <math.h>

#include "sheet_parts.h"
#include "svg.h"

#define BEFORE_NUT 10.0 /* mm, for the names of the open strings */
#define BEHIND_LAST 8.0

static const struct {
    double width, height;
} papers[] = {[MENSUR_SHEET_A4] = {297.0, 210.0}, [MENSUR_SHEET_LETTER] = {279.4, 215.9}};

/* mm from the nut that must be shown: the last place of either; for a strip the bridge too. */
static double needed(const struct mensur_sheet *sheet) {
    double most = NAN;
    for (size_t i = 0; i < sheet->count; i++) {
        const struct mensur_profile *profile = &sheet->profiles[i];
        if (profile->place_count == 0 || isnan(profile->lengths.string_length)) {
            return NAN;
        }
        most = fmax(most, profile->places[profile->place_count - 1].from_nut * MENSUR_SHEET_MM);
        if (sheet->paper == MENSUR_SHEET_STRIP) {
            most = fmax(most, profile->lengths.string_length * MENSUR_SHEET_MM);
        }
    }
    return most + BEHIND_LAST;
}

static double strips_height(const struct mensur_sheet *sheet) {
    return MENSUR_SHEET_STRIP_HEIGHT * (double)sheet->count;
}

static enum mensur_status look(const struct mensur_sheet *sheet, struct mensur_sheet_view *view) {
    double end = needed(sheet);
    *view = (struct mensur_sheet_view){.sheet = sheet, .pages = 1};
    if (!isfinite(end)) {
        return MENSUR_NO_ANSWER;
    }
    if (sheet->paper == MENSUR_SHEET_STRIP) {
        /* at least wide enough for the bars */
        view->width = fmax(end + BEFORE_NUT + 2.0 * MENSUR_SHEET_MARGIN, 250.0);
        view->height = MENSUR_SHEET_STRIPS + strips_height(sheet) + 33.0;
        return MENSUR_OK;
    }
    view->width = papers[sheet->paper].width;
    view->height = papers[sheet->paper].height;
    double window = view->width - 2.0 * MENSUR_SHEET_MARGIN;
    double step = window - MENSUR_SHEET_OVERLAP;
    double pages = ceil((end + BEFORE_NUT - MENSUR_SHEET_OVERLAP) / step);
    view->pages = pages < 1.0 ? 1 : (size_t)fmin(pages, MENSUR_SHEET_PAGES);
    return MENSUR_OK;
}

enum mensur_status mensur_sheet_pages(const struct mensur_sheet *sheet, size_t *pages) {
    struct mensur_sheet_view view;
    enum mensur_status status = look(sheet, &view);
    if (status == MENSUR_OK) {
        *pages = view.pages;
    }
    return status;
}

enum mensur_status mensur_sheet_page(const struct mensur_sheet *sheet, size_t page,
                                     const struct mensur_sink *sink) {
    struct mensur_svg svg = {.id = "sheet", .title = "Finger places at true size", .unit = "mm"};
    struct mensur_sheet_view view;
    struct mensur_out out;
    enum mensur_status status = look(sheet, &view);
    if (status != MENSUR_OK || page >= view.pages) {
        return status == MENSUR_OK ? MENSUR_DOMAIN : status;
    }
    double window = view.width - 2.0 * MENSUR_SHEET_MARGIN;
    view.page = page;
    view.from = (window - MENSUR_SHEET_OVERLAP) * (double)page - BEFORE_NUT;
    view.to = view.from + window;
    view.shapes.width = view.width;
    view.shapes.height = view.height;
    view.shapes.dash = 2.0;
    mensur_sheet_frame(&view);
    for (size_t i = 0; i < sheet->count; i++) {
        mensur_sheet_strip(&view, i, MENSUR_SHEET_STRIPS + MENSUR_SHEET_STRIP_HEIGHT * (double)i);
    }
    mensur_out_open(&out, sink, false);
    mensur_svg_write(&out, &svg, &view.shapes);
    mensur_out_flush(&out);
    mensur_shapes_clear(&view.shapes);
    return out.status;
}
