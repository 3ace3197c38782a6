/**
 * Carries a procedure out on a bench and writes its record: preflight, cautions, guards, safe
 * signal. Knows no verdict, so that nothing judged can steer the run.
 */
package org.benchstroke.run;
