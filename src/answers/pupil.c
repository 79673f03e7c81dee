/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The size of an instrument for a pupil: by the elbow of what is held under the chin, else by the
 * stature. Ages and statures of teachers are those of the table of sizes: common practice or from
 * memory. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "reach.h"
#include "stock.h"

/* Under it the elbow stands on a child's size that fits: a rule of our own. */
static const double rule_deg = 105.0;

/* Below it a stature is a slip of the unit; a child of one year is taller. */
static const double least_stature_m = 0.5;

/* Statures are told to the centimetre, ages to the half year: nothing is surer than that. */
static const double told_stature_m = 0.01;
static const double told_age_years = 0.5;

/* Mean statures of children, the mean of boys and girls; years, m. R. G. Snyder and others,
 * UM-HSRI-77-17 (1977), means by age, read at second hand. From 13 years on boys and girls grow
 * apart, so that no age is told beyond it. */
static const struct {
    double age, stature;
} growth[] = {{2.75, 0.933}, {4, 1.0145}, {5, 1.083},   {6, 1.1465},  {7, 1.2125}, {8, 1.2685},
              {9, 1.3305},   {10, 1.377}, {11, 1.4335}, {12, 1.4885}, {13, 1.546}};
enum { GROWTH = sizeof growth / sizeof growth[0] };

/* The pupil and the sizes of one family. */
struct fitting {
    const struct mensur_player *player;
    struct reach_arm made;
    const char *family;
    bool under_chin;
    struct mensur_reaching *reaching;
};

static double rule_rad(void) {
    return mensur_to_si(MENSUR_ANGLE, rule_deg);
}

static double mean_stature(double age) {
    for (size_t i = 1; i < GROWTH; i++) {
        if (age >= growth[i - 1].age && age <= growth[i].age) {
            double part = (age - growth[i - 1].age) / (growth[i].age - growth[i - 1].age);
            return growth[i - 1].stature + part * (growth[i].stature - growth[i - 1].stature);
        }
    }
    return NAN;
}

/* The age at which a child is so tall that stays in the same ratio to the mean; NaN where the
 * means do not tell. */
static double age_at(const struct mensur_player *player, double stature) {
    double wanted = stature / player->stature.value * mean_stature(player->age);
    for (size_t i = 1; i < GROWTH; i++) {
        double low = growth[i - 1].stature, high = growth[i].stature;
        if (wanted >= low && wanted <= high) {
            double age = growth[i - 1].age +
                         (growth[i].age - growth[i - 1].age) * (wanted - low) / (high - low);
            return round(age / told_age_years) * told_age_years;
        }
    }
    return NAN;
}

/* By how much an arm has to grow, rest and hand with it, until the elbow stands at the rule. The
 * nut is at distance d = k (w + share hand) from the shoulder, w being the third side of the
 * triangle of upper arm and forearm at that angle: a quadratic equation of k. */
static double growth_until(const struct mensur_arm *arm, double left_reach) {
    double third = sqrt(arm->upper_arm * arm->upper_arm + arm->forearm * arm->forearm -
                        2.0 * arm->upper_arm * arm->forearm * cos(rule_rad()));
    double far = third + arm->wrist_share * arm->hand;
    double a = far * far - arm->rest_side * arm->rest_side - arm->rest_forward * arm->rest_forward;
    double b = left_reach * (arm->rest_side * sin(arm->yaw) - arm->rest_forward * cos(arm->yaw));
    return a > 0.0 ? (sqrt(b * b + a * left_reach * left_reach) - b) / a : NAN;
}

/* The elbow as far as a rule asks: a stretched arm counts as open, a folded one as closed. */
static double elbow_of(const struct mensur_reach *reach) {
    return !isnan(reach->elbow)             ? reach->elbow
           : reach->stretched == MENSUR_YES ? mensur_to_si(MENSUR_ANGLE, 180.0)
                                            : 0.0;
}

static bool is_child(const struct fitting *fitting) {
    return !(fitting->player->age >= REACH_GROWN_AGE);
}

/* The instrument of the least reach (string, of what is not held under the chin) beyond that of
 * another; NULL: of all. -1: there is none. */
