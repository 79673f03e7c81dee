/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wishes, each under the name of the program's option. */
#include <math.h>
#include <string.h>

#include "engine.h"
#include "figures.h"

static enum mensur_status read_wish(const json_t *asked, struct mensur_fault *fault,
                                    struct mensur_wish *wish) {
    const char *about = json_string_value(json_object_get(asked, "about"));
    const char *range = json_string_value(json_object_get(asked, "range"));
    for (enum mensur_wish_kind kind = 0; kind < MENSUR_WISH_COUNT; kind++) {
        if (about != NULL && range != NULL && strcmp(about, mensur_wish_info(kind)->option) == 0) {
            struct mensur_fault why;
            enum mensur_status status = mensur_wish_read(kind, range, &why, wish);
            if (status != MENSUR_OK) {
                mensur_fault_set(fault, "%s: %s", about, why.text);
            }
            return status;
        }
    }
    mensur_fault_set(fault, "there is no wish \"%s\"", about == NULL ? "" : about);
    return MENSUR_USE;
}

enum mensur_status question_wishes(const struct question *question, const char *key,
                                   struct mensur_wish *wishes, size_t *count,
                                   struct mensur_fault *fault) {
    const json_t *asked = json_object_get(question->root, key);
    enum mensur_status status = MENSUR_OK;
    *count = 0;
    for (size_t i = 0; i < json_array_size(asked) && status == MENSUR_OK; i++) {
        if (*count == PAGE_WISHES_MAX) {
            mensur_fault_set(fault, "more than %d wishes", PAGE_WISHES_MAX);
            return MENSUR_USE;
        }
        status = read_wish(json_array_get(asked, i), fault, &wishes[*count]);
        *count += status == MENSUR_OK;
    }
    return status;
}

/* Another instrument of the question, with its changes; else the shop's own. NULL: there is none.
 */
static const struct mensur_instrument *liked(const struct page *page,
                                             const struct question *question, const char *name) {
    for (size_t i = 1; i < question->count; i++) {
        if (strcmp(question->after[i]->name, name) == 0) {
            return question->after[i];
        }
    }
    return page_find(page, name);
}

static enum mensur_status read_like(const struct page *page, const struct question *question,
                                    struct mensur_fault *fault, struct mensur_wishes *wishes) {
    const char *like = question_text(question, "like");
    wishes->like = like == NULL ? NULL : liked(page, question, like);
    if (like != NULL && wishes->like == NULL) {
        mensur_fault_set(fault, "there is no instrument \"%s\"", like);
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

/* The first instrument is the one decided on. */
enum mensur_status ask_decision(struct page *page, const struct question *question,
                                struct mensur_fault *fault, struct mensur_decision *out) {
    struct mensur_wish items[PAGE_WISHES_MAX];
    struct mensur_wishes wishes = {.items = items};
    if (question->count == 0) {
        mensur_fault_set(fault, "choose an instrument");
        return MENSUR_USE;
    }
    enum mensur_status status = read_like(page, question, fault, &wishes);
    if (status == MENSUR_OK) {
        status = question_wishes(question, "wishes", items, &wishes.count, fault);
    }
    return status == MENSUR_OK ? mensur_ask_decision(page_stock(page), question->after[0], &wishes,
                                                     strncmp(question->command, "stop", 4) == 0,
                                                     &question->terms, fault, out)
                               : status;
}

/* The first instrument is the one to be strung. */
enum mensur_status ask_restring(struct page *page, const struct question *question,
                                size_t runners_up, struct mensur_fault *fault,
                                struct mensur_restringing *out) {
    struct mensur_wish items[PAGE_WISHES_MAX];
    struct mensur_wishes wishes = {.like = NULL};
    struct mensur_restring_wishes restring = {.tensions = items,
                                              .least_margin = NAN,
                                              .most_belly_force = NAN,
                                              .from = question_text(question, "from"),
                                              .runners_up = runners_up};
    if (question->count == 0) {
        mensur_fault_set(fault, "choose an instrument");
        return MENSUR_USE;
    }
    enum mensur_status status = read_like(page, question, fault, &wishes);
    if (status == MENSUR_OK) {
        status = question_wishes(question, "tensions", items, &restring.tension_count, fault);
    }
    restring.like = wishes.like;
    restring.same_impedance = json_is_true(json_object_get(question->root, "same-impedance"));
    restring.any_length = json_is_true(json_object_get(question->root, "any-length"));
    return status == MENSUR_OK ? mensur_ask_restring(page_stock(page), question->after[0],
                                                     &restring, &question->terms, fault, out)
                               : status;
}

enum mensur_status ask_reach(struct page *page, const struct question *question,
                             struct mensur_fault *fault, struct mensur_reaching *out) {
    const struct mensur_player *player =
        mensur_stock_player(page_stock(page), question_text(question, "player"));
    if (player == NULL || question->count == 0) {
        mensur_fault_set(fault, "choose a player and an instrument");
        return MENSUR_USE;
    }
    return mensur_ask_reach(page_stock(page), question->after, question->count, player,
                            &question->terms, fault, out);
}
