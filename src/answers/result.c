/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Frees what answers own, and says where memory ran out. */
#include "result_use.h"

#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "proposals.h"

void mensur_profile_begin(struct mensur_profile *profile) {
#define BETWEEN(first, last)                                                                       \
    memset((char *)profile + offsetof(struct mensur_profile, first), 0,                            \
           offsetof(struct mensur_profile, last) - offsetof(struct mensur_profile, first))
    BETWEEN(instrument, lengths);
    profile->side.known = false;
    profile->side.crossing_count = 0;
    profile->measure_count = 0;
    profile->string_count = 0;
    BETWEEN(total_tension, places);
    profile->position_count = 0;
    BETWEEN(true_place_count, assumed.items);
    BETWEEN(warnings, spread);
    profile->spread = NULL;
#undef BETWEEN
}

void mensur_profile_clear(struct mensur_profile *profile) {
    free(profile->instrument);
    free(profile->true_places);
    free(profile->spread);
    proposals_clear(profile);
    mensur_facts_clear(&profile->warnings);
    mensur_facts_clear(&profile->remarks);
    /* To wipe all its figures takes a good part of the time that they took. */
    profile->instrument = NULL;
    profile->family = profile->set = profile->held = NULL;
    profile->true_places = NULL;
    profile->spread = NULL;
    profile->string_count = profile->place_count = profile->position_count = 0;
    profile->true_place_count = profile->assumed.count = 0;
}

void mensur_profile_move(const struct mensur_profile *from, struct mensur_profile *to) {
#define MOVE_BETWEEN(first, last)                                                                  \
    memcpy((char *)to + offsetof(struct mensur_profile, first),                                    \
           (const char *)from + offsetof(struct mensur_profile, first),                            \
           offsetof(struct mensur_profile, last) - offsetof(struct mensur_profile, first))
#define MOVE_ITEMS(list, in_use)                                                                   \
    if ((in_use) > 0) {                                                                            \
        memcpy((to)->list, (from)->list, (in_use) * sizeof((from)->list[0]));                      \
    }
    MOVE_BETWEEN(instrument, side);
    if (from->measure_count > 0) {
        to->side = from->side;
    } else { /* figures alone, or a row of many: it was not looked for */
        to->side.known = false;
        to->side.crossing_count = 0;
    }
    to->measure_count = from->measure_count;
    MOVE_ITEMS(measures, from->measure_count);
    MOVE_BETWEEN(air, strings);
    MOVE_ITEMS(strings, from->string_count);
    MOVE_BETWEEN(total_tension, places);
    MOVE_ITEMS(places, from->place_count);
    to->position_count = from->position_count;
    MOVE_ITEMS(positions, from->position_count);
    MOVE_BETWEEN(true_place_count, assumed.items);
    MOVE_ITEMS(assumed.items, from->assumed.count);
    MOVE_BETWEEN(warnings, spread);
    to->spread = from->spread;
#undef MOVE_ITEMS
#undef MOVE_BETWEEN
}

const struct mensur_measure *mensur_measure_named(const struct mensur_profile *profile,
                                                  const char *field) {
    for (size_t i = 0; i < profile->measure_count; i++) {
        if (strcmp(profile->measures[i].field, field) == 0) {
            return &profile->measures[i];
        }
    }
    return NULL;
}

static void clear_profiles(struct mensur_profile *profiles, size_t count) {
    for (size_t i = 0; profiles != NULL && i < count; i++) {
        mensur_profile_clear(&profiles[i]);
    }
    free(profiles);
}

void mensur_comparison_clear(struct mensur_comparison *comparison) {
    clear_profiles(comparison->instruments, comparison->count);
    clear_profiles(comparison->differences, comparison->count == 0 ? 0 : comparison->count - 1);
    mensur_facts_clear(&comparison->remarks);
    memset(comparison, 0, sizeof *comparison);
}

void mensur_decision_clear(struct mensur_decision *decision) {
    mensur_profile_clear(&decision->present);
    mensur_profile_clear(&decision->before);
    mensur_profile_clear(&decision->recommended);
    mensur_profile_clear(&decision->like);
    free(decision->wants);
    mensur_facts_clear(&decision->reason);
    mensur_facts_clear(&decision->how_sure);
    free(decision->steps);
    mensur_facts_clear(&decision->changes);
    memset(decision, 0, sizeof *decision);
}

static void clear_choice(struct mensur_choice *choice) {
    for (size_t i = 0; i < MENSUR_RESULT_STRINGS; i++) {
        mensur_facts_clear(&choice->why[i]);
    }
}

void mensur_restringing_clear(struct mensur_restringing *restringing) {
    mensur_profile_clear(&restringing->present);
    for (size_t i = 0; restringing->choices != NULL && i < restringing->choice_count; i++) {
        clear_choice(&restringing->choices[i]);
    }
    free(restringing->choices);
    for (size_t i = 0; restringing->sets != NULL && i < restringing->set_count; i++) {
        mensur_facts_clear(&restringing->sets[i].misses);
    }
    free(restringing->sets);
    free(restringing->spread);
    mensur_facts_clear(&restringing->misses);
    mensur_facts_clear(&restringing->how_sure);
    mensur_facts_clear(&restringing->reason);
    mensur_facts_clear(&restringing->excluded);
    mensur_texts_clear(&restringing->packet_names);
    memset(restringing, 0, sizeof *restringing);
}

void mensur_map_clear(struct mensur_map *map) {
    for (size_t i = 0; map->points != NULL && i < map->point_count; i++) {
        free(map->points[i].name);
    }
    free(map->points);
    free(map->bands);
    free(map->lines);
    free(map->instrument);
    free(map->family);
    mensur_facts_clear(&map->warnings);
    mensur_facts_clear(&map->remarks);
    memset(map, 0, sizeof *map);
}

void mensur_reaching_clear(struct mensur_reaching *reaching) {
    free(reaching->player);
    for (size_t i = 0; reaching->instruments != NULL && i < reaching->count; i++) {
        free(reaching->instruments[i].instrument);
        mensur_facts_clear(&reaching->instruments[i].warnings);
    }
    free(reaching->instruments);
    free(reaching->sizes);
    mensur_facts_clear(&reaching->warnings);
    mensur_facts_clear(&reaching->remarks);
    mensur_facts_clear(&reaching->basis);
    memset(reaching, 0, sizeof *reaching);
}

enum mensur_status tell_memory(enum mensur_status status, struct mensur_fault *fault) {
    if (status == MENSUR_MEMORY) {
        mensur_fault_set(fault, "%s", mensur_status_text(status));
    }
    return status;
}

bool mensur_of_two_families(const struct mensur_profile *first,
                            const struct mensur_profile *other) {
    return first->family != NULL && other->family != NULL &&
           strcmp(first->family, other->family) != 0;
}
