/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each measurement by its rule, and the row that follows. */
#include "scale.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "air.h"
#include "ask.h"
#include "body_air.h"
#include "number.h"
#include "scale_rules.h"
#include "setup.h"

/* Further from its model no size is scaled. */
static const double least_ratio = 0.5, most_ratio = 2.0;

/* A model that is scaled. */
struct scale {
    struct mensur_solver *solver;
    const struct mensur_stock *stock;
    const struct mensur_instrument *model;
    const struct mensur_scaling *scaling;
    enum mensur_hold hold;
    struct setup setup; /* of the model */
    double body;        /* m, of the model */
    double wanted;      /* m: the string length that a size is looked for */
};

/* One size of it. */
struct size {
    double ratio;
    enum scale_class of;
    struct mensur_quantity measure[MENSUR_FIELD_COUNT];
    struct scale_rule rule[MENSUR_FIELD_COUNT];
    double exponent[MENSUR_FIELD_COUNT];
    double rib_more, rib_more_least, rib_more_most;
};

static bool is_kept(const struct scale *scale, enum mensur_field field) {
    return (scale->scaling->keep >> (unsigned)field & 1U) != 0;
}

static bool is_of_air(enum mensur_field field) {
    return field == MENSUR_FIELD_RIB || field == MENSUR_FIELD_ARCH ||
           field == MENSUR_FIELD_ARCH_FULL || field == MENSUR_FIELD_BACK_ARCH ||
           field == MENSUR_FIELD_EDGE;
}

static struct scale_rule rule_of(const struct scale *scale, const struct size *size,
                                 enum mensur_field field) {
    if (is_kept(scale, field)) {
        return (struct scale_rule){MENSUR_SCALE_KEPT, 0.0};
    }
    if (scale->scaling->keep_air && is_of_air(field)) {
        return (struct scale_rule){
            field == MENSUR_FIELD_RIB ? MENSUR_SCALE_FOR_AIR : MENSUR_SCALE_HELD, 0.0};
    }
    return scale_rule_of(size->of, field);
}

/* By what a measurement is multiplied where its rule is one of body or stop. */
static double factor_of(const struct scale *scale, const struct size *size, enum mensur_field field,
                        double *exponent) {
    const struct scale_rule rule = size->rule[field];
    *exponent = NAN;
    switch (rule.by) {
    case MENSUR_SCALE_HELD:
    case MENSUR_SCALE_KEPT:
        *exponent = 0.0;
        return 1.0;
    case MENSUR_SCALE_AS_BODY:
        *exponent = rule.power;
        return pow(size->ratio, rule.power);
    case MENSUR_SCALE_AS_STOP:
        *exponent = rule.power * size->exponent[MENSUR_FIELD_STOP];
        return pow(size->measure[MENSUR_FIELD_STOP].value / scale->setup.value[MENSUR_FIELD_STOP],
                   rule.power);
    case MENSUR_SCALE_AS_VIOLA_STOP:
        return scale_viola_stop(scale->body * size->ratio) / scale_viola_stop(scale->body);
    case MENSUR_SCALE_WITH_PROJECTION:
    case MENSUR_SCALE_BY_GEOMETRY:
    case MENSUR_SCALE_FOR_AIR:
        break;
    }
    return 1.0;
}

static void scale_field(const struct scale *scale, enum mensur_field field, struct size *size) {
    double from = scale->model->measure[field].value;
    size->rule[field] = rule_of(scale, size, field);
    size->measure[field] = MENSUR_UNKNOWN;
    double factor = factor_of(scale, size, field, &size->exponent[field]);
    size->measure[field].value = from * factor;
    if (size->rule[field].by == MENSUR_SCALE_WITH_PROJECTION) {
        /* Of an assumed projection too, which goes with the stop. */
        const struct scale_rule of = rule_of(scale, size, MENSUR_FIELD_PROJECTION);
        double moved = of.by == MENSUR_SCALE_AS_BODY ? scale->setup.value[MENSUR_FIELD_PROJECTION] *
                                                           (pow(size->ratio, of.power) - 1.0)
                                                     : 0.0;
        size->measure[field].value = from + moved;
    }
}

