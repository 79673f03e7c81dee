/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Status codes: what a function of mensur returns.
 *
 * One rule for the whole library: a function that can fail returns a status;
 * its results go out through its last arguments and are untouched on failure.
 * Nothing is kept in a global variable, nothing is printed.
 */
#ifndef MENSUR_STATUS_H
#define MENSUR_STATUS_H

/** The list that makes both the enum and its texts, so that the two always agree. */
#define MENSUR_STATUS_LIST(X)                                                                      \
    X(OK, 0, "answered")                                                                           \
    X(NOT_MET, 1, "answered: the wish cannot be met")                                              \
    X(USE, 2, "wrong use")                                                                         \
    X(DATA, 3, "bad data")                                                                         \
    X(DOMAIN, 4, "a value lies outside its domain")                                                \
    X(NO_ANSWER, 4, "no physical answer")                                                          \
    X(MEMORY, 5, "out of memory")                                                                  \
    X(READ, 5, "reading failed")                                                                   \
    X(WRITE, 5, "writing failed")

/** A function's outcome; MENSUR_OK is 0. */
enum mensur_status {
#define MENSUR_STATUS_ENUM(name, exit_code, text) MENSUR_##name,
    MENSUR_STATUS_LIST(MENSUR_STATUS_ENUM)
#undef MENSUR_STATUS_ENUM
};

/**
 * The meaning of a status in a few words.
 *
 * @param status  any status
 * @return        borrowed text, never NULL ("unknown status" for a wrong value)
 */
const char *mensur_status_text(enum mensur_status status);

/**
 * The program's exit code for a status.
 *
 * @param status  any status
 * @return        0 answered, 1 cannot be met, 2 wrong use, 3 bad data,
 *                4 no physical answer, 5 the system failed
 */
int mensur_status_exit_code(enum mensur_status status);

#endif
