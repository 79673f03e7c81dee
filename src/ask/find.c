/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The instruments that a question names, looked for along the whole file. */
#include <stdlib.h>
#include <string.h>

#include "ask.h"
#include "nearest.h"
#include "shop_files.h"
#include "ways.h"

/* How many names are listed where one is missing. */
enum { NAMES_LISTED = 20 };
/* Further than this two names are not alike. */
enum { FARTHEST = 3 };

/* The names that are looked for, and how far it has come. */
struct hunt {
    const struct mensur_named *named; /* those named, then the liked one */
    size_t count;
    struct mensur_found *found;     /* `asked` is set once it is found */
    struct mensur_nearest *nearest; /* of each name */
    char **copies;                  /* of what is nearest, owned */
    struct mensur_texts there;      /* the first names of the file */
};

static enum mensur_status note_nearest(struct hunt *hunt, size_t i, const char *name) {
    if (!mensur_nearest_take(&hunt->nearest[i], name)) {
        return MENSUR_OK;
    }
    free(hunt->copies[i]);
    hunt->copies[i] = NULL;
    return mensur_text_copy(name, strlen(name), &hunt->copies[i]);
}

static enum mensur_status visit(void *context, const struct mensur_instrument *instrument) {
    struct hunt *hunt = context;
    enum mensur_status status = MENSUR_OK;
    if (hunt->there.count < NAMES_LISTED) {
        status = mensur_texts_add(&hunt->there, "%s", instrument->name);
    }
    for (size_t i = 0; i < hunt->count && status == MENSUR_OK; i++) {
        struct mensur_found *found = &hunt->found[i];
        if (found->asked != NULL) {
            continue;
        }
        if (strcmp(hunt->named[i].name, instrument->name) == 0) {
            status = mensur_instrument_copy(instrument, &found->as_it_is);
            found->asked = status == MENSUR_OK ? &found->as_it_is : NULL;
        } else {
            status = note_nearest(hunt, i, instrument->name);
        }
    }
    return status;
}

enum mensur_status ask_say_report(struct mensur_report *report, struct mensur_texts *messages) {
    const struct mensur_texts *lists[] = {&report->errors, &report->warnings};
    enum mensur_status status = MENSUR_OK;
    for (size_t l = 0; l < 2; l++) {
        for (size_t i = 0; i < lists[l]->count && status == MENSUR_OK; i++) {
            status = mensur_texts_add(messages, "%s", lists[l]->items[i]);
        }
    }
    mensur_report_clear(report);
    return status;
}

static enum mensur_status read_all(const struct asking *asking, struct hunt *hunt) {
    struct mensur_report report = {.errors = {0}};
    enum mensur_status status = MENSUR_OK;
    if (asking->kept == NULL) {
        status = mensur_shop_instruments(asking->shop, true, visit, hunt, &report);
    }
    for (size_t i = 0; asking->kept != NULL && i < asking->kept->count && status == MENSUR_OK;
         i++) {
        status = visit(hunt, &asking->kept->items[i]);
    }
    enum mensur_status said = ask_say_report(&report, asking->messages);
    return status == MENSUR_OK ? said : status;
}

static enum mensur_status say_there(const struct hunt *hunt, const char *wanted, const char *name,
                                    struct mensur_texts *messages) {
    const struct mensur_texts *there = &hunt->there;
    char *names = ask_names_joined((const char *const *)there->items, there->count,
                                   there->count == NAMES_LISTED ? " ..." : "");
    enum mensur_status status =
        names == NULL  ? MENSUR_MEMORY
        : name == NULL ? SAY(messages, "%s; there are: %s", wanted, names)
                       : SAY(messages, "%s \"%s\"; there are: %s", wanted, name, names);
    free(names);
    return status;
}

