/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * How answers are set down, and where their bytes go.
 */
#ifndef MENSUR_STYLE_H
#define MENSUR_STYLE_H

#include <stdbool.h>
#include <stddef.h>

#include "status.h"
#include "units.h"

/** Where bytes go. */
struct mensur_sink {
    /** Takes length bytes; MENSUR_OK or MENSUR_WRITE. */
    enum mensur_status (*write)(void *context, const char *bytes, size_t length);
    void *context;
};

/**
 * The formats, a row each: its name in enum mensur_format, the word that asks for it, the ending of
 * the files that are written in it ("": none), whether it is prose, to be read in the units of the
 * workshop, or data in mm and N, and the writer that sets it down (src/present). HTML is a part of
 * a page, to stand within its main element: no head, no style.
 */
#define MENSUR_FORMATS(X)                                                                          \
    X(TEXT, "text", "", true, document)                                                            \
    X(CSV, "csv", ".csv", false, csv)                                                              \
    X(JSON, "json", ".json", false, json)                                                          \
    X(HTML, "html", ".html", true, document)

#define MENSUR_FORMAT_ENUM(id, word, ending, prose, writer) MENSUR_FORMAT_##id,

/** One for each row of MENSUR_FORMATS; MENSUR_FORMATS_END is their number. */
enum mensur_format { MENSUR_FORMATS(MENSUR_FORMAT_ENUM) MENSUR_FORMATS_END };

/** The parts of a drawing, added together; they stand below each other in this order. */
enum mensur_drawing_parts {
    MENSUR_DRAW_WISHES = 1,   /**< what each wish allows along the neck; decisions only */
    MENSUR_DRAW_SIDE = 2,     /**< side views to scale, lower ends of the body together */
    MENSUR_DRAW_BRIDGE = 4,   /**< angles and forces at the first instrument's bridge, enlarged */
    MENSUR_DRAW_PLACES = 8,   /**< finger places to scale, and the spread of the hand by position */
    MENSUR_DRAW_TENSION = 16, /**< tension of each string, what it is made for, what breaks it */
    MENSUR_DRAW_MEASURES = 32, /**< where each length of the first instrument is measured, not to
                                  scale; alone, not among the others */
    MENSUR_DRAW_BRIEF = 64,    /**< with SIDE or PLACES: narrow, so that its letters are large where
                                  it fills a screen, without heading, notes, reaches, and with the
                                  first positions alone */
    MENSUR_DRAW_NUMBERED = 128, /**< with MEASURES: a number in place of each name, as of its row
                                   among the measurements, in large letters */
    MENSUR_DRAW_MODEL = 256,    /**< with MEASURES, of a decision: the liked instrument's */
    MENSUR_DRAW_OVER = 512 /**< with SIDE, of three: as it is now, as proposed, and over that nut,
                              bridge and strings of the model */
};

struct mensur_illustration;
struct mensur_style;

/** Writes an illustration as SVG to be embedded, each id in it led by `id`; MENSUR_OK, MENSUR_WRITE
 * or MENSUR_MEMORY. */
typedef enum mensur_status mensur_illustrate(const struct mensur_illustration *illustration,
                                             const char *id, const struct mensur_style *style,
                                             const struct mensur_sink *sink);

/** Parts of an answer in HTML, as flags: what it says, its working, and the notes below it (what
 * was assumed, warnings, cautions, sources, origin); of a decision, without what it says, its first
 * paragraph; without the notes, their warnings and cautions alone; nothing, of an answer that is
 * kept to be drawn. */
enum mensur_html_parts {
    MENSUR_HTML_ANSWER = 1,
    MENSUR_HTML_WORKING = 2,
    MENSUR_HTML_NOTES = 4,
    MENSUR_HTML_HEADLINE = 8,
    MENSUR_HTML_ALARMS = 16,
    MENSUR_HTML_NOTHING = 32
};

/** How answers are set down; all zero is text in mm and kg, in brief. */
struct mensur_style {
    enum mensur_format format;
    bool inches;                       /**< text, HTML and drawings only */
    enum mensur_force_unit force_unit; /**< text, HTML and drawings only */
    bool full; /**< text and HTML: step tables, every assumption and source, forces in N too */
    double neck_base; /**< the neck's number in neck : stop, 7 of 7 : 10; 0: 2. The presenter sets
                         it for each answer */
    bool feel;        /**< text and HTML: the playing-feel figures too */
    bool true_places; /**< text, HTML and CSV of fingers: the true places */
    bool no_sources;  /**< text and HTML: only a hint where the sources are to be had */
    bool bold;        /**< text: terminal bold for headings */
    mensur_illustrate *illustrate; /**< HTML: makes the drawing of an answer; NULL: there
                                      is none. A dossier has its own */
    const char *id;  /**< HTML: begins every id in it; letters and digits, fewer than 40; NULL:
                        "answer" */
    bool whole_page; /**< HTML: a page that is complete in itself, with head and style */
    unsigned heading_level; /**< HTML: of an answer's headings, 2 to 5; 0: 3 */
    unsigned html_parts;    /**< HTML: some of enum mensur_html_parts, with no word of the program's
                               other commands and options; 0: all */
};

#endif
