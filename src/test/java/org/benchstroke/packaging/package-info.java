/** Makes the packages that people install: {@code mvn -Ppackage}. */
package org.benchstroke.packaging;
