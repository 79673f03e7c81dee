/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands around the answers, and the small change of all of them. */
#include "text.h"

#include "sentences.h"

#include <stdio.h>
#include <string.h>

void mensur_text_part(struct mensur_presenter *presenter) {
    if (presenter->answers > 0) {
        mensur_out_line(&presenter->out);
    }
}

void mensur_text_title(struct mensur_presenter *presenter, const char *title) {
    struct mensur_out *out = &presenter->out;
    mensur_out_line(out);
    mensur_out_strong(out, true);
    mensur_out_text(out, title);
    mensur_out_strong(out, false);
    mensur_out_line(out);
}

void mensur_text_gather(struct mensur_presenter *presenter, const char *name,
                        const struct mensur_profile *profile) {
    enum mensur_status status =
        mensur_gather_assumed(&presenter->gathered, &presenter->style, name, &profile->assumed);
    if (status == MENSUR_OK) {
        status = mensur_gather_facts(&presenter->gathered, &presenter->style, &profile->warnings);
    }
    mensur_out_fail(&presenter->out, status);
}

void mensur_text_begin(struct mensur_presenter *presenter, struct mensur_wrap *wrap) {
    mensur_wrap_open(wrap, &presenter->out, 0, 0);
}

/* Whether a sentence has its full stop. */
static bool is_ended(const char *sentence) {
    size_t length = strlen(sentence);
    return length > 0 && strchr(".!?", sentence[length - 1]) != NULL;
}

/* The sentence from where the line ends so far. */
static void say_sentence(struct mensur_presenter *presenter, const char *sentence, size_t indent) {
    struct mensur_wrap wrap;
    mensur_wrap_open(&wrap, &presenter->out, indent, indent);
    mensur_wrap_say(&wrap, sentence, is_ended(sentence) ? "" : ".", NULL);
    mensur_wrap_close(&wrap);
}

void mensur_text_sentence(struct mensur_presenter *presenter, const char *sentence) {
    say_sentence(presenter, sentence, 0);
}

void mensur_text_points(struct mensur_presenter *presenter, const struct mensur_facts *facts) {
    struct mensur_texts texts = {0};
    mensur_out_fail(&presenter->out, mensur_sentences(facts, &presenter->style, &texts));
    for (size_t i = 0; i < texts.count; i++) {
        mensur_text_point(presenter, texts.items[i]);
    }
    mensur_texts_clear(&texts);
}

void mensur_text_say(struct mensur_presenter *presenter, size_t indent, const char *lead,
                     const struct mensur_facts *facts) {
    struct mensur_texts texts = {0};
    struct mensur_wrap wrap;
    mensur_out_fail(&presenter->out, mensur_sentences(facts, &presenter->style, &texts));
    if (texts.count > 0) {
        mensur_wrap_open(&wrap, &presenter->out, 0, indent);
        mensur_wrap_say(&wrap, lead, texts.items[0],
                        indent > 0 || is_ended(texts.items[0]) ? "" : ".", NULL);
        mensur_wrap_close(&wrap);
    }
    mensur_texts_clear(&texts);
}

void mensur_text_point(struct mensur_presenter *presenter, const char *sentence) {
    mensur_out_text(&presenter->out, "- ");
    say_sentence(presenter, sentence, 2);
}

const struct mensur_string_figures *mensur_text_string(const struct mensur_profile *profile,
                                                       const char *note) {
    for (size_t i = 0; i < profile->string_count; i++) {
        if (strcmp(profile->strings[i].note, note) == 0) {
            return &profile->strings[i];
        }
    }
    return NULL;
}

const char *mensur_text_name(const char *string) {
    return string != NULL ? string : "(no string)";
}

struct mensur_shown mensur_text_count(size_t count, const char *one, const char *several) {
    struct mensur_shown shown;
    snprintf(shown.text, sizeof(shown.text), "%zu" MENSUR_NO_BREAK "%.40s", count,
             count == 1 ? one : several);
    return shown;
}

static void text_open(struct mensur_presenter *presenter) {
    (void)presenter; /* the answer comes first */
}

