/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Column heads in the words that people use, in English, German, French and Italian: common
 * practice, no source. A word stands here only where it can mean one thing; those that mean one
 * thing in one shop and another in the next are asked about.
 */
#include "heads.h"

#include <stdint.h>
#include <string.h>

#include "utf8.h"

#define IN(table) (1u << MENSUR_TABLE_##table)
/* The tables whose columns are measurements of an instrument. */
#define MEASURED (IN(INSTRUMENTS) | IN(FAMILIES))

/* As they are compared: see mensur_head_read. */
static const struct synonym {
    unsigned tables;
    const char *head, *column;
} synonyms[] = {
    {MEASURED | IN(PLAYERS), "bezeichnung", "name"},
    {MEASURED | IN(PLAYERS), "nom", "name"},
    {MEASURED | IN(PLAYERS), "nome", "name"},
    {IN(INSTRUMENTS), "instrument_family", "family"},
    {IN(INSTRUMENTS), "familie", "family"},
    {IN(INSTRUMENTS), "famille", "family"},
    {IN(INSTRUMENTS), "famiglia", "family"},
    {IN(INSTRUMENTS), "stimmung", "tuning"},
    {IN(INSTRUMENTS), "accordatura", "tuning"},
    {IN(INSTRUMENTS), "string_set", "strings"},
    {IN(INSTRUMENTS), "set_of_strings", "strings"},
    {IN(INSTRUMENTS), "saiten", "strings"},
    {IN(INSTRUMENTS), "saitensatz", "strings"},
    {IN(INSTRUMENTS), "cordes", "strings"},
    {IN(INSTRUMENTS), "corde", "strings"},

    {MEASURED, "body_length", "body"},
    {MEASURED, "length_of_body", "body"},
    {MEASURED, "back_length", "body"},
    {MEASURED, "length_of_back", "body"},
    {MEASURED, "korpus", "body"},
    {MEASURED, "korpuslaenge", "body"},
    {MEASURED, "bodenlaenge", "body"},
    {MEASURED, "longueur_du_corps", "body"},
    {MEASURED, "longueur_de_la_caisse", "body"},
    {MEASURED, "longueur_du_fond", "body"},
    {MEASURED, "lunghezza_cassa", "body"},
    {MEASURED, "lunghezza_della_cassa", "body"},
    {MEASURED, "lunghezza_fondo", "body"},
    {MEASURED, "lunghezza_del_fondo", "body"},
    {MEASURED, "straight_body_length", "body_straight"},
    {MEASURED, "body_length_straight", "body_straight"},
    {MEASURED, "body_length_calipers", "body_straight"},
    {MEASURED, "back_length_calipers", "body_straight"},
    {MEASURED, "back_arching", "back_arch"},
    {MEASURED, "back_arch_height", "back_arch"},
    {MEASURED, "bodenwoelbung", "back_arch"},
    {MEASURED, "stop_length", "stop"},
    {MEASURED, "body_stop", "stop"},
    {MEASURED, "belly_stop", "stop"},
    {MEASURED, "deckenmensur", "stop"},
    {MEASURED, "korpusmensur", "stop"},
    {MEASURED, "neck_length", "neck"},
    {MEASURED, "neck_stop", "neck"},
    {MEASURED, "hals", "neck"},
    {MEASURED, "halslaenge", "neck"},
    {MEASURED, "halsmensur", "neck"},
    {MEASURED, "manche", "neck"},
    {MEASURED, "longueur_du_manche", "neck"},
    {MEASURED, "manico", "neck"},
    {MEASURED, "lunghezza_manico", "neck"},
    {MEASURED, "lunghezza_del_manico", "neck"},
    {MEASURED, "over_stand", "overstand"},
    {MEASURED, "neck_overstand", "overstand"},
    {MEASURED, "halsueberstand", "overstand"},
    {MEASURED, "board_thickness", "board"},
    {MEASURED, "fingerboard_thickness", "board"},
    {MEASURED, "griffbrettdicke", "board"},
    {MEASURED, "griffbrettstaerke", "board"},
    {MEASURED, "epaisseur_de_la_touche", "board"},
    {MEASURED, "spessore_tastiera", "board"},
    {MEASURED, "board_thickness_at_nut", "board_nut"},
    {MEASURED, "fingerboard_thickness_at_nut", "board_nut"},
    {MEASURED, "nut_height", "nut"},
    {MEASURED, "height_of_nut", "nut"},
    {MEASURED, "string_height_at_nut", "nut"},
    {MEASURED, "obersattel", "nut"},
    {MEASURED, "obersattelhoehe", "nut"},
    {MEASURED, "sillet_du_haut", "nut"},
    {MEASURED, "capotasto", "nut"},
    {MEASURED, "edge_thickness", "edge"},
    {MEASURED, "randstaerke", "edge"},
    {MEASURED, "randdicke", "edge"},
    {MEASURED, "projection_height", "projection"},
    {MEASURED, "board_projection", "projection"},
    {MEASURED, "fingerboard_projection", "projection"},
    {MEASURED, "neck_projection", "projection"},
    {MEASURED, "projektion", "projection"},
    {MEASURED, "griffbrettprojektion", "projection"},
    {MEASURED, "bridge_height", "bridge"},
    {MEASURED, "height_of_bridge", "bridge"},
    {MEASURED, "steg", "bridge"},
    {MEASURED, "steghoehe", "bridge"},
    {MEASURED, "chevalet", "bridge"},
    {MEASURED, "hauteur_du_chevalet", "bridge"},
    {MEASURED, "ponticello", "bridge"},
    {MEASURED, "altezza_ponticello", "bridge"},
    {MEASURED, "altezza_del_ponticello", "bridge"},
    {MEASURED, "saddle_height", "saddle"},
    {MEASURED, "height_of_saddle", "saddle"},
    {MEASURED, "untersattel", "saddle"},
    {MEASURED, "untersattelhoehe", "saddle"},
    {MEASURED, "sillet_du_bas", "saddle"},
    {MEASURED, "after_length", "afterlength"},
    {MEASURED, "string_afterlength", "afterlength"},
    {MEASURED, "nachlaenge", "afterlength"},
    {MEASURED, "nut_to_peg", "behind_nut"},
    {MEASURED, "length_of_board", "board_length"},
    {MEASURED, "fingerboard_length", "board_length"},
    {MEASURED, "length_of_fingerboard", "board_length"},
    {MEASURED, "griffbrettlaenge", "board_length"},
    {MEASURED, "longueur_de_la_touche", "board_length"},
    {MEASURED, "lunghezza_tastiera", "board_length"},
    {MEASURED, "lunghezza_della_tastiera", "board_length"},
    {MEASURED, "board_hollow", "hollow"},
    {MEASURED, "fingerboard_hollow", "hollow"},
    {MEASURED, "board_scoop", "hollow"},
    {MEASURED, "fingerboard_scoop", "hollow"},
    {MEASURED, "scoop", "hollow"},
    {MEASURED, "fingerboard_relief", "hollow"},
    {MEASURED, "low_clearance", "clearance_low"},
    {MEASURED, "high_clearance", "clearance_high"},
    {MEASURED, "stringlength", "string_length"},
    {MEASURED, "length_of_string", "string_length"},
    {MEASURED, "string_length_nut_to_bridge", "string_length"},
    {MEASURED, "vibrating_string_length", "string_length"},
    {MEASURED, "vibrating_length", "string_length"},
    {MEASURED, "sounding_length", "string_length"},
    {MEASURED, "speaking_length", "string_length"},
    {MEASURED, "saitenlaenge", "string_length"},
    {MEASURED, "schwingende_saitenlaenge", "string_length"},
    {MEASURED, "longueur_de_corde", "string_length"},
    {MEASURED, "longueur_vibrante", "string_length"},
    {MEASURED, "corde_vibrante", "string_length"},
    {MEASURED, "corda_vibrante", "string_length"},
    {MEASURED, "lunghezza_corda", "string_length"},
    {MEASURED, "lunghezza_della_corda", "string_length"},

    {IN(PLAYERS), "height", "stature"},
    {IN(PLAYERS), "body_height", "stature"},
    {IN(PLAYERS), "koerpergroesse", "stature"},
    {IN(PLAYERS), "groesse", "stature"},
    {IN(PLAYERS), "taille", "stature"},
    {IN(PLAYERS), "statura", "stature"},
    {IN(PLAYERS), "altezza", "stature"},
    {IN(PLAYERS), "oberarm", "upper_arm"},
    {IN(PLAYERS), "bras", "upper_arm"},
    {IN(PLAYERS), "fore_arm", "forearm"},
    {IN(PLAYERS), "unterarm", "forearm"},
    {IN(PLAYERS), "avant_bras", "forearm"},
    {IN(PLAYERS), "avambraccio", "forearm"},
    {IN(PLAYERS), "hand_length", "hand"},
    {IN(PLAYERS), "handlaenge", "hand"},
    {IN(PLAYERS), "hand_span", "span"},
    {IN(PLAYERS), "handspanne", "span"},

    {IN(STRINGS), "weight_per_metre", "linear_density"},
    {IN(STRINGS), "weight_per_meter", "linear_density"},
    {IN(STRINGS), "grams_per_metre", "linear_density"},
    {IN(STRINGS), "grams_per_meter", "linear_density"},
    {IN(STRINGS), "mass_per_length", "linear_density"},
    {IN(STRINGS), "tension", "stated_tension"},
    {IN(STRINGS), "durchmesser", "diameter"},
    {IN(STRINGS), "diametre", "diameter"},
    {IN(STRINGS), "diametro", "diameter"},
};

