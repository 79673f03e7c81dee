/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "folder.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "nearest.h"
#include "say.h"
#include "texts.h"
#include "utf8.h"

/* Letters that a folder's name may be apart from the one that was meant. */
enum { FARTHEST = 2 };

static bool is_shown(const char *name) {
    uint32_t code = 0;
    size_t length = 0;
    while ((length = mensur_utf8_letter(name, MENSUR_UTF8_MOST, &code)) > 0 &&
           !mensur_utf8_steers(code)) {
        name += length;
    }
    return *name == '\0';
}

static bool is_folder(int above, const char *name) {
    struct stat there;
    return fstatat(above, name, &there, 0) == 0 && S_ISDIR(there.st_mode);
}

static int by_name(const struct dirent **a, const struct dirent **b) {
    return strcmp((*a)->d_name, (*b)->d_name);
}

/* The folder in `above` whose name is nearest, of several the first by name; "" where none is. */
static void find_nearest(const char *above, const char *name, char nearest[NAME_MAX + 1]) {
    struct mensur_nearest found = mensur_nearest_start(name, FARTHEST);
    struct dirent **entries = NULL;
    int folder = open(above, O_RDONLY | O_DIRECTORY);
    int count = scandir(above, &entries, NULL, by_name);
    for (int i = 0; i < count; i++) {
        if (is_shown(entries[i]->d_name) && is_folder(folder, entries[i]->d_name)) {
            (void)mensur_nearest_take(&found, entries[i]->d_name);
        }
    }
    if (found.name != NULL) {
        memcpy(nearest, found.name, strlen(found.name) + 1);
    }
    for (int i = 0; i < count; i++) {
        free(entries[i]);
    }
    free(entries);
    if (folder >= 0) {
        (void)close(folder);
    }
}

static enum mensur_status refuse(const char *folder) {
    char nearest[NAME_MAX + 1] = "";
    size_t end = strlen(folder);
    while (end > 1 && folder[end - 1] == '/') {
        end--;
    }
    size_t base = end;
    while (base > 0 && folder[base - 1] != '/') {
        base--;
    }
    if (end > base && end - base <= NAME_MAX) {
        char name[NAME_MAX + 1] = "";
        char *above = NULL;
        if (mensur_text_copy(base > 0 ? folder : ".", base > 0 ? base : 1, &above) != MENSUR_OK) {
            return say_status(MENSUR_MEMORY);
        }
        memcpy(name, folder + base, end - base);
        find_nearest(above, name, nearest);
        free(above);
    }
    if (nearest[0] != '\0') {
        say_line("mensur: there is no folder \"%s\"; did you mean \"%.*s%s\"?", folder, (int)base,
                 folder, nearest);
    } else {
        say_line("mensur: there is no folder \"%s\"; mensur start %s writes a shop to begin with",
                 folder, folder);
    }
    return MENSUR_USE;
}

enum mensur_status folder_check(const char *folder) {
    struct stat there;
    if (folder == NULL) {
        return MENSUR_OK;
    }
    if (stat(folder, &there) == 0) {
        if (S_ISDIR(there.st_mode)) {
            return MENSUR_OK;
        }
        say_line("mensur: %s is not a folder; the shop's tables lie in one", folder);
        return MENSUR_USE;
    }
    return errno == ENOENT || errno == ENOTDIR ? refuse(folder) : MENSUR_OK;
}

/* 0, or errno. */
static int make_one(const char *folder) {
    int error = mkdir(folder, 0777) == 0 ? 0 : errno;
    return error != 0 && is_folder(AT_FDCWD, folder) ? 0 : error;
}

enum mensur_status folder_make(const char *folder) {
    char *path = NULL;
    if (mensur_text_copy(folder, strlen(folder), &path) != MENSUR_OK) {
        return say_status(MENSUR_MEMORY);
    }
    int error = 0;
    for (char *at = path; error == 0 && *at != '\0'; at++) {
        if (*at == '/' && at > path) {
            *at = '\0';
            error = make_one(path);
            *at = '/';
        }
    }
    error = error == 0 ? make_one(path) : error;
    free(path);
    if (error != 0) {
        say_line("mensur: the folder %s cannot be made: %s", folder, strerror(error));
    }
    return error == 0 ? MENSUR_OK : MENSUR_WRITE;
}
