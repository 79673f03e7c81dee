/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Families, tunings, materials, wires, players: rows that are read and rows that are refused. */
#include "reading.h"

#define PI 3.14159265358979323846

#define POSITIONS "positions,position,first_finger_semitones,frame_semitones\n"
#define SIZES "name,family,tuning,body,stop,neck\n"
#define FAMILIES "name,held,frame_semitones,positions,edge,clearance_high_offset\n"
#define MATERIALS "name,density,modulus,strength,low_density,high_density\n"
#define WIRES "material,diameter,strength_low,strength_high\n"
#define PLAYERS "name,stature,upper_arm,forearm,yaw,rest_side,hand\n"

#define SETTINGS "name,value\n"

static const struct refusal refusals[] = {
    {"a setting that there is not",
     MENSUR_TABLE_SETTINGS,
     SETTINGS "unit,mm\ncolour,red\n",
     0,
     {"settings.csv:2:1: name: there is no setting \"unit\"; did you mean \"units\"?",
      "settings.csv:3:1: name: there is no setting \"colour\"; there are: a4, fifths, steps, "
      "units, force_unit, player, heading, hold"}},
    {"settings of other values",
     MENSUR_TABLE_SETTINGS,
     SETTINGS "units,cm\nfifths,perfect\na4,0.5\nforce_unit,g\nplayer,smal\n",
     0,
     {"settings.csv:2:2: units: \"cm\" is none of mm|in",
      "settings.csv:3:2: fifths: \"perfect\" is none of pure|equal",
      "settings.csv:4:2: a4: \"0.5\" is no pitch of A4, which is 1 to 20000 Hz",
      "settings.csv:5:2: force_unit: \"g\" is none of kg|N|lb",
      "settings.csv:6:2: player: there is no player \"smal\"; did you mean \"small\"?"}},
    {"settings that go on, or are out of their range",
     MENSUR_TABLE_SETTINGS,
     SETTINGS "units,mmm\na4,20001\n",
     0,
     {"settings.csv:2:2: units: \"mmm\" is none of mm|in",
      "settings.csv:3:2: a4: \"20001\" is no pitch of A4, which is 1 to 20000 Hz"}},
    {"a pitch in words",
     MENSUR_TABLE_SETTINGS,
     SETTINGS "a4,high\n",
     0,
     {"settings.csv:2:2: a4: \"high\" is no pitch"}},
    {"a setting twice, and none",
     MENSUR_TABLE_SETTINGS,
     SETTINGS "a4,440\na4,441\n,1\n",
     0,
     {"settings.csv:4:1: name: the cell is empty", "settings.csv:3:1: name: \"a4\" stands in"}},
    {"held unknown",
     MENSUR_TABLE_FAMILIES,
     FAMILIES "viola,shoulder,5,1 2,4,-1\n",
     0,
     {"families.csv:2:2: held: \"shoulder\" will not do; write chin, knee or standing"}},
    {"held empty",
     MENSUR_TABLE_FAMILIES,
     FAMILIES "viola,,5,1 2,4,-1\n",
     0,
     {"families.csv:2:2: held: \"\" will not do"}},
    {"no column held",
     MENSUR_TABLE_FAMILIES,
     "name,frame_semitones,positions\nviola,5,1 2\n",
     0,
     {"families.csv:1:1|held"}},
    {"a word far longer than a note",
     MENSUR_TABLE_TUNINGS,
     "name,notes\nviola,C3 Gggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggg"
     "gggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggg "
     "D4\n",
     0,
     {"tunings.csv:2:2: notes: \"Ggggg|is no note"}},
    {"a wire of no material, after one",
     MENSUR_TABLE_WIRES,
     WIRES "steel,0.3,2000,2200\n,0.4,1900,2100\n",
     0,
     {"wire_strength.csv:3:1: material: the cell is empty"}},
    {"arm in place of stature, and one half of it missing",
     MENSUR_TABLE_PLAYERS,
     "name,upper_arm,forearm\nlong,310,250\nshort,310,\n",
     0,
     {"players.csv:3:|"}},
    {"no note in a set that has an A4",
     MENSUR_TABLE_STRINGS,
     "name,note,set,linear_density\na,A4,gut,1.1\nb,H9,gut,1.2\n",
     0,
     {"strings.csv:3:2: note"}},
    {"no frame",
     MENSUR_TABLE_FAMILIES,
     FAMILIES "viola,chin,,1 2,4,-1\n",
     0,
     {"families.csv:2:3: frame_semitones: the cell is empty"}},
    {"frame of 0",
     MENSUR_TABLE_FAMILIES,
     FAMILIES "viola,chin,0,1 2,4,-1\n",
     0,
     {"families.csv:2:3: frame_semitones: \"0\" is out of its range, which is more than 0"}},
    {"no positions",
     MENSUR_TABLE_FAMILIES,
     FAMILIES "viola,chin,5,,4,-1\n",
     0,
     {"families.csv:2:4: positions: \"\" will not do"}},
    {"falling positions",
     MENSUR_TABLE_FAMILIES,
     FAMILIES "viola,chin,5,1 4 2,4,-1\n",
     0,
     {"families.csv:2:4: positions: \"1 4 2\" will not do"}},
    {"positions with a word",
     MENSUR_TABLE_FAMILIES,
     FAMILIES "viola,chin,5,1 two,4,-1\n",
     0,
     {"families.csv:2:4: positions"}},
    {"too many positions",
     MENSUR_TABLE_FAMILIES,
     FAMILIES
     "viola,chin,5,1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25,4,-1\n",
     0,
     {"families.csv:2:4: positions|up to 24"}},
    {"no such list of positions",
     MENSUR_TABLE_FAMILIES,
     FAMILIES "viola,chin,5,voila,4,-1\n",
     0,
     {"families.csv:2:4: positions: positions.csv has no list \"voila\"; there are: violin, "}},
    {"like no family above",
     MENSUR_TABLE_FAMILIES,
     "name,held,frame_semitones,positions,like\nviola,chin,5,violin,violin\n",
     0,
     {"families.csv:2:5: like: there is no family \"violin\" in a row above"}},
    {"frets that are none",
     MENSUR_TABLE_FAMILIES,
     "name,held,frame_semitones,positions,frets\nlow,knee,5,1 2,0.5\n"
     "many,knee,5,1 2,25\nhalf,knee,5,1 2,7.5\nviol,knee,5,1 2,7\n",
     0,
     {"families.csv:2:5: frets: write how many there are, 1 to 24",
      "families.csv:3:5: frets: write how many", "families.csv:4:5: frets: write how many"}},
    {"positions without a column",
     MENSUR_TABLE_POSITIONS,
     "positions,position,frame_semitones\nviolin,,5\n",
     0,
     {"positions.csv:1:1: column \"first_finger_semitones\": is missing"}},
    {"a list that is too long",
     MENSUR_TABLE_POSITIONS,
     POSITIONS "x,1,1,5\nx,2,2,5\nx,3,3,5\nx,4,4,5\nx,5,5,5\nx,6,6,5\nx,7,7,5\nx,8,8,5\n"
               "x,9,9,5\nx,10,10,5\nx,11,11,5\nx,12,12,5\nx,13,13,5\nx,14,14,5\nx,15,15,5\n"
               "x,16,16,5\nx,17,17,5\nx,18,18,5\nx,19,19,5\nx,20,20,5\nx,21,21,5\n"
               "x,22,22,5\nx,23,23,5\nx,24,24,5\nx,25,25,5\nviolin,1,2,5\n",
     0,
     {"positions.csv:26:1: positions: a list has at most 24 positions"}},
    {"position twice",
     MENSUR_TABLE_POSITIONS,
     POSITIONS "violin,1,2,5\nviolin,1,3,5\n",
     0,
     {"positions.csv:3:2: position: \"1\" stands in this list already"}},
    {"empty position",
     MENSUR_TABLE_POSITIONS,
     POSITIONS "violin,,2,\n",
     0,
     {"positions.csv:2:2: position: the cell is empty",
      "positions.csv:2:4: frame_semitones: the cell is empty"}},
    {"long position",
     MENSUR_TABLE_POSITIONS,
     POSITIONS "violin,first with the thumb behind,2,5\n",
     0,
     {"positions.csv:2:2: position: \"first with the thumb behind\" is too long|at most 23"}},
    {"frame of 0",
     MENSUR_TABLE_POSITIONS,
     POSITIONS "violin,1,2,0\n",
     0,
     {"positions.csv:2:4: frame_semitones: \"0\" is out of its range"}},
    {"size of no family",
     MENSUR_TABLE_SIZES,
     SIZES "tiny,violn,,300,160,105\n",
     0,
     {"sizes.csv:2:2: family: there is no family \"violn\"; did you mean \"violin\"?"}},
    {"sizes without a column",
     MENSUR_TABLE_SIZES,
     "name,family,body,stop\ntiny,violn,300,\n",
     0,
     {"sizes.csv:1:1: column \"neck\": is missing"}},
    {"size of no tuning",
     MENSUR_TABLE_SIZES,
     SIZES "tiny,violin,nought,300,160,105\n",
     0,
     {"sizes.csv:2:3: tuning: there is no tuning \"nought\""}},
    {"size without lengths",
     MENSUR_TABLE_SIZES,
     SIZES "tiny,violin,,,,\n",
     0,
     {"sizes.csv:2:4: body: the cell is empty", "sizes.csv:2:5: stop: the cell is empty",
      "sizes.csv:2:6: neck: the cell is empty"}},
    {"stop longer than the body",
     MENSUR_TABLE_SIZES,
     SIZES "tiny,violin,,150,160,105\n",
     0,
     {"sizes.csv:2:5: stop: it is not less than the body"}},
    {"usual edge of 0",
     MENSUR_TABLE_FAMILIES,
     FAMILIES "viola,chin,5,1 2,0,-1\n",
     0,
     {"families.csv:2:5: edge: \"0\" is out"}},
    {"offset over 3 m",
     MENSUR_TABLE_FAMILIES,
     FAMILIES "viola,chin,5,1 2,4,-3001\n",
     0,
     {"families.csv:2:6: clearance_high_offset: \"-3001\" is out of its range, which is from "
      "-3000"}},
    {"a board as long as the string",
     MENSUR_TABLE_FAMILIES,
     "name,held,frame_semitones,positions,board_share\nviola,chin,5,1 2,1\n",
     0,
     {"families.csv:2:5: board_share: it is 1 or more"}},
    {"a negative spread",
     MENSUR_TABLE_FAMILIES,
     "name,held,frame_semitones,positions,arch_spread\nviola,chin,5,1 2,-1\n",
     0,
     {"families.csv:2:5: arch_spread: \"-1\" is out of its range, which is from 0 to 3000 mm"}},
    {"small sizes of a family below",
     MENSUR_TABLE_FAMILIES,
     "name,held,frame_semitones,positions,small_family,small_to,own_from\n"
     "viola,chin,5,1 2,violin,205,211\nviolin,chin,5,1 2,,,\n",
     0,
     {"families.csv:2:5: small_family: there is no family \"violin\" in a row above"}},
    {"small sizes that end where they begin",
     MENSUR_TABLE_FAMILIES,
     "name,held,frame_semitones,positions,small_family,small_to,own_from\n"
     "violin,chin,5,1 2,,,\nviola,chin,5,1 2,violin,205,205\n",
     0,
     {"families.csv:3:5: small_family: it needs small_to and own_from"}},
    {"no notes",
     MENSUR_TABLE_TUNINGS,
     "name,notes\nviola,\n",
     0,
     {"tunings.csv:2:2: notes: the cell is empty"}},
    {"only commas",
     MENSUR_TABLE_TUNINGS,
     "name,notes\nviola,\" , ,\"\n",
     0,
     {"tunings.csv:2:2: notes: \"\" is no note"}},
    {"a bad note",
     MENSUR_TABLE_TUNINGS,
     "name,notes\nviola,C3 G3 X4 A4\n",
     0,
     {"tunings.csv:2:2: notes: \"X4\" is no note"}},
    {"a note twice",
     MENSUR_TABLE_TUNINGS,
     "name,notes\nviola,C3 G3 C3\n",
     0,
     {"tunings.csv:2:2: notes: C3 stands twice"}},
    {"too many strings",
     MENSUR_TABLE_TUNINGS,
     "name,notes\nharp,A1 B1 C2 D2 E2 F2 G2 A2 B2 C3 D3 E3 F3 G3 A3 B3 C4\n",
     0,
     {"tunings.csv:2:2: notes: a tuning has at most 16 strings"}},
    {"density of 0",
     MENSUR_TABLE_MATERIALS,
     MATERIALS "gut,0,5.5,320,,\n",
     0,
     {"materials.csv:2:2: density: \"0\" is out of its range, which is more than 0"}},
    {"negative modulus and strength",
     MENSUR_TABLE_MATERIALS,
     MATERIALS "gut,1300,-5.5,-320,,\n",
     0,
     {"materials.csv:2:3: modulus: \"-5.5\"", "materials.csv:2:4: strength: \"-320\""}},
    {"a range turned round",
     MENSUR_TABLE_MATERIALS,
     MATERIALS "gut,1300,5,320,1400,1200\n",
     0,
     {"materials.csv:2:5: low_density: it is more than high_density"}},
    {"a range of strengths turned round",
     MENSUR_TABLE_MATERIALS,
     "name,density,strength,low_strength,high_strength\ngut,1300,320,400,300\n",
     0,
     {"materials.csv:2:4: low_strength: it is more than high_strength"}},
    {"a wire without strength",
     MENSUR_TABLE_WIRES,
     WIRES "steel,0.3,,2600\n",
     0,
     {"wire_strength.csv:2:3: strength_low: the cell is empty"}},
    {"a wire's range turned round",
     MENSUR_TABLE_WIRES,
     WIRES "steel,0.3,2600,2400\n",
     0,
     {"wire_strength.csv:2:3: strength_low: it is more than strength_high"}},
    {"diameters that decrease",
     MENSUR_TABLE_WIRES,
     WIRES "steel,0.3,2,3\nsteel,0.2,2,3\n",
     0,
     {"wire_strength.csv:3:2: diameter: it is not more than in the row before"}},
    {"rows of a material apart",
     MENSUR_TABLE_WIRES,
     WIRES "steel,0.3,2,3\nbrass,0.2,2,3\nsteel,0.4,2,3\n",
     0,
     {"wire_strength.csv:4:1: material: the rows of one material stand together"}},
    {"a player without stature or arm",
     MENSUR_TABLE_PLAYERS,
     PLAYERS "small,,300,,,,\n",
     0,
     {"players.csv:2:2: stature: the cell is empty"}},
    {"a giant",
     MENSUR_TABLE_PLAYERS,
     PLAYERS "tall,3.2 m,,,,,\n",
     0,
     {"players.csv:2:2: stature: \"3.2 m\" is out"}},
    {"yaw over 180 degrees",
     MENSUR_TABLE_PLAYERS,
     PLAYERS "small,1600,,,181,,\n",
     0,
     {"players.csv:2:5: yaw: it is out of its range, which is -180 to 180"}},
    {"a year of birth for an age",
     MENSUR_TABLE_PLAYERS,
     "name,stature,age\nyoung,1330,2017\n",
     0,
     {"players.csv:2:3: age: it is out of its range, which is up to 120 years"}},
    {"no age at all",
     MENSUR_TABLE_PLAYERS,
     "name,stature,age\nyoung,1330,0\n",
     0,
     {"players.csv:2:3: age: \"0\" is out of its range, which is more than 0"}},
    {"an age in words",
     MENSUR_TABLE_PLAYERS,
     "name,stature,age\nyoung,1330,nine\n",
     0,
     {"players.csv:2:3: age: \"nine\" is not"}},
};

