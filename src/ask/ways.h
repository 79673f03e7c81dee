/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which function reads the words of a command, and which answers it. */
#ifndef MENSUR_WAYS_H
#define MENSUR_WAYS_H

#include "answer_kind.h"
#include "asking.h"
#include "reading.h"
#include "sources.h"
#include "view.h"

struct mensur_command_way {
    read_words *read;
    make_answer *make;
    const struct mensur_view *view; /* what it tells of each instrument; NULL: it tells none after
                                       the other */
    const struct mensur_answer_kind *kind; /* else the kind of its answer; NULL: of what it makes */
    const char *const *sources;            /* of what it makes; NULL: none are told */
};

/* The views and kinds that the table names. */
#define COMMAND_TOLD(id, name, arguments, meaning, example, takes, read, make, ...) __VA_ARGS__
#define TELLS(view) extern const struct mensur_view mensur_view_##view;
#define ANSWERS(kind) extern const struct mensur_answer_kind mensur_##kind##_answer;
#define MAKES(sources)
COMMAND_LIST(COMMAND_TOLD)
#undef COMMAND_TOLD
#undef TELLS
#undef ANSWERS
#undef MAKES

#endif
