/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The first row: columns missing, repeated, misspelt, unknown; and names given twice. */
#include "reading.h"

#include "heads.h"
#include "tables.h"

static const struct refusal refusals[] = {
    {"name is missing",
     MENSUR_TABLE_INSTRUMENTS,
     "stop,neck\n222,150\n",
     0,
     {"instruments.csv:1:1: column \"name\": is missing"}},
    {"no column for the length",
     MENSUR_TABLE_INSTRUMENTS,
     "name,body\nheron,410\n",
     0,
     {"instruments.csv:1:1: the columns are missing that every row needs: string_length|stop"}},
    {"stop without neck or family",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop\nheron,222\n",
     0,
     {"instruments.csv:2:1: neck: it is missing, and no family says how long it usually is"}},
    {"a column twice",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck,Stop\nheron,222,150,222\n",
     0,
     {"instruments.csv:1:4: column \"Stop\": stands twice"}},
    {"another word for a column",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck,Steg,bridge height\nheron,222,150,39,39\n",
     0,
     {"instruments.csv:1:5: column \"bridge height\": stands twice: column 4, \"Steg\", is bridge "
      "too; leave one of them out"}},
    {"the same with two units",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop (mm),neck,stop_cm\nheron,222,150,22.2\n",
     0,
     {"instruments.csv:1:4: column \"stop_cm\": stands twice"}},
    {"a word for several",
     MENSUR_TABLE_INSTRUMENTS,
     "name,Mensur,Hals\nheron,222,150\n",
     0,
     {"instruments.csv:1:2: column \"Mensur\" means different things in different shops: stop, "
      "neck or string_length; write the one that it is"}},
    {"words for several, with units",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck,diapason (mm),L\xC3\xA4nge [cm],Griffbrett\nheron,222,150,1,1,1\n",
     0,
     {"instruments.csv:1:4: column \"diapason (mm)\" means different things|stop or string_length",
      "instruments.csv:1:5: column \"L\xC3\xA4nge [cm]\" means different things|body, stop, neck",
      "instruments.csv:1:6: column \"Griffbrett\" means different things|board_length"}},
    {"a player's arm",
     MENSUR_TABLE_PLAYERS,
     "name,stature,arm\na,1700,300\n",
     0,
     {"players.csv:1:3: column \"arm\" means different things|upper_arm or forearm"}},
    {"a unit of something else",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop (kg),neck\nheron,222,150\n",
     0,
     {"instruments.csv:1:2: column \"stop (kg)\": that is no unit of stop"}},
    {"a word for it misspelt",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck,fingerbord length\nheron,222,150,290\n",
     0,
     {"instruments.csv:1:4: column \"fingerbord length\" is unknown; did you mean "
      "\"board_length\"?"}},
    {"neighbours exchanged",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck,projectoin\nheron,222,150,30\n",
     0,
     {"instruments.csv:1:4: column \"projectoin\" is unknown; did you mean \"projection\"?"}},
    {"an unknown column twice",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck,colour of it,colour-of-it\nheron,222,150,,\n",
     0,
     {"instruments.csv:1:5: column \"colour-of-it\": stands twice"}},
    {"misspelt",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,nekc\nheron,222,150\n",
     0,
     {"instruments.csv:1:3: column \"nekc\" is unknown; did you mean \"neck\"?"}},
    {"misspelt, not needed",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck,brigde\nheron,222,150,39\n",
     0,
     {"instruments.csv:1:4: column \"brigde\" is unknown; did you mean \"bridge\"?"}},
    {"misspelt name",
     MENSUR_TABLE_INSTRUMENTS,
     "nam,stop,neck\nheron,222,150\n",
     0,
     {"instruments.csv:1:1: column \"nam\" is unknown; did you mean \"name\"?"}},
    {"a bad head, and a bad cell",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,nekc\nheron,x,150\n",
     0,
     {"instruments.csv:1:3: column \"nekc\"", "instruments.csv:2:2: stop: \"x\" is not a length"}},
    {"strings without note",
     MENSUR_TABLE_STRINGS,
     "name,linear_density\na,2.4\n",
     0,
     {"strings.csv:1:1: column \"note\": is missing"}},
    {"strings without a density",
     MENSUR_TABLE_STRINGS,
     "name,note,material\na,A4,gut\n",
     0,
     {"strings.csv:1:1: the columns are missing that lead to a string's density"}},
    {"tension without its length",
     MENSUR_TABLE_STRINGS,
     "name,note,stated_tension\na,A4,60\n",
     0,
     {"strings.csv:1:1: the columns are missing that lead to a string's density"}},
    {"tunings",
     MENSUR_TABLE_TUNINGS,
     "name,note\nviola,A4\n",
     0,
     {"tunings.csv:1:2: column \"note\" is unknown; did you mean \"notes\"?"}},
    {"players",
     MENSUR_TABLE_PLAYERS,
     "name,upper_arm\na,300\n",
     0,
     {"players.csv:1:1: the columns are missing that every row needs: stature"}},
    {"families",
     MENSUR_TABLE_FAMILIES,
     "name,held\nviola,chin\n",
     0,
     {"families.csv:1:1: column \"frame_semitones\": is missing",
      "families.csv:1:1: column \"positions\": is missing"}},
    {"materials",
     MENSUR_TABLE_MATERIALS,
     "density\n1300\n",
     0,
     {"materials.csv:1:1: column \"name\": is missing"}},
    {"wires",
     MENSUR_TABLE_WIRES,
     "material,diameter,strength_low\nsteel,0.3,2000\n",
     0,
     {"wire_strength.csv:1:1: column \"strength_high\": is missing"}},
    {"a name twice",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\nheron,222,150\nwren,220,148\nheron,221,150\nheron,222,151\n",
     0,
     {"instruments.csv:4:1: name: \"heron\" stands in line 2 already",
      "instruments.csv:5:1: name: \"heron\" stands in line 2 already"}},
    {"instruments called name",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\nname,222,150\nwren,220,148\nname,221,150\n",
     0,
     {"instruments.csv:4:1: name: \"name\" stands in line 2 already"}},
    {"two names twice, in turn",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\nb,222,150\na,222,150\na,222,150\nb,222,150\n",
     0,
     {"instruments.csv:4:1: name: \"a\" stands in line 3",
      "instruments.csv:5:1: name: \"b\" stands "
      "in line 2"}},
    {"a name twice, in a row with an error",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\nb,222,x\nb,222,y\n",
     0,
     {"instruments.csv:2:3: neck: \"x\"", "instruments.csv:3:3: neck: \"y\"",
      "instruments.csv:3:1: name: \"b\" stands in line 2"}},
    {"names in another column",
     MENSUR_TABLE_PLAYERS,
     "stature,name\n1700,a\n1700,a\n",
     0,
     {"players.csv:3:2: name: \"a\" stands in line 2"}},
    {"a string twice",
     MENSUR_TABLE_STRINGS,
     "name,note,linear_density\na,A4,1\na,D4,1\n",
     0,
     {"strings.csv:3:1: name: \"a\" stands in line 2"}},
    {"a material twice",
     MENSUR_TABLE_MATERIALS,
     "name,density\ngut,1300\nsilver,10490\ngut,1300\ncopper,8900\naluminium,2700\n",
     0,
     {"materials.csv:4:1: name: \"gut\" stands in line 2"}},
    {"no length",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\nheron,,\n",
     0,
     {"instruments.csv:2:2: string_length: it is missing"}},
    {"no name",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\n,222,150\n",
     0,
     {"instruments.csv:2:1: name: the cell is empty"}},
};

