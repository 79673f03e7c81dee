/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which wish excludes what: for each note, and for the force of all strings together. */
#include <math.h>
#include <string.h>

#include "restring.h"
#include "words.h"

static enum mensur_status say_none_offered(const struct restringer *restringer, const char *note,
                                           struct mensur_texts *excluded) {
    const char *from = restringer->wishes->from;
    return from == NULL
               ? mensur_texts_add(excluded, "%s: the catalogue has no string for it", note)
               : mensur_texts_add(excluded, "%s: the set \"%s\" has no string for it", note, from);
}

/* A line that grows; each part is short and there are few. */
struct line {
    char text[1024];
    const char *between;
};

static void add(struct line *line, const char *count, const char *what, const char *figure,
                const char *unit) {
    const char *const parts[] = {line->between, count, what, figure, unit};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        size_t room = sizeof line->text - strlen(line->text) - 1;
        strncat(line->text, parts[i], room);
    }
    line->between = ", ";
}

static const char *print_count(size_t count, struct words *room) {
    return words_number((double)count, 0, room);
}

static void say_faults(const struct restringer *restringer, size_t i, struct line *line) {
    const struct restring_tally *tally = &restringer->tallies[i];
    const struct restring_aim *aim = &restringer->aims[i];
    struct words count;
    struct words room;
    if (tally->no_pull > 0) {
        add(line, print_count(tally->no_pull, &count),
            tally->no_pull == 1 ? " has a pull that is not known"
                                : " have a pull that is not known",
            "", "");
    }
    if (tally->length > 0) {
        add(line, print_count(tally->length, &count),
            tally->length == 1 ? " is not made for " : " are not made for ",
            words_length(restringer->setup->string_length, restringer->terms->inches, &room), "");
    }
    if (tally->margin > 0) {
        add(line, print_count(tally->margin, &count),
            tally->margin == 1 ? " is nearer to breaking than " : " are nearer to breaking than ",
            words_number(restringer->least_margin, 1, &room), " semitones");
    }
    if (tally->light > 0) {
        add(line, print_count(tally->light, &count),
            tally->light == 1 ? " pulls less than " : " pull less than ",
            words_force(aim->low, restringer->terms->force_unit, &room), "");
    }
    if (tally->heavy > 0) {
        add(line, print_count(tally->heavy, &count),
            tally->heavy == 1 ? " pulls more than " : " pull more than ",
            words_force(aim->high, restringer->terms->force_unit, &room), "");
    }
}

/* What would fit if one wish were given up. */
static void say_way_out(const struct restring_tally *tally, struct line *line) {
    struct words count;
    line->between = "; ";
    if (tally->only_length > 0) {
        add(line, print_count(tally->only_length, &count),
            " would fit if strings made for other lengths were allowed", "", "");
    }
    if (tally->only_margin > 0) {
        add(line, print_count(tally->only_margin, &count),
            " would fit with a smaller margin to breaking", "", "");
    }
    if (tally->only_tension > 0) {
        add(line, print_count(tally->only_tension, &count),
            " would fit with another wish for the tension", "", "");
    }
}

static enum mensur_status say_note(const struct restringer *restringer, size_t i,
                                   struct mensur_texts *excluded) {
    const struct restring_tally *tally = &restringer->tallies[i];
    const char *note = restringer->setup->tuning->notes[i].name;
    struct line line = {.text = "", .between = ": "};
    struct words fit;
    struct words all;
    if (tally->all == 0) {
        return say_none_offered(restringer, note, excluded);
    }
    if (tally->fit == tally->all) {
        return MENSUR_OK;
    }
    say_faults(restringer, i, &line);
    if (tally->fit == 0) {
        say_way_out(tally, &line);
    }
    if (tally->all == 1) {
        return mensur_texts_add(excluded, "%s: its 1 string does not fit%s", note, line.text);
    }
    return mensur_texts_add(excluded, "%s: %s of %s strings %s%s", note,
                            tally->fit == 0 ? "none" : print_count(tally->fit, &fit),
                            print_count(tally->all, &all), tally->fit > 1 ? "fit" : "fits",
                            line.text);
}

/* The least force on the belly that strings which fit have together, N; NaN where a note has none.
 */
static double least_force(const struct restringer *restringer) {
    double all = 0.0;
    for (size_t i = 0; i < restringer->note_count; i++) {
        const struct restring_note *note = &restringer->problem.notes[i];
        double least = NAN;
        for (size_t k = 0; k < note->count; k++) {
            least = fmin(least, note->strings[k].force);
        }
        all += least;
    }
    return all;
}

static enum mensur_status say_force(const struct restringer *restringer,
                                    struct mensur_texts *excluded) {
    double least = least_force(restringer);
    double limit = restringer->wishes->most_belly_force;
    enum mensur_force_unit unit = restringer->terms->force_unit;
    struct words a;
    struct words b;
    struct words c;
    if (isnan(limit) || isnan(least)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(excluded,
                            "force on the belly: the lightest strings that meet every other wish "
                            "press with %s in all, %s over the limit of %s",
                            words_force(least, unit, &a), words_force(least - limit, unit, &b),
                            words_force(limit, unit, &c));
}

enum mensur_status restring_excluded(const struct restringer *restringer, bool found,
                                     struct mensur_texts *excluded) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < restringer->note_count && status == MENSUR_OK; i++) {
        status = say_note(restringer, i, excluded);
    }
    return status == MENSUR_OK && !found ? say_force(restringer, excluded) : status;
}
