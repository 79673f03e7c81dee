/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "demo.h"

#include <gsl/gsl_errno.h>

static const struct {
    const char *name;
    size_t offset;
} wanted[] = {
    {"heron", offsetof(struct demo, heron)},     {"kestrel", offsetof(struct demo, kestrel)},
    {"wren", offsetof(struct demo, wren)},       {"swift", offsetof(struct demo, swift)},
    {"bittern", offsetof(struct demo, bittern)}, {"dipper", offsetof(struct demo, dipper)}};

static struct mensur_instrument *place_of(struct demo *demo, size_t i) {
    return (struct mensur_instrument *)(void *)((char *)demo + wanted[i].offset);
}

static enum mensur_status keep(void *context, const struct mensur_instrument *instrument) {
    for (size_t i = 0; i < COUNT_OF(wanted); i++) {
        if (strcmp(wanted[i].name, instrument->name) == 0) {
            return mensur_instrument_copy(instrument, place_of(context, i));
        }
    }
    return MENSUR_OK;
}

int demo_open(void **state) {
    struct demo *demo = calloc(1, sizeof *demo);
    struct mensur_report report = {.errors = {0}};
    gsl_set_error_handler_off();
    if (demo == NULL || mensur_shop_open(NULL, &report, &demo->shop) != MENSUR_OK) {
        return -1;
    }
    mensur_terms_init(&demo->terms);
    *state = demo;
    return mensur_shop_instruments(&demo->shop, true, keep, demo, &report) == MENSUR_OK &&
                   report.warnings.count == 0
               ? 0
               : -1;
}

int demo_close(void **state) {
    struct demo *demo = *state;
    for (size_t i = 0; i < COUNT_OF(wanted); i++) {
        mensur_instrument_clear(place_of(demo, i));
    }
    mensur_shop_clear(&demo->shop);
    free(demo);
    return 0;
}

void demo_set(struct mensur_instrument *instrument, enum mensur_field field, double mm) {
    instrument->measure[field] = (struct mensur_quantity){.value = mm / 1000.0};
}

void demo_own_strings(const struct demo *demo, size_t more, struct mensur_stock *out) {
    *out = demo->shop.stock;
    out->string_count += more;
    out->strings = calloc(out->string_count, sizeof *out->strings);
    assert_non_null(out->strings);
    for (size_t i = 0; i < more; i++) {
        mensur_string_spec_init(&out->strings[i]);
    }
    memcpy(out->strings + more, demo->shop.stock.strings,
           demo->shop.stock.string_count * sizeof *out->strings);
}

void demo_bare_violin(struct mensur_instrument *out) {
    demo_model_violin(out);
    free(out->family);
    out->family = NULL;
}

void demo_model_violin(struct mensur_instrument *out) {
    static const struct {
        enum mensur_field field;
        double mm;
    } values[] = {
        {MENSUR_FIELD_BODY, 355},  {MENSUR_FIELD_BACK_ARCH, 11},  {MENSUR_FIELD_STOP, 195},
        {MENSUR_FIELD_NECK, 130},  {MENSUR_FIELD_OVERSTAND, 6.5}, {MENSUR_FIELD_BOARD, 10},
        {MENSUR_FIELD_NUT, 0.4},   {MENSUR_FIELD_ARCH, 11.5},     {MENSUR_FIELD_PROJECTION, 27},
        {MENSUR_FIELD_BRIDGE, 33}, {MENSUR_FIELD_SADDLE, 4}};
    mensur_instrument_init(out);
    (void)mensur_text_copy("model violin", 12, &out->name);
    (void)mensur_text_copy("violin", 6, &out->family);
    for (size_t i = 0; i < COUNT_OF(values); i++) {
        demo_set(out, values[i].field, values[i].mm);
    }
}
