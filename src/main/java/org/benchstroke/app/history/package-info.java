/** What a shop asks of its history, answered as data for any face: nothing here prints or draws. */
package org.benchstroke.app.history;