/* Every name that was not found. */
static enum mensur_status say_missing(const struct hunt *hunt, struct mensur_texts *messages) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < hunt->count && status != MENSUR_MEMORY; i++) {
        const char *name = hunt->named[i].name;
        if (hunt->found[i].asked != NULL) {
            continue;
        }
        status = hunt->copies[i] != NULL
                     ? SAY(messages, "there is no instrument \"%s\"; did you mean \"%s\"?", name,
                           hunt->copies[i])
                     : say_there(hunt, "there is no instrument", name, messages);
    }
    return status;
}

static void hunt_end(struct hunt *hunt) {
    for (size_t i = 0; hunt->copies != NULL && i < hunt->count; i++) {
        free(hunt->copies[i]);
    }
    free(hunt->copies);
    free(hunt->nearest);
    mensur_texts_clear(&hunt->there);
}

static enum mensur_status hunt_for(const struct asking *asking, const struct mensur_named *named,
                                   size_t count) {
    struct hunt hunt = {.named = named,
                        .count = count,
                        .found = asking->answer->found,
                        .nearest = calloc(count + 1, sizeof *hunt.nearest),
                        .copies = calloc(count + 1, sizeof *hunt.copies)};
    enum mensur_status status =
        hunt.nearest == NULL || hunt.copies == NULL ? MENSUR_MEMORY : MENSUR_OK;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        hunt.nearest[i] = mensur_nearest_start(named[i].name, FARTHEST);
    }
    if (status == MENSUR_OK) {
        status = read_all(asking, &hunt);
    }
    if (status == MENSUR_OK) {
        status = say_missing(&hunt, asking->messages);
    }
    hunt_end(&hunt);
    return status;
}

/* Keeps an instrument that stands in no file. */
static enum mensur_status keep_described(void *context,
                                         const struct mensur_instrument *instrument) {
    struct mensur_found *found = context;
    enum mensur_status status = mensur_instrument_copy(instrument, &found->as_it_is);
    if (status == MENSUR_OK) {
        found->as_it_is.line = 0;
        found->asked = &found->as_it_is;
    }
    return status;
}

/* Reads an instrument that is described by its measurements; of what is wrong, the first is said.
 */
static enum mensur_status read_described(const struct asking *asking,
                                         const struct mensur_named *named,
                                         struct mensur_found *found) {
    struct mensur_report report = {.errors = {0}};
    enum mensur_status status =
        mensur_shop_described(asking->shop, named->name, named->given, named->given_count,
                              keep_described, found, &report);
    if (status == MENSUR_DATA && report.errors.count > 0) {
        status = SAY(asking->messages, "%s", report.errors.items[0]);
    }
    for (size_t i = 0; i < report.warnings.count && status == MENSUR_OK; i++) {
        status = mensur_texts_add(asking->messages, "mensur: %s", report.warnings.items[i]);
    }
    mensur_report_clear(&report);
    return status;
}

static enum mensur_status make_changes(struct asking *asking, const struct mensur_named *named,
                                       struct mensur_found *found) {
    if (named->change_count == 0) {
        return MENSUR_OK;
    }
    enum mensur_status status = mensur_instrument_changed(
        &asking->shop->stock, &found->as_it_is, named->changes, named->change_count,
        &asking->question->terms, &asking->fault, &found->changed);
    if (status == MENSUR_OK) {
        found->changed.line = 0; /* it stands in no file so */
        found->asked = &found->changed;
    }
    return status;
}

enum mensur_status ask_find_named(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    size_t count = question->named_count + (question->like.name == NULL ? 0 : 1);
    struct mensur_named *named = calloc(count + 1, sizeof *named);
    struct mensur_found *found = calloc(count + 1, sizeof *found);
    asking->list = calloc(count + 1, sizeof(const struct mensur_instrument *));
    asking->answer->found = found;
    if (named == NULL || found == NULL || asking->list == NULL) {
        free(named);
        return MENSUR_MEMORY;
    }
    enum mensur_status status = MENSUR_OK;
    bool sought = count == 0;
    asking->answer->found_count = count;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        named[i] = i < question->named_count ? question->named[i] : question->like;
        sought = sought || named[i].given == NULL;
        if (named[i].given != NULL) {
            status = read_described(asking, &named[i], &found[i]);
        }
    }
    if (status == MENSUR_OK && sought) {
        status = hunt_for(asking, named, count);
    }
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = make_changes(asking, &named[i], &found[i]);
        asking->list[i] = found[i].asked;
    }
    free(named);
    return status;
}

