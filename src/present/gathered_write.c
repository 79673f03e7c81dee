/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Telling what was assumed, once for all instruments that share it, and what was warned of. */
#include <string.h>

#include "gathered.h"
#include "wrap.h"

/* A field's name as words: "board_length" is "board length". */
static void say_field(struct mensur_wrap *wrap, const char *field) {
    char letter[2] = {0};
    for (; *field != '\0'; field++) {
        letter[0] = *field;
        mensur_wrap_say(wrap, *field == '_' ? MENSUR_NO_BREAK : letter, NULL);
    }
}

static void say_values(const struct mensur_gathered *gathered, struct mensur_wrap *wrap,
                       unsigned names) {
    const char *between = "";
    for (size_t i = 0; i < gathered->value_count; i++) {
        const struct mensur_gathered_value *value = &gathered->values[i];
        if (value->names == names) {
            mensur_wrap_say(wrap, between, NULL);
            say_field(wrap, value->field);
            mensur_wrap_say(wrap, MENSUR_NO_BREAK, value->shown, NULL);
            between = ", ";
        }
    }
}

static void say_names(const struct mensur_gathered *gathered, struct mensur_wrap *wrap,
                      unsigned names) {
    const char *between = "";
    for (size_t i = 0; i < gathered->name_count; i++) {
        if ((names & 1u << i) != 0) {
            mensur_wrap_say(wrap, between, gathered->names[i], NULL);
            between = ", ";
        }
    }
}

static bool any_value(const struct mensur_gathered *gathered, unsigned names) {
    for (size_t i = 0; i < gathered->value_count; i++) {
        if (gathered->values[i].names == names) {
            return true;
        }
    }
    return false;
}

/* What all share first, then what fewer and fewer share. */
static void write_apart(const struct mensur_gathered *gathered, struct mensur_out *out) {
    unsigned all = (1u << gathered->name_count) - 1;
    for (unsigned names = all; names > 0; names--) {
        if (!any_value(gathered, names)) {
            continue;
        }
        struct mensur_wrap wrap;
        mensur_wrap_open(&wrap, out, 0, 2);
        mensur_wrap_say(&wrap, "Assumed, not measured", NULL);
        if (gathered->name_count > 1) {
            mensur_wrap_say(&wrap, " (", NULL);
            say_names(gathered, &wrap, names);
            mensur_wrap_say(&wrap, ")", NULL);
        }
        mensur_wrap_say(&wrap, ": ", NULL);
        say_values(gathered, &wrap, names);
        mensur_wrap_say(&wrap, ".", NULL);
        mensur_wrap_close(&wrap);
    }
}

/* Each measurement once, with its range and for how many instruments it was assumed. */
static void write_together(const struct mensur_gathered *gathered, const struct mensur_style *style,
                           struct mensur_out *out) {
    struct mensur_wrap wrap;
    mensur_wrap_open(&wrap, out, 0, 2);
    mensur_wrap_say(&wrap, "Assumed where it was not measured (for how many of ",
                    mensur_show_count(gathered->instruments).text, " instruments): ", NULL);
    for (size_t i = 0; i < gathered->field_count; i++) {
        const struct mensur_gathered_field *field = &gathered->fields[i];
        mensur_wrap_say(&wrap, i > 0 ? ", " : "", NULL);
        say_field(&wrap, field->field);
        mensur_wrap_say(&wrap, MENSUR_NO_BREAK,
                        field->several ? "by its family"
                        : field->text != NULL
                            ? field->text
                            : mensur_show_range(style, field->kind, field->low, field->high).text,
                        MENSUR_NO_BREAK "(", mensur_show_count(field->count).text, ")", NULL);
    }
    mensur_wrap_say(&wrap, ".", NULL);
    mensur_wrap_close(&wrap);
}

static void write_warnings(const struct mensur_gathered *gathered, struct mensur_out *out) {
    mensur_out_line(out);
    for (size_t i = 0; i < gathered->warnings.count; i++) {
        struct mensur_wrap wrap;
        mensur_wrap_open(&wrap, out, 0, 2);
        mensur_wrap_say(&wrap, "Warning: ", gathered->warnings.items[i], NULL);
        mensur_wrap_close(&wrap);
    }
    if (gathered->warnings_left_out > 0) {
        struct mensur_wrap wrap;
        mensur_wrap_open(&wrap, out, 0, 2);
        mensur_wrap_say(&wrap, "And ", mensur_show_count(gathered->warnings_left_out).text,
                        " warnings more; --format json has them all.", NULL);
        mensur_wrap_close(&wrap);
    }
}

void mensur_gathered_write(const struct mensur_gathered *gathered, const struct mensur_style *style,
                           struct mensur_out *out) {
    if (gathered->field_count > 0) {
        mensur_out_line(out);
        if (gathered->instruments <= MENSUR_GATHERED_NAMES) {
            write_apart(gathered, out);
        } else {
            write_together(gathered, style, out);
        }
    }
    if (gathered->warnings.count > 0) {
        write_warnings(gathered, out);
    }
}
