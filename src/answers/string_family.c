/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which strings people fit to instruments of a family: their own, and some of others. */
#include "string_family.h"

#include <string.h>

/* Kinds that sets are named after, beside the families themselves, and who uses the strings of a
 * kind across; common practice, no source. */
static const struct crossing {
    const char *kind;
    const char *family; /* NULL: of none in families.csv */
    bool lacking;       /* for those notes alone that the family's own sets lack */
} crossings[] = {
    {"five-string", "violin", false},
    {"five-string", "viola", false},
    {"five-string cello", "cello", false},
    {"octave violin", "violin", false},
    {"octave viola", "viola", false},
    {"violin", "viola", true},
    {"viola", "violin", true},
    {"treble viol", NULL, false},
    {"tenor viol", NULL, false},
    {"bass viol", NULL, false},
};
enum { CROSSINGS = sizeof(crossings) / sizeof(crossings[0]) };

/* The longer of two kinds, where the set's name begins with the other one and a space. */
static const char *longer(const char *set, const char *kind, const char *other) {
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

/* Whether a set that is named after the family has a string for the note. */
static bool family_has(const struct mensur_stock *stock, const char *family,
                       const struct mensur_note *note) {
    for (size_t i = 0; i < stock->string_count; i++) {
        const struct mensur_string_spec *spec = &stock->strings[i];
        if (spec->set != NULL && !spec->own && strcmp(spec->note.name, note->name) == 0 &&
            is_kind(kind_of(stock, spec->set), family)) {
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
        if (is_kind(crossing->family, family) && strcmp(crossing->kind, kind) == 0) {
            return whole_set || !crossing->lacking || !family_has(stock, family, &spec->note);
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
