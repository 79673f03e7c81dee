/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strings for a length: the whole question against an exhaustive search that computes every
 * tension, limit and aim for itself. */
#include "demo.h"
#include "said.h"

#include <gsl/gsl_rng.h>

enum { NOTES_MOST = 4, STRINGS_MOST = 24, CASES = 2500, SETS_MOST = 17 };

static char unit_name[] = "random";
static char near_set[] = "near";
static char far_set[] = "far";
static char other_name[] = "other";

/* A shop of one tuning and a few strings, an instrument to string and one to be like. */
struct random_shop {
    struct mensur_stock stock;
    struct mensur_tuning tuning;
    struct mensur_string_spec strings[STRINGS_MOST];
    char names[STRINGS_MOST][16];
    struct mensur_instrument instrument;
    struct mensur_instrument other;
    struct mensur_wish wishes[NOTES_MOST];
    struct mensur_restring_wishes asked;
};

static double between(gsl_rng *random, double low, double high) {
    return low + (high - low) * gsl_rng_uniform(random);
}

static bool chance(gsl_rng *random, double part) {
    return gsl_rng_uniform(random) < part;
}

static const char *const note_names[NOTES_MOST] = {"C3", "G3", "D4", "A4"};
/* kg/m that pulls about 48 N on 370 mm */
static const double usual_density[NOTES_MOST] = {5.16e-3, 2.29e-3, 1.02e-3, 0.453e-3};

static void make_string(gsl_rng *random, struct random_shop *shop, size_t k) {
    struct mensur_string_spec *spec = &shop->strings[k];
    size_t note = k < shop->tuning.count ? k : gsl_rng_uniform_int(random, shop->tuning.count);
    mensur_string_spec_init(spec);
    snprintf(shop->names[k], sizeof shop->names[k], "string %zu", k);
    spec->name = shop->names[k];
    spec->note = shop->tuning.notes[note];
    /* The first of each note make a set of their own, for the instruments to have. */
    spec->set = k < shop->tuning.count ? near_set : far_set;
    spec->linear_density.value = usual_density[note] * between(random, 0.75, 1.3);
    if (chance(random, 0.7)) {
        spec->made_for_low.value = between(random, 0.34, 0.365);
        spec->made_for_high.value = spec->made_for_low.value + between(random, 0.0, 0.04);
    }
    if (chance(random, 0.6)) {
        spec->core_diameter.value = 0.5e-3;
        spec->strength.value = between(random, 200e6, 500e6);
    }
}

static void make_wishes(gsl_rng *random, struct random_shop *shop, double down_factor) {
    shop->asked = (struct mensur_restring_wishes){
        .like = chance(random, 0.3) ? &shop->other : NULL,
        .same_impedance = chance(random, 0.5),
        .tensions = shop->wishes,
        .least_margin = chance(random, 0.5) ? NAN : between(random, 0.0, 6.0),
        .any_length = chance(random, 0.6),
        .most_belly_force = chance(random, 0.4)
                                ? (double)shop->tuning.count * between(random, 40, 56) * down_factor
                                : NAN,
        .from =
            chance(random, 0.2) && shop->stock.string_count > shop->tuning.count ? far_set : NULL,
        .runners_up = gsl_rng_uniform_int(random, SETS_MOST)};
    for (size_t i = 0; i < shop->tuning.count; i++) {
        if (chance(random, 0.25)) {
            struct mensur_wish *wish = &shop->wishes[shop->asked.tension_count++];
            *wish = (struct mensur_wish){.kind = MENSUR_WISH_TENSION, .low = NAN, .high = NAN};
            strcpy(wish->note, shop->tuning.notes[i].name);
            wish->percent = chance(random, 0.3);
            double base = wish->percent ? 1.0 : 48.0;
            wish->low = chance(random, 0.7) ? base * between(random, 0.8, 1.0) : NAN;
            wish->high =
                isnan(wish->low) || chance(random, 0.7) ? base * between(random, 1.0, 1.2) : NAN;
        }
    }
}

