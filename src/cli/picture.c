/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "picture.h"

#include <dlfcn.h>
#include <stdlib.h>
#include <string.h>

#include "paper.h"
#include "say.h"

#define MODULE "mensur-paper.so"

/* $ORIGIN is the folder of the program: where it is installed, and where it is built. */
static const char *const places[] = {MENSUR_PAPER_FOLDER "/" MODULE, "$ORIGIN/../paper/" MODULE};

/* The module that writes PDF and PNG. It stays loaded until the program ends. `why`: what it lacks
 * itself, where it is there. */
static const struct mensur_paper_writer *load(const char **why) {
    for (size_t i = 0; i < sizeof(places) / sizeof(places[0]); i++) {
        void *module = dlopen(places[i], RTLD_NOW | RTLD_LOCAL);
        const char *lacks = module == NULL ? dlerror() : NULL;
        if (lacks != NULL && strstr(lacks, MODULE) == NULL) {
            *why = lacks;
            return NULL;
        }
        const struct mensur_paper_writer *writer =
            module != NULL ? dlsym(module, "mensur_paper_writer") : NULL;
        if (writer != NULL && strcmp(writer->version, MENSUR_VERSION) == 0) {
            return writer;
        }
    }
    *why = "it is not there in this version";
    return NULL;
}

/* Finds what writes pictures, and that there are letters to write with. */
static enum mensur_status find_writer(const struct mensur_paper_writer **out) {
    const char *why = "";
    const struct mensur_paper_writer *writer = load(&why);
    if (writer == NULL) {
        say_line("mensur: %s, which writes .pdf and .png, cannot be loaded: %s; install mensur "
                 "again, or write .svg",
                 MODULE, why);
        return MENSUR_READ;
    }
    if (!writer->has_letters()) {
        say_line("mensur: no font is installed, so that a .pdf or .png would have no text in it; "
                 "install a font, or write .svg");
        return MENSUR_READ;
    }
    *out = writer;
    return MENSUR_OK;
}

static enum mensur_status keep_bytes(void *context, const char *bytes, size_t length) {
    struct picture *picture = context;
    if (picture->room - picture->length < length) {
        size_t room = (picture->length + length) * 2;
        char *more = realloc(picture->bytes, room);
        if (more == NULL) {
            return MENSUR_MEMORY;
        }
        picture->bytes = more;
        picture->room = room;
    }
    if (length > 0) {
        memcpy(picture->bytes + picture->length, bytes, length);
    }
    picture->length += length;
    return MENSUR_OK;
}

/* The drawings as SVG, page by page. */
static enum mensur_status write_pages(const struct mensur_answer *made, size_t count,
                                      struct picture *svg, struct mensur_paper_page *pages) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        struct mensur_sink into = {.write = keep_bytes, .context = &svg[i]};
        status = mensur_answer_write(made, i, &into);
        pages[i] = (struct mensur_paper_page){svg[i].bytes, svg[i].length};
    }
    return status;
}

static enum mensur_status say_failed(enum mensur_status status) {
    if (status == MENSUR_DATA) {
        say_line("mensur: the drawing is too large for a picture; write .svg or .pdf");
        return MENSUR_USE;
    }
    return status == MENSUR_MEMORY ? say_status(status) : status;
}

static enum mensur_status draw(const struct mensur_answer *made, size_t count,
                               const struct mensur_sink *sink) {
    const struct mensur_paper_writer *writer = NULL;
    enum mensur_status status = find_writer(&writer);
    if (status != MENSUR_OK) {
        return status;
    }
    struct picture *svg = calloc(count, sizeof(*svg));
    struct mensur_paper_page *pages = calloc(count, sizeof(*pages));
    status = svg != NULL && pages != NULL ? write_pages(made, count, svg, pages) : MENSUR_MEMORY;
    if (status == MENSUR_OK) {
        status = made->question->medium == MENSUR_MEDIUM_PDF
                     ? writer->pdf(pages, count, mensur_answer_title(made), sink)
                     : writer->png(&pages[0], sink);
    }
    for (size_t i = 0; svg != NULL && i < count; i++) {
        picture_clear(&svg[i]);
    }
    free(svg);
    free(pages);
    return say_failed(status);
}

enum mensur_status picture_draw(const struct mensur_answer *made, size_t pages,
                                struct picture *picture) {
    struct picture drawn = {.bytes = NULL};
    struct mensur_sink into = {.write = keep_bytes, .context = &drawn};
    enum mensur_status status = draw(made, pages, &into);
    if (status != MENSUR_OK) {
        picture_clear(&drawn);
        return status;
    }
    *picture = drawn;
    return MENSUR_OK;
}

void picture_clear(struct picture *picture) {
    free(picture->bytes);
    *picture = (struct picture){.bytes = NULL};
}
