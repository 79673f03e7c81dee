/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Invented instruments whose figures were set down by hand: present computes nothing, so that they
 * need not agree with each other. */
#include "fixtures.h"

#include <math.h>
#include <stdlib.h>

static const char long_name[] =
    "a viola of our own, after the drawing on the wall by the window, with the long neck that was "
    "cut for somebody tall, and the short stop that the drawing has: the second of four, finished "
    "in the winter, spruce from the attic";

const char *const awkward_names[] = {
    long_name,
    "\xD7\xA2\xD7\x95\xD7\xA4\xD7\xA8 \xD7\xA7\xD7\x98\xD7\x9F", /* from the right */
    "wre\xCC\x81n a\xCC\x88\xCC\xA7",                            /* combining marks */
    "a\tb\x1b[2Jc\x7f\xC2\x9B\xE2\x80\xAE",                      /* moves the cursor */
    "=1+1, \"quoted\"",
    "nobreaknobreaknobreaknobreaknobreaknobreaknobreaknobreaknobreaknobreaknobreaknobreaknobreak",
    "",
};
const size_t awkward_name_count = COUNT_OF(awkward_names);

static const char *const sources[] = {"Mersenne 1636", "geometry of the instrument's side view",
                                      NULL};

const struct mensur_heading fixture_heading = {
    "lengths", "demonstration",     440.0, "pure", "equal", sources, 0, NULL, NULL,
    NULL,      &mensur_view_lengths};

struct mensur_heading heading_for(const char *command) {
    struct mensur_heading heading = fixture_heading;
    heading.command = command;
    heading.view = strcmp(command, "lengths") == 0   ? &mensur_view_lengths
                   : strcmp(command, "tension") == 0 ? &mensur_view_tension
                   : strcmp(command, "fingers") == 0 ? &mensur_view_fingers
                                                     : NULL;
    return heading;
}

static enum mensur_status take(void *context, const char *bytes, size_t length) {
    struct memory_sink *memory = context;
    if (memory->refuse_after > 0 && memory->length + length > memory->refuse_after) {
        return MENSUR_WRITE;
    }
    memory->bytes = realloc(memory->bytes, memory->length + length + 1);
    assert_non_null(memory->bytes);
    memcpy(memory->bytes + memory->length, bytes, length);
    memory->length += length;
    memory->bytes[memory->length] = '\0';
    return MENSUR_OK;
}

struct mensur_sink memory_sink(struct memory_sink *memory) {
    return (struct mensur_sink){take, memory};
}

void memory_sink_clear(struct memory_sink *memory) {
    free(memory->bytes);
    *memory = (struct memory_sink){0};
}

static char *copy(const char *text) {
    char *out = NULL;
    assert_int_equal(mensur_text_copy(text, strlen(text), &out), MENSUR_OK);
    return out;
}

static struct mensur_lengths make_lengths(double neck, double stop) {
    double string = neck + stop + 0.00437;
    return (struct mensur_lengths){
        .body = 0.41,
        .body_straight = 0.4089,
        .stop = stop,
        .neck = neck,
        .string_length = string,
        .string_length_measured = MENSUR_NO,
        .string_length_geometry = string,
        .stop_per_2_neck = 2 * stop / neck,
        .body_at_semitones = 8.72,
        .neck_slope = 0.0917,
        .break_angle = 2.7651,
        .down_factor = 0.3647,
        .left_reach = 0.4089 + neck,
        .bow_reach = 0.4089 - stop,
        .afterlength = string / 6,
        .clearance_at_board_end = 0.00527,
        .bow_room = string / 6,
        .clearance_low = 0.00627,
        .clearance_high = 0.00427,
        .first_finger_at_heel_semitones = NAN,
        .afterlength_semitones = NAN,
        .air_volume = NAN,
        .air_note = NAN,
    };
}

struct string_row {
    const char *string, *note;
    double frequency, linear_density, margin;
    enum mensur_known in_range;
};

static const struct string_row string_rows[] = {
    {"viola C3 gut silver-wound", "C3", 130.3704, 0.004271, 3.84, MENSUR_NO},
    {"viola G3 gut silver-wound", "G3", 195.5556, 0.002134, 2.31, MENSUR_YES},
    {"viola D4 gut aluminium-wound", "D4", 293.3333, 0.000893, 0.62, MENSUR_UNSURE},
    {NULL, "A4", 440.0, NAN, NAN, MENSUR_UNSURE},
};

