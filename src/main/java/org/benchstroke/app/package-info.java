/**
 * What an application does, whatever shows it: a run from its files to its reports, the store of
 * records, who watches a run and who is asked. It prints nothing and reads no keys; knows
 * everything but the command line.
 */
package org.benchstroke.app;
