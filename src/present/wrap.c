/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Running text within the width of a page. */
#include "wrap.h"

#include <stdarg.h>
#include <string.h>

void mensur_wrap_open(struct mensur_wrap *wrap, struct mensur_out *out, size_t column,
                      size_t indent) {
    wrap->out = out;
    wrap->column = column;
    wrap->indent = indent;
    wrap->started = false;
    wrap->glued = false;
    wrap->bytes = 0;
    wrap->width = 0;
}

static void break_line(struct mensur_wrap *wrap) {
    mensur_out_line(wrap->out);
    mensur_out_blanks(wrap->out, wrap->indent);
    wrap->column = wrap->indent;
    wrap->started = false;
}

static void write_word(struct mensur_wrap *wrap) {
    if (wrap->bytes == 0) {
        return;
    }
    size_t gap = wrap->started && !wrap->glued ? 1 : 0;
    if (wrap->column + gap + wrap->width > MENSUR_TEXT_WIDTH) {
        break_line(wrap);
        gap = 0;
    }
    mensur_out_blanks(wrap->out, gap);
    mensur_out_bytes(wrap->out, wrap->word, wrap->bytes);
    wrap->column += gap + wrap->width;
    wrap->started = true;
    wrap->glued = false;
    wrap->bytes = 0;
    wrap->width = 0;
}

static void add_letter(struct mensur_wrap *wrap, const struct mensur_letter *letter) {
    bool too_wide = wrap->width + letter->width > MENSUR_TEXT_WIDTH - wrap->indent;
    if (too_wide || wrap->bytes + letter->length > sizeof(wrap->word)) {
        write_word(wrap);
        wrap->glued = true;
    }
    memcpy(wrap->word + wrap->bytes, letter->bytes, letter->length);
    wrap->bytes += letter->length;
    wrap->width += letter->width;
}

static void add_text(struct mensur_wrap *wrap, const char *text) {
    while (*text != '\0') {
        struct mensur_letter letter = mensur_letter_at(text);
        if (letter.breaks) {
            write_word(wrap);
            wrap->glued = false;
        } else {
            add_letter(wrap, &letter);
        }
        text += letter.used;
    }
}

void mensur_wrap_say(struct mensur_wrap *wrap, const char *text, ...) {
    va_list texts;
    va_start(texts, text);
    for (; text != NULL; text = va_arg(texts, const char *)) {
        add_text(wrap, text);
    }
    va_end(texts);
}

void mensur_wrap_close(struct mensur_wrap *wrap) {
    write_word(wrap);
    mensur_out_line(wrap->out);
}

void mensur_paragraph(struct mensur_out *out, size_t first, size_t rest, const char *text) {
    struct mensur_wrap wrap;
    mensur_out_blanks(out, first);
    mensur_wrap_open(&wrap, out, first, rest);
    mensur_wrap_say(&wrap, text, NULL);
    mensur_wrap_close(&wrap);
}
