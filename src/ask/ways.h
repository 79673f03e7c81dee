/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which function reads the words of a command, and which answers it. */
#ifndef MENSUR_WAYS_H
#define MENSUR_WAYS_H

#include "asking.h"
#include "reading.h"

struct mensur_command_way {
    read_words *read;
    make_answer *make;
    unsigned draw; /* the parts of its drawing, some of enum mensur_drawing_parts */
    /* lengths, tension, fingers: what is asked of each instrument, some of enum mensur_parts, and
     * how it is set down. */
    unsigned parts;
    enum mensur_status (*present)(struct mensur_presenter *presenter,
                                  const struct mensur_profile *profile);
};

#endif
