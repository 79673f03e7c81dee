/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words to a question, and what is said where there is none. */
#include "ask.h"
#include "check.h"
#include "question.h"
#include "shop.h"

enum { WORDS_MOST = 60 };

/* Splits words at `|`, since names and values may hold blanks. */
struct split {
    char text[1024];
    const char *words[WORDS_MOST];
    size_t count;
};

static void split_words(const char *line, struct split *split) {
    split->count = 0;
    snprintf(split->text, sizeof split->text, "%s", line);
    for (char *at = split->text; *line != '\0' && at != NULL; split->count++) {
        assert_true(split->count < WORDS_MOST);
        split->words[split->count] = at;
        at = strchr(at, '|');
        if (at != NULL) {
            *at++ = '\0';
        }
    }
}

static void read_good(const char *line, struct split *split, struct mensur_question *question) {
    struct mensur_texts messages = {0};
    split_words(line, split);
    enum mensur_status status =
        mensur_question_read(split->words, split->count, &messages, question);
    check_status(line, status, MENSUR_OK);
    assert_int_equal(messages.count, 0);
}

static void test_refusals(void **state) {
    static const struct {
        const char *words;
        const char *message; /* whole */
    } rows[] = {
        {"lenghts", "mensur: there is no command \"lenghts\"; did you mean \"lengths\"?"},
        {"banana", "mensur: there is no command \"banana\"; mensur --help lists them"},
        {"lengths|--formt|csv", "mensur: there is no option \"formt\"; did you mean --format?"},
        {"--format|csv|lengths|-q", "mensur: there is no option \"q\"; did you mean --a4?"},
        {"neck|--like|-x|--format", "mensur: there is no option \"x\"; did you mean --a4?"},
        {"lengths|--format", "mensur: Missing argument for --format"},
        {"lengths|--like|heron",
         "mensur: the option --like does not go with lengths; mensur lengths "
         "--help lists those that do"},
        {"neck|kestrel|--packet|A4=55@370", "mensur: the option --packet does not go with neck; "
                                            "mensur neck --help lists those that do"},
        {"lengths|--format|xml", "mensur: --format takes text|csv|json|html, not \"xml\""},
        {"lengths|--format=", "mensur: --format takes text|csv|json|html, not \"\""},
        {"lengths|--a4|-3", "mensur: --a4 takes 1 to 20000 Hz, not \"-3\""},
        {"lengths|--a4|inf", "mensur: --a4 takes 1 to 20000 Hz, not \"inf\""},
        {"start", "mensur: start wants one folder, for example: mensur start my-shop"},
        {"start|a|b", "mensur: start wants one folder, for example: mensur start my-shop"},
        {"check|x", "mensur: check takes no name; --shop FOLDER says which shop"},
        {"check|--output|a.png",
         "mensur: there is no drawing of a check; write .csv, .json or text"},
        {"tension|--every|heron", "mensur: --every takes every instrument; name none beside it"},
        {"change|kestrel",
         "mensur: say what changes, for example: mensur change kestrel neck=+4 stop=-3"},
        {"change|kestrel|neck", "mensur: \"neck\" is no change; write FIELD=VALUE, for example "
                                "neck=152 or stop=-3"},
        {"change|kestrel|neck=", "mensur: \"neck=\" is no change; write FIELD=VALUE, for example "
                                 "neck=152 or stop=-3"},
        {"lengths|kestrel|nek=3", "mensur: there is no measurement \"nek\"; did you mean neck?"},
        {"lengths|stop=222|nekc=3", "mensur: there is no measurement \"nekc\"; did you mean neck?"},
        {"lengths|stop=222|stop=223", "mensur: stop is given twice; leave one of them out"},
        {"lengths|stop=222|neck=15o",
         "mensur: neck: \"15o\" is not a length, for example 222, 222 mm or 8-3/4\""},
        {"change|stop=222|neck=150",
         "mensur: say what changes, for example: mensur change stop=222 neck=+4 stop=-3"},
        {"change|kestrel|a4=0.9",
         "mensur: a4: \"0.9\" is no pitch from 1 to 20000 Hz, for example a4=415"},
        {"change|kestrel|built=perhaps", "mensur: built: \"perhaps\" is neither yes nor no"},
        {"change|kestrel|famly=viola",
         "mensur: there is no measurement \"famly\"; did you mean family?"},
        {"neck|kestrel|heron", "mensur: one instrument at a time; \"heron\" is one too many"},
        {"neck|kestrel|neck=3|heron",
         "mensur: one instrument at a time; \"heron\" is one too many"},
        {"neck|kestrel|--string-length|370-", "mensur: --string-length: \"370-\" is no range and "
                                              "no value for this wish; write LOW..HIGH "
                                              "or one value, for example 368..376 or 372"},
        {"neck|kestrel|--like-with|neck=3",
         "mensur: --like-with changes the instrument of --like NAME"},
        {"restring|kestrel|--feel-by|tension",
         "mensur: --feel-by says what feels alike with --like NAME"},
        {"restring|kestrel|--runners-up|1.5",
         "mensur: --runners-up takes a whole number from 0 to 16, not \"1.5\""},
        {"restring|kestrel|--runners-up|17",
         "mensur: --runners-up takes a whole number from 0 to 16, not \"17\""},
        {"restring|kestrel|--margin|-1",
         "mensur: --margin takes a number of semitones, 0 or more, not \"-1\""},
        {"restring|kestrel|--belly-force|80..90",
         "mensur: --belly-force takes a limit here, such as ..90, not \"80..90\""},
        {"restring|kestrel|--material|silk",
         "mensur: --material takes gut|steel|synthetic, not \"silk\""},
        {"restring|kestrel|--material|gut|--mix",
         "mensur: --mix takes every material; --material gut takes one"},
        {"restring|kestrel|--profile|like", "mensur: --profile like goes with --like NAME"},
        {"restring|kestrel|--profile|equal|--grade|0.9",
         "mensur: --grade goes with --profile graded"},
        {"restring|kestrel|--profile|graded|--grade|0",
         "mensur: --grade takes a number above 0, not \"0\""},
        {"restring|kestrel|--to-order=silk",
         "mensur: plain strings are ordered of gut, not of \"silk\""},
        {"reach|kestrel|--output|a.svg",
         "mensur: there is no drawing of a reach; write .csv, .json or text"},
        {"sheet|kestrel",
         "mensur: a sheet wants --output FILE.pdf (pages to print) or FILE.svg (one "
         "long strip)"},
        {"sheet|a|b|c|--output|a.pdf",
         "mensur: a sheet holds two instruments; \"c\" is one too many"},
        {"sheet|a|--output|a.pdf|--paper|a5", "mensur: --paper takes a4|letter, not \"a5\""},
        {"template|a",
         "mensur: a template wants --output FILE.pdf (pages to print) or FILE.svg (one "
         "drawing at true size)"},
        {"template|a|b|--output|a.pdf",
         "mensur: a template is of one instrument; \"b\" is one too many"},
        {"template|a|--output|a.pdf|--date|2024-13-01",
         "mensur: --date takes a date as 2024-05-31, not \"2024-13-01\""},
        {"template|a|--output|a.pdf|--date|31 May",
         "mensur: --date takes a date as 2024-05-31, not \"31 May\""},
        {"lengths|--a4|0.999", "mensur: --a4 takes 1 to 20000 Hz, not \"0.999\""},
        {"lengths|--a4|20000.5", "mensur: --a4 takes 1 to 20000 Hz, not \"20000.5\""},
        {"lengths|--shop=", "mensur: --shop takes a folder, not \"\""},
        {"help|nack", "mensur: there is no command \"nack\"; did you mean \"neck\"?"},
        {"dossier|a|--output|a.svg", "mensur: a dossier wants --output FILE.html or FILE.pdf"},
        {"dossier|a|--date|31.5.2024|--output|a.html",
         "mensur: --date takes a date as 2024-05-31, not \"31.5.2024\""},
    };
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_texts messages = {0};
        struct mensur_question question = {.command = -1};
        struct split split;
        split_words(rows[i].words, &split);
        check_status(rows[i].words,
                     mensur_question_read(split.words, split.count, &messages, &question),
                     MENSUR_USE);
        assert_int_equal(messages.count, 1);
        assert_string_equal(messages.items[0], rows[i].message);
        assert_int_equal(question.command, -1); /* untouched on failure */
        mensur_texts_clear(&messages);
    }
}

