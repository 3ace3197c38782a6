/**
 * The file that a person writes about a bench, read and checked. Knows the instruments' roles and
 * channels, and of each driver its line in a catalogue; opens none of them.
 */
package org.benchstroke.bench;
