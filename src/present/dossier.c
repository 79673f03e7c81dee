/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dossier: one document of what the answers tell, with drawings, and the page around it. */
#include "dossier.h"

#include <math.h>
#include <stdlib.h>

#include "cautions.h"
#include "lettering.h"
#include "markup.h"
#include "tell.h"

/* Its hash stands in the page's content security policy; a test holds
 * the one against the other (printf of the sheet | openssl dgst -sha256 -binary | base64). */
static const char css[] =
    ":root{color-scheme:light dark;--page:#faf7f1;--paper:#ffffff;--ink:#1c1a17;--soft:#5f5a52;"
    "--other:#9a3412;--wood:#efe7d9;--line:#d6cdbd}\n"
    "@media (prefers-color-scheme:dark){:root{--page:#171512;--paper:#211e1a;--ink:#f0eadf;"
    "--soft:#b9b0a1;--other:#f2a582;--wood:#4b4136;--line:#4a4238}}\n"
    "*{box-sizing:border-box}\n"
    "body{margin:0;background:var(--page);color:var(--ink);font:1rem/1.55 system-ui,sans-serif}\n"
    "main{max-width:50rem;margin:0 auto;padding:1.25rem 1rem 3rem}\n"
    "h1,h2,h3,p,li,caption,bdi{overflow-wrap:anywhere}th,td{overflow-wrap:break-word}\n"
    "h1{font-size:1.7rem;line-height:1.25;margin:0 0 .5rem}\n"
    "h2{font-size:1.25rem;line-height:1.3;margin:2.25rem 0 .6rem;padding-top:.6rem;"
    "border-top:1px solid var(--line)}\n"
    "h3{font-size:1.05rem;margin:1.4rem 0 .4rem}\n"
    "p,ul{margin:.5rem 0}\n"
    "ul{padding-left:1.2rem}\n"
    ".soft{color:var(--soft)}\n"
    "figure{margin:1rem 0;padding:.5rem;background:var(--paper);border:1px solid var(--line);"
    "border-radius:.5rem}\n"
    "figure svg{display:block;width:100%;max-width:36rem;height:auto;margin:0 auto}\n"
    "@media (max-width:34rem){figure{margin:1rem -1rem;padding:.25rem 0;border-width:1px 0;"
    "border-radius:0}}\n"
    ".wide{overflow-x:auto;margin:1rem 0}\n"
    ".wide:focus-visible{outline:2px solid var(--other);outline-offset:2px}\n"
    "table{border-collapse:collapse;min-width:min(100%,32rem);font-size:.95rem}\n"
    "caption{text-align:left;color:var(--soft);padding:.2rem 0 .4rem}\n"
    "th,td{padding:.3rem .6rem;border-bottom:1px solid var(--line);text-align:right;"
    "vertical-align:top;font-variant-numeric:tabular-nums;min-width:4.5rem;max-width:16rem}\n"
    "th[scope=row],thead th:first-child,.words{text-align:left}\n"
    "th[scope=row]{font-weight:normal}\n"
    ".words{min-width:6rem}\n"
    "@page{margin:12mm}\n"
    "@media print{:root{color-scheme:light;--page:#ffffff;--paper:#ffffff;--ink:#000000;"
    "--soft:#444444;--other:#7c2d12;--wood:#efe7d9;--line:#999999}\n"
    "body{font-size:9pt;line-height:1.3}main{max-width:none;padding:0}\n"
    "h1{font-size:15pt}h2{font-size:11pt;margin:.4rem 0 .2rem;padding-top:.2rem}"
    "h3{font-size:10pt;margin:.5rem 0 .2rem}p,ul{margin:.25rem 0}caption{display:none}\n"
    ".wide{overflow:visible;margin:.3rem "
    "0}table{font-size:8.5pt;line-height:1.2}th,td{min-width:0;padding:.08rem .5rem}"
    "th[scope=row],.words{min-width:0}\n"
    "figure{border:0;padding:0;margin:.2rem 0;display:inline-block;width:46%;vertical-align:top;"
    "break-inside:avoid}figure svg{width:100%;max-width:100%}\n"
    "tr,li{break-inside:avoid}h2,h3,caption{break-after:avoid}thead{display:table-header-group}}\n";

static const char css_hash[] = "VE8El7zT/KLRPEB9asc1jZ+3w2YjrKZ3EguLrlMoK/4=";

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

