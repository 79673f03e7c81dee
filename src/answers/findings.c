/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the model finds implausible of an instrument, as facts and behind a fault. */
#include "findings.h"

#include <stdio.h>

#include "ask.h"

static void judge(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                  struct mensur_findings *out) {
    mensur_judge(stock, mensur_stock_family(stock, instrument->family), instrument->measure, out);
}

void mensur_ask_findings(const struct mensur_stock *stock,
                         const struct mensur_instrument *instrument, bool unusual,
                         struct mensur_facts *facts) {
    struct mensur_findings found;
    judge(stock, instrument, &found);
    for (size_t i = 0; i < found.count; i++) {
        const struct mensur_finding *finding = &found.items[i];
        char subject[MENSUR_FINDING_ROOM], hint[MENSUR_FINDING_ROOM];
        mensur_finding_subject(finding, subject);
        mensur_finding_hint(finding, hint);
        if (finding->slip != MENSUR_SLIP_UNUSUAL) {
            mensur_facts_add(facts, MENSUR_FACT_SLIP, MENSUR_NAMES(instrument->name, subject, hint),
                             NULL);
        } else if (unusual) {
            mensur_facts_add(facts, MENSUR_FACT_UNUSUAL, MENSUR_NAMES(instrument->name, subject),
                             MENSUR_NUMBERS(finding->low, finding->high));
        }
    }
}

void findings_of(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                 enum mensur_field one, enum mensur_field other, char *out) {
    struct mensur_findings found;
    judge(stock, instrument, &found);
    const struct mensur_finding *finding = mensur_finding_of(&found, one, other);
    for (size_t i = 0; i < found.count && finding == NULL; i++) {
        finding = found.items[i].slip != MENSUR_SLIP_UNUSUAL ? &found.items[i] : NULL;
    }
    out[0] = '\0';
    if (finding != NULL) {
        char subject[MENSUR_FINDING_ROOM], hint[MENSUR_FINDING_ROOM];
        mensur_finding_subject(finding, subject);
        mensur_finding_hint(finding, hint);
        snprintf(out, FINDINGS_ROOM, "; %s: %s", subject, hint);
    }
}
