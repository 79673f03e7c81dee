/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Every thread does the same until the rows are at their end: it reads the next batch, while no
 * other reads; answers it; and, unless another is at it, hands over whatever batches are next and
 * answered. A thread that is ahead goes on, as long as there are batches that hold nothing. The
 * question is only read. POSIX threads, not GLib's: ThreadSanitizer knows their locks.
 */
#ifdef __linux__
#define _GNU_SOURCE /* sched_getaffinity */
#endif
#include "row_threads.h"

#include <pthread.h>
#include <sched.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "number.h"

enum { THREADS_MOST = 64, THREADED_LEAST_BYTES = 1 << 18 };

/* Batches in memory beside those that are being answered. */
enum { BATCHES_AHEAD = 4 };

struct slot {
    struct mensur_row_batch batch;
    bool answered; /* guarded by the lock of `taking` */
};

struct work {
    const struct mensur_rows *rows;
    take_batch *take;
    void *context;
    size_t slot_count;
    struct slot *slots; /* owned: batch n is in slot n modulo their count */
    struct {
        pthread_mutex_t lock; /* held while a batch is read */
        struct mensur_batches *batches;
        size_t count;              /* of batches so far */
        bool over;                 /* no further one is to be read */
        enum mensur_status status; /* of the last reading */
    } reading;
    struct {
        pthread_mutex_t lock;
        pthread_cond_t next;       /* the count has grown */
        size_t count;              /* of batches so far */
        bool busy;                 /* a thread hands batches over */
        enum mensur_status status; /* anything but MENSUR_OK: what follows is thrown away */
    } taking;
};

/* Waits until the slot of a batch is empty; false where none need be read any more. */
static bool wait_for_slot(struct work *work, size_t number) {
    (void)pthread_mutex_lock(&work->taking.lock);
    while (number - work->taking.count >= work->slot_count) {
        (void)pthread_cond_wait(&work->taking.next, &work->taking.lock);
    }
    bool wanted = work->taking.status == MENSUR_OK;
    (void)pthread_mutex_unlock(&work->taking.lock);
    return wanted;
}

/* The next batch; NULL: there is none. */
static struct slot *read_one(struct work *work) {
    (void)pthread_mutex_lock(&work->reading.lock);
    size_t number = work->reading.count;
    struct slot *slot = &work->slots[number % work->slot_count];
    if (!work->reading.over && wait_for_slot(work, number)) {
        work->reading.status = mensur_row_batch_next(work->reading.batches, &slot->batch);
        work->reading.over = slot->batch.instruments.count == 0;
    } else {
        work->reading.over = true;
    }
    bool more = !work->reading.over;
    work->reading.count += more;
    (void)pthread_mutex_unlock(&work->reading.lock);
    return more ? slot : NULL;
}

/* Hands over all that are answered and whose turn it is. The lock is not held meanwhile, so that
 * the other threads need not wait. */
static void hand_over(struct work *work, struct slot *answered) {
    (void)pthread_mutex_lock(&work->taking.lock);
    answered->answered = true;
    struct slot *slot = &work->slots[work->taking.count % work->slot_count];
    bool mine = !work->taking.busy;
    while (mine && slot->answered) {
        enum mensur_status status = work->taking.status;
        work->taking.busy = true;
        (void)pthread_mutex_unlock(&work->taking.lock);
        status = status == MENSUR_OK ? work->take(work->context, &slot->batch) : status;
        (void)pthread_mutex_lock(&work->taking.lock);
        work->taking.busy = false;
        work->taking.status = status;
        slot->answered = false;
        work->taking.count++;
        (void)pthread_cond_broadcast(&work->taking.next);
        slot = &work->slots[work->taking.count % work->slot_count];
    }
    (void)pthread_mutex_unlock(&work->taking.lock);
}

static void *run(void *data) {
    struct work *work = data;
    for (struct slot *slot; (slot = read_one(work)) != NULL;) {
        mensur_row_batch_answer(work->rows, &slot->batch);
        hand_over(work, slot);
    }
    return NULL;
}

/* How many cores the program may use, which can be fewer than there are. */
static long core_count(void) {
#ifdef __linux__
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof(set), &set) == 0) {
        return CPU_COUNT(&set);
    }
#endif
    return sysconf(_SC_NPROCESSORS_ONLN);
}

static int thread_count(const struct mensur_rows *rows) {
    const char *wanted = getenv("MENSUR_THREADS");
    size_t used = 0, length = wanted != NULL ? strlen(wanted) : 0;
    double count = 0.0;
    if (length > 0 && mensur_number_read(wanted, length, false, &used, &count) == MENSUR_OK &&
        used == length && count >= 1.0 && count <= THREADS_MOST) {
        return (int)count;
    }
    bool is_short = rows->shop->sources[MENSUR_TABLE_INSTRUMENTS].size < THREADED_LEAST_BYTES;
    long cores = is_short ? 1 : core_count();
    return cores < 1 ? 1 : cores < THREADS_MOST ? (int)cores : THREADS_MOST;
}

enum mensur_status answer_in_threads(const struct mensur_rows *rows, struct mensur_batches *batches,
                                     take_batch *take, void *context) {
    int wanted = thread_count(rows);
    struct work work = {
        .rows = rows,
        .take = take,
        .context = context,
        .slot_count = wanted > 1 ? (size_t)wanted + BATCHES_AHEAD : 1,
        .reading = {.lock = PTHREAD_MUTEX_INITIALIZER, .batches = batches},
        .taking = {.lock = PTHREAD_MUTEX_INITIALIZER, .next = PTHREAD_COND_INITIALIZER}};
    pthread_t threads[THREADS_MOST]; /* beside this one */
    work.slots = calloc(work.slot_count, sizeof(*work.slots));
    if (work.slots == NULL) {
        return MENSUR_MEMORY;
    }
    int started = 0;
    while (started < wanted - 1 && pthread_create(&threads[started], NULL, run, &work) == 0) {
        started++; /* where there are no more to be had, the others do the work */
    }
    (void)run(&work);
    for (int i = 0; i < started; i++) {
        (void)pthread_join(threads[i], NULL);
    }
    for (size_t i = 0; i < work.slot_count; i++) {
        mensur_row_batch_clear(&work.slots[i].batch);
    }
    free(work.slots);
    (void)pthread_cond_destroy(&work.taking.next);
    (void)pthread_mutex_destroy(&work.taking.lock);
    (void)pthread_mutex_destroy(&work.reading.lock);
    return work.taking.status != MENSUR_OK ? work.taking.status : work.reading.status;
}