enum mensur_status ask_say_names(struct asking *asking, const char *wanted) {
    struct hunt hunt = {.named = NULL};
    enum mensur_status status = read_all(asking, &hunt);
    if (status == MENSUR_OK) {
        status = say_there(&hunt, wanted, NULL, asking->messages);
    }
    hunt_end(&hunt);
    return status;
}

/* Says whose reach can be asked: what is wrong, then the players there are. */
static enum mensur_status say_players(const struct asking *asking, const char *name) {
    const struct mensur_stock *stock = &asking->shop->stock;
    const char **names = calloc(stock->player_count + 1, sizeof *names);
    for (size_t i = 0; names != NULL && i < stock->player_count; i++) {
        names[i] = stock->players[i].name;
    }
    char *there = names == NULL ? NULL : ask_names_joined(names, stock->player_count, "");
    const char *lead =
        stock->player_count == 0 ? "; there are none: put a row into players.csv" : "; there are: ";
    enum mensur_status status =
        there == NULL ? MENSUR_MEMORY
        : name == NULL
            ? SAY(asking->messages, "say whose reach with --player NAME%s%s", lead, there)
            : SAY(asking->messages, "there is no player \"%s\"%s%s", name, lead, there);
    free(there);
    free(names);
    return status;
}

enum mensur_status ask_find_player(const struct asking *asking,
                                   const struct mensur_player **player) {
    const struct mensur_stock *stock = &asking->shop->stock;
    const char *name = asking->question->player, *nearest = NULL;
    *player = name == NULL ? NULL : mensur_stock_player(stock, name);
    if (*player != NULL) {
        return MENSUR_OK;
    }
    if (name != NULL) {
        nearest = ask_nearest_name(name, stock->players, stock->player_count,
                                   sizeof *stock->players, FARTHEST);
    }
    return nearest == NULL ? say_players(asking, name)
                           : SAY(asking->messages,
                                 "there is no player \"%s\"; did you mean \"%s\"?", name, nearest);
}

enum mensur_status ask_read_player(const struct asking *asking, struct mensur_stock *typed) {
    struct mensur_report report = {.errors = {0}};
    const struct mensur_question *question = asking->question;
    enum mensur_status status =
        mensur_shop_player(question->given, question->given_count, typed, &report);
    if (status == MENSUR_DATA && report.errors.count > 0) {
        status = SAY(asking->messages, "%s", report.errors.items[0]);
    }
    /* Nothing that is typed is left aside. */
    if (status == MENSUR_OK && report.warnings.count > 0) {
        status = SAY(asking->messages, "%s", report.warnings.items[0]);
    }
    mensur_report_clear(&report);
    return status;
}

enum mensur_status mensur_question_shop_without(const char *folder, enum mensur_table without,
                                                struct mensur_texts *messages,
                                                struct mensur_shop *shop) {
    struct mensur_report report = {.errors = {0}};
    enum mensur_status status = mensur_shop_open_without(folder, without, &report, shop);
    enum mensur_status said = ask_say_report(&report, messages);
    if (status == MENSUR_OK && said != MENSUR_OK) {
        mensur_shop_clear(shop);
    }
    return status == MENSUR_OK ? said : status;
}

enum mensur_status mensur_question_shop(const char *folder, struct mensur_texts *messages,
                                        struct mensur_shop *shop) {
    return mensur_question_shop_without(folder, MENSUR_TABLE_COUNT, messages, shop);
}