static void refuses(void **state) {
    (void)state;
    check_refusals(refusals, COUNT_OF(refusals));
}

static void keeps_families_and_tunings(void **state) {
    (void)state;
    const struct given given[] = {
        {MENSUR_TABLE_INSTRUMENTS, "name,string_length\nx,372\n", 0},
        {MENSUR_TABLE_FAMILIES,
         FAMILIES "viola,chin,5,1 2.5  4,4.2 \xC2\xB1"
                  "0.1,-1\ncello,knee,3,1,,\n",
         0},
        {MENSUR_TABLE_TUNINGS, "name,notes\nviola,\"C3, G3  D4;A4\"\none,F#3\n", 0}};
    struct outcome got;
    const char *const warnings[] = {"families.csv:2:5: edge: the \xC2\xB1 is not used", NULL};
    read_tables(given, COUNT_OF(given), &got);
    check_status("open", got.status, MENSUR_OK);
    check_messages("warnings", &got.report.warnings, warnings);
    const struct mensur_family *viola = mensur_stock_family(&got.shop.stock, "viola");
    const struct mensur_family *cello = mensur_stock_family(&got.shop.stock, "cello");
    assert_int_equal(viola->held, MENSUR_CHIN);
    assert_int_equal(cello->held, MENSUR_KNEE);
    check_close("frame", cello->frame_semitones, 3, 0, 0);
    assert_int_equal(viola->position_count, 3);
    check_close("position", viola->positions[1].first, 2.5, 0, 0);
    check_close("edge", viola->usual[MENSUR_FIELD_EDGE], 0.0042, 0, 1e-15);
    check_close("edge", cello->usual[MENSUR_FIELD_EDGE], NAN, 0, 0);
    check_close("nut", viola->usual[MENSUR_FIELD_NUT], NAN, 0, 0);
    check_close("offset", viola->clearance_high_offset, -0.001, 0, 1e-15);
    check_close("offset", cello->clearance_high_offset, 0, 0, 0);
    check_close("offset", viola->clearance_low_offset, 0, 0, 0);
    const struct mensur_tuning *tuning = mensur_stock_tuning(&got.shop.stock, "viola");
    assert_int_equal(tuning->count, 4);
    assert_string_equal(tuning->notes[0].name, "C3");
    assert_string_equal(tuning->notes[3].name, "A4");
    assert_int_equal(mensur_stock_tuning(&got.shop.stock, "one")->count, 1);
    clear_outcome(&got);
}

