/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "state.h"

const char *mensur_state_word(enum mensur_state state) {
    static const char *const words[MENSUR_STATE_COUNT] = {
        [MENSUR_STATE_NOW] = "now",
        [MENSUR_STATE_PROPOSED] = "proposed",
        [MENSUR_STATE_RECOMMENDED] = "recommended",
        [MENSUR_STATE_MODEL] = "model",
    };
    return words[state];
}
