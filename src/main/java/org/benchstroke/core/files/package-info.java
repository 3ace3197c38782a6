/**
 * Files that people give, read within bounds, and files that the program leaves, written whole or
 * not at all. Knows no other package.
 */
package org.benchstroke.core.files;
