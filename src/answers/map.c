/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "map.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "profile.h"
#include "search.h"

/* What of the plane is shown about the instruments in question, as parts of the stop and of the
 * neck of the first; and how far an instrument of the shop widens that (ours). */
static const double about_stop = 0.05;
static const double about_neck = 0.07;
static const double widened = 0.14;

/* Nearer than this two instruments are one point, m; of that a map of few takes no notice. */
static const double one_point_m = 0.00025;
enum { FEW = 60 };

struct mensur_mapping {
    const struct mensur_stock *stock;
    struct mensur_terms terms;
    struct mensur_wishes wishes;
    struct mensur_instrument instrument; /* in question; owned */
    struct mensur_solver *solver;
    struct setup setup;
    struct search search;
    struct wish_list list;
    struct mensur_profile present, like;
    struct mensur_map map;
};

static enum mensur_status begin(struct mensur_mapping *mapping, struct mensur_fault *fault) {
    const struct mensur_wishes *wishes = &mapping->wishes;
    struct setup liked;
    enum mensur_status status = setup_make(mapping->solver, mapping->stock, &mapping->instrument,
                                           NULL, mapping->terms.hold, fault, &mapping->setup);
    if (status == MENSUR_OK && !mapping->setup.has_geometry) {
        mensur_fault_set(fault,
                         "%s: its place between stop and neck needs both, and only its string "
                         "length is known; measure the stop, from the belly's upper edge to the "
                         "bridge",
                         mapping->instrument.name);
        status = MENSUR_NO_ANSWER;
    }
    if (status == MENSUR_OK) {
        status = search_make(mapping->stock, &mapping->setup, &mapping->terms, false, fault,
                             &mapping->search);
    }
    if (status == MENSUR_OK) {
        status = profile_make(mapping->stock, &mapping->setup, &mapping->terms,
                              MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, fault, &mapping->present);
    }
    if (status == MENSUR_OK && wishes->like != NULL) {
        status = setup_make(mapping->solver, mapping->stock, wishes->like, NULL,
                            mapping->terms.hold, fault, &liked);
        if (status == MENSUR_OK) {
            status = profile_make(mapping->stock, &liked, &mapping->terms,
                                  MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, fault, &mapping->like);
        }
    }
    return status == MENSUR_OK
               ? wish_list_make(&mapping->search, wishes, &mapping->present,
                                wishes->like == NULL ? NULL : &mapping->like, fault, &mapping->list)
               : status;
}

/* What the map says of the instrument in question. */
static enum mensur_status head(struct mensur_mapping *mapping) {
    struct mensur_map *map = &mapping->map;
    const struct mensur_profile *present = &mapping->present;
    enum mensur_status status =
        mensur_text_copy(present->instrument, strlen(present->instrument), &map->instrument);
    if (status == MENSUR_OK && present->family != NULL) {
        status = mensur_text_copy(present->family, strlen(present->family), &map->family);
    }
    map->held = present->held;
    map->assumed = present->assumed;
    map->warnings = mapping->present.warnings;
    mapping->present.warnings = (struct mensur_facts){.count = 0};
    return status;
}

enum mensur_status mensur_map_begin(const struct mensur_stock *stock,
                                    const struct mensur_instrument *instrument,
                                    const struct mensur_wishes *wishes,
                                    const struct mensur_terms *terms, struct mensur_fault *fault,
                                    struct mensur_mapping **out) {
    struct mensur_mapping *mapping = calloc(1, sizeof *mapping);
    if (mapping == NULL) {
        return tell_memory(MENSUR_MEMORY, fault);
    }
    mapping->stock = stock;
    mapping->terms = *terms;
    mapping->wishes = *wishes;
    if (mapping->terms.hold == MENSUR_HOLD_UNASKED) {
        mapping->terms.hold = MENSUR_HOLD_PROJECTION;
    }
    mapping->map.points = calloc(MENSUR_MAP_POINTS, sizeof *mapping->map.points);
    enum mensur_status status = mapping->map.points == NULL ? MENSUR_MEMORY : MENSUR_OK;
    if (status == MENSUR_OK) {
        status = mensur_instrument_copy(instrument, &mapping->instrument);
    }
    if (status == MENSUR_OK) {
        status = mensur_solver_make(&mapping->solver);
    }
    if (status == MENSUR_OK) {
        status = begin(mapping, fault);
    }
    if (status == MENSUR_OK) {
        status = head(mapping);
    }
    if (status != MENSUR_OK) {
        mensur_mapping_free(mapping);
        return tell_memory(status, fault);
    }
    *out = mapping;
    return MENSUR_OK;
}

