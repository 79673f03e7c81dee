/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "worked.h"

static const double pi = 3.14159265358979323846;

/* The value of a printed formula in the unit of its result: angles come in radians, densities and
 * some others in the unit that is told behind the formula. */
static double in_unit(double value, const char *result) {
    if (strstr(result, "°") != NULL) {
        return value * 180 / pi;
    }
    if (strstr(result, "%") != NULL) {
        return value * 100;
    }
    return value;
}

/* Works a step out again. */
static void check_step(const struct mensur_working_line *line) {
    struct worked_out got = work_out(line->with_numbers);
    struct worked_out want = read_result(line->result);
    if (!got.good || !want.good) {
        fail_msg("%s: \"%s\" or \"%s\" cannot be read", line->what, line->with_numbers,
                 line->result);
    }
    double factor = in_unit(1, line->result);
    double allowed = got.off * factor + 1.01 * want.off + 1e-9 * fabs(want.value);
    check_close(line->what, got.value * factor, want.value, allowed, 0);
}

size_t check_working(const struct mensur_working *working) {
    size_t steps = 0;
    for (size_t i = 0; i < working->count; i++) {
        const struct mensur_working_line *line = &working->lines[i];
        assert_true(line->about != NULL && *line->what != '\0' && *line->formula != '\0');
        assert_true(*line->result != '\0' && *line->source != '\0');
        assert_null(strpbrk(line->formula, "{}?"));
        assert_null(strpbrk(line->with_numbers, "{}?"));
        assert_null(strpbrk(line->result, "{}?"));
        if (*line->with_numbers != '\0') {
            assert_non_null(strstr(line->formula, " = "));
            check_step(line);
            steps++;
        }
    }
    return steps;
}

const struct mensur_working_line *find_line(const struct mensur_working *working, const char *about,
                                            const char *what) {
    const struct mensur_working_line *found = NULL;
    for (size_t i = 0; i < working->count; i++) {
        if (strcmp(working->lines[i].what, what) == 0 &&
            (about == NULL || strcmp(working->lines[i].about, about) == 0)) {
            found = &working->lines[i]; /* the last one */
        }
    }
    return found;
}
