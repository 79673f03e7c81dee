/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The working: values on a line each, steps as formula = numbers = result. Where steps have one
 * formula, as those of one law for all strings, it is told once; so is a source.
 */
#include <string.h>

#include "letters.h"
#include "tell.h"

#define INDENT 4

/* Whether what is worked out is told by its own name already: "bow room" and "bow_room = ...". */
static bool is_named(const struct mensur_working_line *line) {
    size_t i = 0;
    for (; line->what[i] != '\0'; i++) {
        char letter = line->what[i] == ' ' ? '_' : line->what[i];
        if (line->formula[i] != letter) {
            return false;
        }
    }
    return line->formula[i] == '\0' || strncmp(line->formula + i, " = ", 3) == 0;
}

static const char *label(const struct mensur_working_line *line) {
    return is_named(line) ? "" : line->what;
}

static const char *colon(const struct mensur_working_line *line) {
    return is_named(line) ? "" : ": ";
}

/* Says "= result", which no line break parts, and the source behind it where it is not told yet. */
static void say_result(struct mensur_document *document, const struct mensur_working_line *line,
                       bool source_told) {
    const char *unit = strchr(line->result, ' ');
    struct mensur_shown number;
    size_t length = unit != NULL ? (size_t)(unit - line->result) : strlen(line->result);
    if (length >= sizeof(number.text)) {
        length = 0;
        unit = line->result;
    }
    memcpy(number.text, line->result, length);
    number.text[length] = '\0';
    mensur_say(document, "=%s%s%s%s", *line->result != '\0' ? MENSUR_NO_BREAK : "", number.text,
               unit != NULL ? MENSUR_NO_BREAK : "", unit != NULL ? unit + 1 : "");
    if (!source_told && *line->source != '\0') {
        mensur_say(document, " (%s)", line->source);
    }
}

/* Columns of what stands before the numbers. */
static size_t width_before(const struct mensur_working_line *line, bool formula_told) {
    return formula_told ? mensur_shown_width(line->what) + strlen(":")
                        : mensur_shown_width(label(line)) + strlen(colon(line)) +
                              mensur_shown_width(line->formula) + strlen(" =");
}

/* Whether the whole step stands on one line; a note behind the formula would part it. */
static bool is_short(const struct mensur_working_line *line, bool formula_told) {
    size_t width = width_before(line, formula_told) + strlen(" ") +
                   mensur_shown_width(line->with_numbers) + strlen(" = ") +
                   mensur_shown_width(line->result);
    return width <= MENSUR_TEXT_WIDTH && (formula_told || strchr(line->formula, ',') == NULL);
}

/* A step on one line, or on one for what comes and its formula, which is not broken where a line
 * of its own holds it, one for the numbers and one for the result. */
static void tell_step(struct mensur_document *document, const struct mensur_working_line *line,
                      bool formula_told, bool source_told) {
    if (is_short(line, formula_told)) {
        mensur_paragraph(document, INDENT, formula_told ? "%s: " : "%s%s%s = ",
                         formula_told ? line->what : label(line), colon(line), line->formula);
        mensur_say(document, "%s ", line->with_numbers);
    } else {
        bool alone = formula_told || width_before(line, false) - strlen(" =") > MENSUR_TEXT_WIDTH;
        mensur_paragraph(document, INDENT + 2, alone ? "%s:" : "%s%s%s",
                         alone ? line->what : label(line), colon(line), line->formula);
        if (alone && !formula_told) {
            mensur_line(document);
            mensur_say(document, "%s", line->formula);
        }
        mensur_line(document);
        mensur_say(document, "=" MENSUR_NO_BREAK "%s", line->with_numbers);
        mensur_line(document);
    }
    say_result(document, line, source_told);
}

void mensur_tell_working(struct mensur_document *document, const struct mensur_working *working) {
    const char *source = "", *about = "";
    mensur_heading(document, MENSUR_HEADING_PART, "Working");
    for (size_t i = 0; i < working->count; i++) {
        const struct mensur_working_line *line = &working->lines[i];
        const char *before = i > 0 ? working->lines[i - 1].formula : "";
        if (strcmp(about, line->about) != 0) {
            about = line->about;
            before = "";
            if (*about != '\0') {
                mensur_heading(document, MENSUR_HEADING_ABOUT, "%s", about);
            } else {
                mensur_gap(document); /* about the whole */
            }
        }
        if (*line->with_numbers == '\0') {
            mensur_paragraph(document, INDENT, "%s%s%s ", label(line), colon(line), line->formula);
            say_result(document, line, false);
        } else {
            tell_step(document, line, strcmp(before, line->formula) == 0,
                      strcmp(source, line->source) == 0);
            source = line->source;
        }
    }
}
