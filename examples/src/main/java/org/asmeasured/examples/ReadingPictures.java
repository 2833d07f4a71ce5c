package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.asmeasured.capture.Record;
import org.asmeasured.characterisation.CharacterisationReadings;
import org.asmeasured.frontend.CurrentProbe;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseAnalysis;
import org.asmeasured.pulse.PulseMethod;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.pulse.States;
import org.asmeasured.scenario.ScenarioResult;
import org.asmeasured.spectrum.HarmonicMethod;
import org.asmeasured.spectrum.SpectrumMethod;
import org.asmeasured.spectrum.SpectrumReadings;

/** What the readings of a scenario rest on, where a picture says it sooner than words. */
final class ReadingPictures {
  private ReadingPictures() {}

  static List<Picture> of(ScenarioResult result) {
    Record record = result.record();
    String unit = result.scenario().setup().frontEnd().probe() instanceof CurrentProbe ? "A" : "V";
    List<Reading> readings = result.scenario().readings();
    List<Picture> pictures = new ArrayList<>(pulses(record, readings, unit));
    pictures.addAll(spectra(record, readings));
    if (readings.stream().anyMatch(CharacterisationReadings::isOfSineFit)) {
      pictures.addAll(ResidualPictures.of(record, unit));
    }
    result.linearity().ifPresent(found -> pictures.addAll(LinearityPictures.of(found)));
    return pictures;
  }

  private static String number(int index) {
    return index == 0 ? "" : "-" + (index + 1);
  }

  private static List<Picture> pulses(Record record, List<Reading> readings, String unit) {
    Set<PulseMethod> methods = new LinkedHashSet<>();
    for (Reading reading : readings) {
      PulseReadings.methodOf(reading).map(ReadingPictures::asDrawn).ifPresent(methods::add);
    }
    List<HistogramPicture.Mark> marks = new ArrayList<>();
    List<Picture> pictures = new ArrayList<>();
    int index = 0;
    for (PulseMethod method : methods) {
      List<Picture> some = PulsePictures.of(record, method, number(index), unit);
      if (!some.isEmpty()) {
        pictures.addAll(some);
        index++;
      }
    }
    methods.stream().findFirst().ifPresent(method -> marks.addAll(states(record, method, unit)));
    boolean wanted = !methods.isEmpty();
    for (Reading reading : readings) {
      if (Readings.isPercentile(reading)) {
        wanted = true;
        if (reading.of(record) instanceof Measured.Value value) {
          marks.add(new HistogramPicture.Mark(value.value(), capitalised(reading.toString())));
        }
      }
    }
    if (wanted) {
      pictures.addAll(HistogramPicture.of(record, marks, unit));
    }
    return pictures;
  }

  /** Methods that differ only in what no picture shows are drawn once. */
  private static PulseMethod asDrawn(PulseMethod method) {
    return PulseMethod.standard()
        .levels(method.levels())
        .references(method.references())
        .hysteresis(method.hysteresisPercent());
  }

  private static List<HistogramPicture.Mark> states(
      Record record, PulseMethod method, String unit) {
    if (record.size() == 0 || record.isEnvelope()) {
      return List.of();
    }
    Optional<States> states = PulseAnalysis.of(record, method).states();
    return states
        .map(
            s ->
                List.of(
                    new HistogramPicture.Mark(
                        s.lowVolts(), "Low state, " + Scale.text(s.lowVolts(), unit)),
                    new HistogramPicture.Mark(
                        s.highVolts(), "High state, " + Scale.text(s.highVolts(), unit))))
        .orElse(List.of());
  }

  private static String capitalised(String words) {
    return words.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + words.substring(1);
  }

  private static List<Picture> spectra(Record record, List<Reading> readings) {
    Map<SpectrumMethod, Optional<HarmonicMethod>> methods = new LinkedHashMap<>();
    for (Reading reading : readings) {
      Optional<HarmonicMethod> harmonics = SpectrumReadings.harmonicMethodOf(reading);
      SpectrumReadings.spectrumMethodOf(reading)
          .ifPresent(
              spectrum ->
                  methods.merge(
                      spectrum,
                      harmonics,
                      // of several ways to count harmonics in one spectrum the first is drawn
                      (first, second) -> first.isPresent() ? first : second));
    }
    List<Picture> pictures = new ArrayList<>();
    int index = 0;
    for (var method : methods.entrySet()) {
      List<Picture> some =
          SpectrumPicture.of(record, method.getKey(), method.getValue(), number(index));
      if (!some.isEmpty()) {
        pictures.addAll(some);
        index++;
      }
    }
    return pictures;
  }
}
