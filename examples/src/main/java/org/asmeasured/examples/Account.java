package org.asmeasured.examples;

import java.util.List;

/**
 * What a report tells, ready for a page or a terminal.
 *
 * @param title one line
 * @param notes paragraphs of the scenario
 * @param setup what stands in the chain, in order
 * @param outcomes one for each reading asked for
 * @param flags what the record itself warns of
 * @param cautions what whoever stands at a bench should heed
 * @param comparison the record beside the truth
 * @param channel name of the channel that this is of, where there are several; else empty
 * @param further the other channels
 * @param betweenChannels what readings between them have no uncertainty for; else empty
 * @param chances of seeing rare events, in sentences
 * @param captures over how many captures the readings were repeated; 0 for none
 * @param spreads what each reading comes to over them
 * @param converterTest what a test of the converter found, in sentences
 * @param details pictures of what the readings rest on
 * @param sureness how sure each reading is; empty where that is not asked for
 * @param spreadPictures of the readings that have an uncertainty
 * @param helping what would help each reading that advice is asked about
 */
record Account(
    String title,
    List<String> notes,
    List<Fact> setup,
    List<Outcome> outcomes,
    List<String> flags,
    List<String> cautions,
    Comparison comparison,
    String channel,
    List<Further> further,
    String betweenChannels,
    List<String> chances,
    int captures,
    List<Spread> spreads,
    List<String> converterTest,
    List<Picture> details,
    List<Sureness> sureness,
    List<Picture> spreadPictures,
    List<Helping> helping) {

  /** Of one channel, without rare events. */
  Account(
      String title,
      List<String> notes,
      List<Fact> setup,
      List<Outcome> outcomes,
      List<String> flags,
      List<String> cautions,
      Comparison comparison) {
    this(
        title,
        notes,
        setup,
        outcomes,
        flags,
        cautions,
        comparison,
        "",
        List.of(),
        "",
        List.of(),
        0,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }

  /** Another channel: its record beside its truth. */
  record Further(String name, Comparison comparison) {}

  /**
   * A reading over many captures, its figures with their units.
   *
   * @param reasons why it was not taken of some of them; empty if it was of all
   */
  record Spread(
      String name,
      String mean,
      String deviation,
      String least,
      String greatest,
      List<String> reasons) {}

  /** A line of a list: what, and how it is. */
  record Fact(String what, String words) {}

  /**
   * A reading: its reckoning, or what could be said instead.
   *
   * @param name name of the reading
   * @param reckoning null where the reading could not be taken of both truth and record
   * @param truthText the true value with its unit, or why there is none
   * @param measuredText the value as measured with its unit, or why there is none
   * @param tables by stage
   */
  record Outcome(
      String name, Reckoning reckoning, String truthText, String measuredText, StageTables tables) {
    static Outcome taken(Reckoning reckoning, StageTables tables) {
      return new Outcome(
          reckoning.name(), reckoning, reckoning.truthText(), reckoning.measuredText(), tables);
    }

    boolean isTaken() {
      return reckoning != null;
    }
  }
}
