/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which instruments meet some wishes, and how near each is in the hand to a liked one. Rows are
 * taken one by one, in any parts, and joined in the order of the file. */
#ifndef MENSUR_RANKING_H
#define MENSUR_RANKING_H

#include "figures.h"
#include "texts.h"

struct mensur_instrument;
struct mensur_wish;

/**
 * The figures of nearness in the hand, in the order of the model: id, word, scope and key of the
 * figure, what one would notice in the hand (ours): SI, or a part of the liked instrument's and
 * whether it is one, and the same as it is typed.
 */
#define MENSUR_NEAR_LIST(X)                                                                        \
    X(LENGTH, "string_length", INSTRUMENT, "string_length_mm", 0.002, false, "2")                  \
    X(LEFT, "left_reach", INSTRUMENT, "left_reach_mm", 0.005, false, "5")                          \
    X(BOW, "bow_reach", INSTRUMENT, "bow_reach_mm", 0.005, false, "5")                             \
    X(NOTE, "body_note", INSTRUMENT, "body_at_semitones", 0.2, false, "0.2")                       \
    X(TENSION, "total_tension", TOTAL, "total_tension_N", 0.03, true, "3%")

enum {
#define MENSUR_NEAR_ENUM(id, ...) MENSUR_NEAR_##id,
    MENSUR_NEAR_LIST(MENSUR_NEAR_ENUM)
#undef MENSUR_NEAR_ENUM
        MENSUR_NEAR_COUNT
};

/* " string_length=2 left_reach=5" and so on: all of them as they are typed. */
#define MENSUR_NEAR_WORD(id, word, scope, key, tolerance, is_part, typed) " " word "=" typed
#define MENSUR_NEAR_WORDS MENSUR_NEAR_LIST(MENSUR_NEAR_WORD)

/** One of them. */
struct mensur_near_info {
    const char *word; /**< "string_length" */
    enum mensur_scope scope;
    const char *key;  /**< of its figure */
    double tolerance; /**< what one would notice in the hand: ours; SI, or a part */
    bool is_part;     /**< of the liked instrument's */
};

/* The i-th of them; static. */
const struct mensur_near_info *mensur_near_info(size_t i);

/** What a column of a file or an answer is. */
enum mensur_sought_kind {
    MENSUR_SOUGHT_NOTHING,
    MENSUR_SOUGHT_FIGURE,  /**< of the table of figures */
    MENSUR_SOUGHT_TENSION, /**< of the string of a note */
    MENSUR_SOUGHT_WORD,    /**< a text of the instrument: its family, its set */
    MENSUR_SOUGHT_OWNER,   /**< a column of the owner's */
    MENSUR_SOUGHT_DISTANCE
};

/** A column by its name. */
struct mensur_sought_column {
    enum mensur_sought_kind kind;
    const char *name;   /**< borrowed from the words, or static */
    size_t name_length; /**< of it */
    enum mensur_scope scope;
    const struct mensur_figure *figure;
    bool told;    /**< a figure that is part of the answer */
    size_t place; /**< of the instrument's texts; of the owner's columns, once they are known */
};

/** One wish. */
struct mensur_sought_line {
    struct mensur_sought_column column;
    char note[8];     /**< of a tension; empty: of every string */
    bool percent;     /**< of the liked instrument's tension; low and high are ratios */
    double low, high; /**< SI, or as the owner writes; NaN open */
    const char *text; /**< the cell is to be this one; NULL: a range; borrowed */
    bool implied;     /**< it was not asked: the family of the liked one */
};

enum { MENSUR_SOUGHT_LINES = 48, MENSUR_SOUGHT_FIGURES = MENSUR_NEAR_COUNT + 50 };

/** All that is sought. */
struct mensur_sought {
    size_t count;
    struct mensur_sought_line lines[MENSUR_SOUGHT_LINES];
    double near[MENSUR_NEAR_COUNT]; /**< what is one step away */
    size_t top;                     /**< so many rows are kept; 0: all */
    struct mensur_sought_column sort;
    bool descending;
    /* as made ready */
    bool has_like;
    const char *like;                /**< its name, borrowed */
    long like_line;                  /**< of the file: it is not among the answers; 0: none */
    double liked[MENSUR_NEAR_COUNT]; /**< SI; NaN unknown */
    double liked_tension[MENSUR_RESULT_STRINGS];
    char liked_note[MENSUR_RESULT_STRINGS][8];
    size_t liked_strings;
    const char *liked_family;         /**< borrowed; NULL: none */
    struct mensur_body_air liked_air; /**< of its body */
    bool strings;                     /**< figures of strings are needed */
    size_t figure_count; /**< kept of each row: those of nearness, then those asked for */
    struct mensur_sought_column figures[MENSUR_SOUGHT_FIGURES];
};

