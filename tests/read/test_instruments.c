/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of instruments.csv: cells, measurements that contradict each other, names looked up. */
#include "reading.h"

#define FAMILIES                                                                                   \
    "name,held,frame_semitones,positions,edge\n"                                                   \
    "viola,chin,5,1 2 4 5,4.2\n"                                                                   \
    "cello,knee,3,1 2 4 5,\n"
#define TUNINGS "name,notes\nviola,C3 G3 D4 A4\nhigh,F#4 B4\nlow,E1 A1\n"
#define STRINGS                                                                                    \
    "name,note,set,linear_density\n"                                                               \
    "c,C3,gut,16\ng,G3,gut,7\nd,D4,gut,3.4\na,A4,gut,1.8\nb,B4,thin,1\nloose,A4,,1.8\n"
#define HEAD                                                                                       \
    "name,family,tuning,strings,stop,neck,string_length,body,body_straight,"                       \
    "arch,arch_full,edge,projection,bridge,saddle,note,built\n"

static void read_rows(const char *rows, struct outcome *got) {
    static char text[2000]; /* must be valid as long as the shop */
    snprintf(text, sizeof(text), HEAD "%s", rows);
    const struct given given[] = {{MENSUR_TABLE_INSTRUMENTS, text, 0},
                                  {MENSUR_TABLE_FAMILIES, FAMILIES, 0},
                                  {MENSUR_TABLE_TUNINGS, TUNINGS, 0},
                                  {MENSUR_TABLE_STRINGS, STRINGS, 0}};
    read_tables(given, COUNT_OF(given), got);
}

#define IN "instruments.csv:"

static const struct {
    const char *name, *rows;
    const char *errors[5];
} refusals[] = {
    {"no number",
     "heron,,,,22x,150,,,,,,,,,,\n",
     {IN "2:5: stop: \"22x\" is not a length, for example 222, 222 mm or 8-3/4\""}},
    {"a force for a length", "heron,,,,222 N,150,,,,,,,,,,\n", {IN "2:5: stop: \"222 N\""}},
    {"negative",
     "heron,,,,-222,150,,,,,,,,,,\n",
     {IN "2:5: stop: \"-222\" is out of its range, which is more than 0 and at most 3000 mm"}},
    {"zero", "heron,,,,0,150,,,,,,,,,,\n", {IN "2:5: stop: \"0\" is out of its range"}},
    {"negative saddle",
     "heron,,,,222,150,,,,,,,,,-1,\n",
     {IN "2:15: saddle: \"-1\" is out of its range, which is from 0 to 3000 mm"}},
    {"negative \xC2\xB1", "heron,,,,222 \xC2\xB1-1,150,,,,,,,,,,\n", {IN "2:5: stop: "}},
    {"over 3 m", "heron,,,,222,150,,3.01 m,,,,,,,,\n", {IN "2:8: body: \"3.01 m\" is out of its"}},
    {"string over 3 m", "heron,,,,,,3001,,,,,,,,,\n", {IN "2:7: string_length: \"3001\""}},
    {"neither length", "heron,,,,,,,,,,,,,,,\n", {IN "2:7: string_length: it is missing"}},
    {"stop alone", "heron,,,,222,,,,,,,,,,,\n", {IN "2:6: neck: it is missing|string_length"}},
    {"neck alone", "heron,,,,,150,,,,,,,,,,\n", {IN "2:5: stop: it is missing|string_length"}},
    {"bridge under projection",
     "heron,,,,222,150,,,,,,,33,32,,\n",
     {IN "2:14: bridge: \"32\" is not more than projection, \"33\""}},
    {"bridge at projection",
     "heron,,,,222,150,,,,,,,32,3.2 cm,,\n",
     {IN "2:14: bridge: \"3.2 cm\" is not more than projection, \"32\""}},
    {"arch_full, no edge",
     "heron,,,,222,150,,,,,17.7,,,,,\n",
     {IN "2:11: arch_full: it needs edge"}},
    {"arch_full, family without edge",
     "heron,cello,,,222,150,,,,,17.7,,,,,\n",
     {IN "2:11: arch_full: it needs edge"}},
    {"arch_full within the edge",
     "heron,,,,222,150,,,,,4.1,4.2,,,,\n",
     {IN "2:11: arch_full: it is not more than the belly's edge"}},
    {"arch_full at the usual edge",
     "heron,viola,,,222,150,,,,,4.2,,,,,\n",
     {IN "2:11: arch_full: it is not more"}},
    {"arch against arch_full",
     "heron,,,,222,150,,,,13.4,17.7,4.2,,,,\n",
     {IN "2:11: arch_full: less the edge it is not the arch"}},
    {"arch_full with a bad edge", "heron,,,,222,150,,,,,17.7,x,,,,\n", {IN "2:12: edge: \"x\""}},
    {"body under body_straight",
     "heron,,,,222,150,,410,411,,,,,,,\n",
     {IN "2:8: body: \"410\" is less than body_straight, \"411\""}},
    {"stop beyond the body",
     "heron,,,,410,150,,410,,,,,,,,\n",
     {IN "2:8: body: \"410\" is not more than stop, \"410\""}},
    {"stop beyond body_straight",
     "heron,,,,406,150,,410,405,,,,,,,\n",
     {IN "2:9: body_straight: \"405\" is not more than stop"}},
    {"unknown family, near",
     "heron,violla,,,222,150,,,,,,,,,,\n",
     {IN "2:2: family: there is no family \"violla\"; did you mean \"viola\"?"}},
    {"unknown family, far",
     "heron,accordion,,,222,150,,,,,,,,,,\n",
     {IN "2:2: family: there is no family \"accordion\"; there are: viola, cello"}},
    {"unknown tuning",
     "heron,viola,hihg,,222,150,,,,,,,,,,\n",
     {IN "2:3: tuning: there is no tuning \"hihg\"; did you mean \"high\"?"}},
    {"a tuning written out with a word that is no note",
     "heron,,C3 G3 X4,gut,222,150,,,,,,,,,,\n",
     {IN "2:3: tuning: \"X4\" is no note"}},
    {"unknown set",
     "heron,viola,,gutt,222,150,,,,,,,,,,\n",
     {IN "2:4: strings: there is no set of strings \"gutt\"; did you mean \"gut\"?"}},
    {"unknown set, far",
     "heron,viola,,something,222,150,,,,,,,,,,\n",
     {IN "2:4: strings: there is no set of strings \"something\"; there are: gut, thin"}},
    {"names are exact",
     "heron,Viola,,,222,150,,,,,,,,,,\n",
     {IN "2:2: family: there is no family \"Viola\"; did you mean \"viola\"?"}},
    {"a long cell is cut",
     "heron,,,,123456789012345678901234567890123456789012345678901234567890"
     "123456789012345678901234567890123456789 furlongs,150,,,,,,,,,,\n",
     {IN "2:5: stop: \"12345678901234567890|\xE2\x80\xA6\" is not a length"}},
    {"built is a word of its own",
     "heron,,,,222,150,,,,,,,,,,,perhaps\n",
     {IN "2:17: built: \"perhaps\" is neither yes nor no; write yes for an instrument that exists, "
         "no for a plan or a model"}},
    {"built is no length", "heron,,,,222,150,,,,,,,,,,,1\n", {IN "2:17: built: \"1\""}},
    {"all of a row's errors",
     "heron,vioal,,,x,y,,,,,,,33,32,,\n",
     {IN "2:5: stop", IN "2:6: neck", IN "2:14: bridge", IN "2:2: family"}},
    {"all rows' errors",
     "heron,,,,x,150,,,,,,,,,,\nwren,,,,222,150,,,,,,,,,,\nswift,,,,,,,,,,,,,,,\n",
     {IN "2:5: stop", IN "4:7: string_length"}},
};