static struct mensur_string_figures make_string(const struct string_row *row, double length) {
    double tension = 4 * length * length * row->frequency * row->frequency * row->linear_density;
    struct mensur_string_figures figures = {
        .string = row->string,
        .frequency = row->frequency,
        .linear_density = row->linear_density,
        .tension = tension,
        .stress = tension / 4.1e-7,
        .breaking_margin = row->margin,
        .inharmonicity = tension * 1.7e-7,
        .impedance = tension * 0.0061,
        .force_on_belly = tension * 0.3647,
        .in_made_for_range = row->in_range,
        .made_for_low = 0.37,
        .made_for_high = 0.38,
        .strength = 3.14e8,
        .highest_frequency = 671.3,
        .bow_force_least = 0.113,
        .bow_force_greatest = 1.871,
        .press_force_first = 1.317,
        .press_force_octave = 0.913,
        .rise_low_cents = 3.17,
        .rise_high_cents = 4.71,
        .breaking_margin_at_least = MENSUR_NO,
        .inharmonicity_low = NAN,
        .inharmonicity_high = NAN,
        .tuning_stretch = NAN,
        .cents_per_mm = NAN,
        .cents_per_kelvin = NAN,
    };
    memcpy(figures.note, row->note, strlen(row->note) + 1);
    return figures;
}

static void add_assumed(struct mensur_profile *profile, const char *field, double value,
                        enum mensur_kind kind, const char *text) {
    profile->assumed.items[profile->assumed.count++] = (struct mensur_assumed){
        .field = field, .value = value, .kind = kind, .text = text, .behind = MENSUR_BEHIND_ALL};
}

static void add_fingers(struct mensur_profile *profile) {
    static const struct {
        const char *name;
        double semitones;
    } rows[] = {{"half", 1}, {"1", 2}, {"2", 4}};
    double length = profile->lengths.string_length;
    profile->frame_semitones = 5;
    profile->frets = NAN;
    for (int i = 0; i <= 24; i++) {
        profile->places[i] =
            (struct mensur_finger_place){i, -length * expm1(-i * log(2.0) / 12),
                                         i == 24 ? NAN : length * exp(-i * log(2.0) / 12) * 0.0561};
    }
    profile->place_count = 25;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_position *position = &profile->positions[i];
        memcpy(position->name, rows[i].name, strlen(rows[i].name) + 1);
        position->first_semitones = rows[i].semitones;
        position->first_finger = length * (1 - exp2(-rows[i].semitones / 12));
        position->fourth_finger = length * (1 - exp2(-(rows[i].semitones + 5) / 12));
        position->frame = position->fourth_finger - position->first_finger;
    }
    profile->position_count = COUNT_OF(rows);
}

struct mensur_profile fixture_profile(const char *name, double neck, double stop) {
    struct mensur_profile profile = {.instrument = copy(name),
                                     .held = "chin",
                                     .lengths = make_lengths(neck, stop),
                                     .total_tension = 151.37,
                                     .total_force_on_belly = 55.21,
                                     .made_for_low = 0.37,
                                     .made_for_high = 0.38};
    profile.set = "viola gut";
    for (size_t i = 0; i < COUNT_OF(string_rows); i++) {
        profile.strings[i] = make_string(&string_rows[i], profile.lengths.string_length);
    }
    profile.string_count = COUNT_OF(string_rows);
    add_fingers(&profile);
    add_assumed(&profile, "board_length", profile.lengths.string_length * 5 / 6, MENSUR_LENGTH,
                NULL);
    add_assumed(&profile, "nut", 0.0005, MENSUR_LENGTH, NULL);
    add_assumed(&profile, "friction", 0.5, MENSUR_NUMBER, NULL);
    add_assumed(&profile, "tuning", NAN, MENSUR_NUMBER, "viola");
    mensur_facts_add(&profile.warnings, MENSUR_FACT_SET_LACKS_NOTE,
                     MENSUR_NAMES(name, "viola gut", "A4"), NULL);
    return profile;
}

