/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Answers as text, CSV, JSON or HTML. Nothing is computed here: figures are turned into
 * the unit asked for and set down.
 *
 * Open, present any number of answers of one command, close. Every function returns
 * MENSUR_OK, MENSUR_WRITE (what the sink answered) or MENSUR_MEMORY.
 */
#ifndef MENSUR_PRESENT_H
#define MENSUR_PRESENT_H

#include "quantity.h"
#include "result.h"

/** Where bytes go. */
struct mensur_sink {
    /** Takes length bytes; MENSUR_OK or MENSUR_WRITE. */
    enum mensur_status (*write)(void *context, const char *bytes, size_t length);
    void *context;
};

enum mensur_format {
    MENSUR_FORMAT_TEXT,
    MENSUR_FORMAT_CSV,
    MENSUR_FORMAT_JSON,
    MENSUR_FORMAT_HTML /**< a part of a page, to stand within its main element: no head, no style */
};

/** The parts of a drawing, added together; they stand below each other in this order. */
enum mensur_drawing_parts {
    MENSUR_DRAW_WISHES = 1, /**< what each wish allows along the neck; decisions only */
    MENSUR_DRAW_SIDE = 2,   /**< side views to scale, lower ends of the body together */
    MENSUR_DRAW_BRIDGE = 4, /**< angles and forces at the first instrument's bridge, enlarged */
    MENSUR_DRAW_PLACES = 8, /**< finger places to scale, and the spread of the hand by position */
    MENSUR_DRAW_PULL = 16   /**< the pull of each string, what it is made for, what breaks it */
};

struct mensur_style;

/** A drawing among the words of an answer: of profiles, or of a comparison, or of a decision. All
 * is borrowed. */
struct mensur_illustration {
    unsigned parts; /**< some of enum mensur_drawing_parts */
    const struct mensur_profile *profiles;
    size_t count;                               /**< of profiles */
    const struct mensur_comparison *comparison; /**< NULL: not of one */
    const struct mensur_decision *decision;     /**< NULL: not of one */
};

/** Writes an illustration as SVG to be embedded, each id in it led by `id`; MENSUR_OK, MENSUR_WRITE
 * or MENSUR_MEMORY. */
typedef enum mensur_status mensur_illustrate(const struct mensur_illustration *illustration,
                                             const char *id, const struct mensur_style *style,
                                             const struct mensur_sink *sink);

/** Parts of an answer in HTML, as flags: what it says, its working, and the notes below it (what
 * was assumed, warnings, cautions, sources, origin). */
enum mensur_html_parts { MENSUR_HTML_ANSWER = 1, MENSUR_HTML_WORKING = 2, MENSUR_HTML_NOTES = 4 };

/** How answers are set down; all zero is text in mm and N. */
struct mensur_style {
    enum mensur_format format;
    bool inches;                       /**< text, HTML and drawings only */
    enum mensur_force_unit force_unit; /**< text, HTML and drawings only */
    bool feel;                         /**< text and HTML: the playing-feel figures too */
    bool true_places;                  /**< text, HTML and CSV of fingers: the true places */
    bool no_sources; /**< text and HTML: only a hint where the sources are to be had */
    bool bold;       /**< text: terminal bold for headings */
    mensur_illustrate *illustrate; /**< HTML: makes the drawing of an answer
                                      (mensur_draw_illustration); NULL: there is none */
    const char *id; /**< HTML: begins every id in it; letters and digits, fewer than 40; NULL:
                       "answer" */
    unsigned heading_level; /**< HTML: of an answer's headings, 2 to 5; 0: 3 */
    unsigned html_parts;    /**< HTML: some of enum mensur_html_parts; 0: all */
};

/** An open presentation. */
struct mensur_presenter;

/**
 * Opens a presentation and writes what stands above the answers.
 *
 * @param heading         borrowed until closed
 * @param style           how
 * @param sink            where to; copied
 * @param[out] presenter  the caller's to close
 * @return  see this file's head
 */
