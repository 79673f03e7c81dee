/* SPDX-License-Identifier: GPL-3.0-or-later */
/* UTF-8 against its definition: RFC 3629, section 4, the table of well-formed byte sequences (from
 * memory). */
#include "check.h"

#include <stdbool.h>

#include "utf8.h"

/* A letter of so many bytes: the range of each. */
static const struct {
    size_t bytes;
    unsigned char low[MENSUR_UTF8_MOST], high[MENSUR_UTF8_MOST];
} well_formed[] = {
    {1, {0x00}, {0x7F}},
    {2, {0xC2, 0x80}, {0xDF, 0xBF}},
    {3, {0xE0, 0xA0, 0x80}, {0xE0, 0xBF, 0xBF}},
    {3, {0xE1, 0x80, 0x80}, {0xEC, 0xBF, 0xBF}},
    {3, {0xED, 0x80, 0x80}, {0xED, 0x9F, 0xBF}},
    {3, {0xEE, 0x80, 0x80}, {0xEF, 0xBF, 0xBF}},
    {4, {0xF0, 0x90, 0x80, 0x80}, {0xF0, 0xBF, 0xBF, 0xBF}},
    {4, {0xF1, 0x80, 0x80, 0x80}, {0xF3, 0xBF, 0xBF, 0xBF}},
    {4, {0xF4, 0x80, 0x80, 0x80}, {0xF4, 0x8F, 0xBF, 0xBF}},
};

static size_t by_the_table(const unsigned char *bytes, size_t length) {
    for (size_t row = 0; row < COUNT_OF(well_formed); row++) {
        size_t i = 0;
        while (i < well_formed[row].bytes && i < length && bytes[i] >= well_formed[row].low[i] &&
               bytes[i] <= well_formed[row].high[i]) {
            i++;
        }
        if (i == well_formed[row].bytes) {
            return i;
        }
    }
    return 0;
}

/* Each first byte, each second one, and behind them the ends of every range and their neighbours.
 */
static void knows_letters(void **state) {
    (void)state;
    static const unsigned char behind[] = {0x00, 0x41, 0x7F, 0x80, 0xBF, 0xC0, 0xFF};
    size_t wrong = 0;
    for (unsigned first = 0; first < 256; first++) {
        for (unsigned second = 0; second < 256; second++) {
            for (size_t i = 0; i < COUNT_OF(behind) * COUNT_OF(behind); i++) {
                const unsigned char bytes[] = {(unsigned char)first, (unsigned char)second,
                                               behind[i % COUNT_OF(behind)],
                                               behind[i / COUNT_OF(behind)]};
                for (size_t length = 0; length <= sizeof(bytes); length++) {
                    uint32_t code = 77;
                    size_t got = mensur_utf8_letter((const char *)bytes, length, &code);
                    wrong += got != by_the_table(bytes, length) || (got == 0 && code != 77);
                }
            }
        }
    }
    assert_int_equal(wrong, 0);
}

static size_t encode(uint32_t code, char out[MENSUR_UTF8_MOST]) {
    static const unsigned lead[] = {0, 0, 0xC0, 0xE0, 0xF0};
    size_t bytes = code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
    for (size_t i = bytes - 1; i > 0; i--) {
        out[i] = (char)(0x80 + code % 64);
        code /= 64;
    }
    out[0] = (char)(lead[bytes] + code);
    return bytes;
}

static void reads_every_code_point(void **state) {
    (void)state;
    size_t wrong = 0;
    for (uint32_t code = 0; code < 0x110000; code++) {
        char bytes[MENSUR_UTF8_MOST];
        uint32_t got = 0;
        size_t length = encode(code, bytes), used = mensur_utf8_letter(bytes, length, &got);
        bool surrogate = code >= 0xD800 && code < 0xE000;
        wrong += surrogate ? used != 0 : used != length || got != code;
    }
    assert_int_equal(wrong, 0);
}

static const struct {
    const char *text;
    size_t length, whole;
} ends[] = {
    {"", 0, 0},
    {"neck", 4, 4},
    {"neck", 2, 2},
    {"\xC3\xA9", 2, 2},
    {"\xC3\xA9", 1, 0},
    {"a\xC3\xA9", 2, 1},
    {"a\xE2\x80\xA6z", 5, 5},
    {"a\xE2\x80\xA6z", 4, 4},
    {"a\xE2\x80\xA6z", 3, 1},
    {"a\xE2\x80\xA6z", 2, 1},
    {"\xF0\x9F\x8E\xBB", 4, 4},
    {"\xF0\x9F\x8E\xBB", 3, 0},
    /* no UTF-8 */
    {"\x80\x80\x80", 3, 0},
    {"a\x80\x80", 3, 3},
};

static void cuts_no_letter(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(ends); i++) {
        print_message("# row %zu\n", i);
        assert_int_equal(mensur_utf8_whole(ends[i].text, ends[i].length), ends[i].whole);
    }
}

/* Unicode 15, general category Cc, Zl and Zp; and of Bidi_Control those that open or close an
 * embedding, an override or an isolate (from memory). What stands beside each range is shown. */
static const struct {
    uint32_t code;
    bool steers;
} steering[] = {{0x00, true},    {0x1B, true},    {0x1F, true},    {0x20, false},  {0x7E, false},
                {0x7F, true},    {0x80, true},    {0x9B, true},    {0x9F, true},   {0xA0, false},
                {0x2027, false}, {0x2028, true},  {0x2029, true},  {0x202A, true}, {0x202E, true},
                {0x202F, false}, {0x2065, false}, {0x2066, true},  {0x2069, true}, {0x206A, false},
                {0xE9, false},   {0x5D0, false},  {0x1F3BB, false}};

static void knows_what_steers(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(steering); i++) {
        char text[MENSUR_UTF8_MOST + 2] = "a", out[sizeof(text)];
        size_t length = 1 + encode(steering[i].code, text + 1);
        print_message("# row %zu\n", i);
        assert_int_equal(mensur_utf8_steers(steering[i].code), steering[i].steers);
        size_t calm = mensur_utf8_calm(text, length, out);
        assert_int_equal(calm, steering[i].steers ? 2 : length);
        assert_memory_equal(out, steering[i].steers ? "a " : text, calm);
    }
    char out[3];
    assert_int_equal(mensur_utf8_calm("\x9B\xC2", 2, out), 2); /* no UTF-8: kept */
    assert_memory_equal(out, "\x9B\xC2", 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(knows_letters),
        cmocka_unit_test(reads_every_code_point),
        cmocka_unit_test(cuts_no_letter),
        cmocka_unit_test(knows_what_steers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
