/**
 * The bench screen: pages in a browser, a second face of {@code app} beside the command line. It
 * shows what a run says of itself and hands on what a person answers; nothing of a run lives here.
 */
package org.benchstroke.web;
