/**
 * A judged run for people (HTML, terminal table) and for programs (JSON). Depends on the verdict
 * and computes no figure of its own; the same run gives the same bytes.
 */
package org.benchstroke.papers;
