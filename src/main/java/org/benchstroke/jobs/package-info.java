/**
 * What belongs together of many records: the attempts at one unit of one order are a job. All of it
 * follows from the records; nothing is stored beside them.
 */
package org.benchstroke.jobs;
