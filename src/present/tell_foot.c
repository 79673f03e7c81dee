/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands below the answers: what was assumed, once for all instruments that share it, what
 * was warned of, sources, cautions, and where it all comes from. */
#include <string.h>

#include "letters.h"
#include "tell.h"

static bool any_value(const struct mensur_gathered *gathered, unsigned names) {
    for (size_t i = 0; i < gathered->value_count; i++) {
        if (gathered->values[i].names == names) {
            return true;
        }
    }
    return false;
}

/* The values of those instruments that are scaled to the stop, or those that are not. */
static bool tell_values(struct mensur_document *document, const struct mensur_gathered *gathered,
                        unsigned names, bool scaled, const char *before) {
    bool told = false;
    for (size_t i = 0; i < gathered->value_count; i++) {
        const struct mensur_gathered_value *value = &gathered->values[i];
        if (value->names == names && value->scaled == scaled) {
            mensur_say(document, "%s%s" MENSUR_NO_BREAK "%s", told ? ", " : before,
                       mensur_told_field(value->field).text, value->shown);
            told = true;
        }
    }
    return told;
}

/* What all share first, then what fewer and fewer share. */
static void tell_apart(struct mensur_document *document, const struct mensur_gathered *gathered) {
    unsigned all = (1u << gathered->name_count) - 1;
    for (unsigned names = all; names > 0; names--) {
        const char *between = " (";
        if (!any_value(gathered, names)) {
            continue;
        }
        mensur_footnote(document, MENSUR_FOOTNOTE_ASSUMED, "Assumed, not measured");
        for (size_t i = 0; gathered->name_count > 1 && i < gathered->name_count; i++) {
            if ((names & 1u << i) != 0) {
                mensur_say(document, "%s%n", between, gathered->names[i]);
                between = ", ";
            }
        }
        mensur_say(document, gathered->name_count > 1 ? ")" : "");
        bool scaled = tell_values(document, gathered, names, true, ", scaled to this stop: ");
        (void)tell_values(document, gathered, names, false, scaled ? "; else " : ": ");
        mensur_say(document, ".");
    }
}

/* All in one paragraph: what all share first, then what fewer do, and behind it who. */
static void tell_in_brief(struct mensur_document *document,
                          const struct mensur_gathered *gathered) {
    unsigned all = (1u << gathered->name_count) - 1;
    const char *before = "";
    bool scaled = false;
    mensur_footnote(document, MENSUR_FOOTNOTE_ASSUMED, "Assumed: ");
    for (unsigned names = all; names > 0; names--) {
        const char *between = " (";
        if (!any_value(gathered, names)) {
            continue;
        }
        for (size_t i = 0; i < gathered->value_count; i++) {
            const struct mensur_gathered_value *value = &gathered->values[i];
            if (value->names == names) {
                mensur_say(document, "%s%s" MENSUR_NO_BREAK "%s", before,
                           mensur_told_field(value->field).text, value->shown);
                before = ", ";
                scaled = scaled || value->scaled;
            }
        }
        for (size_t k = 0; names != all && k < gathered->name_count; k++) {
            if ((names & 1u << k) != 0) {
                mensur_say(document, "%s%n", between, gathered->names[k]);
                between = ", ";
            }
        }
        mensur_say(document, names != all ? ")" : "");
        before = "; ";
    }
    mensur_say(document, !scaled                     ? "."
                         : gathered->name_count == 1 ? ", scaled to this stop."
                                                     : "; scaled to each stop.");
}

/* Each measurement once, with its range and for how many instruments it was assumed. */
static void tell_together(struct mensur_document *document,
                          const struct mensur_gathered *gathered) {
    mensur_footnote(document, MENSUR_FOOTNOTE_ASSUMED,
                    "Assumed where it was not measured (for how many of %z instruments): ",
                    gathered->instruments);
    bool scaled = false;
    for (size_t i = 0; i < gathered->field_count; i++) {
        const struct mensur_gathered_field *field = &gathered->fields[i];
        mensur_say(
            document, "%s%s" MENSUR_NO_BREAK "%s" MENSUR_NO_BREAK "(%z)", i > 0 ? ", " : "",
            mensur_told_field(field->field).text,
            field->several ? "by its family"
            : field->text != NULL
                ? field->text
                : mensur_show_range(&document->style, field->kind, field->low, field->high).text,
            field->count);
        scaled = scaled || field->scaled;
    }
    mensur_say(document, scaled ? "; usual values are scaled to each stop." : ".");
}

void mensur_tell_gathered(struct mensur_document *document,
                          const struct mensur_gathered *gathered) {
    bool few = gathered->instruments <= MENSUR_GATHERED_NAMES;
    if (gathered->field_count > 0 && few && !document->style.full) {
        tell_in_brief(document, gathered);
    } else if (gathered->field_count > 0 && few) {
        tell_apart(document, gathered);
    } else if (gathered->field_count > 0) {
        tell_together(document, gathered);
    }
    mensur_tell_warnings(document, gathered);
}

