/* SPDX-License-Identifier: GPL-3.0-or-later */
/* CSV: cells, and whole answers read back by libcsv. */
#include "fixtures.h"

#include <csv.h>

#include "csv_cells.h"

static const struct mensur_style csv_style = {.format = MENSUR_FORMAT_CSV,
                                              .inches = true, /* text alone heeds these two */
                                              .force_unit = MENSUR_FORCE_LB};

static const struct {
    const char *text, *want;
} cells[] = {
    {"kestrel", "kestrel"},
    {NULL, ""},
    {"", ""},
    {"a, b", "\"a, b\""},
    {"8-3/4\"", "\"8-3/4\"\"\""},
    {"\"\"", "\"\"\"\"\"\""},
    {"two\nlines", "\"two\nlines\""},
    {"=1+1", "'=1+1"},
    {"+49", "'+49"},
    {"-3", "'-3"},
    {"@x", "'@x"},
    {"\tx", "'\tx"},
    {"\rx", "\"'\rx\""},
    {"=a,\"b\"", "\"'=a,\"\"b\"\"\""},
    {"a=b", "a=b"},
};

static void test_cells(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(cells); i++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_out out;
        mensur_out_open(&out, &sink, false);
        struct mensur_csv row = {.out = &out};
        mensur_csv_text(&row, "", cells[i].text);
        mensur_csv_text(&row, "", "end");
        mensur_csv_end(&row);
        mensur_out_flush(&out);
        char want[64];
        snprintf(want, sizeof(want), "%s,end\n", cells[i].want);
        assert_string_equal(memory.bytes, want);
        memory_sink_clear(&memory);
    }
}

static void test_numbers(void **state) {
    (void)state;
    static const struct {
        enum mensur_kind kind;
        double si;
        const char *want;
    } of[] = {
        {MENSUR_LENGTH, 0.3618933712, "361.8934"},
        {MENSUR_LENGTH, 0.41, "410.0000"},
        {MENSUR_LENGTH, -1e-9, "0.0000"},
        {MENSUR_FORCE, 43.29741234, "43.2974"},
        {MENSUR_NUMBER, 0.000126281411, "0.000126281"},
        {MENSUR_NUMBER, NAN, ""},
        {MENSUR_FORCE, INFINITY, ""},
        {MENSUR_LINEAR_DENSITY, 0.0042713, "4.2713"},
    };
    for (size_t i = 0; i < COUNT_OF(of); i++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_out out;
        mensur_out_open(&out, &sink, false);
        struct mensur_csv row = {.out = &out};
        mensur_csv_number(&row, "", of[i].kind, of[i].si);
        mensur_csv_end(&row);
        mensur_out_flush(&out);
        memory.bytes[memory.length - 1] = '\0';
        assert_string_equal(memory.bytes, of[i].want);
        memory_sink_clear(&memory);
    }
}

/* A table read back: the most columns and rows that a test here has. */
struct table {
    char *cells[64][64];
    size_t rows, columns, used;
};

static void keep_cell(void *bytes, size_t length, void *context) {
    struct table *table = context;
    assert_true(table->rows < 64 && table->used < 64);
    assert_int_equal(mensur_text_copy(bytes != NULL ? bytes : "", length,
                                      &table->cells[table->rows][table->used++]),
                     MENSUR_OK);
}

/* Every row has as many cells as the head. */
static void keep_row(int end, void *context) {
    (void)end;
    struct table *table = context;
    if (table->rows == 0) {
        table->columns = table->used;
    }
    assert_int_equal(table->used, table->columns);
    table->rows++;
    table->used = 0;
}

static struct table *read_back(const char *bytes) {
    struct csv_parser parser;
    struct table *table = calloc(1, sizeof(*table));
    assert_non_null(table);
    assert_int_equal(csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI), 0);
    assert_int_equal(csv_parse(&parser, bytes, strlen(bytes), keep_cell, keep_row, table),
                     strlen(bytes));
    assert_int_equal(csv_fini(&parser, keep_cell, keep_row, table), 0);
    csv_free(&parser);
    return table;
}

static void table_clear(struct table *table) {
    for (size_t i = 0; i < table->rows; i++) {
        for (size_t j = 0; j < table->columns; j++) {
            free(table->cells[i][j]);
        }
    }
    free(table);
}

