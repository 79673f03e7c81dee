/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an answer holds: room for its record, and how all of it is freed. */
#include <stdlib.h>

#include "asking.h"

void *ask_record(struct mensur_answer *answer, const struct mensur_answer_kind *kind) {
    answer->kind = kind;
    answer->told = answer->record = calloc(1, kind->size);
    return answer->record;
}

enum mensur_status ask_told_comparison(struct mensur_answer *answer) {
    answer->kind = &mensur_comparison_answer;
    answer->told = answer->comparison = calloc(1, sizeof *answer->comparison);
    return answer->comparison != NULL ? MENSUR_OK : MENSUR_MEMORY;
}

void mensur_answer_clear(struct mensur_answer *answer) {
    for (size_t i = 0; i < answer->found_count; i++) {
        mensur_instrument_clear(&answer->found[i].as_it_is);
        mensur_instrument_clear(&answer->found[i].changed);
    }
    for (size_t i = 0; i < answer->profile_count; i++) {
        mensur_profile_clear(&answer->profiles[i]);
        mensur_working_clear(&answer->workings[i]);
    }
    mensur_working_clear(&answer->working);
    free(answer->found);
    free(answer->profiles);
    free(answer->workings);
    if (answer->comparison != NULL) {
        mensur_comparison_clear(answer->comparison);
        free(answer->comparison);
    }
    if (answer->decision != NULL) {
        mensur_decision_clear(answer->decision);
        free(answer->decision);
    }
    if (answer->record != NULL) {
        answer->kind->clear(answer->record);
        free(answer->record);
    }
    *answer = (struct mensur_answer){.question = NULL};
}
