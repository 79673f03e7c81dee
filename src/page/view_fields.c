/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every measurement of an instrument as it stands: measured, assumed, or following from others. */
#include <math.h>
#include <string.h>

#include "engine.h"
#include "view.h"

/* The measurement as it stands; where there is no answer, as it was given. */
static struct mensur_measure stand(const struct mensur_instrument *instrument,
                                   const struct mensur_profile *profile, enum mensur_field field) {
    const char *name = mensur_field_info(field)->name;
    double value = instrument->measure[field].value;
    const struct mensur_measure *standing = mensur_measure_named(profile, name);
    const struct mensur_measure given = {
        name, value, isnan(value) ? MENSUR_ORIGIN_UNKNOWN : MENSUR_ORIGIN_MEASURED};
    return standing != NULL ? *standing : given;
}

static json_t *field_row(struct mensur_out *out, const struct mensur_answer *made,
                         const struct mensur_profile *profile, enum mensur_field field) {
    const struct mensur_instrument *instrument = made->found[0].asked;
    static const char *const origins[] = {[MENSUR_ORIGIN_UNKNOWN] = "unknown",
                                          [MENSUR_ORIGIN_MEASURED] = "measured",
                                          [MENSUR_ORIGIN_ASSUMED] = "assumed",
                                          [MENSUR_ORIGIN_FOLLOWS] = "follows"};
    struct mensur_measure standing = stand(instrument, profile, field);
    double sure = instrument->measure[field].plus_minus;
    bool known = !isnan(standing.value);
    json_t *row = json_object();
    view_put(out, row, "field", view_text(mensur_field_info(field)->name));
    view_put(out, row, "meaning", view_text(mensur_field_info(field)->meaning));
    view_put(out, row, "way", view_text(mensur_way_text(mensur_field_info(field)->way)));
    view_put(out, row, "zero_allowed",
             json_boolean(mensur_field_info(field)->domain == MENSUR_NOT_NEGATIVE));
    view_put(out, row, "mm", view_number(MENSUR_LENGTH, standing.value));
    view_put(out, row, "shown",
             known ? view_shown(mensur_show(&made->question->style, MENSUR_LENGTH, standing.value))
                   : json_null());
    view_put(out, row, "plus_minus",
             sure > 0.0 ? view_shown(mensur_show(&made->question->style, MENSUR_LENGTH, sure))
                        : json_null());
    view_put(out, row, "origin", view_text(origins[standing.origin]));
    return row;
}

/* The one instrument's, with its changes. An instrument that cannot be answered has them too. */
enum mensur_status page_write_fields(const struct mensur_answer *made,
                                     const struct mensur_sink *sink) {
    struct mensur_profile profile = {.measure_count = 0};
    struct mensur_fault fault = {""};
    struct mensur_out out;
    if (made->found_count == 0) {
        return MENSUR_USE;
    }
    const struct mensur_instrument *instrument = made->found[0].asked;
    bool answered = mensur_ask_profile(&made->shop->stock, instrument, &made->question->terms,
                                       MENSUR_PART_LENGTHS, &fault, &profile) == MENSUR_OK;
    mensur_out_open(&out, sink, false);
    json_t *answer = json_object(), *rows = json_array();
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        if (mensur_field_info((enum mensur_field)f)->kind == MENSUR_LENGTH) { /* which it shows */
            view_add(&out, rows, field_row(&out, made, &profile, (enum mensur_field)f));
        }
    }
    view_put(&out, answer, "fields", rows);
    view_put(&out, answer, "answered", json_boolean(answered));
    view_put(&out, answer, "name", view_text(instrument->name));
    view_put(&out, answer, "family", view_text(instrument->family));
    view_put(&out, answer, "tuning", view_text(instrument->tuning));
    view_put(&out, answer, "strings", view_text(instrument->set));
    view_put(&out, answer, "built", view_text(instrument->built ? "yes" : "no"));
    view_put(&out, answer, "note", view_text(instrument->note));
    if (answered) {
        mensur_profile_clear(&profile);
    }
    return view_write(&out, answer);
}
