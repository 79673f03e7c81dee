/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * How a drawing stands in what is around it, and what paper a finger sheet is on.
 */
#ifndef MENSUR_DRAWING_STYLE_H
#define MENSUR_DRAWING_STYLE_H

#include <stdbool.h>

#include "style.h"

/** Width of every drawing in CSS px. */
#define MENSUR_DRAWING_WIDTH 480

/** Where the axes of a drawing stand, in px of it and in m: those of the latest drawing of each
 * kind, and those that the next one keeps. Zero where there was none. */
struct mensur_axes {
    bool keep; /**< the next drawing keeps them, as far as it fits on them; else they are made to
                  fit */
    double side_scale;             /**< px a m of side views */
    double side_above, side_below; /**< m above and below the edge of the first of them */
    double wish_left, wish_right;  /**< px */
    double wish_low, wish_high;    /**< m of neck (stop) there */
    double wish_top, wish_row; /**< px: the middle of the first wish's bar; from one to the next */
    double map_left, map_bottom; /**< px: the plane's lower left corner */
    double map_stop, map_neck;   /**< m there */
    double map_scale;            /**< px a m */
};

/** The latest drawing for one place, of which the next is then written as far as it differs. All
 * zero before the first; owned, cleared by mensur_kept_drawing_clear(). */
struct mensur_kept_drawing {
    void *shapes; /**< of the drawing; NULL: none */
};

/**
 * Frees what is kept of a drawing.
 *
 * @param kept  left all zero
 */
void mensur_kept_drawing_clear(struct mensur_kept_drawing *kept);

/** How a drawing stands in what is around it; all zero is a file of its own. */
struct mensur_drawing_style {
    struct mensur_style figures; /**< inches and force unit are obeyed */
    const char *id;   /**< lead of every id in it, letters and digits, unique in its document; NULL:
                         "mensur" */
    bool within_page; /**< inside an HTML page: its colours are the page's (currentColor, and the
                           variables --soft, --other, --paper, --wood), and no paper is painted */
    struct mensur_axes *axes; /**< read and filled in, for who lets parts of it be dragged, which
                                   also sets the wishes farther apart; NULL: made to fit */
    struct mensur_kept_drawing *kept; /**< of this place, kept for the next; NULL: nothing is */
    bool changes; /**< with kept: a shape that is in the kept drawing too is an empty line, so are
                     the title and the description, whatever they now say; a drawing that has more
                     or fewer shapes, or other hatches, is written whole */
};

/** Paper, lying on its long side. */
enum mensur_sheet_paper {
    MENSUR_SHEET_A4,     /**< 297 x 210 mm, ISO 216 */
    MENSUR_SHEET_LETTER, /**< 11 x 8.5 in */
    MENSUR_SHEET_STRIP   /**< one page as long as the strings */
};

/** What a finger sheet has across the strings. */
enum mensur_sheet_marks {
    MENSUR_SHEET_SEMITONES, /**< a line at each semitone */
    MENSUR_SHEET_TAPES,     /**< where teachers lay finger tapes */
    MENSUR_SHEET_FRETS,     /**< the tied frets, and nothing beyond them */
    MENSUR_SHEET_USUAL      /**< frets where the family has them, else semitones */
};

#endif