/* Words that mean one column in one shop and another in the next. */
static const struct ambiguous {
    unsigned tables;
    const char *head, *may_mean;
} ambiguous[] = {
    {MEASURED, "mensur", "stop, neck or string_length"},
    {MEASURED, "mensura", "stop, neck or string_length"},
    {MEASURED, "mensuur", "stop, neck or string_length"},
    {MEASURED, "diapason", "stop or string_length"},
    {MEASURED, "scale", "string_length or stop"},
    {MEASURED, "scale_length", "string_length or stop"},
    {MEASURED, "length", "body, stop, neck or string_length"},
    {MEASURED, "laenge", "body, stop, neck or string_length"},
    {MEASURED, "longueur", "body, stop, neck or string_length"},
    {MEASURED, "lunghezza", "body, stop, neck or string_length"},
    {MEASURED, "height", "bridge, projection, nut or saddle"},
    {MEASURED, "hoehe", "bridge, projection, nut or saddle"},
    {MEASURED, "hauteur", "bridge, projection, nut or saddle"},
    {MEASURED, "altezza", "bridge, projection, nut or saddle"},
    {MEASURED, "fingerboard", "board (its thickness) or board_length"},
    {MEASURED, "griffbrett", "board (its thickness) or board_length"},
    {MEASURED, "touche", "board (its thickness) or board_length"},
    {MEASURED, "tastiera", "board (its thickness) or board_length"},
    {MEASURED, "sattel", "nut or saddle"},
    {MEASURED, "sattelhoehe", "nut or saddle"},
    {MEASURED, "sillet", "nut or saddle"},
    {MEASURED, "arching", "arch, arch_full or back_arch"},
    {MEASURED, "arch_height", "arch, arch_full or back_arch"},
    {MEASURED, "arching_height", "arch, arch_full or back_arch"},
    {MEASURED, "woelbung", "arch, arch_full or back_arch"},
    {MEASURED, "belly_arch", "arch (above the edge) or arch_full (above the ribs)"},
    {MEASURED, "belly_arching", "arch (above the edge) or arch_full (above the ribs)"},
    {MEASURED, "top_arch", "arch (above the edge) or arch_full (above the ribs)"},
    {MEASURED, "deckenwoelbung", "arch (above the edge) or arch_full (above the ribs)"},
    {MEASURED, "clearance", "clearance_low or clearance_high"},
    {MEASURED, "string_height", "clearance_low, clearance_high or nut"},
    {IN(PLAYERS), "arm", "upper_arm or forearm"},
    {IN(PLAYERS), "arm_length", "upper_arm or forearm"},
    {IN(PLAYERS), "armlaenge", "upper_arm or forearm"},
    {IN(STRINGS), "gauge", "diameter or core_diameter (both in mm)"},
    {IN(STRINGS), "length", "stated_length, made_for_low or made_for_high"},
};

