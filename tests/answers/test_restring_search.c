/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The choice of strings against an exhaustive search over thousands of small catalogues, and where
 * no exhaustive search ends, against plain dynamic programs. */
#include "check.h"
#include "restring_search.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_rng.h>

enum { NOTES_MOST = 6, STRINGS_MOST = 2000 };

/* What a random catalogue is made of. */
struct kind {
    const char *name;
    unsigned long seed;
    int cases;
    size_t notes_most;
    size_t strings_most;
    double grid;     /* logs are whole multiples of it; 0: any */
    double range;    /* of the logs, around 4 */
    double with_aim; /* part of the notes that have one */
    int limit;    /* 0 none, 1 anywhere between lightest and heaviest, 2 exactly some set's force */
    double slope; /* force = exp(log_tension) * slope, as in a string's own; 0: any force */
    double extra; /* part of the strings that have a cost of their own */
};

static struct restring_string memory[MENSUR_STRINGS_MAX][STRINGS_MOST];

static double log_on_grid(gsl_rng *random, const struct kind *kind) {
    double at = kind->range * (gsl_rng_uniform(random) - 0.5);
    return 4.0 + (kind->grid > 0.0 ? kind->grid * floor(at / kind->grid) : at);
}

/* A term of the cost as it is documented, written down once more. */
static long long whole(double difference) {
    double square = fmin(difference * difference, 65536.0);
    return (long long)floor(ldexp(square, 40) + 0.5);
}

static size_t between(gsl_rng *random, size_t low, size_t high) {
    return low + gsl_rng_uniform_int(random, high - low + 1);
}

static void make_note(gsl_rng *random, const struct kind *kind, struct restring_note *note) {
    for (size_t k = 0; k < note->count; k++) {
        double log_tension = log_on_grid(random, kind);
        double force = kind->slope > 0.0 ? exp(log_tension) * kind->slope
                                         : 30.0 * gsl_rng_uniform(random) - 2.0;
        note->strings[k] = (struct restring_string){.log_tension = log_tension, .force = force};
        if (kind->extra > 0.0 && gsl_rng_uniform(random) < kind->extra) {
            note->strings[k].extra = whole(log_on_grid(random, kind) - 4.0);
        }
    }
    note->aim = gsl_rng_uniform(random) < kind->with_aim ? log_on_grid(random, kind) : NAN;
    note->step = gsl_rng_uniform(random) < 0.5 ? 0.0 : log_on_grid(random, kind) - 4.0;
}

static double limit_of(gsl_rng *random, const struct kind *kind,
                       const struct restring_problem *problem) {
    double light = 0.0;
    double heavy = 0.0;
    double some = 0.0;
    for (size_t i = 0; i < problem->note_count; i++) {
        const struct restring_note *note = &problem->notes[i];
        double least = INFINITY;
        double most = -INFINITY;
        for (size_t k = 0; k < note->count; k++) {
            least = fmin(least, note->strings[k].force);
            most = fmax(most, note->strings[k].force);
        }
        light += least;
        heavy += most;
        some += note->strings[gsl_rng_uniform_int(random, note->count)].force;
    }
    if (kind->limit == 0) {
        return NAN;
    }
    return kind->limit == 2 ? some : light + (heavy - light) * (gsl_rng_uniform(random) - 0.1);
}

static void make_problem(gsl_rng *random, const struct kind *kind,
                         struct restring_problem *problem) {
    *problem = (struct restring_problem){.note_count = between(random, 1, kind->notes_most),
                                         .wanted = between(random, 1, RESTRING_SETS_MAX)};
    for (size_t i = 0; i < problem->note_count; i++) {
        problem->notes[i].strings = memory[i];
        problem->notes[i].count = between(random, 1, kind->strings_most);
        make_note(random, kind, &problem->notes[i]);
    }
    problem->most_force = limit_of(random, kind, problem);
}

