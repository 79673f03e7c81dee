/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "view.h"

#include "sources.h"

static const char *const string_length[] = {"string_length_mm", NULL};

enum { DATA = MENSUR_VIEW_CSV | MENSUR_VIEW_JSON };

const struct mensur_view mensur_view_lengths = {
    .parts = MENSUR_PART_LENGTHS,
    .behind = MENSUR_VIEW_BEHIND_LENGTHS,
    .sources = mensur_sources_lengths,
    .told = {{DATA, MENSUR_SCOPE_INSTRUMENT, NULL, NULL}}};

const struct mensur_view mensur_view_tension = {
    .parts = MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS,
    .behind = MENSUR_VIEW_BEHIND_STRINGS,
    .sources = mensur_sources_tension,
    .told = {{DATA, MENSUR_SCOPE_INSTRUMENT, NULL, string_length},
             {DATA, MENSUR_SCOPE_STRING, "strings", NULL},
             {MENSUR_VIEW_JSON, MENSUR_SCOPE_TOTAL, NULL, NULL}}};

const struct mensur_view mensur_view_fingers = {
    .parts = MENSUR_PART_LENGTHS | MENSUR_PART_FINGERS,
    .behind = MENSUR_BEHIND_LENGTH,
    .sources = mensur_sources_fingers,
    .remarks = true,
    .told = {
        {DATA, MENSUR_SCOPE_INSTRUMENT, NULL, string_length},
        {DATA, MENSUR_SCOPE_HAND, NULL, NULL},
        {MENSUR_VIEW_JSON, MENSUR_SCOPE_FRETS, NULL, NULL},
        {DATA, MENSUR_SCOPE_PLACE, "places", NULL},
        {MENSUR_VIEW_CSV, MENSUR_SCOPE_FRETS, NULL, NULL},
        {MENSUR_VIEW_JSON, MENSUR_SCOPE_POSITION, "positions", NULL},
        {MENSUR_VIEW_JSON | MENSUR_VIEW_CSV_TRUE, MENSUR_SCOPE_TRUE_PLACE, "true_places", NULL}}};

struct mensur_records mensur_records_of(const struct mensur_profile *profile,
                                        enum mensur_scope scope) {
#define LIST(list, count) ((struct mensur_records){(list), (count), sizeof *(list)})
    switch (scope) {
    case MENSUR_SCOPE_INSTRUMENT:
        return LIST(&profile->lengths, 1);
    case MENSUR_SCOPE_STRING:
        return LIST(profile->strings, profile->string_count);
    case MENSUR_SCOPE_PLACE:
        return LIST(profile->places, profile->place_count);
    case MENSUR_SCOPE_POSITION:
        return LIST(profile->positions, profile->position_count);
    case MENSUR_SCOPE_TRUE_PLACE:
        return LIST(profile->true_places, profile->true_place_count);
    default:
        return LIST(profile, 1);
    }
#undef LIST
}
