/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The dossier: one page of HTML to hand over, complete in itself. It holds figures, drawings,
 * reasons, what was assumed, cautions and sources; no script, nothing that is loaded from
 * elsewhere (its own content security policy forbids both). It prints, follows light and dark, and
 * is set up for those who read by ear or by keyboard. The same answers give the same bytes.
 */
#ifndef MENSUR_DOSSIER_H
#define MENSUR_DOSSIER_H

#include "document.h"
#include "present.h"
#include "sink.h"

/* What a dossier tells of. All is borrowed. */
struct mensur_dossier {
    const struct mensur_heading *heading;
    const struct mensur_profile
        *profiles; /* complete ones; the others are held against the first */
    size_t count;  /* 1 or more */
    const struct mensur_comparison *comparison; /* of them all; NULL with one */
    const struct mensur_decision *decision;     /* on the neck (stop) of the first; NULL: none */
    const char *customer;                       /* NULL: none */
    const char *date;                           /* YYYY-MM-DD; NULL: room to write it */
    struct mensur_style figures;                /* inches, force unit and illustrate are obeyed */
};

/* Adds all that it tells to a document that is open; the caller asks the document's status. */
void mensur_dossier_tell(const struct mensur_dossier *dossier, struct mensur_document *document);

/* MENSUR_OK, MENSUR_WRITE (what the sink answered) or MENSUR_MEMORY. */
enum mensur_status mensur_dossier_write(const struct mensur_dossier *dossier,
                                        const struct mensur_sink *sink);

/* The frame of such a page, for other answers too: up to where its title stands; from there to
 * where the answer stands; behind it. */
void mensur_page_begin(struct mensur_out *out);
void mensur_page_main(struct mensur_out *out);
void mensur_page_end(struct mensur_out *out);

#endif