static long long cost_of(const struct restring_problem *problem, const size_t *places) {
    long long cost = 0;
    for (size_t i = 0; i < problem->note_count; i++) {
        const struct restring_note *note = &problem->notes[i];
        double log_tension = note->strings[places[i]].log_tension;
        cost += note->strings[places[i]].extra;
        cost += isnan(note->aim) ? 0 : whole(log_tension - note->aim);
        if (i > 0) {
            const struct restring_note *before = &problem->notes[i - 1];
            cost +=
                whole(log_tension - (before->strings[places[i - 1]].log_tension + before->step));
        }
    }
    return cost;
}

static double force_of(const struct restring_problem *problem, const size_t *places) {
    double force = 0.0;
    for (size_t i = 0; i < problem->note_count; i++) {
        force += problem->notes[i].strings[places[i]].force;
    }
    return force;
}

/* Next in the catalogue's order, the last note's string moving first; false past the last set. */
static bool next_places(const struct restring_problem *problem, size_t *places) {
    for (size_t i = problem->note_count; i-- > 0;) {
        if (++places[i] < problem->notes[i].count) {
            return true;
        }
        places[i] = 0;
    }
    return false;
}

/* Every set there is, in the catalogue's order; a set comes behind those of its own cost. */
static size_t try_all(const struct restring_problem *problem, struct restring_set *sets) {
    size_t places[MENSUR_STRINGS_MAX] = {0};
    size_t found = 0;
    do {
        if (force_of(problem, places) > problem->most_force) {
            continue; /* no limit, NaN, compares false */
        }
        long long cost = cost_of(problem, places);
        size_t at = found;
        while (at > 0 && sets[at - 1].cost > cost) {
            at--;
        }
        if (at == problem->wanted) {
            continue;
        }
        found += found < problem->wanted ? 1 : 0;
        for (size_t k = found - 1; k > at; k--) {
            sets[k] = sets[k - 1];
        }
        sets[at].cost = cost;
        memcpy(sets[at].places, places, sizeof places);
    } while (next_places(problem, places));
    return found;
}

static void check_sets(const char *name, int number, const struct restring_problem *problem,
                       const struct restring_set *got, size_t got_count,
                       const struct restring_set *want, size_t want_count) {
    if (got_count != want_count) {
        fail_msg("%s %d: %zu sets for %zu", name, number, got_count, want_count);
    }
    for (size_t k = 0; k < want_count; k++) {
        if (got[k].cost != want[k].cost) {
            fail_msg("%s %d: set %zu costs %lld, not %lld", name, number, k, (long long)got[k].cost,
                     (long long)want[k].cost);
        }
        for (size_t i = 0; i < problem->note_count; i++) {
            if (got[k].places[i] != want[k].places[i]) {
                fail_msg("%s %d: set %zu has string %zu at note %zu, not %zu", name, number, k,
                         got[k].places[i], i, want[k].places[i]);
            }
        }
    }
}

static const struct kind kinds[] = {
    {"any, no limit", 20261, 1200, 6, 5, 0.0, 0.8, 0.8, 0, 0.38, 0.0},
    {"any, limit", 20262, 1500, 6, 5, 0.0, 0.8, 0.8, 1, 0.38, 0.0},
    {"any, a set's own force", 20263, 800, 6, 5, 0.0, 0.8, 0.8, 2, 0.38, 0.0},
    {"ties, no limit", 20264, 1000, 6, 5, 0.1, 0.5, 0.7, 0, 0.38, 0.0},
    {"ties, limit", 20265, 1200, 6, 5, 0.1, 0.5, 0.7, 1, 0.38, 0.0},
    {"ties, a set's own force", 20266, 1000, 6, 5, 0.1, 0.5, 0.7, 2, 0.38, 0.0},
    {"all alike", 20267, 300, 5, 5, 1.0, 0.9, 0.5, 2, 0.38, 0.0},
    {"nothing aimed at", 20268, 500, 6, 5, 0.0, 0.8, 0.0, 1, 0.38, 0.0},
    {"force as it comes", 20269, 1000, 6, 5, 0.0, 0.8, 0.8, 1, 0.0, 0.0},
    {"ties, force as it comes", 20270, 800, 6, 5, 0.1, 0.4, 0.6, 2, 0.0, 0.0},
    {"absurdly far", 20271, 300, 5, 5, 0.0, 900.0, 0.8, 1, 0.0, 0.0},
    {"three notes, long lists", 20272, 200, 3, 30, 0.02, 0.6, 0.9, 1, 0.38, 0.0},
    {"four notes, longer lists", 20273, 60, 4, 20, 0.0, 0.6, 0.9, 1, 0.38, 0.0},
    {"own costs, no limit", 20281, 1000, 6, 5, 0.1, 0.5, 0.7, 0, 0.38, 0.5},
    {"own costs, limit", 20282, 1200, 6, 5, 0.1, 0.5, 0.7, 1, 0.38, 0.5},
    {"own costs, any", 20283, 800, 6, 5, 0.0, 0.8, 0.8, 2, 0.38, 0.9},
    {"own costs, force as it comes", 20284, 500, 6, 5, 0.1, 0.4, 0.6, 1, 0.0, 0.6},
    {"own costs, absurdly far", 20285, 200, 5, 5, 0.0, 900.0, 0.8, 1, 0.0, 0.5},
};

