package org.benchstroke.judge;

import java.util.Optional;

/**
 * A travel error test as it was read from the record.
 *
 * @param attempt the attempt that counts
 * @param feedback the readings by the unit's feedback
 * @param stem those by the angle reference; empty if the stem was never read
 */
record TravelTest(Optional<Attempt> attempt, Taken feedback, Optional<Taken> stem) {}
