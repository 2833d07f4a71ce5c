package org.asmeasured.signal;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.internal.Require;

/**
 * A waveform over a closed span, cut into pieces on each of which it rises or falls only; a jump is
 * a piece without duration. Whatever asks for levels, crossings or extremes of the truth asks this:
 * between two values that follow one another no level is crossed twice.
 *
 * <p>Instants count from the start of the span, so that no digits are lost on it.
 */
public final class MonotonePieces {
  private static final int MAX_PIECES = 1 << 23;

  private final double fromSeconds;
  private final LevelWalk walk;
  private final LevelWalk.Piece[] pieces;

  private MonotonePieces(double fromSeconds, LevelWalk walk, List<LevelWalk.Piece> pieces) {
    this.fromSeconds = fromSeconds;
    this.walk = walk;
    this.pieces = pieces.toArray(LevelWalk.Piece[]::new);
  }

  /**
   * Cuts a waveform at every turning point, found to 1e-9 of its stretch.
   *
   * @param waveform what is cut
   * @param fromSeconds start of the span, -1e12 to 1e12 s
   * @param toSeconds end of the span, after its start
   * @return the pieces, in order of time
   * @throws IllegalArgumentException if the span is empty, or has more pieces than are looked at
   */
  public static MonotonePieces of(Waveform waveform, double fromSeconds, double toSeconds) {
    Require.present("waveform", waveform);
    Require.span(fromSeconds, toSeconds);
    LevelWalk walk = LevelWalk.over(waveform, fromSeconds, toSeconds);
    List<LevelWalk.Piece> pieces = new ArrayList<>();
    for (LevelWalk.Piece p = walk.next(toSeconds); p != null; p = walk.next(toSeconds)) {
      if (p.isJump() && p.v0() == p.v1()) {
        continue;
      }
      pieces.add(p);
      Require.that(
          pieces.size() <= MAX_PIECES && !walk.isExhausted(),
          "from " + fromSeconds + " s to " + toSeconds + " s: more pieces than are looked at");
    }
    return new MonotonePieces(fromSeconds, walk, pieces);
  }

  /**
   * The number of pieces.
   *
   * @return 1 or more
   */
  public int size() {
    return pieces.length;
  }

  /**
   * The value at the start of a piece, which is that at the end of the piece before.
   *
   * @param index 0 to size - 1
   * @return volts
   */
  public double startVolts(int index) {
    return pieces[index].v0();
  }

  /**
   * The value at the end of a piece.
   *
   * @param index 0 to size - 1
   * @return volts
   */
  public double endVolts(int index) {
    return pieces[index].v1();
  }

  /**
   * When a piece starts.
   *
   * @param index 0 to size - 1
   * @return seconds after the start of the span
   */
  public double startSeconds(int index) {
    return (pieces[index].knot() - fromSeconds) + pieces[index].x0();
  }

  /**
   * When a piece ends.
   *
   * @param index 0 to size - 1
   * @return seconds after the start of the span
   */
  public double endSeconds(int index) {
    return (pieces[index].knot() - fromSeconds) + pieces[index].x1();
  }

  /**
   * How long a piece lasts.
   *
   * @param index 0 to size - 1
   * @return seconds; 0 for a jump
   */
  public double lengthSeconds(int index) {
    return pieces[index].x1() - pieces[index].x0();
  }

  /**
   * When a piece reaches a level.
   *
   * @param index 0 to size - 1
   * @param level from the value at one end of the piece to that at the other, volts
   * @return seconds after the start of the span
   */
  public double crossing(int index, double level) {
    return (pieces[index].knot() - fromSeconds) + walk.crossing(pieces[index], level);
  }

  /** The time after its start at which a piece reaches a level. */
  double timeTo(int index, double level) {
    return walk.crossing(pieces[index], level) - pieces[index].x0();
  }
}
