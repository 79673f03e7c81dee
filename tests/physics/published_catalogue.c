/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Topic 3 of the published table: what the catalogue says of wire and materials. */
#include "published_checks.h"

#include "check.h"
#include "stock.h"

#define MPA_PER_KSI 6.894757 /* as the table converts */

static const char *inputs(const struct published_row *row) {
    return row->cells[INPUTS];
}

static const struct mensur_wire_strength *wire_of(const struct published_row *row) {
    double diameter = number_after(inputs(row), "in = ") / 1000;
    for (size_t i = 0; i < published_stock->wire_count; i++) {
        if (fabs(published_stock->wires[i].diameter - diameter) < 1e-8) {
            return &published_stock->wires[i];
        }
    }
    print_error("the catalogue has no wire of \"%s\"\n", inputs(row));
    fail();
    return NULL;
}

/* The least that the standard asks for and the most that it allows, ksi. */
static size_t wire(const struct published_row *row, double *out) {
    const struct mensur_wire_strength *found = wire_of(row);
    double most = number_after(row->cells[EXPECTED], "-");
    check_close(inputs(row), found->strength_high * 1e-6 / MPA_PER_KSI, most, 1, 0);
    out[0] = found->strength_low * 1e-6 / MPA_PER_KSI;
    return 1;
}

static const struct mensur_material *material(const char *name) {
    const struct mensur_material *found = mensur_stock_material(published_stock, name);
    assert_non_null(found);
    return found;
}

/* kg/m3 of the named materials, times a factor. */
static size_t densities(const char *const *names, size_t count, double factor, double *out) {
    for (size_t i = 0; i < count; i++) {
        out[i] = material(names[i])->density * factor;
    }
    return count;
}

static size_t moduli(const char *const *names, size_t count, double *out) {
    for (size_t i = 0; i < count; i++) {
        out[i] = material(names[i])->modulus * 1e-9;
    }
    return count;
}

static size_t common_densities(const struct published_row *row, double *out) {
    static const char *const names[] = {"aluminium", "brass", "copper", "tungsten"};
    (void)row;
    return densities(names, COUNT_OF(names), 1, out);
}

static size_t exact_densities(const struct published_row *row, double *out) {
    static const char *const names[] = {"aluminium", "nickel", "silver", "tungsten"};
    (void)row;
    return densities(names, COUNT_OF(names), 1e-3, out);
}

static size_t copper(const struct published_row *row, double *out) {
    static const char *const names[] = {"copper"};
    (void)row;
    return densities(names, 1, 1e-3, out);
}

static size_t metal_moduli(const struct published_row *row, double *out) {
    static const char *const names[] = {"aluminium", "brass", "copper", "nickel", "steel"};
    (void)row;
    return moduli(names, COUNT_OF(names), out);
}

static size_t more_moduli(const struct published_row *row, double *out) {
    static const char *const names[] = {"steel", "nylon"};
    (void)row;
    return moduli(names, COUNT_OF(names), out);
}

static size_t pvdf(const struct published_row *row, double *out) {
    static const char *const names[] = {"PVDF"};
    (void)row;
    return moduli(names, 1, out);
}

static size_t spring_steel(const struct published_row *row, double *out) {
    (void)row;
    out[0] = material("steel")->density * 1e-3;
    out[1] = material("steel")->modulus * 1e-9;
    return 2;
}

#define T3 "3 materials"
#define WIRE "music wire tensile strength min-max"
#define KSI(inputs, least)                                                                         \
    { T3, WIRE, inputs, wire, least, "1" }

/* Moduli of one metal differ by a tenth between published tables, densities by half a hundredth. */
const struct published_check catalogue_checks[] = {
    KSI("d=0.004 in = 0.1016 mm", "439"),
    KSI("d=0.008 in = 0.2032 mm", "399"),
    KSI("d=0.010 in = 0.2540 mm", "387"),
    KSI("d=0.012 in = 0.3048 mm", "377"),
    KSI("d=0.014 in = 0.3556 mm", "369"),
    KSI("d=0.016 in = 0.4064 mm", "362"),
    KSI("d=0.018 in = 0.4572 mm", "356"),
    KSI("d=0.020 in = 0.5080 mm", "350"),
    KSI("d=0.024 in = 0.6096 mm", "341"),
    KSI("d=0.028 in = 0.7112 mm", "333"),
    KSI("d=0.032 in = 0.8128 mm", "327"),
    KSI("d=0.040 in = 1.0160 mm", "315"),
    {T3, "spring steel density; E; G", "EN 10270-1 wire", spring_steel, "7.85; 206", "0.5 %"},
    {T3, "Young's modulus of metals", "aluminium; brass; copper; iron; nickel; steel", metal_moduli,
     "70; 90; 110; 210; 200", "10 %"},
    {T3, "Young's modulus", "steel; nylon; silk; tendon; hair", more_moduli, "210; 5", "10 %"},
    {T3, "density", "aluminium; brass; copper; iron; gold; tungsten", common_densities,
     "2700; 8440; 8920; 19300", "0.5 %"},
    {T3, "density", "aluminium; iron; nickel; silver; tungsten; gold; chromium", exact_densities,
     "2.7; 8.908; 10.49; 19.3", "0.2 %"},
    {T3, "density of copper (IACS)", "20 C", copper, "8.89", "0.5 %"},
    {T3, "PVDF E, highly oriented film", "solid-state coextruded, draw ratio up to 5.3", pvdf,
     "4.0", "0.5 %"},
};
const size_t catalogue_check_count = COUNT_OF(catalogue_checks);
