/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The player's reach in plain words: first how the instruments differ, then each of them. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "quantity.h"
#include "reach.h"
#include "words.h"

/* Less than this nobody would call a difference. */
static const double notable_length_m = 0.00005;

struct talk {
    const struct mensur_reaching *reaching;
    bool inches;
    struct mensur_texts *remarks;
};

static const char *degrees(double angle, struct words *room) {
    return words_number(mensur_from_si(MENSUR_ANGLE, angle), 0, room);
}

/* "6.0 mm farther", "just as far". */
static const char *farther(double difference, bool inches, char *room, size_t size) {
    struct words length;
    if (fabs(difference) < notable_length_m) {
        return "just as far";
    }
    snprintf(room, size, "%s %s", words_length(fabs(difference), inches, &length),
             difference > 0.0 ? "farther" : "less far");
    return room;
}

static enum mensur_status remark_reaches(const struct talk *talk,
                                         const struct mensur_reach *other) {
    const struct mensur_reach *first = &talk->reaching->instruments[0];
    double left = other->left_reach - first->left_reach;
    double bow = other->bow_reach - first->bow_reach;
    char left_room[64] = "";
    char bow_room[64] = "";
    if (isnan(left) || isnan(bow)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(talk->remarks,
                            "Against %s, the left arm on %s reaches %s, the bow arm %s",
                            first->instrument, other->instrument,
                            farther(left, talk->inches, left_room, sizeof left_room),
                            farther(bow, talk->inches, bow_room, sizeof bow_room));
}

static enum mensur_status remark_elbows(const struct talk *talk, const struct mensur_reach *other) {
    const struct mensur_reach *first = &talk->reaching->instruments[0];
    struct words by;
    struct words here;
    struct words there;
    double difference = other->elbow - first->elbow;
    if (isnan(difference) || strcmp(degrees(difference, &by), "0") == 0) {
        return MENSUR_OK;
    }
    return mensur_texts_add(talk->remarks,
                            "The elbow %s by %s degrees on %s (%s against %s; 180 is a stretched "
                            "arm)",
                            difference > 0.0 ? "opens" : "closes", degrees(fabs(difference), &by),
                            other->instrument, degrees(other->elbow, &here),
                            degrees(first->elbow, &there));
}

/* The position in which hands are usually measured; NULL where there is none. */
static const struct mensur_position *first_position(const struct mensur_reach *reach) {
    for (size_t i = 0; i < reach->position_count; i++) {
        if (strcmp(reach->positions[i].name, "1") == 0) {
            return &reach->positions[i];
        }
    }
    return NULL;
}

static enum mensur_status remark_frames(const struct talk *talk, const struct mensur_reach *other) {
    const struct mensur_reach *first = &talk->reaching->instruments[0];
    const struct mensur_position *here = first_position(other);
    const struct mensur_position *there = first_position(first);
    struct words by;
    if (here == NULL || there == NULL || fabs(here->frame - there->frame) < notable_length_m) {
        return MENSUR_OK;
    }
    return mensur_texts_add(talk->remarks, "In position 1 the hand stands %s %s on %s than on %s",
                            words_length(fabs(here->frame - there->frame), talk->inches, &by),
                            here->frame > there->frame ? "wider" : "closer", other->instrument,
                            first->instrument);
}

static enum mensur_status remark_nut(const struct talk *talk, const struct mensur_reach *reach) {
    const struct mensur_reaching *reaching = talk->reaching;
    struct words far;
    struct words arm;
    if (reach->can_reach == MENSUR_UNSURE) {
        return MENSUR_OK;
    }
    words_length(reach->distance, talk->inches, &far);
    if (reach->can_reach == MENSUR_YES) {
        struct words angle;
        return mensur_texts_add(
            talk->remarks,
            "On %s the left hand of %s comes to the nut with the elbow at %s "
            "degrees; the nut lies %s from the shoulder, and the arm reaches %s",
            reach->instrument, reaching->player, degrees(reach->elbow, &angle), far.text,
            words_length(reaching->longest, talk->inches, &arm));
    }
    if (reach->distance > reaching->longest) {
        return mensur_texts_add(talk->remarks,
                                "On %s %s cannot reach the nut: it lies %s from the shoulder, and "
                                "the arm reaches %s",
                                reach->instrument, reaching->player, far.text,
                                words_length(reaching->longest, talk->inches, &arm));
    }
    return mensur_texts_add(talk->remarks,
                            "On %s %s cannot put the hand to the nut: it lies %s from the "
                            "shoulder, nearer than the arm folds",
                            reach->instrument, reaching->player, far.text);
}

/* Names the positions that are too wide, with commas. */
static enum mensur_status list_wide(const struct talk *talk, const struct mensur_reach *reach,
                                    struct mensur_texts *wide) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < reach->position_count && status == MENSUR_OK; i++) {
        if (mensur_reaching_too_wide(talk->reaching, &reach->positions[i]) != MENSUR_YES) {
            continue;
        }
        const char *name = reach->positions[i].name;
        if (wide->count == 0) {
            status = mensur_texts_add(wide, "%s", name);
        } else {
            struct mensur_texts longer = {0};
            status = mensur_texts_add(&longer, "%s, %s", wide->items[0], name);
            mensur_texts_clear(wide);
            *wide = longer;
        }
    }
    return status;
}

static enum mensur_status remark_span(const struct talk *talk, const struct mensur_reach *reach) {
    struct mensur_texts wide = {0};
    struct words span;
    if (isnan(talk->reaching->span) || reach->position_count == 0) {
        return MENSUR_OK;
    }
    words_length(talk->reaching->span, talk->inches, &span);
    enum mensur_status status = list_wide(talk, reach, &wide);
    if (status == MENSUR_OK && wide.count > 0) {
        status = mensur_texts_add(talk->remarks,
                                  "On %s the hand's frame is wider than the span of %s in position "
                                  "%s: there the hand must shift or stretch",
                                  reach->instrument, span.text, wide.items[0]);
    } else if (status == MENSUR_OK) {
        status = mensur_texts_add(talk->remarks,
                                  "On %s the hand's frame lies within the span of %s in every "
                                  "position",
                                  reach->instrument, span.text);
    }
    mensur_texts_clear(&wide);
    return status;
}

typedef enum mensur_status remark(const struct talk *talk, const struct mensur_reach *reach);

static enum mensur_status say_all(const struct talk *talk, const struct mensur_reach *reach,
                                  remark *const *remarks, size_t count) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = remarks[i](talk, reach);
    }
    return status;
}

enum mensur_status reach_words(bool inches, struct mensur_reaching *reaching) {
    static remark *const differences[] = {remark_reaches, remark_elbows, remark_frames};
    static remark *const each[] = {remark_nut, remark_span};
    struct talk talk = {reaching, inches, &reaching->remarks};
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 1; i < reaching->count && status == MENSUR_OK; i++) {
        status = say_all(&talk, &reaching->instruments[i], differences,
                         sizeof differences / sizeof differences[0]);
    }
    for (size_t i = 0; i < reaching->count && status == MENSUR_OK; i++) {
        status = say_all(&talk, &reaching->instruments[i], each, sizeof each / sizeof each[0]);
    }
    return status;
}