/* Without offsets they follow from the outer clearances; spreads of shares are parts of them. */
static void keeps_usual_values(void **state) {
    (void)state;
    const struct given given[] = {
        {MENSUR_TABLE_INSTRUMENTS, "name,string_length\nx,372\n", 0},
        {MENSUR_TABLE_FAMILIES,
         "name,held,frame_semitones,positions,stop,neck,board_share,clearance_low,clearance_high,"
         "arch,arch_spread,board_length_spread,neck_semitones,air_note\n"
         "violin,chin,5,1 2,195,130,0.823,5.5,3.5,11.5,1,0.01,8,275\n",
         0}};
    struct outcome got;
    read_tables(given, COUNT_OF(given), &got);
    check_status("open", got.status, MENSUR_OK);
    const struct mensur_family *violin = mensur_stock_family(&got.shop.stock, "violin");
    check_close("stop", violin->usual[MENSUR_FIELD_STOP], 0.195, 0, 1e-15);
    check_close("share", violin->board_share, 0.823, 0, 0);
    check_close("high", violin->clearance_high_offset, -0.001, 0, 1e-12);
    check_close("low", violin->clearance_low_offset, 0.001, 0, 1e-12);
    check_close("spread", violin->spread[MENSUR_FIELD_ARCH], 0.001, 0, 1e-15);
    check_close("part", violin->spread[MENSUR_FIELD_BOARD_LENGTH], 0.01, 0, 0);
    check_close("none", violin->spread[MENSUR_FIELD_NUT], NAN, 0, 0);
    check_close("semitones", violin->neck_semitones, 8, 0, 0);
    check_close("Hz", violin->usual[MENSUR_FIELD_AIR_NOTE], 275, 0, 0);
    clear_outcome(&got);
}

