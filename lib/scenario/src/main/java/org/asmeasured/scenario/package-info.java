/**
 * Scenarios and results as files: signal, setup and readings as JSON, recorded waveforms as CSV.
 *
 * <p>{@link org.asmeasured.scenario.Scenarios} reads a {@link org.asmeasured.scenario.Scenario};
 * {@link org.asmeasured.scenario.ScenarioResult} runs it; {@link org.asmeasured.scenario.Results}
 * writes what came of it. Each of the two formats has a JSON Schema. Whatever is wrong with a file
 * is told in one sentence by a {@link org.asmeasured.scenario.ScenarioException}.
 */
package org.asmeasured.scenario;
