/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "body_air.h"

#include <math.h>
#include <string.h>

#include "air.h"

/* Nearer than this two notes are one, semitones. */
static const double none = 1e-9;

/* What is measured of a body's air, and by which names. The belly's rise is arch_full, or arch and
 * edge. */
static const enum mensur_field needs[] = {MENSUR_FIELD_BODY,         MENSUR_FIELD_WIDTH_UPPER,
                                          MENSUR_FIELD_WIDTH_MIDDLE, MENSUR_FIELD_WIDTH_LOWER,
                                          MENSUR_FIELD_RIB,          MENSUR_FIELD_BACK_ARCH,
                                          MENSUR_FIELD_EDGE,         MENSUR_FIELD_PLATE,
                                          MENSUR_FIELD_F_LENGTH,     MENSUR_FIELD_ARCH_FULL};

static double given(const struct mensur_instrument *of, enum mensur_field field) {
    return of->measure[field].value;
}

static double belly_arch(const struct mensur_instrument *of) {
    double full = given(of, MENSUR_FIELD_ARCH_FULL);
    return isnan(full) ? given(of, MENSUR_FIELD_ARCH) + given(of, MENSUR_FIELD_EDGE) : full;
}

static double needed(const struct mensur_instrument *of, enum mensur_field field) {
    return field == MENSUR_FIELD_ARCH_FULL ? belly_arch(of) : given(of, field);
}

/* Lists the measurements that are missing; a list that grows too long is cut after a name. */
static void list_missing(const struct mensur_instrument *of, struct mensur_body_air *out) {
    size_t used = 0;
    for (size_t i = 0; i < sizeof needs / sizeof needs[0]; i++) {
        const char *name = mensur_field_info(needs[i])->name;
        size_t length = strlen(name);
        if (!isnan(needed(of, needs[i])) || used + length + 2 >= sizeof out->missing) {
            continue;
        }
        if (used > 0) {
            memcpy(out->missing + used, ", ", 2);
            used += 2;
        }
        memcpy(out->missing + used, name, length + 1);
        used += length;
    }
}

void body_air_make(const struct mensur_instrument *of, const struct mensur_family *family,
                   struct mensur_body_air *out) {
    *out = (struct mensur_body_air){.known = MENSUR_AIR_NOT_ASKED,
                                    .body = NAN,
                                    .outline = NAN,
                                    .depth = NAN,
                                    .volume = NAN,
                                    .f_length = NAN,
                                    .note = given(of, MENSUR_FIELD_AIR_NOTE)};
    bool unasked =
        isnan(given(of, MENSUR_FIELD_WIDTH_LOWER)) && isnan(given(of, MENSUR_FIELD_WIDTH_UPPER)) &&
        isnan(given(of, MENSUR_FIELD_WIDTH_MIDDLE)) && isnan(given(of, MENSUR_FIELD_F_LENGTH));
    if (unasked) {
        return; /* as of nearly every row of a long file */
    }
    const struct mensur_air_body body = {.body = given(of, MENSUR_FIELD_BODY),
                                         .upper = given(of, MENSUR_FIELD_WIDTH_UPPER),
                                         .middle = given(of, MENSUR_FIELD_WIDTH_MIDDLE),
                                         .lower = given(of, MENSUR_FIELD_WIDTH_LOWER),
                                         .rib = given(of, MENSUR_FIELD_RIB),
                                         .belly_arch = belly_arch(of),
                                         .back_arch = given(of, MENSUR_FIELD_BACK_ARCH),
                                         .edge = given(of, MENSUR_FIELD_EDGE),
                                         .plate = given(of, MENSUR_FIELD_PLATE),
                                         .f_length = given(of, MENSUR_FIELD_F_LENGTH)};
    struct mensur_air air;
    if (body.back_arch <= 0.0) {
        out->known = MENSUR_AIR_FLAT_BACK;
    } else if (family != NULL && family->held == MENSUR_STANDING) {
        out->known = MENSUR_AIR_CUT_SHOULDERS;
    } else if (mensur_air_of(&body, &air) != MENSUR_OK) {
        out->known = MENSUR_AIR_UNMEASURED;
        list_missing(of, out);
    } else {
        out->known = MENSUR_AIR_KNOWN;
        out->body = air.body;
        out->outline = air.outline;
        out->depth = air.depth;
        out->volume = air.volume;
        out->f_length = air.f_length;
    }
}

static struct mensur_air air_of(const struct mensur_body_air *air) {
    return (struct mensur_air){.body = air->body,
                               .outline = air->outline,
                               .depth = air->depth,
                               .volume = air->volume,
                               .f_length = air->f_length};
}

