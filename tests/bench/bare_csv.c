/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cost of splitting a file into cells alone: libcsv with callbacks that only count. */
#include <csv.h>
#include <stdio.h>

struct counts {
    long cells, rows;
};

static void count_cell(void *data, size_t length, void *context) {
    struct counts *counts = context;
    (void)data;
    (void)length;
    counts->cells++;
}

static void count_row(int end, void *context) {
    struct counts *counts = context;
    (void)end;
    counts->rows++;
}

int main(int argc, char **argv) {
    static char chunk[65536];
    struct counts counts = {0, 0};
    struct csv_parser parser;
    FILE *file = argc == 2 ? fopen(argv[1], "rb") : NULL;
    if (file == NULL || csv_init(&parser, 0) != 0) {
        return 2;
    }
    for (size_t length; (length = fread(chunk, 1, sizeof chunk, file)) > 0;) {
        if (csv_parse(&parser, chunk, length, count_cell, count_row, &counts) != length) {
            return 3;
        }
    }
    csv_fini(&parser, count_cell, count_row, &counts);
    csv_free(&parser);
    fclose(file);
    printf("%ld rows, %ld cells\n", counts.rows, counts.cells);
    return 0;
}
