/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Runs during the build: writes CSV files as C arrays.
 *
 * embed OUTPUT [=NAME FILE...]...   the files of one name are joined; they must have the same first
 * row, which is written once.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define NAMES_MOST 16
#define LINE_BYTES 20

static void give_up(const char *what, const char *file) {
    fprintf(stderr, "embed: %s: %s\n", file, what);
    exit(1);
}

static char *read_file(const char *path, size_t *size) {
    FILE *file = fopen(path, "rb");
    size_t room = 65536, used = 0, got;
    char *bytes = malloc(room);
    if (file == NULL || bytes == NULL) {
        give_up("cannot be read", path);
    }
    while ((got = fread(bytes + used, 1, room - used, file)) > 0) {
        used += got;
        if (used == room) {
            room *= 2;
            bytes = realloc(bytes, room);
            if (bytes == NULL) {
                give_up("out of memory", path);
            }
        }
    }
    fclose(file);
    bytes[used] = '\0'; /* the loop leaves room for one more byte */
    *size = used;
    return bytes;
}

static void write_bytes(FILE *out, const char *bytes, size_t size, size_t *column) {
    for (size_t i = 0; i < size; i++) {
        fprintf(out, "%u,%s", (unsigned)(unsigned char)bytes[i],
                ++*column % LINE_BYTES == 0 ? "\n" : "");
    }
}

/* Writes one file of a name: the first with its first row, the others without. */
static size_t write_file(FILE *out, const char *path, char **head, size_t *column) {
    size_t size;
    char *bytes = read_file(path, &size);
    size_t head_size = strcspn(bytes, "\n") + 1;
    size_t from = 0;
    if (size < head_size || bytes[size - 1] != '\n') {
        give_up("does not end with a line end", path);
    }
    if (*head != NULL) {
        if (strlen(*head) != head_size || memcmp(*head, bytes, head_size) != 0) {
            give_up("has another head than the file before", path);
        }
        from = head_size;
    }
    write_bytes(out, bytes + from, size - from, column);
    if (*head == NULL) {
        bytes[head_size] = '\0';
        *head = bytes;
    } else {
        free(bytes);
    }
    return size - from;
}

int main(int count, char **words) {
    const char *names[NAMES_MOST];
    size_t sizes[NAMES_MOST];
    int tables = 0;
    FILE *out = count > 2 ? fopen(words[1], "wb") : NULL;
    if (out == NULL) {
        give_up("cannot be written", count > 1 ? words[1] : "(no file)");
    }
    fprintf(out, "/* SPDX-License-Identifier: GPL-3.0-or-later */\n"
                 "/* Written by embed.c from the files of shared/ and strings/. */\n"
                 "#include \"built_in.h\"\n\n");
    for (int i = 2; i < count && tables < NAMES_MOST; tables++) {
        char *head = NULL;
        size_t column = 0;
        names[tables] = words[i] + 1;
        sizes[tables] = 0;
        fprintf(out, "static const unsigned char bytes_%d[] = {\n", tables);
        for (i++; i < count && words[i][0] != '='; i++) {
            sizes[tables] += write_file(out, words[i], &head, &column);
        }
        fprintf(out, "0};\n\n");
        free(head);
    }
    fprintf(out, "const struct built_in mensur_built_in_files[] = {\n");
    for (int i = 0; i < tables; i++) {
        fprintf(out, "    {\"%s\", bytes_%d, %lu},\n", names[i], i, (unsigned long)sizes[i]);
    }
    fprintf(out, "    {NULL, NULL, 0}};\n");
    return fclose(out) == 0 ? 0 : 1;
}
