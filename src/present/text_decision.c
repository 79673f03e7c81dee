/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The neck that a stop wants, or the stop that a neck wants: in words first, in tables below. */
#include <math.h>
#include <string.h>

#include "sentences.h"
#include "text.h"

static double place_now(const struct mensur_decision *decision) {
    const struct mensur_lengths *lengths = &decision->present.lengths;
    return decision->for_stop ? lengths->stop : lengths->neck;
}

static const char *place_word(const struct mensur_decision *decision) {
    return decision->for_stop ? "stop" : "neck";
}

/* A wish's name in the trade's words. */
static const char *wish_word(const char *what) {
    static const char *const words[][2] = {
        {"string_length", "string length"}, {"ratio", "neck : stop"},
        {"body_note", "note at the body"},  {"left_reach", "left reach"},
        {"total_tension", "pull in all"},   {"belly_force", "force on the belly"},
    };
    for (size_t i = 0; i < sizeof(words) / sizeof(words[0]); i++) {
        if (strcmp(what, words[i][0]) == 0) {
            return words[i][1];
        }
    }
    return what;
}

static struct mensur_shown wish_range(const struct mensur_style *style,
                                      const struct mensur_want *want) {
    return strcmp(want->what, "ratio") == 0
               ? mensur_show_ratio_range(want->low, want->high)
               : mensur_show_range(style, want->kind, want->low, want->high);
}

/* "cut the neck 150.5 mm (now 144.0, +6.5)." */
static void say_recommended(struct mensur_wrap *wrap, const struct mensur_style *style,
                            const struct mensur_decision *decision) {
    double now = place_now(decision), then = decision->recommended_place;
    struct mensur_shown move = mensur_show_difference(style, MENSUR_LENGTH, then - now);
    bool moved = move.text[strspn(move.text, "-0.")] != '\0';
    if (!moved) {
        mensur_wrap_say(wrap, "leave the ", place_word(decision), " as it is, ",
                        mensur_show_unit(style, MENSUR_LENGTH, now).text, ".", NULL);
        return;
    }
    mensur_wrap_say(wrap, decision->for_stop ? "set the stop to " : "cut the neck ",
                    mensur_show_unit(style, MENSUR_LENGTH, then).text, " (now ",
                    mensur_show(style, MENSUR_LENGTH, now).text, ", ", move.text, ").", NULL);
}

static void say_wish(struct mensur_wrap *wrap, const struct mensur_style *style,
                     const struct mensur_want *want) {
    mensur_wrap_say(wrap, wish_word(want->what), " ", wish_range(style, want).text, NULL);
}

/* How much a wish would have to give. */
static struct mensur_shown wish_give(const struct mensur_style *style,
                                     const struct mensur_want *want, double give) {
    return want->kind == MENSUR_NUMBER ? mensur_show_number(give, 2, 7)
                                       : mensur_show_unit(style, want->kind, give);
}

/* What would end the conflict that the reason tells of. */
static void write_gives(struct mensur_presenter *presenter,
                        const struct mensur_decision *decision) {
    const struct mensur_conflict *conflict = &decision->conflict;
    const struct mensur_want *first = &decision->wants[conflict->first];
    const struct mensur_want *second = &decision->wants[conflict->second];
    const struct mensur_style *style = &presenter->style;
    struct mensur_wrap wrap;
    mensur_text_begin(presenter, &wrap);
    mensur_wrap_say(&wrap, "The least that would do: either the wish for ", NULL);
    say_wish(&wrap, style, first);
    mensur_wrap_say(&wrap, " gives ", wish_give(style, first, conflict->give_first).text,
                    ", or the one for ", NULL);
    say_wish(&wrap, style, second);
    mensur_wrap_say(&wrap, " gives ", wish_give(style, second, conflict->give_second).text, ".",
                    NULL);
    mensur_wrap_close(&wrap);
}

static bool is_met(const struct mensur_decision *decision) {
    return decision->can_meet_all && !isnan(decision->recommended_place);
}

static bool has_reason(const struct mensur_decision *decision) {
    return decision->reason.count > 0;
}

