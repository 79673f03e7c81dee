/* SPDX-License-Identifier: GPL-3.0-or-later */
/* instruments.csv written anew: all of it with the changes of the question made, or some of its
 * rows. */
#include <math.h>
#include <string.h>

#include "engine.h"
#include "number.h"
#include "view.h"

static const struct mensur_instrument *with_changes(const struct mensur_answer *answer,
                                                    const struct mensur_instrument *instrument) {
    for (size_t i = 0; i < answer->found_count; i++) {
        if (strcmp(answer->found[i].as_it_is.name, instrument->name) == 0) {
            return answer->found[i].asked;
        }
    }
    return instrument;
}

/* A cell as a spreadsheet reads it back: in quotes wherever it might not be plain. */
static void put_text(struct mensur_out *out, const char *text) {
    if (text == NULL) {
        return;
    }
    if (strpbrk(text, ",;\t\"\r\n") == NULL && *text != ' ') {
        mensur_out_text(out, text);
        return;
    }
    mensur_out_text(out, "\"");
    for (; *text != '\0'; text++) {
        mensur_out_bytes(out, text, 1);
        if (*text == '"') {
            mensur_out_text(out, "\"");
        }
    }
    mensur_out_text(out, "\"");
}

/* Fifteen digits: more would show the rounding of the way to mm and back. */
static void put_value(struct mensur_out *out, enum mensur_kind kind, double value) {
    char room[MENSUR_NUMBER_ROOM];
    (void)mensur_number_print_significant(mensur_from_si(kind, value), 15, room);
    mensur_out_text(out, room);
}

static void put_measure(struct mensur_out *out, enum mensur_kind kind,
                        struct mensur_quantity measure) {
    if (isnan(measure.value)) {
        return;
    }
    put_value(out, kind, measure.value);
    if (measure.plus_minus > 0.0) {
        mensur_out_text(out, " \xC2\xB1");
        put_value(out, kind, measure.plus_minus);
    }
}

static void put_head(struct mensur_out *out, const struct mensur_texts *owners) {
    mensur_out_text(out, "name,family,tuning,strings,model_size,built");
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        mensur_out_text(out, ",");
        mensur_out_text(out, mensur_field_info((enum mensur_field)f)->name);
    }
    mensur_out_text(out, ",note");
    for (size_t i = 0; i < owners->count; i++) {
        mensur_out_text(out, ",");
        put_text(out, owners->items[i]);
    }
    mensur_out_text(out, "\r\n");
}

static void put_row(struct mensur_out *out, const struct mensur_instrument *instrument) {
    const struct mensur_owners *owners = &instrument->owners;
    const char *const texts[] = {instrument->name, instrument->family, instrument->tuning,
                                 instrument->set,
                                 instrument->size != NULL ? instrument->size->name : NULL};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        mensur_out_text(out, i == 0 ? "" : ",");
        put_text(out, texts[i]);
    }
    mensur_out_text(out, instrument->built ? ",yes" : ",no");
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        mensur_out_text(out, ",");
        put_measure(out, mensur_field_info((enum mensur_field)f)->kind, instrument->measure[f]);
    }
    mensur_out_text(out, ",");
    put_text(out, instrument->note);
    for (const char *cell = owners->cells; cell != NULL && cell < owners->cells + owners->size;
         cell += strlen(cell) + 1) {
        mensur_out_text(out, ",");
        put_text(out, cell);
    }
    mensur_out_text(out, "\r\n");
}

enum mensur_status page_write_instruments(const struct page *page, const struct mensur_sink *sink) {
    struct mensur_out out;
    mensur_out_open(&out, sink, false);
    put_head(&out, &page->shop.sources[MENSUR_TABLE_INSTRUMENTS].owners);
    for (size_t i = 0; i < page->count; i++) {
        put_row(&out, with_changes(&page->answer, &page->instruments[i]));
    }
    mensur_out_flush(&out);
    return out.status;
}

enum mensur_status page_write_named(const struct page *page, const struct mensur_sink *sink) {
    struct mensur_out out;
    mensur_out_open(&out, sink, false);
    put_head(&out, &page->shop.sources[MENSUR_TABLE_INSTRUMENTS].owners);
    for (size_t i = 0; i < page->answer.found_count; i++) {
        put_row(&out, &page->answer.found[i].as_it_is);
    }
    mensur_out_flush(&out);
    return out.status;
}
