/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Every thread does the same until the rows are at their end: it reads the next batch, while no
 * other reads; answers it; and hands it over when all batches before it were. The question is only
 * read. POSIX threads, not GLib's: ThreadSanitizer knows their locks.
 */
#ifdef __linux__
#define _GNU_SOURCE /* sched_getaffinity */
#endif
#include "row_threads.h"

#include <glib.h>
#include <pthread.h>
#include <sched.h>

enum { THREADS_MOST = 64, THREADED_LEAST_BYTES = 1 << 18 };

struct work {
    const struct question *question;
    take_batch *take;
    void *context;
    struct {
        pthread_mutex_t lock;
        struct mensur_batches *batches;
        size_t count;              /* of batches so far */
        bool over;                 /* no further one is to be read */
        enum mensur_status status; /* of the last reading */
    } reading;
    struct {
        pthread_mutex_t lock; /* held while a batch is taken */
        pthread_cond_t next;  /* the count has grown */
        size_t count;         /* of batches so far */
        enum mensur_status status;
    } taking;
};

/* Whether there is one; *number is its place among all. */
static bool read_one(struct work *work, struct row_batch *batch, size_t *number) {
    (void)pthread_mutex_lock(&work->reading.lock);
    if (!work->reading.over) {
        work->reading.status = next_batch(work->reading.batches, batch);
        work->reading.over = batch->instruments.count == 0;
    }
    bool more = !work->reading.over;
    *number = work->reading.count;
    work->reading.count += more;
    (void)pthread_mutex_unlock(&work->reading.lock);
    return more;
}

/* False where the work was ended. */
static bool hand_over(struct work *work, struct row_batch *batch, size_t number) {
    (void)pthread_mutex_lock(&work->taking.lock);
    while (work->taking.count != number) {
        (void)pthread_cond_wait(&work->taking.next, &work->taking.lock);
    }
    if (work->taking.status == MENSUR_OK) {
        work->taking.status = work->take(work->context, batch);
    }
    bool good = work->taking.status == MENSUR_OK;
    work->taking.count++;
    (void)pthread_cond_broadcast(&work->taking.next);
    (void)pthread_mutex_unlock(&work->taking.lock);
    return good;
}

static void *run(void *data) {
    struct work *work = data;
    struct row_batch batch = {.status = MENSUR_OK};
    size_t number;
    while (read_one(work, &batch, &number)) {
        answer_batch(work->question, &batch);
        if (!hand_over(work, &batch, number)) {
            break;
        }
    }
    row_batch_clear(&batch);
    return NULL;
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

static int thread_count(const struct question *question) {
    const char *wanted = g_getenv("MENSUR_THREADS");
    guint64 count;
    if (wanted != NULL && g_ascii_string_to_unsigned(wanted, 10, 1, THREADS_MOST, &count, NULL)) {
        return (int)count;
    }
    bool is_short = question->shop.sources[MENSUR_TABLE_INSTRUMENTS].size < THREADED_LEAST_BYTES;
    return is_short ? 1 : MIN(core_count(), THREADS_MOST);
}

enum mensur_status answer_in_threads(const struct question *question,
                                     struct mensur_batches *batches, take_batch *take,
                                     void *context) {
    struct work work = {
        .question = question,
        .take = take,
        .context = context,
        .reading = {.lock = PTHREAD_MUTEX_INITIALIZER, .batches = batches},
        .taking = {.lock = PTHREAD_MUTEX_INITIALIZER, .next = PTHREAD_COND_INITIALIZER}};
    pthread_t threads[THREADS_MOST]; /* beside this one */
    int started = 0, wanted = thread_count(question) - 1;
    while (started < wanted && pthread_create(&threads[started], NULL, run, &work) == 0) {
        started++; /* where there are no more to be had, the others do the work */
    }
    (void)run(&work);
    for (int i = 0; i < started; i++) {
        (void)pthread_join(threads[i], NULL);
    }
    (void)pthread_cond_destroy(&work.taking.next);
    (void)pthread_mutex_destroy(&work.taking.lock);
    (void)pthread_mutex_destroy(&work.reading.lock);
    return work.taking.status != MENSUR_OK ? work.taking.status : work.reading.status;
}
