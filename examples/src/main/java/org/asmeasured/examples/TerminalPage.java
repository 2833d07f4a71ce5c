package org.asmeasured.examples;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A result as a terminal shows it: plain letters, no wider than 100 columns. */
final class TerminalPage {
  static final String CAUTION = "Caution";
  private static final int LEFT = 19;
  private static final int RIGHT = 100;

  private final StringBuilder text = new StringBuilder();

  TerminalPage() {}

  static String of(Account account, Path report) {
    TerminalPage page = new TerminalPage();
    page.title(account.title());
    for (int i = 0; i < account.outcomes().size(); i++) {
      page.outcome(account.outcomes().get(i));
      if (i < account.sureness().size()) {
        page.sureness(account.sureness().get(i));
      }
      String name = account.outcomes().get(i).name();
      account.helping().stream().filter(h -> h.name().equals(name)).forEach(page::helping);
      page.text.append('\n');
    }
    if (!account.betweenChannels().isEmpty()) {
      page.words("How sure", account.betweenChannels());
      page.text.append('\n');
    }
    for (Account.Spread spread : account.spreads()) {
      page.spread(spread, account.captures());
    }
    for (String found : account.converterTest()) {
      page.words("Converter", found);
    }
    for (String flag : account.flags()) {
      page.words("Flag", flag);
    }
    for (String chance : account.chances()) {
      page.words("Rare event", chance);
    }
    account.cautions().forEach(caution -> page.words(CAUTION, caution));
    page.line("Report", report.toString());
    return page.text();
  }

  /** Cautions by themselves, one after the other. */
  static String cautions(List<String> cautions) {
    TerminalPage page = new TerminalPage();
    cautions.forEach(caution -> page.words(CAUTION, caution));
    return page.text();
  }

  void title(String title) {
    text.append(plain(title)).append("\n\n");
  }

  String text() {
    return text.toString();
  }

  /** Any other page: lines with a word or two before them; an empty word leaves a line free. */
  static String of(String title, List<Account.Fact> lines, Path report) {
    TerminalPage page = new TerminalPage();
    page.text.append(plain(title)).append("\n\n");
    for (Account.Fact line : lines) {
      if (line.words().isEmpty()) {
        page.text.append('\n');
      } else {
        page.words(line.what(), line.words());
      }
    }
    page.line("Report", report.toString());
    return page.text.toString();
  }

  private void outcome(Account.Outcome outcome) {
    line("Reading", outcome.name());
    if (!outcome.isTaken()) {
      words("True value", outcome.truthText());
      words("As measured", outcome.measuredText());
      return;
    }
    Reckoning reckoning = outcome.reckoning();
    line("True value", reckoning.truthText());
    String relative = reckoning.relativeText();
    String off = reckoning.bias() == 0 ? "exact" : "off by " + reckoning.biasText();
    line(
        "As measured",
        reckoning.measuredText()
            + "      "
            + off
            + (relative.isEmpty() ? "" : " (" + relative + ")"));
    List<String> parts = new ArrayList<>();
    for (Reckoning.Part part : reckoning.parts()) {
      String unit = parts.isEmpty() ? "in " + reckoning.biasScale().symbol() + ": " : "";
      parts.add(unit + part.stage() + " " + reckoning.partText(part));
    }
    if (!parts.isEmpty()) {
      parts.add("= " + reckoning.biasText());
      wrapped("Where it went", parts, "   ");
    }
    Reckoning.Random random = reckoning.random();
    if (!random.isNone()) {
      words(
          "Random part",
          reckoning.randomText()
              + " a capture, "
              + reckoning.sureText()
              + " in the mean"
              + (random.source().isEmpty() ? "" : ", largest share by " + random.source()));
    }
  }

  private void sureness(Sureness sureness) {
    if (sureness.isTaken()) {
      List<String> pieces = new ArrayList<>(List.of(sureness.readingText()));
      pieces.addAll(sureness.shares());
      wrapped("How sure", pieces, "   ");
    } else {
      words("How sure", sureness.reason());
    }
    if (sureness.isTaken() && !sureness.disagreement().isEmpty()) {
      words("", sureness.disagreement());
    }
    if (!sureness.followsText().isEmpty()) {
      words("", sureness.followsText());
    }
    if (!sureness.limit().isEmpty()) {
      words("Decision", sureness.limit() + ": " + sureness.decision());
      sureness.deciding().lines().forEach(line -> words("", line));
    }
  }

  private void helping(Helping helping) {
    words(
        "What would help",
        helping.best() + (helping.decision().isEmpty() ? "" : "; " + helping.decision()));
  }

  private void spread(Account.Spread spread, int captures) {
    line("Over " + captures, spread.name());
    List<String> figures = new ArrayList<>();
    figures.add("mean " + spread.mean());
    figures.add("standard deviation " + spread.deviation());
    figures.add("from " + spread.least() + " to " + spread.greatest());
    wrapped("captures", figures, "   ");
    spread.reasons().forEach(reason -> words("", reason));
    text.append('\n');
  }

  void line(String what, String words) {
    wrapped(what, List.of(words), " ");
  }

  void words(String what, String sentence) {
    wrapped(what, List.of(Page.withUnits(sentence).split(" ")), " ");
  }

  private void wrapped(String what, List<String> pieces, String between) {
    StringBuilder line =
        new StringBuilder(what).append(" ".repeat(Math.max(1, LEFT - what.length())));
    boolean first = true;
    for (String piece : pieces) {
      if (!first && line.length() + between.length() + piece.length() > RIGHT) {
        text.append(plain(line.toString().stripTrailing())).append('\n');
        line = new StringBuilder(" ".repeat(LEFT));
        first = true;
      }
      line.append(first ? "" : between).append(piece);
      first = false;
    }
    text.append(plain(line.toString().stripTrailing())).append('\n');
  }

  /** Not every terminal has these letters. */
  static String plain(String text) {
    return text.replace('µ', 'u').replace('−', '-').replace('–', '-').replace('\u00a0', ' ');
  }
}
