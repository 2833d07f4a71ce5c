/** Benchmarks, each beside its yardstick in the same run. */
package org.asmeasured.bench;
