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
static char third_set[] = "third";
static char other_name[] = "other";
static char gut[] = "gut", steel[] = "steel", nylon[] = "nylon";

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
    bool third; /* the next strings make a set of their own, too */
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
    bool third = shop->third && k >= shop->tuning.count && k < 2 * shop->tuning.count;
    size_t note = k < shop->tuning.count ? k
                  : third                ? k - shop->tuning.count
                                         : gsl_rng_uniform_int(random, shop->tuning.count);
    mensur_string_spec_init(spec);
    snprintf(shop->names[k], sizeof shop->names[k], "string %zu", k);
    spec->name = shop->names[k];
    spec->note = shop->tuning.notes[note];
    /* The first of each note make a set of their own, for the instruments to have. */
    spec->set = k < shop->tuning.count ? near_set : third ? third_set : far_set;
    spec->linear_density.value = usual_density[note] * between(random, 0.75, 1.3);
    if (chance(random, 0.7)) {
        spec->made_for_low.value = between(random, 0.34, 0.365);
        spec->made_for_high.value = spec->made_for_low.value + between(random, 0.0, 0.04);
    }
    if (third || chance(random, 0.6)) {
        spec->core_diameter.value = 0.5e-3;
        spec->strength.value = between(random, 200e6, 600e6);
    }
    if (chance(random, 0.7)) {
        spec->material = chance(random, 0.5) ? nylon : chance(random, 0.5) ? gut : steel;
    }
    if (third) {
        spec->material = nylon;
        spec->made_for_low = spec->made_for_high = MENSUR_UNKNOWN;
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
        .from = chance(random, 0.2) &&
                        shop->stock.string_count > (shop->third ? 2 : 1) * shop->tuning.count
                    ? far_set
                    : NULL,
        .runners_up = gsl_rng_uniform_int(random, SETS_MOST),
        .mix = chance(random, 0.3),
        .material = chance(random, 0.2) ? (chance(random, 0.5) ? "gut" : "synthetic") : NULL};
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
    shop->third = chance(random, 0.7);
    shop->stock.tunings = &shop->tuning;
    shop->stock.tuning_count = 1;
    shop->stock.strings = shop->strings;
    shop->stock.string_count = (shop->third ? 2 : 1) * shop->tuning.count +
                               gsl_rng_uniform_int(random, STRINGS_MOST - 2 * NOTES_MOST);
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

/* A string as the exhaustive search knows it. */
struct weighed {
    const struct mensur_string_spec *spec;
    double tension, miss;                    /* miss: sum of squares of logs of tension */
    bool core, length, margin, light, heavy; /* what is wrong with it */
    bool unknown;                            /* its margin */
};

/* What the exhaustive search knows of an instrument. */
struct bench {
    double length, down_factor, other_length, limit;
    double frequency[NOTES_MOST];
    double low[NOTES_MOST], high[NOTES_MOST], aim[NOTES_MOST], course[NOTES_MOST];
    bool unasked[NOTES_MOST]; /* the aim is the present string's own */
    size_t all_count[NOTES_MOST];
    struct weighed all[NOTES_MOST][STRINGS_MOST];
    const struct weighed *present[NOTES_MOST]; /* that is among them */
    int pool; /* 0: what fits and gains, 1: what fits, 2: all of the core looked for */
    size_t count[NOTES_MOST];
    const struct weighed *fit[NOTES_MOST][STRINGS_MOST];
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
            bench->unasked[i] = shop->asked.like == NULL && !isnan(bench->aim[i]);
        }
    }
    return true;
}

/* g gut, s steel, p synthetic (polymer); ? where nothing is named. */
static char core_of(const struct mensur_string_spec *spec) {
    return spec->material == NULL    ? '?'
           : spec->material == gut   ? 'g'
           : spec->material == steel ? 's'
                                     : 'p';
}

/* The cores that are looked for, as letters. */
static void find_cores(const struct random_shop *shop, size_t i, char *letters) {
    const size_t top = shop->tuning.count - 1;
    char below[NOTES_MOST + 1] = "", all[NOTES_MOST + 1] = "";
    for (size_t k = 0; k <= top && shop->instrument.set != NULL; k++) {
        char letter[2] = {core_of(&shop->strings[k]), '\0'};
        if (*letter != '?') {
            strcat(all, letter);
            strcat(below, k < top ? letter : "");
        }
    }
    strcpy(letters, i == top || *below == '\0' ? all : below);
    if (*all == '\0') {
        strcpy(letters, "p");
    }
    if (shop->asked.material != NULL) {
        strcpy(letters, *shop->asked.material == 'g' ? "g" : "p");
    }
    if (i == top && strchr(letters, 'p') != NULL) {
        strcat(letters, "s");
    }
    strcat(letters, "?");
    if (shop->asked.mix || shop->asked.from != NULL) {
        strcpy(letters, "gsp?");
    }
}

