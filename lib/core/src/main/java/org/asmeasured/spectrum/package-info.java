/** Spectra. */
package org.asmeasured.spectrum;
