/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text and HTML: each answer is added to a document, which is written and cleared at once. Only the
 * lengths of the first instruments are held until it is known whether there are more of them. */
#include <stdlib.h>
#include <string.h>

#include "dossier.h"
#include "markup.h"
#include "presenter.h"
#include "tell.h"
#include "texts.h"

static bool is_html(const struct mensur_presenter *presenter) {
    return presenter->style.format == MENSUR_FORMAT_HTML;
}

static void begin(struct mensur_presenter *presenter) {
    presenter->document.explain = presenter->answers == 0;
    if (presenter->answers > 0 && presenter->first == NULL) {
        mensur_gap(&presenter->document);
    }
}

/* Whether what is written in HTML leaves parts out. */
static bool in_parts(const struct mensur_presenter *presenter) {
    return is_html(presenter) && presenter->style.html_parts != 0;
}

static bool is_written(const struct mensur_presenter *presenter, enum mensur_html_parts part) {
    return !in_parts(presenter) || (presenter->style.html_parts & (unsigned)part) != 0;
}

static void write_told(struct mensur_presenter *presenter, enum mensur_html_parts part) {
    if (!is_written(presenter, part)) {
        return;
    }
    if (is_html(presenter)) {
        mensur_document_html(&presenter->document, &presenter->html);
    } else {
        mensur_document_text(&presenter->document, &presenter->out);
    }
}

/* Writes what was told, and forgets it. */
static void write(struct mensur_presenter *presenter, enum mensur_html_parts part) {
    write_told(presenter, part);
    mensur_document_clear(&presenter->document);
}

enum { BEHIND_BOTH = MENSUR_VIEW_BEHIND_LENGTHS | MENSUR_VIEW_BEHIND_STRINGS };

static void gather(struct mensur_presenter *presenter, const char *name,
                   const struct mensur_assumptions *assumed, unsigned shown,
                   const struct mensur_facts *warnings) {
    bool feel = presenter->style.feel || presenter->style.true_places;
    if (!is_written(presenter, MENSUR_HTML_NOTES)) {
        return;
    }
    mensur_gather(&presenter->gathered, &presenter->style, name, assumed,
                  shown | (feel ? MENSUR_BEHIND_FEEL : 0U), warnings);
    mensur_out_fail(&presenter->out, presenter->gathered.status);
}

static void gather_profile(struct mensur_presenter *presenter, const char *name,
                           const struct mensur_profile *profile, unsigned shown) {
    presenter->document.style.neck_base = mensur_shown_neck_base(profile->held);
    gather(presenter, name, &profile->assumed, shown, &profile->warnings);
}

/* The drawing that goes with what is told of an instrument. */
static void draw(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    mensur_drawing(&presenter->document, (struct mensur_illustration){
                                             .parts = mensur_view_drawing(presenter->heading->view),
                                             .profiles = profile,
                                             .count = 1});
}

/* The head of a page, and its heading: the shop's own, else what was asked of which shop. */
static void begin_page(struct mensur_presenter *presenter) {
    const struct mensur_heading *heading = presenter->heading;
    struct mensur_out *out = &presenter->out;
    mensur_page_begin(out);
    for (int i = 0; i < 2; i++) {
        mensur_markup_text(out, heading->title != NULL ? heading->title : "mensur ");
        mensur_markup_text(out, heading->title != NULL ? "" : heading->command);
        mensur_markup_text(out, heading->title != NULL ? "" : ": ");
        mensur_markup_text(out, heading->title != NULL ? "" : heading->shop);
        if (i == 0) {
            mensur_page_main(out);
            mensur_markup_open(out, "h1");
        }
    }
    mensur_markup_finish(out, "h1");
}

static void present_open(struct mensur_presenter *presenter) {
    bool page = is_html(presenter) && presenter->style.whole_page;
    size_t level = presenter->style.heading_level > 0 ? presenter->style.heading_level
                   : page                             ? 2
                                                      : 3;
    if (page) {
        begin_page(presenter);
    }
    mensur_document_open(&presenter->document, &presenter->style, !is_html(presenter));
    mensur_html_open(&presenter->html, &presenter->out,
                     presenter->style.id != NULL ? presenter->style.id : "answer", level - 1);
    presenter->html.note_level = level;
}

