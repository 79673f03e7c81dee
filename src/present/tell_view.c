/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a view tells of an instrument where its question has no words of its own: what is to be said
 * of its figures, and then a table for each of its parts. */
#include <string.h>

#include "tell.h"

/* A column for each figure, as wide as its label wants. */
static void tell_part(struct mensur_document *document, const struct mensur_view_part *part,
                      const struct mensur_profile *profile) {
    const struct mensur_records records = mensur_records_of(profile, part->scope);
    size_t count = 0;
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "%n", profile->instrument);
    for (; part->keys[count] != NULL; count++) {
        const char *label = mensur_figure_named(part->scope, part->keys[count])->label;
        size_t width = strlen(label) + 2;
        const struct mensur_told told = {part->keys[count], width > 9 ? width : 9, NULL, NULL,
                                         false};
        mensur_tell_columns(document, part->scope, &told, 1);
    }
    for (size_t i = 0; i < records.count; i++) {
        mensur_row(document);
        mensur_cells_of(document, count, (const char *)records.items + i * records.size);
    }
}

/* The first sentence answers; without any the name stands there. */
static void tell_first(struct mensur_document *document, const struct mensur_profile *profile) {
    struct mensur_facts first = profile->remarks, others = profile->remarks;
    if (first.count == 0) {
        mensur_paragraph(document, 0, "%n:", profile->instrument);
        return;
    }
    first.count = 1;
    others.items++;
    others.count--;
    mensur_paragraph(document, 0, "");
    mensur_say_facts(document, &first);
    mensur_say(document, ".");
    mensur_points(document, &others);
}

void mensur_tell_view(struct mensur_document *document, const struct mensur_view *view,
                      const struct mensur_profile *profile) {
    bool strings = (view->parts & MENSUR_PART_STRINGS) != 0;
    bool fingers = (view->parts & MENSUR_PART_FINGERS) != 0;
    tell_first(document, profile);
    for (size_t i = 0; i < MENSUR_VIEW_PARTS && view->told[i].in != 0; i++) {
        if ((view->told[i].in & MENSUR_VIEW_TEXT) != 0) {
            tell_part(document, &view->told[i], profile);
        }
    }
    mensur_tell_spread(document, profile->instrument, profile->spread,
                       strings   ? MENSUR_SURE_STRINGS
                       : fingers ? MENSUR_SURE_FINGERS
                                 : MENSUR_SURE_LENGTHS);
}
