/**
 * The archive: a database made from records, which answers questions fast. The records stay the
 * truth; all of it can be made again from them. The only package that speaks with a database.
 */
package org.benchstroke.archive;
