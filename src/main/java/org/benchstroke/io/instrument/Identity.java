package org.benchstroke.io.instrument;

/**
 * Who an instrument says it is. A field that it does not tell is empty.
 *
 * @param maker the maker's name
 * @param model the model
 * @param serial the serial number
 * @param firmware the firmware level
 * @param raw the reply as it came
 */
public record Identity(String maker, String model, String serial, String firmware, String raw) {}