/* A family that is like another takes what is usual in it, but not its neck where it says itself
 * how many semitones are on the neck: that gives it. */
static void takes_like(void **state) {
    (void)state;
    const struct given given[] = {
        {MENSUR_TABLE_INSTRUMENTS, "name,string_length\nx,372\n", 0},
        {MENSUR_TABLE_FAMILIES,
         "name,held,frame_semitones,positions,stop,neck,edge,like,neck_semitones\n"
         "violin,chin,5,1 2,195,130,4,,\nlong,chin,5,1 2,195,,,violin,\n"
         "viol,knee,5,1 2,195,,,violin,7\n",
         0}};
    struct outcome got;
    read_tables(given, COUNT_OF(given), &got);
    check_status("open", got.status, MENSUR_OK);
    const struct mensur_family *like = mensur_stock_family(&got.shop.stock, "long");
    const struct mensur_family *viol = mensur_stock_family(&got.shop.stock, "viol");
    check_close("edge", like->usual[MENSUR_FIELD_EDGE], 0.004, 0, 1e-15);
    check_close("neck", like->usual[MENSUR_FIELD_NECK], 0.13, 0, 1e-15);
    check_close("edge", viol->usual[MENSUR_FIELD_EDGE], 0.004, 0, 1e-15);
    check_close("neck", viol->usual[MENSUR_FIELD_NECK], NAN, 0, 0);
    clear_outcome(&got);
}