void mensur_mapping_free(struct mensur_mapping *mapping) {
    if (mapping != NULL) {
        mensur_map_clear(&mapping->map);
        mensur_profile_clear(&mapping->present);
        mensur_profile_clear(&mapping->like);
        mensur_instrument_clear(&mapping->instrument);
        mensur_solver_free(mapping->solver);
        free(mapping);
    }
}

/* Whether a wish holds of an instrument as it stands; of a tension where it has a string of that
 * pitch in the same place of its tuning. */
static enum mensur_known meets(const struct mensur_mapping *mapping, const struct wish_line *line,
                               const struct search *search, const struct setup *setup) {
    bool tension = line->kind == MENSUR_WISH_TENSION;
    if (tension &&
        (line->string >= search->string_count ||
         fabs(search->frequencies[line->string] / mapping->search.frequencies[line->string] - 1.0) >
             1e-3)) {
        return MENSUR_UNSURE;
    }
    double value = search_figure_of(search, setup, line->kind, line->string);
    if (isnan(value)) {
        return MENSUR_UNSURE;
    }
    /* An open side, NaN, compares false; ends are included to the same width as a place's. */
    double close = 1e-9 * fabs(value);
    return value < line->want.low - close || value > line->want.high + close ? MENSUR_NO
                                                                             : MENSUR_YES;
}

static enum mensur_known meets_all(const struct mensur_mapping *mapping,
                                   const struct setup *setup) {
    struct search search;
    enum mensur_known all = mapping->list.count == 0 ? MENSUR_UNSURE : MENSUR_YES;
    if (mapping->list.count == 0 ||
        search_make(mapping->stock, setup, &mapping->terms, false, NULL, &search) != MENSUR_OK) {
        return MENSUR_UNSURE;
    }
    for (size_t i = 0; i < mapping->list.count && all != MENSUR_NO; i++) {
        enum mensur_known one = meets(mapping, &mapping->list.lines[i], &search, setup);
        all = one == MENSUR_YES ? all : one;
    }
    return all;
}

static bool same_family(const struct mensur_mapping *mapping,
                        const struct mensur_instrument *instrument) {
    const char *one = mapping->instrument.family, *other = instrument->family;
    return one == NULL || other == NULL ? one == other : strcmp(one, other) == 0;
}

/* Whether a point is the one that was named and comes again with the shop. */
static bool is_same(const struct mensur_map_point *point, const char *name,
                    const struct mensur_lengths *lengths) {
    return point->asked && strcmp(point->name, name) == 0 &&
           fabs(point->lengths.stop - lengths->stop) < 1e-9 &&
           fabs(point->lengths.neck - lengths->neck) < 1e-9;
}

static bool is_taken(const struct mensur_map *map, const struct mensur_lengths *lengths) {
    for (size_t i = 0; map->point_count >= FEW && i < map->point_count; i++) {
        const struct mensur_lengths *there = &map->points[i].lengths;
        if (fabs(there->stop - lengths->stop) < one_point_m &&
            fabs(there->neck - lengths->neck) < one_point_m) {
            return true;
        }
    }
    return map->point_count == MENSUR_MAP_POINTS;
}

enum mensur_status mensur_map_add(struct mensur_mapping *mapping,
                                  const struct mensur_instrument *instrument,
                                  enum mensur_map_as as) {
    struct mensur_map *map = &mapping->map;
    struct setup setup;
    struct mensur_lengths lengths;
    bool asked = as != MENSUR_MAP_OF_SHOP;
    if (!same_family(mapping, instrument) && !asked) {
        map->others++;
        return MENSUR_OK;
    }
    enum mensur_status status = setup_make(mapping->solver, mapping->stock, instrument, NULL,
                                           mapping->terms.hold, NULL, &setup);
    if (status != MENSUR_OK || !setup.has_geometry) {
        map->unplaced++;
        return MENSUR_OK;
    }
    setup_lengths(&setup, &lengths);
    for (size_t i = 0; i < map->point_count && !asked; i++) {
        if (is_same(&map->points[i], instrument->name, &lengths)) {
            return MENSUR_OK;
        }
    }
    if (is_taken(map, &lengths)) {
        map->crowded++;
        return MENSUR_OK;
    }
    struct mensur_map_point *point = &map->points[map->point_count];
    status = mensur_text_copy(instrument->name, strlen(instrument->name), &point->name);
    if (status == MENSUR_OK) {
        point->lengths = lengths;
        point->stop_plus_minus = instrument->measure[MENSUR_FIELD_STOP].plus_minus;
        point->neck_plus_minus = instrument->measure[MENSUR_FIELD_NECK].plus_minus;
        point->asked = asked;
        point->changed = as == MENSUR_MAP_CHANGED;
        point->meets_all = meets_all(mapping, &setup);
        map->point_count++;
    }
    return status;
}