static void refuses(void **state) {
    (void)state;
    check_refusals(refusals, COUNT_OF(refusals));
}

static const struct {
    const char *name, *text;
    const char *warnings[3];
} taken[] = {
    {"unknown columns", "name,stop,neck,colour,price in my town\nheron,222,150,red,1\n", {NULL}},
    {"two letters apart, four letters, begun otherwise",
     "name,stop,neck,brigdes,edgy,fridge\nheron,222,150,1,1,1\n",
     {NULL}},
    {"like a column that is there", "name,stop,neck,necks\nheron,222,150,1\n", {NULL}},
    {"a unit of a text", "name,stop,neck,note mm\nheron,222,150,1\n", {NULL}},
    {"without a name",
     "name,stop,neck,\nheron,222,150,1\n",
     {"instruments.csv:1:4: this column has no name"}},
    {"a unit alone, and behind one letter",
     "name,stop,neck,in mm,x (mm)\nheron,222,150,1,1\n",
     {NULL}},
    {"marks before a word, a mark with no letter, a mark that is none of an umlaut",
     "name,(stop),neck,\xCC\x88,n\xCC\x88,o\xCC\x84,\xF0\x9D\x84\xA2\nheron,222,150,1,1,1,1\n",
     {NULL}},
    {"a column whose head is a letter",
     "name,stop,neck,"
     "dear sir as agreed last week we send you the measurements of the instruments and how we took "
     "them a\xCC\x88 nd more\nheron,222,150,1\n",
     {NULL}},
    {"an area", "name,stop,neck,area in cm\xC2\xB2\nheron,222,150,1\n", {NULL}},
    {"hyphens and blanks", "name,string length,Body-Straight\nheron,372,400\n", {NULL}},
    {"names that differ in capitals", "name,stop,neck\nheron,222,150\nHeron,222,150\n", {NULL}},
    {"a head alone", "name,stop,neck\n", {NULL}},
};

