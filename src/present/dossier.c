/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dossier's page: its head and its sections. */
#include "dossier.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "dossier_parts.h"
#include "drawing.h"
#include "lettering.h"
#include "markup.h"
#include "sentences.h"
#include "shown.h"

static size_t length_of(const char *const *items) {
    size_t count = 0;
    while (items != NULL && items[count] != NULL) {
        count++;
    }
    return count;
}

/* A void element of the head with two attributes. */
static void put_meta(struct mensur_page *page, const char *name, const char *value,
                     const char *content) {
    mensur_markup_start(&page->out, "meta");
    mensur_markup_attribute(&page->out, name, value);
    mensur_markup_attribute(&page->out, "content", content);
    mensur_markup_end(&page->out);
    mensur_out_line(&page->out);
}

static void put_names(struct mensur_page *page, bool marked) {
    for (size_t i = 0; i < page->dossier->count; i++) {
        const char *name = page->dossier->profiles[i].instrument;
        bool last = i + 1 == page->dossier->count;
        mensur_out_text(&page->out, i == 0 ? "" : last ? " and " : ", ");
        if (marked) {
            mensur_page_name(page, name);
            continue;
        }
        char *whole = mensur_lettering_whole(name);
        mensur_out_fail(&page->out, whole == NULL ? MENSUR_MEMORY : MENSUR_OK);
        mensur_markup_text(&page->out, whole == NULL ? "" : whole);
        free(whole);
    }
}

static void put_policy(struct mensur_page *page) {
    struct mensur_out *out = &page->out;
    mensur_markup_start(out, "meta");
    mensur_markup_attribute(out, "http-equiv", "Content-Security-Policy");
    mensur_out_text(out, " content=\"default-src 'none'; style-src 'sha256-");
    mensur_out_text(out, mensur_dossier_css_hash);
    mensur_out_text(out, "'; base-uri 'none'; form-action 'none'\"");
    mensur_markup_end(out);
    mensur_out_line(out);
}