enum mensur_status mensur_present_open(const struct mensur_heading *heading,
                                       const struct mensur_style *style,
                                       const struct mensur_sink *sink,
                                       struct mensur_presenter **presenter);

/** Presents an instrument's lengths. @param presenter open @param profile borrowed @return see this
 * file's head */
enum mensur_status mensur_present_lengths(struct mensur_presenter *presenter,
                                          const struct mensur_profile *profile);
/** Presents an instrument's strings. @param presenter open @param profile borrowed @return see this
 * file's head */
enum mensur_status mensur_present_tension(struct mensur_presenter *presenter,
                                          const struct mensur_profile *profile);
/** Presents an instrument's finger places. @param presenter open @param profile borrowed @return
 * see this file's head */
enum mensur_status mensur_present_fingers(struct mensur_presenter *presenter,
                                          const struct mensur_profile *profile);
/** Presents instruments side by side (compare, change). @param presenter open @param comparison
 * borrowed @return see this file's head */
enum mensur_status mensur_present_comparison(struct mensur_presenter *presenter,
                                             const struct mensur_comparison *comparison);
/** Presents the decision on the neck or the stop. @param presenter open @param decision borrowed
 * @return see this file's head */
enum mensur_status mensur_present_decision(struct mensur_presenter *presenter,
                                           const struct mensur_decision *decision);
/** Presents the strings chosen. @param presenter open @param restringing borrowed @return see this
 * file's head */
enum mensur_status mensur_present_restringing(struct mensur_presenter *presenter,
                                              const struct mensur_restringing *restringing);
/**
 * Presents a player's reach; one answer an instrument.
 *
 * @param presenter  open
 * @param reaching   borrowed
 * @return  see this file's head
 */
enum mensur_status mensur_present_reaching(struct mensur_presenter *presenter,
                                           const struct mensur_reaching *reaching);
/**
 * Attaches the working to the answer that is presented next: below its tables in text and HTML, as
 * the key "working" in JSON, nowhere in CSV.
 *
 * @param presenter  open
 * @param working    borrowed until that answer is presented; NULL: none
 */
void mensur_present_set_working(struct mensur_presenter *presenter,
                                const struct mensur_working *working);
/** Presents one file that was checked. @param presenter open @param file its name @param rows its
 * data rows @param warnings borrowed @return see this file's head */
enum mensur_status mensur_present_check(struct mensur_presenter *presenter, const char *file,
                                        long rows, const struct mensur_texts *warnings);

/**
 * Opens a presentation of some answers of a longer one, in CSV or JSON, whose answers do not depend
 * on each other: what it writes is to be handed to the longer one with mensur_present_written. It
 * is closed as not complete, because nothing stands below these answers.
 *
 * @param heading         borrowed until closed
 * @param style           how; not text
 * @param before          answers of the longer one that stand before these
 * @param sink            where to; copied
 * @param[out] presenter  the caller's to close
 * @return  see this file's head
 */
enum mensur_status mensur_present_open_within(const struct mensur_heading *heading,
                                              const struct mensur_style *style, size_t before,
                                              const struct mensur_sink *sink,
                                              struct mensur_presenter **presenter);

/**
 * Takes answers that were written within a presentation of their own.
 *
 * @param presenter  open
 * @param bytes      what was written
 * @param length     how many
 * @param answers    how many answers they are
 * @return  see this file's head
 */
enum mensur_status mensur_present_written(struct mensur_presenter *presenter, const char *bytes,
                                          size_t length, size_t answers);

/**
 * Writes what stands below the answers (assumed values, warnings, cautions, sources) and frees the
 * presenter.
 *
 * @param presenter  may be NULL
 * @param complete   false: an answer failed half way; nothing more is written
 * @return  see this file's head
 */
enum mensur_status mensur_present_close(struct mensur_presenter *presenter, bool complete);

#endif
