/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of a dossier: a caption for each, a scope for each heading. */
#include <math.h>
#include <string.h>

#include "dossier_parts.h"
#include "markup.h"
#include "shown.h"
#include "text.h"

void mensur_page_table(struct mensur_page *page, const char *id, const char *caption,
                       const char *name) {
    struct mensur_out *out = &page->out;
    mensur_markup_start(out, "div");
    mensur_markup_attribute(out, "class", "wide");
    mensur_markup_attribute(out, "role", "region");
    mensur_markup_attribute(out, "tabindex", "0");
    mensur_markup_id(out, "aria-labelledby", "", "table", id, "");
    mensur_markup_end(out);
    mensur_markup_open(out, "table");
    mensur_markup_start(out, "caption");
    mensur_markup_id(out, "id", "", "table", id, "");
    mensur_markup_end(out);
    mensur_markup_text(out, caption);
    if (name != NULL) {
        mensur_page_name(page, name);
    }
    mensur_markup_finish(out, "caption");
}

void mensur_page_table_end(struct mensur_page *page) {
    mensur_markup_finish(&page->out, "tbody");
    mensur_markup_finish(&page->out, "table");
    mensur_markup_finish(&page->out, "div");
}

static void start_heading(struct mensur_page *page, const char *scope) {
    mensur_markup_start(&page->out, "th");
    mensur_markup_attribute(&page->out, "scope", scope);
    mensur_markup_end(&page->out);
}

static void put_heading(struct mensur_page *page, const char *scope, const char *text) {
    start_heading(page, scope);
    mensur_markup_text(&page->out, text);
    mensur_markup_finish(&page->out, "th");
}

static void put_cell(struct mensur_page *page, const char *text) {
    mensur_markup_element(&page->out, "td", text);
}

static void put_words(struct mensur_page *page, const char *text) {
    mensur_markup_start(&page->out, "td");
    mensur_markup_attribute(&page->out, "class", "words");
    mensur_markup_end(&page->out);
    mensur_markup_text(&page->out, text);
    mensur_markup_finish(&page->out, "td");
}

/* Of a column of words. */
static void put_words_heading(struct mensur_page *page, const char *text) {
    mensur_markup_start(&page->out, "th");
    mensur_markup_attribute(&page->out, "scope", "col");
    mensur_markup_attribute(&page->out, "class", "words");
    mensur_markup_end(&page->out);
    mensur_markup_text(&page->out, text);
    mensur_markup_finish(&page->out, "th");
}

static void begin_head(struct mensur_page *page, const char *first) {
    mensur_markup_open(&page->out, "thead");
    mensur_markup_open(&page->out, "tr");
    put_heading(page, "col", first);
}

static void begin_body(struct mensur_page *page) {
    mensur_markup_finish(&page->out, "tr");
    mensur_markup_finish(&page->out, "thead");
    mensur_markup_open(&page->out, "tbody");
}

/* A heading and its unit: "neck, mm". */
static void put_with_unit(struct mensur_page *page, const char *scope, const char *text,
                          enum mensur_kind kind) {
    const char *unit = mensur_shown_unit(&page->dossier->figures, kind);
    start_heading(page, scope);
    mensur_markup_text(&page->out, text);
    if (*unit != '\0') {
        mensur_markup_text(&page->out, ", ");
        mensur_markup_text(&page->out, unit);
    }
    mensur_markup_finish(&page->out, "th");
}

/* A column for each instrument, and one for how each differs from the first. */
static void head_instruments(struct mensur_page *page, const char *first) {
    begin_head(page, first);
    for (size_t i = 0; i < page->dossier->count; i++) {
        start_heading(page, "col");
        mensur_page_name(page, page->dossier->profiles[i].instrument);
        mensur_markup_finish(&page->out, "th");
        if (i > 0) {
            put_heading(page, "col", "differs by");
        }
    }
    begin_body(page);
}