static void takes(void **state) {
    (void)state;
    const char *const nothing[] = {NULL};
    for (size_t i = 0; i < COUNT_OF(taken); i++) {
        struct outcome got;
        read_table(MENSUR_TABLE_INSTRUMENTS, taken[i].text, 0, &got);
        check_messages(taken[i].name, &got.report.errors, nothing);
        check_messages(taken[i].name, &got.report.warnings, taken[i].warnings);
        check_status(taken[i].name, got.status, MENSUR_OK);
        clear_outcome(&got);
    }
}

/* Heads in the words that people use, and the unit that they name; the cell below each in SI. */
static const struct {
    const char *head, *cell;
    enum mensur_field field;
    double value;
} words[] = {
    {"bridge height", "39", MENSUR_FIELD_BRIDGE, 0.039},
    {"Bridge_Height", "39", MENSUR_FIELD_BRIDGE, 0.039},
    {"BRIDGE-HEIGHT.", "39", MENSUR_FIELD_BRIDGE, 0.039},
    {"bridge height in inches", "1 1/2", MENSUR_FIELD_BRIDGE, 0.0381},
    {"bridge height (\xE2\x80\xB3)", "1.5", MENSUR_FIELD_BRIDGE, 0.0381},
    {"bridge in", "1.5", MENSUR_FIELD_BRIDGE, 0.0381},
    {"bridge height (\xE2\x80\x9D)", "1.5", MENSUR_FIELD_BRIDGE, 0.0381}, /* a closing quote */
    {"bridge\xC2\xA0height", "39", MENSUR_FIELD_BRIDGE, 0.039},           /* blanks and dashes */
    {"bridge\xE2\x80\x93height", "39", MENSUR_FIELD_BRIDGE, 0.039},
    {"bridge\xE2\x80\xAFheight", "39", MENSUR_FIELD_BRIDGE, 0.039},
    {"bridge\xE2\x80\x99height", "39", MENSUR_FIELD_BRIDGE, 0.039}, /* an apostrophe */
    {"Steg", "39", MENSUR_FIELD_BRIDGE, 0.039},
    {"Stegh\xC3\xB6he (cm)", "3.9", MENSUR_FIELD_BRIDGE, 0.039},
    {"Stegho\xCC\x88he", "39", MENSUR_FIELD_BRIDGE, 0.039}, /* o and a combining diaeresis */
    {"Stegh\xF6he", "39", MENSUR_FIELD_BRIDGE, 0.039},      /* Windows-1252 */
    {"STEGHOEHE", "39", MENSUR_FIELD_BRIDGE, 0.039},
    {"hauteur du chevalet", "39", MENSUR_FIELD_BRIDGE, 0.039},
    {"Altezza del ponticello", "39", MENSUR_FIELD_BRIDGE, 0.039},
    {"fingerboard length", "290", MENSUR_FIELD_BOARD_LENGTH, 0.29},
    {"Griffbrettl\xC3\xA4nge [mm]", "290", MENSUR_FIELD_BOARD_LENGTH, 0.29},
    {"longueur de la touche", "290", MENSUR_FIELD_BOARD_LENGTH, 0.29},
    {"body length", "410", MENSUR_FIELD_BODY, 0.41},
    {"body length, inches", "16", MENSUR_FIELD_BODY, 0.4064},
    {"Back Length in cm", "41", MENSUR_FIELD_BODY, 0.41},
    {"body_mm", "410", MENSUR_FIELD_BODY, 0.41},
    {"String Length", "372", MENSUR_FIELD_STRING_LENGTH, 0.372},
    {"vibrating string length", "372", MENSUR_FIELD_STRING_LENGTH, 0.372},
    {"Saitenl\xC3\xA4nge", "372", MENSUR_FIELD_STRING_LENGTH, 0.372},
    {"string length (m)", "0.372", MENSUR_FIELD_STRING_LENGTH, 0.372},
    {"string length (m)", "372 mm", MENSUR_FIELD_STRING_LENGTH, 0.372},
    {"over-stand", "6", MENSUR_FIELD_OVERSTAND, 0.006},
    {"Fingerboard projection", "30", MENSUR_FIELD_PROJECTION, 0.03},
    {"nut height", "0.5", MENSUR_FIELD_NUT, 0.0005},
    {"Obersattel", "0.5", MENSUR_FIELD_NUT, 0.0005},
    {"saddle height", "8", MENSUR_FIELD_SADDLE, 0.008},
};