/* Units in heads, with the signs that people write them with. */
static void keeps_units_of_heads(void **state) {
    (void)state;
    const struct given given[] = {
        {MENSUR_TABLE_INSTRUMENTS, "name,string_length\nx,372\n", 0},
        {MENSUR_TABLE_MATERIALS,
         "name,density (g/cm\xC2\xB3),modulus [MPa]\ngut,1.3,5500\nsilver,10490 kg/m3,\n", 0},
        {MENSUR_TABLE_STRINGS, "name,note,linear_density\na,A4,1.8\n", 0},
        {MENSUR_TABLE_PLAYERS, "name,stature,yaw (\xC2\xB0)\na,1700,45\n", 0}};
    struct outcome got;
    read_tables(given, COUNT_OF(given), &got);
    check_status("open", got.status, MENSUR_OK);
    check_close("density", got.shop.stock.materials[0].density, 1300, 0, 1e-15);
    check_close("modulus", got.shop.stock.materials[0].modulus, 5.5e9, 0, 1e-15);
    check_close("density", got.shop.stock.materials[1].density, 10490, 0, 1e-15);
    check_close("yaw", mensur_stock_player(&got.shop.stock, "a")->yaw.value, PI / 4, 0, 1e-15);
    clear_outcome(&got);
}

/* What names a row of a table that is wrong itself is not blamed for it. */
static void blames_sound_tables_alone(void **state) {
    (void)state;
    const struct given given[] = {
        {MENSUR_TABLE_FAMILIES, FAMILIES "viola,chin,0,1 2,4,-1\n", 0},
        {MENSUR_TABLE_SIZES, SIZES "tiny,violn,,150,160,105\n", 0},
        {MENSUR_TABLE_PLAYERS, "name,stature\nsmall,x\n", 0},
        {MENSUR_TABLE_SETTINGS, SETTINGS "player,smal\n", 0},
        {MENSUR_TABLE_INSTRUMENTS,
         "name,model_size,stop,neck,bridge\na,tinny,,,33\nb,,195,,33\nc,,195,130,x\n", 0}};
    const char *const wanted[] = {"families.csv:2:3: frame_semitones: \"0\" is out of its range",
                                  "sizes.csv:2:5: stop: it is not less than the body",
                                  "players.csv:2:2: stature: \"x\" is not",
                                  "instruments.csv:4:5: bridge: \"x\" is not", NULL};
    struct outcome got;
    read_tables(given, COUNT_OF(given), &got);
    check_status("open", got.status, MENSUR_DATA);
    check_messages("sound tables", &got.report.errors, wanted);
    clear_outcome(&got);
}

