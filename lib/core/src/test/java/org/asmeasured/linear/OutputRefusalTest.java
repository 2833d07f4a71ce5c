package org.asmeasured.linear;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.instant;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

/** Every parameter of an output and its sampler refuses what has no answer. */
class OutputRefusalTest {
  private static final Signal STEP = Signals.step(1, 0);
  private static final Response POLE = Response.singlePole(1);
  private static final SampleClock CLOCK = new SampleClock(0, 1);

  @Test
  void whatIsMissing() {
    absent("signal", () -> new Output(null, POLE));
    absent("response", () -> new Output(STEP, null));
    absent("signal", () -> POLE.of(null));
    absent("clock", () -> POLE.of(STEP).sampler(null));
    absent("clock", () -> POLE.of(STEP).sample(null, 0, new double[1], 0, 1));
    absent("out", () -> POLE.of(STEP).sample(CLOCK, 0, null, 0, 1));
    absent("out", () -> POLE.of(STEP).sampler(CLOCK).read(0, null, 0, 1));
    absent("out", () -> Response.identity().of(STEP).sampler(CLOCK).read(0, null, 0, 1));
  }

  @Test
  void instants() {
    for (Response response : new Response[] {Response.identity(), POLE}) {
      Output output = response.of(STEP);
      instant("timeSeconds", t -> output.valueAt(t));
      instant("timeSeconds", t -> output.valueBefore(t));
    }
    instant("timeSeconds", t -> POLE.stepResponse(t));
  }

  @Test
  void spansOfPeriodicOutputs() {
    Output output = POLE.of(Signals.square(0, 1, 1e-3, 0.5));
    refused("toSeconds", "s", t -> output.mean(0, t), 1.001e12);
    refused("toSeconds", "s", t -> output.rms(0, t), 1.001e12);
    refused("fromSeconds", "s", t -> output.mean(t, 1), -1.001e12);
    refused("fromSeconds", "s", t -> output.rms(t, 1), -1.001e12);
    mismatch(() -> output.mean(1, 0), "toSeconds = 0.0 s", "fromSeconds = 1.0 s");
  }

  @Test
  void spansOfReadings() {
    for (Response response : new Response[] {Response.identity(), POLE, Response.highPass(10)}) {
      Output output = response.of(STEP.plus(Signals.sine(1, 1)));
      refused("fromSeconds", "s", t -> output.mean(t, 1), -1.001e12);
      refused("toSeconds", "s", t -> output.mean(0, t), 1.001e12);
      refused("fromSeconds", "s", t -> output.rms(t, 1), -1.001e12);
      refused("toSeconds", "s", t -> output.rms(0, t), 1.001e12);
      refused("fromSeconds", "s", t -> output.knots(t, 1), -1.001e12);
      refused("toSeconds", "s", t -> output.knots(0, t), 1.001e12);
      mismatch(() -> output.mean(1, 1), "toSeconds = 1.0 s", "fromSeconds = 1.0 s");
      mismatch(() -> output.rms(1, 0), "toSeconds = 0.0 s", "fromSeconds = 1.0 s");
      mismatch(() -> output.minimum(1, 1), "toSeconds = 1.0 s", "fromSeconds = 1.0 s");
      mismatch(() -> output.maximum(1, 0), "toSeconds = 0.0 s", "fromSeconds = 1.0 s");
    }
  }

  @Test
  void sampling() {
    for (Response response : new Response[] {Response.identity(), POLE}) {
      Output output = response.of(STEP);
      OutputSampler sampler = output.sampler(CLOCK);
      double[] out = {7, 7, 7};
      assertThrows(IndexOutOfBoundsException.class, () -> sampler.read(0, out, -1, 1));
      assertThrows(IndexOutOfBoundsException.class, () -> sampler.read(0, out, 0, -1));
      assertThrows(IndexOutOfBoundsException.class, () -> sampler.read(0, out, 0, 4));
      assertThrows(IndexOutOfBoundsException.class, () -> output.sample(CLOCK, 0, out, 3, 1));
      for (long first :
          new long[] {Long.MIN_VALUE, -(1L << 53) - 1, (1L << 53) - 2, Long.MAX_VALUE}) {
        for (Executable call :
            new Executable[] {
              () -> sampler.read(first, out, 0, 3), () -> output.sample(CLOCK, first, out, 0, 3)
            }) {
          String message = assertThrows(IllegalArgumentException.class, call).getMessage();
          assertTrue(message.startsWith("first = " + first + ": must be from "), message);
        }
      }
      assertArrayEquals(new double[] {7, 7, 7}, out, "nothing was written");
      sampler.read(0, out, 3, 0);
      assertArrayEquals(new double[] {7, 7, 7}, out, "no samples, nothing written");
      sampler.read(-(1L << 53), out, 0, 1);
      sampler.read((1L << 53) - 1, out, 1, 1);
      assertEquals(0, out[0]);
      assertEquals(1, out[1], 1e-15);
      assertEquals(7, out[2]);
    }
  }

  @Test
  void aReadTouchesNothingElse() {
    double[] out = new double[2000];
    Arrays.fill(out, -5);
    POLE.of(STEP).sampler(CLOCK).read(3, out, 700, 600);
    for (int i = 0; i < out.length; i++) {
      assertEquals(i < 700 || i >= 1300, out[i] == -5, "element " + i);
    }
  }
}
