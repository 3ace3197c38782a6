/**
 * Pages as PDF/A-3a and PDF/UA-1 with fonts, pictures and files in them, and the files read back.
 * Knows nothing of runs: it is given a page as XHTML, pictures as lines and areas, and bytes.
 */
package org.benchstroke.papers.pdf;
