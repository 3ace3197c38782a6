package org.benchstroke.papers.plot;

/**
 * The words of a picture for those who can't see it. Immutable.
 *
 * @param id unique within the page, letters, digits and dashes
 * @param title what it shows
 * @param description what it tells, in sentences
 */
public record Caption(String id, String title, String description) {}