static void test_help(void **state) {
    static const struct {
        const char *words;
        enum mensur_help help;
    } rows[] = {{"", MENSUR_HELP_MISSING},
                {"--format|csv", MENSUR_HELP_MISSING},
                {"--help", MENSUR_HELP_OVERVIEW},
                {"--version", MENSUR_HELP_VERSION},
                {"banana|--version", MENSUR_HELP_VERSION},
                {"neck|--help", MENSUR_HELP_COMMAND},
                {"neck|--help|--packet|x", MENSUR_HELP_COMMAND},
                {"help", MENSUR_HELP_OVERVIEW},
                {"help|neck", MENSUR_HELP_COMMAND},
                {"help|neck|kestrel|--packet|x", MENSUR_HELP_COMMAND},
                {"help|--version", MENSUR_HELP_VERSION},
                {"lengths|help", MENSUR_HELP_NONE},
                {"neck|kestrel", MENSUR_HELP_NONE},
                {"neck|--|--help", MENSUR_HELP_NONE}};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_question question;
        struct split split;
        read_good(rows[i].words, &split, &question);
        assert_int_equal(question.help, rows[i].help);
        mensur_question_clear(&question);
    }
}

static void test_media(void **state) {
    static const struct {
        const char *words;
        enum mensur_medium medium;
        enum mensur_format format;
    } rows[] = {
        {"lengths|a", MENSUR_MEDIUM_WORDS, MENSUR_FORMAT_TEXT},
        {"lengths|a|--output|x.csv", MENSUR_MEDIUM_WORDS, MENSUR_FORMAT_CSV},
        {"lengths|a|--output|.csv", MENSUR_MEDIUM_WORDS, MENSUR_FORMAT_TEXT},
        {"lengths|a|--output|", MENSUR_MEDIUM_WORDS, MENSUR_FORMAT_TEXT},
        {"lengths|a|--output|x.json|--format|text", MENSUR_MEDIUM_WORDS, MENSUR_FORMAT_TEXT},
        {"lengths|a|--output|x.svg", MENSUR_MEDIUM_SVG, MENSUR_FORMAT_TEXT},
        {"lengths|a|--output|.svg", MENSUR_MEDIUM_SVG, MENSUR_FORMAT_TEXT},
        {"lengths|a|--output|x.svg|--format|json", MENSUR_MEDIUM_WORDS, MENSUR_FORMAT_JSON},
        {"compare|a|b|--output=x.pdf", MENSUR_MEDIUM_PDF, MENSUR_FORMAT_TEXT},
        {"neck|a|--output|x.png", MENSUR_MEDIUM_PNG, MENSUR_FORMAT_TEXT},
        {"dossier|a|--output|x.html", MENSUR_MEDIUM_HTML, MENSUR_FORMAT_TEXT},
        {"dossier|a|--output|x.pdf", MENSUR_MEDIUM_PDF, MENSUR_FORMAT_TEXT}};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_question question;
        struct split split;
        read_good(rows[i].words, &split, &question);
        assert_int_equal(question.medium, rows[i].medium);
        assert_int_equal(question.style.format, rows[i].format);
        mensur_question_clear(&question);
    }
}

