/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The instruments that a question names, looked for along the whole file. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "ask.h"
#include "asking.h"
#include "nearest.h"
#include "shop_files.h"

/* How many names are listed where one is missing. */
enum { NAMES_LISTED = 20 };
/* Further than this two names are not alike. */
enum { FARTHEST = 3 };
/* Names that are not there: so many are said one by one. */
enum { MISSING_SAID = 20 };

/* A name that is looked for. */
struct wanted {
    const char *name;
    struct mensur_found *found; /* `asked` is set once it is found */
    struct mensur_nearest nearest;
    char *copy; /* of what is nearest, owned */
};

/* The names that are looked for, and how far it has come. */
struct hunt {
    struct wanted *wanted;   /* by name; those of one name in the order in which they were given */
    size_t count;            /* of those */
    size_t left;             /* and of them those that are not found yet; 0 ends the search */
    struct wanted **missing; /* after the file's end: those that were not found, as given */
    size_t missing_count;    /* of those */
    struct mensur_texts there; /* where one is missing: the first names of the file */
};

static int compare_wanted(const void *a, const void *b) {
    const struct wanted *one = a, *other = b;
    int order = strcmp(one->name, other->name);
    return order != 0 ? order : (one->found > other->found) - (one->found < other->found);
}

static int compare_missing(const void *a, const void *b) {
    const struct wanted *one = *(struct wanted *const *)a, *other = *(struct wanted *const *)b;
    return (one->found > other->found) - (one->found < other->found);
}

/* The first of the wanted whose name is not before this one. */
static size_t first_of(const struct hunt *hunt, const char *name) {
    size_t low = 0, high = hunt->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(hunt->wanted[middle].name, name) < 0) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

static enum mensur_status visit(void *context, const struct mensur_instrument *instrument) {
    struct hunt *hunt = context;
    enum mensur_status status = MENSUR_OK;
    for (size_t i = first_of(hunt, instrument->name);
         i < hunt->count && status == MENSUR_OK &&
         strcmp(hunt->wanted[i].name, instrument->name) == 0;
         i++) {
        struct mensur_found *found = hunt->wanted[i].found;
        if (found->asked == NULL) {
            status = mensur_instrument_copy(instrument, &found->as_it_is);
            found->asked = status == MENSUR_OK ? &found->as_it_is : NULL;
            hunt->left -= status == MENSUR_OK;
        }
    }
    return status;
}

static enum mensur_status visit_name(void *context, const struct mensur_instrument *instrument) {
    struct hunt *hunt = context;
    return hunt->there.count < NAMES_LISTED ? mensur_texts_add(&hunt->there, "%s", instrument->name)
                                            : MENSUR_OK;
}