static void keeps_materials_and_players(void **state) {
    (void)state;
    const struct given given[] = {
        {MENSUR_TABLE_INSTRUMENTS, "name,string_length\nx,372\n", 0},
        {MENSUR_TABLE_STRINGS, "name,note,linear_density\na,A4,1.8\n", 0},
        {MENSUR_TABLE_MATERIALS, MATERIALS "gut,1.3 g/cm3,5.5,320,1200,1400\nodd,,,,,\n", 0},
        {MENSUR_TABLE_WIRES, WIRES "steel,0.2,2750,3040\nsteel,0.3,2600,2900\nbrass,0.1,600,800\n",
         0},
        {MENSUR_TABLE_PLAYERS,
         "name,stature,upper_arm,forearm,yaw,rest_side,hand,age\n"
         "a,1700 \xC2\xB1"
         "5,,,45,-20,,\nb,,300,250,,,7.5in,8.5\n",
         0}};
    struct outcome got;
    read_tables(given, COUNT_OF(given), &got);
    check_status("open", got.status, MENSUR_OK);
    assert_int_equal(got.report.warnings.count, 0);
    const struct mensur_stock *stock = &got.shop.stock;
    check_close("density", stock->materials[0].density, 1300, 0, 1e-15);
    check_close("modulus", stock->materials[0].modulus, 5.5e9, 0, 1e-15);
    check_close("strength", stock->materials[0].strength, 3.2e8, 0, 1e-15);
    check_close("unknown", stock->materials[1].density, NAN, 0, 0);
    /* 1200 to 1400: 100/3^0.5 */
    check_close("spread", stock->materials[0].density_spread, 57.7350269189626, 0, 1e-14);
    check_close("no range", stock->materials[1].density_spread, NAN, 0, 0);
    assert_int_equal(stock->wire_count, 3);
    check_close("wire", stock->wires[1].diameter, 0.0003, 0, 1e-15);
    check_close("wire", stock->wires[1].strength_high, 2.9e9, 0, 1e-15);
    const struct mensur_player *a = mensur_stock_player(stock, "a");
    const struct mensur_player *b = mensur_stock_player(stock, "b");
    check_close("stature", a->stature.value, 1.7, 0, 1e-15);
    check_close("stature", a->stature.plus_minus, 0.005, 0, 1e-15);
    check_close("yaw", a->yaw.value, PI / 4, 0, 1e-15);
    check_close("rest", a->rest_side.value, -0.02, 0, 1e-15);
    check_close("forearm", a->forearm.value, NAN, 0, 0);
    check_close("forearm", b->forearm.value, 0.25, 0, 1e-15);
    check_close("hand", b->hand.value, 0.1905, 0, 1e-15);
    check_close("yaw", b->yaw.value, NAN, 0, 0);
    check_close("age", a->age, NAN, 0, 0);
    check_close("age", b->age, 8.5, 0, 0);
    clear_outcome(&got);
}