static void hold(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct mensur_held_lengths *held = &presenter->held[presenter->held_count];
    mensur_out_fail(
        &presenter->out,
        mensur_text_copy(profile->instrument, strlen(profile->instrument), &held->instrument));
    if (held->instrument == NULL) {
        return;
    }
    held->lengths = profile->lengths;
    held->told = mensur_told_lengths_of(profile);
    held->told.instrument = held->instrument;
    held->told.lengths = &held->lengths;
    held->assumed = profile->assumed;
    held->told.assumed = &held->assumed;
    if (profile->spread != NULL) {
        held->told.spread = held->spread = malloc(sizeof(*held->spread));
        if (held->spread != NULL) {
            *held->spread = *profile->spread;
        } else {
            mensur_out_fail(&presenter->out, MENSUR_MEMORY);
        }
    }
    presenter->held_count++;
}

/* So many are told at length. */
static size_t most_held(const struct mensur_presenter *presenter) {
    return presenter->style.full ? MENSUR_HELD_LENGTHS : 1;
}

/* A brief text tells so many rows of a list. */
#define ROWS_MAX 20

static bool is_left_out(const struct mensur_presenter *presenter, size_t row) {
    return presenter->style.format == MENSUR_FORMAT_TEXT && !presenter->style.full &&
           row >= ROWS_MAX;
}

/* Of two instruments the first waits for the second: whether this one is the first. */
static bool waits(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    if (presenter->of_two && presenter->first == NULL) {
        presenter->first = profile;
        return true;
    }
    return false;
}

static void present_lengths(struct mensur_presenter *presenter,
                            const struct mensur_profile *profile) {
    struct mensur_told_lengths told = mensur_told_lengths_of(profile);
    if (presenter->working != NULL || (is_html(presenter) && presenter->style.illustrate != NULL)) {
        /* Not held: the working follows, or a drawing, which borrows the profile. */
        begin(presenter);
        draw(presenter, profile);
        mensur_tell_lengths(&presenter->document, &told);
        write(presenter, MENSUR_HTML_ANSWER);
    } else if (presenter->of_two) {
        if (!waits(presenter, profile)) {
            struct mensur_told_lengths first = mensur_told_lengths_of(presenter->first);
            mensur_tell_lengths_of_two(&presenter->document, &first, &told);
            write(presenter, MENSUR_HTML_ANSWER);
        }
    } else if (presenter->answers < most_held(presenter)) {
        hold(presenter, profile);
    } else if (!is_left_out(presenter, presenter->answers)) {
        for (size_t i = 0; presenter->answers == most_held(presenter) && i < presenter->held_count;
             i++) {
            mensur_tell_length_row(&presenter->document, &presenter->held[i].told, i == 0);
            presenter->row_warned |= presenter->held[i].told.warned;
        }
        mensur_tell_length_row(&presenter->document, &told, false);
        presenter->row_warned |= told.warned;
        write_told(presenter, MENSUR_HTML_ANSWER);
        mensur_document_clear_rows(&presenter->document);
    }
}

/* What was kept back of the lengths. */
static void present_held(struct mensur_presenter *presenter) {
    if (presenter->answers > most_held(presenter) && presenter->held_count > 0) {
        mensur_document_clear(&presenter->document);
        if (is_left_out(presenter, presenter->answers - 1)) {
            mensur_paragraph(&presenter->document, 0,
                             "... and %z more; --full, --format csv and --format json have them.",
                             presenter->answers - ROWS_MAX);
        }
        mensur_tell_length_rows_end(&presenter->document, presenter->row_warned);
        return;
    }
    for (size_t i = 0; i < presenter->held_count; i++) {
        if (i > 0) {
            mensur_gap(&presenter->document);
        }
        mensur_tell_lengths(&presenter->document, &presenter->held[i].told);
    }
}