/* A name, the changes behind it, and the next one. */
static void test_changes(void **state) {
    struct mensur_question question;
    struct split split;
    (void)state;
    read_good("compare|heron|neck=+4|strings=viola gut|=A1|stop=218|No. 4=5|--|--inches", &split,
              &question);
    assert_int_equal(question.named_count, 4);
    assert_string_equal(question.named[0].name, "heron");
    assert_int_equal(question.named[0].change_count, 2);
    assert_true(question.named[0].changes[0].relative);
    check_close("neck=+4", question.named[0].changes[0].value.value, 0.004, 1e-15, 0.0);
    assert_string_equal(question.named[0].changes[1].text, "viola gut");
    assert_string_equal(question.named[1].name, "=A1");
    assert_int_equal(question.named[1].change_count, 1);
    check_close("stop=218", question.named[1].changes[0].value.value, 0.218, 1e-15, 0.0);
    assert_string_equal(question.named[2].name, "No. 4=5");
    assert_string_equal(question.named[3].name, "--inches");
    assert_false(question.style.inches);
    mensur_question_clear(&question);
}

/* An instrument by its measurements: which words describe it, and which change it. */
static void test_described(void **state) {
    static const struct {
        const char *words;
        size_t named, given, changes; /* given and changes of the first one */
    } rows[] = {
        {"lengths|stop=222|neck=150|family=viola", 1, 3, 0},
        {"lengths|stop=222|neck=+4|neck=150", 1, 2, 1},
        {"compare|stop=222|neck=150|heron|stop=218|wren", 3, 2, 0},
        {"tension|length=362|strings=viola gut|a4=415", 1, 2, 1},
        {"tension|length=362|tuning=C3 G3 D4 Bb4|built=yes", 1, 3, 0},
        {"change|length=362|strings=viola gut|a4=415", 1, 2, 1},
        {"change|length=362|strings=viola gut|tuning=C3 G3 D4 Bb4", 1, 2, 1},
        {"change|length=362|strings=viola gut|strings=viola steel", 1, 2, 1},
        {"change|stop=222|neck=150|neck=154|stop=-3", 1, 2, 2},
        {"restring|length=362|strings=viola gut", 1, 2, 0},
        {"compare|heron|stop=222|neck=150|wren", 2, 0, 2},
    };
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_question question;
        struct split split;
        read_good(rows[i].words, &split, &question);
        const struct mensur_named *first = &question.named[0];
        if (question.named_count != rows[i].named || first->given_count != rows[i].given ||
            first->change_count != rows[i].changes ||
            (first->given != NULL) != (rows[i].given > 0)) {
            fail_msg("%s: %zu named, %zu given, %zu changes", rows[i].words, question.named_count,
                     first->given_count, first->change_count);
        }
        mensur_question_clear(&question);
    }
    struct mensur_question question;
    struct split split;
    read_good("neck|kestrel|--like|stop=222|--like-with|neck=150|--like-with|neck=+2", &split,
              &question);
    assert_int_equal(question.like.given_count, 2);
    assert_int_equal(question.like.change_count, 1);
    mensur_question_clear(&question);
}