/* The scaled model as a row that borrows the model's texts; a plan. */
static struct mensur_instrument row_of(const struct scale *scale, const struct size *size) {
    struct mensur_instrument row = *scale->model;
    memcpy(row.measure, size->measure, sizeof row.measure);
    row.built = false;
    return row;
}

static struct mensur_air air_of(const struct scale *scale,
                                const struct mensur_instrument *instrument) {
    struct mensur_body_air air;
    body_air_make(instrument, scale->setup.family, &air);
    return (struct mensur_air){air.body, air.outline, air.depth, air.volume, air.f_length};
}

/* By how much the ribs, which stand as on the model, must grow for the air note to stay, with an
 * exponent of its law; archings and edge are held. */
static double more_rib(const struct scale *scale, const struct size *size, double q) {
    const struct mensur_instrument row = row_of(scale, size);
    const struct mensur_air now = air_of(scale, scale->model), then = air_of(scale, &row);
    double depth = NAN;
    (void)mensur_air_depth_kept(&now, then.outline, then.f_length, q, &depth);
    return depth - then.depth;
}

/* Every measurement but the string length. */
static void scale_fields(const struct scale *scale, double ratio, struct size *size) {
    *size =
        (struct size){.ratio = ratio,
                      .rib_more = NAN,
                      .rib_more_least = NAN,
                      .rib_more_most = NAN,
                      .of = scale_class_of(scale->model->family, scale->body, scale->body * ratio)};
    scale_field(scale, MENSUR_FIELD_STOP, size); /* others follow it */
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        scale_field(scale, (enum mensur_field)f, size);
    }
    /* The note was measured on the model. */
    size->measure[MENSUR_FIELD_AIR_NOTE] = MENSUR_UNKNOWN;
    if (scale->scaling->keep_air) {
        double one = more_rib(scale, size, MENSUR_AIR_EXPONENT_LEAST);
        double other = more_rib(scale, size, MENSUR_AIR_EXPONENT_MOST);
        size->rib_more = more_rib(scale, size, MENSUR_AIR_EXPONENT);
        size->rib_more_least = fmin(one, other);
        size->rib_more_most = fmax(one, other);
        size->measure[MENSUR_FIELD_RIB].value += size->rib_more;
    }
}

/* The scaled string: by geometry, and what the measured one exceeds that by. */
static enum mensur_status length_of(const struct scale *scale, struct size *size,
                                    struct mensur_fault *fault, double *length) {
    struct setup setup;
    struct mensur_instrument row = row_of(scale, size);
    row.measure[MENSUR_FIELD_STRING_LENGTH] = MENSUR_UNKNOWN;
    enum mensur_status status =
        setup_make(scale->solver, scale->stock, &row, NULL, scale->hold, fault, &setup);
    if (status == MENSUR_OK) {
        *length = setup.string_length + scale->setup.length_excess;
    }
    return status;
}

/* A size with its string length. */
static enum mensur_status make_size(const struct scale *scale, double ratio,
                                    struct mensur_fault *fault, struct size *size) {
    double length = NAN;
    scale_fields(scale, ratio, size);
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        double value = size->measure[f].value;
        if (!isnan(value) && mensur_field_check((enum mensur_field)f, value) != MENSUR_OK) {
            mensur_fault_set(fault, "%s: %s would leave its domain in that size: it is %s",
                             scale->model->name, mensur_field_info((enum mensur_field)f)->name,
                             mensur_field_domain_text((enum mensur_field)f));
            return MENSUR_USE;
        }
    }
    if (size->measure[MENSUR_FIELD_STOP].value >= size->measure[MENSUR_FIELD_BODY].value) {
        mensur_fault_set(fault, "%s: the stop would be as long as the body in that size",
                         scale->model->name);
        return MENSUR_USE;
    }
    enum mensur_status status = length_of(scale, size, fault, &length);
    if (status == MENSUR_OK && scale->setup.measured) {
        size->measure[MENSUR_FIELD_STRING_LENGTH].value = length;
    }
    return status;
}

