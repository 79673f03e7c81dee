/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page: where places stand on it, title, order of the pages, bars, register marks. */
#include <string.h>

#include "sheet_parts.h"

static const struct mensur_pen fine = {MENSUR_PAINT_INK, 0.2, MENSUR_DASH_NONE};

double mensur_sheet_x(const struct mensur_sheet_view *view, double from_nut) {
    return MENSUR_SHEET_MARGIN + from_nut * MENSUR_SHEET_MM - view->from;
}

bool mensur_sheet_shows(const struct mensur_sheet_view *view, double from_nut) {
    return from_nut * MENSUR_SHEET_MM >= view->from && from_nut * MENSUR_SHEET_MM <= view->to;
}

struct mensur_lettering mensur_sheet_letters(double size, enum mensur_anchor anchor) {
    return (struct mensur_lettering){.size = size, .anchor = anchor, .paint = MENSUR_PAINT_INK};
}

/* Joins short texts to one line. */
static const char *join(char *line, size_t room, const char *const *parts, size_t count) {
    *line = '\0';
    for (size_t i = 0; i < count; i++) {
        strncat(line, parts[i], room - strlen(line) - 1);
    }
    return line;
}

static void put_title(struct mensur_sheet_view *view) {
    struct mensur_lettering title = mensur_sheet_letters(4.6, MENSUR_ANCHOR_START);
    struct mensur_lettering letters = mensur_sheet_letters(3.3, MENSUR_ANCHOR_START);
    title.bold = true;
    mensur_shape_text(&view->shapes, title, MENSUR_SHEET_MARGIN, 14.0,
                      "Finger places at true size");
    mensur_shape_text(
        &view->shapes, letters, MENSUR_SHEET_MARGIN, 19.5,
        "Print at 100 % (actual size, no fitting to the page) and hold a ruler to the "
        "bars at the foot.");
    mensur_shape_text(&view->shapes, letters, MENSUR_SHEET_MARGIN, 24.0,
                      "A note is stopped at the line on its right. Lay the nut's edge on the "
                      "string's edge of the nut.");
    mensur_shape_say(&view->shapes, "Finger places at true size, to print at 100 %.", NULL);
}

/* "page 1 of 2" and a row of small pages, this one filled. */
static void put_order(struct mensur_sheet_view *view) {
    char line[64];
    const char *parts[] = {"page ", mensur_show_count(view->page + 1).text, " of ",
                           mensur_show_count(view->pages).text};
    double right = view->width - MENSUR_SHEET_MARGIN;
    struct mensur_lettering letters = mensur_sheet_letters(4.0, MENSUR_ANCHOR_END);
    if (view->pages < 2) {
        return;
    }
    letters.bold = true;
    mensur_shape_text(&view->shapes, letters, right, 13.5, join(line, sizeof(line), parts, 4));
    mensur_shape_say(&view->shapes, "This is ", line, ".", NULL);
    for (size_t i = 0; i < view->pages; i++) {
        double x = right - 7.0 * (double)(view->pages - i) + 1.0;
        mensur_shape_box(&view->shapes, fine,
                         i == view->page ? MENSUR_PAINT_INK : MENSUR_PAINT_NONE, x, 16.0, 6.0, 4.2);
    }
}

/* A bar of `steps` steps with a tick at each. */
static void put_bar(struct mensur_sheet_view *view, double x, double step, int steps,
                    const char *label) {
    struct mensur_pen pen = {MENSUR_PAINT_INK, 0.3, MENSUR_DASH_NONE};
    struct mensur_lettering letters = mensur_sheet_letters(3.2, MENSUR_ANCHOR_START);
    double y = view->height - 16.0;
    double end = x + step * steps;
    mensur_shape_line(&view->shapes, pen, x, y, end, y);
    for (int i = 0; i <= steps; i++) {
        double height = i == 0 || i == steps ? 4.0 : 2.0;
        mensur_shape_line(&view->shapes, pen, x + step * i, y - height, x + step * i, y);
    }
    mensur_shape_text(&view->shapes, letters, x, y + 4.2, label);
}

/* A register mark: a cross in a ring, with its name. */
static void put_cross(struct mensur_sheet_view *view, double x, double y, const char *name) {
    struct mensur_lettering letters = mensur_sheet_letters(3.0, MENSUR_ANCHOR_START);
    mensur_shape_line(&view->shapes, fine, x - 3.0, y, x + 3.0, y);
    mensur_shape_line(&view->shapes, fine, x, y - 3.0, x, y + 3.0);
    mensur_shape_disc(&view->shapes, fine, MENSUR_PAINT_NONE, x, y, 1.8);
    mensur_shape_text(&view->shapes, letters, x + 2.4, y - 1.2, name);
}

/* Where this page joins the next: both pages have the same two crosses. */
static void put_seam(struct mensur_sheet_view *view, size_t after, bool cut) {
    char name[2] = {(char)('A' + (int)(after % 26)), '\0'};
    struct mensur_pen dashed = {MENSUR_PAINT_SOFT, 0.2, MENSUR_DASH_LONG};
    struct mensur_lettering letters = mensur_sheet_letters(2.8, MENSUR_ANCHOR_START);
    double x = cut ? MENSUR_SHEET_MARGIN + MENSUR_SHEET_OVERLAP / 2.0
                   : view->width - MENSUR_SHEET_MARGIN - MENSUR_SHEET_OVERLAP / 2.0;
    double top = MENSUR_SHEET_STRIPS + 1.0;
    double bottom = view->height - 26.0;
    letters.anchor = cut ? MENSUR_ANCHOR_START : MENSUR_ANCHOR_END;
    /* the line does not cross the notes */
    double from = top;
    for (size_t i = 0; i < view->sheet->count; i++) {
        double strip = MENSUR_SHEET_STRIPS + MENSUR_SHEET_STRIP_HEIGHT * (double)i;
        mensur_shape_line(&view->shapes, dashed, x, from, x, strip + MENSUR_SHEET_NOTES);
        from = strip + MENSUR_SHEET_NOTES_END;
    }
    mensur_shape_line(&view->shapes, dashed, x, from, x, bottom);
    put_cross(view, x, top, name);
    put_cross(view, x, bottom, name);
    mensur_shape_text(&view->shapes, letters, cut ? x + 6.0 : x - 6.0, bottom + 1.0,
                      cut ? "Cut along the dashed line and lay crosses on crosses."
                          : "The next page lies on here.");
}

void mensur_sheet_frame(struct mensur_sheet_view *view) {
    put_title(view);
    put_order(view);
    put_bar(view, MENSUR_SHEET_MARGIN, 10.0, 10, "100 mm");
    put_bar(view, MENSUR_SHEET_MARGIN + 120.0, MENSUR_MM_PER_INCH / 2.0, 8, "4 in");
    if (view->page > 0) {
        put_seam(view, view->page - 1, true);
    }
    if (view->page + 1 < view->pages) {
        put_seam(view, view->page, false);
    }
}