void mensur_page_begin(struct mensur_out *out) {
    mensur_out_text(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                         "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src "
                         "'none'; style-src 'sha256-");
    mensur_out_text(out, css_hash);
    mensur_out_text(out, "'; base-uri 'none'; form-action 'none'\">\n");
    put_meta(out, "viewport", "width=device-width, initial-scale=1");
    put_meta(out, "color-scheme", "light dark");
    mensur_markup_open(out, "title");
}

void mensur_page_main(struct mensur_out *out) {
    mensur_markup_finish(out, "title");
    mensur_out_text(out, "<style>");
    mensur_out_text(out, css);
    mensur_out_text(out, "</style>\n</head>\n<body>\n<main>\n");
}

void mensur_page_end(struct mensur_out *out) {
    mensur_out_text(out, "</main>\n</body>\n</html>\n");
}

static void put_head(const struct mensur_dossier *dossier, struct mensur_out *out) {
    mensur_page_begin(out);
    for (size_t i = 0; i < dossier->count; i++) {
        char *whole = mensur_lettering_whole(dossier->profiles[i].instrument);
        mensur_out_fail(out, whole == NULL ? MENSUR_MEMORY : MENSUR_OK);
        mensur_out_text(out, before_name(i, dossier->count));
        mensur_markup_text(out, whole == NULL ? "" : whole);
        free(whole);
    }
    mensur_page_main(out);
}

static void draw(struct mensur_document *document, const struct mensur_dossier *dossier,
                 unsigned parts) {
    mensur_drawing(document, (struct mensur_illustration){.parts = parts,
                                                          .profiles = dossier->profiles,
                                                          .count = dossier->count});
}

static void tell_decision(struct mensur_document *document, const struct mensur_dossier *dossier) {
    const struct mensur_decision *decision = dossier->decision;
    mensur_heading(document, MENSUR_HEADING_SECTION, "The %s",
                   decision->for_stop ? "stop" : "neck");
    document->style.neck_base = mensur_shown_neck_base(decision->present.held);
    mensur_tell_decision_made(document, decision);
    mensur_drawing(document,
                   (struct mensur_illustration){.parts = MENSUR_DRAW_WISHES, .decision = decision});
    mensur_drawing(document, (struct mensur_illustration){.parts = MENSUR_DRAW_SIDE,
                                                          .decision = decision,
                                                          .all_states = false});
}

static void tell_lengths(struct mensur_document *document, const struct mensur_dossier *dossier) {
    if (dossier->comparison != NULL) {
        mensur_heading(document, MENSUR_HEADING_SECTION, "Side by side");
        mensur_tell_comparison(document, dossier->comparison);
        draw(document, dossier, MENSUR_DRAW_SIDE);
        draw(document, dossier, MENSUR_DRAW_PLACES);
    } else if (dossier->decision == NULL) {
        struct mensur_told_lengths told = mensur_told_lengths_of(&dossier->profiles[0]);
        mensur_heading(document, MENSUR_HEADING_SECTION, "Lengths");
        mensur_tell_lengths(document, &told);
        draw(document, dossier, MENSUR_DRAW_SIDE);
        draw(document, dossier, MENSUR_DRAW_BRIDGE);
    }
}

/* Of one that a decision is about, as it is against as recommended. */
static void tell_strings(struct mensur_document *document, const struct mensur_dossier *dossier) {
    bool decided = dossier->decision != NULL && dossier->count == 1;
    struct mensur_illustration drawing = {
        .profiles = dossier->profiles,
        .count = dossier->count,
        .decision = decided ? dossier->decision : NULL,
    };
    document->spread = false; /* told above */
    mensur_heading(document, MENSUR_HEADING_SECTION,
                   dossier->count == 1 ? "Strings and fingers" : "Strings");
    if (dossier->count == 2) {
        mensur_tell_tension_of_two(document, &dossier->profiles[0], &dossier->profiles[1]);
    }
    for (size_t i = 0; i < dossier->count && dossier->count != 2; i++) {
        document->explain = i == 0;
        mensur_tell_tension(document, &dossier->profiles[i]);
    }
    drawing.parts = MENSUR_DRAW_TENSION;
    mensur_drawing(document, drawing);
    if (dossier->count == 1) {
        drawing.parts = MENSUR_DRAW_PLACES;
        mensur_drawing(document, drawing);
    }
}

