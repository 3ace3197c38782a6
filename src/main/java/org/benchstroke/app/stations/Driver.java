package org.benchstroke.app.stations;

/**
 * Who holds a station: the person, and the screen that the person sits at. Two screens of one
 * person are two drivers.
 *
 * @param screen tells one screen from every other
 * @param name of the person
 */
public record Driver(String screen, String name) {}