/* Only its string was measured. */
static struct mensur_profile make_dipper(void) {
    struct mensur_profile profile = {.instrument = copy("dipper"),
                                     .total_tension = NAN,
                                     .total_force_on_belly = NAN,
                                     .made_for_low = NAN,
                                     .made_for_high = NAN,
                                     .frame_semitones = NAN,
                                     .frets = NAN};
    mensur_figures_unknown(MENSUR_SCOPE_INSTRUMENT, &profile.lengths);
    profile.lengths.string_length = 0.358;
    profile.lengths.string_length_measured = MENSUR_YES;
    return profile;
}

static struct mensur_profile subtract(const struct mensur_profile *other,
                                      const struct mensur_profile *first) {
    struct mensur_profile out = {.instrument = copy(other->instrument)};
    mensur_figures_subtract(MENSUR_SCOPE_INSTRUMENT, &other->lengths, &first->lengths,
                            &out.lengths);
    mensur_figures_subtract(MENSUR_SCOPE_TOTAL, other, first, &out);
    for (size_t i = 0; i < first->string_count; i++) {
        out.strings[i] = other->strings[i];
        out.strings[i].string = NULL;
        mensur_figures_subtract(MENSUR_SCOPE_STRING, &other->strings[i], &first->strings[i],
                                &out.strings[i]);
    }
    out.string_count = first->string_count;
    for (size_t i = 0; i < first->position_count; i++) {
        out.positions[i] = other->positions[i];
        mensur_figures_subtract(MENSUR_SCOPE_POSITION, &other->positions[i], &first->positions[i],
                                &out.positions[i]);
    }
    out.position_count = first->position_count;
    return out;
}

static struct mensur_comparison make_comparison(const char *const *names, size_t count) {
    struct mensur_comparison made = {.count = count};
    made.instruments = calloc(count, sizeof(*made.instruments));
    made.differences = calloc(count, sizeof(*made.differences));
    assert_true(made.instruments != NULL && made.differences != NULL);
    for (size_t i = 0; i < count; i++) {
        made.instruments[i] =
            fixture_profile(names[i], 0.144 + 0.006 * (double)i, 0.214 + 0.008 * (double)i);
        if (i > 0) {
            made.differences[i - 1] = subtract(&made.instruments[i], &made.instruments[0]);
        }
    }
    mensur_facts_add(&made.remarks, MENSUR_FACT_TENSIONS, MENSUR_NAMES(names[1], names[0]),
                     MENSUR_NUMBERS(1.05));
    return made;
}

static struct mensur_want make_want(const char *what, enum mensur_kind kind, const char *unit,
                                    double low, double high, double from, double to) {
    struct mensur_want want = {.kind = kind,
                               .unit = unit,
                               .low = low,
                               .high = high,
                               .place_low = from,
                               .place_high = to,
                               .within_reach = true,
                               .origin = "asked"};
    memcpy(want.what, what, strlen(what) + 1);
    return want;
}

static void add_steps(struct mensur_decision *decision, double first, size_t count) {
    decision->steps = calloc(count, sizeof(*decision->steps));
    assert_non_null(decision->steps);
    decision->step_count = count;
    for (size_t i = 0; i < count; i++) {
        struct mensur_step *step = &decision->steps[i];
        double place = first + 0.001 * (double)i;
        struct mensur_lengths lengths = make_lengths(place, 0.214);
        *step = (struct mensur_step){.place = place,
                                     .present = i == 3,
                                     .recommended = decision->has_recommended && i + 4 == count,
                                     .string_length = lengths.string_length,
                                     .stop_per_2_neck = lengths.stop_per_2_neck,
                                     .body_at_semitones = 8.64,
                                     .left_reach = lengths.left_reach,
                                     .bow_reach = lengths.bow_reach,
                                     .bow_room = 0.0603,
                                     .clearance_at_board_end = 0.0052,
                                     .total_tension = 151.3 + (double)i,
                                     .total_force_on_belly = 55.1};
        for (size_t j = 0; j < decision->present.string_count; j++) {
            step->tension[j] = j == 3 ? NAN : 48.31 + (double)(i + 3 * j);
        }
    }
}

static void add_instead(struct mensur_decision *decision) {
    decision->instead[0] = (struct mensur_instead){
        "C3", 0.004271, 0.004583, 0.004611, "viola C3", "viola C3 synthetic silver-wound",
        NAN,  NAN};
    decision->instead[1] = (struct mensur_instead){"A4", NAN, NAN, NAN, NULL, NULL, NAN, NAN};
    decision->instead_count = 2;
}

