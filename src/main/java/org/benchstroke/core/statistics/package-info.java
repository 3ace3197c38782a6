/**
 * The statistics of a shop's history: control charts, a bench's check standard, studies of a gauge,
 * capability, counts and shares. Pure functions of numbers: what they answer is data, its sentences
 * and pictures are made elsewhere. Where there is too little to answer from, the answer says so
 * ({@link org.benchstroke.core.statistics.NoAnswer}) and gives no figure.
 */
package org.benchstroke.core.statistics;