/* "kestrel: cut the neck ...", or the reason why no neck can be told. */
static void write_answer(struct mensur_presenter *presenter,
                         const struct mensur_decision *decision) {
    struct mensur_wrap wrap;
    mensur_text_begin(presenter, &wrap);
    mensur_wrap_say(&wrap, decision->present.instrument, ": ", NULL);
    if (is_met(decision)) {
        say_recommended(&wrap, &presenter->style, decision);
    } else if (has_reason(decision)) {
        struct mensur_texts texts = {0};
        mensur_out_fail(&presenter->out,
                        mensur_sentences(&decision->reason, &presenter->style, &texts));
        mensur_wrap_say(&wrap, texts.count > 0 ? texts.items[0] : "", ".", NULL);
        mensur_texts_clear(&texts);
    } else {
        mensur_wrap_say(&wrap, "no ", place_word(decision), " meets every wish.", NULL);
    }
    mensur_wrap_close(&wrap);
}

static void write_costs(struct mensur_presenter *presenter,
                        const struct mensur_decision *decision) {
    if (decision->costs.count > 0) {
        mensur_paragraph(&presenter->out, 0, 0, "What it costs the player:");
    }
    mensur_text_points(presenter, &decision->costs);
}

static void write_want(const struct mensur_table *table, const struct mensur_style *style,
                       const struct mensur_want *want) {
    struct mensur_shown range = wish_range(style, want);
    struct mensur_shown low = mensur_show(style, MENSUR_LENGTH, want->place_low);
    struct mensur_shown high = mensur_show(style, MENSUR_LENGTH, want->place_high);
    bool low_open = isnan(want->place_low), high_open = isnan(want->place_high);
    const char *none = want->within_reach ? "any" : "none";
    const char *cells[] = {
        wish_word(want->what),        range.text, low_open ? none : low.text,
        high_open ? none : high.text, "",         want->origin != NULL ? want->origin : ""};
    mensur_table_row(table, cells);
}

static void write_wants(struct mensur_presenter *presenter,
                        const struct mensur_decision *decision) {
    const struct mensur_style *style = &presenter->style;
    const char *from = style->inches ? "from in" : "from mm";
    const char *to = style->inches ? "to in" : "to mm";
    const struct mensur_table_column columns[] = {
        {{"", "wish"}, 21, true},
        {{"", "wanted"}, 24, true},
        {{place_word(decision), from}, 8, false},
        {{place_word(decision), to}, 8, false},
        {{NULL, NULL}, 2, true},
        {{"", "why"}, 17, true},
    };
    struct mensur_table table = {&presenter->out, columns, 6};
    mensur_out_line(&presenter->out);
    mensur_table_head(&table);
    for (size_t i = 0; i < decision->want_count; i++) {
        write_want(&table, style, &decision->wants[i]);
    }
    if (!isnan(decision->place_low) && !isnan(decision->place_high)) {
        struct mensur_shown low = mensur_show(style, MENSUR_LENGTH, decision->place_low);
        struct mensur_shown high = mensur_show(style, MENSUR_LENGTH, decision->place_high);
        const char *cells[] = {"all together", "", low.text, high.text, "", ""};
        mensur_table_row(&table, cells);
    } else {
        const char *cells[] = {"all together", "", "none", "none", "", ""};
        mensur_table_row(&table, cells);
    }
}

static void gather(struct mensur_presenter *presenter, const struct mensur_decision *decision) {
    mensur_text_gather(presenter, decision->present.instrument, &decision->present);
    if (decision->has_recommended) {
        mensur_out_fail(&presenter->out,
                        mensur_gather_facts(&presenter->gathered, &presenter->style,
                                            &decision->recommended.warnings));
    }
    if (decision->has_like) {
        mensur_text_gather(presenter, decision->like.instrument, &decision->like);
    }
}

void mensur_text_decision(struct mensur_presenter *presenter,
                          const struct mensur_decision *decision) {
    mensur_text_part(presenter);
    gather(presenter, decision);
    write_answer(presenter, decision);
    if (is_met(decision)) {
        mensur_text_say(presenter, 0, "Why: ", &decision->reason);
    }
    if (decision->conflict.exists) {
        write_gives(presenter, decision);
    }
    write_costs(presenter, decision);
    mensur_text_say(presenter, 0, "How sure: ", &decision->how_sure);
    write_wants(presenter, decision);
    mensur_text_beside(presenter, decision);
    mensur_text_steps(presenter, decision);
    mensur_text_instead(presenter, decision);
}
