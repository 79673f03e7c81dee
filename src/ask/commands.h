/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands, options, and which go together. One table drives reading, help, man page and
 * completion. */
#ifndef MENSUR_COMMANDS_H
#define MENSUR_COMMANDS_H

#include "question.h"
#include "ranking.h"
#include "setting.h"

/* "text|csv" and so on: the words of --format, one for each row of MENSUR_FORMATS. */
#define FORMAT_WORD(id, word, ending, prose, writer) "|" word
#define FORMAT_WORDS (&MENSUR_FORMATS(FORMAT_WORD)[1])

/* What else a command takes (added together), beside the options that name it. */
enum command_takes {
    TAKES_SEVERAL = 1, /* several instruments */
    TAKES_EVERY = 2,   /* every instrument of the shop, by an option */
    TAKES_WISHES = 4,
    TAKES_BOW = 8, /* how it is bowed, and what bow and finger feel */
    TAKES_FRETS = 16,
    TAKES_ONE = 32 /* one instrument alone: what stands behind it changes it */
};

/* A command in a row: id, name, arguments, what it answers, an example; what it takes; what reads
 * its words (ask_read_...) and what answers it (ask_make_...); what it tells of each instrument,
 * one after the other, TELLS(view), or the kind of its answer, ANSWERS(kind), or the sources of
 * what it makes, MAKES(sources). */
#define COMMAND_LIST(X)                                                                            \
    X(START, "start", "FOLDER", "write the demonstration shop, ready to edit",                     \
      "mensur start my-shop", 0, start, start, MAKES(NULL))                                        \
    X(CHECK, "check", "", "read every file of the shop; say what is wrong and where",              \
      "mensur check --shop my-shop", 0, check, files, ANSWERS(checked))                            \
    X(LENGTHS, "lengths", "[NAME...]",                                                             \
      "string length, neck : stop, note at the body, angles, reach",                               \
      "mensur lengths heron kestrel", TAKES_SEVERAL, rows, rows, TELLS(lengths))                   \
    X(TENSION, "tension", "NAME...", "the tension of each string, what it bears, how it presses",  \
      "mensur tension kestrel", TAKES_SEVERAL | TAKES_EVERY | TAKES_BOW, rows, rows,               \
      TELLS(tension))                                                                              \
    X(FINGERS, "fingers", "NAME...", "where the fingers fall, in every position",                  \
      "mensur fingers kestrel", TAKES_SEVERAL | TAKES_EVERY | TAKES_FRETS, rows, rows,             \
      TELLS(fingers))                                                                              \
    X(COMPARE, "compare", "NAME NAME...", "instruments side by side, and where intuition fails",   \
      "mensur compare kestrel wren", TAKES_SEVERAL | TAKES_BOW, compare, comparison,               \
      ANSWERS(comparison))                                                                         \
    X(CHANGE, "change", "NAME FIELD=VALUE...", "an instrument as it is against itself as changed", \
      "mensur change kestrel neck=+6 stop=-3", TAKES_ONE | TAKES_BOW, change, change,              \
      ANSWERS(comparison))                                                                         \
    X(SCALE, "scale", "NAME body=MM [wishes]",                                                     \
      "a model in another size: what is scaled by which rule, what is held",                       \
      "mensur scale heron body=395", TAKES_ONE | TAKES_WISHES, scale, scaled, ANSWERS(scaled))     \
    X(NECK, "neck", "NAME [wishes]", "the neck that this stop wants",                              \
      "mensur neck kestrel --like heron", TAKES_WISHES | TAKES_BOW, decide, decision,              \
      ANSWERS(decision))                                                                           \
    X(STOP, "stop", "NAME [wishes]", "the stop that this neck wants",                              \
      "mensur stop kestrel --string-length 368..376", TAKES_WISHES | TAKES_BOW, decide, decision,  \
      ANSWERS(decision))                                                                           \
    X(FIND, "find", "[wishes] [--like NAME]", "which instruments suit, nearest in the hand first", \
      "mensur find family=viola string_length=..370 --like heron", TAKES_WISHES, find, ranking,    \
      ANSWERS(ranking))                                                                            \
    X(RESTRING, "restring", "NAME [FIELD=VALUE...] [wishes]",                                      \
      "strings for this length, out of the catalogue", "mensur restring kestrel --like heron",     \
      TAKES_ONE, restring, restringing, ANSWERS(restringing))                                      \
    X(MAP, "map", "[NAME...] [wishes]", "instruments on the plane of stop and neck",               \
      "mensur map kestrel --like heron --output map.svg", TAKES_SEVERAL | TAKES_WISHES, map, map,  \
      ANSWERS(map))                                                                                \
    X(REACH, "reach", "[NAME...] --player NAME",                                                   \
      "the left arm and the bow arm of a player on each",                                          \
      "mensur reach kestrel heron --player small", TAKES_SEVERAL, reach, reaching,                 \
      ANSWERS(reaching))                                                                           \
    X(SHEET, "sheet", "NAME [NAME] --output FILE.pdf", "finger places at true size, to print",     \
      "mensur sheet heron kestrel --output fingers.pdf", TAKES_SEVERAL | TAKES_FRETS, sheet,       \
      sheet, MAKES(NULL))                                                                          \
    X(TEMPLATE, "template", "NAME [FIELD=VALUE...] --output FILE.pdf",                             \
      "the neck's side view, bridge and nut at true size, to print",                               \
      "mensur template heron --output neck.pdf", 0, template, template, MAKES(NULL))               \
    X(DOSSIER, "dossier", "NAME... [wishes] --output FILE.html or FILE.pdf",                       \
      "what was decided, to hand over", "mensur dossier heron kestrel --output customer.html",     \
      TAKES_SEVERAL | TAKES_WISHES, dossier, dossier, MAKES(mensur_sources_dossier))