#define COUNT(rows) (sizeof(rows) / sizeof((rows)[0]))

/* What letters with marks are compared as, U+00C0 to U+00FF; NULL: no letter. */
static const char *const latin[64] = {
    "a", "a", "a", "a", "ae", "a", "ae", "c", "e", "e", "e", "e", "i",  "i", "i",  "i",
    "d", "n", "o", "o", "o",  "o", "oe", "x", "o", "u", "u", "u", "ue", "y", "th", "ss",
    "a", "a", "a", "a", "ae", "a", "ae", "c", "e", "e", "e", "e", "i",  "i", "i",  "i",
    "d", "n", "o", "o", "o",  "o", "oe", "/", "o", "u", "u", "u", "ue", "y", "th", "y",
};

/* A head while it is folded. */
struct folding {
    char *out;
    size_t length;
    bool parted; /* something that parts words stood before what comes next */
};

static void fold_in(struct folding *folding, const char *text) {
    size_t length = strlen(text), part = folding->parted && folding->length > 0 ? 1 : 0;
    if (folding->length + part + length < MENSUR_HEAD_ROOM) {
        if (part > 0) {
            folding->out[folding->length] = '_';
        }
        memcpy(folding->out + folding->length + part, text, length);
    }
    folding->length += part + length;
    folding->parted = false;
}