static void test_wishes(void **state) {
    struct mensur_question question;
    struct split split;
    (void)state;
    read_good("stop|kestrel|--tension|A4=50..58|--tension=95%..105%|--string-length|368..|--like|"
              "heron|--like-with|neck=152|--a4|415|--inches|--working",
              &split, &question);
    assert_int_equal(question.wish_count, 3);
    assert_int_equal(question.wishes[0].kind, MENSUR_WISH_STRING_LENGTH);
    assert_true(isnan(question.wishes[0].high));
    assert_string_equal(question.wishes[1].note, "A4");
    assert_true(question.wishes[2].percent);
    assert_string_equal(question.like.name, "heron");
    assert_int_equal(question.like.change_count, 1);
    check_close("--a4", question.terms.a4, 415.0, 0.0, 1e-15);
    assert_true(question.terms.inches && question.working);
    mensur_question_clear(&question);
    read_good(
        "restring|kestrel|neck=150|--belly-force|..95|--tension|A4=50..58|--packet|"
        "A4=55@370|--packet|C3=50@370@442|--margin|2|--runners-up|0|--any-length|--format|json",
        &split, &question);
    assert_int_equal(question.wish_count, 1);
    check_close("--belly-force", question.restring.most_belly_force, 95.0, 0.0, 1e-15);
    assert_int_equal(question.restring.packet_count, 2);
    check_close("a packet", question.restring.packets[1].a4, 442.0, 0.0, 1e-15);
    check_close("--margin", question.restring.least_margin, 2.0, 0.0, 1e-15);
    assert_int_equal(question.restring.runners_up, 0);
    assert_true(question.restring.any_length);
    assert_int_equal(question.named[0].change_count, 1);
    assert_null(question.restring.to_order);
    assert_int_equal(question.restring.profile, MENSUR_PROFILE_NONE);
    mensur_question_clear(&question);
    read_good("restring|--to-order|kestrel|--mix|--profile|graded|--grade|0.85", &split, &question);
    assert_string_equal(question.named[0].name, "kestrel");
    assert_string_equal(question.restring.to_order, "gut");
    assert_true(question.restring.mix);
    assert_int_equal(question.restring.profile, MENSUR_PROFILE_GRADED);
    check_close("--grade", question.restring.grade, 0.85, 0.0, 1e-15);
    mensur_question_clear(&question);
    read_good("restring|kestrel|--material|steel|--like|heron|--profile|like|--to-order|gut",
              &split, &question);
    assert_int_equal(question.named_count, 1);
    assert_string_equal(question.restring.to_order, "gut");
    assert_string_equal(question.restring.material, "steel");
    assert_int_equal(question.restring.profile, MENSUR_PROFILE_LIKE);
    mensur_question_clear(&question);
}

/* 48 wishes and no more. */
static void test_many_wishes(void **state) {
    const char *words[2 + 2 * (MENSUR_QUESTION_WISHES + 1)] = {"neck", "kestrel"};
    struct mensur_texts messages = {0};
    struct mensur_question question;
    (void)state;
    for (size_t i = 2; i < COUNT_OF(words); i += 2) {
        words[i] = "--tension";
        words[i + 1] = "A4=50..58";
    }
    check_status("49 wishes", mensur_question_read(words, COUNT_OF(words), &messages, &question),
                 MENSUR_USE);
    assert_string_equal(messages.items[0], "mensur: more than 48 wishes");
    mensur_texts_clear(&messages);
    check_status("48 wishes",
                 mensur_question_read(words, COUNT_OF(words) - 2, &messages, &question), MENSUR_OK);
    assert_int_equal(question.wish_count, MENSUR_QUESTION_WISHES);
    mensur_question_clear(&question);
}

