/**
 * Tests as data, the catalogue of them with their keys, and their expansion into actions, which is
 * a pure function of procedure and unit type. Knows the bench's files, no instrument and no run.
 */
package org.benchstroke.procedure;
