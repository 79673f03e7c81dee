/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is sought among many instruments, from its words. */
#include <string.h>

#include "ask.h"
#include "instrument.h"
#include "nearest.h"
#include "number.h"
#include "ranking.h"

#define NEAR(id, word, scope, key, tolerance, is_part, typed)                                      \
    {word, MENSUR_SCOPE_##scope, key, tolerance, is_part},
static const struct mensur_near_info near[MENSUR_NEAR_COUNT] = {MENSUR_NEAR_LIST(NEAR)};

/* Texts of an instrument by the heads of their columns. */
static const char *const words[] = {"name", "family", "tuning", "strings", "built", "note"};
enum { WORDS = sizeof words / sizeof words[0] };

/* Further apart than this two names are not alike. */
enum { FARTHEST = 2, NAME_SHOWN = 60 };

const struct mensur_near_info *mensur_near_info(size_t i) {
    return &near[i];
}

void mensur_sought_init(struct mensur_sought *out) {
    *out = (struct mensur_sought){.count = 0};
    for (size_t i = 0; i < MENSUR_NEAR_COUNT; i++) {
        out->near[i] = near[i].tolerance;
        out->figures[i] = (struct mensur_sought_column){
            .kind = MENSUR_SOUGHT_FIGURE,
            .scope = near[i].scope,
            .figure = mensur_figure_named(near[i].scope, near[i].key),
            .told = i <= MENSUR_NEAR_LEFT,
        };
    }
    out->figure_count = MENSUR_NEAR_COUNT;
}

/* Whether a name is a figure's key, or that without its unit. */
static bool is_named(const struct mensur_figure *figure, const char *name, size_t length) {
    const char *unit = strrchr(figure->key, '_');
    size_t bare = unit == NULL ? 0 : (size_t)(unit - figure->key);
    return (length == strlen(figure->key) || (length == bare && figure->kind != MENSUR_NUMBER)) &&
           strncmp(figure->key, name, length) == 0;
}

static bool find_figure(struct mensur_sought_column *column) {
    static const enum mensur_scope scopes[] = {MENSUR_SCOPE_INSTRUMENT, MENSUR_SCOPE_TOTAL};
    for (size_t k = 0; k < 2; k++) {
        struct mensur_figures all = mensur_figures(scopes[k]);
        for (size_t i = 0; i < all.count; i++) {
            const struct mensur_figure *figure = &all.items[i];
            if (figure->type == MENSUR_FIGURE_NUMBER &&
                (figure->flags & MENSUR_FIGURE_PUBLISHED) != 0 &&
                is_named(figure, column->name, column->name_length)) {
                column->kind = MENSUR_SOUGHT_FIGURE;
                column->scope = scopes[k];
                column->figure = figure;
                return true;
            }
        }
    }
    return false;
}

/* The wish of a name, as in JSON or as an option; false where there is none. */
static bool find_wish(const char *name, size_t length, enum mensur_wish_kind *kind) {
    for (size_t i = 0; i < MENSUR_WISH_COUNT; i++) {
        const struct mensur_wish_info *info = mensur_wish_info((enum mensur_wish_kind)i);
        const char *const both[] = {info->word, info->option};
        for (size_t k = 0; k < 2; k++) {
            if (strlen(both[k]) == length && strncmp(both[k], name, length) == 0) {
                *kind = (enum mensur_wish_kind)i;
                return true;
            }
        }
    }
    return false;
}

static struct mensur_sought_column column_of(const char *name, size_t length) {
    struct mensur_sought_column column = {
        .kind = MENSUR_SOUGHT_OWNER, .name = name, .name_length = length};
    enum mensur_wish_kind kind;
    if (find_wish(name, length, &kind) && kind != MENSUR_WISH_TENSION) {
        column.kind = MENSUR_SOUGHT_FIGURE;
        column.scope = mensur_wish_info(kind)->scope;
        column.figure = mensur_wish_figure(kind);
        return column;
    }
    if (find_figure(&column)) {
        return column;
    }
    for (size_t i = 0; i < WORDS; i++) {
        if (strlen(words[i]) == length && strncmp(words[i], name, length) == 0) {
            column.kind = MENSUR_SOUGHT_WORD;
            column.place = i;
        }
    }
    return column;
}

static enum mensur_status add(const struct mensur_sought_line *line, struct mensur_fault *fault,
                              struct mensur_sought *sought) {
    if (sought->count == MENSUR_SOUGHT_LINES - 1) { /* one is left for the family */
        mensur_fault_set(fault, "more than %d wishes", MENSUR_SOUGHT_LINES - 1);
        return MENSUR_USE;
    }
    sought->lines[sought->count++] = *line;
    return MENSUR_OK;
}

enum mensur_status mensur_sought_wish(const struct mensur_wish *wish, struct mensur_fault *fault,
                                      struct mensur_sought *sought) {
    const struct mensur_wish_info *info = mensur_wish_info(wish->kind);
    bool tension = wish->kind == MENSUR_WISH_TENSION;
    struct mensur_sought_line line = {
        .column = {.kind = tension ? MENSUR_SOUGHT_TENSION : MENSUR_SOUGHT_FIGURE,
                   .name = info->word,
                   .name_length = strlen(info->word),
                   .scope = info->scope,
                   .figure = mensur_wish_figure(wish->kind)},
        .percent = wish->percent,
        .low = wish->low,
        .high = wish->high};
    memcpy(line.note, wish->note, sizeof line.note);
    return add(&line, fault, sought);
}

/* A range of bare numbers, as the owner writes them: LOW..HIGH, open on either side. */
static bool read_numbers(const char *text, double *low, double *high) {
    const char *dots = strstr(text, "..");
    const char *const at[] = {text, dots + 2};
    const size_t length[] = {(size_t)(dots - text), strlen(dots + 2)};
    double ends[2] = {NAN, NAN};
    for (size_t i = 0; i < 2; i++) {
        size_t used = 0;
        if (length[i] > 0 &&
            (mensur_number_read(at[i], length[i], false, &used, &ends[i]) != MENSUR_OK ||
             used != length[i])) {
            return false;
        }
    }
    *low = ends[0];
    *high = ends[1];
    return length[0] + length[1] > 0 && !(ends[0] > ends[1]);
}

enum mensur_status mensur_sought_read(const char *word, struct mensur_fault *fault,
                                      struct mensur_sought *sought) {
    size_t length = strcspn(word, "=");
    const char *value = word + length + 1;
    enum mensur_wish_kind kind;
    if (word[length] == '\0' || length == 0) {
        mensur_fault_set(fault,
                         "\"%s\" is no wish; write FIELD=VALUE or FIELD=LOW..HIGH, for example "
                         "family=viola or string_length=368..376",
                         word);
        return MENSUR_USE;
    }
    if (find_wish(word, length, &kind)) {
        struct mensur_wish wish;
        enum mensur_status status = mensur_wish_read(kind, value, fault, &wish);
        return status == MENSUR_OK ? mensur_sought_wish(&wish, fault, sought) : status;
    }
    struct mensur_sought_line line = {
        .column = column_of(word, length), .low = NAN, .high = NAN, .text = value};
    int shown = (int)(length < NAME_SHOWN ? length : NAME_SHOWN);
    if (line.column.kind == MENSUR_SOUGHT_FIGURE) {
        line.text = NULL;
        if (mensur_range_read(line.column.figure->kind, value, &line.low, &line.high) !=
            MENSUR_OK) {
            mensur_fault_set(fault,
                             "%.*s: \"%s\" is no range and no value; write LOW..HIGH, open on "
                             "either side, the lower end first",
                             shown, word, value);
            return MENSUR_USE;
        }
    } else if (line.column.kind == MENSUR_SOUGHT_OWNER && strstr(value, "..") != NULL) {
        line.text = NULL;
        if (!read_numbers(value, &line.low, &line.high)) {
            mensur_fault_set(fault,
                             "%.*s: \"%s\" is no range of numbers; write LOW..HIGH, for example "
                             "price=..20000, the lower end first",
                             shown, word, value);
            return MENSUR_USE;
        }
    }
    return add(&line, fault, sought);
}

enum mensur_status mensur_sought_near(const char *word, struct mensur_fault *fault,
                                      struct mensur_sought *sought) {
    size_t length = strcspn(word, "="), i = 0;
    while (i < MENSUR_NEAR_COUNT &&
           (strlen(near[i].word) != length || strncmp(near[i].word, word, length) != 0)) {
        i++;
    }
    if (i < MENSUR_NEAR_COUNT && word[length] == '=') {
        const char *value = word + length + 1;
        size_t size = strlen(value);
        bool percent = size > 0 && value[size - 1] == '%';
        struct mensur_quantity read;
        enum mensur_kind kind =
            near[i].is_part ? MENSUR_NUMBER : mensur_figure_named(near[i].scope, near[i].key)->kind;
        if (percent == near[i].is_part &&
            mensur_quantity_read(value, size - percent, kind, true, &read) == MENSUR_OK &&
            read.value > 0.0) {
            sought->near[i] = near[i].is_part ? read.value / 100.0 : read.value;
            return MENSUR_OK;
        }
    }
    mensur_fault_set(fault, "--near: \"%s\" is no step of%s", word, MENSUR_NEAR_WORDS);
    return MENSUR_USE;
}

void mensur_sought_sort(const char *word, struct mensur_sought *sought) {
    if (word == NULL) {
        return;
    }
    sought->descending = *word == '-';
    word += sought->descending;
    sought->sort = column_of(word, strlen(word));
    if (strcmp(word, "distance") == 0) {
        sought->sort.kind = MENSUR_SOUGHT_DISTANCE;
    }
}

enum mensur_status mensur_sought_top(const char *word, struct mensur_fault *fault,
                                     struct mensur_sought *sought) {
    size_t digits = word == NULL ? 0 : strspn(word, "0123456789"), top = 0;
    if (word == NULL) {
        return MENSUR_OK;
    }
    for (size_t i = 0; i < digits; i++) {
        top = 10 * top + (size_t)(word[i] - '0');
    }
    if (digits == 0 || digits > 9 || word[digits] != '\0' || top == 0) {
        mensur_fault_set(fault, "--top takes a whole number from 1, not \"%s\"", word);
        return MENSUR_USE;
    }
    sought->top = top;
    return MENSUR_OK;
}

static void suggest(struct mensur_nearest *nearest, const struct mensur_texts *heads) {
    for (size_t i = 0; i < heads->count; i++) {
        (void)mensur_nearest_take(nearest, heads->items[i]);
    }
    for (size_t i = 0; i < WORDS; i++) {
        (void)mensur_nearest_take(nearest, words[i]);
    }
    for (size_t i = 0; i < MENSUR_WISH_COUNT; i++) {
        (void)mensur_nearest_take(nearest, mensur_wish_info((enum mensur_wish_kind)i)->word);
    }
    for (size_t i = 0; i < MENSUR_NEAR_COUNT; i++) {
        (void)mensur_nearest_take(nearest, near[i].word);
    }
    struct mensur_figures all = mensur_figures(MENSUR_SCOPE_INSTRUMENT);
    for (size_t i = 0; i < all.count; i++) {
        (void)mensur_nearest_take(nearest, all.items[i].key);
    }
}

static bool is_letter_alike(char one, char other) {
    one = one >= 'A' && one <= 'Z' ? (char)(one - 'A' + 'a') : one;
    other = other >= 'A' && other <= 'Z' ? (char)(other - 'A' + 'a') : other;
    return one == other;
}

/* Finds a column of the owner's: by its head, letters alike in capitals or not; a head that is also
 * a figure's is asked for with own_ before it, as CSV writes it. */
static enum mensur_status find_head(const struct mensur_texts *heads, struct mensur_fault *fault,
                                    struct mensur_sought_column *column) {
    for (size_t pass = 0; pass < 2; pass++) {
        const char *name = column->name + (pass == 0 ? 0 : 4);
        size_t length = column->name_length - (pass == 0 ? 0 : 4);
        if (pass == 1 && (column->name_length < 5 || strncmp(column->name, "own_", 4) != 0)) {
            break;
        }
        for (size_t i = 0; i < heads->count; i++) {
            size_t same = 0;
            while (same < length && is_letter_alike(heads->items[i][same], name[same])) {
                same++;
            }
            if (same == length && heads->items[i][same] == '\0') {
                column->place = i;
                return MENSUR_OK;
            }
        }
    }
    char name[NAME_SHOWN + 1] = "";
    strncat(name, column->name,
            column->name_length < NAME_SHOWN ? column->name_length : NAME_SHOWN);
    struct mensur_nearest nearest = mensur_nearest_start(name, FARTHEST);
    suggest(&nearest, heads);
    if (nearest.name != NULL) {
        mensur_fault_set(fault, "there is no column or figure \"%s\"; did you mean \"%s\"?", name,
                         nearest.name);
    } else {
        mensur_fault_set(fault,
                         "there is no column or figure \"%s\"; mensur lengths --format csv shows "
                         "them all",
                         name);
    }
    return MENSUR_USE;
}

static void keep_figure(const struct mensur_sought_column *column, struct mensur_sought *sought) {
    bool there = column->kind != MENSUR_SOUGHT_FIGURE;
    for (size_t i = 0; i < sought->figure_count && !there; i++) {
        there = sought->figures[i].figure == column->figure;
        sought->figures[i].told |= there;
    }
    if (!there) {
        sought->figures[sought->figure_count] = *column;
        sought->figures[sought->figure_count++].told = true;
    }
    sought->strings |=
        column->kind == MENSUR_SOUGHT_TENSION ||
        (column->kind == MENSUR_SOUGHT_FIGURE && column->scope == MENSUR_SCOPE_TOTAL);
}

static void take_liked(const struct mensur_instrument *like, const struct mensur_profile *liked,
                       struct mensur_sought *sought) {
    bool family = false;
    sought->has_like = true;
    sought->strings = true;
    sought->like = like->name;
    sought->like_line = like->line;
    for (size_t i = 0; i < MENSUR_NEAR_COUNT; i++) {
        const void *record = near[i].scope == MENSUR_SCOPE_TOTAL ? (const void *)liked
                                                                 : (const void *)&liked->lengths;
        sought->figures[i].told = true;
        sought->liked[i] = mensur_figure_value(sought->figures[i].figure, record);
    }
    for (size_t i = 0; i < liked->string_count; i++) {
        sought->liked_tension[i] = liked->strings[i].tension;
        memcpy(sought->liked_note[i], liked->strings[i].note, sizeof sought->liked_note[i]);
    }
    sought->liked_strings = liked->string_count;
    sought->liked_family = liked->family;
    sought->liked_air = liked->air;
    for (size_t i = 0; i < sought->count; i++) {
        const struct mensur_sought_column *column = &sought->lines[i].column;
        family |= column->kind == MENSUR_SOUGHT_WORD && column->place == 1;
    }
    if (!family && like->family != NULL) {
        sought->lines[sought->count++] =
            (struct mensur_sought_line){.column = column_of(words[1], strlen(words[1])),
                                        .low = NAN,
                                        .high = NAN,
                                        .text = like->family,
                                        .implied = true};
    }
}

enum mensur_status mensur_sought_ready(const struct mensur_texts *heads,
                                       const struct mensur_instrument *like,
                                       const struct mensur_profile *liked,
                                       struct mensur_fault *fault, struct mensur_sought *sought) {
    for (size_t i = 0; i <= sought->count; i++) {
        struct mensur_sought_column *column =
            i < sought->count ? &sought->lines[i].column : &sought->sort;
        if (column->kind == MENSUR_SOUGHT_OWNER) {
            enum mensur_status status = find_head(heads, fault, column);
            if (status != MENSUR_OK) {
                return status;
            }
        }
        if (i < sought->count && sought->lines[i].percent && like == NULL) {
            mensur_fault_set(fault, "a tension in percent is one of --like NAME");
            return MENSUR_USE;
        }
        keep_figure(column, sought);
    }
    if (sought->sort.kind == MENSUR_SOUGHT_DISTANCE && like == NULL) {
        mensur_fault_set(fault, "the distance is that from --like NAME");
        return MENSUR_USE;
    }
    if (like != NULL) {
        take_liked(like, liked, sought);
    }
    return MENSUR_OK;
}