/* A command; the bit 1 << id stands for it in a mask. */
enum command {
#define COMMAND_ENUM(id, ...) COMMAND_##id,
    COMMAND_LIST(COMMAND_ENUM)
#undef COMMAND_ENUM
        COMMAND_COUNT
};

#define COMMANDS_ALL (~0u)
#define COMMANDS_SHOP (COMMANDS_ALL & ~(1u << COMMAND_START))
#define COMMANDS_ANSWER (COMMANDS_SHOP & ~(1u << COMMAND_CHECK))
#define COMMANDS_DECIDE ((1u << COMMAND_NECK) | (1u << COMMAND_STOP))
#define COMMANDS_MADE ((1u << COMMAND_SHEET) | (1u << COMMAND_TEMPLATE) | (1u << COMMAND_DOSSIER))
#define COMMANDS_SCALE (1u << COMMAND_SCALE)
#define COMMANDS_FIND (1u << COMMAND_FIND)
#define BIT_OF(id, takes, wanted) | (((takes) & (wanted)) != 0 ? 1u << COMMAND_##id : 0u)
#define BIT_SEVERAL(id, name, arguments, meaning, example, takes, ...)                             \
    BIT_OF(id, takes, TAKES_SEVERAL)
#define BIT_EVERY(id, name, arguments, meaning, example, takes, ...) BIT_OF(id, takes, TAKES_EVERY)
#define BIT_WISH(id, name, arguments, meaning, example, takes, ...) BIT_OF(id, takes, TAKES_WISHES)
#define BIT_BOW(id, name, arguments, meaning, example, takes, ...) BIT_OF(id, takes, TAKES_BOW)
#define BIT_ONE(id, name, arguments, meaning, example, takes, ...) BIT_OF(id, takes, TAKES_ONE)
#define BIT_FRETS(id, name, arguments, meaning, example, takes, ...) BIT_OF(id, takes, TAKES_FRETS)
#define COMMANDS_SEVERAL (0u COMMAND_LIST(BIT_SEVERAL))
#define COMMANDS_EVERY (0u COMMAND_LIST(BIT_EVERY))
#define COMMANDS_WISH (0u COMMAND_LIST(BIT_WISH))
#define COMMANDS_STRINGS (0u COMMAND_LIST(BIT_BOW))
#define COMMANDS_ONE (0u COMMAND_LIST(BIT_ONE))
#define COMMANDS_FRETS (0u COMMAND_LIST(BIT_FRETS))
#define COMMANDS_RESTRING (1u << COMMAND_RESTRING)

/* A wish is an option of its word. */
#define WISH_OPTION(X, id, word, option, type, value, restring, meaning, ...)                      \
    X(word, option, type, value, COMMANDS_WISH | ((restring) ? COMMANDS_RESTRING : 0), meaning)

