/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening, handing on to the format asked for, and closing. */
#include "presenter.h"

#include <stdlib.h>
#include <string.h>

#include "cautions.h"
#include "shown.h"

#define WRITER(id, word, ending, prose, writer) &mensur_##writer##_writer,
static const struct mensur_writer *const writers[] = {MENSUR_FORMATS(WRITER)};

/* Frees a presenter. */
static void release(struct mensur_presenter *presenter) {
    for (size_t i = 0; i < presenter->held_count; i++) {
        free(presenter->held[i].instrument);
        free(presenter->held[i].spread);
    }
    mensur_gathered_clear(&presenter->gathered);
    mensur_facts_clear(&presenter->cautions);
    mensur_document_free(&presenter->document);
    free(presenter);
}

enum mensur_status mensur_present_open_within(const struct mensur_heading *heading,
                                              const struct mensur_style *style, size_t before,
                                              const struct mensur_sink *sink,
                                              struct mensur_presenter **presenter) {
    struct mensur_presenter *made = calloc(1, sizeof(*made));
    if (made == NULL) {
        return MENSUR_MEMORY;
    }
    made->heading = heading;
    made->style = *style;
    made->writer = writers[style->format];
    made->answers = before;
    mensur_out_open(&made->out, sink, style->bold && style->format == MENSUR_FORMAT_TEXT);
    *presenter = made;
    return MENSUR_OK;
}

enum mensur_status mensur_present_written(struct mensur_presenter *presenter, const char *bytes,
                                          size_t length, size_t answers) {
    struct mensur_out *out = &presenter->out;
    mensur_out_flush(out);
    if (out->status == MENSUR_OK && length > 0) {
        mensur_out_fail(out, out->sink.write(out->sink.context, bytes, length));
    }
    presenter->answers += answers;
    return out->status;
}

enum mensur_status mensur_present_open(const struct mensur_heading *heading,
                                       const struct mensur_style *style,
                                       const struct mensur_sink *sink,
                                       struct mensur_presenter **presenter) {
    struct mensur_presenter *made;
    enum mensur_status status = mensur_present_open_within(heading, style, 0, sink, &made);
    if (status != MENSUR_OK) {
        return status;
    }
    made->writer->open(made);
    mensur_out_flush(&made->out);
    status = made->out.status;
    if (status != MENSUR_OK) {
        release(made);
        return status;
    }
    *presenter = made;
    return MENSUR_OK;
}

/* Each answer leaves whole, so that what fails later leaves no half of it behind. */
static enum mensur_status answered(struct mensur_presenter *presenter) {
    if (presenter->working != NULL && presenter->writer->working != NULL) {
        presenter->writer->working(presenter);
    }
    presenter->working = NULL;
    presenter->answers++;
    mensur_out_flush(&presenter->out);
    return presenter->out.status;
}

enum mensur_status mensur_present_profile(struct mensur_presenter *presenter,
                                          const struct mensur_profile *profile) {
    if ((presenter->heading->view->parts & MENSUR_PART_STRINGS) != 0) {
        cautions_of_profile(profile, &presenter->cautions);
    }
    presenter->writer->profile(presenter, profile);
    return answered(presenter);
}

unsigned mensur_view_drawing(const struct mensur_view *view) {
    return (view->parts & MENSUR_PART_STRINGS) != 0   ? MENSUR_DRAW_TENSION
           : (view->parts & MENSUR_PART_FINGERS) != 0 ? MENSUR_DRAW_PLACES
                                                      : MENSUR_DRAW_SIDE | MENSUR_DRAW_BRIDGE;
}

enum mensur_status mensur_present(struct mensur_presenter *presenter,
                                  const struct mensur_answer_kind *kind, const void *record) {
    if (kind->tell == NULL && mensur_style_is_prose(&presenter->style)) {
        return MENSUR_USE;
    }
    if (kind->cautions != NULL) {
        kind->cautions(record, &presenter->cautions);
    }
    presenter->writer->answer(presenter, kind, record);
    return answered(presenter);
}

void mensur_present_cautions(struct mensur_presenter *presenter,
                             const struct mensur_facts *cautions) {
    cautions_join(cautions, &presenter->cautions);
}

void mensur_present_of_two(struct mensur_presenter *presenter) {
    presenter->of_two = presenter->style.format == MENSUR_FORMAT_TEXT && !presenter->style.full &&
                        !presenter->style.true_places && !presenter->style.feel;
}

void mensur_present_set_owners(struct mensur_presenter *presenter, const char *cells) {
    presenter->owners = cells;
}

void mensur_present_set_working(struct mensur_presenter *presenter,
                                const struct mensur_working *working) {
    presenter->working = working;
}

enum mensur_status mensur_present_close(struct mensur_presenter *presenter, bool complete) {
    if (presenter == NULL) {
        return MENSUR_OK;
    }
    mensur_out_fail(&presenter->out, presenter->cautions.status);
    if (complete) {
        presenter->writer->close(presenter);
        mensur_out_flush(&presenter->out);
    }
    enum mensur_status status = presenter->out.status;
    release(presenter);
    return status;
}
