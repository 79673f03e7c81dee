/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The habits of a shop, from their one list. */
#include "setting.h"

#include <string.h>

static const struct mensur_setting_info infos[MENSUR_SETTING_COUNT] = {
#define INFO(id, name, choices, usual) [MENSUR_SETTING_##id] = {name, choices, usual},
    MENSUR_SETTING_LIST(INFO)
#undef INFO
};

const struct mensur_setting_info *mensur_setting_info(enum mensur_setting_id setting) {
    return &infos[setting < MENSUR_SETTING_COUNT ? setting : 0];
}