static void is_exact(void **state) {
    (void)state;
    long cases = 0;
    long without = 0;
    for (size_t j = 0; j < COUNT_OF(kinds); j++) {
        const struct kind *kind = &kinds[j];
        gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
        gsl_rng_set(random, kind->seed);
        for (int number = 0; number < kind->cases; number++) {
            struct restring_problem problem;
            struct restring_set got[RESTRING_SETS_MAX];
            struct restring_set want[RESTRING_SETS_MAX];
            size_t count = 99;
            double slack = 99.0;
            make_problem(random, kind, &problem);
            check_status(kind->name, restring_search(&problem, got, &count, &slack), MENSUR_OK);
            assert_true(slack <= 0.0);
            size_t right = try_all(&problem, want);
            check_sets(kind->name, number, &problem, got, count, want, right);
            cases++;
            without += right == 0;
        }
        gsl_rng_free(random);
    }
    print_message("# %ld random catalogues, %ld of them without a set\n", cases, without);
}

/* Without a limit the least cost is that of the shortest way through the notes. */
static long long least_cost(const struct restring_problem *problem) {
    static long long ways[2][STRINGS_MOST];
    long long best = 0;
    for (size_t i = 0; i < problem->note_count; i++) {
        const struct restring_note *note = &problem->notes[i];
        long long least = -1;
        for (size_t k = 0; k < note->count; k++) {
            long long *way = &ways[i % 2][k];
            double log_tension = note->strings[k].log_tension;
            *way = i == 0 ? 0 : -1;
            for (size_t j = 0; i > 0 && j < problem->notes[i - 1].count; j++) {
                const struct restring_note *before = &problem->notes[i - 1];
                long long cost =
                    ways[(i + 1) % 2][j] +
                    whole(log_tension - (before->strings[j].log_tension + before->step));
                *way = *way < 0 || cost < *way ? cost : *way;
            }
            *way += isnan(note->aim) ? 0 : whole(log_tension - note->aim);
            least = least < 0 || *way < least ? *way : least;
        }
        best = least;
    }
    return best;
}

static void make_large(gsl_rng *random, const struct kind *kind, size_t notes, size_t strings,
                       struct restring_problem *problem) {
    *problem = (struct restring_problem){
        .note_count = notes, .wanted = RESTRING_SETS_MAX, .most_force = NAN};
    for (size_t i = 0; i < notes; i++) {
        problem->notes[i].strings = memory[i];
        problem->notes[i].count = strings;
        make_note(random, kind, &problem->notes[i]);
        problem->notes[i].step = 0.0;
    }
}

static void check_order(const char *name, const struct restring_problem *problem,
                        const struct restring_set *sets, size_t count) {
    for (size_t k = 0; k < count; k++) {
        assert_true(sets[k].cost == cost_of(problem, sets[k].places));
        assert_false(force_of(problem, sets[k].places) > problem->most_force);
        if (k > 0 && (sets[k - 1].cost > sets[k].cost ||
                      memcmp(sets[k - 1].places, sets[k].places, sizeof sets[k].places) == 0)) {
            fail_msg("%s: set %zu is out of order", name, k);
        }
    }
}

