/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sources that stand under the answers of a command. */
#include <stddef.h>
#include <string.h>

#include "ask.h"

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
#define SOURCE_AIR                                                                                 \
    "Note of the body's air: ours, after Nia and others 2015, Proc. R. Soc. A 471, 20140905; its " \
    "exponent and volume by figures in McLennan 2008; its usual place: Hutchins 1967."
#define SOURCE_SIZES                                                                               \
    "A model in another size: fitted to published sizes whose authors are not known, else common " \
    "practice, no source."
#define SOURCE_ARM                                                                                 \
    "Arm from stature: ANSUR II (2012), ratios computed from the data; of children Snyder and "    \
    "others 1977 (read second hand); rest, direction and the wrist's place are our own."

struct command_sources {
    const char *command;
    const char *const *sources;
};

static const char *const none[] = {NULL};
static const char *const lengths_sources[] = {SOURCE_GEOMETRY, NULL};
static const char *const tension_sources[] = {SOURCE_STRING,   SOURCE_PITCH, SOURCE_BELLY,
                                              SOURCE_STIFF,    SOURCE_BOW,   SOURCE_STOPPING,
                                              SOURCE_GEOMETRY, NULL};
static const char *const fingers_sources[] = {SOURCE_FINGERS, SOURCE_STOPPING, SOURCE_GEOMETRY,
                                              NULL};
static const char *const sheet_sources[] = {SOURCE_FINGERS, SOURCE_GEOMETRY, NULL};
static const char *const whole_sources[] = {SOURCE_GEOMETRY, SOURCE_STRING,   SOURCE_PITCH,
                                            SOURCE_BELLY,    SOURCE_FINGERS,  SOURCE_STIFF,
                                            SOURCE_BOW,      SOURCE_STOPPING, NULL};
static const char *const dossier_sources[] = {SOURCE_GEOMETRY, SOURCE_STRING,  SOURCE_PITCH,
                                              SOURCE_BELLY,    SOURCE_FINGERS, NULL};
static const char *const compared_sources[] = {
    SOURCE_GEOMETRY, SOURCE_STRING, SOURCE_PITCH,    SOURCE_BELLY, SOURCE_FINGERS,
    SOURCE_STIFF,    SOURCE_BOW,    SOURCE_STOPPING, SOURCE_AIR,   NULL};
static const char *const scale_sources[] = {
    SOURCE_SIZES, SOURCE_GEOMETRY, SOURCE_STRING,   SOURCE_PITCH, SOURCE_BELLY, SOURCE_FINGERS,
    SOURCE_STIFF, SOURCE_BOW,      SOURCE_STOPPING, SOURCE_AIR,   NULL};
static const char *const reach_sources[] = {SOURCE_ARM, SOURCE_GEOMETRY, SOURCE_FINGERS, NULL};

static const struct command_sources texts[] = {
    {"lengths", lengths_sources}, {"tension", tension_sources},  {"fingers", fingers_sources},
    {"scale", scale_sources},     {"compare", compared_sources}, {"change", compared_sources},
    {"neck", whole_sources},      {"stop", whole_sources},       {"restring", tension_sources},
    {"reach", reach_sources},     {"sheet", sheet_sources},      {"dossier", dossier_sources},
    {"find", tension_sources},    {"map", whole_sources},        {"template", lengths_sources},
};

static const struct command_sources *find(const char *command) {
    static const struct command_sources unknown = {NULL, none};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        if (strcmp(texts[i].command, command) == 0) {
            return &texts[i];
        }
    }
    return &unknown;
}

const char *const *mensur_sources(const char *command) {
    return find(command)->sources;
}
