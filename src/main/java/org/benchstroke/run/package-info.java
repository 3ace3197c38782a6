/**
 * Carries a procedure out on a bench and writes its record: preflight, cautions, rest rule, guards,
 * safe signal. Knows neither analysis nor verdict, so that nothing measured can steer the run.
 */
package org.benchstroke.run;
