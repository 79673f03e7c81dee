/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The libraries that draw end the process where memory runs out, by a signal or by reading what is
 * not there. So a process of its own loads them, draws, and hands the bytes over in a pipe; the
 * exit code is the status behind FIRST_EXIT_CODE, below which are those of libraries.
 */
#include "picture.h"

#include <dlfcn.h>
#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "paper.h"
#include "say.h"

#define MODULE "mensur-paper.so"

enum { FIRST_EXIT_CODE = 64 };

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

/* The drawings as SVG, page by page. */
static enum mensur_status write_pages(const struct mensur_answer *made, size_t count,
                                      struct mensur_kept_bytes *svg,
                                      struct mensur_paper_page *pages) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        struct mensur_sink into = {.write = mensur_kept_bytes_add, .context = &svg[i]};
        status = mensur_answer_write(made, i, &into);
        pages[i] = (struct mensur_paper_page){svg[i].items, svg[i].length};
    }
    return status;
}

static enum mensur_status say_failed(enum mensur_status status, const struct mensur_fault *fault) {
    switch (status) {
    case MENSUR_DOMAIN:
        say_line("mensur: the drawing is too large for a picture; write .svg or .pdf");
        return MENSUR_USE;
    case MENSUR_READ:
        say_line("mensur: the letters of the picture cannot be drawn: %s", fault->text);
        return MENSUR_READ;
    case MENSUR_DATA: /* mensur's own drawing, which is sound */
        say_line("mensur: the picture cannot be drawn, as where memory runs out");
        return MENSUR_MEMORY;
    default:
        return say_at_least(status);
    }
}

static enum mensur_status draw(const struct mensur_answer *made, size_t count,
                               const struct mensur_sink *sink) {
    const struct mensur_paper_writer *writer = NULL;
    struct mensur_fault fault = {""};
    enum mensur_status status = find_writer(&writer);
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_kept_bytes *svg = calloc(count, sizeof(*svg));
    struct mensur_paper_page *pages = calloc(count, sizeof(*pages));
    status = svg != NULL && pages != NULL ? write_pages(made, count, svg, pages) : MENSUR_MEMORY;
    if (status == MENSUR_OK) {
        status = made->question->medium == MENSUR_MEDIUM_PDF
                     ? writer->pdf(pages, count, mensur_answer_title(made), sink, &fault)
                     : writer->png(&pages[0], sink, &fault);
    }
    for (size_t i = 0; svg != NULL && i < count; i++) {
        mensur_kept_bytes_clear(&svg[i]);
    }
    free(svg);
    free(pages);
    return say_failed(status, &fault);
}

static enum mensur_status write_bytes(void *context, const char *bytes, size_t length) {
    const int *file = context;
    while (length > 0) {
        ssize_t count = write(*file, bytes, length);
        if (count < 0 && errno != EINTR) {
            return MENSUR_WRITE;
        }
        bytes += count > 0 ? count : 0;
        length -= count > 0 ? (size_t)count : 0;
    }
    return MENSUR_OK;
}

/* Draws into the pipe and ends; what went wrong is said. A process that ends by a signal leaves no
 * image of its memory. */
static _Noreturn void draw_and_end(const struct mensur_answer *made, size_t pages, int pipe) {
    const struct rlimit none = {0, 0};
    struct mensur_sink into = {.write = write_bytes, .context = &pipe};
    (void)setrlimit(RLIMIT_CORE, &none);
    _exit(FIRST_EXIT_CODE + (int)draw(made, pages, &into));
}

static enum mensur_status take_bytes(int pipe, struct mensur_kept_bytes *picture) {
    char piece[4096];
    for (;;) {
        ssize_t count = read(pipe, piece, sizeof(piece));
        if (count == 0 || (count < 0 && errno != EINTR)) {
            return count == 0 ? MENSUR_OK : MENSUR_READ;
        }
        if (count > 0 && mensur_kept_bytes_add(picture, piece, (size_t)count) != MENSUR_OK) {
            return say_status(MENSUR_MEMORY);
        }
    }
}

/* What a process came to, which has said what went wrong unless a library ended it. */
static enum mensur_status judge(int end) {
    if (WIFEXITED(end) && WEXITSTATUS(end) >= FIRST_EXIT_CODE) {
        enum mensur_status status = (enum mensur_status)(WEXITSTATUS(end) - FIRST_EXIT_CODE);
        say_done(status != MENSUR_OK);
        return status;
    }
    say_line("mensur: the libraries that draw pictures ended without a reason (%s %d), as they do "
             "where memory runs out; write .svg",
             WIFSIGNALED(end) ? "signal" : "exit code",
             WIFSIGNALED(end) ? WTERMSIG(end) : WEXITSTATUS(end));
    return MENSUR_MEMORY;
}

/* The bytes that a process draws into a pipe, which is closed here, and how it ended. */
static enum mensur_status take_picture(pid_t process, int pipe, struct mensur_kept_bytes *picture) {
    int end = 0;
    enum mensur_status status = take_bytes(pipe, picture);
    (void)close(pipe); /* a process that goes on writing ends by that */
    while (waitpid(process, &end, 0) < 0 && errno == EINTR) {
    }
    return status == MENSUR_OK ? judge(end) : status;
}

static enum mensur_status say_unable(void) {
    say_line("mensur: the picture cannot be drawn: %s", strerror(errno));
    return MENSUR_READ;
}

enum mensur_status picture_draw(const struct mensur_answer *made, size_t pages,
                                struct mensur_kept_bytes *picture) {
    struct mensur_kept_bytes drawn = {.items = NULL};
    int ends[2];
    if (pipe(ends) != 0) {
        return say_unable();
    }
    (void)signal(SIGCHLD, SIG_DFL); /* where it is ignored there is no exit code */
    pid_t process = fork();
    if (process == 0) {
        (void)close(ends[0]);
        draw_and_end(made, pages, ends[1]);
    }
    enum mensur_status status = process < 0 ? say_unable() : MENSUR_OK;
    (void)close(ends[1]);
    if (status != MENSUR_OK) {
        (void)close(ends[0]);
        return status;
    }
    status = take_picture(process, ends[0], &drawn);
    if (status != MENSUR_OK) {
        mensur_kept_bytes_clear(&drawn);
        return status;
    }
    *picture = drawn;
    return MENSUR_OK;
}
