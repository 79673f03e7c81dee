/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What becomes of an answer when memory fails. */
#include "../answers/scarce.h"
#include "drawing.h"
#include "fixtures.h"

static enum mensur_status count_bytes(void *context, const char *bytes, size_t length) {
    (void)bytes;
    *(size_t *)context += length;
    return MENSUR_OK;
}

static enum mensur_status run(const struct presentation *presentation,
                              const struct fixture *fixture, const struct mensur_style *style) {
    size_t bytes = 0;
    struct mensur_sink sink = {count_bytes, &bytes};
    struct mensur_heading heading = heading_for(presentation->command);
    struct mensur_presenter *presenter = NULL;
    enum mensur_status status = mensur_present_open(&heading, style, &sink, &presenter);
    if (status == MENSUR_OK) {
        status = presentation->present(presenter, fixture);
        enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
        status = status != MENSUR_OK ? status : closed;
    }
    return status;
}

/* Lets every allocation fail in turn, the first hundred and then some, until none is left to. */
static void test_each_allocation(void **state) {
    (void)state;
    static const struct mensur_style styles[] = {
        {.format = MENSUR_FORMAT_TEXT},
        {.format = MENSUR_FORMAT_CSV},
        {.format = MENSUR_FORMAT_JSON},
        {.format = MENSUR_FORMAT_HTML, .illustrate = mensur_draw_illustration}};
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < presentation_count; i++) {
        for (size_t j = 0; j < COUNT_OF(styles); j++) {
            enum mensur_status status = MENSUR_MEMORY;
            long step = 1;
            for (long at = 0; status != MENSUR_OK; at += step) {
                step = at < 100 ? 1 : 37;
                scarce_left = at;
                status = run(&presentations[i], fixture, &styles[j]);
                bool failed = scarce_left < 0;
                scarce_left = -1;
                check_status(presentations[i].command, status, failed ? MENSUR_MEMORY : MENSUR_OK);
            }
        }
    }
    fixture_clear(fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_each_allocation)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