/* Names and words in any capitals, spelt as in the list; an empty value sets nothing. */
static void keeps_settings(void **state) {
    static const struct {
        const char *name, *value;
        enum mensur_setting_id which;
    } wanted[] = {{"a4", "442,5", MENSUR_SETTING_A4},
                  {"force_unit", "N", MENSUR_SETTING_FORCE_UNIT},
                  {"hold", "slope", MENSUR_SETTING_HOLD},
                  {"player", NULL, MENSUR_SETTING_PLAYER},
                  {"heading", "M\xC3\xBCller; \"Raben\"", MENSUR_SETTING_HEADING}};
    struct outcome got;
    (void)state;
    read_table(MENSUR_TABLE_SETTINGS,
               "Name;Value\nA4;442,5\nForce_Unit;n\nhold;Slope\nplayer;\n"
               "heading;\"M\xC3\xBCller; \"\"Raben\"\"\"\n",
               0, &got);
    check_status("settings", got.status, MENSUR_OK);
    assert_int_equal(got.report.warnings.count, 0);
    assert_int_equal(got.shop.stock.setting_count, COUNT_OF(wanted));
    for (size_t i = 0; i < COUNT_OF(wanted); i++) {
        const struct mensur_setting *setting = &got.shop.stock.settings[i];
        assert_string_equal(setting->name, wanted[i].name);
        assert_int_equal(setting->which, wanted[i].which);
        if (wanted[i].value == NULL) {
            assert_null(setting->value);
        } else {
            assert_string_equal(setting->value, wanted[i].value);
        }
    }
    clear_outcome(&got);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(refuses),
        cmocka_unit_test(keeps_families_and_tunings),
        cmocka_unit_test(keeps_usual_values),
        cmocka_unit_test(takes_like),
        cmocka_unit_test(keeps_units_of_heads),
        cmocka_unit_test(blames_sound_tables_alone),
        cmocka_unit_test(keeps_materials_and_players),
        cmocka_unit_test(keeps_settings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