static struct mensur_decision make_met(void) {
    struct mensur_decision made = {.present = fixture_profile("kestrel", 0.144, 0.214),
                                   .recommended = fixture_profile("kestrel", 0.1505, 0.214),
                                   .like = fixture_profile("heron", 0.15, 0.222),
                                   .has_recommended = true,
                                   .has_like = true,
                                   .want_count = 3,
                                   .can_meet_all = true,
                                   .place_low = 0.1487,
                                   .place_high = 0.1513,
                                   .recommended_place = 0.1505,
                                   .present_known = true,
                                   .usual_place = 0.1427,
                                   .made_for_place_low = NAN,
                                   .made_for_place_high = NAN,
                                   .aside_place = NAN,
                                   .nearest_place = NAN,
                                   .likelihood = NAN,
                                   .wished_length = 0.3758};
    mensur_facts_add(&made.reason, MENSUR_FACT_PLACE_BY_LIKE, NULL,
                     MENSUR_NUMBERS(0.1505, 0.3758, -1.0));
    made.wants = calloc(3, sizeof(*made.wants));
    assert_non_null(made.wants);
    made.wants[0] = make_want("string_length", MENSUR_LENGTH, "mm", 0.3748, 0.3768, 0.1487, 0.1513);
    made.wants[0].origin = "like";
    made.wants[1] = make_want("left_reach", MENSUR_LENGTH, "mm", NAN, 0.565, NAN, 0.1561);
    made.wants[2] = make_want("ratio", MENSUR_NUMBER, "stop per 2 neck", 2.8, 3.1, 0.1381, 0.1529);
    mensur_facts_add(&made.changes, MENSUR_FACT_LEFT_MOVES, NULL, MENSUR_NUMBERS(0.0065));
    add_steps(&made, 0.141, 14);
    add_instead(&made);
    return made;
}

static struct mensur_decision make_unmet(void) {
    struct mensur_decision made = {.for_stop = true,
                                   .present = fixture_profile("kestrel", 0.144, 0.214),
                                   .want_count = 3,
                                   .place_low = NAN,
                                   .place_high = NAN,
                                   .recommended_place = NAN,
                                   .present_known = true,
                                   .usual_place = NAN,
                                   .made_for_place_low = NAN,
                                   .made_for_place_high = NAN,
                                   .aside_place = NAN,
                                   .nearest_place = 0.2165,
                                   .likelihood = NAN,
                                   .wished_length = NAN,
                                   .conflict = {true, 1, 0, 0.0053, 6.17, 0.0049}};
    made.wants = calloc(3, sizeof(*made.wants));
    assert_non_null(made.wants);
    made.wants[0] = make_want("string_length", MENSUR_LENGTH, "mm", 0.372, NAN, 0.2191, NAN);
    made.wants[1] = make_want("tension A4", MENSUR_FORCE, "N", NAN, 61, NAN, 0.2138);
    made.wants[2] = make_want("body_note", MENSUR_SEMITONES, "semitones", 19.5, 20.5, NAN, NAN);
    made.wants[2].within_reach = false;
    made.wants[0].miss = 0.0026;
    made.wants[1].miss = 3.1;
    add_steps(&made, 0.211, 41);
    return made;
}