static void refuses(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        struct outcome got;
        read_rows(refusals[i].rows, &got);
        check_messages(refusals[i].name, &got.report.errors, refusals[i].errors);
        check_status(refusals[i].name, got.status, MENSUR_DATA);
        clear_outcome(&got);
    }
}

static const struct {
    const char *name, *rows;
    const char *warnings[4];
} taken[] = {
    {"string_length alone", "dipper,,,,,,358,,,,,,,,,\n", {NULL}},
    {"string_length and a stop", "dipper,,,,222,,358,,,,,,,,,\n", {NULL}},
    {"arch and arch_full agree", "heron,,,,222,150,,,,13.46,17.7,4.2,,,,\n", {NULL}},
    {"arch_full on the usual edge", "heron,viola,,,222,150,,,,13.5,17.7,,,,,\n", {NULL}},
    {"built", "heron,,,,222,150,,,,,,,,,,,yes\n", {NULL}},
    {"not built", "wren,,,,222,150,,,,,,,,,,,No\n", {NULL}},
    {"bridge without projection", "heron,,,,222,150,,,,,,,,39,,\n", {NULL}},
    {"body equals body_straight", "heron,,,,222,150,,410,410,,,,,,,\n", {NULL}},
    {"saddle 0", "heron,,,,222,150,,,,,,,,,0,\n", {NULL}},
    {"tuning by the family", "heron,viola,,gut,222,150,,,,,,,,,,\n", {NULL}},
    {"family without a tuning", "heron,cello,,thin,222,150,,,,,,,,,,\n", {NULL}},
    {"a set without a string",
     "heron,viola,high,thin,222,150,,,,,,,,,,\n",
     {IN "2:4: strings: the set \"thin\" has no string for F#4"}},
    {"a set for another tuning",
     "heron,viola,low,gut,222,150,,,,,,,,,,\n",
     {IN "2:4: strings: the set \"gut\" has no string for E1",
      IN "2:4: strings: the set \"gut\" has no string for A1"}},
    {"a set tuned a few semitones higher", "heron,viola,high,gut,222,150,,,,,,,,,,\n", {NULL}},
    {"a tuning written out", "heron,,C3 G3 D4 Bb4,gut,222,150,,,,,,,,,,\n", {NULL}},
};