double body_air_semitones(const struct mensur_body_air *first,
                          const struct mensur_body_air *other) {
    const struct mensur_air one = air_of(first), two = air_of(other);
    double semitones = NAN;
    if (!isnan(first->note) && !isnan(other->note)) {
        return 12.0 * log2(other->note / first->note);
    }
    if (first->known == MENSUR_AIR_KNOWN && other->known == MENSUR_AIR_KNOWN) {
        (void)mensur_air_apart(&one, &two, MENSUR_AIR_EXPONENT, &semitones);
    }
    return semitones;
}

double body_air_apart(const struct mensur_profile *first, const struct mensur_profile *other) {
    return mensur_of_two_families(first, other) ? (double)NAN
                                                : body_air_semitones(&first->air, &other->air);
}

void body_air_compare(struct mensur_profile *profiles, size_t count) {
    struct mensur_profile *first = &profiles[0];
    if (!isnan(first->air.note) || first->air.known == MENSUR_AIR_KNOWN) {
        first->air_semitones_above_first = 0.0;
    }
    for (size_t i = 1; i < count; i++) {
        struct mensur_profile *other = &profiles[i];
        double apart = body_air_apart(first, other);
        other->air_semitones_above_first = apart;
        if (isnan(first->lengths.air_note) && !isnan(other->air.note)) {
            first->lengths.air_note = other->air.note * exp2(-apart / 12.0);
        }
    }
    for (size_t i = 1; i < count; i++) {
        struct mensur_lengths *lengths = &profiles[i].lengths;
        if (isnan(lengths->air_note)) {
            lengths->air_note =
                first->air.note * exp2(profiles[i].air_semitones_above_first / 12.0);
        }
    }
}

/* Where its note is usual above the lowest string: as a violin's (1), as a viola's or a cello's
 * (2); 3: not known. */
static double usual_place(const struct mensur_profile *profile) {
    const char *family = profile->family == NULL ? "" : profile->family;
    return strcmp(family, "violin") == 0                                  ? 1.0
           : strcmp(family, "viola") == 0 || strcmp(family, "cello") == 0 ? 2.0
                                                                          : 3.0;
}

static void tell_why_not(const struct mensur_profile *first, const struct mensur_profile *other,
                         struct mensur_facts *facts) {
    const struct mensur_profile *both[] = {first, other};
    for (size_t i = 0; i < 2; i++) {
        const struct mensur_body_air *air = &both[i]->air;
        const char *name = both[i]->instrument;
        if (air->known == MENSUR_AIR_UNMEASURED) {
            mensur_facts_add(facts, MENSUR_FACT_AIR_UNMEASURED, MENSUR_NAMES(name, air->missing),
                             NULL);
            return;
        }
        if (air->known == MENSUR_AIR_FLAT_BACK || air->known == MENSUR_AIR_CUT_SHOULDERS) {
            mensur_facts_add(facts, MENSUR_FACT_AIR_OF_ANOTHER_MAKE, MENSUR_NAMES(name),
                             MENSUR_NUMBERS(air->known == MENSUR_AIR_FLAT_BACK ? 1.0 : 2.0));
            return;
        }
    }
    mensur_facts_add(facts, MENSUR_FACT_AIR_TOO_UNLIKE, NULL,
                     MENSUR_NUMBERS(mensur_of_two_families(first, other) ? 1.0 : 2.0));
}

void body_air_tell(const struct mensur_profile *first, const struct mensur_profile *other,
                   bool changed, const char *const *names, struct mensur_facts *facts) {
    double apart = other->air_semitones_above_first, place = NAN;
    bool asked =
        first->air.known != MENSUR_AIR_NOT_ASKED && other->air.known != MENSUR_AIR_NOT_ASKED;
    if (other->string_count > 0) {
        (void)mensur_air_place(other->lengths.air_note, other->strings[0].frequency, &place);
    }
    if (isnan(apart)) {
        if (asked && !changed) {
            tell_why_not(first, other, facts);
        }
    } else if (fabs(apart) >= MENSUR_AIR_SEMITONES_SURE) {
        mensur_facts_add(facts, MENSUR_FACT_AIR_APART, names,
                         MENSUR_NUMBERS(apart, other->lengths.air_note, place, usual_place(other)));
    } else if (fabs(apart) > none) {
        mensur_facts_add(facts, MENSUR_FACT_AIR_ALIKE, names,
                         MENSUR_NUMBERS(apart, other->lengths.air_note, place, usual_place(other)));
    }
}