static const struct {
    struct kind kind;
    size_t notes;
    size_t strings;
} large[] = {
    {{.name = "violin, every string there is",
      .seed = 31,
      .range = 0.8,
      .with_aim = 1.0,
      .slope = 0.38},
     4,
     1500},
    {{.name = "five notes", .seed = 32, .range = 0.8, .with_aim = 0.7, .slope = 0.38}, 5, 2000},
    {{.name = "five notes of tied strings",
      .seed = 33,
      .grid = 0.05,
      .range = 0.8,
      .with_aim = 0.7,
      .slope = 0.38},
     5,
     2000},
    {{.name = "sixteen notes", .seed = 34, .range = 0.8, .with_aim = 0.8, .slope = 0.38}, 16, 300},
    {{.name = "sixteen notes of tied strings",
      .seed = 35,
      .grid = 0.1,
      .range = 0.8,
      .with_aim = 0.5,
      .slope = 0.38},
     16,
     300},
    {{.name = "nothing aimed at", .seed = 36, .range = 0.8, .with_aim = 0.0, .slope = 0.38},
     5,
     2000},
};

/* Large ones: the least cost without a limit, and with one the same set again where the limit is
 * just what it needs, and never a better one where the limit is less. */
static void ends_in_time(void **state) {
    (void)state;
    for (size_t j = 0; j < COUNT_OF(large); j++) {
        const char *name = large[j].kind.name;
        gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
        struct restring_problem problem;
        struct restring_set sets[RESTRING_SETS_MAX];
        struct restring_set within[RESTRING_SETS_MAX];
        size_t count = 0;
        double slack = 99.0;
        gsl_rng_set(random, large[j].kind.seed);
        make_large(random, &large[j].kind, large[j].notes, large[j].strings, &problem);
        check_status(name, restring_search(&problem, sets, &count, &slack), MENSUR_OK);
        assert_int_equal(count, RESTRING_SETS_MAX);
        assert_true(sets[0].cost == least_cost(&problem));
        check_order(name, &problem, sets, count);
        problem.most_force = force_of(&problem, sets[0].places);
        check_status(name, restring_search(&problem, within, &count, &slack), MENSUR_OK);
        assert_true(within[0].cost == sets[0].cost);
        problem.most_force *= 0.95;
        check_status(name, restring_search(&problem, within, &count, &slack), MENSUR_OK);
        assert_int_equal(count, RESTRING_SETS_MAX);
        check_order(name, &problem, within, count);
        assert_true(within[0].cost >= sets[0].cost);
        gsl_rng_free(random);
    }
}

/* A set that is only just within the limit, and one that is only just not. */
static void keeps_the_limit(void **state) {
    (void)state;
    struct restring_string low[] = {{.log_tension = 4.0, .force = 21.1},
                                    {.log_tension = 3.9, .force = 18.3}};
    struct restring_string high[] = {{.log_tension = 4.0, .force = 20.7},
                                     {.log_tension = 3.8, .force = 17.9}};
    struct restring_problem problem = {
        .note_count = 2, .notes = {{low, 2, 4.0, 0.0}, {high, 2, 4.0, 0.0}}, .wanted = 4};
    struct restring_set sets[RESTRING_SETS_MAX];
    size_t found = 99;
    double slack = 99.0;
    problem.most_force = 21.1 + 20.7;
    check_status("ends included", restring_search(&problem, sets, &found, &slack), MENSUR_OK);
    assert_int_equal(found, 4);
    assert_int_equal(sets[0].places[0] + sets[0].places[1], 0);
    problem.most_force = nextafter(21.1 + 20.7, 0.0);
    check_status("the best is over", restring_search(&problem, sets, &found, &slack), MENSUR_OK);
    assert_int_equal(found, 3);
    problem.most_force = 18.3 + 17.9;
    check_status("the lightest alone", restring_search(&problem, sets, &found, &slack), MENSUR_OK);
    assert_int_equal(found, 1);
    problem.most_force = nextafter(18.3 + 17.9, 0.0);
    check_status("none", restring_search(&problem, sets, &found, &slack), MENSUR_OK);
    assert_int_equal(found, 0);
}

