/* SPDX-License-Identifier: GPL-3.0-or-later */
/* restring: strings for a length. */
#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "changed.h"
#include "drawing_output.h"

enum { WISHES_MAX = 48, USUAL_RUNNERS_UP = 3 };

/* What the command line wishes, and what it borrows. */
struct asked_strings {
    struct mensur_wish items[WISHES_MAX];
    struct mensur_packet *packets; /* owned */
    struct mensur_restring_wishes wishes;
};

static enum mensur_status say_wrong(enum option option, const char *wanted, const char *text) {
    fprintf(stderr, "mensur: --%s takes %s, not \"%s\"\n", option_info(option)->name, wanted, text);
    return MENSUR_USE;
}

/* A number of that kind, not under 0; left as it is where the option is not given. */
static enum mensur_status read_number(const struct options *options, enum option option,
                                      enum mensur_kind kind, const char *wanted, double *value) {
    const char *text = options->text[option];
    struct mensur_quantity quantity;
    if (text == NULL) {
        return MENSUR_OK;
    }
    if (mensur_quantity_read(text, strlen(text), kind, true, &quantity) != MENSUR_OK ||
        !(quantity.value >= 0.0)) {
        return say_wrong(option, wanted, text);
    }
    *value = quantity.value;
    return MENSUR_OK;
}

static enum mensur_status read_runners_up(const struct options *options, size_t *count) {
    static const char wanted[] = "a whole number from 0 to 16";
    double number = USUAL_RUNNERS_UP;
    enum mensur_status status =
        read_number(options, OPTION_ID_runners_up, MENSUR_NUMBER, wanted, &number);
    if (status == MENSUR_OK && (number > MENSUR_RUNNERS_UP_MAX || floor(number) < number)) {
        status = say_wrong(OPTION_ID_runners_up, wanted, options->text[OPTION_ID_runners_up]);
    }
    if (status == MENSUR_OK) {
        *count = (size_t)number;
    }
    return status;
}

static enum mensur_status read_feel_by(const struct options *options, bool *impedance) {
    const char *text = options->text[OPTION_ID_feel_by];
    if (text != NULL && options->text[OPTION_ID_like] == NULL) {
        fprintf(stderr, "mensur: --feel-by says what feels alike with --like NAME\n");
        return MENSUR_USE;
    }
    *impedance = text != NULL && strcmp(text, "impedance") == 0;
    return text == NULL || *impedance || strcmp(text, "tension") == 0
               ? MENSUR_OK
               : say_wrong(OPTION_ID_feel_by, option_info(OPTION_ID_feel_by)->value, text);
}

static enum mensur_status read_packets(const struct options *options, struct asked_strings *asked) {
    char **texts = options->list[OPTION_ID_packet];
    struct mensur_fault fault = {""};
    size_t count = texts == NULL ? 0 : g_strv_length(texts);
    asked->packets = g_new0(struct mensur_packet, count + 1);
    asked->wishes.packets = asked->packets;
    asked->wishes.packet_count = count;
    for (size_t i = 0; i < count; i++) {
        if (mensur_packet_read(texts[i], &fault, &asked->packets[i]) != MENSUR_OK) {
            fprintf(stderr, "mensur: --packet: %s\n", fault.text);
            return MENSUR_USE;
        }
    }
    return MENSUR_OK;
}

/* Tensions stay in the list of wishes; the limit on the belly, the one other wish, leaves it. */
static enum mensur_status read_ranges(const struct options *options, struct asked_strings *asked) {
    size_t count = 0;
    size_t tensions = 0;
    enum mensur_status status = asked_wishes(options, asked->items, WISHES_MAX, &count);
    for (size_t i = 0; status == MENSUR_OK && i < count; i++) {
        if (asked->items[i].kind == MENSUR_WISH_TENSION) {
            asked->items[tensions++] = asked->items[i];
        } else if (!isnan(asked->items[i].low)) {
            status = say_wrong(OPTION_ID_belly_force, "a limit here, such as ..90",
                               options->text[OPTION_ID_belly_force]);
        } else {
            asked->wishes.most_belly_force = asked->items[i].high;
        }
    }
    asked->wishes.tensions = asked->items;
    asked->wishes.tension_count = tensions;
    return status;
}

