/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lengths, tension, fingers: one instrument after the other. */
#include "ways.h"

bool ask_feels(const struct mensur_question *question) {
    return question->style.feel || question->style.format == MENSUR_FORMAT_JSON;
}

enum mensur_status ask_say_fault(struct mensur_texts *messages, const struct mensur_shop *shop,
                                 const struct mensur_instrument *instrument,
                                 const struct mensur_fault *fault, enum mensur_status status) {
    if (status == MENSUR_MEMORY) {
        return status;
    }
    enum mensur_status said = instrument != NULL && instrument->line > 0
                                  ? mensur_texts_add(messages, "%s:%ld:1: %s",
                                                     shop->sources[MENSUR_TABLE_INSTRUMENTS].label,
                                                     instrument->line, fault->text)
                                  : mensur_texts_add(messages, "mensur: %s", fault->text);
    return said == MENSUR_OK ? status : said;
}

void mensur_question_heading(const struct mensur_question *question, const struct mensur_shop *shop,
                             struct mensur_heading *heading) {
    const char *command = mensur_command_at((size_t)question->command)->name;
    *heading = (struct mensur_heading){.command = command,
                                       .shop = shop->label,
                                       .a4 = question->terms.a4,
                                       .fifths = question->fifths,
                                       .steps = question->steps,
                                       .cautions = mensur_cautions(command),
                                       .sources = mensur_sources(command)};
}

/* Drawings, sheets and dossiers show all there is; a CSV its figures alone. */
static unsigned parts_of(const struct mensur_question *question) {
    const struct row_way *row = question->way->row;
    bool json = question->style.format == MENSUR_FORMAT_JSON;
    if (question->medium != MENSUR_MEDIUM_WORDS) {
        return MENSUR_PART_ALL;
    }
    unsigned parts = row->parts;
    if (row->against_first && (question->style.true_places || json)) {
        parts |= MENSUR_PART_TRUE_PLACES;
    }
    return question->style.format == MENSUR_FORMAT_CSV ? parts | MENSUR_PART_FIGURES_ALONE : parts;
}

enum mensur_status ask_row_make(const struct mensur_shop *shop,
                                const struct mensur_question *question,
                                const struct mensur_instrument *instrument,
                                struct mensur_texts *messages, struct mensur_profile *profile) {
    struct mensur_fault fault = {""};
    enum mensur_status status = mensur_ask_profile(&shop->stock, instrument, &question->terms,
                                                   parts_of(question), &fault, profile);
    return status == MENSUR_OK ? status : ask_say_fault(messages, shop, instrument, &fault, status);
}

enum mensur_status ask_row_write(const struct mensur_rows *rows, struct mensur_presenter *presenter,
                                 const struct mensur_instrument *instrument,
                                 const struct mensur_profile *profile) {
    const struct row_way *row = rows->question->way->row;
    struct mensur_working working = {.count = 0};
    struct mensur_fault fault = {""};
    enum mensur_status status = MENSUR_OK;
    if (rows->question->working) {
        status = row->work(rows->question, &rows->shop->stock, instrument, &fault, &working);
        mensur_present_set_working(presenter, &working);
    }
    if (status == MENSUR_OK) {
        status = row->present(presenter, profile);
    }
    mensur_working_clear(&working);
    return status;
}
