/** Uncertainty of a model's output. */
package org.asmeasured.uncertainty;