/* A part of the plane. */
struct part {
    double stop_low, stop_high, neck_low, neck_high;
};

static void include(struct part *part, const struct mensur_lengths *lengths, double stop,
                    double neck) {
    part->stop_low = fmin(part->stop_low, lengths->stop - stop);
    part->stop_high = fmax(part->stop_high, lengths->stop + stop);
    part->neck_low = fmin(part->neck_low, lengths->neck - neck);
    part->neck_high = fmax(part->neck_high, lengths->neck + neck);
}

/* A square: a millimetre of stop is drawn as long as a millimetre of neck. */
static void find_edges(const struct mensur_mapping *mapping, struct mensur_map *map) {
    const struct mensur_lengths *first = &mapping->present.lengths;
    struct part part = {INFINITY, -INFINITY, INFINITY, -INFINITY};
    double stop = about_stop * first->stop, neck = about_neck * first->neck;
    include(&part, first, stop, neck);
    for (size_t i = 0; i < map->point_count; i++) {
        const struct mensur_lengths *lengths = &map->points[i].lengths;
        bool near = fabs(lengths->stop / first->stop - 1.0) < widened &&
                    fabs(lengths->neck / first->neck - 1.0) < widened;
        if (map->points[i].asked || near) {
            include(&part, lengths, stop / 4.0, neck / 4.0);
        }
    }
    double half = fmax(part.stop_high - part.stop_low, part.neck_high - part.neck_low) / 2.0;
    double stop_middle = (part.stop_low + part.stop_high) / 2.0;
    double neck_middle = (part.neck_low + part.neck_high) / 2.0;
    map->stop_low = fmax(stop_middle - half, first->stop / 10.0);
    map->stop_high = map->stop_low + 2.0 * half;
    map->neck_low = fmax(neck_middle - half, first->neck / 10.0);
    map->neck_high = map->neck_low + 2.0 * half;
}

/* Points outside the edges are counted. */
static void leave_out(struct mensur_map *map) {
    size_t kept = 0;
    for (size_t i = 0; i < map->point_count; i++) {
        struct mensur_map_point point = map->points[i];
        if (point.lengths.stop >= map->stop_low && point.lengths.stop <= map->stop_high &&
            point.lengths.neck >= map->neck_low && point.lengths.neck <= map->neck_high) {
            map->points[kept++] = point;
        } else {
            free(point.name);
            map->beyond++;
        }
    }
    map->point_count = kept;
}

/* Steps of 1, 2 or 5 times a power of ten in mm, at most so many over a range. */
static double round_step(double range, int count) {
    double least = range * 1000.0 / count;
    double power = pow(10.0, floor(log10(least)));
    double part = least / power;
    return power * (part <= 2.0 ? 2.0 : part <= 5.0 ? 5.0 : 10.0) / 1000.0;
}

static double length_at(struct mensur_mapping *mapping, double stop, double neck) {
    struct setup setup;
    return setup_move(&mapping->setup, neck, stop, mapping->terms.hold, &setup) == MENSUR_OK
               ? setup.string_length
               : NAN;
}

/* Which string lengths have a line: round ones, from corner to corner. */
static void choose_lines(struct mensur_mapping *mapping, struct mensur_map *map) {
    double low = length_at(mapping, map->stop_low, map->neck_low);
    double high = length_at(mapping, map->stop_high, map->neck_high);
    if (isnan(low) || isnan(high)) {
        return;
    }
    double step = round_step(high - low, MENSUR_MAP_LINES / 2); /* so there is room for them */
    size_t before = (size_t)ceil(low / step), last = (size_t)floor(high / step);
    for (size_t i = before; i <= last; i++) {
        map->lines[map->line_count++].string_length = (double)i * step;
    }
}

