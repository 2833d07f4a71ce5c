package org.asmeasured.advice;

import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.Signal;

/** One setting that a bench offers: its name, and what it changes of a setup. Immutable. */
public final class Alternative {
  private final String words;
  private final Change change;
  private final Function<Setup, String> inSetup;

  /** A setup with one setting changed, which may depend on the signal. */
  @FunctionalInterface
  public interface Change {

    /**
     * The same setup with another setting.
     *
     * @param signal what is captured
     * @param setup not changed
     * @return the changed setup
     * @throws IllegalArgumentException if this cannot be set; the message is the reason
     */
    Setup of(Signal signal, Setup setup);
  }

  private Alternative(String words, Change change, Function<Setup, String> inSetup) {
    Require.present("words", words);
    Require.that(!words.isBlank(), "words = \"" + words + "\": must not be blank");
    this.words = words;
    this.change = Require.present("change", change);
    this.inSetup = inSetup;
  }

  /**
   * A setting.
   *
   * @param words as a person would say it: "5 mV per division"; not blank
   * @param change the setup with it, used by several threads at once
   * @return the alternative
   * @throws IllegalArgumentException if the words are blank
   * @throws NullPointerException if an argument is missing
   */
  public static Alternative of(String words, UnaryOperator<Setup> change) {
    Require.present("change", change);
    return new Alternative(words, (signal, setup) -> change.apply(setup), setup -> words);
  }

  /**
   * A setting that depends on the signal.
   *
   * @param words as a person would say it, not blank
   * @param change the setup with it, used by several threads at once
   * @return the alternative
   * @throws IllegalArgumentException if the words are blank
   * @throws NullPointerException if an argument is missing
   */
  public static Alternative ofSignal(String words, Change change) {
    return new Alternative(words, change, setup -> words);
  }

  /** With words that say what came of it. */
  Alternative saying(Function<Setup, String> said) {
    return new Alternative(words, change, said);
  }

  /**
   * What it is called.
   *
   * @return not blank
   */
  public String words() {
    return words;
  }

  Setup applied(Signal signal, Setup setup) {
    return Require.present("setup with " + words, change.of(signal, setup));
  }

  String wordsIn(Setup setup) {
    return inSetup.apply(setup);
  }

  @Override
  public String toString() {
    return words;
  }
}