static struct mensur_restringing make_restringing(void) {
    struct mensur_restringing made = {
        .present = fixture_profile("kestrel", 0.144, 0.214), .string_count = 4, .choice_count = 2};
    mensur_facts_add(&made.reason, MENSUR_FACT_AIM, NULL, NULL);
    mensur_facts_add(&made.reason, MENSUR_FACT_AIM_LIKED, MENSUR_NAMES(NULL, "heron"), NULL);
    made.choices = calloc(2, sizeof(*made.choices));
    assert_non_null(made.choices);
    for (size_t i = 0; i < 2; i++) {
        struct mensur_choice *choice = &made.choices[i];
        memcpy(choice->strings, made.present.strings, sizeof(choice->strings));
        choice->total_tension = 203.7 + (double)i;
        choice->total_force_on_belly = 74.31;
        choice->evenness = 0.0317;
        choice->cost = 0.0713 + (double)i * 0.01;
        choice->off_aim = 4.13 + (double)i;
        choice->largest_step = 11.9;
        choice->kept[1] = true;
        mensur_facts_add(&choice->why[0], MENSUR_FACT_CHOSEN, NULL, MENSUR_NUMBERS(52.0));
    }
    made.choices[1].set = "viola gut short";
    mensur_facts_add(&made.excluded, MENSUR_FACT_CATALOGUE_LACKS, MENSUR_NAMES("A4"), NULL);
    made.sets = calloc(1, sizeof(*made.sets));
    assert_non_null(made.sets);
    made.set_count = 1;
    *made.sets = (struct mensur_whole_set){.set = "viola gut long",
                                           .total_tension = 190.7,
                                           .total_force_on_belly = NAN,
                                           .largest_miss_percent = 7.31,
                                           .off_aim = 9.21,
                                           .largest_step = 12.1};
    mensur_facts_add(&made.sets->misses, MENSUR_FACT_MISS_LENGTH, NULL, MENSUR_NUMBERS(0.38, 0.4));
    mensur_facts_add(&made.misses, MENSUR_FACT_MISS_LIGHT, MENSUR_NAMES("A4"), MENSUR_NUMBERS(3.2));
    mensur_facts_add(&made.how_sure, MENSUR_FACT_LENGTH_COUNTS, NULL, MENSUR_NUMBERS(1.1, 1.0054));
    made.needed_count = made.order_count = 1;
    made.needed[0] = (struct mensur_needed){.note = "A4", .linear_density = 6.21e-4};
    made.orders[0] = (struct mensur_order){.note = "A4",
                                           .material = "gut",
                                           .diameter = 0.776e-3,
                                           .diameter_thou = 30.551,
                                           .tension = 62.3,
                                           .margin = 6.1,
                                           .linear_density = 5.9e-4,
                                           .tenth_below = 0.7e-3,
                                           .tension_below = 50.7,
                                           .tenth_above = 0.8e-3,
                                           .tension_above = 66.2};
    return made;
}

struct fixture *fixture_make(void) {
    static const char *const two[] = {"kestrel", "heron"};
    static const char *const same[] = {"kestrel", "kestrel"};
    struct fixture *fixture = calloc(1, sizeof(*fixture));
    assert_non_null(fixture);
    fixture->kestrel = fixture_profile("kestrel", 0.144, 0.214);
    fixture->heron = fixture_profile("heron", 0.15, 0.222);
    fixture->dipper = make_dipper();
    fixture->comparison = make_comparison(two, 2);
    fixture->changed = make_comparison(same, 2);
    fixture->changed.changed = true;
    fixture->met = make_met();
    fixture->unmet = make_unmet();
    fixture->restringing = make_restringing();
    assert_int_equal(
        mensur_texts_add(&fixture->warnings, "players.csv:2:4: an unknown column \"shoe\""),
        MENSUR_OK);
    return fixture;
}

static void clear_profile(struct mensur_profile *profile) {
    free(profile->instrument);
    mensur_facts_clear(&profile->warnings);
}

static void clear_comparison(struct mensur_comparison *comparison) {
    for (size_t i = 0; i < comparison->count; i++) {
        clear_profile(&comparison->instruments[i]);
        clear_profile(&comparison->differences[i]);
    }
    free(comparison->instruments);
    free(comparison->differences);
    mensur_facts_clear(&comparison->remarks);
}

static void clear_decision(struct mensur_decision *decision) {
    clear_profile(&decision->present);
    clear_profile(&decision->recommended);
    clear_profile(&decision->like);
    free(decision->wants);
    free(decision->steps);
    mensur_facts_clear(&decision->reason);
    mensur_facts_clear(&decision->changes);
}

void fixture_clear(struct fixture *fixture) {
    clear_profile(&fixture->kestrel);
    clear_profile(&fixture->heron);
    clear_profile(&fixture->dipper);
    clear_comparison(&fixture->comparison);
    clear_comparison(&fixture->changed);
    clear_decision(&fixture->met);
    clear_decision(&fixture->unmet);
    clear_profile(&fixture->restringing.present);
    for (size_t i = 0; i < fixture->restringing.choice_count; i++) {
        mensur_facts_clear(&fixture->restringing.choices[i].why[0]);
    }
    free(fixture->restringing.choices);
    mensur_facts_clear(&fixture->restringing.sets[0].misses);
    free(fixture->restringing.sets);
    mensur_facts_clear(&fixture->restringing.misses);
    mensur_facts_clear(&fixture->restringing.how_sure);
    mensur_facts_clear(&fixture->restringing.reason);
    mensur_facts_clear(&fixture->restringing.excluded);
    mensur_texts_clear(&fixture->warnings);
    free(fixture);
}