static void present_tension(struct mensur_presenter *presenter,
                            const struct mensur_profile *profile) {
    begin(presenter);
    if (waits(presenter, profile)) {
        return;
    }
    draw(presenter, profile);
    if (presenter->of_two) {
        mensur_tell_tension_of_two(&presenter->document, presenter->first, profile);
    } else {
        mensur_tell_tension(&presenter->document, profile);
    }
    write(presenter, MENSUR_HTML_ANSWER);
}

static void present_fingers(struct mensur_presenter *presenter,
                            const struct mensur_profile *profile) {
    begin(presenter);
    if (waits(presenter, profile)) {
        return;
    }
    draw(presenter, profile);
    if (presenter->of_two) {
        presenter->document.explain = true;
        mensur_tell_fingers_of_two(&presenter->document, presenter->first, profile);
    } else {
        mensur_tell_fingers(&presenter->document, profile);
    }
    write(presenter, MENSUR_HTML_ANSWER);
}

/* Of a question that has no words of its own. */
static void present_figures(struct mensur_presenter *presenter,
                            const struct mensur_profile *profile) {
    begin(presenter);
    draw(presenter, profile);
    mensur_tell_view(&presenter->document, presenter->heading->view, profile);
    write(presenter, MENSUR_HTML_ANSWER);
}

static void present_profile(struct mensur_presenter *presenter,
                            const struct mensur_profile *profile) {
    static const struct {
        const struct mensur_view *view;
        void (*present)(struct mensur_presenter *presenter, const struct mensur_profile *profile);
    } own[] = {{&mensur_view_lengths, present_lengths},
               {&mensur_view_tension, present_tension},
               {&mensur_view_fingers, present_fingers}};
    const struct mensur_view *view = presenter->heading->view;
    gather_profile(presenter, profile->instrument, profile, view->behind);
    for (size_t i = 0; i < sizeof(own) / sizeof(own[0]); i++) {
        if (own[i].view == view) {
            own[i].present(presenter, profile);
            return;
        }
    }
    present_figures(presenter, profile);
}

static void present_comparison(struct mensur_presenter *presenter,
                               const struct mensur_comparison *comparison) {
    begin(presenter);
    for (size_t i = 0; i < comparison->count; i++) {
        gather_profile(presenter, mensur_told_role(comparison, i), &comparison->instruments[i],
                       BEHIND_BOTH);
    }
    mensur_drawing(&presenter->document, (struct mensur_illustration){.parts = MENSUR_DRAW_SIDE,
                                                                      .comparison = comparison});
    mensur_tell_comparison(&presenter->document, comparison);
    write(presenter, MENSUR_HTML_ANSWER);
}

static void present_decision(struct mensur_presenter *presenter,
                             const struct mensur_decision *decision) {
    static const struct mensur_assumptions none;
    begin(presenter);
    gather_profile(presenter, decision->present.instrument, &decision->present,
                   BEHIND_BOTH | MENSUR_BEHIND_ROOM);
    if (decision->has_recommended && !decision->leave) {
        gather(presenter, decision->present.instrument, &none, 0, &decision->recommended.warnings);
    }
    if (decision->has_like) {
        gather_profile(presenter, decision->like.instrument, &decision->like, BEHIND_BOTH);
    }
    if (!is_written(presenter, MENSUR_HTML_ANSWER)) {
        mensur_tell_decision_headline(&presenter->document, decision);
        write(presenter, MENSUR_HTML_HEADLINE);
        return;
    }
    mensur_drawing(&presenter->document,
                   (struct mensur_illustration){.parts = MENSUR_DRAW_WISHES | MENSUR_DRAW_SIDE,
                                                .decision = decision});
    mensur_tell_decision(&presenter->document, decision);
    write(presenter, MENSUR_HTML_ANSWER);
}

static void present_restringing(struct mensur_presenter *presenter,
                                const struct mensur_restringing *restringing) {
    begin(presenter);
    gather_profile(presenter, restringing->present.instrument, &restringing->present,
                   MENSUR_VIEW_BEHIND_STRINGS | MENSUR_BEHIND_CHOICE);
    mensur_drawing(&presenter->document, (struct mensur_illustration){.parts = MENSUR_DRAW_TENSION,
                                                                      .restringing = restringing});
    mensur_tell_restringing(&presenter->document, restringing);
    write(presenter, MENSUR_HTML_ANSWER);
}

