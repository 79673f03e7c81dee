/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers built by hand for the tests of present, and sinks that keep or refuse what they get. */
#ifndef MENSUR_TEST_PRESENT_FIXTURES_H
#define MENSUR_TEST_PRESENT_FIXTURES_H

#include "answer_kind.h"
#include "check.h"
#include "figures.h"
#include "present.h"
#include "result_use.h"
#include "tell.h"
#include "texts.h"
#include "view.h"

/* A sink into memory; refuses everything once refuse_after bytes have been taken. */
struct memory_sink {
    char *bytes; /* ends with 0 */
    size_t length;
    size_t refuse_after; /* 0: never */
};

struct mensur_sink memory_sink(struct memory_sink *memory);
void memory_sink_clear(struct memory_sink *memory);

/* Everything at once, to be cleared by fixture_clear. */
struct fixture {
    struct mensur_profile kestrel, heron, dipper;
    struct mensur_comparison comparison;
    struct mensur_comparison changed;
    struct mensur_decision met, unmet;
    struct mensur_restringing restringing;
    struct mensur_texts warnings;
};

struct fixture *fixture_make(void);
void fixture_clear(struct fixture *fixture);

/* An instrument of that name, with figures of its own; the caller's to clear. */
struct mensur_profile fixture_profile(const char *name, double neck, double stop);

/* Names that are long, from the right, with marks, with control characters, a formula, one word,
 * and none. */
extern const char *const awkward_names[];
extern const size_t awkward_name_count;

/* As the table of commands names them. */
extern const struct mensur_answer_kind mensur_restringing_answer, mensur_reaching_answer;

extern const struct mensur_heading fixture_heading;
struct mensur_heading heading_for(const char *command);

/* What is presented: a command's answer out of a fixture. */
typedef enum mensur_status present_it(struct mensur_presenter *presenter,
                                      const struct fixture *fixture);

struct presentation {
    const char *command;
    present_it *present;
};

extern const struct presentation presentations[];
extern const size_t presentation_count;

/* Opens, presents and closes; the first failure of the three. */
enum mensur_status present_all(const struct presentation *presentation,
                               const struct fixture *fixture, const struct mensur_style *style,
                               struct memory_sink *memory);

/* What is presented as text; the caller's to free. */
char *presented(present_it *present, const char *command, const struct fixture *fixture,
                struct mensur_style style);

/* Compares other instruments instead. */
void fixture_compare(struct fixture *fixture, const char *const *names, size_t count);

/* Gives every instrument, string, set, reason and remark of a fixture that name. */
void fixture_rename(struct fixture *fixture, const char *name);

/* Fails unless presentations[i] is that text, and a good page. */
void check_text(size_t i, struct mensur_style style, const char *want);

/* Fails unless no line is wider than 80 columns and none ends in a blank. */
void check_page(const char *text);

#endif
