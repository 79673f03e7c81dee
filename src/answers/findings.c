/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The slips that the model finds, as facts and behind a fault. */
#include "findings.h"

#include <stdio.h>
#include <string.h>

#include "plausible.h"

static void judge(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                  struct mensur_findings *out) {
    mensur_judge(stock, mensur_stock_family(stock, instrument->family), instrument->measure, out);
}

void findings_add(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                  struct mensur_facts *warnings) {
    struct mensur_findings found;
    judge(stock, instrument, &found);
    for (size_t i = 0; i < found.count; i++) {
        const struct mensur_finding *finding = &found.items[i];
        if (finding->slip != MENSUR_SLIP_UNUSUAL) {
            char subject[MENSUR_FINDING_ROOM], hint[MENSUR_FINDING_ROOM];
            mensur_finding_subject(finding, subject);
            mensur_finding_hint(finding, hint);
            mensur_facts_add(warnings, MENSUR_FACT_SLIP,
                             MENSUR_NAMES(instrument->name, subject, hint), NULL);
        }
    }
}

/* What explains a failure best: a slip of one of two cells that can be mended, else of any cell,
 * else one of the two that is to be measured again; NULL where there is none. */
static const struct mensur_finding *explaining(const struct mensur_findings *found,
                                               enum mensur_field one, enum mensur_field other) {
    const struct mensur_finding *best = mensur_finding_of(found, one, other);
    const struct mensur_finding *again = NULL;
    for (size_t i = 0; i < found->count && best == NULL; i++) {
        const struct mensur_finding *finding = &found->items[i];
        if (finding->slip == MENSUR_SLIP_UNKNOWN) {
            again = finding->field == one || finding->field == other ? finding : again;
        } else if (finding->slip != MENSUR_SLIP_UNUSUAL) {
            best = finding;
        }
    }
    return best != NULL ? best : again;
}

void findings_explain(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                      enum mensur_field one, enum mensur_field other, struct mensur_fault *fault) {
    struct mensur_findings found = {.count = 0};
    if (fault == NULL) {
        return;
    }
    judge(stock, instrument, &found);
    const struct mensur_finding *finding = explaining(&found, one, other);
    if (finding != NULL) {
        char subject[MENSUR_FINDING_ROOM], hint[MENSUR_FINDING_ROOM];
        size_t length = strlen(fault->text);
        mensur_finding_subject(finding, subject);
        mensur_finding_hint(finding, hint);
        snprintf(fault->text + length, sizeof fault->text - length, "; %s: %s", subject, hint);
    }
}
