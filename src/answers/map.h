/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The plane of stop and neck. It is begun with the instrument in question, whose heights and
 * strings its lines are drawn with; then instruments are added, one by one, of which no more is
 * kept than a point; then it is made.
 */
#ifndef MENSUR_MAP_H
#define MENSUR_MAP_H

#include "ask.h"

/* A map under way. */
struct mensur_mapping;

/* Begins a map; everything but the instruments is borrowed until it is made. MENSUR_OK;
 * MENSUR_NO_ANSWER (the instrument has no stop and neck, or a wish cannot be asked of it), with the
 * reason in the fault; MENSUR_USE; MENSUR_MEMORY. */
enum mensur_status mensur_map_begin(const struct mensur_stock *stock,
                                    const struct mensur_instrument *instrument,
                                    const struct mensur_wishes *wishes,
                                    const struct mensur_terms *terms, struct mensur_fault *fault,
                                    struct mensur_mapping **out);

/* How an instrument comes onto a map. */
enum mensur_map_as { MENSUR_MAP_OF_SHOP, MENSUR_MAP_ASKED, MENSUR_MAP_CHANGED };

/* Adds an instrument; those that are named come first. One of another family, without a place, or
 * where one stands already, is counted. MENSUR_OK, or MENSUR_MEMORY. */
enum mensur_status mensur_map_add(struct mensur_mapping *mapping,
                                  const struct mensur_instrument *instrument,
                                  enum mensur_map_as as);

/* Makes the map of what was added. MENSUR_OK, or MENSUR_MEMORY. */
enum mensur_status mensur_map_make(struct mensur_mapping *mapping, struct mensur_map *out);

/* Frees it; NULL is left alone. */
void mensur_mapping_free(struct mensur_mapping *mapping);

#endif
