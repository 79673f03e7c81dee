/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs a harness on every file of a folder, whole and cut off after every byte. */
#include <dirent.h>
#include <stdio.h>
#include <string.h>

#include "fuzz.h"

enum { LONGEST = 65536 };

/* In a block of exactly that size, so that a sanitizer detects a read behind the end. */
static void try_cut(const uint8_t *bytes, size_t size) {
    uint8_t *copy = malloc(size + (size == 0));
    MUST(copy != NULL);
    memcpy(copy, bytes, size);
    LLVMFuzzerTestOneInput(copy, size);
    free(copy);
}

static int try_file(const char *path) {
    static uint8_t bytes[LONGEST];
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return 0;
    }
    size_t size = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    for (size_t cut = 0; cut <= size; cut++) {
        try_cut(bytes, cut);
    }
    return 1;
}

int main(int argc, char **argv) {
    DIR *folder = argc == 2 ? opendir(argv[1]) : NULL;
    int count = 0;
    if (folder == NULL) {
        fprintf(stderr, "usage: replay FOLDER\n");
        return 2;
    }
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        char path[4096];
        snprintf(path, sizeof path, "%s/%s", argv[1], entry->d_name);
        count += entry->d_name[0] != '.' && try_file(path);
    }
    closedir(folder);
    fprintf(stderr, "%d inputs, each cut at every byte\n", count);
    return count > 0 ? 0 : 1;
}