static void make_shop(gsl_rng *random, const struct demo *demo, double down_factor,
                      struct random_shop *shop) {
    memset(shop, 0, sizeof *shop);
    shop->tuning.name = unit_name;
    shop->tuning.count = 2 + gsl_rng_uniform_int(random, NOTES_MOST - 1);
    for (size_t i = 0; i < shop->tuning.count; i++) {
        check_status("note", mensur_note_read(note_names[i], 2, &shop->tuning.notes[i]), MENSUR_OK);
    }
    shop->stock = demo->shop.stock;
    shop->stock.tunings = &shop->tuning;
    shop->stock.tuning_count = 1;
    shop->stock.strings = shop->strings;
    shop->stock.string_count =
        shop->tuning.count + gsl_rng_uniform_int(random, STRINGS_MOST - NOTES_MOST);
    for (size_t k = 0; k < shop->stock.string_count; k++) {
        make_string(random, shop, k);
    }
    shop->instrument = demo->kestrel; /* the texts stay the demonstration's */
    shop->instrument.tuning = unit_name;
    shop->instrument.set = chance(random, 0.8) ? near_set : NULL;
    shop->other = demo->heron;
    shop->other.name = other_name;
    shop->other.tuning = unit_name;
    shop->other.set = near_set;
    make_wishes(random, shop, down_factor);
}

/* What the exhaustive search knows of an instrument. */
struct bench {
    double length, down_factor, other_length;
    double frequency[NOTES_MOST];
    double low[NOTES_MOST], high[NOTES_MOST], aim[NOTES_MOST], course[NOTES_MOST];
    size_t count[NOTES_MOST];
    const struct mensur_string_spec *fit[NOTES_MOST][STRINGS_MOST];
    double tension[NOTES_MOST][STRINGS_MOST];
};

static double pull(double density, double length, double frequency) {
    return 4.0 * length * length * frequency * frequency * density;
}

/* The instruments' own set: string i is that of note i. */
static void find_course(const struct random_shop *shop, struct bench *bench, size_t i) {
    const struct mensur_string_spec *own = &shop->strings[i];
    double low = NAN, high = NAN, length;
    bench->course[i] = NAN;
    if (shop->asked.like != NULL) {
        double there = pull(own->linear_density.value, bench->other_length, bench->frequency[i]);
        double impedance =
            2.0 * bench->other_length * bench->frequency[i] * own->linear_density.value;
        /* here Z = sqrt(T mu), with mu = T/(4 L^2 f^2) */
        bench->course[i] = shop->asked.same_impedance
                               ? impedance * 2.0 * bench->length * bench->frequency[i]
                               : there;
    } else if (shop->instrument.set != NULL) {
        for (size_t k = 0; k < shop->tuning.count; k++) {
            low = fmax(low, shop->strings[k].made_for_low.value);
            high = fmin(high, shop->strings[k].made_for_high.value);
        }
        length = low > high ? NAN : (low + high) / 2.0;
        if (isnan(length)) {
            length = (own->made_for_low.value + own->made_for_high.value) / 2.0;
        }
        bench->course[i] = pull(own->linear_density.value, length, bench->frequency[i]);
    }
}

/* A percentage without strings to take it of cannot be asked. */
static bool set_limits(const struct random_shop *shop, struct bench *bench, size_t i) {
    bool liked = shop->asked.like != NULL;
    double base = pull(shop->strings[i].linear_density.value,
                       liked ? bench->other_length : bench->length, bench->frequency[i]);
    bench->low[i] = NAN;
    bench->high[i] = NAN;
    for (size_t k = 0; k < shop->asked.tension_count; k++) {
        const struct mensur_wish *wish = &shop->wishes[k];
        if (strcmp(wish->note, shop->tuning.notes[i].name) == 0) {
            if (wish->percent && !liked && shop->instrument.set == NULL) {
                return false;
            }
            bench->low[i] = wish->low * (wish->percent ? base : 1.0);
            bench->high[i] = wish->high * (wish->percent ? base : 1.0);
        }
    }
    return true;
}

