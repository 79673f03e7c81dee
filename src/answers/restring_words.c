/* SPDX-License-Identifier: GPL-3.0-or-later */
/* New strings in plain words: what was aimed at, why this string, what keeps the others away. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "restring.h"
#include "words.h"

/* Nearer to its aim than this a tension is called the wished one. */
static const double as_wished = 0.0005;

/* Sentences are put together of parts; the texts become one. */
static enum mensur_status join(const struct mensur_texts *parts, const char *between, char **out) {
    size_t length = 1;
    for (size_t i = 0; i < parts->count; i++) {
        length += strlen(parts->items[i]) + strlen(between);
    }
    char *text = malloc(length);
    if (text == NULL) {
        return MENSUR_MEMORY;
    }
    text[0] = '\0';
    for (size_t i = 0; i < parts->count; i++) {
        strcat(text, i > 0 ? between : "");
        strcat(text, parts->items[i]);
    }
    *out = text;
    return MENSUR_OK;
}

/* Joins the parts if they were all made, and empties them. */
static enum mensur_status finish(enum mensur_status status, struct mensur_texts *parts,
                                 const char *between, char **out) {
    if (status == MENSUR_OK) {
        status = join(parts, between, out);
    }
    mensur_texts_clear(parts);
    return status;
}

/* "for C3, G3 ": the notes of an origin, where not all have it. */
struct note_list {
    char text[MENSUR_STRINGS_MAX * (MENSUR_NOTE_ROOM + 2) + 8];
};

static size_t list_notes(const struct restringer *restringer, enum restring_origin origin,
                         struct note_list *list) {
    size_t count = 0;
    strcpy(list->text, "");
    for (size_t i = 0; i < restringer->note_count; i++) {
        if (restringer->aims[i].origin == origin) {
            strcat(list->text, count == 0 ? "for " : ", ");
            strcat(list->text, restringer->setup->tuning->notes[i].name);
            count++;
        }
    }
    strcat(list->text, " ");
    if (count == restringer->note_count) {
        strcpy(list->text, "");
    }
    return count;
}

static enum mensur_status say_made_for(const struct restringer *restringer, const char *notes,
                                       struct mensur_texts *parts) {
    const struct mensur_profile *present = restringer->present;
    double length = restring_middle(present);
    struct words room;
    if (isnan(length)) {
        return mensur_texts_add(parts,
                                "%swhat each of the present strings (%s) would pull in the middle "
                                "of the range of length that it is made for",
                                notes, present->set);
    }
    return mensur_texts_add(parts,
                            "%swhat the present strings (%s) would pull on %s, the middle of the "
                            "range that they are made for",
                            notes, present->set,
                            words_length(length, restringer->terms->inches, &room));
}

static enum mensur_status say_origin(const struct restringer *restringer,
                                     enum restring_origin origin, const char *notes,
                                     struct mensur_texts *parts) {
    const struct mensur_profile *like = &restringer->like;
    switch (origin) {
    case RESTRING_WISHED:
        return mensur_texts_add(parts, "%sthe middle of the wished pull", notes);
    case RESTRING_LIKED:
        return restringer->wishes->same_impedance
                   ? mensur_texts_add(
                         parts,
                         "%sthe wave impedance, how hard a string is to set moving, of "
                         "the strings of %s",
                         notes, like->instrument)
                   : mensur_texts_add(parts, "%sthe pull of the strings of %s", notes,
                                      like->instrument);
    case RESTRING_MADE_FOR:
        return say_made_for(restringer, notes, parts);
    case RESTRING_NO_AIM:
        break;
    }
    return mensur_texts_add(parts, "%snothing but evenness from string to string", notes);
}

static enum mensur_status say_aim(const struct restringer *restringer, char **out) {
    struct mensur_texts parts = {0};
    struct note_list notes;
    enum mensur_status status = MENSUR_OK;
    for (int origin = 0; origin <= RESTRING_NO_AIM && status == MENSUR_OK; origin++) {
        if (list_notes(restringer, (enum restring_origin)origin, &notes) > 0) {
            status = say_origin(restringer, (enum restring_origin)origin, notes.text, &parts);
        }
    }
    return finish(status, &parts, "; ", out);
}

