/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output.h"

#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <signal.h>
#include <stdatomic.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The scratch file that is open, for a signal that ends the program to take away; the one thing
 * here that outlives its function, because a signal comes with nothing else. */
static _Atomic(const char *) scratch_to_remove;

static const int ending_signals[] = {SIGHUP, SIGINT, SIGPIPE, SIGTERM};

/* Calls only what may be called in a signal, then lets the signal do what it does. */
static void remove_scratch(int number) {
    const char *scratch = atomic_load(&scratch_to_remove);
    if (scratch != NULL) {
        (void)unlink(scratch);
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

/* No ending signal may come between the file and the note of it. */
static int make_scratch(char *scratch) {
    sigset_t ending;
    sigset_t before;
    (void)sigemptyset(&ending);
    for (size_t i = 0; i < sizeof ending_signals / sizeof ending_signals[0]; i++) {
        (void)sigaddset(&ending, ending_signals[i]);
    }
    watch_signals();
    (void)sigprocmask(SIG_BLOCK, &ending, &before);
    int descriptor = mkstemp(scratch);
    int error = errno;
    if (descriptor >= 0) {
        atomic_store(&scratch_to_remove, scratch);
    }
    (void)sigprocmask(SIG_SETMASK, &before, NULL);
    errno = error;
    return descriptor;
}

static void forget_scratch(struct output *output) {
    (void)unlink(output->scratch);
    atomic_store(&scratch_to_remove, NULL);
    g_free(output->scratch);
    output->scratch = NULL;
}

static enum mensur_status say_failed(const char *path, int error) {
    fprintf(stderr, "mensur: %s cannot be written: %s; nothing was changed\n",
            path == NULL ? "standard output" : path, g_strerror(error));
    return MENSUR_WRITE;
}

static enum mensur_status say_taken(const char *path) {
    fprintf(stderr, "mensur: %s is already there; --overwrite replaces it\n", path);
    return MENSUR_USE;
}

/* A new file beside the wanted one, so that putting it in place is one step. */
static enum mensur_status open_scratch(struct output *output) {
    output->scratch = g_strdup_printf("%s.XXXXXX", output->path);
    int descriptor = make_scratch(output->scratch);
    if (descriptor < 0) {
        int error = errno;
        g_free(output->scratch);
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
    struct stat there;
    *output = (struct output){.file = stdout, .path = path, .overwrite = overwrite};
    if (path == NULL) {
        return MENSUR_OK;
    }
    output->file = NULL;
    if (!overwrite && lstat(path, &there) == 0) {
        return say_taken(path);
    }
    return open_scratch(output);
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

/* Without leave to overwrite, a file that came in the meantime stays. */
static enum mensur_status put_in_place(struct output *output) {
    if (output->overwrite) {
        return rename(output->scratch, output->path) == 0 ? MENSUR_OK
                                                          : say_failed(output->path, errno);
    }
    if (link(output->scratch, output->path) != 0) {
        return errno == EEXIST ? say_taken(output->path) : say_failed(output->path, errno);
    }
    return MENSUR_OK;
}

enum mensur_status output_close(struct output *output, bool keep) {
    enum mensur_status status = MENSUR_OK;
    if (output->file == NULL) {
        return MENSUR_OK;
    }
    if (!flush(output)) {
        status = say_failed(output->path, output->system_error == 0 ? EIO : output->system_error);
    }
    if (output->scratch != NULL) {
        if (status == MENSUR_OK && keep) {
            status = put_in_place(output);
        }
        /* After a rename there is nothing to take away, and that is well. */
        forget_scratch(output);
    }
    output->file = NULL;
    return status;
}

enum mensur_status output_bytes(const char *path, bool overwrite, const void *bytes, size_t size) {
    struct output output;
    enum mensur_status status = output_open(path, overwrite, &output);
    if (status != MENSUR_OK) {
        return status;
    }
    (void)write_bytes(&output, bytes, size);
    return output_close(&output, true);
}