static double squared_log(double ratio) {
    return ratio > 1.0 ? pow(log(ratio), 2.0) : 0.0;
}

static void weigh(const struct random_shop *shop, const struct bench *bench, size_t i,
                  const struct mensur_string_spec *spec, struct weighed *out) {
    double margin = isnan(shop->asked.least_margin) ? 2.0 : shop->asked.least_margin;
    double low = spec->made_for_low.value, high = spec->made_for_high.value;
    double tension = pull(spec->linear_density.value, bench->length, bench->frequency[i]);
    double area =
        3.14159265358979323846 / 4.0 * spec->core_diameter.value * spec->core_diameter.value;
    double holds = 6.0 * log2(spec->strength.value / (tension / area));
    char letters[2 * NOTES_MOST + 8];
    find_cores(shop, i, letters);
    *out = (struct weighed){.spec = spec,
                            .tension = tension,
                            .core = strchr(letters, core_of(spec)) == NULL,
                            .length = !shop->asked.any_length &&
                                      (bench->length < low || bench->length > high),
                            .margin = holds < margin,
                            .light = tension<bench->low[i], .heavy = tension> bench->high[i],
                            .unknown = isnan(holds)};
    if (out->length) {
        out->miss += squared_log(pow(low / bench->length, 2.0)) +
                     squared_log(pow(bench->length / high, 2.0));
    }
    out->miss += out->margin ? pow((margin - holds) / 6.0 * log(2.0), 2.0) : 0.0;
    out->miss += squared_log(bench->low[i] / tension) + squared_log(tension / bench->high[i]);
}

static void weigh_all(const struct random_shop *shop, struct bench *bench) {
    for (size_t k = 0; k < shop->stock.string_count; k++) {
        const struct mensur_string_spec *spec = &shop->strings[k];
        size_t i = 0;
        while (strcmp(spec->note.name, shop->tuning.notes[i].name) != 0) {
            i++;
        }
        if (shop->asked.from == NULL || spec->set == far_set) {
            struct weighed *weighed = &bench->all[i][bench->all_count[i]++];
            weigh(shop, bench, i, spec, weighed);
            if (k < shop->tuning.count && shop->instrument.set != NULL) {
                bench->present[i] = weighed;
            }
        }
    }
}

static bool is_good(const struct weighed *string) {
    return !string->core && !string->length && !string->margin && !string->light && !string->heavy;
}

/* Unknown to hold is worse than near breaking, and that worse than made for another length. */
static int concern_of(const struct weighed *string) {
    return string->unknown * 4 + string->margin * 2 + string->length;
}

static bool gains(const struct bench *bench, size_t i, const struct weighed *now,
                  const struct weighed *other) {
    return fabs(now->tension - bench->aim[i]) - fabs(other->tension - bench->aim[i]) >=
           0.02 * bench->aim[i];
}

static bool is_in_pool(const struct bench *bench, size_t i, const struct weighed *string) {
    const struct weighed *now = bench->present[i];
    bool some_fit = false, some_known = false, some_gain = false;
    for (size_t k = 0; k < bench->all_count[i]; k++) {
        some_fit = some_fit || is_good(&bench->all[i][k]);
        some_known = some_known || (is_good(&bench->all[i][k]) && !bench->all[i][k].unknown);
    }
    for (size_t k = 0; k < bench->all_count[i] && now != NULL; k++) {
        const struct weighed *other = &bench->all[i][k];
        some_gain = some_gain || (is_good(other) && !(other->unknown && some_known) &&
                                  gains(bench, i, now, other));
    }
    if (bench->pool == 2) {
        int least = 8;
        for (size_t k = 0; k < bench->all_count[i]; k++) {
            const struct weighed *other = &bench->all[i][k];
            least = !other->core && concern_of(other) < least ? concern_of(other) : least;
        }
        bool may_stay = now != NULL && !now->core && concern_of(now) == least;
        return !string->core && concern_of(string) == least &&
               (!may_stay || string == now || string->miss < now->miss ||
                gains(bench, i, now, string));
    }
    if (bench->pool == 1) {
        return is_good(string);
    }
    /* The present one stays where it is good, or not made for the length and nothing gains. */
    bool length_alone = now != NULL && now->length && !now->core && !now->margin && !now->light &&
                        !now->heavy && some_fit && !isnan(bench->aim[i]);
    bool stays = now != NULL && (is_good(now) || length_alone);
    if (string == now) {
        return is_good(now) || (length_alone && !some_gain);
    }
    if (stays && is_good(now) && bench->unasked[i] &&
        !(bench->length < now->spec->made_for_low.value ||
          bench->length > now->spec->made_for_high.value)) {
        return false;
    }
    return is_good(string) && !(string->unknown && some_known) &&
           (!stays || gains(bench, i, now, string));
}

