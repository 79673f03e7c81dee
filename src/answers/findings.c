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
        char subject[MENSUR_FINDING_ROOM], hint[MENSUR_FINDING_ROOM];
        if (finding->slip != MENSUR_SLIP_UNUSUAL) {
            mensur_finding_subject(finding, subject);
            mensur_finding_hint(finding, hint);
            mensur_facts_add(warnings, MENSUR_FACT_SLIP,
                             MENSUR_NAMES(instrument->name, subject, hint), NULL);
        }
    }
}

void findings_explain(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                      enum mensur_field one, enum mensur_field other, struct mensur_fault *fault) {
    struct mensur_findings found = {.count = 0};
    if (fault != NULL) {
        judge(stock, instrument, &found);
    }
    const struct mensur_finding *finding = mensur_finding_of(&found, one, other);
    for (size_t i = 0; i < found.count && finding == NULL; i++) {
        finding = found.items[i].slip != MENSUR_SLIP_UNUSUAL ? &found.items[i] : NULL;
    }
    if (finding != NULL) {
        char subject[MENSUR_FINDING_ROOM], hint[MENSUR_FINDING_ROOM];
        size_t length = strlen(fault->text);
        mensur_finding_subject(finding, subject);
        mensur_finding_hint(finding, hint);
        snprintf(fault->text + length, sizeof fault->text - length, "; %s: %s", subject, hint);
    }
}
