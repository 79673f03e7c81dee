/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shipped files, read by the reader: no error, no warning, no missing source. */
#include "reading.h"

struct walk {
    const struct mensur_shop *shop;
    size_t count;
};

static enum mensur_status look(void *context, const struct mensur_instrument *instrument) {
    struct walk *walk = context;
    const struct mensur_stock *stock = &walk->shop->stock;
    const struct mensur_family *family = mensur_stock_family(stock, instrument->family);
    const struct mensur_tuning *tuning = mensur_stock_tuning(
        stock, instrument->tuning != NULL ? instrument->tuning : instrument->family);
    walk->count++;
    assert_non_null(family);
    assert_non_null(tuning);
    for (size_t i = 0; instrument->set != NULL && i < tuning->count; i++) {
        assert_non_null(mensur_stock_set_string(stock, instrument->set, &tuning->notes[i]));
    }
    return MENSUR_OK;
}

static void reads_without_a_word(void **state) {
    (void)state;
    struct mensur_report report = {0};
    struct mensur_shop shop;
    const char *const nothing[] = {NULL};
    enum mensur_status status = mensur_shop_open(NULL, &report, &shop);
    check_messages("tables", &report.errors, nothing);
    check_status("tables", status, MENSUR_OK);
    struct walk walk = {&shop, 0};
    status = mensur_shop_instruments(&shop, true, look, &walk, &report);
    check_messages("instruments", &report.errors, nothing);
    check_messages("warnings", &report.warnings, nothing);
    check_status("instruments", status, MENSUR_OK);
    assert_true(walk.count >= 6);
    assert_string_equal(shop.label, "demonstration");
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        assert_true(shop.sources[i].built_in);
        assert_true(shop.sources[i].rows > 0);
    }
    mensur_report_clear(&report);
    mensur_shop_clear(&shop);
    mensur_shop_clear(&shop);
}

/* Every string and material names its source. */
static void every_string_and_material_has_a_source(void **state) {
    (void)state;
    struct mensur_report report = {0};
    struct mensur_shop shop;
    check_status("open", mensur_shop_open(NULL, &report, &shop), MENSUR_OK);
    for (size_t i = 0; i < shop.stock.string_count; i++) {
        assert_non_null(shop.stock.strings[i].source);
    }
    for (size_t i = 0; i < shop.stock.material_count; i++) {
        assert_non_null(shop.stock.materials[i].source);
    }
    for (size_t i = 0; i < shop.stock.wire_count; i++) {
        assert_non_null(shop.stock.wires[i].source);
    }
    for (size_t i = 0; i < shop.stock.family_count; i++) {
        assert_non_null(shop.stock.families[i].source);
    }
    mensur_report_clear(&report);
    mensur_shop_clear(&shop);
}

/* The four files of strings are built in as one table with one first row. */
static void joins_the_strings(void **state) {
    (void)state;
    size_t size;
    const unsigned char *bytes = mensur_built_in(MENSUR_TABLE_STRINGS, &size);
    char *text = malloc(size + 1);
    assert_non_null(text);
    memcpy(text, bytes, size);
    text[size] = '\0';
    assert_memory_equal(text, "name,note,", 10);
    assert_null(strstr(text + 10, "name,note,"));
    assert_int_equal(text[size - 1], '\n');
    free(text);
    assert_string_equal(mensur_table_file(MENSUR_TABLE_WIRES), "wire_strength.csv");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_without_a_word),
        cmocka_unit_test(every_string_and_material_has_a_source),
        cmocka_unit_test(joins_the_strings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
