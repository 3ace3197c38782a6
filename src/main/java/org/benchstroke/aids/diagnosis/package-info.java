/** Likely causes of what a judged run shows, ranked, with the evidence. Pure: no I/O. */
package org.benchstroke.aids.diagnosis;
