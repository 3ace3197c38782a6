package org.benchstroke.record;

/**
 * What ties a report to the file of its record.
 *
 * @param sha256 SHA-256 of the file's bytes, 64 hexadecimal digits, as {@code sha256sum} gives it
 * @param lines how many lines were taken: whole and chained
 * @param lastCheck the check value of the last of them
 */
public record RecordDigest(String sha256, long lines, String lastCheck) {}