/* A letter of ASCII. */
static void fold_plain(struct folding *folding, uint32_t code) {
    static const char parts[] = " \t\r\n_-.,:;()[]{}*'";
    char letter[2] = {(char)(code >= 'A' && code <= 'Z' ? code - 'A' + 'a' : code), '\0'};
    if (code == '"') {
        folding->parted = true;
        fold_in(folding, "in");
    } else if (strchr(parts, (int)code) != NULL) {
        folding->parted = true;
    } else {
        fold_in(folding, letter);
    }
}

/* A mark that is combined with the letter before it: of an umlaut it leaves an e. */
static void fold_mark(struct folding *folding, uint32_t code) {
    bool after = folding->length > 0 && folding->length < MENSUR_HEAD_ROOM;
    if (code == 0x308 && after && strchr("aou", folding->out[folding->length - 1]) != NULL) {
        fold_in(folding, "e");
    }
}

static void fold_letter(struct folding *folding, uint32_t code) {
    if (code < 0x80) {
        fold_plain(folding, code);
    } else if (code >= 0xC0 && code <= 0xFF) {
        fold_in(folding, latin[code - 0xC0]);
    } else if (code >= 0x300 && code <= 0x36F) {
        fold_mark(folding, code);
    } else if (code == 0x2033 || code == 0x201D) { /* double prime, and what is typed for it */
        folding->parted = true;
        fold_in(folding, "in");
    } else if (code == 0xB0) {
        folding->parted = true;
        fold_in(folding, "deg");
    } else if (code == 0xB2 || code == 0xB3) {
        fold_in(folding, code == 0xB2 ? "2" : "3");
    } else if (code == 0xA0 || (code >= 0x2000 && code <= 0x2015) || code == 0x2019 ||
               code == 0x202F) { /* blanks, dashes, an apostrophe */
        folding->parted = true;
    } else {
        fold_in(folding, "?");
    }
}