static void tell_notes(struct mensur_document *document, const struct mensur_dossier *dossier) {
    struct mensur_gathered gathered = {0};
    struct mensur_facts cautions = {0};
    for (size_t i = 0; i < dossier->count; i++) {
        const struct mensur_profile *profile = &dossier->profiles[i];
        mensur_gather(&gathered, &document->style, profile->instrument, &profile->assumed,
                      MENSUR_BEHIND_ALL & ~(unsigned)(MENSUR_BEHIND_FEEL | MENSUR_BEHIND_BEHIND |
                                                      MENSUR_BEHIND_HEEL),
                      &profile->warnings);
        cautions_of_profile(profile, &cautions);
    }
    mensur_document_fail(document, gathered.status);
    mensur_tell_gathered(document, &gathered);
    mensur_gathered_clear(&gathered);
    if (dossier->decision != NULL) {
        cautions_of_decision(dossier->decision, &cautions);
    }
    mensur_document_fail(document, cautions.status);
    mensur_tell_foot(document, dossier->heading, &cautions);
    mensur_facts_clear(&cautions);
    mensur_say(document, " Set down by mensur " MENSUR_VERSION ".");
}

/* A value of a proposal with its unit, or what stands in the cell. */
static void say_cell(struct mensur_document *document, const struct mensur_proposal *proposal,
                     double number, const char *text) {
    if (text != NULL) {
        mensur_say(document, "%n", text);
    } else {
        mensur_say(document, "%s",
                   isnan(number) ? "not given"
                   : proposal->kind == MENSUR_LENGTH
                       ? mensur_show_cut_unit(&document->style, number).text
                       : mensur_show_unit(&document->style, proposal->kind, number).text);
    }
}

/* "Proposed: neck 150.0 mm (now 144.0 mm).": what is not as the file has it, and what that has. */
static void tell_proposed(struct mensur_document *document, const struct mensur_dossier *dossier) {
    for (size_t i = 0; i < dossier->count; i++) {
        const struct mensur_profile *profile = &dossier->profiles[i];
        if (profile->proposed_count > 0) {
            mensur_paragraph(document, 0, dossier->count > 1 ? "Proposed for %n: " : "Proposed: ",
                             profile->instrument);
        }
        for (size_t k = 0; k < profile->proposed_count; k++) {
            const struct mensur_proposal *proposal = &profile->proposed[k];
            mensur_say(document, "%s%s ", k > 0 ? "; " : "",
                       mensur_told_field(proposal->field).text);
            say_cell(document, proposal, proposal->proposed, proposal->proposed_text);
            mensur_say(document, " (%s ", mensur_state_word(MENSUR_STATE_NOW));
            say_cell(document, proposal, proposal->now, proposal->now_text);
            mensur_say(document, k + 1 < profile->proposed_count ? ")" : ").");
        }
    }
}

/* Whom it is for, and when; a place for a name where it is agreed to. */
static void tell_for(struct mensur_document *document, const struct mensur_dossier *dossier) {
    if (dossier->heading->title != NULL) {
        mensur_paragraph(document, 0, "%n", dossier->heading->title);
    }
    if (dossier->customer != NULL) {
        mensur_paragraph(document, 0, "For %n", dossier->customer);
    }
    if (dossier->date != NULL) {
        mensur_paragraph(document, 0, "Date: %s", dossier->date);
    }
}

static void tell_signature(struct mensur_document *document, const struct mensur_dossier *dossier) {
    mensur_heading(document, MENSUR_HEADING_SECTION, "Agreed");
    mensur_paragraph(document, 0, "%sSignature: ________________________________",
                     dossier->date == NULL ? "Date: ____________________ " : "");
}

void mensur_dossier_tell(const struct mensur_dossier *dossier, struct mensur_document *document) {
    mensur_heading(document, MENSUR_HEADING_TITLE, "");
    for (size_t i = 0; i < dossier->count; i++) {
        mensur_say(document, "%s%n", before_name(i, dossier->count),
                   dossier->profiles[i].instrument);
    }
    tell_for(document, dossier);
    tell_proposed(document, dossier);
    if (dossier->decision != NULL) {
        tell_decision(document, dossier);
    }
    tell_lengths(document, dossier);
    tell_strings(document, dossier);
    tell_notes(document, dossier);
    tell_signature(document, dossier);
}

enum mensur_status mensur_dossier_write(const struct mensur_dossier *dossier,
                                        const struct mensur_sink *sink) {
    struct mensur_style style = dossier->figures;
    struct mensur_document document;
    struct mensur_html html;
    struct mensur_out out;
    style.no_sources = false;
    mensur_document_open(&document, &style, false);
    mensur_dossier_tell(dossier, &document);
    mensur_out_open(&out, sink, false);
    mensur_html_open(&html, &out, "dossier", 2);
    put_head(dossier, &out);
    mensur_document_html(&document, &html);
    mensur_html_close(&html);
    mensur_page_end(&out);
    mensur_out_flush(&out);
    mensur_document_free(&document);
    return out.status;
}
