/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which function answers which question. */
#include <string.h>

#include "engine.h"

static const struct {
    const char *command;
    page_answer *answer;
} answers[] = {
    /* the program's own, in its formats */
    {"lengths", answer_profiles},
    {"tension", answer_profiles},
    {"fingers", answer_profiles},
    {"compare", answer_compare},
    {"change", answer_change},
    {"neck", answer_decision},
    {"stop", answer_decision},
    {"restring", answer_restring},
    {"reach", answer_reach},
    {"dossier", answer_dossier},
    /* what the page sets down itself */
    {"view", answer_view},
    {"fields", answer_fields},
    {"neck view", answer_decision_view},
    {"stop view", answer_decision_view},
    {"restring view", answer_restring_view},
    {"reach view", answer_reach_view},
    {"working lengths", answer_working},
    {"working tension", answer_working},
    {"working fingers", answer_working},
    {"working compare", answer_working},
    {"neck working", answer_decision_working},
    {"stop working", answer_decision_working},
    /* files to keep */
    {"save", answer_save},
    {"table", answer_table},
};

enum mensur_status answer_question(struct page *page, struct question *question,
                                   struct mensur_fault *fault) {
    for (size_t i = 0; i < sizeof answers / sizeof answers[0]; i++) {
        if (strcmp(question->command, answers[i].command) == 0) {
            return answers[i].answer(page, question, fault);
        }
    }
    mensur_fault_set(fault, "there is no command \"%s\"", question->command);
    return MENSUR_USE;
}
