package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.digitizer.Core;
import org.asmeasured.digitizer.InterleavedSampler;

/** The samplers that a scenario can say: clock error, aperture jitter, interleaved cores. */
final class SamplerReader {
  static final List<String> OPTIONAL = List.of("clockError", "jitterSeconds", "cores");
  static final List<String> CORE = List.of("gainError", "offsetError", "skewSeconds", "response");

  private SamplerReader() {}

  static InterleavedSampler read(Json node) {
    return Fields.of(node, "sampler", List.of(), OPTIONAL)
        .build(
            f ->
                InterleavedSampler.of(
                    f.numberOr("clockError", 0), f.numberOr("jitterSeconds", 0), cores(f)));
  }

  private static List<Core> cores(Fields fields) {
    if (!fields.has("cores")) {
      return List.of(Core.ideal());
    }
    List<Json> items = fields.list("cores");
    if (items.isEmpty() || items.size() > InterleavedSampler.MAX_CORES) {
      throw fields
          .child("cores")
          .refused(
              "cores has "
                  + items.size()
                  + " entries: must have from 1 to "
                  + InterleavedSampler.MAX_CORES);
    }
    List<Core> cores = new ArrayList<>();
    for (Json item : items) {
      cores.add(Fields.of(item, "a core", List.of(), CORE).build(SamplerReader::core));
    }
    return cores;
  }

  private static Core core(Fields fields) {
    Core ideal = Core.ideal();
    return new Core(
        fields.numberOr("gainError", ideal.gainError()),
        fields.numberOr("offsetError", ideal.offsetError()),
        fields.numberOr("skewSeconds", ideal.skewSeconds()),
        fields.has("response")
            ? ResponseKinds.RESPONSES.read(fields.child("response"))
            : ideal.response());
  }
}
