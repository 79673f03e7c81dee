/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A long file answered by two cores at once: a thread for the second half, each with a report, a
 * presenter and a spool of its own. The stock, the terms and the style are only read. */
#ifdef __linux__
#define _GNU_SOURCE /* sched_getaffinity */
#endif
#include "rows_halved.h"

#include <glib.h>
#include <sched.h>
#include <stdatomic.h>

#include "halves.h"

/* Below this a second thread saves less than a blink. */
enum { HALVED_LEAST_BYTES = 1 << 20 };

struct half {
    const struct rows *rows;
    struct mensur_halves *halves;
    int number;
    atomic_bool *stop; /* one of them met something to be said */
    struct mensur_report report;
    struct mensur_presenter *presenter;
    struct spool *spool;
    enum mensur_status status;
};

static bool silent(const struct half *half) {
    return half->report.errors.count == 0 && half->report.warnings.count == 0;
}

static enum mensur_status visit(void *context, const struct mensur_instrument *instrument) {
    struct half *half = context;
    const struct rows *rows = half->rows;
    struct mensur_profile profile;
    struct mensur_texts messages = {0};
    if (atomic_load_explicit(half->stop, memory_order_relaxed) || !silent(half)) {
        return MENSUR_NO_ANSWER;
    }
    enum mensur_status status =
        mensur_row_make(rows->shop, rows->question, instrument, &messages, &profile);
    mensur_texts_clear(&messages);
    if (status != MENSUR_OK) {
        return status;
    }
    status = mensur_row_write(rows->shop, rows->question, half->presenter, instrument, &profile);
    mensur_profile_clear(&profile);
    return status;
}

static enum mensur_status answer_all(struct half *half) {
    const struct rows *rows = half->rows;
    struct mensur_sink sink = spool_sink(half->spool);
    enum mensur_status status =
        mensur_present_open(&rows->heading, &rows->question->style, &sink, &half->presenter);
    if (status != MENSUR_OK) {
        return status;
    }
    status = mensur_halves_read(half->halves, half->number, visit, half, &half->report);
    enum mensur_status closed = mensur_present_close(half->presenter, status == MENSUR_OK);
    return status == MENSUR_OK ? closed : status;
}

static gpointer run(gpointer data) {
    struct half *half = data;
    half->status = answer_all(half);
    if (half->status != MENSUR_OK) {
        atomic_store(half->stop, true);
    }
    return NULL;
}

/* Both at once; false where there is no second thread to be had. */
static bool run_both(struct half halves[2]) {
    GThread *second = g_thread_try_new("second half", run, &halves[1], NULL);
    if (second == NULL) {
        return false;
    }
    (void)run(&halves[0]);
    (void)g_thread_join(second);
    return true;
}

static bool is_whole(struct half *half) {
    return half->status == MENSUR_OK && silent(half) && spool_is_whole(half->spool);
}

/* Answers both into their spools; the head that the second repeats is passed over. */
static bool answer_both(const struct rows *rows, struct mensur_halves *halves,
                        struct spool spools[2]) {
    atomic_bool stop = false;
    struct half each[2];
    for (int i = 0; i < 2; i++) {
        each[i] = (struct half){
            .rows = rows, .halves = halves, .number = i, .stop = &stop, .spool = &spools[i]};
        spool_open(&spools[i]);
    }
    bool whole = run_both(each) && is_whole(&each[0]) && is_whole(&each[1]) &&
                 !mensur_halves_share_names(halves) && spool_pass_line(&spools[1]);
    for (int i = 0; i < 2; i++) {
        mensur_report_clear(&each[i].report);
        if (!whole) {
            spool_close(&spools[i]);
        }
    }
    return whole;
}

/* How many cores the program may use, which can be fewer than there are. */
static int core_count(void) {
#ifdef __linux__
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof(set), &set) == 0) {
        return CPU_COUNT(&set);
    }
#endif
    return (int)g_get_num_processors();
}

bool rows_halved(const struct rows *rows, struct spool spools[2]) {
    struct mensur_halves *halves = NULL;
    bool wanted = rows->question->style.format == MENSUR_FORMAT_CSV && core_count() > 1;
    if (!wanted || mensur_halves_open(rows->shop, HALVED_LEAST_BYTES, &halves) != MENSUR_OK) {
        return false;
    }
    bool whole = answer_both(rows, halves, spools);
    mensur_halves_free(halves);
    return whole;
}
