/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which strings people fit to instruments of a family: their own, and some of others. */
#include "string_family.h"

#include <string.h>

/* Who uses strings across that are named after another kind of instrument; common practice, no
 * source. */
static const struct crossing {
    const char *kind;
    const char *family;
    const char *lacking; /* for those notes alone that the sets named after this lack; NULL: all */
} crossings[] = {
    {"five-string", "violin", NULL},
    {"five-string", "viola", NULL},
    {"five-string", "five-string viola", NULL},
    {"viola", "five-string viola", NULL},
    {"violin", "five-string viola", "viola"},
    {"violin", "viola", "viola"},
    {"viola", "violin", "violin"},
    {"octave violin", "violin", NULL},
    {"octave viola", "viola", NULL},
    {"five-string cello", "cello", NULL},
    {"cello", "five-string cello", NULL},
    {"bass", "bass E-flat neck", NULL},
    {"bass", "violone", NULL},
    {"bass viol", "violone", NULL},
    {"tenor viol", "treble viol", "treble viol"},
    {"treble viol", "tenor viol", "tenor viol"},
    {"bass viol", "tenor viol", "tenor viol"},
    {"tenor viol", "bass viol", "bass viol"},
};
enum { CROSSINGS = sizeof(crossings) / sizeof(crossings[0]) };

/* The longer of two kinds, where the set's name begins with the other one and a space. */
static const char *longer(const char *set, const char *kind, const char *other) {
    if (*set != *other) {
        return kind;
    }
    size_t length = strlen(other);
    bool begins = strncmp(set, other, length) == 0 && set[length] == ' ';
    return begins && (kind == NULL || strlen(kind) < length) ? other : kind;
}

/* The kind of instrument that a set is named after; NULL where it names none. */
static const char *kind_of(const struct mensur_stock *stock, const char *set) {
    const char *kind = NULL;
    for (size_t i = 0; i < stock->family_count; i++) {
        kind = longer(set, kind, stock->families[i].name);
    }
    for (size_t i = 0; i < CROSSINGS; i++) {
        kind = longer(set, kind, crossings[i].kind);
    }
    return kind;
}

static bool is_kind(const char *kind, const char *wanted) {
    return kind != NULL && strcmp(kind, wanted) == 0;
}

/* Whether a built-in set that is named after a kind has a string for the note. */
static bool kind_has(const struct mensur_stock *stock, const char *wanted,
                     const struct mensur_note *note) {
    size_t length = strlen(wanted); /* a set's name begins with its kind */
    for (size_t i = 0; i < stock->string_count; i++) {
        const struct mensur_string_spec *spec = &stock->strings[i];
        if (spec->set != NULL && !spec->own && strcmp(spec->note.name, note->name) == 0 &&
            strncmp(spec->set, wanted, length) == 0 && is_kind(kind_of(stock, spec->set), wanted)) {
            return true;
        }
    }
    return false;
}

static bool serves(const struct mensur_stock *stock, const char *family,
                   const struct mensur_string_spec *spec, bool whole_set) {
    if (family == NULL || spec->own || spec->set == NULL) {
        return true;
    }
    const char *kind = kind_of(stock, spec->set);
    if (kind == NULL || strcmp(kind, family) == 0) {
        return true;
    }
    for (size_t i = 0; i < CROSSINGS; i++) {
        const struct crossing *crossing = &crossings[i];
        if (strcmp(crossing->family, family) == 0 && strcmp(crossing->kind, kind) == 0) {
            return whole_set || crossing->lacking == NULL ||
                   !kind_has(stock, crossing->lacking, &spec->note);
        }
    }
    return false;
}

bool string_is_for_family(const struct mensur_stock *stock, const char *family,
                          const struct mensur_string_spec *spec) {
    return serves(stock, family, spec, false);
}

bool string_set_is_for_family(const struct mensur_stock *stock, const char *family,
                              const struct mensur_string_spec *spec) {
    return serves(stock, family, spec, true);
}