/* id, name, type, value, commands, meaning */
#define OPTION_LIST_ALL(X)                                                                         \
    X(shop, "shop", TEXT, "FOLDER", COMMANDS_SHOP,                                                 \
      "the shop's folder; else MENSUR_SHOP; else the demonstration")                               \
    X(a4, "a4", TEXT, "HZ", COMMANDS_ANSWER, "pitch of A4 (440)")                                  \
    X(fifths, "fifths", TEXT, MENSUR_CHOICES_FIFTHS, COMMANDS_ANSWER,                              \
      "how open strings are tuned (pure)")                                                         \
    X(steps, "steps", TEXT, MENSUR_CHOICES_STEPS, COMMANDS_ANSWER,                                 \
      "how stopped notes are spaced (equal)")                                                      \
    X(fret, "fret", LIST, "1|3|6=low|high", COMMANDS_FRETS,                                        \
      "which of two notes a fret stands for, with --steps quarter-comma (1=high, 3=high, "         \
      "6=low); repeatable")                                                                        \
    X(hold, "hold", TEXT, MENSUR_CHOICES_HOLD, COMMANDS_ANSWER,                                    \
      "what stays when stop or neck move (slope where the bridge of a built instrument moves, "    \
      "else projection)")                                                                          \
    X(like, "like", TEXT, "NAME", COMMANDS_WISH | COMMANDS_RESTRING,                               \
      "wish for that instrument's string length, 1 mm either way; restring: for the feel of its "  \
      "strings; find: nearest to it in the hand")                                                  \
    X(like_with, "like-with", LIST, "FIELD=VALUE", COMMANDS_WISH | COMMANDS_RESTRING,              \
      "change the liked instrument before anything is asked; repeatable")                          \
    X(feel_by, "feel-by", TEXT, "tension|impedance", COMMANDS_RESTRING,                            \
      "what feels alike with --like (tension)")                                                    \
    MENSUR_WISH_LIST(WISH_OPTION, X)                                                               \
    X(near, "near", LIST, "FIELD=STEP", COMMANDS_FIND,                                             \
      "what is one step away in the hand, repeatable:" MENSUR_NEAR_WORDS)                          \
    X(top, "top", TEXT, "N", COMMANDS_FIND, "the first N alone, in every format")                  \
    X(sort, "sort", TEXT, "COLUMN", COMMANDS_FIND,                                                 \
      "sort by a figure or a column of the owner's; -COLUMN: the greatest first (distance, else "  \
      "as in the file)")                                                                           \
    X(from, "from", TEXT, "SET", COMMANDS_RESTRING, "choose from that set alone")                  \
    X(mix, "mix", FLAG, NULL, COMMANDS_RESTRING,                                                   \
      "mix strings of all core materials, rather than a set or the present material")              \
    X(material, "material", TEXT, "gut|steel|synthetic", COMMANDS_RESTRING,                        \
      "choose strings of that core (that of the present ones)")                                    \
    X(profile, "profile", TEXT, "equal|graded|like", COMMANDS_RESTRING,                            \
      "aim at equal tensions, at each string a part of its upper neighbour, or at the liked")      \
    X(grade, "grade", TEXT, "PART", COMMANDS_RESTRING, "that part, with --profile graded (0.9)")   \
    X(to_order, "to-order", TEXT, "[gut]", COMMANDS_RESTRING,                                      \
      "the gauges of plain strings for the wished tensions, too")                                  \
    X(packet, "packet", LIST, "NOTE=TENSION@LENGTH", COMMANDS_RESTRING,                            \
      "choose also from a string known by its packet, A4=55@370; A4 as --a4, or a third @; "       \
      "repeatable")                                                                                \
    X(margin, "margin", TEXT, "SEMITONES", COMMANDS_RESTRING,                                      \
      "no nearer to breaking than that (2; 1 for a plain gut top string)")                         \
    X(any_length, "any-length", FLAG, NULL, COMMANDS_RESTRING,                                     \
      "strings made for other lengths too")                                                        \
    X(runners_up, "runners-up", TEXT, "N", COMMANDS_RESTRING,                                      \
      "how many sets to show beside the recommended (3; 16 at most)")                              \
    X(bow_speed, "bow-speed", TEXT, "M/S", COMMANDS_STRINGS | COMMANDS_RESTRING,                   \
      "speed of the bow (0.2, assumed)")                                                           \
    X(bow_distance, "bow-distance", TEXT, "MM", COMMANDS_STRINGS | COMMANDS_RESTRING,              \
      "bow from the bridge (30 on 328 of string, assumed)")                                        \
    X(friction, "friction", TEXT, "NUMBER", COMMANDS_STRINGS | COMMANDS_RESTRING,                  \
      "sticking less slipping friction of the bow (0.5, assumed)")                                 \
    X(bridge_resistance, "bridge-resistance", TEXT, "KG/S", COMMANDS_STRINGS | COMMANDS_RESTRING,  \
      "what the bridge takes in; without it no least bow force is told")                           \
    X(feel, "feel", FLAG, NULL, COMMANDS_STRINGS, "show what bow and finger feel, too")            \
    X(keep, "keep", LIST, "FIELD", COMMANDS_SCALE,                                                 \
      "a measurement that stays, or air: the ribs then keep the air note; repeatable")             \
    X(name, "name", TEXT, "NAME", COMMANDS_SCALE,                                                  \
      "of the scaled model (its model's and the body)")                                            \
    X(usual, "usual", FLAG, NULL, (1u << COMMAND_CHECK),                                           \
      "in place of a check: what is usual in the shop, as families.csv (csv or json)")             \
    X(player, "player", TEXT, "NAME", (1u << COMMAND_REACH), "whose arm and hand, of players.csv") \
    X(family, "family", TEXT, "FAMILY", (1u << COMMAND_REACH),                                     \
      "in place of instruments: every size of that family, for a pupil of players.csv or typed, "  \
      "stature=1290 age=8")                                                                        \
    X(true_places, "true", FLAG, NULL, COMMANDS_FRETS,                                             \
      "the true places too: where a string that stopping stretches sounds the note")               \
    X(working, "working", FLAG, NULL, COMMANDS_ANSWER & ~COMMANDS_MADE & ~COMMANDS_FIND,           \
      "each formula with the numbers in it and its source (text and json; forces in N)")           \
    X(every, "every", FLAG, NULL, COMMANDS_EVERY, "every instrument of the shop, row by row")      \
    X(format, "format", TEXT, FORMAT_WORDS, COMMANDS_SHOP & ~COMMANDS_MADE,                        \
      "how the answer is set down (text)")                                                         \
    X(inches, "inches", FLAG, NULL, COMMANDS_ANSWER, "lengths in inches (text and drawings)")      \
    X(force_unit, "force-unit", TEXT, "kg|N|lb", COMMANDS_ANSWER,                                  \
      "forces in that unit (text and drawings; kg, with --inches lb)")                             \
    X(full, "full", FLAG, NULL, COMMANDS_ANSWER,                                                   \
      "the whole answer: every step, assumption and source, forces in N too (text)")               \
    X(marks, "marks", TEXT, "semitones|tapes|frets", (1u << COMMAND_SHEET),                        \
      "what is drawn across the strings (semitones; frets where the family has them)")             \
    X(added, "added", FLAG, NULL, (1u << COMMAND_SHEET),                                           \
      "with --marks tapes: the added ones, too")                                                   \
    X(paper, "paper", TEXT, "a4|letter", COMMANDS_MADE, "what the pages are printed on (a4)")      \
    X(customer, "customer", TEXT, "NAME", (1u << COMMAND_DOSSIER), "whom it is for")               \
    X(date, "date", TEXT, "YYYY-MM-DD", (1u << COMMAND_TEMPLATE) | (1u << COMMAND_DOSSIER),        \
      "the date on it (else room to write it)")                                                    \
    X(output, "output", TEXT, "FILE", COMMANDS_SHOP,                                               \
      "write the answer to a file, whole or not at all")                                           \
    X(overwrite, "overwrite", FLAG, NULL, COMMANDS_ALL, "replace files that are already there")    \
    X(help, "help", FLAG, NULL, COMMANDS_ALL, "say how this is used")                              \
    X(version, "version", FLAG, NULL, COMMANDS_ALL, "say which version this is")

/* An option's place in the table. */
enum option {
#define OPTION_ENUM(id, name, type, value, commands, meaning) OPTION_ID_##id,
    OPTION_LIST_ALL(OPTION_ENUM)
#undef OPTION_ENUM
        OPTION_COUNT
};

#endif
