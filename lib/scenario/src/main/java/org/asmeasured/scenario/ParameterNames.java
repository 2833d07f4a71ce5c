package org.asmeasured.scenario;

import java.util.Map;
import java.util.TreeMap;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Parameters;

/** The parameters that a file can name. */
final class ParameterNames {
  static final Map<String, Parameter> PARAMETERS = parameters();

  private ParameterNames() {}

  private static Map<String, Parameter> parameters() {
    Map<String, Parameter> named = new TreeMap<>();
    named.put("signalFactor", Parameters.signalFactor());
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
    named.put("probeBandwidthHz", Parameters.dividerBandwidth());
    named.put("noiseDensityVoltsPerRootHz", Parameters.noiseDensity());
    named.put("converterNoiseOfFullScale", Parameters.converterNoise());
    named.put("clockError", Parameters.clockError());
    named.put("apertureJitterSeconds", Parameters.apertureJitter());
    named.put("triggerLevelVolts", Parameters.triggerLevel());
    named.put("triggerJitterSeconds", Parameters.triggerJitter());
    return named;
  }
}
