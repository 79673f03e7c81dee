/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "say.h"

/* What mkstemp() makes letters of its own of. */
#define SCRATCH_END ".XXXXXX"

/* The scratch files that are there, for a signal that ends the program to take away; the one thing
 * here that outlives its function, because a signal comes with nothing else. */
static _Atomic(const char *) scratch_to_remove[OUTPUTS_MOST];

/* What ends a program that does not ask for it otherwise, and is no fault of its own. */
static const int ending_signals[] = {SIGHUP,  SIGINT,  SIGQUIT, SIGPIPE,   SIGTERM, SIGALRM,
                                     SIGUSR1, SIGUSR2, SIGXCPU, SIGVTALRM, SIGPROF};

/* Calls only what may be called in a signal, then lets the signal do what it does. */
static void remove_scratch(int number) {
    for (size_t i = 0; i < OUTPUTS_MOST; i++) {
        const char *scratch = atomic_load(&scratch_to_remove[i]);
        if (scratch != NULL) {
            (void)unlink(scratch);
        }
    }
    (void)signal(number, SIG_DFL);
    (void)raise(number);
}

/* A signal that the program was told to ignore stays ignored. */
static void watch_signals(void) {
    struct sigaction before;
    struct sigaction remove = {.sa_handler = remove_scratch};
    (void)sigemptyset(&remove.sa_mask);
    for (size_t i = 0; i < sizeof ending_signals / sizeof ending_signals[0]; i++) {
        if (sigaction(ending_signals[i], NULL, &before) == 0 && before.sa_handler != SIG_IGN) {
            (void)sigaction(ending_signals[i], &remove, NULL);
        }
    }
}

/* The first place among the scratch files that holds `scratch` (NULL: that is free). */
static size_t find_slot(const char *scratch) {
    size_t slot = 0;
    while (slot < OUTPUTS_MOST && atomic_load(&scratch_to_remove[slot]) != scratch) {
        slot++;
    }
    return slot;
}

/* No ending signal may come between the file and the note of it. */
static int make_scratch(char *scratch) {
    sigset_t ending;
    sigset_t before;
    size_t slot = find_slot(NULL);
    if (slot == OUTPUTS_MOST) {
        errno = EMFILE;
        return -1;
    }
    (void)sigemptyset(&ending);
    for (size_t i = 0; i < sizeof ending_signals / sizeof ending_signals[0]; i++) {
        (void)sigaddset(&ending, ending_signals[i]);
    }
    watch_signals();
    (void)sigprocmask(SIG_BLOCK, &ending, &before);
    int descriptor = mkstemp(scratch);
    int error = errno;
    if (descriptor >= 0) {
        atomic_store(&scratch_to_remove[slot], scratch);
    }
    (void)sigprocmask(SIG_SETMASK, &before, NULL);
    errno = error;
    return descriptor;
}

/* After a rename there is nothing to take away, and that is well. */
static void forget_scratch(struct output *output) {
    size_t slot = find_slot(output->scratch);
    (void)unlink(output->scratch);
    if (slot < OUTPUTS_MOST) {
        atomic_store(&scratch_to_remove[slot], NULL);
    }
    free(output->scratch);
    output->scratch = NULL;
}

static enum mensur_status say_failed(const char *path, int error) {
    say_line("mensur: %s cannot be written: %s; nothing was changed",
             path == NULL ? "standard output" : path, strerror(error));
    return MENSUR_WRITE;
}

/* NULL for a regular file. */
static const char *odd_kind(mode_t mode) {
    return S_ISREG(mode)    ? NULL
           : S_ISDIR(mode)  ? "a folder"
           : S_ISFIFO(mode) ? "a pipe"
           : S_ISSOCK(mode) ? "a socket"
                            : "a device";
}

/* A rename would put a file in the place of a device or a pipe, and a link that leads nowhere
 * does not tell what it stood for. */
static enum mensur_status check_kind(const char *path) {
    struct stat there;
    if (lstat(path, &there) != 0) {
        return MENSUR_OK;
    }
    bool leads_nowhere = stat(path, &there) != 0;
    const char *kind = leads_nowhere ? "a link that leads nowhere" : odd_kind(there.st_mode);
    if (kind == NULL) {
        return MENSUR_OK;
    }
    say_line("mensur: %s is %s; --overwrite replaces files and links to files alone", path, kind);
    return MENSUR_USE;
}