void fixture_compare(struct fixture *fixture, const char *const *names, size_t count) {
    clear_comparison(&fixture->comparison);
    fixture->comparison = make_comparison(names, count);
}

static void rename_text(char **text, const char *name) {
    if (*text != NULL) {
        free(*text);
        *text = copy(name);
    }
}

static void rename_facts(struct mensur_facts *facts, const char *name) {
    for (size_t i = 0; i < facts->count; i++) {
        for (int n = 0; n < MENSUR_FACT_NAMES; n++) {
            rename_text(&facts->items[i].name[n], name);
        }
    }
}

static void rename_profile(struct mensur_profile *profile, const char *name) {
    rename_text(&profile->instrument, name);
    profile->set = name;
    for (size_t i = 0; i < profile->string_count; i++) {
        profile->strings[i].string = name;
    }
    for (size_t i = 0; i < profile->assumed.count; i++) {
        if (profile->assumed.items[i].text != NULL) {
            profile->assumed.items[i].text = name;
        }
    }
    rename_facts(&profile->warnings, name);
}

static void rename_comparison(struct mensur_comparison *comparison, const char *name) {
    for (size_t i = 0; i < comparison->count; i++) {
        rename_profile(&comparison->instruments[i], name);
    }
    rename_facts(&comparison->remarks, name);
}

static void rename_decision(struct mensur_decision *decision, const char *name) {
    rename_profile(&decision->present, name);
    rename_profile(&decision->recommended, name);
    rename_profile(&decision->like, name);
    for (size_t i = 0; i < decision->want_count; i++) {
        decision->wants[i].origin = name;
    }
    for (size_t i = 0; i < decision->instead_count; i++) {
        decision->instead[i].nearest_string = name;
    }
}

void fixture_rename(struct fixture *fixture, const char *name) {
    rename_profile(&fixture->kestrel, name);
    rename_profile(&fixture->heron, name);
    rename_profile(&fixture->dipper, name);
    rename_comparison(&fixture->comparison, name);
    rename_comparison(&fixture->changed, name);
    rename_decision(&fixture->met, name);
    rename_decision(&fixture->unmet, name);
    struct mensur_restringing *restringing = &fixture->restringing;
    rename_profile(&restringing->present, name);
    rename_facts(&restringing->reason, name);
    rename_facts(&restringing->excluded, name);
    rename_facts(&restringing->misses, name);
    restringing->sets[0].set = name;
    restringing->choices[1].set = name;
    restringing->orders[0].material = name;
    for (size_t i = 0; i < restringing->choice_count; i++) {
        for (size_t j = 0; j < restringing->string_count; j++) {
            restringing->choices[i].strings[j].string = name;
        }
    }
    rename_text(&fixture->warnings.items[0], name);
}

static enum mensur_status lengths(struct mensur_presenter *presenter,
                                  const struct fixture *fixture) {
    enum mensur_status status = mensur_present_profile(presenter, &fixture->kestrel);
    return status != MENSUR_OK ? status : mensur_present_profile(presenter, &fixture->dipper);
}

/* More than are held back. */
static enum mensur_status many(struct mensur_presenter *presenter, const struct fixture *fixture) {
    enum mensur_status status = MENSUR_OK;
    for (int i = 0; i < 3 && status == MENSUR_OK; i++) {
        status = lengths(presenter, fixture);
    }
    return status;
}

static enum mensur_status tension(struct mensur_presenter *presenter,
                                  const struct fixture *fixture) {
    enum mensur_status status = mensur_present_profile(presenter, &fixture->kestrel);
    return status != MENSUR_OK ? status : mensur_present_profile(presenter, &fixture->heron);
}

static enum mensur_status fingers(struct mensur_presenter *presenter,
                                  const struct fixture *fixture) {
    return mensur_present_profile(presenter, &fixture->kestrel);
}

