/**
 * What a person does with a bench before and beside the runs: probes it, finds Modbus devices, sets
 * a current by hand, works out a register map. Takes no figures and writes no record. It knows the
 * bench and how a run makes it safe; nobody but the command line knows it.
 */
package org.benchstroke.commission;
