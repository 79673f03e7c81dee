/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An open presentation, and the record of functions that a format is. */
#ifndef MENSUR_PRESENT_PRESENTER_H
#define MENSUR_PRESENT_PRESENTER_H

#include "answer_kind.h"
#include "tell.h"
#include "view.h"

struct mensur_held_lengths {
    char *instrument;             /* owned */
    struct mensur_spread *spread; /* owned; NULL */
    struct mensur_lengths lengths;
    struct mensur_assumptions assumed;
    struct mensur_told_lengths told; /* of these */
};

struct mensur_presenter;

/* A format. What its functions meet with is kept as the status of presenter->out. */
struct mensur_writer {
    void (*open)(struct mensur_presenter *presenter);
    /* What the heading's view tells of it. */
    void (*profile)(struct mensur_presenter *presenter, const struct mensur_profile *profile);
    /* Every other answer, by that function of its kind that this format is made from. */
    void (*answer)(struct mensur_presenter *presenter, const struct mensur_answer_kind *kind,
                   const void *record);
    void (*close)(struct mensur_presenter *presenter);
    void (*working)(struct mensur_presenter *presenter); /* behind an answer; NULL: elsewhere */
};

struct mensur_presenter {
    const struct mensur_heading *heading;
    struct mensur_style style;
    const struct mensur_writer *writer;
    size_t answers;                       /* before the one that is being written */
    const struct mensur_working *working; /* of the answer that is being written; NULL */
    bool of_two;                          /* it answers about two instruments, in brief text */
    const struct mensur_profile *first;   /* of them, until the second comes; borrowed */
    const char *owners;                   /* cells of its owner's columns; NULL */
    struct mensur_gathered gathered;
    struct mensur_facts cautions; /* of all answers; each kind once */
    struct mensur_held_lengths held[MENSUR_HELD_LENGTHS];
    size_t held_count;
    bool row_warned;                 /* a row of a table of many was marked */
    struct mensur_document document; /* what is told of the answer, in text and HTML */
    struct mensur_html html;
    struct mensur_out out;
};

/* The writers that MENSUR_FORMATS names, each in a file of its own; two formats may have one. */
#define MENSUR_WRITER(id, word, ending, prose, writer)                                             \
    extern const struct mensur_writer mensur_##writer##_writer;
MENSUR_FORMATS(MENSUR_WRITER)
#undef MENSUR_WRITER

#endif
