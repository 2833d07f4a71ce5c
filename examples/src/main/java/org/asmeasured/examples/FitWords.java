package org.asmeasured.examples;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.asmeasured.fitting.ChainFit;
import org.asmeasured.fitting.Correction;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.scenario.BenchFit;
import org.asmeasured.scenario.BenchFitResult;

/** What a fit and its corrections come to, in words. */
final class FitWords {
  private static final double WORTH_SAYING = 0.3;

  /** Smaller probabilities are of no use to anybody. */
  private static final double NEVER = 1e-9;

  private static final MathContext FOUR_DIGITS = new MathContext(4);

  private FitWords() {}

  /** A value to two digits of its uncertainty, and the uncertainty. */
  record Pair(String value, String uncertainty) {
    static Pair of(double value, double uncertainty, String unit) {
      Scale scale = Scale.of(Math.max(Math.abs(value), uncertainty), unit);
      int decimals = uncertainty > 0 ? scale.decimals(uncertainty, 2) : scale.decimals(value, 6);
      return new Pair(
          scale.withUnit(scale.number(value, decimals)),
          scale.withUnit(scale.number(uncertainty, decimals)));
    }
  }

  static Pair estimate(ChainFit fit, int index) {
    return Pair.of(
        fit.estimate(index),
        fit.standardUncertainty(index),
        fit.unknowns().get(index).parameter().unit());
  }

  /** How well model and records agree. */
  static String agreement(ChainFit fit) {
    String words =
        "reduced chi-squared "
            + figure(fit.reducedChiSquared())
            + " of "
            + figure(fit.degreesOfFreedom())
            + " degrees of freedom";
    return fit.probability() instanceof Measured.Value p
        ? words + ": " + chance(p.value())
        : words + ", from which the size of the noise is taken";
  }

  private static String chance(double probability) {
    return probability < NEVER
        ? "noise alone practically never makes it as large"
        : "noise alone makes it as large with a probability of " + figure(probability);
  }

  /** Four digits at the most, as a power of ten where it is far from 1. */
  static String figure(double value) {
    BigDecimal rounded = new BigDecimal(value).round(FOUR_DIGITS).stripTrailingZeros();
    boolean plain = value == 0 || (Math.abs(value) >= 1e-4 && Math.abs(value) < 1e6);
    return plain ? rounded.toPlainString() : String.format(Locale.ROOT, "%.2e", value);
  }

  /** Correlations that are worth saying. */
  static List<String> correlations(ChainFit fit) {
    List<String> words = new ArrayList<>();
    for (int i = 0; i < fit.unknowns().size(); i++) {
      for (int j = 0; j < i; j++) {
        if (Math.abs(fit.correlation(j, i)) >= WORTH_SAYING) {
          words.add(
              String.format(
                  Locale.ROOT,
                  "%s and %s: %+.3f",
                  fit.unknowns().get(j).name(),
                  fit.unknowns().get(i).name(),
                  fit.correlation(j, i)));
        }
      }
    }
    return words;
  }

  /** One correction, as what stands before each line and the line. */
  static List<Account.Fact> correction(BenchFit.Taken asked, Outcome<Correction> outcome) {
    String unit = asked.reading().unit();
    List<Account.Fact> facts = new ArrayList<>();
    facts.add(new Account.Fact("Reading", asked.reading().toString()));
    facts.add(new Account.Fact("As read", Scale.text(asked.value(), unit)));
    if (!(outcome instanceof Outcome.Taken<Correction> taken)) {
      facts.add(new Account.Fact("Corrected", ((Outcome.NotTaken<Correction>) outcome).reason()));
      return facts;
    }
    Correction c = taken.result();
    Pair corrected = Pair.of(c.corrected(), c.standardUncertainty(), unit);
    facts.add(new Account.Fact("Correction", Scale.signedText(c.correction(), unit)));
    facts.add(
        new Account.Fact(
            "Corrected", corrected.value() + ", standard uncertainty " + corrected.uncertainty()));
    List<String> parts = new ArrayList<>();
    parts(parts, "of the correction ", c.uncertaintyOfCorrection(), unit);
    parts(parts, "of one capture ", c.scatterOfCaptures(), unit);
    facts.add(new Account.Fact("Of which", String.join(", ", parts)));
    facts.add(
        new Account.Fact(
            "95 % interval",
            Scale.text(c.interval().lower(), unit)
                + " to "
                + Scale.text(c.interval().upper(), unit)));
    if (!c.isAsExpected()) {
      facts.add(
          new Account.Fact(
              "Caution",
              "the reading is far from where this bench would read this signal: signal or bench are not"
                  + " as assumed, and the correction is not to be trusted"));
    }
    return facts;
  }

  private static void parts(List<String> parts, String what, Measured part, String unit) {
    parts.add(
        what
            + (part instanceof Measured.Value v
                ? Scale.text(v.value(), unit)
                : "not known: " + ((Measured.NotTaken) part).reason()));
  }

  /** All lines for a terminal; an empty one parts what does not belong together. */
  static List<Account.Fact> lines(BenchFitResult result) {
    List<Account.Fact> lines = new ArrayList<>();
    List<String> cautions = CautionWords.of(result);
    cautions.forEach(c -> lines.add(new Account.Fact(TerminalPage.CAUTION, c)));
    if (!cautions.isEmpty()) {
      lines.add(new Account.Fact("", ""));
    }
    if (result.fit() instanceof Outcome.Taken<ChainFit> taken) {
      ChainFit fit = taken.result();
      // before the estimates: they are to be read with it
      fit.notes().forEach(n -> lines.add(new Account.Fact("Note", n)));
      if (!fit.notes().isEmpty()) {
        lines.add(new Account.Fact("", ""));
      }
      for (int j = 0; j < fit.unknowns().size(); j++) {
        Pair pair = estimate(fit, j);
        lines.add(new Account.Fact("Parameter", fit.unknowns().get(j).name()));
        lines.add(
            new Account.Fact(
                "Estimate", pair.value() + ", standard uncertainty " + pair.uncertainty()));
        lines.add(new Account.Fact("", ""));
      }
      lines.add(new Account.Fact("Agreement", agreement(fit)));
      correlations(fit).forEach(c -> lines.add(new Account.Fact("Correlation", c)));
    } else {
      lines.add(new Account.Fact("No fit", ((Outcome.NotTaken<ChainFit>) result.fit()).reason()));
    }
    for (int i = 0; i < result.corrections().size(); i++) {
      lines.add(new Account.Fact("", ""));
      lines.addAll(correction(result.asked().readings().get(i), result.corrections().get(i)));
    }
    return lines;
  }
}