void mensur_tell_warnings(struct mensur_document *document,
                          const struct mensur_gathered *gathered) {
    for (size_t i = 0; i < gathered->warnings.count; i++) {
        mensur_footnote(document, MENSUR_FOOTNOTE_WARNING, "%s", gathered->warnings.items[i]);
    }
    if (gathered->warnings_left_out > 0) {
        mensur_footnote(
            document, MENSUR_FOOTNOTE_WARNINGS_LEFT, "And %z warnings more%s.",
            gathered->warnings_left_out,
            mensur_style_names_options(&document->style) ? "; --format json has them all" : "");
    }
}

static bool is_of_pitches(const char *habit) {
    return strcmp(habit, "a4") == 0 || strcmp(habit, "fifths") == 0 || strcmp(habit, "steps") == 0;
}

/* What the shop's settings gave, where that is not what the program does by itself. */
static void tell_habits(struct mensur_document *document, const struct mensur_heading *heading,
                        bool pitches) {
    bool any = false;
    for (size_t i = 0; i < heading->habit_count; i++) {
        const struct mensur_habit *habit = &heading->habits[i];
        if (pitches || !is_of_pitches(habit->name)) {
            mensur_say(document, "%s%s" MENSUR_NO_BREAK "%n",
                       any ? ", " : " By its settings: ", habit->name, habit->value);
            any = true;
        }
    }
    mensur_say(document, any ? "." : "");
}

/* Of a check, so that a column which was meant to be read is seen. */
static void tell_owners(struct mensur_document *document, const struct mensur_texts *owners) {
    for (size_t i = 0; i < owners->count; i++) {
        mensur_say(document, "%s%n",
                   i > 0 ? ", " : "Columns of your own, carried along: ", owners->items[i]);
    }
    mensur_say(document, owners->count > 0 ? ". " : "");
}

/* The same in a line. */
static void tell_origin_in_brief(struct mensur_document *document,
                                 const struct mensur_heading *heading, bool pitches) {
    bool check = strcmp(heading->command, "check") == 0;
    mensur_footnote(document, MENSUR_FOOTNOTE_ORIGIN, "");
    if (check && heading->owners != NULL) {
        tell_owners(document, heading->owners);
    }
    if (strcmp(heading->shop, "demonstration") == 0) {
        mensur_say(document, "From the demonstration shop");
    } else {
        mensur_say(document, "From the shop %n", heading->shop);
    }
    if (pitches) {
        mensur_say(document, ", A4 %b" MENSUR_NO_BREAK "Hz, %s fifths, %s steps", heading->a4,
                   heading->fifths, heading->steps);
    }
    mensur_say(document, ".");
    tell_habits(document, heading, pitches);
    mensur_say(document, document->narrow && !check ? " More: --full." : "");
}

/* Which shop, and on what terms the pitches are taken where there are any. */
static void tell_origin(struct mensur_document *document, const struct mensur_heading *heading) {
    bool pitches = strcmp(heading->command, "lengths") != 0 &&
                   strcmp(heading->command, "check") != 0 &&
                   strcmp(heading->command, "reach") != 0 && strcmp(heading->command, "find") != 0;
    if (!document->style.full) {
        tell_origin_in_brief(document, heading, pitches);
        return;
    }
    mensur_footnote(document, MENSUR_FOOTNOTE_ORIGIN, "");
    if (strcmp(heading->command, "check") == 0 && heading->owners != NULL) {
        tell_owners(document, heading->owners);
    }
    if (pitches) {
        mensur_say(document,
                   "A4 is %b" MENSUR_NO_BREAK
                   "Hz, open strings in %s fifths, stopped notes in %s steps. ",
                   heading->a4, heading->fifths, heading->steps);
    }
    if (strcmp(heading->shop, "demonstration") == 0) {
        mensur_say(document, "From the demonstration shop, invented%s.",
                   mensur_style_names_options(&document->style)
                       ? " (mensur start FOLDER writes your own to edit)"
                       : "");
    } else {
        mensur_say(document, "From the shop %n.", heading->shop);
    }
    tell_habits(document, heading, pitches);
}

void mensur_tell_foot(struct mensur_document *document, const struct mensur_heading *heading,
                      const struct mensur_facts *cautions) {
    const char *const *sources = heading->sources;
    bool sourced = sources != NULL && *sources != NULL;
    for (; sourced && !document->style.no_sources && *sources != NULL; sources++) {
        mensur_footnote(document, MENSUR_FOOTNOTE_SOURCE, "%s", *sources);
    }
    mensur_footnotes(document, MENSUR_FOOTNOTE_CAUTION, cautions);
    tell_origin(document, heading);
    if (document->style.full && sourced && mensur_style_names_options(&document->style) &&
        strcmp(heading->command, "find") != 0) {
        mensur_say(document, " Formulas with their numbers: add --working.");
    }
}
