package org.benchstroke.aids.twin;

import java.util.Optional;

/**
 * A parameter of the twin.
 *
 * @param key its name in files
 * @param title its name for people
 * @param found its value with U; empty where the run can't tell
 * @param unit its unit
 * @param note where it comes from, or why there is none
 */
public record Parameter(
    String key, String title, Optional<FittedValue> found, String unit, String note) {}
