/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An answer as PDF or PNG, by way of its SVG. */
#ifndef MENSUR_PICTURE_H
#define MENSUR_PICTURE_H

#include "answer.h"
#include "bytes.h"

/* Draws an answer of so many pages as its question's medium says. MENSUR_USE (the drawing is too
 * large), MENSUR_READ (what draws is not there or lacks fonts), MENSUR_MEMORY; the reason is said
 * on standard error. */
enum mensur_status picture_draw(const struct mensur_answer *made, size_t pages,
                                struct mensur_kept_bytes *picture);

#endif