static int next_size(const struct fitting *fitting, const struct mensur_reach *beyond) {
    const struct mensur_reaching *reaching = fitting->reaching;
    double least = INFINITY;
    int next = -1;
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        if (!fitting->under_chin && isnan(reaching->sizes[i].stature_low)) {
            continue;
        }
        double size = fitting->under_chin ? reach->left_reach : reach->string_length;
        double than = beyond == NULL        ? 0.0
                      : fitting->under_chin ? beyond->left_reach
                                            : beyond->string_length;
        if (size > than && size < least) {
            least = size;
            next = (int)i;
        }
    }
    return next;
}

/* A degree at least: nothing is surer. */
static double told_plus(const struct mensur_reach *reach) {
    double plus = reach->elbow_plus_minus;
    return isnan(plus) ? NAN : fmax(plus, mensur_to_si(MENSUR_ANGLE, 1.0));
}

/* When the next size will be the size. */
static void say_when(const struct fitting *fitting, int next, double stature, bool of_stature) {
    struct mensur_reaching *reaching = fitting->reaching;
    struct mensur_pupil_size *size = &reaching->sizes[next];
    double told = round(stature / told_stature_m) * told_stature_m;
    if (isnan(told)) {
        return;
    }
    if (of_stature) {
        size->from_stature = told;
        size->from_age = age_at(fitting->player, stature);
    }
    mensur_facts_add(&reaching->remarks, MENSUR_FACT_SIZE_WHEN,
                     MENSUR_NAMES(reaching->instruments[next].instrument),
                     MENSUR_NUMBERS(told, size->from_age, of_stature ? 1.0 : -1.0));
}

static void say_growth(const struct fitting *fitting, int next) {
    const struct mensur_arm *arm = &fitting->made.arm;
    double k = growth_until(arm, fitting->reaching->instruments[next].left_reach);
    bool of_stature = fitting->made.from_stature;
    say_when(fitting, next,
             k * (of_stature ? fitting->player->stature.value : arm->upper_arm + arm->forearm),
             of_stature);
}

/* On which sizes the rule lies within the ± of the elbow. */
static void say_open(const struct fitting *fitting) {
    struct mensur_reaching *reaching = fitting->reaching;
    char names[256] = "";
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        struct mensur_pupil_size *size = &reaching->sizes[i];
        if (isnan(reach->elbow) || isnan(reach->elbow_plus_minus)) {
            continue;
        }
        bool open = fabs(reach->elbow - rule_rad()) <= reach->elbow_plus_minus;
        size->open = open ? MENSUR_YES : MENSUR_NO;
        if (open && strlen(names) + strlen(reach->instrument) + 3 < sizeof names) {
            strcat(names, *names == '\0' ? "" : ", ");
            strcat(names, reach->instrument);
        }
    }
    if (*names != '\0') {
        mensur_facts_add(&reaching->remarks, MENSUR_FACT_SIZES_OPEN, MENSUR_NAMES(names),
                         MENSUR_NUMBERS(reach_arm_follows(&fitting->made) ? -1.0 : 1.0));
    }
}

/* Adults are compared: how the elbow opens from the smallest to the largest. */
static void say_adult(const struct fitting *fitting, int smallest) {
    struct mensur_reaching *reaching = fitting->reaching;
    int largest = smallest;
    for (int i = smallest; i >= 0; i = next_size(fitting, &reaching->instruments[i])) {
        largest = i;
    }
    const struct mensur_reach *least = &reaching->instruments[smallest];
    const struct mensur_reach *most = &reaching->instruments[largest];
    mensur_facts_add(&reaching->remarks, MENSUR_FACT_SIZES_OF_ADULT,
                     MENSUR_NAMES(least->instrument, most->instrument),
                     MENSUR_NUMBERS(least->elbow, most->elbow));
}

