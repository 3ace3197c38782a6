/**
 * Who may do what at the screen: named operators and their secrets, sessions, how wrong secrets are
 * slowed, what a request must bring along, who holds a station. It knows no page and no run.
 */
package org.benchstroke.web.access;
