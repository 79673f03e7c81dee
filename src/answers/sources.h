/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sources that stand under answers; lists of them, NULL behind the last. */
#ifndef MENSUR_SOURCES_H
#define MENSUR_SOURCES_H

#define MENSUR_SOURCE_GEOMETRY                                                                     \
    "String length, angles, reach: plane geometry of the side view; usual values where a "         \
    "measurement is missing: common practice, no source."
#define MENSUR_SOURCE_STRING                                                                       \
    "Tension of a string, T = 4 L^2 f^2 mu: Mersenne 1636; any acoustics textbook."
#define MENSUR_SOURCE_PITCH                                                                        \
    "A4 = 440 Hz: ISO 16:1975; open strings in pure fifths: common practice."
#define MENSUR_SOURCE_BELLY "Force on the belly, T (sin a + sin b): statics."
#define MENSUR_SOURCE_FINGERS                                                                      \
    "Finger places, L (1 - 1/ratio): the same law at constant tension; positions and frame of "    \
    "the "                                                                                         \
    "hand: common practice, no source."
#define MENSUR_SOURCE_STIFF "Inharmonicity: H. Fletcher 1964, JASA 36, 203-209 (from memory)."
#define MENSUR_SOURCE_BOW                                                                          \
    "Greatest bow force: Schelleng's limit as in Woodhouse, Euphonics, 9.3.1; least: Schelleng "   \
    "1973, JASA 53, 26-41 (from memory)."
#define MENSUR_SOURCE_STOPPING                                                                     \
    "Pitch rise of stopping, true places: elastic stretch over the longer path."
#define MENSUR_SOURCE_AIR                                                                          \
    "Note of the body's air: ours, after Nia and others 2015, Proc. R. Soc. A 471, 20140905; its " \
    "exponent and volume by figures in McLennan 2008; its usual place: Hutchins 1967."
#define MENSUR_SOURCE_SIZES                                                                        \
    "A model in another size: fitted to published sizes whose authors are not known, else common " \
    "practice, no source."
#define MENSUR_SOURCE_ARM                                                                          \
    "Arm from stature: ANSUR II (2012), ratios computed from the data; of children Snyder and "    \
    "others 1977 (read second hand); rest, direction and the wrist's place are our own."

extern const char *const mensur_sources_lengths[];
extern const char *const mensur_sources_tension[];
extern const char *const mensur_sources_fingers[];
extern const char *const mensur_sources_whole[];
extern const char *const mensur_sources_dossier[];
extern const char *const mensur_sources_compared[];
extern const char *const mensur_sources_scale[];
extern const char *const mensur_sources_reach[];

#endif