static void fold(const char *text, char out[MENSUR_HEAD_ROOM]) {
    struct folding folding = {.out = out};
    size_t left = strlen(text);
    while (left > 0) {
        uint32_t code = 0;
        size_t length = mensur_utf8_letter(text, left, &code);
        if (length == 0) { /* every cell is UTF-8 */
            break;
        }
        fold_letter(&folding, code);
        text += length;
        left -= length;
    }
    out[folding.length < MENSUR_HEAD_ROOM ? folding.length : 0] = '\0';
}

static int find_column(const struct layout *layout, const char *name) {
    for (int i = 0; i < layout->count; i++) {
        if (strcmp(layout->columns[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

/* Looks the folded head up; what was found so far stays where nothing is. */
static void look_up(enum mensur_table table, const struct layout *layout, const char *folded,
                    struct head *head) {
    head->column = find_column(layout, folded);
    for (size_t i = 0; i < COUNT(synonyms) && head->column < 0; i++) {
        if ((synonyms[i].tables & 1u << table) != 0 && strcmp(synonyms[i].head, folded) == 0) {
            head->column = find_column(layout, synonyms[i].column);
        }
    }
    for (size_t i = 0; i < COUNT(ambiguous) && head->column < 0; i++) {
        if ((ambiguous[i].tables & 1u << table) != 0 && strcmp(ambiguous[i].head, folded) == 0) {
            head->may_mean = ambiguous[i].may_mean;
        }
    }
}

static bool is_found(const struct head *head) {
    return head->column >= 0 || head->may_mean != NULL;
}

static bool is_unit(const char *name) {
    for (int kind = 0; kind < MENSUR_KIND_COUNT; kind++) {
        if (mensur_unit_find((enum mensur_kind)kind, name) != NULL) {
            return true;
        }
    }
    return false;
}

static bool measures(const struct column *column) {
    return column->how == CELL_QUANTITY || column->how == CELL_VALUE;
}

/* `stop_mm`, `stop_in_mm`: the words before, and the unit, of a column that measures something. */
static void look_up_with_unit(enum mensur_table table, const struct layout *layout,
                              struct head *head) {
    struct head found = *head;
    char *last = strrchr(found.folded, '_');
    if (last == NULL || !is_unit(last + 1)) {
        return;
    }
    *last = '\0';
    look_up(table, layout, found.folded, &found);
    if (!is_found(&found) && last - found.folded > 3 && strcmp(last - 3, "_in") == 0) {
        last[-3] = '\0';
        look_up(table, layout, found.folded, &found);
    }
    if (found.column >= 0 && measures(&layout->columns[found.column])) {
        found.unit = mensur_unit_find(layout->columns[found.column].kind, last + 1);
        found.unit_is_wrong = found.unit == NULL;
        *head = found;
    } else if (found.may_mean != NULL) {
        *head = found;
    }
}

struct head mensur_head_read(enum mensur_table table, const struct layout *layout,
                             const char *text) {
    struct head head = {.column = -1};
    fold(text, head.folded);
    look_up(table, layout, head.folded, &head);
    if (!is_found(&head)) {
        look_up_with_unit(table, layout, &head);
    }
    return head;
}

const char *mensur_head_synonym(enum mensur_table table, const char *column, size_t i) {
    for (size_t row = 0; row < COUNT(synonyms); row++) {
        if ((synonyms[row].tables & 1u << table) != 0 &&
            strcmp(synonyms[row].column, column) == 0 && i-- == 0) {
            return synonyms[row].head;
        }
    }
    return NULL;
}
