/* SPDX-License-Identifier: GPL-3.0-or-later */
/* settings.csv: the habits of a shop, a row each; an empty value leaves one as it is. */
#include <stdio.h>
#include <string.h>

#include "setting.h"
#include "tables.h"

enum { NAME, VALUE };

static char small(char letter) {
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

/* Spells a word as it stands among the choices, which may have other capitals; false where it does
 * not. */
static bool spell_choice(const char *choices, char *word) {
    size_t length = strlen(word);
    for (const char *choice = choices; *choice != '\0';) {
        size_t size = strcspn(choice, "|"), same = 0;
        while (same < size && same < length && small(choice[same]) == small(word[same])) {
            same++;
        }
        if (same == size && same == length) {
            memcpy(word, choice, size);
            return true;
        }
        choice += size + (choice[size] == '|');
    }
    return false;
}

static bool find_setting(char *name, enum mensur_setting_id *which) {
    for (int i = 0; i < MENSUR_SETTING_COUNT; i++) {
        if (spell_choice(mensur_setting_info((enum mensur_setting_id)i)->name, name)) {
            *which = (enum mensur_setting_id)i;
            return true;
        }
    }
    return false;
}

static void check_a4(struct reading *reading, const struct mensur_setting *setting) {
    struct mensur_quantity a4;
    if (mensur_quantity_read(setting->value, strlen(setting->value), MENSUR_FREQUENCY,
                             reading->row->decimal_comma, &a4) != MENSUR_OK ||
        !(a4.value >= MENSUR_A4_LEAST && a4.value <= MENSUR_A4_MOST)) {
        char text[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, VALUE, "a4: \"%s\" is no pitch of A4, which is 1 to 20000 Hz",
                          mensur_log_short(setting->value, text));
    }
}

static void check_player(struct reading *reading, const struct mensur_setting *setting) {
    struct known_names known = mensur_names_in(reading->stock, MENSUR_TABLE_PLAYERS);
    if (!reading->bad.is[MENSUR_TABLE_PLAYERS] &&
        !mensur_name_is_in(reading, MENSUR_TABLE_PLAYERS, setting->value)) {
        char text[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
        mensur_cell_error(reading, VALUE, "player: there is no player \"%s\"; %s",
                          mensur_log_short(setting->value, text),
                          mensur_reading_suggest(reading, setting->value, &known, suggestion));
    }
}

static void check_value(struct reading *reading, const struct mensur_setting *setting) {
    const struct mensur_setting_info *info = mensur_setting_info(setting->which);
    if (info->choices != NULL && !spell_choice(info->choices, setting->value)) {
        char text[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, VALUE, "%s: \"%s\" is none of %s", info->name,
                          mensur_log_short(setting->value, text), info->choices);
    } else if (setting->which == MENSUR_SETTING_A4) {
        check_a4(reading, setting);
    } else if (setting->which == MENSUR_SETTING_PLAYER) {
        check_player(reading, setting);
    }
}

static void check(struct reading *reading, void *row) {
    struct mensur_setting *setting = row;
    const struct known_names known = {.rows = mensur_setting_info((enum mensur_setting_id)0),
                                      .count = MENSUR_SETTING_COUNT,
                                      .size = sizeof(struct mensur_setting_info),
                                      .offset = offsetof(struct mensur_setting_info, name)};
    if (setting->name == NULL) {
        return; /* said by the table */
    }
    if (!find_setting(setting->name, &setting->which)) {
        char text[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
        mensur_cell_error(reading, NAME, "name: there is no setting \"%s\"; %s",
                          mensur_log_short(setting->name, text),
                          mensur_reading_suggest(reading, setting->name, &known, suggestion));
    } else if (setting->value != NULL) {
        check_value(reading, setting);
    }
}

static const struct column columns[] = {
    [NAME] = {.name = "name",
              .how = CELL_TEXT,
              .at = offsetof(struct mensur_setting, name),
              .required = true},
    [VALUE] = {.name = "value",
               .how = CELL_TEXT,
               .at = offsetof(struct mensur_setting, value),
               .required = true},
};

const struct layout mensur_settings_layout = {.columns = columns,
                                              .count = sizeof(columns) / sizeof(columns[0]),
                                              .named = true,
                                              .check = check};