static enum mensur_status read_wishes(const struct options *options, struct asked_strings *asked) {
    struct mensur_restring_wishes *wishes = &asked->wishes;
    wishes->least_margin = NAN;
    wishes->most_belly_force = NAN;
    wishes->from = options->text[OPTION_ID_from];
    wishes->any_length = options->flag[OPTION_ID_any_length];
    enum mensur_status status = read_ranges(options, asked);
    if (status == MENSUR_OK) {
        status = read_number(options, OPTION_ID_margin, MENSUR_SEMITONES,
                             "a number of semitones, 0 or more", &wishes->least_margin);
    }
    if (status == MENSUR_OK) {
        status = read_feel_by(options, &wishes->same_impedance);
    }
    if (status == MENSUR_OK) {
        status = read_runners_up(options, &wishes->runners_up);
    }
    return status == MENSUR_OK ? read_packets(options, asked) : status;
}

static enum mensur_status present(const struct question *question,
                                  struct mensur_restringing *restringing) {
    struct reply reply;
    bool met = restringing->choice_count > 0;
    enum mensur_status status = reply_open(question, &reply);
    if (status == MENSUR_OK) {
        status = reply_close(&reply, mensur_present_restringing(reply.presenter, restringing));
    }
    return status == MENSUR_OK && !met ? MENSUR_NOT_MET : status;
}

static enum mensur_status ask(struct question *question, const struct mensur_instrument *instrument,
                              const struct mensur_restring_wishes *wishes) {
    struct mensur_restringing restringing;
    struct mensur_fault fault = {""};
    enum mensur_status status = mensur_ask_restring(&question->shop.stock, instrument, wishes,
                                                    &question->terms, &fault, &restringing);
    if (status != MENSUR_OK) {
        say_fault(question, NULL, &fault);
        return status;
    }
    if (question->wants_working) {
        status = mensur_ask_working_restring(&question->shop.stock, instrument, wishes,
                                             &restringing, &question->terms,
                                             question_feels(question), &fault, &question->working);
    }
    if (status == MENSUR_OK) {
        status = present(question, &restringing);
    } else {
        say_fault(question, NULL, &fault);
    }
    mensur_restringing_clear(&restringing);
    return status;
}

/* The instrument with what follows its name on the command line changed, if anything does. */
static enum mensur_status ask_changed(struct question *question,
                                      const struct mensur_instrument *instrument,
                                      const struct mensur_restring_wishes *wishes) {
    size_t count = question->options->name_count - 1;
    struct mensur_change *changes = g_new0(struct mensur_change, count + 1);
    struct mensur_instrument changed;
    struct mensur_fault fault = {""};
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = asked_change(question->options->names[i + 1], &changes[i]);
    }
    if (status == MENSUR_OK && count == 0) {
        status = ask(question, instrument, wishes);
    } else if (status == MENSUR_OK) {
        status = mensur_instrument_changed(&question->shop.stock, instrument, changes, count,
                                           &question->terms, &fault, &changed);
        if (status == MENSUR_OK) {
            status = ask(question, &changed, wishes);
            mensur_instrument_clear(&changed);
        } else {
            say_fault(question, NULL, &fault);
        }
    }
    g_free(changes);
    return status;
}

static enum mensur_status restring(struct question *question, struct asked_strings *asked) {
    const struct options *options = question->options;
    struct mensur_instrument *found = NULL;
    char *names[] = {options->names[0], options->text[OPTION_ID_like], NULL};
    size_t count = names[1] == NULL ? 1 : 2;
    enum mensur_status status = shopfront_find(&question->shop, names, count, &found);
    if (status == MENSUR_OK) {
        asked->wishes.like = count > 1 ? &found[1] : NULL;
        status = ask_changed(question, &found[0], &asked->wishes);
        shopfront_free(found, count);
    }
    return status;
}

enum mensur_status command_restring(const struct options *options) {
    struct question question;
    struct asked_strings asked = {.packets = NULL};
    if (drawing_refused(options, "new strings")) {
        return MENSUR_USE;
    }
    enum mensur_status status = question_open(options, &question);
    if (status != MENSUR_OK) {
        return status;
    }
    status = read_wishes(options, &asked);
    if (status == MENSUR_OK) {
        status = options->name_count == 0
                     ? shopfront_say_names(&question.shop, "name an instrument")
                     : restring(&question, &asked);
    }
    g_free(asked.packets);
    question_clear(&question);
    return status;
}
