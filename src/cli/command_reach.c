/* SPDX-License-Identifier: GPL-3.0-or-later */
/* reach: a player's left arm and bow arm on instruments. */
#include <stdio.h>

#include "drawing_output.h"
#include "nearest.h"

/* Further than this two names are not alike. */
enum { FARTHEST = 3 };

static void say_players(const struct mensur_stock *stock) {
    if (stock->player_count == 0) {
        fprintf(stderr, "; there are none: put a row into players.csv\n");
        return;
    }
    fprintf(stderr, "; there are: ");
    for (size_t i = 0; i < stock->player_count; i++) {
        fprintf(stderr, "%s%s", i == 0 ? "" : ", ", stock->players[i].name);
    }
    fprintf(stderr, "\n");
}

static const char *nearest_player(const struct mensur_stock *stock, const char *name) {
    struct mensur_nearest nearest = mensur_nearest_start(name, FARTHEST);
    for (size_t i = 0; i < stock->player_count; i++) {
        mensur_nearest_take(&nearest, stock->players[i].name);
    }
    return nearest.name;
}

/* The player asked for; NULL, and said, where there is none. */
static const struct mensur_player *find_player(const struct question *question) {
    const struct mensur_stock *stock = &question->shop.stock;
    const char *name = question->options->text[OPTION_ID_player];
    if (name == NULL) {
        fprintf(stderr, "mensur: say whose reach with --player NAME");
        say_players(stock);
        return NULL;
    }
    const struct mensur_player *player = mensur_stock_player(stock, name);
    if (player == NULL) {
        const char *nearest = nearest_player(stock, name);
        fprintf(stderr, "mensur: there is no player \"%s\"", name);
        if (nearest != NULL) {
            fprintf(stderr, "; did you mean \"%s\"?\n", nearest);
        } else {
            say_players(stock);
        }
    }
    return player;
}

static enum mensur_status present(const struct question *question,
                                  const struct mensur_reaching *reaching) {
    struct reply reply;
    enum mensur_status status = reply_open(question, &reply);
    if (status == MENSUR_OK) {
        status = reply_close(&reply, mensur_present_reaching(reply.presenter, reaching));
    }
    return status;
}

static enum mensur_status ask(struct question *question,
                              const struct mensur_instrument *instruments, size_t count,
                              const struct mensur_player *player) {
    const struct mensur_instrument **list = g_new0(const struct mensur_instrument *, count + 1);
    struct mensur_reaching reaching;
    struct mensur_fault fault = {""};
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < count; i++) {
        list[i] = &instruments[i];
    }
    if (question->wants_working) {
        status = mensur_ask_working_reach(&question->shop.stock, list, count, player,
                                          &question->terms, &fault, &question->working);
    }
    if (status == MENSUR_OK) {
        status = mensur_ask_reach(&question->shop.stock, list, count, player, &question->terms,
                                  &fault, &reaching);
    }
    if (status == MENSUR_OK) {
        status = present(question, &reaching);
        mensur_reaching_clear(&reaching);
    } else {
        say_fault(question, NULL, &fault);
    }
    g_free(list);
    return status;
}

static enum mensur_status answer(struct question *question) {
    const struct options *options = question->options;
    struct mensur_instrument *instruments = NULL;
    const struct mensur_player *player = find_player(question);
    if (player == NULL) {
        return MENSUR_USE;
    }
    enum mensur_status status =
        shopfront_find(&question->shop, options->names, options->name_count, &instruments);
    if (status == MENSUR_OK) {
        status = ask(question, instruments, options->name_count, player);
        shopfront_free(instruments, options->name_count);
    }
    return status;
}

enum mensur_status command_reach(const struct options *options) {
    struct question question;
    if (drawing_refused(options, "a reach")) {
        return MENSUR_USE;
    }
    enum mensur_status status = question_open(options, &question);
    if (status != MENSUR_OK) {
        return status;
    }
    status = options->name_count == 0 ? shopfront_say_names(&question.shop, "name an instrument")
                                      : answer(&question);
    question_clear(&question);
    return status;
}
