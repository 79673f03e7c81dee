/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "picture.h"

#include <dlfcn.h>
#include <string.h>

#include "say.h"

#define MODULE "mensur-paper.so"

/* $ORIGIN is the folder of the program: where it is installed, and where it is built. */
static const char *const places[] = {MENSUR_PAPER_FOLDER "/" MODULE, "$ORIGIN/../paper/" MODULE};

/* It stays loaded until the program ends. `why`: what it lacks itself, where it is there. */
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

enum mensur_status picture_writer(const struct mensur_paper_writer **out) {
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