/* The scaled string less the wanted one. */
static double too_long(double ratio, void *context) {
    const struct scale *scale = context;
    struct size size;
    double length = NAN;
    scale_fields(scale, ratio, &size);
    return length_of(scale, &size, NULL, &length) == MENSUR_OK ? length - scale->wanted
                                                               : (double)NAN;
}

enum { LENGTH_ROOM = MENSUR_NUMBER_ROOM + sizeof " mm" };

static void tell_length_at(struct scale *scale, double ratio, char told[static LENGTH_ROOM]) {
    char length[MENSUR_NUMBER_ROOM];
    double off = too_long(ratio, scale);
    if (isnan(off)) {
        snprintf(told, LENGTH_ROOM, "none");
        return;
    }
    mensur_number_print(1e3 * (off + scale->wanted), 1, length);
    snprintf(told, LENGTH_ROOM, "%s mm", length);
}

/* The size whose string is as long as wanted: among those of its own rules, else below, else above
 * them. */
static enum mensur_status find_length(struct scale *scale, struct mensur_fault *fault,
                                      double *ratio) {
    const struct scale_bodies own = scale_bodies_of(scale->model->family, scale->body);
    const double step = 1e-6; /* off the end of the own bodies, where other rules hold */
    const double low = fmax(own.from / scale->body, least_ratio);
    const double high = fmin(own.to / scale->body, most_ratio);
    const double pieces[][2] = {{low, high}, {least_ratio, low - step}, {high + step, most_ratio}};
    for (size_t i = 0; i < sizeof pieces / sizeof pieces[0]; i++) {
        double found = NAN;
        if (pieces[i][0] < pieces[i][1] &&
            mensur_solve_root(scale->solver, too_long, scale, pieces[i][0], pieces[i][1], &found) ==
                MENSUR_OK) {
            *ratio = found;
            return MENSUR_OK;
        }
    }
    char at_least[LENGTH_ROOM], at_most[LENGTH_ROOM];
    tell_length_at(scale, least_ratio, at_least);
    tell_length_at(scale, most_ratio, at_most);
    mensur_fault_set(fault,
                     "%s: no size of it has that string length; half as long it has %s, twice as "
                     "long %s; ask for a body, and --string-length for its neck",
                     scale->model->name, at_least, at_most);
    return MENSUR_USE;
}

static enum mensur_status find_ratio(struct scale *scale, struct mensur_fault *fault,
                                     double *ratio) {
    const struct mensur_scaling *scaling = scale->scaling;
    enum mensur_status status = MENSUR_OK;
    double body = scaling->relative ? scale->body + scaling->value : scaling->value;
    switch (scaling->by) {
    case MENSUR_SCALE_TO_NOTHING:
        mensur_fault_set(fault, "say which size: body=395, string_length=370 or ratio=0.96");
        return MENSUR_USE;
    case MENSUR_SCALE_TO_BODY:
        *ratio = body / scale->body;
        break;
    case MENSUR_SCALE_TO_RATIO:
        *ratio = scaling->value;
        break;
    case MENSUR_SCALE_TO_STRING_LENGTH:
        scale->wanted =
            scaling->relative ? scale->setup.string_length + scaling->value : scaling->value;
        status = find_length(scale, fault, ratio);
        break;
    }
    if (status == MENSUR_OK && !(*ratio >= least_ratio && *ratio <= most_ratio)) {
        mensur_fault_set(fault, "%s: a model is scaled to between half and twice its size",
                         scale->model->name);
        return MENSUR_USE;
    }
    return status;
}

