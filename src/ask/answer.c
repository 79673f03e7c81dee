/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a question to its answer. */
#include <stdlib.h>
#include <string.h>

#include "map.h"
#include "shop_files.h"
#include "stock.h"
#include "tell.h"
#include "template.h"
#include "tiles.h"
#include "asking.h"
#include "ways.h"
#include "working.h"

/* The working is made where it is asked for, and where it has a place. */
static bool wants_working(const struct mensur_question *question) {
    return question->working && question->medium == MENSUR_MEDIUM_WORDS;
}

/* Finds what is named; `wanted` says what is missing where fewer are. */
static enum mensur_status find_at_least(struct asking *asking, size_t least, const char *wanted) {
    return asking->question->named_count < least ? ask_say_names(asking, wanted)
                                                 : ask_find_named(asking);
}

/* Whoever asks for it writes the demonstration. */
enum mensur_status ask_make_start(struct asking *asking) {
    (void)asking;
    return MENSUR_USE;
}

/* Every file, with those warnings that speak of it. */
static enum mensur_status list_files(struct asking *asking, const struct mensur_texts *warnings) {
    struct mensur_told_files *files = ask_record(asking->answer, &mensur_checked_answer);
    enum mensur_status status = MENSUR_OK;
    if (files == NULL) {
        return MENSUR_MEMORY;
    }
    files->files = calloc(MENSUR_TABLE_COUNT, sizeof *files->files);
    if (files->files == NULL) {
        return MENSUR_MEMORY;
    }
    while (files->count < MENSUR_TABLE_COUNT && status == MENSUR_OK) {
        const struct mensur_source *source = &asking->shop->sources[files->count];
        struct mensur_told_file *file = &files->files[files->count];
        size_t length = strlen(source->label);
        file->file = source->label;
        file->rows = source->rows;
        file->row_name = mensur_table_row_name((enum mensur_table)files->count, source->rows != 1);
        for (size_t i = 0; i < warnings->count && status == MENSUR_OK; i++) {
            const char *warning = warnings->items[i];
            if (strncmp(warning, source->label, length) == 0 && warning[length] == ':') {
                status = mensur_texts_add(&file->warnings, "%s", warning);
            }
        }
        files->count++;
    }
    return status;
}

/* What was warned of when the shop was opened is part of the answer. */
enum mensur_status ask_make_files(struct asking *asking) {
    if (asking->question->usual) {
        return ask_make_learned(asking);
    }
    struct mensur_report report = {.warnings = *asking->messages};
    *asking->messages = (struct mensur_texts){0};
    enum mensur_status status = mensur_shop_check(asking->shop, &report);
    if (status != MENSUR_OK) {
        enum mensur_status said = ask_say_report(&report, asking->messages);
        return said == MENSUR_OK ? status : said;
    }
    status = list_files(asking, &report.warnings);
    mensur_texts_clear(&report.warnings);
    return status;
}

/* Goes on behind an instrument that has no answer where `each` of them is to be said. */
static enum mensur_status make_profiles(struct asking *asking, bool each) {
    struct mensur_answer *answer = asking->answer;
    size_t count = asking->question->named_count;
    struct mensur_solver *solver = NULL;
    enum mensur_status worst = mensur_solver_make(&solver);
    for (size_t i = 0; i < count && (worst == MENSUR_OK || (worst == MENSUR_NO_ANSWER && each));
         i++) {
        const struct mensur_found *found = &answer->found[i];
        enum mensur_status status =
            ask_row_make(solver, asking->shop, asking->question, found->asked, false,
                         asking->messages, &answer->profiles[answer->profile_count]);
        answer->profile_count += status == MENSUR_OK;
        worst = status == MENSUR_OK ? worst : status;
    }
    mensur_solver_free(solver);
    return worst;
}

/* Remarks on how the fingers stand against the first instrument's; and the workings. */
static enum mensur_status complete_rows(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    struct mensur_answer *answer = asking->answer;
    enum mensur_status status = MENSUR_OK;
    bool fingers = (question->way->view->parts & MENSUR_PART_FINGERS) != 0;
    for (size_t i = 1; fingers && i < answer->profile_count && status == MENSUR_OK; i++) {
        status = mensur_remark_fingers(&answer->profiles[0], &answer->profiles[i]);
    }
    for (size_t i = 0; question->working && i < answer->profile_count && status == MENSUR_OK; i++) {
        status = ask_row_work(question, &asking->shop->stock, answer->found[i].asked,
                              &asking->fault, &answer->workings[i]);
    }
    return status;
}

