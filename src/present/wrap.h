/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Running text, broken at blanks before it is too wide, and inside a word that alone is too wide.
 */
#ifndef MENSUR_PRESENT_WRAP_H
#define MENSUR_PRESENT_WRAP_H

#include "letters.h"

#if defined(__GNUC__)
#define MENSUR_ENDS_WITH_NULL __attribute__((sentinel))
#else
#define MENSUR_ENDS_WITH_NULL
#endif

struct mensur_wrap {
    struct mensur_out *out;
    size_t column; /* where the line ends so far */
    size_t indent; /* of the lines that follow */
    bool started;  /* the line holds a word of this text */
    bool glued;    /* the word goes on with the one before */
    size_t bytes;  /* of the word that is not yet written */
    size_t width;  /* its columns */
    char word[512];
};

/* Begins where the line ends so far; the lines that follow are indented, by less than 72. */
void mensur_wrap_open(struct mensur_wrap *wrap, struct mensur_out *out, size_t column,
                      size_t indent);
/* Adds texts, the last followed by NULL; a word may go on from one text to the next. */
void mensur_wrap_say(struct mensur_wrap *wrap, const char *text, ...) MENSUR_ENDS_WITH_NULL;
/* Writes the last word and ends the line. */
void mensur_wrap_close(struct mensur_wrap *wrap);

/* One text as a paragraph: its first line indented by first, the others by rest. */
void mensur_paragraph(struct mensur_out *out, size_t first, size_t rest, const char *text);

#endif
