package org.asmeasured.measure;

/**
 * A record or a waveform as a walk along pieces, each of which crosses a level of interest at most
 * once. So one search for crossings serves both, and they cannot come to differ.
 */
abstract class Path {
  double startSeconds;
  double startVolts;
  double endSeconds;
  double endVolts;

  /** Moves to the next piece; false when there is none. */
  abstract boolean next();

  /** The instant at which a piece that was met reaches a level between its two values. */
  abstract double instant(Piece piece, double level);

  boolean risesThrough(double level) {
    return startVolts < level && level <= endVolts;
  }

  boolean fallsBelow(double level) {
    return startVolts >= level && level > endVolts;
  }

  Piece piece() {
    return new Piece(startSeconds, startVolts, endSeconds, endVolts);
  }

  /** A piece to come back to. */
  record Piece(double startSeconds, double startVolts, double endSeconds, double endVolts) {}
}
