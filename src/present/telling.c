/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "telling.h"

bool telling_is_html(const struct mensur_presenter *presenter) {
    return presenter->style.format == MENSUR_FORMAT_HTML;
}

bool telling_in_parts(const struct mensur_presenter *presenter) {
    return telling_is_html(presenter) && presenter->style.html_parts != 0;
}

bool telling_is_written(const struct mensur_presenter *presenter, enum mensur_html_parts part) {
    return !telling_in_parts(presenter) || (presenter->style.html_parts & (unsigned)part) != 0;
}

void telling_write_told(struct mensur_presenter *presenter, enum mensur_html_parts part) {
    if (!telling_is_written(presenter, part)) {
        return;
    }
    if (telling_is_html(presenter)) {
        mensur_document_html(&presenter->document, &presenter->html);
    } else {
        mensur_document_text(&presenter->document, &presenter->out);
    }
}

void telling_write(struct mensur_presenter *presenter, enum mensur_html_parts part) {
    telling_write_told(presenter, part);
    mensur_document_clear(&presenter->document);
}

void telling_gather(struct mensur_presenter *presenter, const char *name,
                    const struct mensur_assumptions *assumed, unsigned shown,
                    const struct mensur_facts *warnings) {
    static const struct mensur_assumptions none;
    bool feel = presenter->style.feel || presenter->style.true_places;
    bool notes = telling_is_written(presenter, MENSUR_HTML_NOTES);
    if (!notes && !telling_is_written(presenter, MENSUR_HTML_ALARMS)) {
        return;
    }
    mensur_gather(&presenter->gathered, &presenter->style, name, notes ? assumed : &none,
                  shown | (feel ? MENSUR_BEHIND_FEEL : 0U), warnings);
    mensur_out_fail(&presenter->out, presenter->gathered.status);
}

void telling_gather_profile(struct mensur_presenter *presenter, const char *name,
                            const struct mensur_profile *profile, unsigned shown) {
    presenter->document.style.neck_base = mensur_shown_neck_base(profile->held);
    telling_gather(presenter, name, &profile->assumed, shown, &profile->warnings);
}
