/* SPDX-License-Identifier: GPL-3.0-or-later */
/* String length of a violin with a stop of 195 mm and a neck of 130 mm, and the tension of its A.
 *
 *     cc example.c $(pkg-config --cflags --libs mensur gsl) -o example && ./example
 */
#include <gsl/gsl_errno.h>
#include <math.h>
#include <stdio.h>

#include <mensur/geometry.h>
#include <mensur/number.h>
#include <mensur/taut_string.h>

static void say(const char *what, double value, const char *unit) {
    char number[MENSUR_NUMBER_ROOM];
    mensur_number_print(value, 1, number);
    printf("%s %s %s\n", what, number, unit);
}

int main(void) {
    struct mensur_side_view violin = {.body_straight = NAN, /* not needed for the string */
                                      .stop = 0.195,
                                      .neck = 0.130,
                                      .overstand = 0.0065,
                                      .board = 0.0087,
                                      .board_nut = 0.007,
                                      .nut = 0.0004,
                                      .arch = 0.0115,
                                      .projection = 0.027,
                                      .bridge = 0.033,
                                      .saddle = 0.004};
    struct mensur_geometry solved;
    double tension;
    /* The library checks domains itself; GSL's own handler would end the program. */
    gsl_set_error_handler_off();
    enum mensur_status status = mensur_geometry_solve(&violin, &solved);
    if (status == MENSUR_OK) {
        status = mensur_tension(solved.string_length, 440.0, 0.68e-3, &tension);
    }
    if (status != MENSUR_OK) {
        fprintf(stderr, "%s\n", mensur_status_text(status));
        return mensur_status_exit_code(status);
    }
    say("string", solved.string_length * 1000.0, "mm");
    say("A4 of 0.68 g/m pulls", tension, "N");
    return 0;
}