static void reads_words(void **state) {
    const char *const nothing[] = {NULL};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(words); i++) {
        char text[160];
        struct outcome got;
        snprintf(text, sizeof(text), "name;stop length;Hals;%s\nheron;222;150;%s\n", words[i].head,
                 words[i].cell);
        read_table(MENSUR_TABLE_INSTRUMENTS, text, 0, &got);
        check_messages(words[i].head, &got.report.errors, nothing);
        assert_int_equal(got.count, 1);
        check_close(words[i].head, got.instruments[0].measure[words[i].field].value, words[i].value,
                    0, 4e-16);
        check_close(words[i].head, got.instruments[0].measure[MENSUR_FIELD_STOP].value, 0.222, 0,
                    4e-16);
        check_close(words[i].head, got.instruments[0].measure[MENSUR_FIELD_NECK].value, 0.15, 0,
                    4e-16);
        assert_int_equal(got.shop.sources[MENSUR_TABLE_INSTRUMENTS].owners.count, 0);
        clear_outcome(&got);
    }
}

/* Each word is read as its column, stands for one alone, and is no column's own name. */
static void words_are_sound(void **state) {
    (void)state;
    for (int t = 0; t < MENSUR_TABLE_COUNT; t++) {
        enum mensur_table table = (enum mensur_table)t;
        char label[] = "x";
        struct mensur_source source = {.label = label};
        const struct reading reading = mensur_reading(table, &source, NULL, true, NULL);
        for (int c = 0; c < reading.layout->count; c++) {
            const char *name = reading.layout->columns[c].name, *word;
            assert_int_equal(mensur_head_read(table, reading.layout, name).column, c);
            for (size_t i = 0; (word = mensur_head_synonym(table, name, i)) != NULL; i++) {
                struct head head = mensur_head_read(table, reading.layout, word);
                assert_string_equal(head.folded, word);
                assert_int_equal(head.column, c);
                assert_null(head.unit);
                assert_null(head.may_mean);
            }
        }
    }
}

/* The owner's columns: their heads as they are written, their cells untouched, also of a short row.
 */
static void carries_own_columns(void **state) {
    static const char *const cells[][4] = {{"12,5", "M\xC3\xBCller, \"Sohn\"", "=1+1", ""},
                                           {"", "", "", ""},
                                           {"two\nlines", "", "x", "y"}};
    struct outcome got;
    (void)state;
    read_table(MENSUR_TABLE_INSTRUMENTS,
               "name,Price (EUR),stop,owner,neck,=x,Inventory No.\n"
               "a,\"12,5\",222,\"M\xC3\xBCller, \"\"Sohn\"\"\",150,=1+1\n"
               "b,,222,,150\n"
               "c,\"two\nlines\",222,,150,x,y\n",
               0, &got);
    check_status("own", got.status, MENSUR_OK);
    assert_int_equal(got.count, 3);
    const struct mensur_texts *heads = &got.shop.sources[MENSUR_TABLE_INSTRUMENTS].owners;
    const char *const wanted[] = {"Price (EUR)", "owner", "=x", "Inventory No."};
    assert_int_equal(heads->count, 4);
    for (size_t i = 0; i < 4; i++) {
        assert_string_equal(heads->items[i], wanted[i]);
    }
    for (size_t i = 0; i < 3; i++) {
        const struct mensur_owners *own = &got.instruments[i].owners;
        const char *cell = own->cells;
        for (size_t j = 0; j < 4; j++) {
            assert_string_equal(cell, cells[i][j]);
            cell += strlen(cell) + 1;
        }
        assert_ptr_equal(cell, own->cells + own->size);
    }
    clear_outcome(&got);
}

