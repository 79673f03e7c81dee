/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dossier's style sheet, and its hash for the page's content security policy. */
#ifndef MENSUR_PRESENT_DOSSIER_STYLE_H
#define MENSUR_PRESENT_DOSSIER_STYLE_H

extern const char mensur_dossier_css[];
extern const char mensur_dossier_css_hash[];

#endif
