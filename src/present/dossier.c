/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dossier: one document of what the answers tell, with drawings, and the page around it. */
#include "dossier.h"

#include <stdlib.h>

#include "dossier_style.h"
#include "lettering.h"
#include "markup.h"
#include "tell.h"

/* "heron, kestrel and wren": what stands before name i of count. */
static const char *before_name(size_t i, size_t count) {
    return i == 0 ? "" : i + 1 == count ? " and " : ", ";
}

/* A void element of the head with two attributes. */
static void put_meta(struct mensur_out *out, const char *name, const char *content) {
    mensur_markup_start(out, "meta");
    mensur_markup_attribute(out, "name", name);
    mensur_markup_attribute(out, "content", content);
    mensur_markup_end(out);
    mensur_out_line(out);
}

static void put_head(const struct mensur_dossier *dossier, struct mensur_out *out) {
    mensur_out_text(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                         "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src "
                         "'none'; style-src 'sha256-");
    mensur_out_text(out, mensur_dossier_css_hash);
    mensur_out_text(out, "'; base-uri 'none'; form-action 'none'\">\n");
    put_meta(out, "viewport", "width=device-width, initial-scale=1");
    put_meta(out, "color-scheme", "light dark");
    mensur_markup_open(out, "title");
    for (size_t i = 0; i < dossier->count; i++) {
        char *whole = mensur_lettering_whole(dossier->profiles[i].instrument);
        mensur_out_fail(out, whole == NULL ? MENSUR_MEMORY : MENSUR_OK);
        mensur_out_text(out, before_name(i, dossier->count));
        mensur_markup_text(out, whole == NULL ? "" : whole);
        free(whole);
    }
    mensur_markup_finish(out, "title");
    mensur_out_text(out, "<style>");
    mensur_out_text(out, mensur_dossier_css);
    mensur_out_text(out, "</style>\n</head>\n<body>\n<main>\n");
}

static void draw(struct mensur_document *document, const struct mensur_dossier *dossier,
                 unsigned parts) {
    mensur_drawing(document, (struct mensur_illustration){.parts = parts,
                                                          .profiles = dossier->profiles,
                                                          .count = dossier->count});
}

static void tell_decision(struct mensur_document *document, const struct mensur_dossier *dossier) {
    mensur_heading(document, MENSUR_HEADING_SECTION, "The %s",
                   dossier->decision->for_stop ? "stop" : "neck");
    mensur_drawing(document,
                   (struct mensur_illustration){.parts = MENSUR_DRAW_WISHES | MENSUR_DRAW_SIDE,
                                                .decision = dossier->decision});
    mensur_tell_decision(document, dossier->decision);
}

/* Lengths and fingers of one instrument; of several what they have side by side. */
static void tell_lengths(struct mensur_document *document, const struct mensur_dossier *dossier) {
    if (dossier->comparison != NULL) {
        mensur_heading(document, MENSUR_HEADING_SECTION, "Side by side");
        draw(document, dossier, MENSUR_DRAW_SIDE);
        mensur_tell_comparison(document, dossier->comparison);
    } else {
        struct mensur_told_lengths told = mensur_told_lengths_of(&dossier->profiles[0]);
        mensur_heading(document, MENSUR_HEADING_SECTION, "Lengths");
        draw(document, dossier, MENSUR_DRAW_SIDE | MENSUR_DRAW_BRIDGE);
        mensur_tell_lengths(document, &told);
    }
    document->spread = false; /* told here */
    mensur_heading(document, MENSUR_HEADING_SECTION, "Fingers");
    draw(document, dossier, MENSUR_DRAW_PLACES);
    if (dossier->comparison == NULL) {
        mensur_tell_fingers(document, &dossier->profiles[0]);
    }
}

static void tell_strings(struct mensur_document *document, const struct mensur_dossier *dossier) {
    mensur_heading(document, MENSUR_HEADING_SECTION, "Strings");
    draw(document, dossier, MENSUR_DRAW_PULL);
    for (size_t i = 0; i < dossier->count; i++) {
        if (dossier->count > 1) {
            mensur_heading(document, MENSUR_HEADING_PART, "%n", dossier->profiles[i].instrument);
        }
        document->explain = i == 0;
        mensur_tell_tension(document, &dossier->profiles[i]);
    }
}

static void tell_notes(struct mensur_document *document, const struct mensur_dossier *dossier) {
    struct mensur_gathered gathered = {0};
    for (size_t i = 0; i < dossier->count; i++) {
        const struct mensur_profile *profile = &dossier->profiles[i];
        mensur_document_fail(document,
                             mensur_gather(&gathered, &document->style, profile->instrument,
                                           &profile->assumed, &profile->warnings));
    }
    mensur_tell_gathered(document, &gathered);
    mensur_gathered_clear(&gathered);
    mensur_tell_foot(document, dossier->heading);
    mensur_say(document, " Set down by mensur " MENSUR_VERSION ".");
}

static void tell(struct mensur_document *document, const struct mensur_dossier *dossier) {
    mensur_heading(document, MENSUR_HEADING_TITLE, "");
    for (size_t i = 0; i < dossier->count; i++) {
        mensur_say(document, "%s%n", before_name(i, dossier->count),
                   dossier->profiles[i].instrument);
    }
    if (dossier->decision != NULL) {
        tell_decision(document, dossier);
    }
    tell_lengths(document, dossier);
    tell_strings(document, dossier);
    tell_notes(document, dossier);
}

enum mensur_status mensur_dossier_write(const struct mensur_dossier *dossier,
                                        const struct mensur_sink *sink) {
    struct mensur_style style = dossier->figures;
    struct mensur_document document;
    struct mensur_html html;
    struct mensur_out out;
    style.no_sources = false;
    mensur_document_open(&document, &style, false);
    tell(&document, dossier);
    mensur_out_open(&out, sink, false);
    mensur_html_open(&html, &out, sink, "dossier", 2);
    put_head(dossier, &out);
    mensur_document_html(&document, &html);
    mensur_html_close(&html);
    mensur_out_text(&out, "</main>\n</body>\n</html>\n");
    mensur_out_flush(&out);
    mensur_document_free(&document);
    return out.status;
}
