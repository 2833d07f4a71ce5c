package org.asmeasured.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Reconstruction;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.CharacterisationReadings;
import org.asmeasured.frontend.Refused;
import org.asmeasured.internal.Cases;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.pulse.PulseMethod;
import org.asmeasured.pulse.PulseQuantity;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.pulse.StateLevels;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.asmeasured.spectrum.SpectrumMethod;
import org.asmeasured.spectrum.SpectrumReadings;
import org.asmeasured.spectrum.Window;
import org.junit.jupiter.api.Test;

/** Readings together are what each of them is by itself, and share what they rest on. */
class ReadingGroupTest {

  private static List<Reading> many() {
    List<Reading> all = new ArrayList<>(Readings.all());
    all.addAll(PulseReadings.all());
    PulseMethod extremes = PulseMethod.standard().levels(StateLevels.peakMagnitude());
    all.add(PulseReadings.of(PulseQuantity.RISE_TIME, extremes));
    all.add(PulseReadings.of(PulseQuantity.OVERSHOOT_RISING, extremes));
    all.add(PulseReadings.riseTime(-0.4, 0.7));
    all.addAll(SpectrumReadings.all());
    for (double hertz : new double[] {1.03e6, 2.06e6, 4e8}) {
      all.add(SpectrumReadings.amplitudeAt(SpectrumMethod.wholeRecord(Window.hann()), hertz));
    }
    all.addAll(CharacterisationReadings.all());
    all.add(CharacterisationReadings.effectiveBits(2));
    all.add(Readings.reconstructed(PulseReadings.riseTime(), Reconstruction.sinc(), 4));
    all.add(Readings.reconstructed(PulseReadings.amplitude(), Reconstruction.sinc(), 4));
    all.add(Readings.reconstructed(Readings.maximum(), Reconstruction.linear(), 3));
    all.add(Readings.mean());
    return all;
  }

  private static List<Measured> oneByOne(List<Reading> readings, Record record) {
    return readings.stream().map(r -> r.of(record)).toList();
  }

  @Test
  void eachIsWhatItIsByItself() {
    List<Reading> readings = many();
    ReadingGroup group = ReadingGroup.of(readings);
    assertEquals(readings, group.readings());
    Cases.check(
        1,
        40,
        random -> {
          double[] volts = new double[1 + random.nextInt(600)];
          double period = 3 + 100 * random.nextDouble();
          for (int i = 0; i < volts.length; i++) {
            volts[i] = (i % period < period / 2 ? 0.8 : -0.8) + 0.1 * random.nextDouble();
          }
          Record record = Record.of(random.nextDouble(), 1e9, volts);
          assertEquals(oneByOne(readings, record), group.of(record));
        });
    Signal signal = Signals.sine(0.5, 1.03e6, 2.9).plus(Signals.sine(0.2, 2.06e6, 1)).plus(0.25);
    for (Record odd :
        List.of(
            Setup.ideal(1e8, 3000).capture(signal),
            Setup.ideal(1e8, 300).scale(0.1).bits(8).capture(signal),
            Setup.ideal(1e8, 100).decimation(new PeakDetect(3)).capture(signal))) {
      assertEquals(oneByOne(readings, odd), group.of(odd));
    }
  }

  @Test
  void ofAWaveformToo() {
    List<Reading> readings = many();
    ReadingGroup group = ReadingGroup.of(readings);
    for (Waveform truth :
        List.of(
            Signals.sine(0.5, 1.03e6, 2.9).plus(Signals.sine(0.2, 2.06e6, 1)).plus(0.25),
            Signals.trapezoid(-1, 1, 1e-6, 0.4, 1e-7, 2e-7),
            Signals.constant(1),
            Signals.ramp(1e6, 0))) {
      List<Measured> alone = readings.stream().map(r -> r.of(truth, 1e-7, 5e-6)).toList();
      assertEquals(alone, group.of(truth, 1e-7, 5e-6), truth.toString());
    }
  }

  /** An analysis of anyone's, which says how often it was made. */
  private record Counted(AtomicInteger made) implements Analysis<Double> {
    @Override
    public Outcome<Double> of(Record record) {
      made.incrementAndGet();
      return record.size() > 1
          ? new Outcome.Taken<>(record.volts(1))
          : new Outcome.NotTaken<>("a single point");
    }

    @Override
    public Outcome<Double> of(Waveform truth, double fromSeconds, double toSeconds) {
      made.incrementAndGet();
      if (toSeconds > 10) {
        throw new IllegalArgumentException("longer than is looked at");
      }
      return new Outcome.Taken<>(truth.valueAt(fromSeconds));
    }
  }

  private record Times(Analysis<Double> analysis, double factor)
      implements AnalysedReading<Double> {
    @Override
    public String name() {
      return factor + " times";
    }

    @Override
    public String unit() {
      return "V";
    }

    @Override
    public Measured figure(Double found) {
      return new Value(factor * found);
    }
  }

  @Test
  void anAnalysisIsMadeOnce() {
    AtomicInteger made = new AtomicInteger();
    AtomicInteger other = new AtomicInteger();
    ReadingGroup group =
        ReadingGroup.of(
            List.of(
                new Times(new Counted(made), 1),
                Readings.maximum(),
                new Times(new Counted(made), 2),
                new Times(new Counted(other), 3),
                new Times(new Counted(made), 4)));
    Record record = Record.of(0, 1, new double[] {9, 5});
    assertEquals(
        List.of(new Value(5), new Value(9), new Value(10), new Value(15), new Value(20)),
        group.of(record));
    assertEquals(1, made.get());
    assertEquals(1, other.get());
    // nothing is kept
    group.of(record);
    assertEquals(2, made.get());
    NotTaken single = new NotTaken("a single point");
    assertEquals(single, group.of(Record.of(0, 1, new double[] {9})).get(4));
    assertEquals(3, made.get());
    assertEquals(new Value(6), group.of(Signals.constant(3), 0, 1).get(2));
    assertEquals(4, made.get());
    NotTaken longer = new NotTaken("longer than is looked at");
    assertEquals(longer, group.of(Signals.constant(3), 0, 11).get(0));
    assertEquals(5, made.get());
    assertEquals(longer, group.readings().get(0).of(Signals.constant(3), 0, 11));
  }

  @Test
  void isAValueAndRefusesWhatIsMissing() {
    assertEquals(ReadingGroup.of(many()), ReadingGroup.of(many()));
    assertEquals(ReadingGroup.of(many()).hashCode(), ReadingGroup.of(many()).hashCode());
    assertTrue(ReadingGroup.of(List.of(Readings.mean())).toString().contains("mean"));
    assertEquals(List.of(), ReadingGroup.of(List.of()).of(Record.of(0, 1, new double[] {1})));
    ReadingGroup group = ReadingGroup.of(List.of(Readings.mean(), PulseReadings.period()));
    Refused.missing("readings", () -> ReadingGroup.of((List<Reading>) null));
    Refused.missing("reading", () -> ReadingGroup.of(Arrays.asList(Readings.mean(), null)));
    Refused.missing("record", () -> group.of((Record) null));
    Refused.missing("truth", () -> group.of(null, 0, 1));
    Signal sine = Signals.sine(1, 5);
    Refused.values("fromSeconds", v -> group.of(sine, v, 1), 1e13, -1e13, 1, 2);
    Refused.values("toSeconds", v -> group.of(sine, 0, v), 1e13, -1e13, 0.0, -1);
    assertThrows(UnsupportedOperationException.class, () -> group.readings().clear());
  }
}