enum mensur_status ask_make_rows(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    bool drawn = question->medium != MENSUR_MEDIUM_WORDS;
    if (drawn && (question->named_count == 0 || question->every)) {
        return ask_say_names(asking, "a drawing shows instruments that are named");
    }
    enum mensur_status status = find_at_least(asking, 1, "name an instrument");
    if (status == MENSUR_OK) {
        status = make_profiles(asking, !drawn);
    }
    return status == MENSUR_OK && !drawn ? complete_rows(asking) : status;
}

/* What was assumed of a changed instrument is told as a change tells it: of the changed one itself
 * it would be taken for measured. */
static enum mensur_status tell_assumed(struct asking *asking) {
    struct mensur_comparison *comparison = asking->answer->comparison;
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < comparison->count && status == MENSUR_OK; i++) {
        const struct mensur_named *named = &asking->question->named[i];
        struct mensur_comparison change = {.count = 0};
        if (named->change_count == 0) {
            continue;
        }
        status = mensur_ask_change(&asking->shop->stock, &asking->answer->found[i].as_it_is,
                                   named->changes, named->change_count, &asking->question->terms,
                                   &asking->fault, &change);
        if (status == MENSUR_OK) {
            comparison->instruments[i].assumed = change.instruments[1].assumed;
        }
        mensur_comparison_clear(&change);
    }
    return status;
}

static enum mensur_status compare_found(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    const struct mensur_stock *stock = &asking->shop->stock;
    struct mensur_answer *answer = asking->answer;
    enum mensur_status status = ask_told_comparison(answer);
    if (status == MENSUR_OK && wants_working(question)) {
        status =
            mensur_ask_working_compare(stock, asking->list, question->named_count, &question->terms,
                                       ask_feels(question), &asking->fault, &answer->working);
    }
    if (status == MENSUR_OK) {
        status = mensur_ask_compare(stock, asking->list, question->named_count, &question->terms,
                                    &asking->fault, answer->comparison);
    }
    return status == MENSUR_OK ? tell_assumed(asking) : status;
}

enum mensur_status ask_make_comparison(struct asking *asking) {
    enum mensur_status status = find_at_least(asking, 2, "name two instruments or more");
    return status == MENSUR_OK ? compare_found(asking) : status;
}

enum mensur_status ask_make_change(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    const struct mensur_stock *stock = &asking->shop->stock;
    struct mensur_answer *answer = asking->answer;
    enum mensur_status status = find_at_least(asking, 1, "name an instrument and what changes");
    if (status != MENSUR_OK) {
        return status;
    }
    const struct mensur_named *named = &question->named[0];
    const struct mensur_instrument *instrument = &answer->found[0].as_it_is;
    status = ask_told_comparison(answer);
    if (status == MENSUR_OK && wants_working(question)) {
        status = mensur_ask_working_change(stock, instrument, named->changes, named->change_count,
                                           &question->terms, ask_feels(question), &asking->fault,
                                           &answer->working);
    }
    return status == MENSUR_OK
               ? mensur_ask_change(stock, instrument, named->changes, named->change_count,
                                   &question->terms, &asking->fault, answer->comparison)
               : status;
}

/* The liked instrument stands behind those named. */
static const struct mensur_instrument *liked(const struct asking *asking) {
    const struct mensur_question *question = asking->question;
    return question->like.name == NULL ? NULL : asking->list[question->named_count];
}

static bool wishes_anything(const struct mensur_question *question) {
    return question->wish_count > 0 || question->like.name != NULL;
}

/* The decision on an instrument. */
static enum mensur_status decide(struct asking *asking,
                                 const struct mensur_instrument *instrument) {
    const struct mensur_question *question = asking->question;
    struct mensur_answer *answer = asking->answer;
    const struct mensur_wishes wishes = {
        .like = liked(asking), .items = question->wishes, .count = question->wish_count};
    answer->decision = calloc(1, sizeof *answer->decision);
    if (answer->decision == NULL) {
        return MENSUR_MEMORY;
    }
    enum mensur_status status = mensur_ask_decision(
        &asking->shop->stock, instrument, &wishes, question->command == COMMAND_STOP,
        &question->terms, &asking->fault, answer->decision);
    answer->met = answer->decision->can_meet_all;
    return status;
}

