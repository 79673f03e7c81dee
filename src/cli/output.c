/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output.h"

#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

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
    int descriptor = mkstemp(output->scratch);
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
        unlink(output->scratch);
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
        (void)unlink(output->scratch);
        g_free(output->scratch);
        output->scratch = NULL;
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
