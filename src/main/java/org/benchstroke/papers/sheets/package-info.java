/**
 * The papers of a run for its three readers: a certificate and its annex for the customer, a sheet
 * for the workshop, a label for the unit. Their words stand in a file for each language.
 */
package org.benchstroke.papers.sheets;