/* What is sought before anything is said. */
void mensur_sought_init(struct mensur_sought *out);

/* Adds a wish FIELD=VALUE or FIELD=LOW..HIGH: of a figure (its key, or that without its unit), of a
 * text of the instrument, else of a column of the owner's. MENSUR_OK; MENSUR_USE. */
enum mensur_status mensur_sought_read(const char *word, struct mensur_fault *fault,
                                      struct mensur_sought *sought);

/* Adds a wish that was read as such. */
enum mensur_status mensur_sought_wish(const struct mensur_wish *wish, struct mensur_fault *fault,
                                      struct mensur_sought *sought);

/* Sets what is one step away in the hand: `string_length=2`, `total_tension=3%`. */
enum mensur_status mensur_sought_near(const char *word, struct mensur_fault *fault,
                                      struct mensur_sought *sought);

/* Sets what is sorted by, the greatest first behind a `-`; NULL: nothing. */
void mensur_sought_sort(const char *word, struct mensur_sought *sought);

/* Sets how many are kept: a whole number from 1; NULL: all. MENSUR_USE. */
enum mensur_status mensur_sought_top(const char *word, struct mensur_fault *fault,
                                     struct mensur_sought *sought);

/* Finds the columns that are the owner's among the heads; takes the figures of the liked one (NULL:
 * none). MENSUR_USE: a column that nobody has, with the nearest. */
enum mensur_status mensur_sought_ready(const struct mensur_texts *heads,
                                       const struct mensur_instrument *like,
                                       const struct mensur_profile *liked,
                                       struct mensur_fault *fault, struct mensur_sought *sought);

/** An instrument that meets every wish; one piece of memory. */
struct mensur_ranked {
    double distance;   /**< in the hand; NaN: nothing is liked, or nothing is known */
    bool little_known; /**< fewer than half of what is compared */
    double air_apart;  /**< semitones of the body's air above the liked one's; NaN not known */
    int sort_class;    /**< 0 a number, 1 a text, 2 nothing */
    double sort_number;
    const char *sort_text;
    size_t place; /**< in the file, from 0 */
    const char *name;
    const char *family; /**< NULL: none */
    const char *cells;  /**< of the owner's columns */
    double values[];    /**< of the sought figures */
};

/** The answer. */
struct mensur_ranking {
    struct mensur_sought sought;
    size_t asked; /**< instruments that were looked at */
    size_t met;   /**< of them meet every wish, kept or not */
    size_t count, room;
    struct mensur_ranked **rows;          /**< owned */
    size_t excluded[MENSUR_SOUGHT_LINES]; /**< rows that miss a wish */
    size_t unknown[MENSUR_SOUGHT_LINES];  /**< of them, those with nothing to compare */
    size_t nearest_misses; /**< of the one that misses fewest, while none meets all */
    double nearest_by;
    bool nearest_missed[MENSUR_SOUGHT_LINES];
    struct mensur_ranked *nearest; /**< owned; NULL: none */
};

/* What of a profile a row needs. */
unsigned mensur_ranking_parts(const struct mensur_sought *sought);

/* Takes an instrument into a ranking that is all zero or has taken others. MENSUR_MEMORY. */
enum mensur_status mensur_ranking_take(const struct mensur_sought *sought,
                                       const struct mensur_instrument *instrument,
                                       const struct mensur_profile *profile, size_t place,
                                       struct mensur_ranking *ranking);

/* Moves what one took into another, behind its own. MENSUR_MEMORY. */
enum mensur_status mensur_ranking_join(const struct mensur_sought *sought,
                                       struct mensur_ranking *from, struct mensur_ranking *into);

/* Puts the rows in their order and keeps the first `top` of them. */
void mensur_ranking_sort(const struct mensur_sought *sought, struct mensur_ranking *ranking);

/* Forgets all rows, and keeps the room for them. */
void mensur_ranking_empty(struct mensur_ranking *ranking);
void mensur_ranking_clear(struct mensur_ranking *ranking);

#endif
