/**
 * Pages of the guided set-up of a unit: one large page a step, with picture, lamp and dial. They
 * show what {@link org.benchstroke.app.SetUpDesk} says and hand answers over; nothing of a set-up
 * lives here.
 */
package org.benchstroke.web.setup;
