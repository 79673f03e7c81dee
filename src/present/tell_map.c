/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plane of stop and neck without its drawing: how a neck makes up for a stop; the points. */
#include <math.h>

#include "telling.h"

/* A brief answer tells so many points. */
#define POINTS_MAX 12

static const struct mensur_told point_figures[] = {
    {"stop_mm", 8, NULL, NULL, false},
    {"neck_mm", 8, NULL, NULL, false},
    {"string_length_mm", 9, "string", NULL, false},
    {"body_mm", 8, NULL, NULL, false},
};
enum { POINT_FIGURES = sizeof(point_figures) / sizeof(point_figures[0]) };

static size_t met(const struct mensur_map *map) {
    size_t count = 0;
    for (size_t i = 0; i < map->point_count; i++) {
        count += map->points[i].meets_all == MENSUR_YES;
    }
    return count;
}

static void tell_verdict(struct mensur_document *document, const struct mensur_map *map) {
    mensur_paragraph(document, 0, "%s on the plane of stop and neck, about %n",
                     mensur_told_count(map->point_count, "instrument", "instruments").text,
                     map->instrument);
    if (map->band_count > 0) {
        mensur_say(document, "; %z meet%s %s", met(map), met(map) == 1 ? "s" : "",
                   map->band_count == 1 ? "the wish" : "every wish");
    }
    mensur_say(document, ".");
    if (!isnan(map->neck_per_stop)) {
        mensur_paragraph(document, 0,
                         "To keep the string as long as it is on %n, every 10 mm more of stop take "
                         "%s mm %s the neck.",
                         map->instrument,
                         mensur_show_number(10.0 * fabs(map->neck_per_stop), 1, 6).text,
                         map->neck_per_stop < 0.0 ? "off" : "on to");
    }
    mensur_points(document, &map->remarks);
}

static void tell_points(struct mensur_document *document, const struct mensur_map *map) {
    bool brief = document->narrow && !document->style.full;
    size_t shown = brief && map->point_count > POINTS_MAX ? POINTS_MAX : map->point_count;
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "Stop and neck of each");
    mensur_column_of(document, MENSUR_CELLS_NAMES, "instrument", NULL, 22);
    mensur_tell_columns(document, MENSUR_SCOPE_INSTRUMENT, point_figures, POINT_FIGURES);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "neck:stop", NULL, 12);
    if (map->band_count > 0) {
        mensur_column_behind(document, MENSUR_CELLS_WORDS, "wishes", 2, 12);
    }
    for (size_t i = 0; i < shown; i++) {
        const struct mensur_map_point *point = &map->points[i];
        mensur_row(document);
        mensur_cell(document, point->name);
        mensur_cells_of(document, POINT_FIGURES, &point->lengths);
        mensur_cell(document,
                    mensur_show_ratio(&document->style, point->lengths.stop_per_2_neck).text);
        if (map->band_count > 0) {
            mensur_cell(document, point->meets_all == MENSUR_YES  ? "met"
                                  : point->meets_all == MENSUR_NO ? "not met"
                                                                  : "?");
        }
    }
    if (shown < map->point_count) {
        mensur_paragraph(document, 0, "And %z more%s.", map->point_count - shown,
                         mensur_style_names_options(&document->style) ? "; --full tells them all"
                                                                      : "");
    }
}

static void tell_left_out(struct mensur_document *document, const struct mensur_map *map) {
    const struct {
        size_t count;
        const char *why;
    } left[] = {{map->beyond, "farther away than the map reaches"},
                {map->crowded, "where another stands already"},
                {map->others, "of other families"},
                {map->unplaced, "without a stop or a neck"}};
    bool any = false;
    for (size_t i = 0; i < sizeof left / sizeof left[0]; i++) {
        if (left[i].count > 0) {
            if (!any) {
                mensur_paragraph(document, 0, "Not on it: ");
            }
            mensur_say(document, "%s%z %s", any ? ", " : "", left[i].count, left[i].why);
            any = true;
        }
    }
    if (any) {
        mensur_say(document, ".");
    }
}

static void tell(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_map *map = record;
    struct mensur_document *document = &presenter->document;
    presenter->document.style.neck_base = mensur_shown_neck_base(map->held);
    telling_gather(presenter, map->instrument, &map->assumed, MENSUR_VIEW_BEHIND_LENGTHS,
                   &map->warnings);
    tell_verdict(document, map);
    tell_points(document, map);
    tell_left_out(document, map);
}

static void map_row(struct mensur_csv *row, const void *answer, size_t i) {
    static const struct mensur_map_point none;
    const struct mensur_map *map = answer;
    const struct mensur_map_point *point = row->head ? &none : &map->points[i];
    mensur_csv_text(row, "instrument", point->name);
    mensur_csv_figures(row, MENSUR_SCOPE_INSTRUMENT, &point->lengths, false);
    mensur_csv_known(row, "meets_all", point->meets_all);
    mensur_csv_known(row, "asked", point->asked ? MENSUR_YES : MENSUR_NO);
    mensur_csv_known(row, "changed", point->changed ? MENSUR_YES : MENSUR_NO);
}

static void csv(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_map *map = record;
    mensur_csv_rows(presenter, map_row, map, map->point_count);
}

static void json(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_map *map = record;
    for (size_t i = 0; i < map->point_count; i++) {
        const struct mensur_map_point *point = &map->points[i];
        struct mensur_json answer = json_begin_answer(presenter);
        struct mensur_texts warnings = {0};
        mensur_json_text(&answer, "instrument", point->name);
        json_put_figures(&answer, MENSUR_SCOPE_INSTRUMENT, &point->lengths, false);
        json_put_known(&answer, "meets_all", point->meets_all);
        mensur_json_bool(&answer, "asked", point->asked);
        mensur_json_bool(&answer, "changed", point->changed);
        json_put_assumed(&answer, &map->assumed);
        json_add_sentences(&answer, &map->warnings, &warnings);
        json_put_warnings(&answer, &warnings);
        json_end_part(presenter, &answer, i, map->point_count);
    }
}

static void clear(void *record) {
    mensur_map_clear(record);
}

static void drawing(const void *record, struct mensur_illustration *drawing) {
    *drawing = (struct mensur_illustration){.map = record};
}

const struct mensur_answer_kind mensur_map_answer = {
    .size = sizeof(struct mensur_map),
    .clear = clear,
    .sources = mensur_sources_whole,
    .drawing = drawing,
    .tell = tell,
    .csv = csv,
    .json = json,
};
