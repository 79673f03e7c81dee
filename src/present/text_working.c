/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The working: values on a line each, steps as formula = numbers = result. Where steps have one
 * formula, as those of one law for all strings, it is written once; so is a source.
 */
#include <string.h>

#include "text.h"

#define INDENT 4

static bool is_value(const struct mensur_working_line *line) {
    return *line->with_numbers == '\0';
}

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
static void say_result(struct mensur_wrap *wrap, const struct mensur_working_line *line,
                       bool source_told) {
    bool tell = !source_told && *line->source != '\0';
    const char *unit = strchr(line->result, ' ');
    struct mensur_shown number;
    size_t length = unit != NULL ? (size_t)(unit - line->result) : strlen(line->result);
    if (length >= sizeof(number.text)) {
        length = 0;
        unit = line->result;
    }
    memcpy(number.text, line->result, length);
    number.text[length] = '\0';
    mensur_wrap_say(wrap, "=", *line->result != '\0' ? MENSUR_NO_BREAK : "", number.text,
                    unit != NULL ? MENSUR_NO_BREAK : "", unit != NULL ? unit + 1 : "",
                    tell ? " (" : "", tell ? line->source : "", tell ? ")" : "", NULL);
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

static void write_value(struct mensur_presenter *presenter,
                        const struct mensur_working_line *line) {
    struct mensur_wrap wrap;
    mensur_wrap_open(&wrap, &presenter->out, 0, INDENT);
    mensur_wrap_say(&wrap, label(line), colon(line), line->formula, " ", NULL);
    say_result(&wrap, line, false);
    mensur_wrap_close(&wrap);
}

/* What comes and its formula, which is not broken where a line of its own holds it. */
static void write_formula(struct mensur_presenter *presenter,
                          const struct mensur_working_line *line, bool formula_told) {
    bool alone = formula_told || width_before(line, false) - strlen(" =") > MENSUR_TEXT_WIDTH;
    struct mensur_wrap wrap;
    mensur_wrap_open(&wrap, &presenter->out, 0, INDENT + 2);
    if (alone) {
        mensur_wrap_say(&wrap, line->what, ":", NULL);
    } else {
        mensur_wrap_say(&wrap, label(line), colon(line), line->formula, NULL);
    }
    mensur_wrap_close(&wrap);
    if (alone && !formula_told) {
        mensur_paragraph(&presenter->out, INDENT, INDENT + 2, line->formula);
    }
}

static void write_short(struct mensur_presenter *presenter, const struct mensur_working_line *line,
                        bool formula_told, bool source_told) {
    struct mensur_wrap wrap;
    mensur_wrap_open(&wrap, &presenter->out, 0, INDENT);
    if (formula_told) {
        mensur_wrap_say(&wrap, line->what, ": ", line->with_numbers, " ", NULL);
    } else {
        mensur_wrap_say(&wrap, label(line), colon(line), line->formula, " = ", line->with_numbers,
                        " ", NULL);
    }
    say_result(&wrap, line, source_told);
    mensur_wrap_close(&wrap);
}

static void write_step(struct mensur_presenter *presenter, const struct mensur_working_line *line,
                       bool formula_told, bool source_told) {
    struct mensur_wrap wrap;
    if (is_short(line, formula_told)) {
        write_short(presenter, line, formula_told, source_told);
        return;
    }
    write_formula(presenter, line, formula_told);
    mensur_out_blanks(&presenter->out, INDENT);
    mensur_wrap_open(&wrap, &presenter->out, INDENT, INDENT + 2);
    mensur_wrap_say(&wrap, "=" MENSUR_NO_BREAK, line->with_numbers, NULL);
    mensur_wrap_close(&wrap);
    mensur_out_blanks(&presenter->out, INDENT);
    mensur_wrap_open(&wrap, &presenter->out, INDENT, INDENT + 2);
    say_result(&wrap, line, source_told);
    mensur_wrap_close(&wrap);
}

/* What the steps below are about; nothing but an empty line where they are about the whole. */
static void write_heading(struct mensur_presenter *presenter, const char *about) {
    struct mensur_out *out = &presenter->out;
    mensur_out_line(out);
    if (*about != '\0') {
        struct mensur_wrap wrap;
        mensur_out_strong(out, true);
        mensur_wrap_open(&wrap, out, 0, 0);
        mensur_wrap_say(&wrap, about, NULL);
        mensur_wrap_close(&wrap);
        mensur_out_strong(out, false);
    }
}

void mensur_text_working(struct mensur_presenter *presenter) {
    const struct mensur_working *working = presenter->working;
    const char *source = "", *about = "";
    mensur_text_title(presenter, "Working");
    for (size_t i = 0; i < working->count; i++) {
        const struct mensur_working_line *line = &working->lines[i];
        const char *before = i > 0 ? working->lines[i - 1].formula : "";
        if (strcmp(about, line->about) != 0) {
            about = line->about;
            write_heading(presenter, about);
            before = "";
        }
        if (is_value(line)) {
            write_value(presenter, line);
        } else {
            write_step(presenter, line, strcmp(before, line->formula) == 0,
                       strcmp(source, line->source) == 0);
            source = line->source;
        }
    }
}
