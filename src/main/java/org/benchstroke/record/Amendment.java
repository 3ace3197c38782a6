package org.benchstroke.record;

import java.time.Instant;
import org.benchstroke.record.signing.PublicHalf;

/**
 * A label that was mistyped, and what it should have been.
 *
 * @param label which
 * @param was what stood there before
 * @param is what stands there now
 * @param by who amended it
 * @param reason why
 * @param utc when, by the clock of the computer that was used
 * @param key by which it is sealed
 */
public record Amendment(
    Label label, String was, String is, String by, String reason, Instant utc, PublicHalf key) {}
