/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strings for a length: the whole question against an exhaustive search that computes every tension,
 * limit and aim for itself; then the words, the packets, the feel of another instrument, refusals. */
#include "demo.h"

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
        .from = chance(random, 0.2) && shop->stock.string_count > shop->tuning.count ? far_set : NULL,
        .runners_up = gsl_rng_uniform_int(random, SETS_MOST)};
    for (size_t i = 0; i < shop->tuning.count; i++) {
        if (chance(random, 0.25)) {
            struct mensur_wish *wish = &shop->wishes[shop->asked.tension_count++];
            *wish = (struct mensur_wish){.kind = MENSUR_WISH_TENSION, .low = NAN, .high = NAN};
            strcpy(wish->note, shop->tuning.notes[i].name);
            wish->percent = chance(random, 0.3);
            double base = wish->percent ? 1.0 : 48.0;
            wish->low = chance(random, 0.7) ? base * between(random, 0.8, 1.0) : NAN;
            wish->high = isnan(wish->low) || chance(random, 0.7) ? base * between(random, 1.0, 1.2)
                                                                 : NAN;
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
        double impedance = 2.0 * bench->other_length * bench->frequency[i] * own->linear_density.value;
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
        double area = 3.14159265358979323846 / 4.0 * spec->core_diameter.value * spec->core_diameter.value;
        bool breaks = 6.0 * log2(spec->strength.value / (tension / area)) < margin;
        bool elsewhere = bench->length < spec->made_for_low.value ||
                         bench->length > spec->made_for_high.value;
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

static bool is_same_set(const struct mensur_choice *a, const struct mensur_choice *b, size_t count) {
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
    assert_true(found > 0 || answer->excluded.count > 0);
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
        check_status("asked", mensur_ask_restring(&shop.stock, &shop.instrument, &shop.asked,
                                                  &demo->terms, &fault, &answer),
                     want);
        if (want == MENSUR_OK) {
            find_fits(&shop, &bench);
            check_answer(number, &shop, &bench, &answer);
            asked++;
            without += answer.choice_count == 0;
            mensur_restringing_clear(&answer);
        }
    }
    print_message("%d random shops, %d of them without a set that fits\n", asked, without);
    mensur_profile_clear(&kestrel);
    mensur_profile_clear(&heron);
    gsl_rng_free(random);
}

static struct mensur_restring_wishes no_wishes(void) {
    return (struct mensur_restring_wishes){
        .least_margin = NAN, .most_belly_force = NAN, .runners_up = 3};
}

static void ask(const struct demo *demo, const struct mensur_instrument *instrument,
                const struct mensur_restring_wishes *wishes, struct mensur_restringing *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status = mensur_ask_restring(&demo->shop.stock, instrument, wishes,
                                                    &demo->terms, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* What the present set would pull in the middle of its range is aimed at, said, and nearly met. */
static void test_present_aim(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_int_equal(answer.choice_count, 4);
    assert_int_equal(answer.string_count, 4);
    check_holds(answer.reason, "present strings (viola gut) would pull on 375.0 mm, the middle");
    check_holds(answer.reason, "no other set that meets every wish comes nearer");
    double length = answer.present.lengths.string_length;
    for (size_t i = 0; i < 4; i++) {
        const struct mensur_string_figures *chosen = &answer.choices[0].strings[i];
        double aim = answer.present.strings[i].tension * pow(0.375 / length, 2.0);
        check_close(chosen->note, chosen->tension, aim, 0, 0.05);
        assert_int_equal(chosen->in_made_for_range, MENSUR_YES);
        check_holds(answer.choices[0].why[i], "the aim; made for 3");
        assert_true(isnan(chosen->breaking_margin) || chosen->breaking_margin >= 1.0);
    }
    assert_string_equal(answer.present.assumed.items[answer.present.assumed.count - 1].field,
                        "margin in semitones");
    mensur_restringing_clear(&answer);
}

/* Like itself and of any length, an instrument keeps its own strings, at no cost. */
static void test_like_itself(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    wishes.like = &demo->kestrel;
    wishes.any_length = true;
    for (int impedance = 0; impedance < 2; impedance++) {
        wishes.same_impedance = impedance == 1;
        ask(demo, &demo->kestrel, &wishes, &answer);
        check_close("cost", answer.choices[0].cost, 0, 1e-12, 0);
        check_close("evenness", answer.choices[0].evenness, 0, 1e-6, 0);
        for (size_t i = 0; i < answer.string_count; i++) {
            assert_string_equal(answer.choices[0].strings[i].string,
                                answer.present.strings[i].string);
        }
        check_holds(answer.choices[0].why[0], "N, as the liked string; made for 370.0 to 380.0 mm, "
                                              "which this instrument's string is not; ");
        check_holds(answer.reason, impedance == 1 ? "The aim is the wave impedance"
                                                  : "The aim is the pull of the strings of kestrel");
        mensur_restringing_clear(&answer);
    }
}

/* Only the length was measured: nothing is said of the belly, and the strings are chosen. */
static void test_length_alone(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    ask(demo, &demo->dipper, &wishes, &answer);
    assert_true(answer.choice_count > 0);
    check_close("belly", answer.choices[0].total_force_on_belly, NAN, 0, 0);
    assert_true(answer.choices[0].total_tension > 150.0);
    mensur_restringing_clear(&answer);
}

static struct mensur_packet packet_of(const char *text) {
    struct mensur_packet packet;
    struct mensur_fault fault = {""};
    check_status(text, mensur_packet_read(text, &fault, &packet), MENSUR_OK);
    return packet;
}

/* A packet pulls on its own length what it says, and by the square of the lengths on another. */
static void test_packets(void **state) {
    const struct demo *demo = *state;
    const struct mensur_packet packets[] = {packet_of("A4=55@370"), packet_of("A4=55@370@430"),
                                            packet_of("C3=5 kgf@14.5 in")};
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_wish wish = {.kind = MENSUR_WISH_TENSION, .note = "A4"};
    struct mensur_restringing answer;
    double here = 55.0 * pow(358.0 / 370.0, 2.0);
    wishes.packets = packets;
    wishes.packet_count = COUNT_OF(packets);
    wishes.tensions = &wish;
    wishes.tension_count = 1;
    wish.low = here - 1e-9;
    wish.high = here + 1e-9;
    ask(demo, &demo->dipper, &wishes, &answer);
    assert_int_equal(answer.choice_count, 4);
    const struct mensur_string_figures *chosen = &answer.choices[0].strings[3];
    assert_string_equal(chosen->string, "A4 by its packet");
    check_close("the first", chosen->tension, here, 0, 1e-12);
    check_holds(answer.choices[0].why[3], "as the wish; the length that it is made for is not known; "
                                          "its strength is not known");
    mensur_restringing_clear(&answer);
    wish.low = here * pow(440.0 / 430.0, 2.0) - 1e-9;
    wish.high = wish.low + 2e-9;
    ask(demo, &demo->dipper, &wishes, &answer);
    assert_string_equal(answer.choices[0].strings[3].string, "A4 by its packet, the 2.");
    mensur_restringing_clear(&answer);
    /* kgf and inch are exact: 9.80665 N, 25.4 mm */
    wish = (struct mensur_wish){.kind = MENSUR_WISH_TENSION, .note = "C3"};
    wish.low = 5.0 * 9.80665 * pow(358.0 / (14.5 * 25.4), 2.0) - 1e-9;
    wish.high = wish.low + 2e-9;
    ask(demo, &demo->dipper, &wishes, &answer);
    assert_string_equal(answer.choices[0].strings[0].string, "C3 by its packet");
    mensur_restringing_clear(&answer);
}

static void test_unreadable_packets(void **state) {
    (void)state;
    static const char *const texts[] = {"", "A4", "A4=", "A4=55", "A4=55@", "A4=@370", "A4=55@370@",
                                        "H4=55@370", "=55@370", "A4=-5@370", "A4=0@370", "A4=55@0",
                                        "A4=55 mm@370", "A4=55@370 N", "A4=55@370@0", "55@370",
                                        "A4=55@370@440@3", "A4=nan@370"};
    for (size_t i = 0; i < COUNT_OF(texts); i++) {
        struct mensur_packet packet = {.tension = 12.5};
        struct mensur_fault fault;
        check_status(texts[i], mensur_packet_read(texts[i], &fault, &packet), MENSUR_USE);
        check_holds(fault.text, "is no packet; write NOTE=TENSION@LENGTH");
        check_close(texts[i], packet.tension, 12.5, 0, 0);
    }
}

/* None fits: which wish leaves none, and what would. */
static void test_excluded(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_wish wish = {.kind = MENSUR_WISH_TENSION, .note = "A4", .low = 90, .high = 99};
    struct mensur_restringing answer;
    wishes.from = "viola gut";
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_int_equal(answer.choice_count, 0);
    assert_int_equal(answer.excluded.count, 4);
    assert_string_equal(answer.excluded.items[3],
                        "A4: its 1 string does not fit: 1 is not made for 361.9 mm; 1 would fit if "
                        "strings made for other lengths were allowed");
    mensur_restringing_clear(&answer);
    wishes.from = "violin gut";
    ask(demo, &demo->kestrel, &wishes, &answer);
    check_holds(answer.excluded.items[0], "C3: the set \"violin gut\" has no string for it");
    mensur_restringing_clear(&answer);
    wishes = no_wishes();
    wishes.tensions = &wish;
    wishes.tension_count = 1;
    wishes.any_length = true;
    ask(demo, &demo->kestrel, &wishes, &answer);
    check_holds(answer.excluded.items[0], "strings fits: ");
    check_holds(answer.excluded.items[0], " pull less than 90.0 N; ");
    check_holds(answer.excluded.items[0], " would fit with another wish for the tension");
    mensur_restringing_clear(&answer);
    wishes = no_wishes();
    wishes.least_margin = 30;
    ask(demo, &demo->kestrel, &wishes, &answer);
    check_holds(answer.excluded.items[1], " nearer to breaking than 30.0 semitones");
    mensur_restringing_clear(&answer);
}

/* The least force that is left is told, and is the limit at which one set is found. */
static void test_belly(void **state) {
    const struct demo *demo = *state;
    struct mensur_restring_wishes wishes = no_wishes();
    struct mensur_restringing answer;
    double least = INFINITY;
    ask(demo, &demo->kestrel, &wishes, &answer);
    double best = answer.choices[0].total_force_on_belly;
    double first_cost = answer.choices[0].cost;
    mensur_restringing_clear(&answer);
    wishes.most_belly_force = best - 1e-9;
    wishes.runners_up = 16;
    ask(demo, &demo->kestrel, &wishes, &answer);
    for (size_t k = 0; k < answer.choice_count; k++) {
        assert_true(answer.choices[k].total_force_on_belly <= wishes.most_belly_force);
        assert_true(answer.choices[k].cost > first_cost);
        least = fmin(least, answer.choices[k].total_force_on_belly);
    }
    assert_true(least < best);
    mensur_restringing_clear(&answer);
    wishes.most_belly_force = 40;
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_int_equal(answer.choice_count, 0);
    const char *said = answer.excluded.items[answer.excluded.count - 1];
    check_holds(said, "force on the belly: the lightest strings that meet every other wish press "
                      "with ");
    wishes.most_belly_force = atof(strstr(said, "with ") + 5) + 0.06;
    mensur_restringing_clear(&answer);
    ask(demo, &demo->kestrel, &wishes, &answer);
    assert_true(answer.choice_count > 0);
    mensur_restringing_clear(&answer);
}

/* Wishes for one note narrow each other, in whatever order they come; an open side gives way. */
static void test_narrowing(void **state) {
    const struct demo *demo = *state;
    const struct mensur_wish all = {.kind = MENSUR_WISH_TENSION, .percent = true, .low = 0.9,
                                    .high = 1.16};
    const struct mensur_wish a4 = {.kind = MENSUR_WISH_TENSION, .note = "A4", .low = 46.0,
                                   .high = NAN};
    const struct mensur_wish orders[2][2] = {{all, a4}, {a4, all}};
    for (size_t i = 0; i < 2; i++) {
        struct mensur_restring_wishes wishes = no_wishes();
        struct mensur_restringing answer;
        wishes.tensions = orders[i];
        wishes.tension_count = 2;
        wishes.any_length = true;
        wishes.runners_up = 16;
        ask(demo, &demo->kestrel, &wishes, &answer);
        assert_int_equal(answer.choice_count, 17);
        double most = 1.16 * answer.present.strings[3].tension;
        double middle = (46.0 + most) / 2.0;
        char off[16];
        double tension = answer.choices[0].strings[3].tension;
        snprintf(off, sizeof off, "%.1f %% %s", fabs(tension / middle - 1.0) * 100.0,
                 tension < middle ? "under" : "over");
        check_holds(answer.choices[0].why[3], off);
        for (size_t k = 0; k < answer.choice_count; k++) {
            tension = answer.choices[k].strings[3].tension;
            assert_true(tension >= 46.0 && tension <= most);
        }
        mensur_restringing_clear(&answer);
    }
}

/* Refusals: each with the words that help on. */
static void test_refusals(void **state) {
    const struct demo *demo = *state;
    const struct mensur_packet stray = packet_of("E5=70@330");
    const struct mensur_wish b4 = {.kind = MENSUR_WISH_TENSION, .note = "B4", .low = 40, .high = 50};
    const struct mensur_wish percent = {.kind = MENSUR_WISH_TENSION, .percent = true, .low = 0.9,
                                        .high = 1.1};
    struct mensur_instrument bare = demo->kestrel; /* borrows every text */
    struct mensur_instrument untuned = demo->dipper;
    bare.set = NULL;
    untuned.family = NULL;
    untuned.tuning = NULL;
    const struct {
        const char *words;
        const struct mensur_instrument *instrument;
        struct mensur_restring_wishes wishes;
    } rows[] = {
        {"no string is tuned to B4", &demo->kestrel, {.tensions = &b4, .tension_count = 1}},
        {"no percentage of the tension of C3", &bare, {.tensions = &percent, .tension_count = 1}},
        {"did you mean \"viola gut\"?", &demo->kestrel, {.from = "viola gutt"}},
        {"there is no set of strings \"cobweb\"", &demo->kestrel, {.from = "cobweb"}},
        {"a packet is given for E5", &demo->kestrel, {.packets = &stray, .packet_count = 1}},
        {"runners-up at most", &demo->kestrel, {.runners_up = 17}},
        {"0 semitones or more", &demo->kestrel, {.least_margin = -0.5}},
        {"0 semitones or more", &demo->kestrel, {.least_margin = INFINITY}},
        {"more than 0 N", &demo->kestrel, {.most_belly_force = -3}},
        {"no limit on the force on the belly can be kept", &demo->dipper, {.most_belly_force = 70}},
        {"without a tuning", &untuned, {.runners_up = 1}},
        {"no string of known feel", &demo->kestrel, {.like = &demo->bittern}},
        {"no string of known feel", &demo->kestrel, {.like = &bare}},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_restring_wishes wishes = rows[i].wishes;
        struct mensur_restringing answer = {.string_count = 77};
        struct mensur_fault fault = {""};
        if (wishes.most_belly_force == 0.0) {
            wishes.most_belly_force = NAN;
        }
        check_status(rows[i].words,
                     mensur_ask_restring(&demo->shop.stock, rows[i].instrument, &wishes,
                                         &demo->terms, &fault, &answer),
                     MENSUR_USE);
        check_holds(fault.text, rows[i].words);
        assert_int_equal(answer.string_count, 77);
    }
}

/* The neck's other way out names strings made for the length that stays, where there are any. */
static void test_instead(void **state) {
    const struct demo *demo = *state;
    struct mensur_wishes wishes = {.like = &demo->heron};
    struct mensur_decision decision;
    struct mensur_fault fault = {""};
    check_status("neck", mensur_ask_decision(&demo->shop.stock, &demo->kestrel, &wishes, false,
                                             &demo->terms, &fault, &decision),
                 MENSUR_OK);
    for (size_t i = 0; i < decision.instead_count; i++) {
        const struct mensur_instead *instead = &decision.instead[i];
        const struct mensur_stock *stock = &demo->shop.stock;
        assert_non_null(instead->nearest_string);
        for (size_t k = 0; k < stock->string_count; k++) {
            if (strcmp(stock->strings[k].name, instead->nearest_string) == 0) {
                double length = decision.present.lengths.string_length;
                assert_true(stock->strings[k].made_for_low.value <= length);
                assert_true(stock->strings[k].made_for_high.value >= length);
            }
        }
        check_close(instead->note, instead->nearest_linear_density,
                    instead->needed_linear_density, 0, 0.05);
    }
    mensur_decision_clear(&decision);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_exact),          cmocka_unit_test(test_present_aim),
        cmocka_unit_test(test_like_itself),    cmocka_unit_test(test_length_alone),
        cmocka_unit_test(test_packets),        cmocka_unit_test(test_unreadable_packets),
        cmocka_unit_test(test_excluded),       cmocka_unit_test(test_belly),
        cmocka_unit_test(test_narrowing),      cmocka_unit_test(test_refusals),
        cmocka_unit_test(test_instead),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