/* The cell under a key; fails where there is no such key. */
static const char *cell(const struct table *table, size_t row, const char *key) {
    for (size_t i = 0; i < table->columns; i++) {
        if (strcmp(table->cells[0][i], key) == 0) {
            assert_true(row < table->rows);
            return table->cells[row][i];
        }
    }
    fail_msg("no column %s", key);
    return NULL;
}

/* The owner's columns stand behind the lengths, under their own heads: one that is a key is told
 * apart, a text that is a formula is made harmless, a number is left alone, and no cells at all are
 * empty ones. */
static void test_owners(void **state) {
    static const char *const heads[] = {"price", "instrument", "=head", "stop_mm",
                                        "note, \"of mine\""};
    struct mensur_texts owners = {0};
    struct mensur_heading heading = fixture_heading;
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_presenter *presenter = NULL;
    struct fixture *fixture = fixture_make();
    (void)state;
    heading.owners = &owners;
    for (size_t i = 0; i < COUNT_OF(heads); i++) {
        assert_int_equal(mensur_texts_add(&owners, "%s", heads[i]), MENSUR_OK);
    }
    assert_int_equal(mensur_present_open(&heading, &csv_style, &sink, &presenter), MENSUR_OK);
    mensur_present_set_owners(presenter, "-5\0a, \"b\"\0+49\0=1+1\0-x\0");
    assert_int_equal(mensur_present_profile(presenter, &fixture->kestrel), MENSUR_OK);
    mensur_present_set_owners(presenter, NULL);
    assert_int_equal(mensur_present_profile(presenter, &fixture->heron), MENSUR_OK);
    assert_int_equal(mensur_present_close(presenter, true), MENSUR_OK);
    struct table *table = read_back(memory.bytes);
    assert_string_equal(cell(table, 1, "price"), "-5");
    assert_string_equal(cell(table, 1, "own_instrument"), "a, \"b\"");
    assert_string_equal(cell(table, 1, "'=head"), "+49");
    assert_string_equal(cell(table, 1, "own_stop_mm"), "'=1+1");
    assert_string_equal(cell(table, 1, "note, \"of mine\""), "'-x");
    assert_string_equal(cell(table, 2, "price"), "");
    assert_string_equal(cell(table, 2, "note, \"of mine\""), "");
    table_clear(table);
    memory_sink_clear(&memory);
    mensur_texts_clear(&owners);
    fixture_clear(fixture);
}

static struct table *answer(size_t i, const struct fixture *fixture) {
    struct memory_sink memory = {0};
    check_status(presentations[i].command,
                 present_all(&presentations[i], fixture, &csv_style, &memory), MENSUR_OK);
    struct table *table = read_back(memory.bytes);
    memory_sink_clear(&memory);
    return table;
}

static const struct {
    size_t presentation;
    size_t rows; /* without the head */
    struct {
        size_t row;
        const char *key, *want;
    } cells[8];
} answers[] = {
    {0,
     2,
     {{1, "instrument", "kestrel"},
      {1, "neck_mm", "144.0000"},
      {1, "string_length_measured", "false"},
      {2, "string_length_measured", "true"},
      {2, "neck_mm", ""},
      {2, "string_length_mm", "358.0000"}}},
    {1, 6, {{6, "instrument", "dipper"}, {5, "bow_room_mm", "60.3950"}}},
    {2,
     8,
     {{1, "note", "C3"},
      {4, "string", ""},
      {4, "tension_N", ""},
      {8, "instrument", "heron"},
      {1, "in_made_for_range", "false"},
      {2, "in_made_for_range", "true"},
      {3, "in_made_for_range", ""},
      {1, "made_for_low_mm", "370.0000"}}},
    {3,
     25,
     {{1, "semitones", "0"},
      {25, "to_next_mm", ""},
      {13, "from_nut_mm", "181.1850"},
      {1, "frame_semitones", "5"}}},
    {4,
     3,
     {{1, "row", "instrument"},
      {3, "row", "difference"},
      {3, "instrument", "heron"},
      {3, "stop_mm", "8.0000"},
      {3, "string_length_measured", ""},
      {2, "total_tension_N", "151.37"}}},
    {5, 3, {{2, "instrument", "kestrel"}}},
    {6,
     14,
     {{4, "present", "true"},
      {11, "recommended", "true"},
      {1, "neck_mm", "141.0000"},
      {1, "tension_A4_N", ""},
      {1, "tension_C3_N", "48.31"},
      {1, "bow_reach_mm", "194.9000"}}},
    {7, 41, {{1, "stop_mm", "211.0000"}, {41, "recommended", "false"}}},
    {8, 8, {{1, "choice", "1"}, {8, "choice", "2"}, {5, "off_aim_N", "5.13"}, {2, "kept", "true"}}},
    {9, 2, {{2, "file", "players.csv"}, {2, "rows", "3"}, {2, "warnings", "1"}}},
};

