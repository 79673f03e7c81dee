/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions and sources that stand under the answers of a command. */
#include <stddef.h>
#include <string.h>

#include "ask.h"

#define CAUTION_STRING                                                                             \
    "A string under tension can break and injure an eye: keep the face away while tuning up."
#define CAUTION_BELLY                                                                              \
    "More tension than an instrument was built for can sink the belly or draw the neck up: have "  \
    "a "                                                                                           \
    "maker or restorer look before fitting heavier strings."
#define CAUTION_NECK                                                                               \
    "Lengthening a neck, or moving a soundpost, on an existing instrument is work for a "          \
    "qualified "                                                                                   \
    "restorer; local rules on protected materials (ebony, ivory, gut by species) come first."
#define CAUTION_BODY                                                                               \
    "Reach and spread compare instruments; they are no medical advice. Pain while playing is a "   \
    "matter for a teacher and a clinician."

#define SOURCE_GEOMETRY                                                                            \
    "String length, angles, reach: plane geometry of the side view; usual values where a "         \
    "measurement is missing: common practice, no source."
#define SOURCE_STRING                                                                              \
    "Tension of a string, T = 4 L^2 f^2 mu: Mersenne 1636; any acoustics textbook."
#define SOURCE_PITCH "A4 = 440 Hz: ISO 16:1975; open strings in pure fifths: common practice."
#define SOURCE_BELLY "Force on the belly, T (sin a + sin b): statics."
#define SOURCE_FINGERS                                                                             \
    "Finger places, L (1 - 1/ratio): the same law at constant tension; positions and frame of "    \
    "the "                                                                                         \
    "hand: common practice, no source."
#define SOURCE_STIFF "Inharmonicity: H. Fletcher 1964, JASA 36, 203-209 (from memory)."
#define SOURCE_BOW                                                                                 \
    "Greatest bow force: Schelleng's limit as in Woodhouse, Euphonics, 9.3.1; least: Schelleng "   \
    "1973, JASA 53, 26-41 (from memory)."
#define SOURCE_STOPPING "Pitch rise of stopping, true places: elastic stretch over the longer path."
#define SOURCE_ARM                                                                                 \
    "Arm from stature: Drillis and Contini 1966, as reproduced in Winter 2009 (read second hand)."

struct command_texts {
    const char *command;
    const char *const *cautions;
    const char *const *sources;
};

static const char *const none[] = {NULL};
static const char *const lengths_cautions[] = {CAUTION_BODY, NULL};
static const char *const lengths_sources[] = {SOURCE_GEOMETRY, NULL};
static const char *const tension_cautions[] = {CAUTION_STRING, CAUTION_BELLY, NULL};
static const char *const tension_sources[] = {SOURCE_STRING,   SOURCE_PITCH, SOURCE_BELLY,
                                              SOURCE_STIFF,    SOURCE_BOW,   SOURCE_STOPPING,
                                              SOURCE_GEOMETRY, NULL};
static const char *const fingers_sources[] = {SOURCE_FINGERS, SOURCE_STOPPING, SOURCE_GEOMETRY,
                                              NULL};
static const char *const sheet_sources[] = {SOURCE_FINGERS, SOURCE_GEOMETRY, NULL};
static const char *const whole_cautions[] = {CAUTION_STRING, CAUTION_BELLY, CAUTION_NECK,
                                             CAUTION_BODY, NULL};
static const char *const whole_sources[] = {SOURCE_GEOMETRY, SOURCE_STRING,   SOURCE_PITCH,
                                            SOURCE_BELLY,    SOURCE_FINGERS,  SOURCE_STIFF,
                                            SOURCE_BOW,      SOURCE_STOPPING, NULL};
static const char *const reach_sources[] = {SOURCE_ARM, SOURCE_GEOMETRY, SOURCE_FINGERS, NULL};

static const struct command_texts texts[] = {
    {"lengths", lengths_cautions, lengths_sources}, {"tension", tension_cautions, tension_sources},
    {"fingers", lengths_cautions, fingers_sources}, {"compare", whole_cautions, whole_sources},
    {"change", whole_cautions, whole_sources},      {"neck", whole_cautions, whole_sources},
    {"stop", whole_cautions, whole_sources},        {"restring", tension_cautions, tension_sources},
    {"reach", lengths_cautions, reach_sources},     {"sheet", lengths_cautions, sheet_sources},
    {"dossier", whole_cautions, whole_sources},
};

static const struct command_texts *find(const char *command) {
    static const struct command_texts unknown = {NULL, none, none};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        if (strcmp(texts[i].command, command) == 0) {
            return &texts[i];
        }
    }
    return &unknown;
}

const char *const *mensur_cautions(const char *command) {
    return find(command)->cautions;
}

const char *const *mensur_sources(const char *command) {
    return find(command)->sources;
}
