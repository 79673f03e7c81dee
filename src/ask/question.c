/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A question, read whole. */
#include <stdlib.h>
#include <string.h>

#include "asked.h"
#include "sheet.h"
#include "ways.h"

/* What has no drawing refuses one. */
static enum mensur_status refuse_drawing(const char *what, const struct mensur_question *question,
                                         struct mensur_texts *messages) {
    return question->medium == MENSUR_MEDIUM_WORDS
               ? MENSUR_OK
               : SAY(messages, "there is no drawing of %s; write .csv, .json or text", what);
}

enum mensur_status ask_read_start(const struct words *words, struct mensur_texts *messages,
                                  struct mensur_question *question) {
    question->start = words->name_count == 1 ? words->names[0] : NULL;
    return words->name_count == 1
               ? MENSUR_OK
               : SAY(messages, "start wants one folder, for example: mensur start my-shop");
}

enum mensur_status ask_read_check(const struct words *words, struct mensur_texts *messages,
                                  struct mensur_question *question) {
    if (words->name_count > 0) {
        return SAY(messages, "check takes no name; --shop FOLDER says which shop");
    }
    enum mensur_status status = refuse_drawing("a check", question, messages);
    return status == MENSUR_OK ? asked_terms(words, messages, question) : status;
}

enum mensur_status ask_read_compare(const struct words *words, struct mensur_texts *messages,
                                    struct mensur_question *question) {
    enum mensur_status status = asked_terms(words, messages, question);
    return status == MENSUR_OK ? asked_names(words, messages, question) : status;
}

enum mensur_status ask_read_rows(const struct words *words, struct mensur_texts *messages,
                                 struct mensur_question *question) {
    bool all = words->command == COMMAND_LENGTHS && words->name_count == 0;
    question->every = words->flag[OPTION_ID_every] || all;
    enum mensur_status status = ask_read_compare(words, messages, question);
    if (status == MENSUR_OK && question->every && words->name_count > 0 &&
        question->medium == MENSUR_MEDIUM_WORDS) {
        status = SAY(messages, "--every takes every instrument; name none beside it");
    }
    return status;
}

enum mensur_status ask_read_change(const struct words *words, struct mensur_texts *messages,
                                   struct mensur_question *question) {
    enum mensur_status status = asked_terms(words, messages, question);
    if (status == MENSUR_OK && words->name_count == 1) {
        return SAY(messages, "say what changes, for example: mensur change %s neck=+4 stop=-3",
                   words->names[0]);
    }
    return status == MENSUR_OK ? asked_names(words, messages, question) : status;
}

enum mensur_status ask_read_decide(const struct words *words, struct mensur_texts *messages,
                                   struct mensur_question *question) {
    enum mensur_status status = asked_terms(words, messages, question);
    if (status == MENSUR_OK) {
        status = asked_wishes(words, messages, question);
    }
    if (status == MENSUR_OK) {
        status = asked_names(words, messages, question);
    }
    if (status == MENSUR_OK && question->named_count > 1) {
        status = SAY(messages, "one instrument at a time; \"%s\" is one too many",
                     question->named[1].name);
    }
    return status;
}

enum mensur_status ask_read_restring(const struct words *words, struct mensur_texts *messages,
                                     struct mensur_question *question) {
    enum mensur_status status = refuse_drawing("new strings", question, messages);
    if (status == MENSUR_OK) {
        status = asked_terms(words, messages, question);
    }
    if (status == MENSUR_OK) {
        status = asked_strings(words, messages, question);
    }
    return status == MENSUR_OK ? asked_names(words, messages, question) : status;
}

enum mensur_status ask_read_reach(const struct words *words, struct mensur_texts *messages,
                                  struct mensur_question *question) {
    enum mensur_status status = refuse_drawing("a reach", question, messages);
    question->player = words->text[OPTION_ID_player];
    return status == MENSUR_OK ? ask_read_compare(words, messages, question) : status;
}

enum mensur_status ask_read_sheet(const struct words *words, struct mensur_texts *messages,
                                  struct mensur_question *question) {
    if (question->medium != MENSUR_MEDIUM_PDF && question->medium != MENSUR_MEDIUM_SVG) {
        return SAY(messages, "a sheet wants --output FILE.pdf (pages to print) or FILE.svg (one "
                             "long strip)");
    }
    enum mensur_status status = asked_names(words, messages, question);
    if (status == MENSUR_OK && question->named_count > MENSUR_SHEET_INSTRUMENTS) {
        return SAY(messages, "a sheet holds two instruments; \"%s\" is one too many",
                   question->named[MENSUR_SHEET_INSTRUMENTS].name);
    }
    if (status == MENSUR_OK) {
        status = asked_terms(words, messages, question);
    }
    return status == MENSUR_OK ? asked_paper(words, messages, question) : status;
}

static bool is_html(const char *path) {
    size_t length = path == NULL ? 0 : strlen(path);
    return length >= 5 && strcmp(path + length - 5, ".html") == 0;
}

enum mensur_status ask_read_dossier(const struct words *words, struct mensur_texts *messages,
                                    struct mensur_question *question) {
    enum mensur_status status = asked_wishes(words, messages, question);
    if (status == MENSUR_OK && !is_html(question->output)) {
        return SAY(messages, "a dossier wants --output FILE.html");
    }
    question->medium = MENSUR_MEDIUM_HTML;
    if (status == MENSUR_OK) {
        status = asked_names(words, messages, question);
    }
    if (status == MENSUR_OK && question->named_count > 1 &&
        (question->wish_count > 0 || question->like.name != NULL)) {
        return SAY(messages, "wishes go with a dossier of one instrument");
    }
    return status == MENSUR_OK ? asked_terms(words, messages, question) : status;
}

void mensur_question_clear(struct mensur_question *question) {
    free(question->named);
    free(question->changes);
    free(question->packets);
    *question = (struct mensur_question){.named = NULL};
}