static void present_reaching(struct mensur_presenter *presenter,
                             const struct mensur_reaching *reaching) {
    begin(presenter);
    /* The proportions of an arm are told below the table of sizes, in brief without its lengths. */
    if (reaching->sizes == NULL || !presenter->style.no_sources) {
        gather(presenter, reaching->player, &reaching->assumed, MENSUR_BEHIND_ALL,
               &reaching->warnings);
    }
    /* That the sizes have usual heights is said once, below their table. */
    for (size_t i = 0; i < reaching->count && reaching->sizes == NULL; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        gather(presenter, reach->instrument, &reach->assumed, MENSUR_VIEW_BEHIND_LENGTHS,
               &reach->warnings);
    }
    mensur_tell_reaching(&presenter->document, reaching);
    write(presenter, MENSUR_HTML_ANSWER);
}

static void present_ranking(struct mensur_presenter *presenter,
                            const struct mensur_ranking *ranking) {
    begin(presenter);
    mensur_tell_ranking(&presenter->document, presenter->heading, ranking);
    write(presenter, MENSUR_HTML_ANSWER);
}

static void present_scaled(struct mensur_presenter *presenter,
                           const struct mensur_told_scaled *told) {
    begin(presenter);
    for (size_t i = 0; i < told->comparison->count; i++) {
        const struct mensur_profile *profile = &told->comparison->instruments[i];
        gather_profile(presenter, profile->instrument, profile, BEHIND_BOTH);
    }
    if (told->decision != NULL && told->decision->has_like) {
        gather_profile(presenter, told->decision->like.instrument, &told->decision->like,
                       BEHIND_BOTH);
    }
    mensur_drawing(
        &presenter->document,
        (struct mensur_illustration){.parts = MENSUR_DRAW_SIDE, .comparison = told->comparison});
    mensur_tell_scaled(&presenter->document, told);
    write(presenter, MENSUR_HTML_ANSWER);
}

static void present_map(struct mensur_presenter *presenter, const struct mensur_map *map) {
    begin(presenter);
    presenter->document.style.neck_base = mensur_shown_neck_base(map->held);
    gather(presenter, map->instrument, &map->assumed, MENSUR_VIEW_BEHIND_LENGTHS, &map->warnings);
    mensur_drawing(&presenter->document, (struct mensur_illustration){.map = map});
    mensur_tell_map(&presenter->document, map);
    write(presenter, MENSUR_HTML_ANSWER);
}

static void present_check(struct mensur_presenter *presenter, const char *file,
                          const char *row_name, long rows, const struct mensur_texts *warnings) {
    mensur_tell_check(&presenter->document, file, row_name, rows, warnings);
    mensur_gather_warnings(&presenter->gathered, warnings);
    mensur_out_fail(&presenter->out, presenter->gathered.status);
    write(presenter, MENSUR_HTML_ANSWER);
}

static void present_working(struct mensur_presenter *presenter) {
    mensur_tell_working(&presenter->document, presenter->working);
    write(presenter, MENSUR_HTML_WORKING);
}

static void present_close(struct mensur_presenter *presenter) {
    if (presenter->answers == 0) {
        mensur_paragraph(&presenter->document, 0, "There is nothing to answer about.");
    }
    present_held(presenter);
    if (in_parts(presenter)) {
        write(presenter, MENSUR_HTML_ANSWER);
    }
    if (is_written(presenter, MENSUR_HTML_NOTES)) {
        mensur_tell_gathered(&presenter->document, &presenter->gathered);
        mensur_tell_foot(&presenter->document, presenter->heading, &presenter->cautions);
        write(presenter, MENSUR_HTML_NOTES);
    }
    if (is_html(presenter)) {
        mensur_html_close(&presenter->html);
    }
    if (is_html(presenter) && presenter->style.whole_page) {
        mensur_page_end(&presenter->out);
    }
}

const struct mensur_writer mensur_document_writer = {
    present_open,
    present_profile,
    present_comparison,
    present_decision,
    present_restringing,
    present_reaching,
    present_ranking,
    present_map,
    present_scaled,
    present_check,
    NULL,
    present_close,
    present_working,
};
