/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The states of an instrument: the words that texts, drawings, dossier and page name them by. */
#ifndef MENSUR_STATE_H
#define MENSUR_STATE_H

enum mensur_state {
    MENSUR_STATE_NOW,         /* as the file has it */
    MENSUR_STATE_PROPOSED,    /* with changes to what the file has */
    MENSUR_STATE_RECOMMENDED, /* as a decision would have it; proposed as soon as it is taken */
    MENSUR_STATE_MODEL        /* another one, which it is held against or shall be like */
};

/* How many there are. */
#define MENSUR_STATE_COUNT (MENSUR_STATE_MODEL + 1)

/* "now", "proposed" ...; static text. */
const char *mensur_state_word(enum mensur_state state);

#endif