static const double capped = 65536.0; /* what one term costs at most */

/* One note. String k costs 65536 q^k and presses with -1/2^k N; the last one costs nothing and
 * presses with nothing, which is over the limit. Between it and any other string the roof of the
 * priced costs has its ridge at the very next one, so that the price is still not the best after as
 * many rounds as there are. */
static void many_ridges(void **state) {
    (void)state;
    enum { RIDGES = 46 };
    const double q = 0.47;
    struct restring_string strings[RIDGES + 1];
    struct restring_set sets[RESTRING_SETS_MAX];
    size_t found = 99;
    double slack = 99.0;
    for (int k = 0; k < RIDGES; k++) {
        strings[k] = (struct restring_string){.log_tension = 4.0 + 256.0 * pow(q, k / 2.0),
                                              .force = -ldexp(1, -k)};
    }
    strings[RIDGES] = (struct restring_string){.log_tension = 4.0, .force = 0.0};
    struct restring_problem problem = {.note_count = 1,
                                       .notes = {{strings, RIDGES + 1, 4.0, 0.0}},
                                       .most_force = -ldexp(1, -60),
                                       .wanted = 3};
    check_status("ridges", restring_search(&problem, sets, &found, &slack), MENSUR_OK);
    assert_int_equal(found, 3);
    for (size_t i = 0; i < found; i++) {
        int k = RIDGES - 1 - (int)i;
        assert_int_equal(sets[i].places[0], k);
        check_close("cost", restring_cost(sets[i].cost), capped * pow(q, k), ldexp(1, -40), 1e-9);
    }
}

enum { PAIRS = 9, LEVELS = 23 };

/* Nine notes of two strings each: an even one that presses a hair harder, and a light one that is
 * far from each neighbour; and one of many, each four times as costly as the one before. One string
 * that presses with 1e9 N makes every price on force too small to help, and the hairs less than
 * what sums may be rounded by. Only nine light strings together keep the limit, and their cost is
 * nine times the most of a term.
 */
static void far_above_the_bound(void **state) {
    (void)state;
    static struct restring_string pairs[PAIRS][2], last[LEVELS + 1];
    struct restring_problem problem = {.note_count = PAIRS + 1, .most_force = 450.0, .wanted = 1};
    struct restring_set set;
    size_t found = 99;
    double slack = 99.0;
    for (size_t i = 0; i < PAIRS; i++) {
        pairs[i][0] = (struct restring_string){.log_tension = 0.0, .force = 50.00005};
        pairs[i][1] =
            (struct restring_string){.log_tension = i % 2 == 0 ? 600.0 : -600.0, .force = 50.0};
        problem.notes[i] = (struct restring_note){pairs[i], 2, NAN, 0.0};
    }
    for (int k = 0; k < LEVELS; k++) {
        last[k] = (struct restring_string){.log_tension = ldexp(1, k - 14), .force = 0.0};
    }
    last[LEVELS] = (struct restring_string){.log_tension = 0.0, .force = 1e9};
    problem.notes[PAIRS] = (struct restring_note){last, LEVELS + 1, 0.0, 0.0};
    check_status("far", restring_search(&problem, &set, &found, &slack), MENSUR_OK);
    assert_int_equal(found, 1);
    for (size_t i = 0; i < PAIRS; i++) {
        assert_int_equal(set.places[i], 1);
    }
    assert_int_equal(set.places[PAIRS], 0);
    check_close("cost", restring_cost(set.cost), PAIRS * capped, 1e-7, 0);
}

/* Evenly graded strings, the same for each note, as heavy sets wish and light ones may be. Forces
 * are whole multiples of a grain. */
