/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strings of which nothing is known but what stands on the packet: tension, length and pitch. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "restring.h"

static bool read_positive(const char *text, size_t length, enum mensur_kind kind, double *value) {
    struct mensur_quantity quantity;
    if (mensur_quantity_read(text, length, kind, true, &quantity) != MENSUR_OK ||
        !(quantity.value > 0.0)) {
        return false;
    }
    *value = quantity.value;
    return true;
}

/* TENSION@LENGTH or TENSION@LENGTH@A4 */
static bool read_figures(const char *text, struct mensur_packet *packet) {
    const char *at = strchr(text, '@');
    packet->a4 = NAN;
    if (at == NULL || !read_positive(text, (size_t)(at - text), MENSUR_FORCE, &packet->tension)) {
        return false;
    }
    const char *length = at + 1;
    const char *second = strchr(length, '@');
    size_t size = second == NULL ? strlen(length) : (size_t)(second - length);
    return read_positive(length, size, MENSUR_LENGTH, &packet->length) &&
           (second == NULL ||
            read_positive(second + 1, strlen(second + 1), MENSUR_FREQUENCY, &packet->a4));
}

enum mensur_status mensur_packet_read(const char *text, struct mensur_fault *fault,
                                      struct mensur_packet *out) {
    const char *equals = strchr(text, '=');
    struct mensur_packet packet;
    if (equals == NULL ||
        mensur_note_read(text, (size_t)(equals - text), &packet.note) != MENSUR_OK ||
        !read_figures(equals + 1, &packet)) {
        mensur_fault_set(fault,
                         "\"%s\" is no packet; write NOTE=TENSION@LENGTH, for example A4=55@370, "
                         "and a third @ with its A4 where that is another (A4=55@370@442)",
                         text);
        return MENSUR_USE;
    }
    *out = packet;
    return MENSUR_OK;
}

/* Which packet of its note it is, from 1. */
static int number_of(const struct mensur_restring_wishes *wishes, size_t k) {
    int number = 1;
    for (size_t i = 0; i < k; i++) {
        if (strcmp(wishes->packets[i].note.name, wishes->packets[k].note.name) == 0) {
            number++;
        }
    }
    return number;
}

static enum mensur_status add_name(const struct mensur_restring_wishes *wishes, size_t k,
                                   struct mensur_texts *names) {
    const char *note = wishes->packets[k].note.name;
    int number = number_of(wishes, k);
    return number == 1 ? mensur_texts_add(names, "%s by its packet", note)
                       : mensur_texts_add(names, "%s by its packet, the %d.", note, number);
}

static bool is_tuned_to(const struct mensur_tuning *tuning, const struct mensur_note *note) {
    for (size_t i = 0; i < tuning->count; i++) {
        if (tuning->notes[i].semitones_from_a4 == note->semitones_from_a4 &&
            tuning->notes[i].fifths_from_a == note->fifths_from_a) {
            return true;
        }
    }
    return false;
}

static void make_string(const struct mensur_packet *packet, char *name, double a4,
                        struct mensur_string_spec *out) {
    mensur_string_spec_init(out);
    out->name = name;
    out->note = packet->note;
    out->stated_tension.value = packet->tension;
    out->stated_length.value = packet->length;
    out->stated_a4.value = isnan(packet->a4) ? a4 : packet->a4;
}

enum mensur_status restring_packets(struct restringer *restringer, struct mensur_texts *names,
                                    struct mensur_fault *fault) {
    const struct mensur_restring_wishes *wishes = restringer->wishes;
    if (wishes->packet_count == 0) {
        return MENSUR_OK;
    }
    restringer->packets = calloc(wishes->packet_count, sizeof *restringer->packets);
    if (restringer->packets == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t k = 0; k < wishes->packet_count; k++) {
        const struct mensur_packet *packet = &wishes->packets[k];
        if (!is_tuned_to(restringer->setup->tuning, &packet->note)) {
            mensur_fault_set(fault, "%s: a packet is given for %s, but no string is tuned to it",
                             restringer->setup->instrument->name, packet->note.name);
            return MENSUR_USE;
        }
        enum mensur_status status = add_name(wishes, k, names);
        if (status != MENSUR_OK) {
            return status;
        }
        make_string(packet, names->items[k], restringer->terms->a4, &restringer->packets[k]);
    }
    return MENSUR_OK;
}