static enum mensur_status compare(struct mensur_presenter *presenter,
                                  const struct fixture *fixture) {
    return mensur_present(presenter, &mensur_comparison_answer, &fixture->comparison);
}

static enum mensur_status change(struct mensur_presenter *presenter,
                                 const struct fixture *fixture) {
    return mensur_present(presenter, &mensur_comparison_answer, &fixture->changed);
}

static enum mensur_status neck(struct mensur_presenter *presenter, const struct fixture *fixture) {
    return mensur_present(presenter, &mensur_decision_answer, &fixture->met);
}

static enum mensur_status stop(struct mensur_presenter *presenter, const struct fixture *fixture) {
    return mensur_present(presenter, &mensur_decision_answer, &fixture->unmet);
}

static enum mensur_status restring(struct mensur_presenter *presenter,
                                   const struct fixture *fixture) {
    return mensur_present(presenter, &mensur_restringing_answer, &fixture->restringing);
}

static enum mensur_status check(struct mensur_presenter *presenter, const struct fixture *fixture) {
    struct mensur_told_file files[] = {
        {"instruments.csv", "instruments", 8, {0}},
        {"players.csv", "players", 3, fixture->warnings},
    };
    return mensur_present(presenter, &mensur_checked_answer,
                          &(struct mensur_told_files){COUNT_OF(files), files});
}

const struct presentation presentations[] = {
    {"lengths", lengths},   {"lengths", many},  {"tension", tension}, {"fingers", fingers},
    {"compare", compare},   {"change", change}, {"neck", neck},       {"stop", stop},
    {"restring", restring}, {"check", check},
};
const size_t presentation_count = COUNT_OF(presentations);

enum mensur_status present_all(const struct presentation *presentation,
                               const struct fixture *fixture, const struct mensur_style *style,
                               struct memory_sink *memory) {
    struct mensur_heading heading = heading_for(presentation->command);
    struct mensur_sink sink = memory_sink(memory);
    struct mensur_presenter *presenter = NULL;
    enum mensur_status status = mensur_present_open(&heading, style, &sink, &presenter);
    if (status == MENSUR_OK) {
        status = presentation->present(presenter, fixture);
        enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
        status = status != MENSUR_OK ? status : closed;
    }
    return status;
}

char *presented(present_it *present, const char *command, const struct fixture *fixture,
                struct mensur_style style) {
    struct memory_sink memory = {0};
    struct presentation presentation = {command, present};
    check_status(command, present_all(&presentation, fixture, &style, &memory), MENSUR_OK);
    return memory.bytes;
}

/* The first line that differs is shown: the whole would be hard to read. */
static void check_same(const char *got, const char *want) {
    size_t line = 1;
    while (*got != '\0' || *want != '\0') {
        size_t length = strcspn(got, "\n"), wanted = strcspn(want, "\n");
        if (length != wanted || memcmp(got, want, length) != 0) {
            print_error("line %zu\n got: %.*s\nwant: %.*s\n", line, (int)length, got, (int)wanted,
                        want);
            fail();
        }
        got += length + (got[length] == '\n');
        want += wanted + (want[wanted] == '\n');
        line++;
    }
}

void check_text(size_t i, struct mensur_style style, const char *want) {
    struct fixture *fixture = fixture_make();
    char *text = presented(presentations[i].present, presentations[i].command, fixture, style);
    check_same(text, want);
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

/* Code points, marks from U+0300 to U+036F left out: counted on its own, as a test should. */
static size_t columns_of(const char *line, size_t length) {
    size_t columns = 0;
    for (size_t i = 0; i < length; i++) {
        unsigned char byte = (unsigned char)line[i];
        bool mark =
            i + 1 < length && (byte == 0xCC || (byte == 0xCD && (unsigned char)line[i + 1] < 0xB0));
        columns += (byte & 0xC0) != 0x80 && !mark;
    }
    return columns;
}

void check_page(const char *text) {
    while (*text != '\0') {
        size_t length = strcspn(text, "\n");
        if (text[length] != '\n' || columns_of(text, length) > 80 ||
            (length > 0 && text[length - 1] == ' ')) {
            print_error("a bad line: \"%.*s\"\n", (int)length, text);
            fail();
        }
        for (size_t i = 0; i < length; i++) {
            assert_true((unsigned char)text[i] >= 0x20 && text[i] != 0x7F);
        }
        text += length + 1;
    }
}
