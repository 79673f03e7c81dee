/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sources that many formulas share. */
#ifndef MENSUR_FORMULA_SOURCES_H
#define MENSUR_FORMULA_SOURCES_H

#define FROM_GEOMETRY "plane geometry of the side view"
#define FROM_TRADE "common practice, no source"
#define FROM_STATICS "statics"
#define FROM_DEFINITION "definition"
#define FROM_LENGTH "pitch goes as 1/length"
#define FROM_MERSENNE "Mersenne 1636; any acoustics textbook"
#define FROM_SLACK "Hooke: the mass stays while the string stretches"
#define FROM_SCHELLENG "Woodhouse, Euphonics, 9.3.1; Schelleng 1973, from memory"
#define FROM_STRETCH "Pythagoras and Hooke: the stopped string is longer, so tighter and thinner"
#define FROM_STIFF "H. Fletcher 1964; Fletcher and Rossing, both from memory"
#define FROM_AIR_VOLUME "ours; 0.85 set on 2000 cm³ of a violin (McLennan 2008)"
#define FROM_AIR "Nia and others 2015; Shaw 1990, from memory; exponent from McLennan 2008; ours"
#define FROM_SIZES "fitted to published sizes, or common practice: docs/physics.md"
#define FROM_ABOVE "the arm seen from above"
#define FROM_LENGTHS "from the side view: the working of lengths"

#endif
