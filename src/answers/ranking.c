/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ranking.h"

#include "body_air.h"

#include <stdlib.h>
#include <string.h>

#include "ask.h"
#include "instrument.h"
#include "number.h"

/* Rows beside the first ones, before those behind them are thrown away. */
enum { SPARE_ROWS = 1024 };

unsigned mensur_ranking_parts(const struct mensur_sought *sought) {
    return MENSUR_PART_LENGTHS | MENSUR_PART_FIGURES_ALONE | MENSUR_PART_RANKED |
           (sought->strings ? (unsigned)MENSUR_PART_STRINGS : 0U);
}

static char small(char letter) {
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

/* Capitals of ASCII are as small letters; other letters are themselves. */
static int compare_texts(const char *one, const char *other) {
    while (*one != '\0' && small(*one) == small(*other)) {
        one++;
        other++;
    }
    return (unsigned char)small(*one) - (unsigned char)small(*other);
}

static double value_of(const struct mensur_sought_column *column,
                       const struct mensur_profile *profile) {
    const void *record = column->scope == MENSUR_SCOPE_TOTAL ? (const void *)profile
                                                             : (const void *)&profile->lengths;
    return mensur_figure_value(column->figure, record);
}

static const char *own_cell(const char *cells, size_t place) {
    for (; cells != NULL && place > 0; place--) {
        cells += strlen(cells) + 1;
    }
    return cells == NULL ? "" : cells;
}

static const char *word_of(const struct mensur_instrument *instrument, size_t place) {
    const char *const words[] = {instrument->name,
                                 instrument->family,
                                 instrument->tuning,
                                 instrument->set,
                                 instrument->built ? "yes" : "no",
                                 instrument->note};
    return words[place] == NULL ? "" : words[place];
}

static bool number_of(const char *cell, double *number) {
    size_t length = strlen(cell), used = 0;
    return length > 0 && mensur_number_read(cell, length, false, &used, number) == MENSUR_OK &&
           used == length;
}

/* By how much a value lies outside a range, in parts of the nearer end; 0 within it. */
static double outside(double low, double high, double value) {
    double by = value < low ? low - value : value > high ? value - high : 0.0;
    double end = fabs(value < low ? low : high);
    return by > 0.0 && end > 0.0 ? by / end : by;
}

static double liked_tension(const struct mensur_sought *sought, const char *note) {
    for (size_t i = 0; i < sought->liked_strings; i++) {
        if (strcmp(sought->liked_note[i], note) == 0) {
            return sought->liked_tension[i];
        }
    }
    return NAN;
}

/* By how much the tensions miss; NaN where one is not known. */
static double tensions_miss(const struct mensur_sought *sought,
                            const struct mensur_sought_line *line,
                            const struct mensur_profile *profile) {
    double miss = NAN;
    for (size_t i = 0; i < profile->string_count; i++) {
        const struct mensur_string_figures *string = &profile->strings[i];
        if (line->note[0] != '\0' && strcmp(line->note, string->note) != 0) {
            continue;
        }
        double base = line->percent ? liked_tension(sought, string->note) : 1.0;
        if (isnan(string->tension) || isnan(base)) {
            return NAN;
        }
        double by = outside(line->low, line->high, string->tension / base);
        miss = isnan(miss) ? by : miss + by;
    }
    return miss;
}

/* By how much an instrument misses a wish: 0 met; NaN where there is nothing to compare. */
static double miss_of(const struct mensur_sought *sought, const struct mensur_sought_line *line,
                      const struct mensur_instrument *instrument,
                      const struct mensur_profile *profile) {
    const struct mensur_sought_column *column = &line->column;
    double value, asked;
    if (column->kind == MENSUR_SOUGHT_FIGURE) {
        value = value_of(column, profile);
        return isnan(value) ? NAN : outside(line->low, line->high, value);
    }
    if (column->kind == MENSUR_SOUGHT_TENSION) {
        return tensions_miss(sought, line, profile);
    }
    bool own = column->kind == MENSUR_SOUGHT_OWNER; /* else a word */
    const char *cell = own ? own_cell(instrument->owners.cells, column->place)
                           : word_of(instrument, column->place);
    if (line->text == NULL) {
        return number_of(cell, &value) ? outside(line->low, line->high, value) : NAN;
    }
    if (own && number_of(cell, &value) && number_of(line->text, &asked)) {
        return value < asked || value > asked ? 1.0 : 0.0;
    }
    if (!own && column->place == 1 && strcmp(line->text, "any") == 0) {
        return 0.0;
    }
    return compare_texts(cell, line->text) == 0 ? 0.0 : *cell == '\0' ? NAN : 1.0;
}

/* sqrt(m/n * sum of ((value - liked)/step)^2) over the n of the liked one's m figures that both
 * have: the string's length at least. */
static void weigh(const struct mensur_sought *sought, struct mensur_ranked *row) {
    size_t of = 0, both = 0;
    double sum = 0.0;
    for (size_t i = 0; i < MENSUR_NEAR_COUNT; i++) {
        double step = sought->near[i] * (mensur_near_info(i)->is_part ? sought->liked[i] : 1.0);
        double by = (row->values[i] - sought->liked[i]) / step;
        of += isnan(sought->liked[i]) ? 0U : 1U;
        if (!isnan(by)) {
            both++;
            sum += by * by;
        }
    }
    row->distance = sqrt((double)of / (double)both * sum);
    row->little_known = 2 * both < of;
}

static void set_sort(const struct mensur_sought *sought, const struct mensur_profile *profile,
                     const struct mensur_instrument *instrument, struct mensur_ranked *row) {
    const struct mensur_sought_column *by = &sought->sort;
    const char *text = by->kind == MENSUR_SOUGHT_OWNER
                           ? own_cell(row->cells, by->place)
                           : word_of(instrument, by->kind == MENSUR_SOUGHT_WORD ? by->place : 0);
    row->sort_number = by->kind == MENSUR_SOUGHT_FIGURE     ? value_of(by, profile)
                       : by->kind == MENSUR_SOUGHT_DISTANCE ? row->distance
                                                            : NAN;
    bool figure = by->kind == MENSUR_SOUGHT_FIGURE || by->kind == MENSUR_SOUGHT_DISTANCE;
    if (figure ? !isnan(row->sort_number) : number_of(text, &row->sort_number)) {
        row->sort_class = 0;
    } else {
        row->sort_class = figure || *text == '\0' ? 2 : 1;
    }
    /* The texts of the instrument go; of those the name and the family are kept. */
    row->sort_text = by->kind == MENSUR_SOUGHT_OWNER ? text : row->sort_text;
}

static struct mensur_ranked *make_row(const struct mensur_sought *sought,
                                      const struct mensur_instrument *instrument,
                                      const struct mensur_profile *profile, size_t place) {
    bool by_word = sought->sort.kind == MENSUR_SOUGHT_WORD;
    const char *word = by_word ? word_of(instrument, sought->sort.place) : "";
    const char *family = instrument->family == NULL ? "" : instrument->family;
    size_t name = strlen(instrument->name) + 1, sorted = strlen(word) + 1;
    size_t kin = strlen(family) + 1, owners = instrument->owners.size;
    struct mensur_ranked *row =
        malloc(sizeof *row + sought->figure_count * sizeof(double) + name + sorted + kin + owners);
    if (row == NULL) {
        return NULL;
    }
    char *texts = (char *)row + sizeof *row + sought->figure_count * sizeof(double);
    *row = (struct mensur_ranked){.distance = NAN, .air_apart = NAN, .place = place};
    row->name = memcpy(texts, instrument->name, name);
    row->sort_text = memcpy(texts + name, word, sorted);
    row->family = memcpy(texts + name + sorted, family, kin);
    if (owners > 0) {
        row->cells = memcpy(texts + name + sorted + kin, instrument->owners.cells, owners);
    }
    for (size_t i = 0; i < sought->figure_count; i++) {
        row->values[i] = value_of(&sought->figures[i], profile);
    }
    if (sought->has_like) {
        const char *liked = sought->liked_family;
        weigh(sought, row);
        if (liked != NULL && strcmp(liked, family) == 0) {
            row->air_apart = body_air_semitones(&sought->liked_air, &profile->air);
        }
    }
    set_sort(sought, profile, instrument, row);
    return row;
}

/* Below 0: the first comes first. Ties are left in the order of the file. */
static int compare_rows(const struct mensur_ranked *one, const struct mensur_ranked *other,
                        const struct mensur_sought *sought) {
    int order = 0;
    if (sought->sort.kind != MENSUR_SOUGHT_NOTHING) {
        if (one->sort_class != other->sort_class) { /* what is not known comes last both ways */
            return one->sort_class - other->sort_class;
        }
        order = one->sort_class == 0 ? (one->sort_number > other->sort_number) -
                                           (one->sort_number < other->sort_number)
                : one->sort_class == 1 ? compare_texts(one->sort_text, other->sort_text)
                                       : 0;
        order = sought->descending ? -order : order;
    } else if (one->little_known != other->little_known) {
        order = one->little_known ? 1 : -1;
    } else {
        order = (one->distance > other->distance) - (one->distance < other->distance);
    }
    return order != 0 ? order : (one->place > other->place) - (one->place < other->place);
}

/* Sifts a row down a heap whose last row is on its top. */
static void sift(struct mensur_ranked **rows, size_t count, size_t at,
                 const struct mensur_sought *sought) {
    for (size_t child; (child = 2 * at + 1) < count; at = child) {
        child +=
            (size_t)(child + 1 < count && compare_rows(rows[child], rows[child + 1], sought) < 0);
        if (compare_rows(rows[at], rows[child], sought) >= 0) {
            return;
        }
        struct mensur_ranked *row = rows[at];
        rows[at] = rows[child];
        rows[child] = row;
    }
}

/* A heap sort: no two rows are alike, and the sought, which the comparison needs, is no global. */
void mensur_ranking_sort(const struct mensur_sought *sought, struct mensur_ranking *ranking) {
    struct mensur_ranked **rows = ranking->rows;
    for (size_t i = ranking->count / 2; i > 0; i--) {
        sift(rows, ranking->count, i - 1, sought);
    }
    for (size_t i = ranking->count; i > 1; i--) {
        struct mensur_ranked *row = rows[0];
        rows[0] = rows[i - 1];
        rows[i - 1] = row;
        sift(rows, i - 1, 0, sought);
    }
    while (sought->top > 0 && ranking->count > sought->top) {
        free(rows[--ranking->count]);
    }
}

static enum mensur_status add_row(const struct mensur_sought *sought, struct mensur_ranked *row,
                                  struct mensur_ranking *ranking) {
    if (sought->top > 0 && ranking->count >= 2 * sought->top + SPARE_ROWS) {
        mensur_ranking_sort(sought, ranking);
    }
    if (ranking->count == ranking->room) {
        size_t room = ranking->room == 0 ? 64 : 2 * ranking->room;
        /* A list of pointers is meant. NOLINTNEXTLINE(bugprone-sizeof-expression) */
        struct mensur_ranked **rows = realloc(ranking->rows, room * sizeof *rows);
        if (rows == NULL) {
            free(row);
            return MENSUR_MEMORY;
        }
        ranking->rows = rows;
        ranking->room = room;
    }
    ranking->rows[ranking->count++] = row;
    return MENSUR_OK;
}

/* Of what meets not all, that which misses fewest wishes, and those by least. */
static bool is_nearer(size_t misses, double by, const struct mensur_ranking *than) {
    return than->nearest == NULL || misses < than->nearest_misses ||
           (misses == than->nearest_misses && by < than->nearest_by);
}

enum mensur_status mensur_ranking_take(const struct mensur_sought *sought,
                                       const struct mensur_instrument *instrument,
                                       const struct mensur_profile *profile, size_t place,
                                       struct mensur_ranking *ranking) {
    bool missed[MENSUR_SOUGHT_LINES] = {false}, kin = true;
    size_t misses = 0;
    double by = 0.0;
    if (sought->like_line > 0 && instrument->line == sought->like_line) {
        return MENSUR_OK;
    }
    ranking->asked++;
    for (size_t i = 0; i < sought->count; i++) {
        double miss = miss_of(sought, &sought->lines[i], instrument, profile);
        missed[i] = isnan(miss) || miss > 0.0;
        misses += missed[i] ? 1U : 0U;
        by += isnan(miss) ? 1.0 : miss;
        ranking->excluded[i] += missed[i];
        ranking->unknown[i] += isnan(miss) ? 1U : 0U;
        kin = missed[i] && sought->lines[i].implied ? false : kin;
    }
    if (misses > 0 && (!kin || ranking->met > 0 || !is_nearer(misses, by, ranking))) {
        return MENSUR_OK;
    }
    struct mensur_ranked *row = make_row(sought, instrument, profile, place);
    if (row == NULL) {
        return MENSUR_MEMORY;
    }
    if (misses == 0) {
        ranking->met++;
        return add_row(sought, row, ranking);
    }
    free(ranking->nearest);
    ranking->nearest = row;
    ranking->nearest_misses = misses;
    ranking->nearest_by = by;
    memcpy(ranking->nearest_missed, missed, sizeof missed);
    return MENSUR_OK;
}

enum mensur_status mensur_ranking_join(const struct mensur_sought *sought,
                                       struct mensur_ranking *from, struct mensur_ranking *into) {
    enum mensur_status status = MENSUR_OK;
    into->asked += from->asked;
    into->met += from->met;
    for (size_t i = 0; i < sought->count; i++) {
        into->excluded[i] += from->excluded[i];
        into->unknown[i] += from->unknown[i];
    }
    if (from->nearest != NULL && is_nearer(from->nearest_misses, from->nearest_by, into)) {
        free(into->nearest);
        into->nearest = from->nearest;
        into->nearest_misses = from->nearest_misses;
        into->nearest_by = from->nearest_by;
        memcpy(into->nearest_missed, from->nearest_missed, sizeof into->nearest_missed);
        from->nearest = NULL;
    }
    for (size_t i = 0; i < from->count; i++) {
        if (status == MENSUR_OK) {
            status = add_row(sought, from->rows[i], into);
        } else {
            free(from->rows[i]);
        }
    }
    from->count = 0;
    return status;
}

void mensur_ranking_empty(struct mensur_ranking *ranking) {
    struct mensur_ranked **rows = ranking->rows;
    size_t room = ranking->room;
    for (size_t i = 0; i < ranking->count; i++) {
        free(rows[i]);
    }
    free(ranking->nearest);
    memset(ranking, 0, sizeof *ranking);
    ranking->rows = rows;
    ranking->room = room;
}

void mensur_ranking_clear(struct mensur_ranking *ranking) {
    mensur_ranking_empty(ranking);
    free(ranking->rows);
    ranking->rows = NULL;
    ranking->room = 0;
}