/* Many rows, each name twice: the list of hashes grows, and each first line is found. */
static void finds_every_repetition(void **state) {
    (void)state;
    const size_t rows = 3000;
    char *text = malloc(2 * rows * 24 + 40), *at = text;
    assert_non_null(text);
    at += sprintf(at, "name,string_length\n");
    for (size_t i = 0; i < 2 * rows; i++) {
        at += sprintf(at, "bird %zu,372\n", i % rows);
    }
    struct outcome got;
    read_table(MENSUR_TABLE_INSTRUMENTS, text, 0, &got);
    check_status("repeated", got.status, MENSUR_DATA);
    assert_int_equal(got.report.errors.count, rows);
    assert_int_equal(got.count, 2 * rows); /* repetitions are known only at the end */
    for (size_t i = 0; i < rows; i++) {
        char wanted[80];
        snprintf(wanted, sizeof(wanted),
                 "instruments.csv:%zu:1: name: \"bird %zu\" stands in line %zu ", rows + 2 + i, i,
                 2 + i);
        check_holds(got.report.errors.items[i], wanted);
    }
    clear_outcome(&got);
    free(text);
}

/* A file of any name is the table whose columns its heads are. */
static void tells_tables_by_their_heads(void **state) {
    (void)state;
#define HEADS(text) text, sizeof(text)
    static const struct {
        const char *heads;
        size_t size;
        int table;
    } files[] = {
        {HEADS("name\0stop\0neck"), MENSUR_TABLE_INSTRUMENTS},
        {HEADS("Bezeichnung\0Deckenmensur\0Hals\0Steg\0Preis"), MENSUR_TABLE_INSTRUMENTS},
        {HEADS("bridge height [cm]\0price\0name"), MENSUR_TABLE_INSTRUMENTS},
        {HEADS("name\0string_length"), MENSUR_TABLE_INSTRUMENTS},
        {HEADS("name\0note\0set\0linear_density"), MENSUR_TABLE_STRINGS},
        {HEADS("name\0note\0stated_tension\0stated_length"), MENSUR_TABLE_STRINGS},
        {HEADS("name\0notes"), MENSUR_TABLE_TUNINGS},
        {HEADS("name\0stature"), MENSUR_TABLE_PLAYERS},
        {HEADS("name\0age\0upper_arm"), MENSUR_TABLE_PLAYERS},
        {HEADS("name\0held\0stop\0neck"), MENSUR_TABLE_FAMILIES},
        {HEADS("name\0density"), MENSUR_TABLE_MATERIALS},
        {HEADS("material\0diameter\0strength_low\0strength_high"), MENSUR_TABLE_WIRES},
        {HEADS("name\0value"), MENSUR_TABLE_SETTINGS},
        {HEADS("name\0Mensur\0bridge"), MENSUR_TABLE_INSTRUMENTS},
        {HEADS("\xFFname\0stop\0neck"), MENSUR_TABLE_INSTRUMENTS},
        {HEADS("dear\0sir"), -1},
        {HEADS("name"), -1},
        {HEADS(""), -1},
        {"", 0, -1},
    };
    for (size_t i = 0; i < COUNT_OF(files); i++) {
        int table = mensur_table_of_heads(files[i].heads, files[i].size);
        if (table != files[i].table) {
            fail_msg("%s and so on: table %d, not %d", files[i].heads, table, files[i].table);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(refuses),
        cmocka_unit_test(takes),
        cmocka_unit_test(reads_words),
        cmocka_unit_test(words_are_sound),
        cmocka_unit_test(carries_own_columns),
        cmocka_unit_test(finds_every_repetition),
        cmocka_unit_test(tells_tables_by_their_heads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
