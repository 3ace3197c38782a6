package org.benchstroke.web;

/**
 * A page that says why something was not done.
 *
 * @param layout around it
 * @param title what stands above it
 * @param what went wrong and what to do
 */
public record Trouble(Layout layout, String title, String what) {}
