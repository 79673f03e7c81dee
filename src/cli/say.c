/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "say.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "utf8.h"

/* Something was said. It outlives its functions, because only the end of the program asks. */
static bool spoke;

/* Letters on their way to standard error, which has no buffer of its own. Nothing is allocated:
 * that memory ran out must be said too. */
struct pen {
    size_t used;
    char bytes[512];
};

static void put_bytes(struct pen *pen, const char *bytes, size_t length) {
    if (pen->used + length > sizeof(pen->bytes)) {
        (void)fwrite(pen->bytes, 1, pen->used, stderr);
        pen->used = 0;
    }
    memcpy(pen->bytes + pen->used, bytes, length);
    pen->used += length;
}

static void put_line(const char *text) {
    struct pen pen = {.used = 0};
    while (*text != '\0') {
        uint32_t code = 0;
        size_t length = mensur_utf8_letter(text, MENSUR_UTF8_MOST, &code);
        bool shown = length > 0 && !mensur_utf8_steers(code);
        put_bytes(&pen, shown ? text : "?", shown ? length : 1);
        text += length > 0 ? length : 1;
    }
    put_bytes(&pen, "\n", 1);
    (void)fwrite(pen.bytes, 1, pen.used, stderr);
    spoke = true;
}

void say_line(const char *format, ...) {
    char room[1024];
    va_list values;
    va_start(values, format);
    int length = vsnprintf(room, sizeof(room), format, values);
    va_end(values);
    char *text = length < (int)sizeof(room) ? room : malloc((size_t)length + 1);
    if (text != NULL && text != room) {
        va_start(values, format);
        (void)vsnprintf(text, (size_t)length + 1, format, values);
        va_end(values);
    }
    put_line(text != NULL ? text : room); /* without memory as much as there is room for */
    if (text != room) {
        free(text);
    }
}

static enum mensur_status put_words(void *context, const char *bytes, size_t length) {
    (void)context;
    spoke = true;
    return fwrite(bytes, 1, length, stderr) == length ? MENSUR_OK : MENSUR_WRITE;
}

struct mensur_sink say_sink(void) {
    return (struct mensur_sink){.write = put_words, .context = NULL};
}

enum mensur_status say_status(enum mensur_status status) {
    say_line("mensur: %s", mensur_status_text(status));
    return status;
}

enum mensur_status say(struct mensur_texts *messages, enum mensur_status status) {
    for (size_t i = 0; i < messages->count; i++) {
        put_line(messages->items[i]);
    }
    mensur_texts_clear(messages);
    return status == MENSUR_MEMORY ? say_status(status) : status;
}

void say_done(bool done) {
    spoke = spoke || done;
}

enum mensur_status say_at_least(enum mensur_status status) {
    bool failed = status != MENSUR_OK && status != MENSUR_NOT_MET;
    return failed && !spoke ? say_status(status) : status;
}
