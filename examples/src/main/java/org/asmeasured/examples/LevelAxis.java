package org.asmeasured.examples;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.jfree.chart.axis.AxisState;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTick;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.TextAnchor;

/** An axis that names a few levels beside the picture, where nothing is drawn over the names. */
final class LevelAxis extends NumberAxis {
  private static final long serialVersionUID = 1L;

  /** Share of the range that a name needs, so that two of them do not touch. */
  private static final double ROOM = 0.055;

  private final ArrayList<NumberTick> ticks = new ArrayList<>();

  LevelAxis(NumberAxis beside) {
    setAutoRangeIncludesZero(false);
    setRange(beside.getRange());
    setTickLabelFont(Palette.TICK);
    setTickLabelPaint(Palette.TEXT);
    setAxisLinePaint(Palette.FRAME);
    setTickMarkPaint(Palette.FRAME);
  }

  /** Names a level, unless it lies outside or another one is named there. */
  void name(double value, String words) {
    boolean taken =
        ticks.stream()
            .anyMatch(t -> Math.abs(t.getValue() - value) < ROOM * getRange().getLength());
    if (!taken && getRange().contains(value)) {
      ticks.add(new NumberTick(value, words, TextAnchor.CENTER_LEFT, TextAnchor.CENTER_LEFT, 0));
    }
  }

  @Override
  public List<NumberTick> refreshTicks(
      Graphics2D g, AxisState state, Rectangle2D area, RectangleEdge edge) {
    return ticks;
  }

  @Override
  public boolean equals(Object other) {
    return this == other;
  }

  @Override
  public int hashCode() {
    return System.identityHashCode(this);
  }
}