enum mensur_status output_check(const char *path, bool overwrite) {
    struct stat there;
    if (path == NULL) {
        return MENSUR_OK;
    }
    if (overwrite) {
        return check_kind(path);
    }
    if (lstat(path, &there) == 0) {
        say_line("mensur: %s is already there; --overwrite replaces it", path);
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

/* A new file beside the wanted one, so that putting it in place is one step. */
static enum mensur_status open_scratch(struct output *output) {
    size_t room = strlen(output->path) + sizeof(SCRATCH_END);
    output->scratch = malloc(room);
    if (output->scratch == NULL) {
        return say_status(MENSUR_MEMORY);
    }
    (void)snprintf(output->scratch, room, "%s" SCRATCH_END, output->path);
    int descriptor = make_scratch(output->scratch);
    if (descriptor < 0) {
        int error = errno;
        free(output->scratch);
        output->scratch = NULL;
        return say_failed(output->path, error);
    }
    mode_t mask = umask(0);
    umask(mask);
    (void)fchmod(descriptor, 0666 & ~mask);
    output->file = fdopen(descriptor, "wb");
    if (output->file == NULL) {
        int error = errno;
        close(descriptor);
        forget_scratch(output);
        return say_failed(output->path, error);
    }
    return MENSUR_OK;
}

enum mensur_status output_open(const char *path, bool overwrite, struct output *output) {
    *output = (struct output){.file = stdout, .path = path, .overwrite = overwrite};
    if (path == NULL) {
        return MENSUR_OK;
    }
    output->file = NULL;
    enum mensur_status status = output_check(path, overwrite);
    return status == MENSUR_OK ? open_scratch(output) : status;
}

static enum mensur_status write_bytes(void *context, const char *bytes, size_t length) {
    struct output *output = context;
    if (length > 0 && fwrite(bytes, 1, length, output->file) != length) {
        output->system_error = errno;
        return MENSUR_WRITE;
    }
    return MENSUR_OK;
}

struct mensur_sink output_sink(struct output *output) {
    return (struct mensur_sink){.write = write_bytes, .context = output};
}

/* Makes sure that the bytes have left: a full disk shows here at the latest. */
static bool flush(struct output *output) {
    bool good = output->system_error == 0 && fflush(output->file) == 0 && ferror(output->file) == 0;
    if (!good && output->system_error == 0) {
        output->system_error = errno;
    }
    if (output->scratch != NULL) {
        if (good && fsync(fileno(output->file)) != 0 && errno != EINVAL) {
            output->system_error = errno;
            good = false;
        }
        good = fclose(output->file) == 0 && good;
    }
    return good;
}

enum mensur_status output_finish(struct output *output) {
    enum mensur_status status = MENSUR_OK;
    if (output->file != NULL && !flush(output)) {
        status = say_failed(output->path, output->system_error == 0 ? EIO : output->system_error);
    }
    output->file = NULL;
    return status;
}

/* Without leave to overwrite, a file that came in the meantime stays. */
enum mensur_status output_place(struct output *output) {
    int code = output->overwrite ? rename(output->scratch, output->path)
                                 : link(output->scratch, output->path);
    output->system_error = code == 0 ? 0 : errno;
    forget_scratch(output);
    return code == 0 ? MENSUR_OK : MENSUR_WRITE;
}

void output_discard(struct output *output) {
    if (output->file != NULL && output->scratch != NULL) {
        (void)fclose(output->file);
    }
    output->file = NULL;
    if (output->scratch != NULL) {
        forget_scratch(output);
    }
}

enum mensur_status output_close(struct output *output, bool keep) {
    enum mensur_status status = output_finish(output);
    if (output->scratch == NULL || status != MENSUR_OK || !keep) {
        output_discard(output);
        return status;
    }
    if (output_place(output) != MENSUR_OK) {
        return output->system_error == EEXIST ? output_check(output->path, false)
                                              : say_failed(output->path, output->system_error);
    }
    return MENSUR_OK;
}