struct graded {
    const char *name;
    size_t notes;
    size_t strings;
    double range; /* of the logs, around 4, where they are aimed at */
    double grain; /* N, a power of 2 */
    double part;  /* the limit, from the lightest set's force to the heaviest's */
    size_t wanted;
};

static const struct graded graded[] = {
    {"twelve notes of a hundred", 12, 100, 0.3, 0x1p-6, 0.1, RESTRING_SETS_MAX},
    {"sixteen notes of three hundred", 16, 300, 0.3, 0x1p-5, 0.05, 1},
    {"sixteen of three hundred within 1 %", 16, 300, 1e-2, 0x1p-10, 0.1, 3},
    {"sixteen of three hundred within 0.01 %", 16, 300, 1e-4, 0x1p-15, 0.3, RESTRING_SETS_MAX},
    {"sixteen of three hundred within 0.001 %", 16, 300, 1e-5, 0x1p-18, 0.4, 1},
};

static const long long none_graded = INT64_MAX / 2;

/* The limit in grains over the lightest set. */
static size_t make_graded(const struct graded *row, struct restring_problem *problem) {
    *problem = (struct restring_problem){.note_count = row->notes, .wanted = row->wanted};
    for (size_t k = 0; k < row->strings; k++) {
        double log_tension = 4.0 + row->range * ((double)k / (double)row->strings - 0.5);
        memory[0][k] = (struct restring_string){
            .log_tension = log_tension,
            .force = row->grain * floor(exp(log_tension) * 0.38 / row->grain)};
    }
    double lightest = memory[0][0].force;
    double heaviest = memory[0][row->strings - 1].force;
    for (size_t i = 0; i < row->notes; i++) {
        problem->notes[i] = (struct restring_note){memory[0], row->strings, 4.0, 0.0};
    }
    size_t grains = (size_t)(row->part * (double)row->notes * (heaviest - lightest) / row->grain);
    problem->most_force = (double)row->notes * lightest + (double)grains * row->grain;
    return grains;
}

/* The least costs of the ways to string k of the next note, one for each number of grains over the
 * lightest, out of those to the strings of the note before. */
static void go_on_graded(const struct graded *row, const struct restring_problem *problem, size_t k,
                         size_t room, const long long *before, long long *to) {
    const struct restring_string *strings = memory[0];
    const size_t own = (size_t)((strings[k].force - strings[0].force) / row->grain);
    const long long aim = whole(strings[k].log_tension - problem->notes[0].aim);
    for (size_t f = 0; f < room; f++) {
        to[f] = none_graded;
    }
    for (size_t j = 0; j < row->strings; j++) {
        const long long *from = before + j * room;
        long long cost = aim + whole(strings[k].log_tension - strings[j].log_tension);
        for (size_t f = own; f < room; f++) {
            to[f] = from[f - own] + cost < to[f] ? from[f - own] + cost : to[f];
        }
    }
}

/* The least cost of the sets that are heavier than the lightest by no more than so many grains: a
 * plain dynamic program over note, string and force. */
static long long least_graded(const struct graded *row, const struct restring_problem *problem,
                              size_t grains) {
    const struct restring_string *strings = memory[0];
    const size_t room = grains + 1;
    long long *ways[2];
    long long best = none_graded;
    for (size_t n = 0; n < 2; n++) {
        ways[n] = test_calloc(row->strings * room, sizeof *ways[n]);
        assert_non_null(ways[n]);
    }
    for (size_t k = 0; k < row->strings; k++) {
        size_t own = (size_t)((strings[k].force - strings[0].force) / row->grain);
        for (size_t f = 0; f < room; f++) {
            ways[0][k * room + f] =
                f == own ? whole(strings[k].log_tension - problem->notes[0].aim) : none_graded;
        }
    }
    for (size_t i = 1; i < row->notes; i++) {
        for (size_t k = 0; k < row->strings; k++) {
            go_on_graded(row, problem, k, room, ways[(i + 1) % 2], ways[i % 2] + k * room);
        }
    }
    for (size_t at = 0; at < row->strings * room; at++) {
        long long way = ways[(row->notes + 1) % 2][at];
        best = way < best ? way : best;
    }
    test_free(ways[0]);
    test_free(ways[1]);
    return best;
}