/* A slack is told as a part of the limit, rounded up to a tenth of a per cent. */
static enum mensur_status say_best(const struct restringer *restringer, double force_slack,
                                   struct mensur_texts *parts) {
    struct words room;
    if (force_slack > 0.0) {
        double part = ceil(1000.0 * force_slack / restringer->wishes->most_belly_force) / 1000.0;
        return mensur_texts_add(parts,
                                "no other set that meets every wish, and presses the belly with at "
                                "least %s less than the limit, comes nearer",
                                words_percent(1.0 - part, &room));
    }
    return mensur_texts_add(parts, "no other set that meets every wish comes nearer");
}

enum mensur_status restring_reason(const struct restringer *restringer, bool found,
                                   double force_slack, char **out) {
    struct mensur_texts parts = {0};
    struct note_list notes;
    char *aim = NULL;
    bool aimless = list_notes(restringer, RESTRING_NO_AIM, &notes) == restringer->note_count;
    enum mensur_status status = say_aim(restringer, &aim);
    if (status != MENSUR_OK) {
        return status;
    }
    status = mensur_texts_add(&parts, "The aim is %s", aim);
    free(aim);
    if (status == MENSUR_OK && !aimless) {
        status = mensur_texts_add(&parts, "evenness from string to string weighs as much as the "
                                          "aim (weights of our own)");
    }
    if (status == MENSUR_OK && found) {
        status = say_best(restringer, force_slack, &parts);
    }
    return finish(status, &parts, "; ", out);
}

static const char *aim_words(enum restring_origin origin) {
    static const char *const words[] = {[RESTRING_WISHED] = "the wish",
                                        [RESTRING_LIKED] = "the liked string",
                                        [RESTRING_MADE_FOR] = "the aim",
                                        [RESTRING_NO_AIM] = ""};
    return words[origin];
}

static enum mensur_status why_pull(const struct restringer *restringer, size_t i, double tension,
                                   struct mensur_texts *parts) {
    const struct restring_aim *aim = &restringer->aims[i];
    struct words pull;
    struct words off;
    words_force(tension, restringer->terms->force_unit, &pull);
    double ratio = tension / aim->tension;
    if (isnan(ratio)) {
        return mensur_texts_add(parts, "pulls %s", pull.text);
    }
    if (fabs(ratio - 1.0) < as_wished) {
        return mensur_texts_add(parts, "pulls %s, as %s", pull.text, aim_words(aim->origin));
    }
    return mensur_texts_add(parts, "pulls %s, %s %s %s", pull.text, words_percent(ratio, &off),
                            ratio < 1.0 ? "under" : "over", aim_words(aim->origin));
}

static enum mensur_status why_length(const struct restringer *restringer,
                                     const struct mensur_string_figures *figures,
                                     struct mensur_texts *parts) {
    bool inches = restringer->terms->inches;
    const char *outside =
        figures->in_made_for_range == MENSUR_NO ? ", which this instrument's string is not" : "";
    struct words low;
    struct words high;
    if (figures->in_made_for_range == MENSUR_UNSURE) {
        return mensur_texts_add(parts, "the length that it is made for is not known");
    }
    if (isnan(figures->made_for_high)) {
        return mensur_texts_add(parts, "made for %s and more%s",
                                words_length(figures->made_for_low, inches, &low), outside);
    }
    if (isnan(figures->made_for_low)) {
        return mensur_texts_add(parts, "made for %s and less%s",
                                words_length(figures->made_for_high, inches, &high), outside);
    }
    return mensur_texts_add(parts, "made for %s to %s%s",
                            words_length_bare(figures->made_for_low, inches, &low),
                            words_length(figures->made_for_high, inches, &high), outside);
}

static enum mensur_status why_margin(const struct mensur_string_figures *figures,
                                     struct mensur_texts *parts) {
    struct words room;
    if (isnan(figures->breaking_margin)) {
        return mensur_texts_add(parts, "its strength is not known, nor how near it is to breaking");
    }
    return mensur_texts_add(parts, "%s semitones to breaking",
                            words_number(figures->breaking_margin, 1, &room));
}

enum mensur_status restring_why(const struct restringer *restringer, size_t i,
                                const struct mensur_string_figures *figures, char **out) {
    struct mensur_texts parts = {0};
    enum mensur_status status = why_pull(restringer, i, figures->tension, &parts);
    if (status == MENSUR_OK) {
        status = why_length(restringer, figures, &parts);
    }
    if (status == MENSUR_OK) {
        status = why_margin(figures, &parts);
    }
    return finish(status, &parts, "; ", out);
}