static void put_figure(struct mensur_page *page, const struct mensur_figure *figure) {
    const struct mensur_dossier *dossier = page->dossier;
    double first = mensur_figure_value(figure, &dossier->profiles[0].lengths);
    for (size_t i = 0; i < dossier->count; i++) {
        double value = mensur_figure_value(figure, &dossier->profiles[i].lengths);
        put_cell(page, mensur_figure_show(figure, &dossier->figures, value).text);
        if (i > 0) {
            put_cell(page, mensur_figure_difference(figure, &dossier->figures, value - first).text);
        }
    }
}

static bool is_known(const struct mensur_page *page, const struct mensur_figure *figure) {
    for (size_t i = 0; i < page->dossier->count; i++) {
        if (!isnan(mensur_figure_value(figure, &page->dossier->profiles[i].lengths))) {
            return true;
        }
    }
    return false;
}

void mensur_page_lengths(struct mensur_page *page) {
    const struct mensur_figure *figure;
    mensur_page_table(page, "lengths", "Lengths and angles", NULL);
    head_instruments(page, "measurement");
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        if (is_known(page, figure)) {
            mensur_markup_open(&page->out, "tr");
            put_with_unit(page, "row", figure->label, figure->kind);
            put_figure(page, figure);
            mensur_markup_finish(&page->out, "tr");
        }
    }
    mensur_page_table_end(page);
}

static const struct mensur_position *find_position(const struct mensur_profile *profile,
                                                   const char *name) {
    for (size_t i = 0; i < profile->position_count; i++) {
        if (strcmp(profile->positions[i].name, name) == 0) {
            return &profile->positions[i];
        }
    }
    return NULL;
}

static void put_position(struct mensur_page *page, const char *name) {
    const struct mensur_dossier *dossier = page->dossier;
    double first = NAN;
    mensur_markup_open(&page->out, "tr");
    put_heading(page, "row", name);
    for (size_t i = 0; i < dossier->count; i++) {
        const struct mensur_position *position = find_position(&dossier->profiles[i], name);
        double frame = position == NULL ? NAN : position->frame;
        put_cell(page, mensur_show(&dossier->figures, MENSUR_LENGTH, frame).text);
        if (i > 0) {
            put_cell(page,
                     mensur_show_difference(&dossier->figures, MENSUR_LENGTH, frame - first).text);
        } else {
            first = frame;
        }
    }
    mensur_markup_finish(&page->out, "tr");
}

void mensur_page_positions(struct mensur_page *page) {
    const struct mensur_profile *first = &page->dossier->profiles[0];
    char caption[96] = "First finger to fourth, in each position, ";
    if (first->position_count == 0) {
        return;
    }
    strcat(caption, mensur_shown_unit(&page->dossier->figures, MENSUR_LENGTH));
    mensur_page_table(page, "positions", caption, NULL);
    head_instruments(page, "position");
    for (size_t i = 0; i < first->position_count; i++) {
        put_position(page, first->positions[i].name);
    }
    mensur_page_table_end(page);
}

static const char *known_word(enum mensur_known known) {
    return known == MENSUR_YES ? "yes" : known == MENSUR_NO ? "no" : "?";
}

static void put_string(struct mensur_page *page, const struct mensur_string_figures *string) {
    const struct mensur_style *style = &page->dossier->figures;
    mensur_markup_open(&page->out, "tr");
    put_heading(page, "row", string->note);
    put_words(page, mensur_text_name(string->string));
    put_cell(page, mensur_show(style, MENSUR_LINEAR_DENSITY, string->linear_density).text);
    put_cell(page, mensur_show(style, MENSUR_FORCE, string->tension).text);
    put_cell(page, mensur_show(style, MENSUR_FORCE, string->force_on_belly).text);
    put_cell(page, mensur_show(style, MENSUR_SEMITONES, string->breaking_margin).text);
    put_cell(page, known_word(string->in_made_for_range));
    mensur_markup_finish(&page->out, "tr");
}