static bool find_pool(const struct random_shop *shop, struct bench *bench, int pool) {
    bool each = true;
    bench->pool = pool;
    for (size_t i = 0; i < shop->tuning.count; i++) {
        bench->count[i] = 0;
        for (size_t k = 0; k < bench->all_count[i]; k++) {
            if (is_in_pool(bench, i, &bench->all[i][k])) {
                bench->fit[i][bench->count[i]++] = &bench->all[i][k];
            }
        }
        each = each && bench->count[i] > 0;
    }
    return each;
}

static double cost_of(const struct random_shop *shop, const struct bench *bench,
                      const struct weighed *const *strings, double *force) {
    double cost = 0.0;
    *force = 0.0;
    for (size_t i = 0; i < shop->tuning.count; i++) {
        double tension = strings[i]->tension;
        *force += tension * bench->down_factor;
        cost += bench->pool == 2 ? strings[i]->miss : 0.0;
        if (!isnan(bench->aim[i])) {
            cost += pow(log(tension / bench->aim[i]), 2.0);
        }
        if (i > 0) {
            double step = bench->aim[i] / bench->aim[i - 1];
            step = isnan(step) ? bench->course[i] / bench->course[i - 1] : step;
            step = isnan(step) ? 1.0 : step;
            cost += pow(log(tension / strings[i - 1]->tension / step), 2.0);
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

/* The least costs there are, in order; the strings of the least. */
static size_t try_all(const struct random_shop *shop, const struct bench *bench, double *costs,
                      const struct weighed **best) {
    size_t places[NOTES_MOST] = {0};
    size_t found = 0;
    do {
        const struct weighed *strings[NOTES_MOST];
        double force;
        for (size_t i = 0; i < shop->tuning.count; i++) {
            strings[i] = bench->fit[i][places[i]];
        }
        double cost = cost_of(shop, bench, strings, &force);
        size_t at = found;
        while (at > 0 && costs[at - 1] > cost) {
            at--;
        }
        if (force > bench->limit || at == shop->asked.runners_up + 1) {
            continue;
        }
        found += found < shop->asked.runners_up + 1 ? 1 : 0;
        memmove(&costs[at + 1], &costs[at], (found - 1 - at) * sizeof costs[0]);
        costs[at] = cost;
        if (at == 0) {
            memcpy(best, strings, sizeof strings);
        }
    } while (next_places(shop, bench, places));
    return found;
}

/* One pool after the other; in the last without a set within the limit the lightest. */
static size_t search(const struct random_shop *shop, struct bench *bench, double *costs,
                     const struct weighed **best) {
    size_t found = 0;
    bench->limit = shop->asked.most_belly_force;
    for (int pool = 0; pool < 3 && found == 0; pool++) {
        if (find_pool(shop, bench, pool)) {
            found = try_all(shop, bench, costs, best);
        }
    }
    if (found == 0 && find_pool(shop, bench, 2)) {
        double least = 0.0;
        for (size_t i = 0; i < shop->tuning.count; i++) {
            double lightest = INFINITY;
            for (size_t k = 0; k < bench->count[i]; k++) {
                lightest = fmin(lightest, bench->fit[i][k]->tension);
            }
            least += lightest * bench->down_factor;
        }
        bench->limit = least * (1.0 + 1e-9);
        found = try_all(shop, bench, costs, best);
    }
    return found;
}

/* The cost of the best complete set that misses nothing; NaN where there is none. */
static double whole_cost(const struct random_shop *shop, const struct bench *bench) {
    double least = NAN;
    static const char *const sets[] = {near_set, far_set, third_set};
    for (size_t n = 0; n < COUNT_OF(sets); n++) {
        const struct weighed *strings[NOTES_MOST] = {NULL};
        size_t members = 0;
        bool good = true;
        for (size_t i = 0; i < shop->tuning.count; i++) {
            for (size_t k = 0; k < bench->all_count[i]; k++) {
                const struct weighed *string = &bench->all[i][k];
                if (string->spec->set == sets[n]) {
                    strings[i] = string;
                    members++;
                    good = good && is_good(string) && !string->unknown;
                }
            }
            good = good && strings[i] != NULL;
        }
        double force;
        if (good && members == shop->tuning.count) {
            double cost = cost_of(shop, bench, strings, &force);
            least = force > shop->asked.most_belly_force ? least : fmin(least, cost);
        }
    }
    return least;
}

/* The strings of a choice, and that they may be chosen at all. */
static double cost_of_choice(const struct random_shop *shop, const struct bench *bench,
                             const struct mensur_choice *choice, bool whole) {
    const struct weighed *strings[NOTES_MOST];
    double force;
    for (size_t i = 0; i < shop->tuning.count; i++) {
        strings[i] = NULL;
        for (size_t k = 0; k < bench->all_count[i]; k++) {
            bool is_it = bench->all[i][k].spec->name == choice->strings[i].string;
            strings[i] = is_it ? &bench->all[i][k] : strings[i];
        }
        assert_non_null(strings[i]);
        assert_true(whole || is_in_pool(bench, i, strings[i]));
        bool present = shop->instrument.set != NULL && strings[i]->spec == &shop->strings[i];
        assert_int_equal(choice->kept[i], present);
    }
    double cost = cost_of(shop, bench, strings, &force);
    assert_false(force > bench->limit * (1.0 + 1e-9));
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

/* How often what was met. */
struct counts {
    int none, nearest, whole, kept, left;
};

static void check_answer(int number, const struct random_shop *shop, struct bench *bench,
                         const struct mensur_restringing *answer, struct counts *counts) {
    double costs[SETS_MOST + 2];
    const struct weighed *best[NOTES_MOST] = {NULL};
    size_t found = search(shop, bench, costs, best);
    bool met = found > 0 && bench->pool < 2;
    double whole = whole_cost(shop, bench);
    bool prefers = met && !shop->asked.mix && shop->asked.from == NULL && !isnan(whole);
    for (size_t i = 0; i < shop->tuning.count && prefers; i++) {
        prefers = best[i] != bench->present[i] || best[i] == NULL || !is_good(best[i]);
    }
    if (prefers) {
        size_t at = 0;
        while (at < found && fabs(costs[at] - whole) > 1e-11) {
            at++;
        }
        memmove(&costs[1], &costs[0], at * sizeof costs[0]);
        costs[0] = whole;
        found += at == found && found < shop->asked.runners_up + 1;
    }
    char row[32];
    snprintf(row, sizeof row, "case %d", number);
    if (found != answer->choice_count) {
        fail_msg("%s: %zu sets for %zu", row, answer->choice_count, found);
    }
    assert_int_equal(answer->met, met);
    assert_true(met || said_count(&answer->excluded) > 0);
    for (size_t k = 0; k < found; k++) {
        const struct mensur_choice *choice = &answer->choices[k];
        check_close(row, choice->cost, costs[k], 1e-10, 0);
        check_close(row, choice->cost, cost_of_choice(shop, bench, choice, prefers && k == 0),
                    1e-10, 0);
        for (size_t j = 0; j < k; j++) {
            assert_false(is_same_set(choice, &answer->choices[j], shop->tuning.count));
        }
    }
    counts->none += found == 0;
    counts->nearest += found > 0 && !met;
    counts->whole += prefers;
    counts->left += answer->leave;
    counts->kept += found > 0 && answer->choices[0].kept[0] && !answer->leave;
}

static void test_exact(void **state) {
    const struct demo *demo = *state;
    struct mensur_profile kestrel, heron;
    struct mensur_fault fault;
    gsl_rng *random = gsl_rng_alloc(gsl_rng_mt19937);
    int asked = 0;
    struct counts counts = {0};
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
            weigh_all(&shop, &bench);
            check_answer(number, &shop, &bench, &answer, &counts);
            asked++;
            mensur_restringing_clear(&answer);
        }
    }
    print_message(
        "# %d random shops: %d left as they are, %d whole sets, %d with a string kept, %d "
        "nearest, %d without\n",
        asked, counts.left, counts.whole, counts.kept, counts.nearest, counts.none);
    assert_true(counts.left > 50 && counts.whole > 40 && counts.kept > 50 && counts.nearest > 50);
    mensur_profile_clear(&kestrel);
    mensur_profile_clear(&heron);
    gsl_rng_free(random);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_exact)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