static void fit_by_elbow(const struct fitting *fitting) {
    struct mensur_reaching *reaching = fitting->reaching;
    int smallest = next_size(fitting, NULL), fits = -1, next = smallest;
    if (!is_child(fitting)) {
        say_adult(fitting, smallest);
        return;
    }
    while (next >= 0 && elbow_of(&reaching->instruments[next]) < rule_rad()) {
        fits = next;
        next = next_size(fitting, &reaching->instruments[fits]);
    }
    for (size_t i = 0; i < reaching->count; i++) {
        reaching->sizes[i].recommended = (int)i == fits ? MENSUR_YES : MENSUR_NO;
    }
    const struct mensur_reach *reach = &reaching->instruments[fits >= 0 ? fits : smallest];
    const struct mensur_reach *then = next >= 0 ? &reaching->instruments[next] : NULL;
    mensur_facts_add(
        &reaching->remarks, fits >= 0 ? MENSUR_FACT_SIZE_ELBOW : MENSUR_FACT_SIZE_OVER,
        MENSUR_NAMES(reach->instrument, fits >= 0 && then != NULL ? then->instrument : NULL),
        MENSUR_NUMBERS(reach->elbow, told_plus(reach), then == NULL ? NAN : then->elbow));
    say_open(fitting);
    if (then != NULL) {
        say_growth(fitting, next);
    } else {
        mensur_facts_add(&reaching->remarks, MENSUR_FACT_SIZE_LARGEST,
                         MENSUR_NAMES(reach->instrument), NULL);
    }
    mensur_facts_add(&reaching->remarks, MENSUR_FACT_SIZE_RULE, NULL, NULL);
    if (isnan(fitting->player->age)) {
        mensur_facts_add(&reaching->remarks, MENSUR_FACT_SIZE_AGE_UNKNOWN, NULL, NULL);
    }
}

/* By the table's statures; where two overlap both are said. */
static void fit_by_stature(const struct fitting *fitting) {
    struct mensur_reaching *reaching = fitting->reaching;
    double stature = fitting->player->stature.value;
    const char *names[2] = {NULL, NULL};
    int smallest = next_size(fitting, NULL), next = -1;
    size_t count = 0;
    for (int i = smallest; i >= 0; i = next_size(fitting, &reaching->instruments[i])) {
        struct mensur_pupil_size *size = &reaching->sizes[i];
        bool within = stature >= size->stature_low && !(stature > size->stature_high);
        size->recommended = within ? MENSUR_YES : MENSUR_NO;
        if (within && count < 2) {
            names[count++] = reaching->instruments[i].instrument;
        }
        if (next < 0 && stature < size->stature_low) {
            next = i;
        }
    }
    const char *least = reaching->instruments[smallest].instrument;
    mensur_facts_add(&reaching->remarks,
                     count > 0 ? MENSUR_FACT_SIZE_BY_STATURE : MENSUR_FACT_SIZE_TOO_SHORT,
                     MENSUR_NAMES(count > 0 ? names[0] : least, names[1], fitting->family),
                     MENSUR_NUMBERS(stature, reaching->sizes[smallest].stature_low));
    if (next >= 0) {
        say_when(fitting, next, reaching->sizes[next].stature_low, true);
    }
}

/* An instrument of a size: its lengths, with the family's usual heights. */
static enum mensur_status make_size(const struct mensur_named_size *size,
                                    struct mensur_instrument *out) {
    mensur_instrument_init(out);
    out->measure[MENSUR_FIELD_BODY].value = size->body;
    out->measure[MENSUR_FIELD_STOP].value = size->stop;
    out->measure[MENSUR_FIELD_NECK].value = size->neck;
    enum mensur_status status = mensur_text_copy(size->name, strlen(size->name), &out->name);
    return status == MENSUR_OK ? mensur_text_copy(size->family, strlen(size->family), &out->family)
                               : status;
}

/* Whether pupils are told sizes of a family: under the chin, or by statures of the table. */
static bool has_sizes(const struct mensur_stock *stock, const struct mensur_family *family) {
    for (size_t i = 0; i < stock->size_count; i++) {
        const struct mensur_named_size *size = &stock->sizes[i];
        if (strcmp(size->family, family->name) == 0 &&
            (family->held == MENSUR_CHIN || !isnan(size->stature_low))) {
            return true;
        }
    }
    return false;
}

