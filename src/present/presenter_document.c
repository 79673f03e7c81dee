/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text and HTML: each answer is added to a document, which is written and cleared at once. Only the
 * lengths of the first instruments are held until it is known whether there are more of them. */
#include <stdlib.h>
#include <string.h>

#include "dossier.h"
#include "markup.h"
#include "telling.h"
#include "texts.h"

static void begin(struct mensur_presenter *presenter) {
    presenter->document.explain = presenter->answers == 0;
    if (presenter->answers > 0 && presenter->first == NULL) {
        mensur_gap(&presenter->document);
    }
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
    bool page = telling_is_html(presenter) && presenter->style.whole_page;
    size_t level = presenter->style.heading_level > 0 ? presenter->style.heading_level
                   : page                             ? 2
                                                      : 3;
    if (page) {
        begin_page(presenter);
    }
    mensur_document_open(&presenter->document, &presenter->style, !telling_is_html(presenter));
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
    if (presenter->working != NULL ||
        (telling_is_html(presenter) && presenter->style.illustrate != NULL)) {
        /* Not held: the working follows, or a drawing, which borrows the profile. */
        begin(presenter);
        draw(presenter, profile);
        mensur_tell_lengths(&presenter->document, &told);
        telling_write(presenter, MENSUR_HTML_ANSWER);
    } else if (presenter->of_two) {
        if (!waits(presenter, profile)) {
            struct mensur_told_lengths first = mensur_told_lengths_of(presenter->first);
            mensur_tell_lengths_of_two(&presenter->document, &first, &told);
            telling_write(presenter, MENSUR_HTML_ANSWER);
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
        telling_write_told(presenter, MENSUR_HTML_ANSWER);
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
    telling_write(presenter, MENSUR_HTML_ANSWER);
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
    telling_write(presenter, MENSUR_HTML_ANSWER);
}

/* Of a question that has no words of its own. */
static void present_figures(struct mensur_presenter *presenter,
                            const struct mensur_profile *profile) {
    begin(presenter);
    draw(presenter, profile);
    mensur_tell_view(&presenter->document, presenter->heading->view, profile);
    telling_write(presenter, MENSUR_HTML_ANSWER);
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
    telling_gather_profile(presenter, profile->instrument, profile, view->behind);
    for (size_t i = 0; i < sizeof(own) / sizeof(own[0]); i++) {
        if (own[i].view == view) {
            own[i].present(presenter, profile);
            return;
        }
    }
    present_figures(presenter, profile);
}

/* The drawing goes with what is told whole. */
static void present_answer(struct mensur_presenter *presenter,
                           const struct mensur_answer_kind *kind, const void *record) {
    begin(presenter);
    if (kind->drawing != NULL && telling_is_written(presenter, MENSUR_HTML_ANSWER)) {
        struct mensur_illustration drawing = {.parts = 0};
        kind->drawing(record, &drawing);
        mensur_drawing(&presenter->document, drawing);
    }
    kind->tell(presenter, record);
    telling_write(presenter, MENSUR_HTML_ANSWER);
}

static void present_working(struct mensur_presenter *presenter) {
    mensur_tell_working(&presenter->document, presenter->working);
    telling_write(presenter, MENSUR_HTML_WORKING);
}

static void present_close(struct mensur_presenter *presenter) {
    if (presenter->answers == 0) {
        mensur_paragraph(&presenter->document, 0, "There is nothing to answer about.");
    }
    present_held(presenter);
    if (telling_in_parts(presenter)) {
        telling_write(presenter, MENSUR_HTML_ANSWER);
    }
    if (telling_is_written(presenter, MENSUR_HTML_NOTES)) {
        mensur_tell_gathered(&presenter->document, &presenter->gathered);
        mensur_tell_foot(&presenter->document, presenter->heading, &presenter->cautions);
        telling_write(presenter, MENSUR_HTML_NOTES);
    } else if (telling_is_written(presenter, MENSUR_HTML_ALARMS)) {
        mensur_tell_warnings(&presenter->document, &presenter->gathered);
        mensur_footnotes(&presenter->document, MENSUR_FOOTNOTE_CAUTION, &presenter->cautions);
        telling_write(presenter, MENSUR_HTML_ALARMS);
    }
    if (telling_is_html(presenter)) {
        mensur_html_close(&presenter->html);
    }
    if (telling_is_html(presenter) && presenter->style.whole_page) {
        mensur_page_end(&presenter->out);
    }
}

const struct mensur_writer mensur_document_writer = {present_open, present_profile, present_answer,
                                                     present_close, present_working};
