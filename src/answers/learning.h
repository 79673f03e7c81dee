/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is usual in a shop: medians and spreads of its own instruments, family by family, as rows of
 * families.csv. Only what was measured counts; what is implausible is left out.
 */
#ifndef MENSUR_LEARNING_H
#define MENSUR_LEARNING_H

#include "ask.h"

/* A family whose instruments are fewer teaches nothing, nor does a measurement that fewer state. */
#define MENSUR_LEARNING_LEAST 5
/* From so many values on a spread is the robust one. */
#define MENSUR_LEARNING_ROBUST 10

/* Instruments that are learnt from. It keeps 16 bytes for each of their measurements. */
struct mensur_learning;

/* A family as it was learnt. */
struct mensur_learnt {
    struct mensur_family row; /* its texts borrowed from the stock, the source of a learnt one from
                                 the learning; NAN and NULL where its cell is empty */
    size_t instruments;       /* those with a stop that was measured */
    size_t without_stop;      /* those without: they cannot be scaled, and do not count */
    bool learnt;              /* else the row is the stock's */
    bool parted;              /* it has lost its small_family, which would have ruled at its stop */
};

/* Starts to learn; the stock must outlive it. MENSUR_MEMORY. */
enum mensur_status mensur_learning_begin(const struct mensur_stock *stock,
                                         struct mensur_learning **out);

/* Takes an instrument of a family of the stock. `label` is the file that it stands in. A
 * measurement outside its slip band does not count, and is added to `said`: "FILE:LINE:1: kestrel:
 * stop 8.6: inches? write 8.6 in; left out". MENSUR_MEMORY. */
enum mensur_status mensur_learning_add(struct mensur_learning *learning,
                                       const struct mensur_family *family,
                                       const struct mensur_instrument *instrument,
                                       const char *label, struct mensur_texts *said);

/* What was learnt of the stock's family at that place. From MENSUR_LEARNING_LEAST instruments on:
 *
 *   stop          the median S of the stops; the row's other values are at it
 *   a value       the median of value (S/stop)^p, p the measurement's power (field.h)
 *   neck          the same with p = 1, which is neck : stop; with neck_semitones the neck at S of
 *                 heel + p L, with the row's heel
 *   bridge        projection + the median of bridge less projection (p = 1), of those with both
 *   board_share   the median of board_length / string length, and so the afterlength's; the string
 *                 as measured, else as it follows from a measured neck
 *   spread        of n values: from MENSUR_LEARNING_ROBUST on 1.4826 times the median distance from
 *                 their median, of fewer, and where that is 0, the sample's standard deviation
 *
 * What fewer instruments state is what the family's row says at S, with its spread. MENSUR_MEMORY.
 */
enum mensur_status mensur_learning_row(struct mensur_learning *learning, size_t family,
                                       struct mensur_learnt *out);

/* Frees it; may be NULL. */
void mensur_learning_free(struct mensur_learning *learning);

#endif