/* What stands at one stop: the necks of the lines, what each wish allows, and all of them. */
static void fill_column(struct mensur_mapping *mapping, struct mensur_map *map, size_t column) {
    struct setup setup;
    struct search search;
    struct wish_list list;
    double stop = map->stops[column];
    bool there =
        setup_move(&mapping->setup, mapping->setup.value[MENSUR_FIELD_NECK], stop,
                   mapping->terms.hold, &setup) == MENSUR_OK &&
        search_make(mapping->stock, &setup, &mapping->terms, false, NULL, &search) == MENSUR_OK &&
        wish_list_make(&search, &mapping->wishes, &mapping->present,
                       mapping->wishes.like == NULL ? NULL : &mapping->like, NULL,
                       &list) == MENSUR_OK;
    map->common_low[column] = map->common_high[column] = NAN;
    for (size_t i = 0; i < map->line_count; i++) {
        struct mensur_map_line *line = &map->lines[i];
        line->necks[column] = NAN;
        if (there) {
            (void)search_place(&search, MENSUR_WISH_STRING_LENGTH, 0, line->string_length,
                               &line->necks[column]);
        }
    }
    if (!there) {
        list.count = 0;
    } else {
        wish_list_find(&search, &list);
    }
    bool all = list.count > 0;
    for (size_t i = 0; i < map->band_count; i++) {
        const struct mensur_want *want = &list.lines[i].want;
        bool met = there && want->within_reach;
        map->bands[i].low[column] = !met                     ? NAN
                                    : isnan(want->place_low) ? search.low
                                                             : want->place_low;
        map->bands[i].high[column] = !met                      ? NAN
                                     : isnan(want->place_high) ? search.high
                                                               : want->place_high;
        all = all && met;
    }
    if (all) {
        struct ends ends = wish_list_ends(&search, &list);
        map->common_low[column] = ends.low <= ends.high ? ends.low : NAN;
        map->common_high[column] = ends.low <= ends.high ? ends.high : NAN;
    }
}

/* Along a line of one string length, from a difference of 1 mm either way. */
static double slope_of(struct mensur_mapping *mapping) {
    const struct mensur_lengths *at = &mapping->present.lengths;
    static const double step = 0.001;
    double by_stop = length_at(mapping, at->stop + step, at->neck) -
                     length_at(mapping, at->stop - step, at->neck);
    double by_neck = length_at(mapping, at->stop, at->neck + step) -
                     length_at(mapping, at->stop, at->neck - step);
    return -by_stop / by_neck;
}

/* A shorter back with the longer string: the pair with the greatest difference of its strings among
 * those named and the points about them. */
static void remark(struct mensur_map *map) {
    const struct mensur_map_point *first = NULL, *other = NULL;
    double most = 0.001; /* less than a millimetre is not remarked on */
    for (size_t i = 0; i < map->point_count; i++) {
        for (size_t j = 0; j < map->point_count && (map->points[i].asked || i == 0); j++) {
            double body = map->points[j].lengths.body - map->points[i].lengths.body;
            double string =
                map->points[j].lengths.string_length - map->points[i].lengths.string_length;
            if (fabs(body) >= 0.001 && (body < 0.0) != (string < 0.0) && fabs(string) > most) {
                most = fabs(string);
                first = &map->points[i];
                other = &map->points[j];
            }
        }
    }
    if (first != NULL) {
        mensur_facts_add(
            &map->remarks, MENSUR_FACT_BODY_AGAINST_STRING, MENSUR_NAMES(other->name, first->name),
            MENSUR_NUMBERS(other->lengths.body - first->lengths.body,
                           other->lengths.string_length - first->lengths.string_length));
    }
}

enum mensur_status mensur_map_make(struct mensur_mapping *mapping, struct mensur_map *out) {
    struct mensur_map *map = &mapping->map;
    map->bands = calloc(mapping->list.count + 1, sizeof *map->bands);
    map->lines = calloc(MENSUR_MAP_LINES, sizeof *map->lines);
    if (map->bands == NULL || map->lines == NULL) {
        return MENSUR_MEMORY;
    }
    wish_list_find(&mapping->search, &mapping->list);
    map->band_count = mapping->list.count;
    for (size_t i = 0; i < map->band_count; i++) {
        map->bands[i].want = mapping->list.lines[i].want;
    }
    find_edges(mapping, map);
    leave_out(map);
    choose_lines(mapping, map);
    for (size_t i = 0; i < MENSUR_MAP_COLUMNS; i++) {
        map->stops[i] =
            map->stop_low + (map->stop_high - map->stop_low) * (double)i / (MENSUR_MAP_COLUMNS - 1);
        fill_column(mapping, map, i);
    }
    map->neck_per_stop = slope_of(mapping);
    remark(map);
    if (map->remarks.status != MENSUR_OK) {
        return map->remarks.status;
    }
    *out = *map;
    *map = (struct mensur_map){.instrument = NULL};
    return MENSUR_OK;
}
