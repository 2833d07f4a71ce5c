package org.asmeasured.examples;

import java.io.PrintStream;
import java.io.PrintWriter;
import java.util.concurrent.CancellationException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.HelpCommand;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** The command line of the runnable jar. */
@Command(
    name = "asmeasured",
    description =
        "Predicts what a capture setup does to a signal, and how far off a reading then is.",
    subcommands = {
      PredictCommand.class,
      CompareCommand.class,
      FitCommand.class,
      SweepCommand.class,
      HelpCommand.class
    },
    mixinStandardHelpOptions = false,
    synopsisSubcommandLabel = "COMMAND")
public final class Main implements Runnable {
  static final int OK = 0;
  static final int UNEXPECTED = 1;
  static final int BAD_INPUT = 2;

  /** What a shell gives for a program that was interrupted. */
  static final int CANCELLED = 130;

  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  @CommandLine.Option(
      names = {"-h", "--help"},
      usageHelp = true,
      description = "Show this help.")
  private boolean help;

  private static final String CANCELLED_WORDS = "cancelled: nothing was written";

  private final PrintStream terminal;
  private final PrintStream err;
  private volatile ProgressBar bar;
  private volatile boolean ended;

  /** Where a person watches, or null. */
  private final PrintStream watched;

  private Main(PrintStream terminal, PrintStream err, PrintStream watched) {
    this.terminal = terminal;
    this.err = err;
    this.watched = watched;
  }

  /** A bar that shows how far long work has come; of nothing where nobody watches. */
  ProgressBar bar(boolean quiet) {
    bar = new ProgressBar(quiet ? null : watched);
    return bar;
  }

  /** The virtual machine is told to end in the middle of its work: said in place of the bar. */
  void ended() {
    ended = true;
    ProgressBar shown = bar;
    if (shown != null) {
      shown.close();
    }
    complain(err, CANCELLED, CANCELLED_WORDS);
  }

  /** Where results are printed: a stream that knows the terminal's letters. */
  PrintStream terminal() {
    return terminal;
  }

  /**
   * Runs one command and ends the virtual machine with its exit code where that is not 0: 2 for
   * input that cannot be used, 1 for anything unexpected, 130 for work that was cancelled. After
   * success it returns, so that whoever called it goes on.
   *
   * @param args a command and its arguments; {@code --help} lists them
   */
  public static void main(String[] args) {
    int code = run(args, System.out, System.err, ProgressBar.isWatched() ? System.err : null);
    if (code != OK) {
      System.exit(code);
    }
  }

  /** Runs one command; never throws, and tells any failure in one sentence. */
  static int run(String[] args, PrintStream out, PrintStream err) {
    return run(args, out, err, null);
  }

  /**
   * Runs one command.
   *
   * @param watched where a person watches a bar, or null
   */
  static int run(String[] args, PrintStream out, PrintStream err, PrintStream watched) {
    System.setProperty("java.awt.headless", "true");
    try {
      Main main = new Main(out, err, watched);
      CommandLine line = new CommandLine(main);
      line.setOut(new PrintWriter(out, true));
      line.setErr(new PrintWriter(err, true));
      line.setParameterExceptionHandler((e, a) -> complain(err, BAD_INPUT, sentence(e)));
      line.setExecutionExceptionHandler((e, l, r) -> main.ended ? CANCELLED : failed(e, err));
      return line.execute(args);
    } catch (Throwable e) {
      return failed(e, err);
    }
  }

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "no command given: try \"predict --help\"");
  }

  private static int failed(Throwable e, PrintStream err) {
    if (e instanceof BadInput) {
      return complain(err, BAD_INPUT, e.getMessage());
    }
    if (e instanceof CancellationException) {
      return complain(err, CANCELLED, CANCELLED_WORDS);
    }
    if (e instanceof OutOfMemoryError) {
      return complain(
          err, UNEXPECTED, "not enough memory: ask for fewer points, or give java more with -Xmx");
    }
    String detail = e.getMessage() == null ? "" : ": " + e.getMessage();
    return complain(
        err, UNEXPECTED, "unexpected failure: " + e.getClass().getSimpleName() + detail);
  }

  private static String sentence(ParameterException e) {
    String where = "; see \"" + e.getCommandLine().getCommandSpec().qualifiedName() + " --help\"";
    if (e instanceof UnmatchedArgumentException unmatched) {
      String first = unmatched.getUnmatched().get(0);
      return (first.startsWith("-") ? "unknown option " : "unknown argument ") + first + where;
    }
    if (e instanceof MissingParameterException missing && !missing.getMissing().isEmpty()) {
      ArgSpec first = missing.getMissing().get(0);
      String option = first instanceof OptionSpec named ? named.longestName() + " " : "";
      return "missing: " + option + first.paramLabel() + where;
    }
    return e.getMessage() + (e.getMessage().contains("--help") ? "" : where);
  }

  private static int complain(PrintStream err, int code, String message) {
    String line = message.strip().replaceAll("\\s*\\R\\s*", " ");
    err.println(line.endsWith(".") ? line : line + ".");
    err.flush();
    return code;
  }
}
