/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the figures are, as keys of their own: null where no measurement says it. */
#include <math.h>

#include "json.h"

json_t *mensur_json_matters(struct mensur_out *out, const struct mensur_matter *matters,
                            size_t count) {
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *object = json_object();
        mensur_json_put(out, object, "field", mensur_json_text(matters[i].field));
        mensur_json_put(out, object, "share", mensur_json_number(MENSUR_NUMBER, matters[i].share));
        mensur_json_add(out, array, object);
    }
    return array;
}

void mensur_json_spread(struct mensur_out *out, json_t *answer,
                        const struct mensur_profile *profile) {
    const struct mensur_spread *spread = profile->spread;
    json_t *object = spread == NULL ? json_null() : json_object();
    if (spread != NULL) {
        mensur_json_figures(out, object, MENSUR_SCOPE_INSTRUMENT, &spread->lengths, true);
        mensur_json_put(out, object, "strings",
                        mensur_json_records(out, MENSUR_SCOPE_STRING, spread->strings,
                                            spread->string_count, sizeof(spread->strings[0]),
                                            true));
        mensur_json_put(out, object, "total_tension_N",
                        mensur_json_number(MENSUR_FORCE, spread->total_tension));
        mensur_json_put(out, object, "total_force_on_belly_N",
                        mensur_json_number(MENSUR_FORCE, spread->total_force_on_belly));
        mensur_json_put(out, object, "positions",
                        mensur_json_records(out, MENSUR_SCOPE_POSITION, spread->positions,
                                            spread->position_count, sizeof(spread->positions[0]),
                                            true));
    }
    /* One object in the other. NOLINTNEXTLINE(readability-suspicious-call-argument) */
    mensur_json_put(out, answer, "plus_minus", object);
    mensur_json_put(out, answer, "matters_most",
                    spread == NULL
                        ? json_null()
                        : mensur_json_matters(out, spread->matters, spread->matter_count));
}
