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

/* One or more instruments, the others against the first; no WISHES. */
enum mensur_status mensur_draw_profiles(const struct mensur_profile *profiles, size_t count,
                                        unsigned parts, const struct mensur_drawing_style *style,
                                        const struct mensur_sink *sink);

/* A comparison, or an instrument as it is against itself as changed; no WISHES. */
enum mensur_status mensur_draw_comparison(const struct mensur_comparison *comparison,
                                          unsigned parts, const struct mensur_drawing_style *style,
                                          const struct mensur_sink *sink);

/* A decision: WISHES from the wishes, the other parts from the instrument as it is against itself
 * as recommended (or, where no recommendation is possible, against the liked one). */
enum mensur_status mensur_draw_decision(const struct mensur_decision *decision, unsigned parts,
                                        const struct mensur_drawing_style *style,
                                        const struct mensur_sink *sink);

/* Any of these, of strings for a length those from the present, the recommended and the next
 * strings against what is wished, and the plane of stop and neck: of these two the parts do not
 * count. `all_states` is decided here. */
enum mensur_status mensur_draw_answer(const struct mensur_illustration *of,
                                      const struct mensur_drawing_style *style,
                                      const struct mensur_sink *sink);

/* The function of mensur_illustrate's type, for the style of HTML; inches and force unit are
 * obeyed.
 */
enum mensur_status mensur_draw_illustration(const struct mensur_illustration *illustration,
                                            const char *id, const struct mensur_style *style,
                                            const struct mensur_sink *sink);

#endif