static bool set_aims(const struct random_shop *shop, struct bench *bench) {
    bool wished = false;
    for (size_t i = 0; i < shop->tuning.count; i++) {
        if (!set_limits(shop, bench, i)) {
            return false;
        }
        find_course(shop, bench, i);
        bench->aim[i] = (bench->low[i] + bench->high[i]) / 2.0;
        wished = wished || !isnan(bench->aim[i]);
    }
    for (size_t i = 0; i < shop->tuning.count; i++) {
        if (isnan(bench->aim[i]) && (shop->asked.like != NULL || !wished)) {
            bench->aim[i] = bench->course[i];
        }
    }
    return true;
}

static void find_fits(const struct random_shop *shop, struct bench *bench) {
    double margin = isnan(shop->asked.least_margin) ? 1.0 : shop->asked.least_margin;
    for (size_t k = 0; k < shop->stock.string_count; k++) {
        const struct mensur_string_spec *spec = &shop->strings[k];
        size_t i = 0;
        while (strcmp(spec->note.name, shop->tuning.notes[i].name) != 0) {
            i++;
        }
        double tension = pull(spec->linear_density.value, bench->length, bench->frequency[i]);
        double area =
            3.14159265358979323846 / 4.0 * spec->core_diameter.value * spec->core_diameter.value;
        bool breaks = 6.0 * log2(spec->strength.value / (tension / area)) < margin;
        bool elsewhere =
            bench->length < spec->made_for_low.value || bench->length > spec->made_for_high.value;
        bool other_set = shop->asked.from != NULL && spec->set != far_set;
        if (!other_set && !breaks && !(elsewhere && !shop->asked.any_length) &&
            !(tension < bench->low[i]) && !(tension > bench->high[i])) {
            bench->fit[i][bench->count[i]] = spec;
            bench->tension[i][bench->count[i]++] = tension;
        }
    }
}

static double cost_of(const struct random_shop *shop, const struct bench *bench,
                      const size_t *places, double *force) {
    double cost = 0.0;
    *force = 0.0;
    for (size_t i = 0; i < shop->tuning.count; i++) {
        double tension = bench->tension[i][places[i]];
        *force += tension * bench->down_factor;
        if (!isnan(bench->aim[i])) {
            cost += pow(log(tension / bench->aim[i]), 2.0);
        }
        if (i > 0) {
            double step = bench->aim[i] / bench->aim[i - 1];
            step = isnan(step) ? bench->course[i] / bench->course[i - 1] : step;
            step = isnan(step) ? 1.0 : step;
            cost += pow(log(tension / bench->tension[i - 1][places[i - 1]] / step), 2.0);
        }
    }
    return cost;
}

static bool next_places(const struct random_shop *shop, const struct bench *bench, size_t *places) {
    for (size_t i = shop->tuning.count; i-- > 0;) {
        if (++places[i] < bench->count[i]) {
            return true;
        }
        places[i] = 0;
    }
    return false;
}

/* The least costs there are, in order. */
static size_t try_all(const struct random_shop *shop, const struct bench *bench, double *costs) {
    size_t places[NOTES_MOST] = {0};
    size_t found = 0;
    for (size_t i = 0; i < shop->tuning.count; i++) {
        if (bench->count[i] == 0) {
            return 0;
        }
    }
    do {
        double force;
        double cost = cost_of(shop, bench, places, &force);
        size_t at = found;
        while (at > 0 && costs[at - 1] > cost) {
            at--;
        }
        if (force > shop->asked.most_belly_force || at == shop->asked.runners_up + 1) {
            continue;
        }
        found += found < shop->asked.runners_up + 1 ? 1 : 0;
        memmove(&costs[at + 1], &costs[at], (found - 1 - at) * sizeof costs[0]);
        costs[at] = cost;
    } while (next_places(shop, bench, places));
    return found;
}