enum mensur_status ask_make_decision(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    struct mensur_answer *answer = asking->answer;
    enum mensur_status status = find_at_least(asking, 1, "name an instrument");
    if (status == MENSUR_OK) {
        status = decide(asking, asking->list[0]);
    }
    answer->kind = &mensur_decision_answer;
    answer->told = answer->decision;
    return status == MENSUR_OK && wants_working(question)
               ? mensur_ask_working_decision(&asking->shop->stock, asking->list[0],
                                             answer->decision, &question->terms, &asking->fault,
                                             &answer->working)
               : status;
}

/* Instruments on their way to a map. */
struct charting {
    struct asking *asking;
    struct mensur_wishes wishes;
    struct mensur_mapping *mapping; /* NULL: not begun */
};

/* Without a name the first instrument that has a place is the one in question. */
static enum mensur_status chart(void *context, const struct mensur_instrument *instrument) {
    struct charting *charting = context;
    struct asking *asking = charting->asking;
    if (charting->mapping == NULL) {
        enum mensur_status status =
            mensur_map_begin(&asking->shop->stock, instrument, &charting->wishes,
                             &asking->question->terms, &asking->fault, &charting->mapping);
        if (status != MENSUR_OK) {
            return status == MENSUR_NO_ANSWER ? MENSUR_OK : status;
        }
        asking->fault = (struct mensur_fault){.text = ""};
    }
    return mensur_map_add(charting->mapping, instrument, MENSUR_MAP_OF_SHOP);
}

static enum mensur_status chart_named(struct charting *charting) {
    struct asking *asking = charting->asking;
    const struct mensur_question *question = asking->question;
    enum mensur_status status = MENSUR_OK;
    if (question->named_count > 0) {
        status = mensur_map_begin(&asking->shop->stock, asking->list[0], &charting->wishes,
                                  &question->terms, &asking->fault, &charting->mapping);
    }
    for (size_t i = 0; i < question->named_count && status == MENSUR_OK; i++) {
        status = mensur_map_add(charting->mapping, asking->list[i],
                                question->named[i].change_count > 0 ? MENSUR_MAP_CHANGED
                                                                    : MENSUR_MAP_ASKED);
    }
    return status;
}

static enum mensur_status chart_shop(struct charting *charting) {
    const struct asking *asking = charting->asking;
    enum mensur_status status = MENSUR_OK;
    if (asking->kept == NULL) {
        struct mensur_report report = {.errors = {0}};
        status = mensur_shop_instruments(asking->shop, false, chart, charting, &report);
        mensur_texts_clear(&report.warnings); /* the first reading said them */
        enum mensur_status said = ask_say_report(&report, asking->messages);
        return status == MENSUR_OK ? said : status;
    }
    for (size_t i = 0; i < asking->kept->count && status == MENSUR_OK; i++) {
        status = chart(charting, &asking->kept->items[i]);
    }
    return status;
}

enum mensur_status ask_make_map(struct asking *asking) {
    struct charting charting = {.asking = asking};
    enum mensur_status status = ask_find_named(asking);
    if (status == MENSUR_OK) {
        charting.wishes = (struct mensur_wishes){.like = liked(asking),
                                                 .items = asking->question->wishes,
                                                 .count = asking->question->wish_count};
        status = chart_named(&charting);
    }
    if (status == MENSUR_OK) {
        status = chart_shop(&charting);
    }
    if (status == MENSUR_OK && charting.mapping == NULL) {
        status = MENSUR_NO_ANSWER; /* the fault says it of the last one */
    }
    if (status == MENSUR_OK) {
        struct mensur_map *map = ask_record(asking->answer, &mensur_map_answer);
        status = map != NULL ? mensur_map_make(charting.mapping, map) : MENSUR_MEMORY;
    }
    mensur_mapping_free(charting.mapping);
    return status;
}

enum mensur_status ask_make_restringing(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    const struct mensur_stock *stock = &asking->shop->stock;
    struct mensur_answer *answer = asking->answer;
    struct mensur_restring_wishes wishes = question->restring;
    enum mensur_status status = find_at_least(asking, 1, "name an instrument");
    if (status != MENSUR_OK) {
        return status;
    }
    wishes.like = liked(asking);
    wishes.tensions = question->wishes;
    wishes.tension_count = question->wish_count;
    struct mensur_restringing *restringing = ask_record(asking->answer, &mensur_restringing_answer);
    if (restringing == NULL) {
        return MENSUR_MEMORY;
    }
    status = mensur_ask_restring(stock, asking->list[0], &wishes, &question->terms, &asking->fault,
                                 restringing);
    answer->met = restringing->met;
    return status == MENSUR_OK && wants_working(question)
               ? mensur_ask_working_restring(stock, asking->list[0], &wishes, restringing,
                                             &question->terms, ask_feels(question), &asking->fault,
                                             &answer->working)
               : status;
}

