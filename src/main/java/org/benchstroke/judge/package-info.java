/**
 * A record judged: measures with their uncertainty, compared with the agreed limits by the agreed
 * decision rule. The room where record, bench, procedure, analysis and uncertainty meet; the same
 * record always gives the same judgement.
 */
package org.benchstroke.judge;
