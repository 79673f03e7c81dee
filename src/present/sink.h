/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Bytes on their way to the sink: gathered, written in one go, and the first failure kept, so that
 * whoever sets down an answer need not ask after every word.
 */
#ifndef MENSUR_PRESENT_SINK_H
#define MENSUR_PRESENT_SINK_H

#include "present.h"

struct mensur_out {
    struct mensur_sink sink;
    enum mensur_status status; /* the first failure; after it nothing is written */
    bool bold;
    size_t blanks; /* asked for and not yet written: none is left at a line's end */
    size_t used;
    char bytes[4096];
};

void mensur_out_open(struct mensur_out *out, const struct mensur_sink *sink, bool bold);
/* Keeps a failure unless one is kept already. */
void mensur_out_fail(struct mensur_out *out, enum mensur_status status);
void mensur_out_bytes(struct mensur_out *out, const char *bytes, size_t length);
void mensur_out_text(struct mensur_out *out, const char *text);
/* Room for so many bytes, at most 1024, to write into; what mensur_out_wrote tells of it counts.
 * It is for those who leave no blanks. */
char *mensur_out_room(struct mensur_out *out, size_t room);
void mensur_out_wrote(struct mensur_out *out, size_t length);
void mensur_out_blanks(struct mensur_out *out, size_t count);
void mensur_out_line(struct mensur_out *out);
/* Switches a terminal's bold on and off, where it is wanted. */
void mensur_out_strong(struct mensur_out *out, bool on);
void mensur_out_flush(struct mensur_out *out);

#endif
