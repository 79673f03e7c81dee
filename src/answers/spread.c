/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the figures of one instrument's profile are, and those of an instrument as changed. */
#include "spread.h"

#include "change.h"
#include "profile.h"
#include "spread_record.h"
#include "stock_index.h"

/* One for each. */
enum { CHANGES_MAX = MENSUR_FIELD_COUNT + MENSUR_CHANGE_COUNT };

struct changes {
    size_t count;
    struct mensur_change items[CHANGES_MAX];
};

/* Keeps the changes, of those to the same thing the last. A value that was set has a ± of its own;
 * one that was moved keeps that of what it was. */
static void add_changes(struct record *record, const struct mensur_change *changes, size_t count,
                        struct changes *kept) {
    const struct mensur_change *last[CHANGES_MAX] = {NULL};
    for (size_t i = 0; i < count; i++) {
        last[changes[i].of == MENSUR_CHANGE_MEASURE ? (int)changes[i].field
                                                    : MENSUR_FIELD_COUNT + (int)changes[i].of] =
            &changes[i];
    }
    for (int i = 0; i < CHANGES_MAX; i++) {
        if (last[i] == NULL) {
            continue;
        }
        struct mensur_change *change = &kept->items[kept->count++];
        *change = *last[i];
        if (i < MENSUR_FIELD_COUNT) {
            record_add(
                record, &change->value,
                (struct input){.field = mensur_field_info(change->field)->name, .of = OF(OTHER)});
        }
    }
}

/* Two of those that evaluate a record; these fill in nothing more.
 * NOLINTBEGIN(readability-non-const-parameter) */
static void profile_again(struct record *record, const struct mensur_profile **profiles,
                          double *more) {
    struct setup setup;
    (void)more;
    profiles[PRESENT] =
        record_set_up(record, &record->instruments[0].instrument, NULL, PRESENT, &setup);
}

/* The instrument with its strings, and with those that are given. */
static void restring_again(struct record *record, const struct mensur_profile **profiles,
                           double *more) {
    struct setup setup;
    (void)more;
    profiles[PRESENT] =
        record_set_up(record, &record->instruments[0].instrument, NULL, PRESENT, &setup);
    if (profiles[PRESENT] != NULL) {
        profiles[OTHER] = record_figures(record, &setup, OTHER);
    }
}

/* The changes made again. */
static void change_again(struct record *record, const struct mensur_profile **profiles,
                         double *more) {
    const struct changes *changes = record->context;
    struct mensur_instrument changed;
    struct setup before, after;
    (void)more;
    profiles[PRESENT] =
        record_set_up(record, &record->instruments[0].instrument, NULL, PRESENT, &before);
    if (profiles[PRESENT] == NULL) {
        return;
    }
    enum mensur_status status =
        change_apply(&record->stock, &before, changes->items, changes->count, NULL, &changed);
    if (status != MENSUR_OK) {
        record->failed = status == MENSUR_MEMORY ? status : record->failed;
        return;
    }
    profiles[OTHER] = record_set_up(record, &changed, &before, OTHER, &after);
    mensur_instrument_clear(&changed);
}
/* NOLINTEND(readability-non-const-parameter) */

/* Whether anything that a profile follows from says how sure it is; seldom anything does, and to
 * move all of it takes longer than the answer itself. */
static bool says_how_sure(const struct mensur_stock *stock, const struct setup *setup,
                          const struct strung *strung, size_t count) {
    if (setup->unsure || count == 0) {
        return setup->unsure;
    }
    for (size_t i = mensur_stock_place(stock, MENSUR_NAMED_SETS, strung->set);
         i < stock->string_count; i = mensur_stock_next_of_set(stock, i)) {
        if (record_unsure(&stock->strings[i])) {
            return true;
        }
    }
    return false;
}

enum mensur_status spread_profile(const struct mensur_stock *stock, const struct setup *setup,
                                  const struct mensur_terms *terms, unsigned parts,
                                  struct mensur_profile *profile) {
    const struct strung strung = {
        .set = setup->instrument->set, .tuning = setup->tuning, .of = OF(PRESENT)};
    const size_t strung_count = (parts & MENSUR_PART_STRINGS) != 0 ? 1 : 0;
    if (terms->without_spread || (parts & MENSUR_PART_RANKED) != 0 ||
        !says_how_sure(stock, setup, &strung, strung_count)) {
        return MENSUR_OK;
    }
    struct record *record = record_make(stock, setup, terms, parts);
    if (record == NULL) {
        return MENSUR_MEMORY;
    }
    record->evaluate = profile_again;
    record->profiles[PRESENT] = profile;
    enum mensur_status status = record_complete(record, &strung, strung_count);
    if (status == MENSUR_OK) {
        status = record_propagate(record, NULL, NULL);
    }
    record_free(record);
    return status;
}

