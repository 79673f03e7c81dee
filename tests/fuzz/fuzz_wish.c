/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Values of options: wishes, notes, packets, changed measurements. The first byte chooses the wish
 * and the measurement. */
#include <math.h>
#include <string.h>

#include "ask.h"
#include "fuzz.h"
#include "measure.h"
#include "note.h"

static void try_wish(unsigned kind, const char *text) {
    struct mensur_wish wish;
    struct mensur_fault fault = {.text = ""};
    if (mensur_wish_read((enum mensur_wish_kind)(kind % (MENSUR_WISH_BELLY_FORCE + 1)), text,
                         &fault, &wish) != MENSUR_OK) {
        MUST(fault.text[0] != '\0');
        return;
    }
    MUST(isnan(wish.low) || isnan(wish.high) || wish.low <= wish.high);
    MUST(memchr(wish.note, '\0', sizeof wish.note) != NULL);
}

static void try_measure(unsigned field, const char *text) {
    struct mensur_quantity quantity;
    struct mensur_fault fault = {.text = ""};
    if (mensur_read_measure((enum mensur_field)(field % MENSUR_FIELD_COUNT), text, field > 127,
                            &fault, &quantity) != MENSUR_OK) {
        MUST(fault.text[0] != '\0');
        return;
    }
    MUST(isfinite(quantity.value));
}

static void try_packet(const char *text) {
    struct mensur_packet packet;
    struct mensur_fault fault = {.text = ""};
    if (mensur_packet_read(text, &fault, &packet) != MENSUR_OK) {
        MUST(fault.text[0] != '\0');
        return;
    }
    MUST(isfinite(packet.tension) && packet.tension > 0.0);
    MUST(isfinite(packet.length) && packet.length > 0.0);
    MUST(isnan(packet.a4) || (isfinite(packet.a4) && packet.a4 > 0.0));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char text[512];
    struct mensur_note note;
    if (size == 0 || size > sizeof text) {
        return 0;
    }
    memcpy(text, data + 1, size - 1);
    text[size - 1] = '\0';
    try_wish(data[0], text);
    try_measure(data[0], text);
    try_packet(text);
    if (mensur_note_read(text, size - 1, &note) == MENSUR_OK) {
        MUST(memchr(note.name, '\0', sizeof note.name) != NULL);
    }
    return 0;
}
