/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proposals.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { OTHER_CELLS = 6 };

static enum mensur_status copy(const char *text, char **out) {
    return text == NULL ? MENSUR_OK : mensur_text_copy(text, strlen(text), out);
}

static enum mensur_status add_text(const char *field, const char *was, const char *now,
                                   struct mensur_profile *out) {
    if (strcmp(was != NULL ? was : "", now != NULL ? now : "") == 0) {
        return MENSUR_OK;
    }
    struct mensur_proposal *proposal = &out->proposed[out->proposed_count++];
    *proposal = (struct mensur_proposal){.field = field, .now = NAN, .proposed = NAN};
    enum mensur_status status = copy(was, &proposal->now_text);
    return status == MENSUR_OK ? copy(now, &proposal->proposed_text) : status;
}

static void add_number(const char *field, enum mensur_kind kind, double was, double now,
                       struct mensur_profile *out) {
    if (isnan(was) ? !isnan(now) : !(fabs(now - was) < 1e-9)) {
        out->proposed[out->proposed_count++] =
            (struct mensur_proposal){.field = field, .kind = kind, .now = was, .proposed = now};
    }
}

static const char *size_name(const struct mensur_instrument *instrument) {
    return instrument->size != NULL ? instrument->size->name : NULL;
}

static double pitch(const struct mensur_instrument *instrument) {
    return instrument->a4 > 0.0 ? instrument->a4 : (double)NAN;
}

enum mensur_status proposals_make(const struct mensur_instrument *instrument,
                                  struct mensur_profile *out) {
    const struct mensur_instrument *was = instrument->was;
    if (was == NULL) {
        return MENSUR_OK;
    }
    out->proposed = calloc(MENSUR_FIELD_COUNT + OTHER_CELLS, sizeof *out->proposed);
    if (out->proposed == NULL) {
        return MENSUR_MEMORY;
    }
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        const struct mensur_field_info *field = mensur_field_info((enum mensur_field)f);
        if ((instrument->proposed >> f & 1U) != 0) {
            add_number(field->name, field->kind, was->measure[f].value,
                       instrument->measure[f].value, out);
        }
    }
    const struct {
        const char *field, *was, *now;
    } texts[] = {{"family", was->family, instrument->family},
                 {"size", size_name(was), size_name(instrument)},
                 {"strings", was->set, instrument->set},
                 {"tuning", was->tuning, instrument->tuning},
                 {"built", was->built ? "yes" : "no", instrument->built ? "yes" : "no"}};
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0] && status == MENSUR_OK; i++) {
        status = add_text(texts[i].field, texts[i].was, texts[i].now, out);
    }
    add_number("a4", MENSUR_FREQUENCY, pitch(was), pitch(instrument), out);
    return status;
}

void proposals_clear(struct mensur_profile *profile) {
    for (size_t i = 0; i < profile->proposed_count; i++) {
        free(profile->proposed[i].now_text);
        free(profile->proposed[i].proposed_text);
    }
    free(profile->proposed);
    profile->proposed = NULL;
    profile->proposed_count = 0;
}