static enum mensur_status refuse_family(const struct mensur_stock *stock, const char *family,
                                        struct mensur_fault *fault) {
    char there[256] = "";
    for (size_t i = 0; i < stock->family_count; i++) {
        const char *name = stock->families[i].name;
        if (has_sizes(stock, &stock->families[i]) &&
            strlen(there) + strlen(name) + 3 < sizeof there) {
            strcat(there, *there == '\0' ? "" : ", ");
            strcat(there, name);
        }
    }
    mensur_fault_set(fault,
                     "--family: no sizes of \"%s\" are known for pupils; there are those of: %s",
                     family, there);
    return MENSUR_USE;
}

static enum mensur_status fit(struct fitting *fitting, const struct mensur_stock *stock) {
    struct mensur_reaching *reaching = fitting->reaching;
    struct mensur_pupil_size *sizes = calloc(reaching->count, sizeof *sizes);
    if (sizes == NULL) {
        return MENSUR_MEMORY;
    }
    reaching->sizes = sizes;
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_named_size *size =
            mensur_stock_size(stock, reaching->instruments[i].instrument);
        reaching->sizes[i] = (struct mensur_pupil_size){.age_low = size->age_low,
                                                        .age_high = size->age_high,
                                                        .stature_low = size->stature_low,
                                                        .stature_high = size->stature_high,
                                                        .recommended = MENSUR_UNSURE,
                                                        .open = MENSUR_UNSURE,
                                                        .from_stature = NAN,
                                                        .from_age = NAN};
    }
    mensur_facts_clear(&reaching->remarks);
    if (fitting->under_chin) {
        fit_by_elbow(fitting);
    } else {
        fit_by_stature(fitting);
    }
    return reaching->remarks.status;
}

enum mensur_status mensur_ask_sizes(const struct mensur_stock *stock, const char *family,
                                    const struct mensur_player *player,
                                    const struct mensur_terms *terms, struct mensur_fault *fault,
                                    struct mensur_reaching *out) {
    const struct mensur_family *of = mensur_stock_family(stock, family);
    struct mensur_reaching reaching = {.instruments = NULL};
    if (of == NULL || !has_sizes(stock, of)) {
        return refuse_family(stock, family, fault);
    }
    struct fitting fitting = {.player = player,
                              .family = family,
                              .under_chin = of->held == MENSUR_CHIN,
                              .reaching = &reaching};
    if (!fitting.under_chin && isnan(player->stature.value)) {
        mensur_fault_set(fault, "%s: a %s goes by the stature (no arm model); give one",
                         player->name, family);
        return MENSUR_USE;
    }
    if (player->stature.value < least_stature_m) {
        mensur_fault_set(fault,
                         "%s: a stature under 500 mm is no player's; it is in mm, or has its "
                         "unit behind it, as 129cm",
                         player->name);
        return MENSUR_USE;
    }
    struct mensur_instrument *made = calloc(stock->size_count, sizeof *made);
    const struct mensur_instrument **list =
        calloc(stock->size_count, sizeof(const struct mensur_instrument *));
    enum mensur_status status = made == NULL || list == NULL ? MENSUR_MEMORY : MENSUR_OK;
    size_t count = 0;
    for (size_t i = 0; i < stock->size_count && status == MENSUR_OK; i++) {
        if (strcmp(stock->sizes[i].family, family) == 0) {
            status = make_size(&stock->sizes[i], &made[count]);
            list[count] = &made[count];
            count++;
        }
    }
    status = status == MENSUR_OK ? reach_arm_make(player, fault, &fitting.made) : status;
    if (status == MENSUR_OK) {
        status = mensur_ask_reach(stock, list, count, player, terms, fault, &reaching);
    }
    if (status == MENSUR_OK) {
        status = fit(&fitting, stock);
        if (status != MENSUR_OK) {
            mensur_reaching_clear(&reaching);
        }
    }
    for (size_t i = 0; i < count; i++) {
        mensur_instrument_clear(&made[i]);
    }
    free(made);
    free(list);
    if (status == MENSUR_OK) {
        *out = reaching;
    }
    return tell_memory(status, fault);
}