/* What cannot be kept is refused. */
static enum mensur_status check_kept(const struct scale *scale, struct mensur_fault *fault) {
    const char *name = scale->model->name;
    struct mensur_body_air air;
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        const char *field = mensur_field_info((enum mensur_field)f)->name;
        if (!is_kept(scale, (enum mensur_field)f)) {
            continue;
        }
        if (f == MENSUR_FIELD_BODY) {
            mensur_fault_set(fault, "the body is what changes; it cannot be kept");
            return MENSUR_USE;
        }
        if (f == MENSUR_FIELD_STRING_LENGTH) {
            mensur_fault_set(fault, "the string follows stop and neck; keep those, or wish for a "
                                    "neck with --string-length");
            return MENSUR_USE;
        }
        if (isnan(scale->model->measure[f].value)) {
            mensur_fault_set(fault, "%s: %s was not measured, so there is nothing to keep", name,
                             field);
            return MENSUR_USE;
        }
        if (scale->scaling->keep_air && f == MENSUR_FIELD_RIB) {
            mensur_fault_set(fault, "the air is kept by the ribs; keep one of the two");
            return MENSUR_USE;
        }
    }
    body_air_make(scale->model, scale->setup.family, &air);
    if (scale->scaling->keep_air && air.known != MENSUR_AIR_KNOWN) {
        mensur_fault_set(fault,
                         air.known == MENSUR_AIR_FLAT_BACK || air.known == MENSUR_AIR_CUT_SHOULDERS
                             ? "%s: the law of the air holds for an arched back with a violin's "
                               "shoulders alone"
                             : "%s: its air is not known; widths, rib, archings, edge, plate and "
                               "f_length must be measured",
                         name);
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

static enum mensur_status check_model(const struct scale *scale, struct mensur_fault *fault) {
    if (isnan(scale->body)) {
        mensur_fault_set(fault, "%s: its body was not measured, so it has no size to scale",
                         scale->model->name);
        return MENSUR_USE;
    }
    if (!scale->setup.has_geometry) {
        mensur_fault_set(fault,
                         "%s: stop, neck or set-up are not known, so there is no model to "
                         "scale",
                         scale->model->name);
        return MENSUR_NO_ANSWER;
    }
    return check_kept(scale, fault);
}

static enum mensur_status list_measures(const struct scale *scale, const struct size *size,
                                        struct mensur_scaled *out) {
    out->measures = calloc(MENSUR_FIELD_COUNT, sizeof *out->measures);
    for (int f = 0; out->measures != NULL && f < MENSUR_FIELD_COUNT; f++) {
        const struct mensur_quantity *from = &scale->model->measure[f];
        if (!isnan(from->value) && f != MENSUR_FIELD_AIR_NOTE) {
            out->measures[out->measure_count++] = (struct mensur_scaled_measure){
                .field = mensur_field_info((enum mensur_field)f)->name,
                .from = from->value,
                .to = size->measure[f].value,
                .exponent = size->exponent[f],
                .rule = size->rule[f].by,
                .power = size->rule[f].power};
        }
    }
    return out->measures == NULL ? MENSUR_MEMORY : MENSUR_OK;
}

static enum mensur_status add_cell(struct mensur_scaled *out, const char *head, const char *text,
                                   double length) {
    struct mensur_scaled_cell *cell = &out->cells[out->cell_count++];
    *cell = (struct mensur_scaled_cell){.head = head, .length = length};
    return text == NULL ? MENSUR_OK : mensur_text_copy(text, strlen(text), &cell->text);
}

/* The row as instruments.csv has it; a reader who opens it meets every column. */
static enum mensur_status list_cells(const struct mensur_instrument *row,
                                     struct mensur_scaled *out) {
    const struct {
        const char *head, *text;
    } before[] = {{"name", out->name},
                  {"family", row->family},
                  {"tuning", row->tuning},
                  {"strings", row->set}};
    enum { TEXTS = sizeof before / sizeof before[0] };
    enum mensur_status status = MENSUR_OK;
    out->cells = calloc(TEXTS + MENSUR_FIELD_COUNT + 2, sizeof *out->cells);
    if (out->cells == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 0; i < TEXTS && status == MENSUR_OK; i++) {
        status = add_cell(out, before[i].head, before[i].text, NAN);
    }
    for (int f = 0; f < MENSUR_FIELD_COUNT && status == MENSUR_OK; f++) {
        status = add_cell(out, mensur_field_info((enum mensur_field)f)->name, NULL,
                          row->measure[f].value);
    }
    if (status == MENSUR_OK) {
        status = add_cell(out, "built", "no", NAN);
    }
    return status == MENSUR_OK ? add_cell(out, "note", NULL, NAN) : status;
}

/* The model's name and the body in mm, or as was asked. */
static enum mensur_status name_scaled(const struct scale *scale, double body, char **out) {
    char number[MENSUR_NUMBER_ROOM];
    const char *model = scale->model->name;
    if (scale->scaling->name != NULL) {
        return mensur_text_copy(scale->scaling->name, strlen(scale->scaling->name), out);
    }
    size_t digits = mensur_number_print_significant(mensur_from_si(MENSUR_LENGTH, body), 4, number);
    size_t length = strlen(model);
    char *made = malloc(length + digits + 2);
    if (made == NULL) {
        return MENSUR_MEMORY;
    }
    memcpy(made, model, length + 1);
    made[length] = ' ';
    memcpy(made + length + 1, number, digits);
    made[length + 1 + digits] = '\0';
    *out = made;
    return MENSUR_OK;
}

static enum mensur_status fill(const struct scale *scale, const struct size *size,
                               struct mensur_scaled *out, struct mensur_instrument *scaled) {
    struct mensur_instrument row = row_of(scale, size);
    const char *model = scale->model->name;
    out->ratio = size->ratio;
    out->body = scale->body * size->ratio;
    out->rib_more = size->rib_more;
    out->rib_more_least = size->rib_more_least;
    out->rib_more_most = size->rib_more_most;
    enum mensur_status status = mensur_text_copy(model, strlen(model), &out->model);
    if (status == MENSUR_OK) {
        status = name_scaled(scale, out->body, &out->name);
    }
    row.name = out->name;
    row.line = 0;
    row.owners = (struct mensur_owners){NULL, 0};
    if (status == MENSUR_OK) {
        status = list_measures(scale, size, out);
    }
    if (status == MENSUR_OK) {
        status = list_cells(&row, out);
    }
    return status == MENSUR_OK ? mensur_instrument_copy(&row, scaled) : status;
}

void mensur_scaled_clear(struct mensur_scaled *scaled) {
    for (size_t i = 0; scaled->cells != NULL && i < scaled->cell_count; i++) {
        free(scaled->cells[i].text);
    }
    free(scaled->cells);
    free(scaled->measures);
    free(scaled->model);
    free(scaled->name);
    memset(scaled, 0, sizeof *scaled);
}

enum mensur_status mensur_ask_scale(const struct mensur_stock *stock,
                                    const struct mensur_instrument *model,
                                    const struct mensur_scaling *scaling,
                                    const struct mensur_terms *terms, struct mensur_fault *fault,
                                    struct mensur_scaled *out, struct mensur_instrument *scaled) {
    struct scale scale = {.stock = stock,
                          .model = model,
                          .scaling = scaling,
                          .hold = terms->hold,
                          .body = model->measure[MENSUR_FIELD_BODY].value};
    struct mensur_scaled made = {.model = NULL};
    struct size size;
    double ratio = NAN;
    enum mensur_status status = mensur_solver_make(&scale.solver);
    if (status == MENSUR_OK) {
        status = setup_make(scale.solver, stock, model, NULL, terms->hold, fault, &scale.setup);
    }
    if (status == MENSUR_OK) {
        status = check_model(&scale, fault);
    }
    if (status == MENSUR_OK) {
        status = find_ratio(&scale, fault, &ratio);
    }
    if (status == MENSUR_OK) {
        status = make_size(&scale, ratio, fault, &size);
    }
    if (status == MENSUR_OK) {
        status = fill(&scale, &size, &made, scaled);
    }
    mensur_solver_free(scale.solver);
    if (status != MENSUR_OK) {
        mensur_scaled_clear(&made);
        return tell_memory(status, fault);
    }
    *out = made;
    return MENSUR_OK;
}
