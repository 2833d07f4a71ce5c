/**
 * Scenarios and results as files: signal, setup and readings as JSON, recorded waveforms as CSV.
 *
 * <p>{@link org.asmeasured.scenario.Scenarios} reads a {@link org.asmeasured.scenario.Scenario};
 * {@link org.asmeasured.scenario.ScenarioResult} runs it; {@link org.asmeasured.scenario.Results}
 * writes what came of it. In the same way {@link org.asmeasured.scenario.BenchFits} reads a {@link
 * org.asmeasured.scenario.BenchFit} of a chain to recorded data, {@link
 * org.asmeasured.scenario.BenchFitResult} computes it and {@link
 * org.asmeasured.scenario.BenchFitResults} writes it; {@link org.asmeasured.scenario.Instruments}
 * reads descriptions of instruments and probes; {@link org.asmeasured.scenario.Sweeps} reads a
 * {@link org.asmeasured.scenario.Sweep} of a scenario over a grid of its numbers, of which each
 * point can be computed by itself, and {@link org.asmeasured.scenario.SweepResult} computes them
 * all. Each of the formats has a JSON Schema. Whatever is wrong with a file is told in one sentence
 * by a {@link org.asmeasured.scenario.ScenarioException}.
 */
package org.asmeasured.scenario;
