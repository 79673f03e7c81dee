/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The habits of a shop in the place of options that are not given. */
#include "settings.h"

#include <string.h>

#include "number.h"
#include "setting.h"

/* The option that a habit stands for; OPTION_COUNT: it is no option. */
static const enum option option_of[MENSUR_SETTING_COUNT] = {
    [MENSUR_SETTING_A4] = OPTION_ID_a4,
    [MENSUR_SETTING_FIFTHS] = OPTION_ID_fifths,
    [MENSUR_SETTING_STEPS] = OPTION_ID_steps,
    [MENSUR_SETTING_UNITS] = OPTION_ID_inches,
    [MENSUR_SETTING_FORCE_UNIT] = OPTION_ID_force_unit,
    [MENSUR_SETTING_PLAYER] = OPTION_ID_player,
    [MENSUR_SETTING_HEADING] = OPTION_COUNT,
    [MENSUR_SETTING_HOLD] = OPTION_ID_hold,
    [MENSUR_SETTING_CATALOGUE] = OPTION_COUNT,
};

/* Takes the habit for its option, unless that is given; false where it has no place. */
static bool take(const struct mensur_setting *setting, struct words *words) {
    enum option option = option_of[setting->which];
    bool goes = option < OPTION_COUNT &&
                (mensur_option_at(option)->commands & 1u << words->command) != 0 &&
                words->text[option] == NULL && !words->flag[option];
    if (goes && mensur_option_at(option)->type == MENSUR_OPTION_FLAG) {
        words->flag[option] = strcmp(setting->value, "in") == 0;
    } else if (goes) {
        words->text[option] = setting->value;
    }
    return goes;
}

/* `440.0` is as usual as `440`. */
static bool is_usual(const struct mensur_setting *setting) {
    const char *usual = mensur_setting_info(setting->which)->usual;
    double one, other;
    size_t used;
    if (strcmp(setting->value, usual) == 0) {
        return true;
    }
    return mensur_number_read(usual, strlen(usual), true, &used, &one) == MENSUR_OK &&
           mensur_number_read(setting->value, strlen(setting->value), true, &used, &other) ==
               MENSUR_OK &&
           !(one < other) && !(one > other);
}

const char *ask_settings_heading(const struct mensur_stock *stock) {
    for (size_t i = 0; i < stock->setting_count; i++) {
        if (stock->settings[i].which == MENSUR_SETTING_HEADING) {
            return stock->settings[i].value;
        }
    }
    return NULL;
}

void ask_settings_take(const struct mensur_stock *stock, struct words *words,
                       struct mensur_question *question) {
    question->heading = ask_settings_heading(stock);
    for (size_t i = 0; i < stock->setting_count; i++) {
        const struct mensur_setting *setting = &stock->settings[i];
        if (setting->value != NULL && take(setting, words) && !is_usual(setting) &&
            question->habit_count < MENSUR_HABITS_MOST) {
            question->habits[question->habit_count++] =
                (struct mensur_habit){setting->name, setting->value};
        }
    }
}