static void put_head(struct mensur_page *page) {
    struct mensur_out *out = &page->out;
    mensur_out_text(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    put_policy(page);
    put_meta(page, "name", "viewport", "width=device-width, initial-scale=1");
    put_meta(page, "name", "color-scheme", "light dark");
    mensur_markup_open(out, "title");
    put_names(page, false);
    mensur_markup_finish(out, "title");
    mensur_out_text(out, "<style>");
    mensur_out_text(out, mensur_dossier_css);
    mensur_out_text(out, "</style>\n</head>\n<body>\n<main>\n");
}

/* A drawing among the text; its ids begin with `id`. */
static void put_drawing(struct mensur_page *page, const char *id, unsigned parts) {
    const struct mensur_dossier *dossier = page->dossier;
    struct mensur_drawing_style style = {
        .figures = dossier->figures, .id = id, .within_page = true};
    mensur_markup_open(&page->out, "figure");
    mensur_out_line(&page->out);
    mensur_out_flush(&page->out);
    if (page->out.status == MENSUR_OK) {
        enum mensur_status status =
            (parts & MENSUR_DRAW_WISHES) != 0
                ? mensur_draw_decision(dossier->decision, parts, &style, page->sink)
                : mensur_draw_profiles(dossier->profiles, dossier->count, parts, &style,
                                       page->sink);
        mensur_out_fail(&page->out, status);
    }
    mensur_markup_finish(&page->out, "figure");
}

static void begin_section(struct mensur_page *page, const char *heading) {
    mensur_markup_open(&page->out, "section");
    mensur_out_line(&page->out);
    mensur_markup_element(&page->out, "h2", heading);
}

static void end_section(struct mensur_page *page) {
    mensur_markup_finish(&page->out, "section");
}

/* What one instrument comes to, in a sentence. */
static void put_summary(struct mensur_page *page, const struct mensur_profile *profile) {
    const struct mensur_style *style = &page->dossier->figures;
    struct mensur_out *out = &page->out;
    mensur_out_text(out, "<p class=\"lead\">");
    mensur_page_name(page, profile->instrument);
    mensur_markup_text(out, ": the string is ");
    mensur_markup_text(out,
                       mensur_show_unit(style, MENSUR_LENGTH, profile->lengths.string_length).text);
    mensur_markup_text(out, " long");
    if (!isnan(profile->lengths.stop_per_2_neck)) {
        mensur_markup_text(out, ", neck : stop is ");
        mensur_markup_text(out, mensur_show_ratio(profile->lengths.stop_per_2_neck).text);
    }
    if (!isnan(profile->total_tension)) {
        mensur_markup_text(out, "; the strings pull ");
        mensur_markup_text(out, mensur_show_unit(style, MENSUR_FORCE, profile->total_tension).text);
        mensur_markup_text(out, " in all");
    }
    mensur_out_text(out, ".</p>\n");
}

static void put_top(struct mensur_page *page) {
    const struct mensur_dossier *dossier = page->dossier;
    mensur_markup_open(&page->out, "header");
    mensur_markup_open(&page->out, "h1");
    put_names(page, true);
    mensur_markup_finish(&page->out, "h1");
    for (size_t i = 0; i < dossier->count; i++) {
        put_summary(page, &dossier->profiles[i]);
    }
    mensur_markup_finish(&page->out, "header");
    if (dossier->remarks != NULL && dossier->remarks->count > 0) {
        begin_section(page, "In short");
        mensur_page_facts(page, dossier->remarks, false);
        end_section(page);
    }
}

static void put_decision(struct mensur_page *page) {
    const struct mensur_decision *decision = page->dossier->decision;
    if (decision == NULL) {
        return;
    }
    begin_section(page, decision->for_stop ? "The stop" : "The neck");
    struct mensur_texts reason = {0};
    mensur_out_fail(&page->out,
                    mensur_sentences(&decision->reason, &page->dossier->figures, &reason));
    if (reason.count > 0) {
        mensur_page_sentence(page, "p", reason.items[0], true);
    }
    mensur_texts_clear(&reason);
    mensur_page_facts(page, &decision->costs, true);
    put_drawing(page, "decision", MENSUR_DRAW_WISHES | MENSUR_DRAW_SIDE);
    mensur_page_wants(page);
    mensur_page_instead(page);
    end_section(page);
}

static void put_lengths(struct mensur_page *page) {
    begin_section(page, "Lengths");
    put_drawing(page, "side",
                page->dossier->count == 1 ? MENSUR_DRAW_SIDE | MENSUR_DRAW_BRIDGE
                                          : MENSUR_DRAW_SIDE);
    mensur_page_lengths(page);
    end_section(page);
    begin_section(page, "Fingers");
    put_drawing(page, "places", MENSUR_DRAW_PLACES);
    mensur_page_positions(page);
    end_section(page);
}

static void put_strings(struct mensur_page *page) {
    const struct mensur_dossier *dossier = page->dossier;
    begin_section(page, "Strings");
    put_drawing(page, "pull", MENSUR_DRAW_PULL);
    mensur_markup_element(&page->out, "p",
                          "Margin: semitones up to breaking. Made for: whether the string is made "
                          "for this length.");
    for (size_t i = 0; i < dossier->count; i++) {
        const struct mensur_profile *profile = &dossier->profiles[i];
        mensur_markup_open(&page->out, "h3");
        mensur_page_name(page, profile->instrument);
        if (profile->set != NULL) {
            mensur_markup_text(&page->out, ", strung with ");
            mensur_page_name(page, profile->set);
        }
        mensur_markup_finish(&page->out, "h3");
        mensur_page_strings(page, i);
    }
    end_section(page);
}

static void put_assumed_item(struct mensur_page *page, const struct mensur_assumed *item) {
    for (const char *at = item->field; *at != '\0'; at++) {
        char letter[2] = {*at == '_' ? ' ' : *at, '\0'};
        mensur_markup_text(&page->out, letter);
    }
    mensur_markup_text(&page->out, " ");
    mensur_markup_text(
        &page->out, item->text != NULL
                        ? item->text
                        : mensur_show_unit(&page->dossier->figures, item->kind, item->value).text);
}

static void put_assumed(struct mensur_page *page) {
    const struct mensur_dossier *dossier = page->dossier;
    begin_section(page, "What was assumed");
    mensur_markup_element(&page->out, "p",
                          "Not measured on the instrument, but filled in with what is usual or "
                          "what follows from the rest:");
    mensur_markup_open(&page->out, "ul");
    for (size_t i = 0; i < dossier->count; i++) {
        const struct mensur_assumptions *assumed = &dossier->profiles[i].assumed;
        mensur_markup_open(&page->out, "li");
        mensur_page_name(page, dossier->profiles[i].instrument);
        mensur_markup_text(&page->out, assumed->count == 0 ? ": nothing" : ": ");
        for (size_t j = 0; j < assumed->count; j++) {
            mensur_markup_text(&page->out, j > 0 ? ", " : "");
            put_assumed_item(page, &assumed->items[j]);
        }
        mensur_markup_text(&page->out, ".");
        mensur_markup_finish(&page->out, "li");
    }
    mensur_markup_finish(&page->out, "ul");
    end_section(page);
}

static void put_warnings(struct mensur_page *page) {
    const struct mensur_dossier *dossier = page->dossier;
    size_t count = 0;
    for (size_t i = 0; i < dossier->count; i++) {
        count += dossier->profiles[i].warnings.count;
    }
    if (count == 0) {
        return;
    }
    begin_section(page, "Warnings");
    for (size_t i = 0; i < dossier->count; i++) {
        mensur_page_facts(page, &dossier->profiles[i].warnings, false);
    }
    end_section(page);
}

static void put_origin(struct mensur_page *page) {
    const struct mensur_heading *heading = page->dossier->heading;
    struct mensur_out *out = &page->out;
    mensur_out_text(out, "<p class=\"soft\">A4 is ");
    mensur_markup_text(out, mensur_show(&page->dossier->figures, MENSUR_NUMBER, heading->a4).text);
    mensur_markup_text(out, " Hz; open strings in ");
    mensur_markup_text(out, heading->fifths);
    mensur_markup_text(out, " fifths, stopped notes in ");
    mensur_markup_text(out, heading->steps);
    mensur_markup_text(out, " steps. ");
    if (strcmp(heading->shop, "demonstration") == 0) {
        mensur_markup_text(out, "The instruments are a demonstration, and invented.");
    } else {
        mensur_markup_text(out, "From the shop ");
        mensur_page_name(page, heading->shop);
        mensur_markup_text(out, ".");
    }
    mensur_markup_text(out, " Set down by mensur " MENSUR_VERSION ".");
    mensur_out_text(out, "</p>\n");
}

static void put_foot(struct mensur_page *page) {
    const struct mensur_heading *heading = page->dossier->heading;
    put_assumed(page);
    put_warnings(page);
    begin_section(page, "Cautions");
    mensur_page_list(page, heading->cautions, length_of(heading->cautions), false);
    end_section(page);
    begin_section(page, "Sources");
    mensur_page_list(page, heading->sources, length_of(heading->sources), false);
    put_origin(page);
    end_section(page);
    mensur_out_text(&page->out, "</main>\n</body>\n</html>\n");
}

enum mensur_status mensur_dossier_write(const struct mensur_dossier *dossier,
                                        const struct mensur_sink *sink) {
    struct mensur_page page = {.dossier = dossier, .sink = sink};
    mensur_out_open(&page.out, sink, false);
    put_head(&page);
    put_top(&page);
    put_decision(&page);
    put_lengths(&page);
    put_strings(&page);
    put_foot(&page);
    mensur_out_flush(&page.out);
    return page.out.status;
}
