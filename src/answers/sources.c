/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sources.h"

#include <stddef.h>

const char *const mensur_sources_lengths[] = {MENSUR_SOURCE_GEOMETRY, NULL};
const char *const mensur_sources_tension[] = {
    MENSUR_SOURCE_STRING, MENSUR_SOURCE_PITCH,    MENSUR_SOURCE_BELLY,    MENSUR_SOURCE_STIFF,
    MENSUR_SOURCE_BOW,    MENSUR_SOURCE_STOPPING, MENSUR_SOURCE_GEOMETRY, NULL};
const char *const mensur_sources_fingers[] = {MENSUR_SOURCE_FINGERS, MENSUR_SOURCE_STOPPING,
                                              MENSUR_SOURCE_GEOMETRY, NULL};
const char *const mensur_sources_whole[] = {
    MENSUR_SOURCE_GEOMETRY, MENSUR_SOURCE_STRING,   MENSUR_SOURCE_PITCH,
    MENSUR_SOURCE_BELLY,    MENSUR_SOURCE_FINGERS,  MENSUR_SOURCE_STIFF,
    MENSUR_SOURCE_BOW,      MENSUR_SOURCE_STOPPING, NULL};
const char *const mensur_sources_dossier[] = {MENSUR_SOURCE_GEOMETRY, MENSUR_SOURCE_STRING,
                                              MENSUR_SOURCE_PITCH,    MENSUR_SOURCE_BELLY,
                                              MENSUR_SOURCE_FINGERS,  NULL};
const char *const mensur_sources_compared[] = {MENSUR_SOURCE_GEOMETRY, MENSUR_SOURCE_STRING,
                                               MENSUR_SOURCE_PITCH,    MENSUR_SOURCE_BELLY,
                                               MENSUR_SOURCE_FINGERS,  MENSUR_SOURCE_STIFF,
                                               MENSUR_SOURCE_BOW,      MENSUR_SOURCE_STOPPING,
                                               MENSUR_SOURCE_AIR,      NULL};
const char *const mensur_sources_scale[] = {MENSUR_SOURCE_SIZES,
                                            MENSUR_SOURCE_GEOMETRY,
                                            MENSUR_SOURCE_STRING,
                                            MENSUR_SOURCE_PITCH,
                                            MENSUR_SOURCE_BELLY,
                                            MENSUR_SOURCE_FINGERS,
                                            MENSUR_SOURCE_STIFF,
                                            MENSUR_SOURCE_BOW,
                                            MENSUR_SOURCE_STOPPING,
                                            MENSUR_SOURCE_AIR,
                                            NULL};
const char *const mensur_sources_reach[] = {MENSUR_SOURCE_ARM, MENSUR_SOURCE_GEOMETRY,
                                            MENSUR_SOURCE_FINGERS, NULL};