static void put_total(struct mensur_page *page, const struct mensur_profile *profile) {
    const struct mensur_style *style = &page->dossier->figures;
    mensur_markup_open(&page->out, "tr");
    put_heading(page, "row", "all");
    put_words(page, "");
    put_cell(page, "");
    put_cell(page, mensur_show(style, MENSUR_FORCE, profile->total_tension).text);
    put_cell(page, mensur_show(style, MENSUR_FORCE, profile->total_force_on_belly).text);
    put_cell(page, "");
    put_cell(page, "");
    mensur_markup_finish(&page->out, "tr");
}

void mensur_page_strings(struct mensur_page *page, size_t i) {
    const struct mensur_profile *profile = &page->dossier->profiles[i];
    char id[96] = "strings-";
    strcat(id, mensur_show_count(i + 1).text);
    if (profile->string_count == 0) {
        return;
    }
    char caption[96] = "Strings";
    if (page->dossier->count > 1) {
        strcat(caption, " ");
        strcat(caption, mensur_show_count(i + 1).text);
    }
    strcat(caption, ": ");
    mensur_page_table(page, id, caption, profile->instrument);
    begin_head(page, "note");
    put_words_heading(page, "string");
    put_with_unit(page, "col", "mass", MENSUR_LINEAR_DENSITY);
    put_with_unit(page, "col", "pull", MENSUR_FORCE);
    put_with_unit(page, "col", "on the belly", MENSUR_FORCE);
    put_heading(page, "col", "margin");
    put_heading(page, "col", "made for");
    begin_body(page);
    for (size_t j = 0; j < profile->string_count; j++) {
        put_string(page, &profile->strings[j]);
    }
    put_total(page, profile);
    mensur_page_table_end(page);
}

void mensur_page_wants(struct mensur_page *page) {
    const struct mensur_decision *decision = page->dossier->decision;
    const struct mensur_style *style = &page->dossier->figures;
    mensur_page_table(page, "wishes", "The wishes, and what each allows", NULL);
    begin_head(page, "wish");
    put_heading(page, "col", "wanted");
    put_heading(page, "col", decision->for_stop ? "stop" : "neck");
    begin_body(page);
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        mensur_markup_open(&page->out, "tr");
        start_heading(page, "row");
        for (const char *at = want->what; *at != '\0'; at++) {
            char letter[2] = {*at == '_' ? ' ' : *at, '\0'};
            mensur_markup_text(&page->out, letter);
        }
        mensur_markup_finish(&page->out, "th");
        put_cell(page, mensur_show_range(style, want->kind, want->low, want->high).text);
        put_cell(
            page,
            !want->within_reach
                ? "none"
                : mensur_show_range(style, MENSUR_LENGTH, want->place_low, want->place_high).text);
        mensur_markup_finish(&page->out, "tr");
    }
    mensur_page_table_end(page);
}

void mensur_page_instead(struct mensur_page *page) {
    const struct mensur_decision *decision = page->dossier->decision;
    const struct mensur_style *style = &page->dossier->figures;
    if (decision->instead_count == 0) {
        return;
    }
    mensur_markup_element(&page->out, "h3", "The other way: other strings");
    mensur_markup_element(&page->out, "p",
                          "The instrument stays as it is; strings of this mass would pull on it as "
                          "the present ones do on the wished length.");
    mensur_page_table(page, "instead", "Strings instead", NULL);
    begin_head(page, "note");
    put_with_unit(page, "col", "now", MENSUR_LINEAR_DENSITY);
    put_with_unit(page, "col", "needed", MENSUR_LINEAR_DENSITY);
    put_words_heading(page, "nearest in the catalogue");
    begin_body(page);
    for (size_t i = 0; i < decision->instead_count; i++) {
        const struct mensur_instead *instead = &decision->instead[i];
        mensur_markup_open(&page->out, "tr");
        put_heading(page, "row", instead->note);
        put_cell(page,
                 mensur_show(style, MENSUR_LINEAR_DENSITY, instead->present_linear_density).text);
        put_cell(page,
                 mensur_show(style, MENSUR_LINEAR_DENSITY, instead->needed_linear_density).text);
        put_words(page, mensur_text_name(instead->nearest_string));
        mensur_markup_finish(&page->out, "tr");
    }
    mensur_page_table_end(page);
}
