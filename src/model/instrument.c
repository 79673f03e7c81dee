/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An instrument: initialise, copy, clear. */
#include "instrument.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "texts.h"

void mensur_instrument_init(struct mensur_instrument *instrument) {
    *instrument = (struct mensur_instrument){0};
    for (int i = 0; i < MENSUR_FIELD_COUNT; i++) {
        instrument->measure[i] = MENSUR_UNKNOWN;
    }
}

static bool copy_text(const char *from, char **to) {
    *to = NULL;
    return from == NULL || mensur_text_copy(from, strlen(from), to) == MENSUR_OK;
}

static bool copy_owners(const struct mensur_owners *from, struct mensur_owners *to) {
    *to = (struct mensur_owners){malloc(from->size), from->size};
    if (to->cells != NULL) {
        memcpy(to->cells, from->cells, from->size);
    }
    return to->cells != NULL;
}

enum mensur_status mensur_instrument_copy(const struct mensur_instrument *from,
                                          struct mensur_instrument *to) {
    struct mensur_instrument copy = *from;
    bool good = copy_text(from->name, &copy.name);
    good = copy_text(from->family, &copy.family) && good;
    good = copy_text(from->tuning, &copy.tuning) && good;
    good = copy_text(from->set, &copy.set) && good;
    good = copy_text(from->note, &copy.note) && good;
    good = (from->owners.size == 0 || copy_owners(&from->owners, &copy.owners)) && good;
    if (!good) {
        mensur_instrument_clear(&copy);
        return MENSUR_MEMORY;
    }
    *to = copy;
    return MENSUR_OK;
}

void mensur_instrument_clear(struct mensur_instrument *instrument) {
    free(instrument->name);
    free(instrument->family);
    free(instrument->tuning);
    free(instrument->set);
    free(instrument->note);
    free(instrument->owners.cells);
    mensur_instrument_init(instrument);
}