/* Of every size of a family, for a player of the shop or one that is typed. */
static enum mensur_status make_sizes(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    struct mensur_stock typed = {0};
    const struct mensur_player *player = NULL;
    enum mensur_status status = question->given_count > 0 ? ask_read_player(asking, &typed)
                                                          : ask_find_player(asking, &player);
    struct mensur_reaching *reaching = ask_record(asking->answer, &mensur_reaching_answer);
    if (status == MENSUR_OK && reaching != NULL) {
        status = mensur_ask_sizes(&asking->shop->stock, question->family,
                                  player == NULL ? &typed.players[0] : player, &question->terms,
                                  &asking->fault, reaching);
    }
    mensur_stock_clear(&typed);
    return reaching != NULL ? status : MENSUR_MEMORY;
}

enum mensur_status ask_make_reaching(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    const struct mensur_stock *stock = &asking->shop->stock;
    struct mensur_answer *answer = asking->answer;
    const struct mensur_player *player = NULL;
    if (question->family != NULL) {
        return make_sizes(asking);
    }
    if (question->named_count == 0) {
        return ask_say_names(asking, "name an instrument");
    }
    enum mensur_status status = ask_find_player(asking, &player);
    if (status == MENSUR_OK) {
        status = ask_find_named(asking);
    }
    struct mensur_reaching *reaching = ask_record(asking->answer, &mensur_reaching_answer);
    if (reaching == NULL) {
        return MENSUR_MEMORY;
    }
    if (status == MENSUR_OK && wants_working(question)) {
        status = mensur_ask_working_reach(stock, asking->list, question->named_count, player,
                                          &question->terms, &asking->fault, &answer->working);
    }
    return status == MENSUR_OK
               ? mensur_ask_reach(stock, asking->list, question->named_count, player,
                                  &question->terms, &asking->fault, reaching)
               : status;
}