static void test_answers(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < COUNT_OF(answers); i++) {
        struct table *table = answer(answers[i].presentation, fixture);
        assert_int_equal(table->rows, answers[i].rows + 1);
        for (size_t j = 0; j < 8 && answers[i].cells[j].key != NULL; j++) {
            assert_string_equal(cell(table, answers[i].cells[j].row, answers[i].cells[j].key),
                                answers[i].cells[j].want);
        }
        table_clear(table);
    }
    fixture_clear(fixture);
}

/* Agreed keys first, then the tensions, then what came later. */
static void test_order_of_a_step(void **state) {
    (void)state;
    static const char *const keys[] = {"instrument",
                                       "neck_mm",
                                       "string_length_mm",
                                       "stop_per_2_neck",
                                       "body_at_semitones",
                                       "left_reach_mm",
                                       "bow_room_mm",
                                       "tension_C3_N",
                                       "tension_G3_N",
                                       "tension_D4_N",
                                       "tension_A4_N",
                                       "total_tension_N",
                                       "total_force_on_belly_N",
                                       "bow_reach_mm",
                                       "present",
                                       "recommended"};
    struct fixture *fixture = fixture_make();
    struct table *table = answer(6, fixture);
    assert_int_equal(table->columns, COUNT_OF(keys));
    for (size_t i = 0; i < COUNT_OF(keys); i++) {
        assert_string_equal(table->cells[0][i], keys[i]);
    }
    table_clear(table);
    fixture_clear(fixture);
}

/* Any name comes back whole, but for the apostrophe that keeps it from being a formula. */
static void test_awkward_names(void **state) {
    (void)state;
    for (size_t i = 0; i < awkward_name_count; i++) {
        const char *name = awkward_names[i];
        struct fixture *fixture = fixture_make();
        free(fixture->kestrel.instrument);
        assert_int_equal(mensur_text_copy(name, strlen(name), &fixture->kestrel.instrument),
                         MENSUR_OK);
        for (size_t j = 0; j < 4; j++) {
            struct table *table = answer(j, fixture);
            const char *back = cell(table, 1, "instrument");
            assert_string_equal(back + (*name == '=' ? 1 : 0), name);
            assert_true(*name != '=' || *back == '\'');
            table_clear(table);
        }
        fixture_clear(fixture);
    }
}

static enum mensur_status nothing(struct mensur_presenter *presenter,
                                  const struct fixture *fixture) {
    (void)presenter;
    (void)fixture;
    return MENSUR_OK;
}

static void test_no_row(void **state) {
    (void)state;
    static const struct {
        const char *command, *head;
    } of[] = {{"lengths", "instrument,body_mm,"},
              {"tension", "instrument,string_length_mm,string,note,"},
              {"fingers", "instrument,string_length_mm,frame_semitones,semitones,"},
              {"check", ""}};
    for (size_t i = 0; i < COUNT_OF(of); i++) {
        char *text = presented(nothing, of[i].command, NULL, csv_style);
        text = text != NULL ? text : calloc(1, 1);
        assert_memory_equal(text, of[i].head, strlen(of[i].head));
        free(text);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_cells),         cmocka_unit_test(test_numbers),
        cmocka_unit_test(test_answers),       cmocka_unit_test(test_order_of_a_step),
        cmocka_unit_test(test_awkward_names), cmocka_unit_test(test_owners),
        cmocka_unit_test(test_no_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