/* Where very many sets are nearly as good: the best, or one that costs no more than the best of
 * those lighter by the slack that is told. */
static void many_near_the_best(void **state) {
    (void)state;
    for (size_t j = 0; j < COUNT_OF(graded); j++) {
        const struct graded *row = &graded[j];
        struct restring_problem problem;
        struct restring_set sets[RESTRING_SETS_MAX];
        size_t count = 0;
        double slack = 99.0;
        size_t grains = make_graded(row, &problem);
        check_status(row->name, restring_search(&problem, sets, &count, &slack), MENSUR_OK);
        assert_int_equal(count, row->wanted);
        check_order(row->name, &problem, sets, count);
        assert_true(slack >= 0.0 && slack < problem.most_force / 2000.0 * (double)(row->notes - 1));
        size_t grains_less = (size_t)ceil(slack / row->grain);
        long long most =
            grains_less > grains ? INT64_MAX : least_graded(row, &problem, grains - grains_less);
        long long least = least_graded(row, &problem, grains);
        print_message("# %s: cost %lld, from %lld to %lld, slack %g N\n", row->name,
                      (long long)sets[0].cost, least, most, slack);
        assert_true(sets[0].cost >= least && sets[0].cost <= most);
    }
}

/* Sixteen notes of two strings each: one as wished, and one that saves force for a cost in
 * proportion. Neighbours are so far apart that all steps cost alike. Of the 65536 sets none is
 * better in both force and cost, so that there are far more labels than are kept apart. */
static void labels_are_merged(void **state) {
    (void)state;
    enum { NOTES = 16 };
    struct restring_string strings[NOTES][2];
    struct restring_problem problem = {.note_count = NOTES};
    struct restring_set got[RESTRING_SETS_MAX], best[RESTRING_SETS_MAX], light[RESTRING_SETS_MAX];
    const size_t wanted[] = {1, 5, RESTRING_SETS_MAX};
    gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_rng_set(random, 20274);
    for (size_t i = 0; i < NOTES; i++) {
        double aim = i % 2 == 0 ? 4.0 : 604.0;
        double saved = 1.0 + gsl_rng_uniform(random);
        double off = sqrt(saved * (1.0 + 1e-6 * gsl_rng_uniform(random)));
        strings[i][0] = (struct restring_string){.log_tension = aim, .force = 20.0};
        strings[i][1] = (struct restring_string){.log_tension = aim - off, .force = 20.0 - saved};
        problem.notes[i] = (struct restring_note){strings[i], 2, aim, 0.0};
    }
    for (size_t j = 0; j < COUNT_OF(wanted); j++) {
        size_t count = 0;
        double slack = 0.0;
        problem.wanted = wanted[j];
        problem.most_force = 308.0;
        check_status("merged", restring_search(&problem, got, &count, &slack), MENSUR_OK);
        assert_true(slack > 0.0 && slack < 308.0 / 2000.0 * (NOTES - 1));
        assert_int_equal(count, wanted[j]);
        check_order("merged", &problem, got, count);
        assert_int_equal(try_all(&problem, best), wanted[j]);
        problem.most_force = 308.0 - slack;
        assert_int_equal(try_all(&problem, light), wanted[j]);
        print_message("# slack %g N, costs %.12g of %.12g to %.12g\n", slack,
                      restring_cost(got[0].cost), restring_cost(best[0].cost),
                      restring_cost(light[0].cost));
        for (size_t k = 0; k < count; k++) {
            assert_true(got[k].cost >= best[k].cost && got[k].cost <= light[k].cost);
        }
    }
    gsl_rng_free(random);
}

int main(void) {
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(is_exact),
        cmocka_unit_test(ends_in_time),
        cmocka_unit_test(keeps_the_limit),
        cmocka_unit_test(many_ridges),
        cmocka_unit_test(far_above_the_bound),
        cmocka_unit_test(many_near_the_best),
        cmocka_unit_test(labels_are_merged),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
