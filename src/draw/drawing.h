/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers as drawings: SVG with real text, and the same told in words inside it. Nothing is
 * computed here but where things stand on the page. The same answer gives the same bytes.
 *
 * Every drawing is MENSUR_DRAWING_WIDTH CSS px wide and as high as it needs; narrow, so that a
 * telephone shows it legibly. Nothing is told by colour alone. Names of any length and script are
 * shortened in the picture and whole in the words. `parts` are some of enum mensur_drawing_parts.
 *
 * Every function returns MENSUR_OK, MENSUR_WRITE (what the sink answered) or MENSUR_MEMORY. */
#ifndef MENSUR_DRAWING_H
#define MENSUR_DRAWING_H

#include "drawing_style.h"
#include "present.h"

/* What an answer is drawn as, in a file of its own or for a page: instruments, the others against
 * the first; a comparison, or an instrument as it is against itself as changed; a decision, its
 * WISHES, and of the other parts the instrument as it is against itself as recommended (or, where
 * no recommendation is possible, against the liked one); strings for a length, the tension of the
 * present, the recommended and the next against what is wished; the plane of stop and neck. The
 * parts do not count of the last two, and `all_states` is decided here. */
enum mensur_status mensur_draw_file(const struct mensur_illustration *of,
                                    const struct mensur_drawing_style *style,
                                    const struct mensur_sink *sink);

/* The function of mensur_illustrate's type, for the style of HTML; inches and force unit are
 * obeyed.
 */
enum mensur_status mensur_draw_illustration(const struct mensur_illustration *illustration,
                                            const char *id, const struct mensur_style *style,
                                            const struct mensur_sink *sink);

#endif
