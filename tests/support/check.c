/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"

static int is_close(double got, double want, double absolute, double relative) {
    if (isnan(got) || isnan(want)) {
        return isnan(got) && isnan(want);
    }
    if (isinf(got) || isinf(want)) {
        return isinf(got) && isinf(want) && signbit(got) == signbit(want);
    }
    return fabs(got - want) <= fmax(absolute, relative * fabs(want));
}

void check_close_at(const char *file, int line, const char *row, double got, double want,
                    double absolute, double relative) {
    if (!is_close(got, want, absolute, relative)) {
        print_error("%s: got %.17g, want %.17g, off by %.3g (allowed %.3g, or %.3g of it)\n", row,
                    got, want, got - want, absolute, relative);
        _fail(file, line);
    }
}

void check_status_at(const char *file, int line, const char *row, enum mensur_status got,
                     enum mensur_status want) {
    if (got != want) {
        print_error("%s: got status %d (%s), want %d (%s)\n", row, (int)got,
                    mensur_status_text(got), (int)want, mensur_status_text(want));
        _fail(file, line);
    }
}

void check_holds_at(const char *file, int line, const char *text, const char *part) {
    if (strstr(text, part) == NULL) {
        print_error("\"%s\" does not hold \"%s\"\n", text, part);
        _fail(file, line);
    }
}
