/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shopfront.h"

#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "nearest.h"

/* How many names are listed where one is missing. */
enum { NAMES_LISTED = 20 };
/* Further than this two names are not alike. */
enum { FARTHEST = 3 };

void shopfront_say(struct mensur_report *report) {
    for (size_t i = 0; i < report->errors.count; i++) {
        fprintf(stderr, "%s\n", report->errors.items[i]);
    }
    for (size_t i = 0; i < report->warnings.count; i++) {
        fprintf(stderr, "%s\n", report->warnings.items[i]);
    }
    mensur_report_clear(report);
}

const char *shopfront_folder(const struct options *options) {
    if (options->text[OPTION_ID_shop] != NULL) {
        return options->text[OPTION_ID_shop];
    }
    const char *folder = g_getenv("MENSUR_SHOP");
    return folder == NULL || folder[0] == '\0' ? NULL : folder;
}

enum mensur_status shopfront_open(const struct options *options, struct mensur_shop *shop) {
    struct mensur_report report = {.errors = {0}};
    enum mensur_status status = mensur_shop_open(shopfront_folder(options), &report, shop);
    if (status == MENSUR_MEMORY) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    shopfront_say(&report);
    return status;
}

/* A search for names along the file. */
struct hunt {
    char *const *names;
    size_t count;
    bool *found;
    struct mensur_instrument *instruments;
    struct mensur_nearest *nearest; /* of each name */
    char **copies;                  /* of what is nearest */
    struct mensur_texts there;      /* the first names of the file */
};

static enum mensur_status hunt_visit(void *context, const struct mensur_instrument *instrument) {
    struct hunt *hunt = context;
    enum mensur_status status = MENSUR_OK;
    if (hunt->there.count < NAMES_LISTED) {
        status = mensur_texts_add(&hunt->there, "%s", instrument->name);
    }
    for (size_t i = 0; i < hunt->count && status == MENSUR_OK; i++) {
        if (hunt->found[i]) {
            continue;
        }
        if (strcmp(hunt->names[i], instrument->name) == 0) {
            status = mensur_instrument_copy(instrument, &hunt->instruments[i]);
            hunt->found[i] = status == MENSUR_OK;
        } else if (mensur_nearest_take(&hunt->nearest[i], instrument->name)) {
            g_free(hunt->copies[i]);
            hunt->copies[i] = g_strdup(instrument->name);
        }
    }
    return status;
}

static void say_there(const struct mensur_texts *there) {
    for (size_t i = 0; i < there->count; i++) {
        fprintf(stderr, "%s%s", i == 0 ? "" : ", ", there->items[i]);
    }
    fprintf(stderr, "%s\n", there->count == NAMES_LISTED ? " ..." : "");
}

static enum mensur_status say_missing(const struct hunt *hunt) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < hunt->count; i++) {
        if (hunt->found[i]) {
            continue;
        }
        status = MENSUR_USE;
        if (hunt->copies[i] != NULL) {
            fprintf(stderr, "mensur: there is no instrument \"%s\"; did you mean \"%s\"?\n",
                    hunt->names[i], hunt->copies[i]);
        } else {
            fprintf(stderr, "mensur: there is no instrument \"%s\"; there are: ", hunt->names[i]);
            say_there(&hunt->there);
        }
    }
    return status;
}

static void hunt_start(struct hunt *hunt, char *const *names, size_t count) {
    *hunt = (struct hunt){.names = names, .count = count};
    hunt->found = g_new0(bool, count + 1);
    hunt->instruments = g_new0(struct mensur_instrument, count + 1);
    hunt->nearest = g_new0(struct mensur_nearest, count + 1);
    hunt->copies = g_new0(char *, count + 1);
    for (size_t i = 0; i < count; i++) {
        mensur_instrument_init(&hunt->instruments[i]);
        hunt->nearest[i] = mensur_nearest_start(names[i], FARTHEST);
    }
}

/* Frees all but the instruments. */
static void hunt_end(struct hunt *hunt) {
    for (size_t i = 0; i < hunt->count; i++) {
        g_free(hunt->copies[i]);
    }
    g_free(hunt->copies);
    g_free(hunt->nearest);
    g_free(hunt->found);
    mensur_texts_clear(&hunt->there);
}

void shopfront_free(struct mensur_instrument *instruments, size_t count) {
    for (size_t i = 0; instruments != NULL && i < count; i++) {
        mensur_instrument_clear(&instruments[i]);
    }
    g_free(instruments);
}

static enum mensur_status read_all(struct mensur_shop *shop, struct hunt *hunt) {
    struct mensur_report report = {.errors = {0}};
    enum mensur_status status = mensur_shop_instruments(shop, true, hunt_visit, hunt, &report);
    if (status == MENSUR_MEMORY) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    shopfront_say(&report);
    return status;
}

enum mensur_status shopfront_find(struct mensur_shop *shop, char *const *names, size_t count,
                                  struct mensur_instrument **instruments) {
    struct hunt hunt;
    hunt_start(&hunt, names, count);
    enum mensur_status status = read_all(shop, &hunt);
    if (status == MENSUR_OK) {
        status = say_missing(&hunt);
    }
    if (status != MENSUR_OK) {
        shopfront_free(hunt.instruments, count);
    } else {
        *instruments = hunt.instruments;
    }
    hunt_end(&hunt);
    return status;
}

enum mensur_status shopfront_say_names(struct mensur_shop *shop, const char *wanted) {
    struct hunt hunt;
    hunt_start(&hunt, NULL, 0);
    enum mensur_status status = read_all(shop, &hunt);
    if (status == MENSUR_OK) {
        fprintf(stderr, "mensur: %s; there are: ", wanted);
        say_there(&hunt.there);
        status = MENSUR_USE;
    }
    g_free(hunt.instruments);
    hunt_end(&hunt);
    return status;
}