/* A choice's own cost, and that it may be chosen at all. */
static double cost_of_choice(const struct random_shop *shop, const struct bench *bench,
                             const struct mensur_choice *choice) {
    size_t places[NOTES_MOST] = {0};
    double force;
    for (size_t i = 0; i < shop->tuning.count; i++) {
        while (places[i] < bench->count[i] &&
               bench->fit[i][places[i]]->name != choice->strings[i].string) {
            places[i]++;
        }
        assert_true(places[i] < bench->count[i]);
    }
    double cost = cost_of(shop, bench, places, &force);
    assert_false(force > shop->asked.most_belly_force * (1.0 + 1e-12));
    return cost;
}

static bool is_same_set(const struct mensur_choice *a, const struct mensur_choice *b,
                        size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (a->strings[i].string != b->strings[i].string) {
            return false;
        }
    }
    return true;
}

static void check_answer(int number, const struct random_shop *shop, const struct bench *bench,
                         const struct mensur_restringing *answer) {
    double costs[SETS_MOST + 1];
    size_t found = try_all(shop, bench, costs);
    char row[32];
    snprintf(row, sizeof row, "case %d", number);
    if (found != answer->choice_count) {
        fail_msg("%s: %zu sets for %zu", row, answer->choice_count, found);
    }
    assert_true(found > 0 || said_count(&answer->excluded) > 0);
    for (size_t k = 0; k < found; k++) {
        const struct mensur_choice *choice = &answer->choices[k];
        check_close(row, choice->cost, costs[k], 1e-10, 0);
        check_close(row, choice->cost, cost_of_choice(shop, bench, choice), 1e-10, 0);
        for (size_t j = 0; j < k; j++) {
            assert_false(is_same_set(choice, &answer->choices[j], shop->tuning.count));
        }
    }
}

static void test_exact(void **state) {
    const struct demo *demo = *state;
    struct mensur_profile kestrel, heron;
    struct mensur_fault fault;
    gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
    int asked = 0, without = 0;
    mensur_ask_profile(&demo->shop.stock, &demo->kestrel, &demo->terms, 0, &fault, &kestrel);
    mensur_ask_profile(&demo->shop.stock, &demo->heron, &demo->terms, 0, &fault, &heron);
    gsl_rng_set(random, 40426);
    for (int number = 0; number < CASES; number++) {
        static struct random_shop shop;
        static struct bench bench;
        struct mensur_restringing answer;
        make_shop(random, demo, kestrel.lengths.down_factor, &shop);
        memset(&bench, 0, sizeof bench);
        bench.length = kestrel.lengths.string_length;
        bench.down_factor = kestrel.lengths.down_factor;
        bench.other_length = heron.lengths.string_length;
        for (size_t i = 0; i < shop.tuning.count; i++) {
            /* pure fifths below A4 */
            bench.frequency[i] = 440.0 * pow(1.5, (double)i - 3.0);
        }
        enum mensur_status want = set_aims(&shop, &bench) ? MENSUR_OK : MENSUR_USE;
        check_status("asked",
                     mensur_ask_restring(&shop.stock, &shop.instrument, &shop.asked, &demo->terms,
                                         &fault, &answer),
                     want);
        if (want == MENSUR_OK) {
            find_fits(&shop, &bench);
            check_answer(number, &shop, &bench, &answer);
            asked++;
            without += answer.choice_count == 0;
            mensur_restringing_clear(&answer);
        }
    }
    print_message("# %d random shops, %d of them without a set that fits\n", asked, without);
    mensur_profile_clear(&kestrel);
    mensur_profile_clear(&heron);
    gsl_rng_free(random);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_exact)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
