/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One value of a measurement, as typed on the command line. */
#include "measure.h"
#include "reading.h"

static const struct {
    const char *text;
    enum mensur_field field;
    bool relative;
    double value;
    const char *fault; /* NULL: it is read */
} rows[] = {
    {"152", MENSUR_FIELD_NECK, false, 0.152, NULL},
    {"15.2cm", MENSUR_FIELD_NECK, false, 0.152, NULL},
    {"8-3/4\"", MENSUR_FIELD_STOP, false, 0.22225, NULL},
    {"0", MENSUR_FIELD_SADDLE, false, 0, NULL},
    {"+4 mm", MENSUR_FIELD_NECK, true, 0.004, NULL},
    {"-3", MENSUR_FIELD_STOP, true, -0.003, NULL},
    {"-1/8\"", MENSUR_FIELD_STOP, true, -0.003175, NULL},
    {"-3", MENSUR_FIELD_STOP, false, 0, "stop: \"-3\" is out of its range, which is more than 0"},
    {"0", MENSUR_FIELD_STOP, false, 0, "stop: \"0\" is out of its range"},
    {"-1", MENSUR_FIELD_SADDLE, false, 0, "saddle: \"-1\" is out of its range, which is from 0"},
    {"3.1 m", MENSUR_FIELD_BODY, false, 0, "body: \"3.1 m\" is out of its range"},
    {"152,5", MENSUR_FIELD_NECK, false, 0, "neck: \"152,5\" is not a length, for example"},
    {"wide", MENSUR_FIELD_NECK, true, 0, "neck: \"wide\" is not a length"},
    {"", MENSUR_FIELD_NECK, false, 0, "neck: \"\" is not a length"},
};

static void reads_or_says_why(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_quantity got = {4.25, 0.5};
        struct mensur_fault fault = {"nothing"};
        check_status(
            rows[i].text,
            mensur_read_measure(rows[i].field, rows[i].text, rows[i].relative, &fault, &got),
            rows[i].fault == NULL ? MENSUR_OK : MENSUR_USE);
        check_close(rows[i].text, got.value, rows[i].fault == NULL ? rows[i].value : 4.25, 0,
                    1e-15);
        check_holds(fault.text, rows[i].fault == NULL ? "nothing" : rows[i].fault);
        check_status("no fault asked",
                     mensur_read_measure(rows[i].field, rows[i].text, rows[i].relative, NULL, &got),
                     rows[i].fault == NULL ? MENSUR_OK : MENSUR_USE);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(reads_or_says_why)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