/* Every command and option of the table can be read about. */
static void test_tables(void **state) {
    size_t commands = 0, options = 0;
    (void)state;
    for (; mensur_command_at(commands) != NULL; commands++) {
        const struct mensur_command_info *info = mensur_command_at(commands);
        assert_non_null(strstr(info->example, info->name));
    }
    for (; mensur_option_at(options) != NULL; options++) {
        const struct mensur_option_info *info = mensur_option_at(options);
        assert_true((info->value == NULL) == (info->type == MENSUR_OPTION_FLAG));
        assert_true(info->commands != 0);
    }
    assert_true(commands == 17 && options > 30);
}

/* The shop's habits stand where the words leave an option open, and only there; those that differ
 * from what holds without them are noted. */
static void test_habits(void **state) {
    static const char settings[] = "name,value\na4,442\nfifths,equal\nsteps,equal\nunits,in\n"
                                   "force_unit,N\nplayer,small\nheading,The Raven\nhold,slope\n";
    static const struct {
        const char *words;
        double a4;
        enum mensur_fifths fifths;
        enum mensur_hold hold;
        bool inches;
        const char *player;
        const char *habits; /* their names */
    } rows[] = {
        {"lengths|kestrel", 442, MENSUR_FIFTHS_EQUAL, MENSUR_HOLD_SLOPE, true, NULL,
         "a4 fifths units force_unit hold "},
        {"lengths|kestrel|--a4|415|--hold|projection", 415, MENSUR_FIFTHS_EQUAL,
         MENSUR_HOLD_PROJECTION, true, NULL, "fifths units force_unit "},
        {"lengths|kestrel|--inches|--fifths|pure|--force-unit|N", 442, MENSUR_FIFTHS_PURE,
         MENSUR_HOLD_SLOPE, true, NULL, "a4 hold "},
        {"reach|kestrel", 442, MENSUR_FIFTHS_EQUAL, MENSUR_HOLD_SLOPE, true, "small",
         "a4 fifths units force_unit player hold "},
        {"reach|kestrel|--player|tall", 442, MENSUR_FIFTHS_EQUAL, MENSUR_HOLD_SLOPE, true, "tall",
         "a4 fifths units force_unit hold "},
        {"check", 440, MENSUR_FIFTHS_PURE, MENSUR_HOLD_UNASKED, false, NULL, ""},
    };
    const struct mensur_bytes table = {MENSUR_TABLE_SETTINGS, (const unsigned char *)settings,
                                       sizeof settings - 1};
    struct mensur_report report = {.errors = {0}};
    struct mensur_texts messages = {0};
    struct mensur_shop shop;
    (void)state;
    check_status("shop", mensur_shop_open_bytes("shop", &table, 1, &report, &shop), MENSUR_OK);
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct split split;
        struct mensur_question question;
        char habits[80] = "";
        split_words(rows[i].words, &split);
        check_status(rows[i].words,
                     mensur_question_read_in(&shop, split.words, split.count, &messages, &question),
                     MENSUR_OK);
        check_close(rows[i].words, question.terms.a4, rows[i].a4, 0, 0);
        assert_int_equal(question.terms.fifths, rows[i].fifths);
        assert_int_equal(question.terms.hold, rows[i].hold);
        assert_int_equal(question.style.inches, rows[i].inches);
        assert_string_equal(question.heading, "The Raven");
        assert_true((question.player == NULL) == (rows[i].player == NULL));
        if (rows[i].player != NULL) {
            assert_string_equal(question.player, rows[i].player);
        }
        for (size_t j = 0; j < question.habit_count; j++) {
            strcat(strcat(habits, question.habits[j].name), " ");
        }
        assert_string_equal(habits, rows[i].habits);
        mensur_question_clear(&question);
        read_good(rows[i].words, &split, &question);
        assert_int_equal(question.habit_count, 0);
        assert_null(question.heading);
        mensur_question_clear(&question);
    }
    assert_int_equal(messages.count, 0);
    mensur_shop_clear(&shop);
    mensur_report_clear(&report);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_refusals),    cmocka_unit_test(test_help),
        cmocka_unit_test(test_media),       cmocka_unit_test(test_changes),
        cmocka_unit_test(test_described),   cmocka_unit_test(test_wishes),
        cmocka_unit_test(test_many_wishes), cmocka_unit_test(test_tables),
        cmocka_unit_test(test_habits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
