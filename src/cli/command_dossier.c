/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dossier: one page to hand over, of one instrument (with the decision on its neck where wishes
 * are given), or of several side by side. */
#include <stdio.h>

#include "dossier.h"
#include "drawing.h"
#include "drawing_output.h"

enum { WISHES_MAX = 48 };

static enum mensur_status draw(const void *answer, const struct mensur_drawing_style *style,
                               const struct mensur_sink *sink) {
    (void)style;
    return mensur_dossier_write(answer, sink);
}

static enum mensur_status write(const struct question *question, struct mensur_dossier *dossier) {
    dossier->figures = question->style;
    dossier->figures.illustrate = mensur_draw_illustration;
    dossier->heading = &question->heading;
    return drawing_write(question, draw, dossier);
}

static enum mensur_status tell_one(const struct question *question,
                                   const struct mensur_instrument *instruments,
                                   const struct mensur_wishes *wishes) {
    struct mensur_profile profile;
    struct mensur_decision decision = {.want_count = 0};
    struct mensur_dossier dossier = {.profiles = &profile, .count = 1};
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_profile(&question->shop.stock, &instruments[0], &question->terms,
                           MENSUR_PART_ALL, &fault, &profile);
    if (status != MENSUR_OK) {
        say_fault(question, &instruments[0], &fault);
        return status;
    }
    if (wishes->count > 0 || wishes->like != NULL) {
        status = mensur_ask_decision(&question->shop.stock, &instruments[0], wishes, false,
                                     &question->terms, &fault, &decision);
        dossier.decision = &decision;
    }
    if (status == MENSUR_OK) {
        status = write(question, &dossier);
    } else {
        say_fault(question, NULL, &fault);
    }
    bool unmet = dossier.decision != NULL && !decision.can_meet_all;
    mensur_decision_clear(&decision);
    mensur_profile_clear(&profile);
    return status == MENSUR_OK && unmet ? MENSUR_NOT_MET : status;
}

static enum mensur_status tell_several(const struct question *question,
                                       const struct mensur_instrument *instruments, size_t count) {
    const struct mensur_instrument **list = g_new0(const struct mensur_instrument *, count);
    struct mensur_comparison comparison;
    struct mensur_fault fault = {""};
    for (size_t i = 0; i < count; i++) {
        list[i] = &instruments[i];
    }
    enum mensur_status status = mensur_ask_compare(&question->shop.stock, list, count,
                                                   &question->terms, &fault, &comparison);
    g_free(list);
    if (status != MENSUR_OK) {
        say_fault(question, NULL, &fault);
        return status;
    }
    struct mensur_dossier dossier = {
        .profiles = comparison.instruments, .count = comparison.count, .comparison = &comparison};
    status = write(question, &dossier);
    mensur_comparison_clear(&comparison);
    return status;
}

/* Everything named: the instruments, then the liked one where there is one. */
static enum mensur_status tell(struct question *question, struct mensur_wishes *wishes) {
    const struct options *options = question->options;
    const char *like = options->text[OPTION_ID_like];
    size_t count = options->name_count + (like == NULL ? 0 : 1);
    struct mensur_instrument *found = NULL;
    char **names = g_new0(char *, count + 1);
    for (size_t i = 0; i < options->name_count; i++) {
        names[i] = options->names[i];
    }
    if (like != NULL) {
        names[options->name_count] = options->text[OPTION_ID_like];
    }
    enum mensur_status status = shopfront_find(&question->shop, names, count, &found);
    g_free(names);
    if (status != MENSUR_OK) {
        return status;
    }
    wishes->like = like == NULL ? NULL : &found[options->name_count];
    status = options->name_count == 1 ? tell_one(question, found, wishes)
                                      : tell_several(question, found, options->name_count);
    shopfront_free(found, count);
    return status;
}

static enum mensur_status check_use(const struct options *options, size_t wish_count) {
    const char *path = options->text[OPTION_ID_output];
    if (path == NULL || !g_str_has_suffix(path, ".html")) {
        fprintf(stderr, "mensur: a dossier wants --output FILE.html\n");
        return MENSUR_USE;
    }
    if (options->name_count > 1 && (wish_count > 0 || options->text[OPTION_ID_like] != NULL)) {
        fprintf(stderr, "mensur: wishes go with a dossier of one instrument\n");
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

enum mensur_status command_dossier(const struct options *options) {
    struct question question;
    struct mensur_wish items[WISHES_MAX];
    struct mensur_wishes wishes = {.items = items};
    enum mensur_status status = asked_wishes(options, items, WISHES_MAX, &wishes.count);
    if (status == MENSUR_OK) {
        status = check_use(options, wishes.count);
    }
    if (status == MENSUR_OK) {
        status = question_open(options, &question);
    }
    if (status != MENSUR_OK) {
        return status;
    }
    status = options->name_count == 0
                 ? shopfront_say_names(&question.shop, "name one instrument or more")
                 : tell(&question, &wishes);
    question_clear(&question);
    return status;
}
