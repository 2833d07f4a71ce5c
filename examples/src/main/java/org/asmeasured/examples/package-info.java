/**
 * One runnable jar: predicts what a capture setup does to a signal and writes the report.
 *
 * <p>What the terminal prints, the page and its pictures are made here; every figure in them comes
 * from the library.
 */
package org.asmeasured.examples;
