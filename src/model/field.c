/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The measurements of an instrument: names, domains and meanings from the one list. */
#include "field.h"

#include <math.h>
#include <string.h>

static const struct mensur_field_info infos[MENSUR_FIELD_COUNT] = {
#define INFO(id, name, kind, domain, power, way, meaning)                                          \
    [MENSUR_FIELD_##id] = {name, MENSUR_##kind, MENSUR_##domain, power, MENSUR_##way, meaning},
    MENSUR_FIELD_LIST(INFO)
#undef INFO
};

const struct mensur_field_info *mensur_field_info(enum mensur_field field) {
    return &infos[field < MENSUR_FIELD_COUNT ? field : 0];
}

const char *mensur_way_text(enum mensur_way way) {
    static const char *const texts[] = {[MENSUR_NOWHERE] = "others",
                                        [MENSUR_ALONG] = "lengths",
                                        [MENSUR_UPWARD] = "heights and thicknesses",
                                        [MENSUR_ACROSS] = "widths, spacings and f-hole"};
    return texts[way];
}

enum mensur_status mensur_field_find(const char *name, enum mensur_field *field) {
    for (int i = 0; i < MENSUR_FIELD_COUNT; i++) {
        if (strcmp(infos[i].name, name) == 0) {
            *field = (enum mensur_field)i;
            return MENSUR_OK;
        }
    }
    return MENSUR_USE;
}

bool mensur_in_domain(enum mensur_kind kind, enum mensur_domain domain, double value) {
    bool low = domain == MENSUR_ANY_SIGN || (domain == MENSUR_POSITIVE ? value > 0 : value >= 0);
    return low && (kind != MENSUR_LENGTH || fabs(value) <= MENSUR_LONGEST_M);
}

const char *mensur_domain_text(enum mensur_kind kind, enum mensur_domain domain) {
    if (kind == MENSUR_LENGTH) {
        return domain == MENSUR_POSITIVE       ? "more than 0 and at most 3000 mm"
               : domain == MENSUR_NOT_NEGATIVE ? "from 0 to 3000 mm"
                                               : "from -3000 to 3000 mm";
    }
    return domain == MENSUR_POSITIVE ? "more than 0" : "0 or more";
}

enum mensur_status mensur_field_check(enum mensur_field field, double value) {
    const struct mensur_field_info *info = mensur_field_info(field);
    return mensur_in_domain(info->kind, info->domain, value) ? MENSUR_OK : MENSUR_DOMAIN;
}

const char *mensur_field_domain_text(enum mensur_field field) {
    const struct mensur_field_info *info = mensur_field_info(field);
    return mensur_domain_text(info->kind, info->domain);
}
