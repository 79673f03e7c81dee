/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lengths, tension, fingers: one instrument after the other, in the program's formats. */
#include <string.h>

#include "engine.h"
#include "working.h"

static const struct row_command {
    const char *command;
    unsigned parts;
    enum mensur_status (*present)(struct mensur_presenter *presenter,
                                  const struct mensur_profile *profile);
} row_commands[] = {
    {"lengths", MENSUR_PART_LENGTHS, mensur_present_lengths},
    {"tension", MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, mensur_present_tension},
    {"fingers", MENSUR_PART_LENGTHS | MENSUR_PART_FINGERS, mensur_present_fingers},
};

/* A question under way: its command, and the first answer, against which fingers are held. */
struct row {
    struct page *page;
    struct question *question;
    const struct row_command *command;
    struct mensur_presenter *presenter;
    struct mensur_profile first; /* all zero before it is known */
    bool is_fingers;
    bool in_full; /* JSON tells all there is */
};

static unsigned parts_of(const struct row *row) {
    bool true_places = row->is_fingers && (row->in_full || row->question->style.true_places);
    return row->command->parts | (true_places ? (unsigned)MENSUR_PART_TRUE_PLACES : 0u);
}

static enum mensur_status ask_working(const struct row *row,
                                      const struct mensur_instrument *instrument,
                                      struct mensur_fault *fault, struct mensur_working *out) {
    const struct mensur_stock *stock = page_stock(row->page);
    const struct question *question = row->question;
    if (row->is_fingers) {
        return mensur_ask_working_fingers(stock, instrument, &question->terms,
                                          row->in_full || question->style.true_places, fault, out);
    }
    return row->command == &row_commands[0]
               ? mensur_ask_working_lengths(stock, instrument, &question->terms, fault, out)
               : mensur_ask_working_tension(stock, instrument, &question->terms,
                                            question_feels(question), fault, out);
}

static enum mensur_status present_one(const struct row *row,
                                      const struct mensur_instrument *instrument,
                                      const struct mensur_profile *profile,
                                      struct mensur_fault *fault) {
    struct mensur_working working = {.count = 0};
    enum mensur_status status = MENSUR_OK;
    if (row->question->working) {
        status = ask_working(row, instrument, fault, &working);
        mensur_present_set_working(row->presenter, &working);
    }
    if (status == MENSUR_OK) {
        status = row->command->present(row->presenter, profile);
    }
    mensur_working_clear(&working);
    return status;
}

static enum mensur_status answer_one(struct row *row, const struct mensur_instrument *instrument,
                                     struct mensur_fault *fault) {
    struct mensur_profile profile;
    enum mensur_status status = mensur_ask_profile(
        page_stock(row->page), instrument, &row->question->terms, parts_of(row), fault, &profile);
    if (status != MENSUR_OK) {
        return status;
    }
    bool is_first = row->first.instrument == NULL;
    if (!is_first && row->is_fingers) {
        status = mensur_remark_fingers(&row->first, &profile);
    }
    if (status == MENSUR_OK) {
        status = present_one(row, instrument, &profile, fault);
    }
    if (is_first) {
        row->first = profile;
    } else {
        mensur_profile_clear(&profile);
    }
    return status;
}

static const struct row_command *find_command(const char *command) {
    size_t i = 0;
    while (i + 1 < sizeof row_commands / sizeof row_commands[0] &&
           strcmp(row_commands[i].command, command) != 0) {
        i++;
    }
    return &row_commands[i];
}

enum mensur_status answer_profiles(struct page *page, struct question *question,
                                   struct mensur_fault *fault) {
    struct mensur_sink sink = page_sink(page);
    struct row row = {.page = page,
                      .question = question,
                      .command = find_command(question->command),
                      .is_fingers = strcmp(question->command, "fingers") == 0,
                      .in_full = question->style.format == MENSUR_FORMAT_JSON};
    enum mensur_status status =
        mensur_present_open(&question->heading, &question->style, &sink, &row.presenter);
    if (status != MENSUR_OK) {
        return status;
    }
    for (size_t i = 0; i < question->count && status == MENSUR_OK; i++) {
        status = answer_one(&row, question->after[i], fault);
    }
    enum mensur_status closed = mensur_present_close(row.presenter, status == MENSUR_OK);
    mensur_profile_clear(&row.first);
    return status == MENSUR_OK ? closed : status;
}
