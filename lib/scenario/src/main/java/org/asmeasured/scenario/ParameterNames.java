package org.asmeasured.scenario;

import java.util.Map;
import java.util.TreeMap;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Parameters;

/** The parameters for which a scenario can state a tolerance, by name. */
final class ParameterNames {
  /** Of so many cores a file can name the errors; a program of all. */
  private static final int CORES = 4;

  static final Map<String, Parameter> PARAMETERS = parameters();

  private ParameterNames() {}

  private static Map<String, Parameter> parameters() {
    Map<String, Parameter> named = new TreeMap<>();
    named.put("signalFactor", Parameters.signalFactor());
    named.put("signalDelaySeconds", Parameters.signalDelay());
    named.put("startSeconds", Parameters.start());
    named.put("gainError", Parameters.gainError());
    named.put("offsetError", Parameters.offsetError());
    named.put("bandwidthHz", Parameters.bandwidth());
    named.put("limitHz", Parameters.limit());
    named.put("couplingCornerHz", Parameters.couplingCorner());
    named.put("sourceOhms", Parameters.sourceOhms());
    named.put("sourceFarads", Parameters.sourceFarads());
    named.put("inputOhms", Parameters.inputOhms());
    named.put("inputFarads", Parameters.inputFarads());
    named.put("trimmerError", Parameters.trimmerError());
    named.put("cableFarads", Parameters.cableFarads());
    named.put("groundLeadHenries", Parameters.groundLeadHenries());
    named.put("probeSeriesOhms", Parameters.dividerOhms());
    named.put("probeBandwidthHz", Parameters.dividerBandwidth());
    named.put("saturationLowVolts", Parameters.saturationLowVolts());
    named.put("saturationHighVolts", Parameters.saturationHighVolts());
    named.put("noiseDensityVoltsPerRootHz", Parameters.noiseDensity());
    named.put("noiseShareOfFullScale", Parameters.noiseShareOfFullScale());
    named.put("sourceNoiseDensityVoltsPerRootHz", Parameters.sourceNoiseDensity());
    named.put("sourceJitterSeconds", Parameters.sourceJitter());
    named.put("converterNoiseOfFullScale", Parameters.converterNoise());
    named.put("clockError", Parameters.clockError());
    named.put("apertureJitterSeconds", Parameters.apertureJitter());
    for (int core = 1; core <= CORES; core++) {
      named.put("core" + core + "GainError", Parameters.coreGainError(core));
      named.put("core" + core + "OffsetError", Parameters.coreOffsetError(core));
      named.put("core" + core + "SkewSeconds", Parameters.coreSkew(core));
    }
    named.put("triggerLevelVolts", Parameters.triggerLevel());
    named.put("triggerHysteresisVolts", Parameters.triggerHysteresis());
    named.put("triggerJitterSeconds", Parameters.triggerJitter());
    return named;
  }
}