static bool asks_for_lengths_alone(unsigned parts) {
    const unsigned others = MENSUR_PART_STRINGS | MENSUR_PART_FINGERS | MENSUR_PART_TRUE_PLACES;
    return (parts & MENSUR_PART_FIGURES_ALONE) != 0 && (parts & others) == 0;
}

enum mensur_status mensur_ask_profile_with(struct mensur_solver *solver,
                                           const struct mensur_stock *stock,
                                           const struct mensur_instrument *instrument,
                                           const struct mensur_terms *terms, unsigned parts,
                                           struct mensur_fault *fault, struct mensur_profile *out) {
    struct setup setup;
    struct mensur_profile made;
    enum mensur_status status =
        asks_for_lengths_alone(parts)
            ? setup_make_lengths(solver, stock, instrument, terms->hold, fault, &setup)
            : setup_make(solver, stock, instrument, NULL, terms->hold, fault, &setup);
    if (status == MENSUR_OK) {
        status = profile_make(stock, &setup, terms, parts, fault, &made);
    }
    if (status != MENSUR_OK) {
        return status;
    }
    status = spread_profile(stock, &setup, terms, parts, &made);
    if (status == MENSUR_OK) {
        mensur_profile_move(&made, out);
    } else {
        mensur_profile_clear(&made);
    }
    return tell_memory(status, fault);
}

enum mensur_status mensur_ask_profile(const struct mensur_stock *stock,
                                      const struct mensur_instrument *instrument,
                                      const struct mensur_terms *terms, unsigned parts,
                                      struct mensur_fault *fault, struct mensur_profile *out) {
    struct mensur_solver *solver = NULL;
    enum mensur_status status = mensur_solver_make(&solver);
    status = status == MENSUR_OK
                 ? mensur_ask_profile_with(solver, stock, instrument, terms, parts, fault, out)
                 : tell_memory(status, fault);
    mensur_solver_free(solver);
    return status;
}

enum mensur_status spread_restring(const struct mensur_stock *stock, const struct setup *setup,
                                   const struct mensur_terms *terms,
                                   const struct mensur_string_spec *const *strings,
                                   struct mensur_profile *present, struct mensur_profile *strung) {
    const struct strung on[] = {
        record_strung(stock, setup->instrument, NULL, OF(PRESENT)),
        {.tuning = setup->tuning, .given = strings, .of = OF(OTHER)},
    };
    bool sure = !says_how_sure(stock, setup, on, 1);
    for (size_t i = 0; i < setup->tuning->count; i++) {
        sure = sure && !record_unsure(strings[i]);
    }
    if (terms->without_spread || sure) {
        return MENSUR_OK;
    }
    struct record *record =
        record_make(stock, setup, terms, MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS);
    if (record == NULL) {
        return MENSUR_MEMORY;
    }
    record->evaluate = restring_again;
    record->profiles[PRESENT] = present;
    record->profiles[OTHER] = strung;
    enum mensur_status status = record_complete(record, on, 2);
    if (status == MENSUR_OK) {
        status = record_propagate(record, NULL, NULL);
    }
    record_free(record);
    return status;
}

enum mensur_status spread_change(const struct mensur_stock *stock, const struct setup *before,
                                 const struct mensur_instrument *changed,
                                 const struct mensur_change *changes, size_t count,
                                 const struct mensur_terms *terms,
                                 struct mensur_profile *profiles) {
    const struct strung strung[] = {record_strung(stock, before->instrument, NULL, OF(PRESENT)),
                                    record_strung(stock, changed, NULL, OF(OTHER))};
    struct changes kept = {.count = 0};
    if (terms->without_spread) {
        return MENSUR_OK;
    }
    struct record *record = record_make(stock, before, terms, MENSUR_PART_ALL);
    if (record == NULL) {
        return MENSUR_MEMORY;
    }
    record->evaluate = change_again;
    record->context = &kept;
    record->profiles[PRESENT] = &profiles[0];
    record->profiles[OTHER] = &profiles[1];
    add_changes(record, changes, count, &kept);
    enum mensur_status status = record_complete(record, strung, 2);
    if (status == MENSUR_OK) {
        status = record_propagate(record, NULL, NULL);
    }
    record_free(record);
    return status;
}
