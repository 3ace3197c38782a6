/**
 * What a procedure is: tests as data, the actions that they are made of and what each is for, and
 * their expansion, a pure function of procedure and unit type. Knows the bench's files, no
 * instrument, no run, and no test by its name.
 */
package org.benchstroke.procedure;
