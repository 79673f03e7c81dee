/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one symbol of the module. */
#include "paper.h"

#if defined(__GNUC__)
__attribute__((visibility("default")))
#endif
const struct mensur_paper_writer mensur_paper_writer = {.version = MENSUR_VERSION,
                                                        .has_letters = mensur_paper_has_letters,
                                                        .pdf = mensur_paper_pdf,
                                                        .png = mensur_paper_png};