/* Whether an instrument has what a sheet is to mark. */
static enum mensur_status marks_there_are(struct asking *asking,
                                          const struct mensur_profile *profile) {
    enum mensur_sheet_marks marks = asking->question->marks;
    bool fretted = profile->frets >= 1.0;
    if (marks == MENSUR_SHEET_FRETS && !fretted) {
        (void)mensur_texts_add(
            asking->messages,
            "mensur: %s has no frets; write --marks semitones or --marks tapes (a family "
            "has frets where families.csv counts them)",
            profile->instrument);
        return MENSUR_USE;
    }
    if (marks == MENSUR_SHEET_TAPES && (fretted || profile->held == NULL)) {
        (void)mensur_texts_add(asking->messages,
                               "mensur: no tapes are usual on %s; write --marks %s%s",
                               profile->instrument, fretted ? "frets" : "semitones",
                               fretted ? "" : ", or say its family (family=violin)");
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

enum mensur_status ask_make_sheet(struct asking *asking) {
    enum mensur_status status = find_at_least(asking, 1, "name one instrument or two");
    if (status == MENSUR_OK) {
        status = make_profiles(asking, false);
    }
    for (size_t i = 0; status == MENSUR_OK && i < asking->answer->profile_count; i++) {
        status = marks_there_are(asking, &asking->answer->profiles[i]);
    }
    return status;
}

/* Changed, it is told as a change tells it, so that what is assumed stays so. */
enum mensur_status ask_make_template(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    struct mensur_answer *answer = asking->answer;
    enum mensur_status status;
    if (question->named_count > 0 && question->named[0].change_count > 0) {
        status = ask_make_change(asking);
    } else {
        status = find_at_least(asking, 1, "name an instrument");
        status = status == MENSUR_OK ? make_profiles(asking, false) : status;
    }
    if (status != MENSUR_OK) {
        return status;
    }
    size_t pages = 0;
    const struct mensur_template template = ask_template_of(answer);
    if (mensur_template_pages(&template, &pages) == MENSUR_OK) {
        return status;
    }
    const struct mensur_profile *profile = template.profile;
    status = profile->side.known
                 ? SAY(asking->messages,
                       "%s: the template takes over %d pages; write --output FILE.svg, one drawing "
                       "at true size",
                       profile->instrument, MENSUR_TILE_PAGES)
                 : SAY(asking->messages,
                       "%s: there is no side view to draw: give its stop, neck and family "
                       "(only the string was measured)",
                       profile->instrument);
    return status == MENSUR_USE ? MENSUR_NO_ANSWER : status;
}

/* One instrument, or several side by side; with the decision on the first one's neck where wishes
 * are given. */
enum mensur_status ask_make_dossier(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    enum mensur_status status = find_at_least(asking, 1, "name one instrument or more");
    if (status == MENSUR_OK) {
        status = question->named_count > 1 ? compare_found(asking) : make_profiles(asking, false);
    }
    return status == MENSUR_OK && wishes_anything(question) ? decide(asking, asking->list[0])
                                                            : status;
}

/* The model beside the scaled one, and the decision on the neck of that. */
static enum mensur_status compare_scaled(struct asking *asking,
                                         const struct mensur_instrument *scaled,
                                         struct mensur_scaled *out) {
    const struct mensur_question *question = asking->question;
    const struct mensur_stock *stock = &asking->shop->stock;
    struct mensur_answer *answer = asking->answer;
    const struct mensur_instrument *both[] = {asking->list[0], scaled};
    answer->comparison = calloc(1, sizeof *answer->comparison);
    if (answer->comparison == NULL) {
        return MENSUR_MEMORY;
    }
    enum mensur_status status =
        mensur_ask_compare(stock, both, 2, &question->terms, &asking->fault, answer->comparison);
    if (status == MENSUR_OK && wishes_anything(question)) {
        status = decide(asking, scaled);
    }
    out->comparison = answer->comparison;
    out->decision = answer->decision;
    return status == MENSUR_OK && wants_working(question)
               ? mensur_ask_working_scale(stock, both[0], scaled, out, answer->decision,
                                          &question->terms, &asking->fault, &answer->working)
               : status;
}

enum mensur_status ask_make_scaled(struct asking *asking) {
    struct mensur_instrument scaled;
    enum mensur_status status = find_at_least(asking, 1, "name an instrument and its size");
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_scaled *out = ask_record(asking->answer, &mensur_scaled_answer);
    if (out == NULL) {
        return MENSUR_MEMORY;
    }
    status = mensur_ask_scale(&asking->shop->stock, asking->list[0], &asking->question->scaling,
                              &asking->question->terms, &asking->fault, out, &scaled);
    if (status == MENSUR_OK) {
        status = compare_scaled(asking, &scaled, out);
        mensur_instrument_clear(&scaled);
    }
    return status;
}

static enum mensur_status make(struct mensur_shop *shop, const struct mensur_kept *kept,
                               const struct mensur_question *question,
                               struct mensur_texts *messages, run_batches *run, make_answer *way,
                               struct mensur_answer *answer) {
    struct mensur_answer *made = calloc(1, sizeof *made);
    struct asking asking = {.shop = shop,
                            .kept = kept,
                            .question = question,
                            .messages = messages,
                            .answer = made,
                            .run = run};
    if (made == NULL) {
        return MENSUR_MEMORY;
    }
    made->question = question;
    made->shop = shop;
    made->met = true;
    made->profiles = calloc(question->named_count + 1, sizeof *made->profiles);
    made->workings = calloc(question->named_count + 1, sizeof *made->workings);
    mensur_question_heading(question, shop, &made->heading);
    enum mensur_status status =
        made->profiles == NULL || made->workings == NULL ? MENSUR_MEMORY : way(&asking);
    free(asking.list);
    if (status != MENSUR_OK && asking.fault.text[0] != '\0') {
        status = ask_say_fault(messages, shop, NULL, &asking.fault, status);
    }
    if (status == MENSUR_OK) {
        *answer = *made;
    } else {
        mensur_answer_clear(made);
    }
    free(made);
    return status;
}

enum mensur_status mensur_answer_make(struct mensur_shop *shop, const struct mensur_kept *kept,
                                      const struct mensur_question *question,
                                      struct mensur_texts *messages, struct mensur_answer *answer) {
    return make(shop, kept, question, messages, mensur_row_batches_run, question->way->make,
                answer);
}

enum mensur_status mensur_answer_make_with(struct mensur_shop *shop, run_batches *run,
                                           const struct mensur_question *question,
                                           struct mensur_texts *messages,
                                           struct mensur_answer *answer) {
    return make(shop, NULL, question, messages, run, question->way->make, answer);
}

enum mensur_status mensur_answer_find(struct mensur_shop *shop, const struct mensur_kept *kept,
                                      const struct mensur_question *question,
                                      struct mensur_texts *messages, struct mensur_answer *answer) {
    return make(shop, kept, question, messages, mensur_row_batches_run, ask_find_named, answer);
}