static void text_check(struct mensur_presenter *presenter, const char *file, long rows,
                       const struct mensur_texts *warnings) {
    struct mensur_wrap wrap;
    mensur_text_begin(presenter, &wrap);
    mensur_wrap_say(&wrap, file, ": ",
                    mensur_text_count((size_t)(rows > 0 ? rows : 0), "row", "rows").text, ", ",
                    NULL);
    if (warnings->count == 0) {
        mensur_wrap_say(&wrap, "nothing wrong.", NULL);
    } else {
        mensur_wrap_say(&wrap, "no error, ",
                        mensur_text_count(warnings->count, "warning", "warnings").text, ".", NULL);
    }
    mensur_wrap_close(&wrap);
    mensur_out_fail(&presenter->out, mensur_gather_warnings(&presenter->gathered, warnings));
}

static void write_sources(struct mensur_presenter *presenter) {
    const char *const *sources = presenter->heading->sources;
    if (presenter->style.no_sources || sources == NULL || *sources == NULL) {
        return;
    }
    struct mensur_wrap wrap;
    mensur_out_line(&presenter->out);
    mensur_wrap_open(&wrap, &presenter->out, 0, 2);
    mensur_wrap_say(&wrap, "Sources: ", NULL);
    for (; *sources != NULL; sources++) {
        mensur_wrap_say(&wrap, *sources,
                        is_ended(*sources)   ? " "
                        : sources[1] != NULL ? "; "
                                             : ".",
                        NULL);
    }
    mensur_wrap_close(&wrap);
}

static void write_cautions(struct mensur_presenter *presenter) {
    const char *const *cautions = presenter->heading->cautions;
    if (cautions == NULL || *cautions == NULL) {
        return;
    }
    mensur_out_line(&presenter->out);
    for (; *cautions != NULL; cautions++) {
        struct mensur_wrap wrap;
        mensur_wrap_open(&wrap, &presenter->out, 0, 2);
        mensur_wrap_say(&wrap, "Caution: ", *cautions, NULL);
        mensur_wrap_close(&wrap);
    }
}

static bool is_command(const struct mensur_presenter *presenter, const char *command) {
    return strcmp(presenter->heading->command, command) == 0;
}

/* Which shop, and on what terms the pitches are taken where there are any. */
static void write_origin(struct mensur_presenter *presenter) {
    const struct mensur_heading *heading = presenter->heading;
    struct mensur_wrap wrap;
    mensur_out_line(&presenter->out);
    mensur_text_begin(presenter, &wrap);
    if (!is_command(presenter, "lengths") && !is_command(presenter, "check")) {
        mensur_wrap_say(&wrap, "A4 is ",
                        mensur_show(&presenter->style, MENSUR_NUMBER, heading->a4).text,
                        MENSUR_NO_BREAK "Hz, open strings in ", heading->fifths,
                        " fifths, stopped notes in ", heading->steps, " steps. ", NULL);
    }
    if (strcmp(heading->shop, "demonstration") == 0) {
        mensur_wrap_say(&wrap,
                        "From the demonstration shop, invented (mensur start FOLDER writes your "
                        "own to edit).",
                        NULL);
    } else {
        mensur_wrap_say(&wrap, "From the shop ", heading->shop, ".", NULL);
    }
    if (presenter->style.no_sources && heading->sources != NULL && *heading->sources != NULL) {
        mensur_wrap_say(&wrap, " Formulas, numbers and sources: add --working.", NULL);
    }
    mensur_wrap_close(&wrap);
}

static void text_close(struct mensur_presenter *presenter) {
    if (presenter->answers == 0) {
        mensur_paragraph(&presenter->out, 0, 0, "There is nothing to answer about.");
    }
    mensur_text_lengths_rest(presenter);
    mensur_gathered_write(&presenter->gathered, &presenter->style, &presenter->out);
    write_sources(presenter);
    write_cautions(presenter);
    write_origin(presenter);
}

const struct mensur_writer mensur_text_writer = {
    text_open,
    mensur_text_lengths,
    mensur_text_tension,
    mensur_text_fingers,
    mensur_text_comparison,
    mensur_text_decision,
    mensur_text_restringing,
    mensur_text_reaching,
    text_check,
    text_close,
    mensur_text_working,
};
