/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Folders of the file system: looked for, and made. */
#ifndef MENSUR_FOLDER_H
#define MENSUR_FOLDER_H

#include "status.h"

/* Whether a shop can lie in a folder (NULL: no folder is asked for). A folder that is not there is
 * wrong use: MENSUR_USE, said on standard error, with the one whose name is nearest; MENSUR_MEMORY.
 * What else is wrong with one shows as it is read. */
enum mensur_status folder_check(const char *folder);

/* Makes a folder and those above it, where they are not there. MENSUR_WRITE, said on standard
 * error; MENSUR_MEMORY. */
enum mensur_status folder_make(const char *folder);

#endif
