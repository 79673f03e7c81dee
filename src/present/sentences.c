/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The sentences that answers say, a row each. In braces, N being a place from 0:
 *   {N}  name N       {other} {first}  names 0 and 1, or what an instrument is called that changed
 *   {Nk} name N, a note, as a neck is named by it: "a D", "an E-flat"
 *   {Nw} name N as a wish is called   {Ns} the letter of a string: the A of A4
 *   {NL} length that is cut or set (in inches a fraction) with its unit   {Nl} without it
 *   {NB} a length of the body, whole mm (in inches to one decimal)
 *   {NA} a length's amount (in inches a decimal) with the unit
 *   {NF} force with its unit, in a full answer in N too
 *                                 {NP} percent off 1, without sign, whole from 10 on   {Nc} a count
 *   {N1} to one decimal         {NS} the same, to two where it is under 0.1   {Na} its amount
 *   {Nd} whole degrees          {ND} their amount
 *   {NR} neck : stop            {Nf} name N, a measurement's, as words
 *   {N?above|below|none} by the number's sign; none may be missing
 *   {N>above|below} by the number against 1   {N#one|two|three} by the number
 *   {N!words} where name N is given   {-words} where the program's options may be named
 */
#include "sentences.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figures.h"
#include "letters.h"
#include "number.h"
#include "quantity.h"
#include "shown.h"

/* Where a note of the air stands above the lowest string; usual on violins, and 3 to 4 semitones
 * above that on violas and cellos: Hutchins 1967. */
#define AIR_PLACE                                                                                  \
    "{2?, {21} semitones above its lowest string{3# (usual on a violin: 6 to 7)| (usual on "       \
    "violas and cellos: 9 to 11)|}||}"

/* A fact of group 0 begins a sentence. Others continue the one before: behind a comma where that
 * was of the same group, behind nothing where it ends in a blank, else behind a semicolon. */
static const struct {
    int group;
    const char *text;
} sentences[MENSUR_FACT_KIND_COUNT] = {
    [MENSUR_FACT_CLEARANCE_SMALL] = {0, "{0}: the strings stand only {0L} above the end of the "
                                        "board; they will rattle on it"},
    [MENSUR_FACT_BRIDGE_AGAINST_CLEARANCE] = {0, "{0}: bridge is {0L}, but the clearances given "
                                                 "would want one of {1L}; measure again"},
    [MENSUR_FACT_SLIP] = {0, "{0}: {1}: {2}"},
    [MENSUR_FACT_LENGTH_AGAINST_GEOMETRY] = {0, "{0}: the string was measured as {0L}, but its "
                                                "other measurements give {1L}; one of them is "
                                                "off"},
    [MENSUR_FACT_NO_FAMILY] = {0, "{0}: no reach and no positions are given, because it names no "
                                  "family"},
    [MENSUR_FACT_PITCH_UNUSUAL] = {0, "A4 at {01} Hz lies outside 380 to 480 Hz"},
    [MENSUR_FACT_OWN_PITCH] = {0, "A4 is {01} Hz where {0} has one of its own, and {11} Hz "
                                  "elsewhere"},
    [MENSUR_FACT_LENGTH_ALONE] = {0, "{0}: only its string length is known; what needs stop, neck "
                                     "and set-up is left open"},
    [MENSUR_FACT_SET_LACKS_NOTE] = {0, "{0}: the set \"{1}\" has no string for {2}"},
    [MENSUR_FACT_SLACK_UNKNOWN] = {0, "{0}: the density of \"{1}\" holds for the slack string, and "
                                      "without modulus and core its tension cannot be told"},
    [MENSUR_FACT_WOULD_BREAK] = {0, "{0}: \"{1}\" would break before it reaches {2}"},
    [MENSUR_FACT_NEAR_BREAKING] = {0, "{0}: \"{1}\" is within a semitone of breaking at {2}"},

    [MENSUR_FACT_STRINGS_BREAK] = {0, "The {0?strings|string} for {0} would break before {0?they "
                                      "are|it is} in tune"},
    [MENSUR_FACT_STRINGS_HOLD] = {0, "No string breaks: nearest to it is the one for {0}, {01} "
                                     "semitones from breaking"},
    [MENSUR_FACT_STRENGTHS_UNKNOWN] = {0, "Whether the string for {0} breaks is not known: its "
                                          "strength is not"},
    [MENSUR_FACT_STRING_TUNED_TO] = {0, "The string of {0} is tuned to {1}: {1F} of tension, {2P} "
                                        "{2>more|less} than at {0}"},
    [MENSUR_FACT_SLOPE_HELD] = {0, "The bridge moves and the neck keeps its slope: the projection "
                                   "goes from {0l} to {1L}, and under the bridge of {3L} the "
                                   "strings stand {2A} {2?higher|lower} above the board's end (a "
                                   "bridge of {4L} would keep their clearance)"},
    [MENSUR_FACT_SLOPE_HELD_CLEARANCE] = {0, "The bridge moves and the neck keeps its slope: the "
                                             "projection goes from {0l} to {1L}; the clearance at "
                                             "the board's end is kept"},
    [MENSUR_FACT_NEW_NECK] = {0, "{0} is built: this is a new neck, set to the projection"},
    [MENSUR_FACT_NECK_RESET] = {0, "{0} is built: its neck is set anew"},

    [MENSUR_FACT_BODY_AGAINST_STRING] = {0, "{other} has the {0?longer|shorter} back (by {0A}), "
                                            "yet the {1?longer|shorter} string (by {1A}): the "
                                            "string follows stop and neck, not the back"},
    [MENSUR_FACT_REACH_SAME_BODY] = {0, "The backs are the same, yet on {other} the left hand is "
                                        "{0A} {0?farther from|nearer to} the body's lower end"},
    [MENSUR_FACT_REACH_AGAINST_STRING] = {0, "{other} has the {0?longer|shorter} string (by {0A}), "
                                             "yet the left hand is {1?farther out|nearer} (by "
                                             "{1A})"},
    [MENSUR_FACT_BOTH_REACHES] = {0, "On {other} the left hand reaches {0A} {0?farther|less far}, "
                                     "the bow arm {1A} {1?farther|less far}"},
    [MENSUR_FACT_FRET_TAKEN] = {0, "Fret {0} stands for two notes: the {1} one is taken, {0A} from "
                                   "the nut; the other one lies at {1A}{- (--fret {2})}"},
    [MENSUR_FACT_FINGERS_APART] = {0, "On {other} all fingers stand {0P} {0>wider|closer}, because "
                                      "every spacing goes as the string length; moved {1S} "
                                      "semitones up, the hand on {2?{other}|{first}} spans just "
                                      "what it spans on {2?{first}|{other}}"},
    [MENSUR_FACT_FRAMES_ALIKE] = {0, "In position 1 the hand on {0?{other}|{first}} spans {1L}, "
                                     "what it spans on {0?{first}|{other}} in position {2}"},
    [MENSUR_FACT_BODY_NOTES] = {0, "On {other} the hand meets the body {01} semitones above the "
                                   "open string, on {first} {11}"},
    [MENSUR_FACT_SAME_STRINGS_TENSION] =
        {0, "The same strings have {0P} {0>more|less} tension on {other}: "
            "tension goes as the square of the length"},
    [MENSUR_FACT_TENSION_AGAINST_STRING] =
        {0, "{other} has the {1?longer|shorter} string, yet its "
            "strings have {0P} {0>more|less} tension in all: they are "
            "{0>heavier|lighter} ones"},
    [MENSUR_FACT_TENSIONS] = {0, "The strings of {other} have {0P} {0>more|less} tension in all"},
    [MENSUR_FACT_BELLY_FORCES] = {0, "The strings press the belly of {other} {0P} "
                                     "{0>harder|less hard}{1?; see the caution|}"},
    [MENSUR_FACT_OUTSIDE_MADE_FOR] = {0, "The strings of {other} are made for {4#{0l} to {1L}|{0L} "
                                         "and more|up to {1L}}; on its "
                                         "{2L} they are {3?tighter|slacker} than their maker "
                                         "meant"},
    [MENSUR_FACT_AIR_APART] = {0, "The air in {other} sounds about {0a} semitones "
                                  "{0?higher|lower} than in {first}, give or take 0.3{1?, at "
                                  "about {1c} Hz||}" AIR_PLACE},
    [MENSUR_FACT_AIR_ALIKE] = {0, "The air in {other} sounds as in {first}: they are less than "
                                  "0.3 semitones apart, which is no difference{1?, at about {1c} "
                                  "Hz||}" AIR_PLACE},
    [MENSUR_FACT_AIR_UNMEASURED] = {0, "The air in the bodies is not compared: of {0} these were "
                                       "not measured: {1f}"},
    [MENSUR_FACT_AIR_OF_ANOTHER_MAKE] = {0, "The air in the bodies is not compared: {0} has "
                                            "{0#a flat back|cut shoulders, as basses have}, and "
                                            "the law holds for an arched back with a violin's "
                                            "shoulders and corners"},
    [MENSUR_FACT_AIR_TOO_UNLIKE] = {0, "The air in the bodies is not compared: {0#they are of two "
                                       "families|they are too far apart in size}"},
    [MENSUR_FACT_SPACING] = {0, "Every spacing is a fixed share of the string length, here {0L}: a "
                                "string longer by 1 % sets all fingers 1 % wider"},
    [MENSUR_FACT_BODY_NOTE] = {0, "The hand meets the body {01} semitones up, {1?between {0} and "
                                  "{2}|at {0}} on the {1s} string"},

    [MENSUR_FACT_ELBOWS_APART] = {0,
                                  "On {1} the elbow of {0} {0?opens|closes} by about {0D} ± {1d} "
                                  "degrees from about {2d} ± {3d} on {2}"},
    [MENSUR_FACT_ELBOWS_ALIKE] = {0, "On {1} the elbow of {0} stands as on {2}, at about {0d} ± "
                                     "{1d} degrees"},
    [MENSUR_FACT_ELBOW] = {0, "On {0} the elbow of {1} stands at about {0d}{1? ± {1d} degrees|| "
                              "degrees, nearly stretched}"},
    [MENSUR_FACT_ELBOW_STRETCHED] = {0, "On {0} the arm of {1} is about stretched: {0L} from the "
                                        "shoulder to the wrist, where upper arm and forearm make "
                                        "{1L}"},
    [MENSUR_FACT_ELBOW_FOLDED] = {0, "On {0} the arm of {1} is folded as far as it goes"},
    [MENSUR_FACT_NO_ARM_MODEL] = {0,
                                  "{0}: there is no arm model for a {1}, which is not held under "
                                  "the chin; its string is {0L}{1?, the hand's frame in "
                                  "position 1 is {1L}||}"},
    [MENSUR_FACT_NO_LEFT_REACH] = {0, "{0}: its left reach is not known, so no arm is computed; "
                                      "its string is {0L}{1?, the hand's frame in position 1 is "
                                      "{1L}||}"},
    [MENSUR_FACT_REACHES_APART] = {0, "On {1} the left arm reaches {0?{0A} farther|{0A} less "
                                      "far|just as far}, the bow arm {1?{1A} farther|{1A} less "
                                      "far|just as far}"},
    [MENSUR_FACT_FRAMES_APART] = {0, "In position 1 the hand stands {0A} {0?wider|closer} on {0} "
                                     "than on {1}"},
    [MENSUR_FACT_FRAME_TOO_WIDE] = {0, "On {0} the hand's frame is wider than the span of {0L} in "
                                       "position {1} (up to {1L}): there the hand must shift or "
                                       "stretch"},
    [MENSUR_FACT_FRAME_WITHIN] = {0, "On {0} every position lies within the hand's span of {0L}"},
    [MENSUR_FACT_FRAMES_WITHIN] = {0,
                                   "On each of them every position lies within the hand's span of "
                                   "{0L}"},
    [MENSUR_FACT_CHILD_FITS] = {0, "On a child's size that fits, the elbow stands under about 105 "
                                   "degrees (a rule of our own)"},

    [MENSUR_FACT_SIZE_ELBOW] =
        {0, "{0}: {0?elbow about {0d}{1? ± {1d}||} degrees||the arm as measured "
            "would be folded, so measure upper arm and forearm again}{1!; on "
            "{1} {2?it would be {2d}||the arm would be about stretched}}"},
    [MENSUR_FACT_SIZE_OVER] = {0, "{0} is the smallest size here, and on it {0?the elbow stands at "
                                  "about {0d}{1? ± {1d}||} degrees, over 105||the arm is about "
                                  "stretched}"},
    [MENSUR_FACT_SIZES_OF_ADULT] = {0, "From {0} to {1} the elbow opens from {0?about {0d} "
                                       "degrees||folded} to {1?about {1d}||stretched}; adults are "
                                       "compared, no size fits or does not"},
    [MENSUR_FACT_SIZE_BY_STATURE] = {0, "{0}{1! or {1}}, by a stature of {0B}: common practice, "
                                        "from memory; there is no arm model for a {2}"},
    [MENSUR_FACT_SIZE_TOO_SHORT] = {0, "{0} is the smallest size here, usual from a stature of "
                                       "{1B}; this one is {0B} (common practice, from memory; no "
                                       "arm model)"},
    [MENSUR_FACT_SIZE_LARGEST] = {0, "{0} is the largest size here"},
    [MENSUR_FACT_SIZES_OPEN] = {0, "Within the ± either answer holds on {0}{0?|: measure upper_arm "
                                   "and forearm to be surer|}"},
    [MENSUR_FACT_SIZE_WHEN] = {0,
                               "Next {0}: at {2?a stature of|upper arm and forearm together of|} "
                               "about {0B}{1?, at about {11} years if growth goes on as the mean "
                               "of children||}"},
    [MENSUR_FACT_SIZE_AGE_UNKNOWN] = {0, "No age: an adult's proportions; adults are compared, "
                                         "nothing fits for them"},
    [MENSUR_FACT_SIZE_RULE] = {0, "The size is the largest on which the elbow stands under about "
                                  "105 degrees, a rule of our own. A teacher's published view: 90 "
                                  "is comfortable, 120 and over a hindrance (Journal of the "
                                  "American Viola Society, Spring 2025)"},

    [MENSUR_FACT_ARM_MEASURED] = {0, "The arm was measured"},
    [MENSUR_FACT_ARM_OF_ADULTS] = {0, "Of the stature: upper arm {01} %, forearm {11} %, hand {21} "
                                      "%"},
    [MENSUR_FACT_ARM_OF_CHILDREN] = {0, "Of the stature at {31} years: upper arm {01} %, forearm "
                                        "{11} %, hand {21} %"},
    [MENSUR_FACT_ARM_OF_SEGMENTS] = {0, "Of upper arm and forearm: hand {21} %"},
    [MENSUR_FACT_REST_IS_OURS] = {1,
                                  "rest, yaw and wrist ({0c} % of a hand before the nut, {1c} to "
                                  "{2c} %) are ours, no source"},
    [MENSUR_FACT_WRIST_IS_OURS] = {1, "the wrist ({0c} % of a hand before the nut, {1c} to {2c} %) "
                                      "is ours, no source"},

    [MENSUR_FACT_PLACE_MADE_FOR] = {0, "a {5?stop|neck} of {0L} gives {1A} of string: it meets "
                                       "every wish, and lies {4?in|as near as the wishes surely "
                                       "allow to} the middle of what its strings are made for "
                                       "({2l} to {3L})"},
    [MENSUR_FACT_PLACE_BY_LIKE] = {0, "a {2?stop|neck} of {0L} gives {1A} of string: it meets "
                                      "every wish, and comes nearest to the liked instrument's "
                                      "string"},
    [MENSUR_FACT_PLACE_BY_LENGTH] = {0, "a {2?stop|neck} of {0L} gives {1A} of string: it meets "
                                        "every wish, and comes nearest to the middle of the wished "
                                        "length"},
    [MENSUR_FACT_PLACE_BY_PRESENT] = {0, "a {2?stop|neck} of {0L} gives {1A} of string: it meets "
                                         "every wish, and lies nearest the present one"},
    [MENSUR_FACT_WISHES_CONFLICT] = {0, "no {3?stop|neck} meets every wish: the wish for the {0w} "
                                        "allows {0L} at most, the wish for the {1w} needs {1L} at "
                                        "least; {2L} lie between"},
    [MENSUR_FACT_WISH_UNREACHABLE] = {0, "no {2?stop|neck} from {0l} to {1L} meets the wish for "
                                         "the {0w}"},
    [MENSUR_FACT_WISH_UNMOVED] = {0, "no stop meets the wish for the {0w}: it stays {0A} whatever "
                                     "the stop, and follows the neck"},
    [MENSUR_FACT_WISHES_EXCLUDE] = {0, "the wishes exclude each other"},
    [MENSUR_FACT_LEFT_WITHIN] = {0, "{2#any {4?stop|neck} from {0l} to {1L} meets|any "
                                    "{4?stop|neck} of {0L} or more meets|any {4?stop|neck} up to "
                                    "{1L} meets|the {4?stop|neck} decides nothing about} "
                                    "{3?every wish|the wish}"},
    [MENSUR_FACT_LEFT_ASIDE] = {1, "{0L} would lie nearer the middle of {1?what its strings are "
                                   "made for|the wished length}, which is no reason to change it"},
    [MENSUR_FACT_LEFT_MADE_FOR] = {2, "this one gives {1A}"},
    [MENSUR_FACT_LEFT_BUILT] = {0, "it is built, and nothing is wished of it"},
    [MENSUR_FACT_LEFT_USUAL] = {0, "it is the usual one, and {1?its strings have no length in "
                                   "common that they are made for|no strings are known}"},
    [MENSUR_FACT_LEFT_NOTHING] = {0, "nothing is wished, and neither a length that its strings are "
                                     "made for nor a usual neck : stop is known"},
    [MENSUR_FACT_PLACE_INSIDE] = {2, "{0L}, which gives {1A}, is nearest to the present one of "
                                     "those that lie surely inside"},
    [MENSUR_FACT_PLACE_USUAL] = {0, "it is the usual one, and no more than that: {1?its strings "
                                    "have no length in common that they are made for|no strings "
                                    "are known}"},
    [MENSUR_FACT_MADE_FOR_IS] =
        {1, "its strings are made for {4#{0l} to {1L}, a {5?stop|neck} of {2l} to "
            "{3L}|{0L} and more, a {5?stop|neck} of {2L} and more|up to "
            "{1L}, a {5?stop|neck} up to {3L}|another length than any "
            "{5?stop|neck} gives}"},
    [MENSUR_FACT_USUAL_IS] = {3, "the usual {2?stop for this neck|neck for this stop} is {0L} "
                                 "({1R})"},
    [MENSUR_FACT_OUTSIDE_RANGE] = {3, "{5?{0L} is {3?longer|shorter} than that|its strings are "
                                      "made for {4#{1l} to {2L}|{1L} and more|up to {2L}|another "
                                      "length}, so that this one is {3?long|short} for them}"},

    [MENSUR_FACT_FINGERS_MOVE] = {0, "the fingers stand {0P} {0>wider|closer}"},
    [MENSUR_FACT_LEFT_MOVES] = {0, "the left hand reaches {0A} {0?farther|less far}"},
    [MENSUR_FACT_BOW_MOVES] = {0, "the bow arm reaches {0A} {0?farther|less far}"},
    [MENSUR_FACT_BOW_ROOM_MOVES] = {0, "the bow has {0A} of room ({3?as proposed|now} {1A}"
                                       "{2?; the board stays|})"},
    [MENSUR_FACT_NOTE_MOVES] = {0, "the hand meets the body {01} semitones above the open string "
                                   "({2?as proposed|now} {11})"},
    [MENSUR_FACT_HEEL_MOVES] = {0, "{1} on the {2s} string, instead of {0}, lies under the first "
                                   "finger with the thumb in the heel{0?: {0k} neck becomes {1k} "
                                   "neck|}"},
    [MENSUR_FACT_TENSION_MOVES] = {0, "the same strings have {0P} {0>more|less} tension"},

    [MENSUR_FACT_LIKELY] = {0, "{1#very likely|likely|not sure} ({0c} %) to meet "
                               "{2#the wish|every wish}{0!; measure the {0f} better before "
                               "anything is cut}"},
    [MENSUR_FACT_ENDS] = {1, "{5?what meets it {4#begins at {0l} ±" MENSUR_NO_BREAK
                             "{1A} and ends at {2l} ±" MENSUR_NO_BREAK
                             "{3A}|begins at {0l} ±" MENSUR_NO_BREAK
                             "{1A}|ends at {2l} ±" MENSUR_NO_BREAK
                             "{3A}|has no end}|the first wish ends at {3?{2l} ±" MENSUR_NO_BREAK
                             "{3A}||{2L}}, the second begins at {1?{0l} ±" MENSUR_NO_BREAK
                             "{1A}||{0L}}} (one standard uncertainty)"},
    [MENSUR_FACT_FINE_ENOUGH] = {1, "the measurements are fine enough to tell"},
    [MENSUR_FACT_COARSE_CONFLICT] = {1, "the measurements are too coarse to tell whether the "
                                        "wishes conflict. Measure the {0f} better before anything "
                                        "is cut"},

    [MENSUR_FACT_AIM] = {0, "The aim is "},
    [MENSUR_FACT_AIM_WISHED] = {1, "{0!for {0} }the middle of the wished tension"},
    [MENSUR_FACT_AIM_LIKED] = {2, "{0!for {0} }the tension of the strings of {1}"},
    [MENSUR_FACT_AIM_IMPEDANCE] = {2, "{0!for {0} }the wave impedance, how hard a string is to set "
                                      "moving, of the strings of {1}"},
    [MENSUR_FACT_AIM_EACH] = {3, "{0!for {0} }the tension of each of the present strings ({1}) in "
                                 "the middle of the range of length that it is made for"},
    [MENSUR_FACT_AIM_MADE_FOR] = {3, "{0!for {0} }the tension of the present strings ({1}) on "
                                     "{0L}, the middle of the range that they are made for"},
    [MENSUR_FACT_AIM_FAMILY] = {3, "{0!for {0} }the tension of the set {1} on the {0L} that it is "
                                   "made for, in proportion to this length, because no strings "
                                   "are named for this instrument{1?, and at {1c} Hz gut comes "
                                   "first|}"},
    [MENSUR_FACT_AIM_PROFILE] = {3, "{0!for {0} }{1?each string {0P} over its upper neighbour|each "
                                    "string {0P} under its upper neighbour|the same tension on "
                                    "every string}"},
    [MENSUR_FACT_AIM_NONE] = {4, "{0!for {0} }nothing but evenness from string to string"},
    [MENSUR_FACT_WISH_SLIP] = {7, "{0}: {0c} to {1c} N? write {0}={1}"},
    [MENSUR_FACT_WISH_FAR] = {7, "{0}: far from any string of that note; they have {0F} to {1F} "
                                 "here"},
    [MENSUR_FACT_LOW_PITCH] = {7, "at {0c} Hz these have {1P} less tension than at 440, which "
                                  "modern strings are made for{0!; {0} is made for a low pitch{- "
                                  "(--from \"{0}\")}}"},
    [MENSUR_FACT_NONE_NEARER] = {6, "no other set that meets every wish comes nearer"},
    [MENSUR_FACT_NONE_LIGHTER_NEARER] = {6, "no other set that meets every wish, and presses the "
                                            "belly with at least {0P} less than the limit, comes "
                                            "nearer"},

    [MENSUR_FACT_CHOSEN] = {0, "tension {0F}"},
    [MENSUR_FACT_CHOSEN_AS_WISH] = {0, "tension {0F}, as {1#the wish|the liked string|the aim}"},
    [MENSUR_FACT_CHOSEN_OFF_WISH] = {0, "tension {0F}, {2P} {3?over|under} {1#the wish|the liked "
                                        "string|the aim}"},
    [MENSUR_FACT_RANGE_UNKNOWN] = {1, "the length that it is made for is not known"},
    [MENSUR_FACT_RANGE_FROM] = {1, "made for {0L} and more{1?, which this instrument's string is "
                                   "not|}"},
    [MENSUR_FACT_RANGE_UPTO] = {1, "made for {0L} and less{1?, which this instrument's string is "
                                   "not|}"},
    [MENSUR_FACT_RANGE] = {1, "made for {0l} to {1L}{2?, which this instrument's string is not|}"},
    [MENSUR_FACT_STRENGTH_UNKNOWN] = {2, "its strength is not known, nor how near it is to "
                                         "breaking"},
    [MENSUR_FACT_MARGIN] = {2, "{1?at least |}{01}{2? to {21}|} semitones to breaking"},
    [MENSUR_FACT_KEPT] = {2, "the present string stays"},

    [MENSUR_FACT_MISS_CORE] = {0, "{0#gut|steel|synthetic}"},
    [MENSUR_FACT_MISS_LENGTH] = {0,
                                 "{0!{0} is }made for {2#{0l} to {1L}|{0L} and more|up to {1L}}"},
    [MENSUR_FACT_MISS_MARGIN] = {0, "{0}: {01} semitones to breaking"},
    [MENSUR_FACT_MISS_MARGIN_UNKNOWN] = {0, "{0}: margin to breaking unknown"},
    [MENSUR_FACT_MISS_LIGHT] = {0, "{0}: {0F} under the wish"},
    [MENSUR_FACT_MISS_HEAVY] = {0, "{0}: {0F} over the wish"},
    [MENSUR_FACT_MISS_FORCE] = {0, "{0F} over the limit on the belly"},
    [MENSUR_FACT_LENGTH_COUNTS] = {0, "a millimetre of string length is {1P} of the tension, {0F} "
                                      "in all"},

    [MENSUR_FACT_CATALOGUE_LACKS] = {0, "{0}: the catalogue has no string for it"},
    [MENSUR_FACT_SET_OFFERS_NONE] = {0, "{0}: the set \"{1}\" has no string for it"},
    [MENSUR_FACT_ONLY_ONE_UNFIT] = {0, "{0}: its 1 string does not fit: "},
    [MENSUR_FACT_NONE_FIT] = {0, "{0}: none of {0c} strings fits: "},
    [MENSUR_FACT_SOME_FIT] = {0, "{0}: {0c} of {1c} strings {2?fit|fits}: "},
    [MENSUR_FACT_UNFIT_TENSION_UNKNOWN] = {1, "{0c} {1?have|has} a tension that is not known"},
    [MENSUR_FACT_UNFIT_CORE] = {1, "{0c} {1?have|has} another core"},
    [MENSUR_FACT_UNFIT_LENGTH] = {1, "{0c} {1?are|is} not made for {2L}"},
    [MENSUR_FACT_UNFIT_MARGIN] = {1, "{0c} {1?are|is} nearer to breaking than {21} semitones"},
    [MENSUR_FACT_UNFIT_LIGHT] = {1, "{0c} {1?have|has} less tension than {2F}"},
    [MENSUR_FACT_UNFIT_HEAVY] = {1, "{0c} {1?have|has} more tension than {2F}"},
    [MENSUR_FACT_WOULD_FIT_CORE] = {2, "{0c} of another core would fit{- (--mix, --material)}"},
    [MENSUR_FACT_WOULD_FIT_LENGTH] = {2, "{0c} would fit if strings made for other lengths were "
                                         "allowed"},
    [MENSUR_FACT_WOULD_FIT_MARGIN] = {2, "{0c} would fit with a smaller margin to breaking"},
    [MENSUR_FACT_WOULD_FIT_TENSION] = {2, "{0c} would fit with another wish for the tension"},
    [MENSUR_FACT_FORCE_OVER_LIMIT] = {0, "force on the belly: the lightest strings that meet every "
                                         "other wish press with {0F} in all, {1F} over the limit "
                                         "of {2F}"},

    [MENSUR_FACT_CAUTION_BREAKING] = {0, "little or unknown margin to breaking: keep the face away "
                                         "while tuning"},
    [MENSUR_FACT_CAUTION_BELLY] = {0, "{0P} more force on the belly{1? than it was set up for: "
                                      "ask its restorer|}"},
    [MENSUR_FACT_CAUTION_RESTORER] = {0, "to cut a built instrument is work for a qualified "
                                         "restorer"},
    [MENSUR_FACT_CAUTION_REACH] = {0, "arms are compared here; it is no medical advice"},
};

/* What a wish is called in a sentence. */
static const char *wish_words(const char *what) {
    enum mensur_wish_kind kind;
    return *mensur_wish_of(what, &kind) == '\0' ? mensur_wish_info(kind)->in_sentence : what;
}

/* A sentence on its way. */
struct saying {
    const struct mensur_fact *fact;
    bool inches;
    enum mensur_force_unit force_unit;
    bool newtons_too;
    bool options;     /* of the program may be named */
    double neck_base; /* of neck : stop */
    char *text;       /* owned */
    size_t length;
    size_t room;
    enum mensur_status status;
};

static void put(struct saying *saying, const char *bytes, size_t length) {
    if (saying->status == MENSUR_OK && saying->length + length + 1 > saying->room) {
        size_t room = 2 * (saying->length + length) + 128;
        char *text = realloc(saying->text, room);
        if (text == NULL) {
            saying->status = MENSUR_MEMORY;
        } else {
            saying->text = text;
            saying->room = room;
        }
    }
    if (saying->status == MENSUR_OK && saying->text != NULL) {
        memcpy(saying->text + saying->length, bytes, length);
        saying->length += length;
        saying->text[saying->length] = '\0';
    }
}

static void put_text(struct saying *saying, const char *text) {
    put(saying, text, strlen(text));
}

/* A measurement's name as words. */
static void put_words(struct saying *saying, const char *field) {
    for (; *field != '\0'; field++) {
        put(saying, *field == '_' ? " " : field, 1);
    }
}

static void put_number(struct saying *saying, double value, int decimals, const char *unit) {
    char room[MENSUR_NUMBER_ROOM];
    put(saying, room, mensur_number_print(value, decimals, room));
    if (*unit != '\0') {
        put_text(saying, " ");
        put_text(saying, unit);
    }
}

static void put_length(struct saying *saying, double metres) {
    double mm = mensur_from_si(MENSUR_LENGTH, metres);
    put_number(saying, saying->inches ? mm / MENSUR_MM_PER_INCH : mm, saying->inches ? 2 : 1,
               saying->inches ? "in" : "mm");
}

/* A length of the body. */
static void put_stature(struct saying *saying, double metres) {
    double mm = mensur_from_si(MENSUR_LENGTH, metres);
    put_number(saying, saying->inches ? mm / MENSUR_MM_PER_INCH : mm, saying->inches ? 1 : 0,
               saying->inches ? "in" : "mm");
}

/* A length that is cut or set. */
static void put_cut(struct saying *saying, double metres, bool with_unit) {
    char room[MENSUR_INCHES_ROOM];
    if (!saying->inches) {
        put_number(saying, mensur_from_si(MENSUR_LENGTH, metres), 1, with_unit ? "mm" : "");
        return;
    }
    mensur_inches_print(metres, room);
    put_text(saying, room);
    put_text(saying, with_unit ? " in" : "");
}

static void put_force(struct saying *saying, double newtons) {
    const struct mensur_force_unit_info *info = mensur_force_unit_info(saying->force_unit);
    put_number(saying, newtons / info->newtons, info->decimals, info->name);
    if (saying->newtons_too) {
        put_text(saying, " (");
        put_number(saying, newtons, 1, "N)");
    }
}

/* neck : stop, of a line that may break between. */
static void put_ratio(struct saying *saying, double stop_per_2_neck) {
    const struct mensur_style style = {.neck_base = saying->neck_base};
    struct mensur_shown shown = mensur_show_ratio(&style, stop_per_2_neck);
    const char *text = shown.text;
    for (const char *gap; (gap = strstr(text, MENSUR_NO_BREAK)) != NULL;) {
        put(saying, text, (size_t)(gap - text));
        put_text(saying, " ");
        text = gap + strlen(MENSUR_NO_BREAK);
    }
    put_text(saying, text);
}

/* The number in the way that a letter stands for. */
static void put_as(struct saying *saying, double number, char way) {
    switch (way) {
    case 'L':
    case 'l':
        put_cut(saying, number, way == 'L');
        break;
    case 'B':
        put_stature(saying, number);
        break;
    case 'A':
        put_length(saying, fabs(number));
        break;
    case 'F':
        put_force(saying, number);
        break;
    case 'P':
        put_number(saying, fabs(number - 1.0) * 100.0, fabs(number - 1.0) < 0.1 ? 1 : 0, "%");
        break;
    case 'a':
        put_number(saying, fabs(number), 1, "");
        break;
    case 'c':
        put_number(saying, number, 0, "");
        break;
    case 'R':
        put_ratio(saying, number);
        break;
    case 'd':
    case 'D':
        put_number(saying, mensur_from_si(MENSUR_ANGLE, way == 'D' ? fabs(number) : number), 0, "");
        break;
    default:
        put_number(saying, number, way == 'S' && number < 0.1 ? 2 : 1, "");
    }
}

/* The end of what begins at text: the next of `marks` outside braces. */
static const char *find_end(const char *text, const char *end, const char *marks) {
    int depth = 0;
    for (; text < end; text++) {
        if (depth == 0 && strchr(marks, *text) != NULL) {
            break;
        }
        depth += (*text == '{') - (*text == '}');
    }
    return text;
}

/* These call each other: a branch of a sentence holds places, and one of them no further branch. */
/* NOLINTBEGIN(misc-no-recursion) */
static void say(struct saying *saying, const char *text, const char *end);

/* The branch of that place among those parted by |; the last where there are fewer. */
static void say_branch(struct saying *saying, const char *text, const char *end, int place) {
    const char *behind = find_end(text, end, "|");
    for (; place > 0 && behind < end; place--) {
        text = behind + 1;
        behind = find_end(text, end, "|");
    }
    say(saying, text, behind);
}

static void say_place(struct saying *saying, const char *text, const char *end) {
    const struct mensur_fact *fact = saying->fact;
    if (*text == 'o' || *text == 'f') {
        const char *name = fact->name[*text == 'o' ? 0 : 1];
        const char *changed = *text == 'o' ? "the instrument as proposed" : "the instrument now";
        put_text(saying, name != NULL ? name : changed);
        return;
    }
    int place = *text - '0';
    char way = text + 1 < end ? text[1] : '\0';
    const char *name = place < MENSUR_FACT_NAMES ? fact->name[place] : NULL;
    double number = fact->number[place];
    switch (way) {
    case '\0':
        put_text(saying, name != NULL ? name : "");
        break;
    case 's':
        put(saying, name != NULL ? name : "", name != NULL ? strcspn(name, "0123456789-") : 0);
        break;
    case 'k':
        put_text(saying, mensur_neck_named(name != NULL ? name : "").text);
        break;
    case 'w':
        put_text(saying, wish_words(name));
        break;
    case 'f':
        put_words(saying, name != NULL ? name : "");
        break;
    case '?':
        say_branch(saying, text + 2, end, number > 0.0 ? 0 : number < 0.0 ? 1 : 2);
        break;
    case '>':
        say_branch(saying, text + 2, end, number > 1.0 ? 0 : 1);
        break;
    case '#':
        say_branch(saying, text + 2, end, (int)number - 1);
        break;
    case '!':
        if (name != NULL) {
            say(saying, text + 2, end);
        }
        break;
    default:
        put_as(saying, number, way);
    }
}

static void say(struct saying *saying, const char *text, const char *end) {
    while (text < end) {
        const char *brace = memchr(text, '{', (size_t)(end - text));
        if (brace == NULL) {
            put(saying, text, (size_t)(end - text));
            return;
        }
        put(saying, text, (size_t)(brace - text));
        const char *close = find_end(brace + 1, end, "}");
        if (brace[1] != '-') {
            say_place(saying, brace + 1, close);
        } else if (saying->options) {
            say(saying, brace + 2, close);
        }
        text = close < end ? close + 1 : end;
    }
}

/* NOLINTEND(misc-no-recursion) */

/* Hands the sentence over and begins anew. */
static void finish(struct saying *saying, struct mensur_texts *out) {
    if (saying->length > 0 && saying->status == MENSUR_OK) {
        saying->status = mensur_texts_add(out, "%s", saying->text);
    }
    saying->length = 0;
}

static const char *joint(const struct saying *saying, int group, int before) {
    return saying->text[saying->length - 1] == ' ' ? "" : group == before ? ", " : "; ";
}

enum mensur_status mensur_sentences(const struct mensur_facts *facts,
                                    const struct mensur_style *style, struct mensur_texts *out) {
    bool text = mensur_style_is_prose(style);
    struct saying saying = {.inches = text && style->inches,
                            .force_unit = text ? style->force_unit : MENSUR_FORCE_N,
                            .newtons_too =
                                text && style->full && style->force_unit != MENSUR_FORCE_N,
                            .options = mensur_style_names_options(style),
                            .neck_base = text ? style->neck_base : 0.0};
    int before = 0;
    for (size_t i = 0; i < facts->count; i++) {
        const char *sentence = sentences[facts->items[i].kind].text;
        int group = sentences[facts->items[i].kind].group;
        saying.fact = &facts->items[i];
        if (group == 0) {
            finish(&saying, out);
        } else if (saying.length > 0) {
            put_text(&saying, joint(&saying, group, before));
        }
        say(&saying, sentence, sentence + strlen(sentence));
        before = group;
    }
    finish(&saying, out);
    free(saying.text);
    return saying.status;
}
