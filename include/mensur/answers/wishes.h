/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * What may be wished for: one list, from which the kinds, the options, the wished figures and the
 * page's fields are made.
 */
#ifndef MENSUR_WISHES_H
#define MENSUR_WISHES_H

/**
 * The wishes, a row each: ROW(X, id, word in JSON, its option, type and value of that, whether
 * restring reads it too, what it asks for; scope and key of the wished figure, the unit of its ends
 * in JSON, its name after "the wish for the"; a range and a single value as they are typed, what a
 * single value gives either way (SI, or a part of it: as much as one would notice in the hand,
 * ours), and whether that is a part).
 */
#define MENSUR_WISH_LIST(ROW, X)                                                                   \
    ROW(X, STRING_LENGTH, string_length, "string-length", TEXT, "LOW..HIGH", false,                \
        "wish for a string length", INSTRUMENT, "string_length_mm", "mm", "string length",         \
        "368..376", "372", 0.001, false)                                                           \
    ROW(X, RATIO, ratio, "ratio", TEXT, "2:LOW..2:HIGH", false, "wish for neck : stop",            \
        INSTRUMENT, "stop_per_2_neck", "stop per 2 neck", "neck : stop", "2:2.9..2:3.1", "2:3",    \
        0.05, false)                                                                               \
    ROW(X, BODY_NOTE, body_note, "body-note", TEXT, "LOW..HIGH", false,                            \
        "wish for where the hand meets the body, in semitones above the open string", INSTRUMENT,  \
        "body_at_semitones", "semitones", "note at the body", "8.4..8.9", "8.7", 0.2, false)       \
    ROW(X, LEFT_REACH, left_reach, "left-reach", TEXT, "LOW..HIGH", false,                         \
        "wish for the distance from the body's lower end to the nut", INSTRUMENT, "left_reach_mm", \
        "mm", "left hand's reach", "..560", "555", 0.005, false)                                   \
    ROW(X, TENSION, tension, "tension", LIST, "NOTE=LOW..HIGH", true,                              \
        "wish for a string's tension, or 95%..105% of the present (or liked) for all; repeatable", \
        STRING, "tension_N", "N", "tension", "A4=50..58 or 95%..105%", "A4=54 or 100%", 0.03,      \
        true)                                                                                      \
    ROW(X, TOTAL_TENSION, total_tension, "total-tension", TEXT, "LOW..HIGH", false,                \
        "wish for the tension of all strings", TOTAL, "total_tension_N", "N",                      \
        "tension of all strings", "180..220", "200", 0.03, true)                                   \
    ROW(X, BELLY_FORCE, belly_force, "belly-force", TEXT, "LOW..HIGH", true,                       \
        "wish for the force on the belly; restring: a limit, ..90", TOTAL,                         \
        "total_force_on_belly_N", "N", "force on the belly", "..90", "85", 0.03, true)

/** What a wish is about. */
enum mensur_wish_kind {
#define MENSUR_WISH_ENUM(X, id, ...) MENSUR_WISH_##id,
    MENSUR_WISH_LIST(MENSUR_WISH_ENUM, )
#undef MENSUR_WISH_ENUM
    /** How many there are. */
    MENSUR_WISH_COUNT
};

#endif
