/**
 * Uncertainty budgets and coverage factors after the GUM (JCGM 100:2008). Pure arithmetic; knows no
 * other package of ours.
 */
package org.benchstroke.core.uncertainty;
