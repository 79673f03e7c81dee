/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The module that writes PDF and PNG, loaded by name. */
#ifndef MENSUR_PICTURE_H
#define MENSUR_PICTURE_H

#include "paper.h"

/* Finds what writes pictures, and that there are letters to write with. MENSUR_READ, said on
 * standard error: the module is not there, is of another version, or no font is. */
enum mensur_status picture_writer(const struct mensur_paper_writer **out);

#endif
