/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * A question in words, as the program takes them (`neck kestrel --like heron`): read whole before
 * any file is opened. The program passes its command line, the page a list of the same words, so
 * that both ask the same.
 *
 * What there is to say beside an answer goes to a list of messages, each the line that the program
 * prints: `FILE:LINE:COLUMN: ...` where it is about a place in a file, else `mensur: ...`. A
 * message has no line end of its own. Out of memory has no message: the status says it.
 */
#ifndef MENSUR_QUESTION_H
#define MENSUR_QUESTION_H

#include <stdbool.h>
#include <stddef.h>

#include "drawing_style.h"
#include "messages.h"
#include "terms.h"

struct mensur_shop;
/** What is sought among many instruments; the library's own. */
struct mensur_sought;

/** A command of the table. */
struct mensur_command_info {
    const char *name;      /**< "neck" */
    const char *arguments; /**< what follows it: "NAME [wishes]"; may be empty */
    const char *meaning;   /**< what it answers */
    const char *example;   /**< "mensur neck kestrel --like heron" */
};

/** How an option takes its value. */
enum mensur_option_type {
    MENSUR_OPTION_FLAG, /**< none */
    MENSUR_OPTION_TEXT, /**< the last one given counts */
    MENSUR_OPTION_LIST  /**< each one given counts */
};

/** An option of the table. */
struct mensur_option_info {
    const char *name; /**< without its dashes: "like" */
    enum mensur_option_type type;
    const char *value;    /**< what it takes: "LOW..HIGH"; choices as "a|b|c"; NULL for a flag */
    unsigned commands;    /**< those it goes with: bit 1 << i for the command at place i */
    bool goes_with_every; /**< it goes with each command */
    const char *meaning;
};

/**
 * The commands, one by one.
 *
 * @param i  place in the table, from 0
 * @return   static; NULL behind the last one
 */
const struct mensur_command_info *mensur_command_at(size_t i);

/**
 * The options, one by one.
 *
 * @param i  place in the table, from 0
 * @return   static; NULL behind the last one
 */
const struct mensur_option_info *mensur_option_at(size_t i);

/** The most wishes of one question. */
#define MENSUR_QUESTION_WISHES 48

/** What the answer is written as. */
enum mensur_medium {
    MENSUR_MEDIUM_WORDS, /**< text, CSV or JSON: style.format */
    MENSUR_MEDIUM_SVG,   /**< a drawing, or a sheet or template as one long strip */
    MENSUR_MEDIUM_PDF,   /**< the same on paper: the answer is written as SVG, page by page */
    MENSUR_MEDIUM_PNG,   /**< the same as a picture: the answer is written as SVG */
    MENSUR_MEDIUM_HTML   /**< a dossier */
};

/** An instrument that is named, or described by its measurements, and what of it is changed before
 * anything is asked. */
struct mensur_named {
    const char *name; /**< borrowed from the words; of one that is described: "this instrument" */
    const char *const *given; /**< the words FIELD=VALUE that describe it; NULL: it has a name */
    size_t given_count;
    const struct mensur_change *changes;
    size_t change_count;
};

/** What the words ask about the program itself. */
enum mensur_help {
    MENSUR_HELP_NONE,     /**< nothing: they ask the shop */
    MENSUR_HELP_VERSION,  /**< which version this is */
    MENSUR_HELP_OVERVIEW, /**< every command in a line each */
    MENSUR_HELP_MISSING,  /**< there is no command: wrong use, answered with the overview */
    MENSUR_HELP_COMMAND   /**< one command: what it answers, an example, its options */
};

/** A question as read. Its texts are borrowed from the words. */
struct mensur_question {
    int command;                          /**< its place in the table */
    const struct mensur_command_way *way; /**< how it is read and answered; the library's own */
    enum mensur_help help;
    const char *start; /**< folder that the demonstration is to be written to; NULL: no such wish */
    const char *shop;  /**< --shop; NULL where not given */
    const char *output; /**< --output; NULL where not given */
    bool overwrite;
    enum mensur_medium medium;
    struct mensur_terms terms;
    const char *fifths; /**< the word for terms.fifths: "pure" or "equal" */
    const char *steps;  /**< the word for terms.steps: "equal", "pythagorean" or "just" */
    struct mensur_style style;
    bool working; /**< the working goes with the answer */
    bool usual;   /**< of a check: what is usual in the shop */
    bool every;   /**< every instrument of the shop, row by row */
    size_t named_count;
    struct mensur_named *named; /**< owned */
    struct mensur_named like;   /**< name NULL where nothing is liked */
    size_t wish_count;
    struct mensur_wish wishes[MENSUR_QUESTION_WISHES];
    struct mensur_restring_wishes restring; /**< of strings; its `like` is set by the answer */
    struct mensur_sought *sought;  /**< owned: what is sought among all; NULL: it asks none */
    struct mensur_scaling scaling; /**< of a model in another size */
    const char *player;            /**< NULL where not given */
    const char *family;            /**< whose sizes are asked for; NULL where not given */
    const char *heading;           /**< of the shop, above what is handed over; NULL: none */
    size_t habit_count;
    struct mensur_habit habits[MENSUR_HABITS_MOST]; /**< of the shop, in place of options */
    enum mensur_sheet_paper paper;
    enum mensur_sheet_marks marks;
    bool added_tapes;     /**< the added tapes of a sheet, too */
    const char *customer; /**< of a dossier; NULL: none */
    const char *date;     /**< of a template or a dossier, YYYY-MM-DD; NULL: room to write it */
    struct mensur_change *changes; /**< owned: of all that are named */
    const char **given;            /**< owned: of all that are described */
    size_t given_count;            /**< with --family: of the player */
    struct mensur_packet *packets; /**< owned: those of `restring` */
};

/**
 * Reads a question from its words.
 *
 * @param words          command, names and options, without the program's name; borrowed until the
 *                       question is cleared
 * @param count          how many
 * @param messages       what is wrong is added to it
 * @param[out] question  the caller's to clear on success; nothing is to be cleared on failure
 * @return  MENSUR_OK; MENSUR_USE; MENSUR_MEMORY
 */
enum mensur_status mensur_question_read(const char *const *words, size_t count,
                                        struct mensur_texts *messages,
                                        struct mensur_question *question);

/**
 * Reads a question once more, with the habits of the shop that it is asked of (settings.csv) where
 * the words leave an option open. An option that is given stands above a habit.
 *
 * @param shop           open; borrowed until the question is cleared; NULL: as mensur_question_read
 * @param words          as of mensur_question_read
 * @param count          how many
 * @param messages       what is wrong is added to it
 * @param[out] question  the caller's to clear on success; nothing is to be cleared on failure
 * @return  MENSUR_OK; MENSUR_USE; MENSUR_MEMORY
 */
enum mensur_status mensur_question_read_in(const struct mensur_shop *shop, const char *const *words,
                                           size_t count, struct mensur_texts *messages,
                                           struct mensur_question *question);

/**
 * Frees what a question owns.
 *
 * @param question  the question; left all zero
 */
void mensur_question_clear(struct mensur_question *question);

/**
 * Writes what a question about the program itself is answered with.
 *
 * @param question  its help is not MENSUR_HELP_NONE
 * @param sink      where to
 * @return  MENSUR_OK, MENSUR_WRITE (what the sink answered) or MENSUR_MEMORY
 */
enum mensur_status mensur_help_write(const struct mensur_question *question,
                                     const struct mensur_sink *sink);

#endif
