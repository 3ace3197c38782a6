/**
 * The desk of the bench screen: what was tested, what it says together, the benches and files, and
 * help. Every page is an address that can be shared; nothing here moves a unit.
 */
package org.benchstroke.web.desk;