static void takes(void **state) {
    (void)state;
    const char *const nothing[] = {NULL};
    for (size_t i = 0; i < COUNT_OF(taken); i++) {
        struct outcome got;
        read_rows(taken[i].rows, &got);
        check_messages(taken[i].name, &got.report.errors, nothing);
        check_messages(taken[i].name, &got.report.warnings, taken[i].warnings);
        check_status(taken[i].name, got.status, MENSUR_OK);
        assert_int_equal(got.count, 1);
        clear_outcome(&got);
    }
}

static void keeps_what_stands_there(void **state) {
    (void)state;
    struct outcome got;
    read_rows("heron,viola,high,thin,222 \xC2\xB1"
              "0.5,15cm,14.5in,,,,,,,,,a note\n",
              &got);
    check_status("row", got.status, MENSUR_OK);
    const struct mensur_instrument *heron = &got.instruments[0];
    assert_string_equal(heron->name, "heron");
    assert_string_equal(heron->family, "viola");
    assert_string_equal(heron->tuning, "high");
    assert_string_equal(heron->set, "thin");
    assert_string_equal(heron->note, "a note");
    check_close("stop", heron->measure[MENSUR_FIELD_STOP].value, 0.222, 0, 1e-15);
    check_close("stop", heron->measure[MENSUR_FIELD_STOP].plus_minus, 0.0005, 0, 1e-15);
    check_close("neck", heron->measure[MENSUR_FIELD_NECK].value, 0.15, 0, 1e-15);
    check_close("length", heron->measure[MENSUR_FIELD_STRING_LENGTH].value, 0.3683, 0, 1e-15);
    check_close("bridge", heron->measure[MENSUR_FIELD_BRIDGE].value, NAN, 0, 0);
    check_close("board", heron->measure[MENSUR_FIELD_BOARD].value, NAN, 0, 0);
    clear_outcome(&got);
}

static void every_measurement_has_a_column(void **state) {
    (void)state;
    for (int i = 0; i < MENSUR_FIELD_COUNT; i++) {
        const char *name = mensur_field_info((enum mensur_field)i)->name;
        bool there = strstr(" stop neck string_length edge ", name) != NULL;
        char text[200];
        struct outcome got;
        snprintf(text, sizeof(text), "name,stop,neck,string_length,edge%s%s\na,222,150,372,3%s\n",
                 there ? "" : ",", there ? "" : name, there ? "" : ",250.5");
        read_table(MENSUR_TABLE_INSTRUMENTS, text, 0, &got);
        check_status(name, got.status, MENSUR_OK);
        assert_int_equal(got.report.warnings.count, 0);
        assert_true(got.instruments[0].measure[i].value > 0);
        clear_outcome(&got);
    }
}

/* A visit that returns an error ends the reading, which returns the same status. */
static enum mensur_status stop_at_second(void *context, const struct mensur_instrument *row) {
    int *count = context;
    (void)row;
    return ++*count == 2 ? MENSUR_WRITE : MENSUR_OK;
}

static void ends_where_the_visit_ends(void **state) {
    (void)state;
    struct outcome got;
    int count = 0;
    read_rows("a,,,,222,150,,,,,,,,,,\nb,,,,222,150,,,,,,,,,,\nc,,,,222,150,,,,,,,,,,\n", &got);
    check_status("rows", got.status, MENSUR_OK);
    check_status("stopped", mensur_shop_instruments(&got.shop, false, stop_at_second, &count, NULL),
                 MENSUR_WRITE);
    assert_int_equal(count, 2);
    assert_int_equal(got.shop.sources[MENSUR_TABLE_INSTRUMENTS].rows, 2);
    check_status("only checked", mensur_shop_instruments(&got.shop, true, NULL, NULL, NULL),
                 MENSUR_OK);
    assert_int_equal(got.shop.sources[MENSUR_TABLE_INSTRUMENTS].rows, 3);
    clear_outcome(&got);
}

/* Good rows are passed to the visit function, bad ones are not; names are compared only on request,
 * and rows with a repeated name are passed on. */
