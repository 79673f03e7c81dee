/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Instruments and the stock: initialise, copy, find by name, clear. */
#include "check.h"

#include "stock.h"
#include "texts.h"

static char *own(const char *text) {
    char *copy = NULL;
    check_status(text, mensur_text_copy(text, strlen(text), &copy), MENSUR_OK);
    return copy;
}

static void starts_unknown(void **state) {
    (void)state;
    struct mensur_instrument instrument;
    mensur_instrument_init(&instrument);
    assert_null(instrument.name);
    for (int i = 0; i < MENSUR_FIELD_COUNT; i++) {
        check_close("unknown", instrument.measure[i].value, NAN, 0, 0);
        check_close("not stated", instrument.measure[i].plus_minus, 0, 0, 0);
    }
}

static void copies_its_texts(void **state) {
    (void)state;
    struct mensur_instrument instrument, copy;
    mensur_instrument_init(&instrument);
    instrument.name = own("heron");
    instrument.set = own("gut");
    instrument.line = 17;
    instrument.owners = (struct mensur_owners){malloc(6), 6};
    assert_non_null(instrument.owners.cells);
    memcpy(instrument.owners.cells, "12,5\0", 6); /* a second cell, empty */
    instrument.measure[MENSUR_FIELD_NECK] = (struct mensur_quantity){0.1505, 0.0003};
    check_status("copy", mensur_instrument_copy(&instrument, &copy), MENSUR_OK);
    assert_ptr_not_equal(copy.name, instrument.name);
    mensur_instrument_clear(&instrument);
    assert_null(instrument.name);
    check_close("cleared", instrument.measure[MENSUR_FIELD_NECK].value, NAN, 0, 0);
    assert_string_equal(copy.name, "heron");
    assert_string_equal(copy.set, "gut");
    assert_null(copy.family);
    assert_int_equal(copy.line, 17);
    assert_int_equal(copy.owners.size, 6);
    assert_memory_equal(copy.owners.cells, "12,5\0", 6);
    check_close("neck", copy.measure[MENSUR_FIELD_NECK].value, 0.1505, 0, 0);
    check_close("neck", copy.measure[MENSUR_FIELD_NECK].plus_minus, 0.0003, 0, 0);
    mensur_instrument_clear(&copy);
    mensur_instrument_clear(&copy);
}

static void reads_what_is_built(void **state) {
    (void)state;
    static const struct {
        const char *word;
        int built; /* -1: refused */
    } words[] = {{"yes", 1}, {"YES", 1},   {"Yes", 1},   {"no", 0},   {"No", 0},
                 {"", -1},   {"ye", -1},   {"yess", -1}, {"y", -1},   {"n", -1},
                 {"1", -1},  {"true", -1}, {"nope", -1}, {"not", -1}, {"N O", -1}};
    for (size_t i = 0; i < COUNT_OF(words); i++) {
        bool built = words[i].built != 1;
        bool read = mensur_built_read(words[i].word, &built);
        if (read != (words[i].built >= 0) || (read && built != (words[i].built == 1))) {
            fail_msg("\"%s\"", words[i].word);
        }
    }
}

static void add_string(struct mensur_stock *stock, const char *name, const char *set,
                       const char *note) {
    struct mensur_string_spec *string = &stock->strings[stock->string_count++];
    mensur_string_spec_init(string);
    string->name = own(name);
    string->set = set != NULL ? own(set) : NULL;
    check_status(note, mensur_note_read(note, strlen(note), &string->note), MENSUR_OK);
}

static void make_stock(struct mensur_stock *stock) {
    *stock = (struct mensur_stock){0};
    stock->families = calloc(2, sizeof(*stock->families));
    stock->families[stock->family_count++].name = own("viola");
    stock->families[stock->family_count++].name = own("cello");
    stock->tunings = calloc(1, sizeof(*stock->tunings));
    stock->tunings[stock->tuning_count++].name = own("viola");
    stock->materials = calloc(1, sizeof(*stock->materials));
    stock->materials[stock->material_count++].name = own("gut");
    stock->players = calloc(1, sizeof(*stock->players));
    stock->players[stock->player_count++].name = own("tall");
    stock->wires = calloc(1, sizeof(*stock->wires));
    stock->wires[stock->wire_count++].material = own("steel");
    stock->strings = calloc(4, sizeof(*stock->strings));
    add_string(stock, "loose", NULL, "A4");
    add_string(stock, "one", "first", "A4");
    add_string(stock, "two", "second", "A4");
    add_string(stock, "three", "second", "F#3");
}

static void finds_by_name(void **state) {
    (void)state;
    struct mensur_stock stock;
    make_stock(&stock);
    assert_ptr_equal(mensur_stock_family(&stock, "cello"), &stock.families[1]);
    assert_null(mensur_stock_family(&stock, "Cello"));
    assert_null(mensur_stock_family(&stock, NULL));
    assert_ptr_equal(mensur_stock_tuning(&stock, "viola"), &stock.tunings[0]);
    assert_null(mensur_stock_tuning(&stock, "cello"));
    assert_ptr_equal(mensur_stock_material(&stock, "gut"), &stock.materials[0]);
    assert_null(mensur_stock_material(&stock, NULL));
    assert_ptr_equal(mensur_stock_player(&stock, "tall"), &stock.players[0]);
    assert_null(mensur_stock_player(&stock, "small"));
    mensur_stock_clear(&stock);
    assert_int_equal(stock.string_count, 0);
    mensur_stock_clear(&stock);
}

static void finds_the_string_of_a_set(void **state) {
    (void)state;
    struct mensur_stock stock;
    struct mensur_note a4, gb3, fs3;
    make_stock(&stock);
    mensur_note_read("A4", 2, &a4);
    mensur_note_read("Gb3", 3, &gb3);
    mensur_note_read("F#3", 3, &fs3);
    assert_string_equal(mensur_stock_set_string(&stock, "second", &a4)->name, "two");
    assert_string_equal(mensur_stock_set_string(&stock, "second", &fs3)->name, "three");
    assert_null(mensur_stock_set_string(&stock, "second", &gb3));
    assert_null(mensur_stock_set_string(&stock, "first", &fs3));
    assert_null(mensur_stock_set_string(&stock, "third", &a4));
    assert_null(mensur_stock_set_string(&stock, NULL, &a4));
    mensur_stock_clear(&stock);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(starts_unknown),
        cmocka_unit_test(copies_its_texts),
        cmocka_unit_test(reads_what_is_built),
        cmocka_unit_test(finds_by_name),
        cmocka_unit_test(finds_the_string_of_a_set),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