/* Every name of the file is held against each of the first that are missing. */
static enum mensur_status visit_missing(void *context, const struct mensur_instrument *instrument) {
    struct hunt *hunt = context;
    enum mensur_status status = visit_name(hunt, instrument);
    for (size_t i = 0; i < hunt->missing_count && i < MISSING_SAID && status == MENSUR_OK; i++) {
        struct wanted *wanted = hunt->missing[i];
        if (mensur_nearest_take(&wanted->nearest, instrument->name)) {
            free(wanted->copy);
            wanted->copy = NULL;
            status = mensur_text_copy(instrument->name, strlen(instrument->name), &wanted->copy);
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

/* What is kept was read before: of it no more is visited than is left to be found. */
static enum mensur_status visit_all(const struct asking *asking, bool names,
                                    mensur_visit *visit_one, struct hunt *hunt,
                                    struct mensur_report *report) {
    enum mensur_status status = MENSUR_OK;
    if (asking->kept == NULL) {
        return mensur_shop_instruments(asking->shop, names, visit_one, hunt, report);
    }
    for (size_t i = 0; i < asking->kept->count && hunt->left > 0 && status == MENSUR_OK; i++) {
        status = visit_one(hunt, &asking->kept->items[i]);
    }
    return status;
}

static enum mensur_status read_all(const struct asking *asking, mensur_visit *visit_one,
                                   struct hunt *hunt) {
    struct mensur_report report = {.errors = {0}};
    enum mensur_status status = visit_all(asking, true, visit_one, hunt, &report);
    enum mensur_status said = ask_say_report(&report, asking->messages);
    return status == MENSUR_OK ? said : status;
}

/* Goes through the file once more, for what those that are missing may have meant; its warnings
 * were said by the first time. */
static enum mensur_status read_for_missing(const struct asking *asking, struct hunt *hunt) {
    struct mensur_report report = {.errors = {0}};
    enum mensur_status status = visit_all(asking, false, visit_missing, hunt, &report);
    mensur_texts_clear(&report.warnings);
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

/* The first names that were not found, and how many there are beside them. */
static enum mensur_status say_missing(const struct hunt *hunt, struct mensur_texts *messages) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < hunt->missing_count && i < MISSING_SAID && status != MENSUR_MEMORY;
         i++) {
        const struct wanted *wanted = hunt->missing[i];
        status = wanted->copy != NULL
                     ? SAY(messages, "there is no instrument \"%s\"; did you mean \"%s\"?",
                           wanted->name, wanted->copy)
                     : say_there(hunt, "there is no instrument", wanted->name, messages);
    }
    if (hunt->missing_count > MISSING_SAID && status != MENSUR_MEMORY) {
        status = SAY(messages, "%zu more of the names are no instrument's",
                     hunt->missing_count - MISSING_SAID);
    }
    return status;
}

static enum mensur_status look_for_missing(const struct asking *asking, struct hunt *hunt) {
    for (size_t i = 0; i < hunt->count; i++) {
        if (hunt->wanted[i].found->asked == NULL) {
            hunt->missing[hunt->missing_count++] = &hunt->wanted[i];
        }
    }
    if (hunt->missing_count == 0) {
        return MENSUR_OK;
    }
    /* A list of pointers is meant. NOLINTNEXTLINE(bugprone-sizeof-expression) */
    qsort(hunt->missing, hunt->missing_count, sizeof(*hunt->missing), compare_missing);
    enum mensur_status status = read_for_missing(asking, hunt);
    return status == MENSUR_OK ? say_missing(hunt, asking->messages) : status;
}

static void hunt_end(struct hunt *hunt) {
    for (size_t i = 0; hunt->wanted != NULL && i < hunt->count; i++) {
        free(hunt->wanted[i].copy);
    }
    free(hunt->wanted);
    free(hunt->missing);
    mensur_texts_clear(&hunt->there);
}

static enum mensur_status hunt_for(const struct asking *asking, const struct mensur_named *named,
                                   size_t count) {
    struct hunt hunt = {.wanted = calloc(count + 1, sizeof(*hunt.wanted)),
                        /* NOLINTNEXTLINE(bugprone-sizeof-expression) pointers are meant */
                        .missing = calloc(count + 1, sizeof(*hunt.missing))};
    enum mensur_status status =
        hunt.wanted == NULL || hunt.missing == NULL ? MENSUR_MEMORY : MENSUR_OK;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        struct mensur_found *found = &asking->answer->found[i];
        if (found->asked == NULL) { /* not described by its measurements */
            hunt.wanted[hunt.count++] =
                (struct wanted){.name = named[i].name,
                                .found = found,
                                .nearest = mensur_nearest_start(named[i].name, FARTHEST)};
        }
    }
    if (hunt.count > 1) {
        qsort(hunt.wanted, hunt.count, sizeof(*hunt.wanted), compare_wanted);
    }
    if (status == MENSUR_OK) {
        hunt.left = hunt.count;
        status = read_all(asking, visit, &hunt);
    }
    if (status == MENSUR_OK) {
        status = look_for_missing(asking, &hunt);
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

static enum mensur_status change_found(struct asking *asking, const struct mensur_named *named,
                                       struct mensur_found *found) {
    return mensur_instrument_changed(&asking->shop->stock, &found->as_it_is, named->changes,
                                     named->change_count, &asking->question->terms, &asking->fault,
                                     &found->changed);
}

/* Of an instrument that has no answer as it is, what it lacks is taken from the changes first. */
static enum mensur_status make_changes(struct asking *asking, const struct mensur_named *named,
                                       struct mensur_found *found) {
    if (named->change_count == 0) {
        return MENSUR_OK;
    }
    enum mensur_status status = change_found(asking, named, found);
    if (status == MENSUR_NO_ANSWER) {
        struct mensur_instrument whole;
        status = mensur_instrument_completed(&asking->shop->stock, &found->as_it_is, named->changes,
                                             named->change_count, &asking->question->terms,
                                             &asking->fault, &whole);
        if (status == MENSUR_OK) {
            mensur_instrument_clear(&found->as_it_is);
            found->as_it_is = whole;
            status = change_found(asking, named, found);
        }
    }
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
    struct hunt hunt = {.wanted = NULL, .left = SIZE_MAX};
    enum mensur_status status = read_all(asking, visit_name, &hunt);
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