static void visits_good_rows(void **state) {
    (void)state;
    struct outcome got;
    read_rows("a,,,,222,150,,,,,,,,,,\nb,,,,x,150,,,,,,,,,,\na,,,,222,151,,,,,,,,,,\n", &got);
    check_status("rows", got.status, MENSUR_DATA);
    assert_int_equal(got.count, 2);
    mensur_instrument_clear(&got.instruments[0]);
    mensur_instrument_clear(&got.instruments[1]);
    got.count = 0;
    check_status("names not compared",
                 mensur_shop_instruments(&got.shop, false, keep_instrument, &got, NULL),
                 MENSUR_DATA);
    assert_int_equal(got.count, 2);
    assert_int_equal(got.instruments[1].line, 4);
    clear_outcome(&got);
}

/* Words are read as a row is, whatever stands in them; messages name no place. */
static void reads_words(void **state) {
    static const struct {
        const char *words[5];
        const char *error; /* NULL: it is read */
        double stop_mm;
    } rows[] = {
        {{"stop=222", "neck=150"}, NULL, 222},
        {{"stop=8-3/4\"",
          "neck=150 \xC2\xB1"
          "0.5",
          "family=viola", "built=yes"},
         NULL,
         222.25},
        {{"length=362", "strings=gut"}, NULL, NAN},
        {{"stop=2,2", "neck=150"}, "stop: \"2,2\" is not a length", 0},
        {{"stop=\"", "neck=150"}, "stop: \"\"\" is not a length", 0},
        {{"stop=222\n\"x,1,2", "neck=150"}, "stop: ", 0},
        {{"strings=gut"}, "string_length: it is missing", 0},
        {{"stop=222", "neck=150", "stop=223"}, "column \"stop\": stands twice", 0},
        {{"stop=222", "neck=150", "projection=33", "bridge=32"},
         "bridge: \"32\" is not more than projection",
         0},
    };
    struct outcome shop;
    (void)state;
    read_rows("a,,,,222,150,,,,,,,,,,\n", &shop);
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct outcome got = {.status = MENSUR_OK};
        size_t count = 0;
        while (count < COUNT_OF(rows[i].words) && rows[i].words[count] != NULL) {
            count++;
        }
        got.status = mensur_shop_described(&shop.shop, "it", rows[i].words, count, keep_instrument,
                                           &got, &got.report);
        check_status(rows[i].words[0], got.status, rows[i].error == NULL ? MENSUR_OK : MENSUR_DATA);
        if (rows[i].error != NULL) {
            assert_true(got.report.errors.count > 0);
            assert_int_equal(
                strncmp(got.report.errors.items[0], rows[i].error, strlen(rows[i].error)), 0);
        } else {
            assert_int_equal(got.count, 1);
            assert_string_equal(got.instruments[0].name, "it");
            check_close(rows[i].words[0], got.instruments[0].measure[MENSUR_FIELD_STOP].value,
                        rows[i].stop_mm / 1000, 0, 1e-12);
            assert_int_equal(got.instruments[0].own.count, isnan(rows[i].stop_mm) ? 4 : 0);
        }
        clear_outcome(&got);
    }
    clear_outcome(&shop);
}

/* Of a model size come what the row does not say itself: family, tuning. */
static void takes_from_its_size(void **state) {
    static const struct given given[] = {
        {MENSUR_TABLE_SIZES, "name,family,tuning,body,stop,neck\ntiny,violin,violin,300,160,105\n",
         0},
        {MENSUR_TABLE_INSTRUMENTS,
         "name,model_size,family,tuning,stop,neck\na,tiny,,,,\nb,tiny,viola,viola,,\nc,,,,222,"
         "150\n",
         0}};
    static const char *const wanted[][2] = {{"violin", "violin"}, {"viola", "viola"}, {NULL, NULL}};
    struct outcome got;
    (void)state;
    read_tables(given, COUNT_OF(given), &got);
    check_status("sizes", got.status, MENSUR_OK);
    assert_int_equal(got.count, COUNT_OF(wanted));
    for (size_t i = 0; i < COUNT_OF(wanted); i++) {
        const struct mensur_instrument *instrument = &got.instruments[i];
        if (wanted[i][0] == NULL) {
            assert_null(instrument->family);
            assert_null(instrument->tuning);
        } else {
            assert_string_equal(instrument->family, wanted[i][0]);
            assert_string_equal(instrument->tuning, wanted[i][1]);
        }
    }
    clear_outcome(&got);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_words),
        cmocka_unit_test(refuses),
        cmocka_unit_test(takes),
        cmocka_unit_test(keeps_what_stands_there),
        cmocka_unit_test(takes_from_its_size),
        cmocka_unit_test(every_measurement_has_a_column),
        cmocka_unit_test(ends_where_the_visit_ends),
        cmocka_unit_test(visits_good_rows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
