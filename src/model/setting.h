/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The habits of a shop: one list drives the reader of settings.csv, the options that a habit stands
 * for where they are not given, and what an answer says of it.
 */
#ifndef MENSUR_SETTING_H
#define MENSUR_SETTING_H

/* Words that may be chosen from; the enums of the choices have their order. */
#define MENSUR_CHOICES_FIFTHS "pure|equal"
#define MENSUR_CHOICES_STEPS "equal|pythagorean|just|quarter-comma"
#define MENSUR_CHOICES_HOLD "projection|slope"
#define MENSUR_CHOICES_UNITS "mm|in"
#define MENSUR_CHOICES_FORCE_UNIT "kg|N|lb"
#define MENSUR_CHOICES_CATALOGUE "yes|no"

/** name as in settings.csv, words to choose from (NULL: any text), what holds where it is not set
 */
#define MENSUR_SETTING_LIST(X)                                                                     \
    X(A4, "a4", NULL, "440")                                                                       \
    X(FIFTHS, "fifths", MENSUR_CHOICES_FIFTHS, "pure")                                             \
    X(STEPS, "steps", MENSUR_CHOICES_STEPS, "equal")                                               \
    X(UNITS, "units", MENSUR_CHOICES_UNITS, "mm")                                                  \
    X(FORCE_UNIT, "force_unit", MENSUR_CHOICES_FORCE_UNIT, "kg")                                   \
    X(PLAYER, "player", NULL, "")                                                                  \
    X(HEADING, "heading", NULL, "")                                                                \
    X(HOLD, "hold", MENSUR_CHOICES_HOLD, "")                                                       \
    X(CATALOGUE, "catalogue", MENSUR_CHOICES_CATALOGUE, "yes")

/** A habit. */
enum mensur_setting_id {
#define MENSUR_SETTING_ENUM(id, name, choices, usual) MENSUR_SETTING_##id,
    MENSUR_SETTING_LIST(MENSUR_SETTING_ENUM)
#undef MENSUR_SETTING_ENUM
        MENSUR_SETTING_COUNT
};

/** A row of the list. */
struct mensur_setting_info {
    const char *name;
    const char *choices; /**< "a|b|c"; NULL: any text */
    const char *usual;   /**< what holds where it is not set; empty: nothing */
};

/* The row of a habit; static. */
const struct mensur_setting_info *mensur_setting_info(enum mensur_setting_id setting);

/** A row of settings.csv; owns its texts. */
struct mensur_setting {
    char *name;
    char *value; /**< one of the choices where it has some; NULL: not set */
    enum mensur_setting_id which;
};

#endif
