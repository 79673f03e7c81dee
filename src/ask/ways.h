/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which function reads the words of a command, and which answers it. */
#ifndef MENSUR_WAYS_H
#define MENSUR_WAYS_H

#include "asking.h"
#include "reading.h"
#include "view.h"

struct mensur_command_way {
    read_words *read;
    make_answer *make;
    const struct mensur_view *view; /* what it tells of each instrument; NULL: it tells none after
                                       the other */
    unsigned draw; /* else the parts of its drawing, some of enum mensur_drawing_parts */
};

#endif
