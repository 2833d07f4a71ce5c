package org.asmeasured.examples;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Stroke;

/**
 * The one look of all pictures: colours that differ in lightness as well as in hue, dashes that
 * tell lines apart in print.
 */
final class Palette {
  static final Color TEXT = new Color(0x222222);
  static final Color GRID = new Color(0xDDDDDD);
  static final Color FRAME = new Color(0x888888);
  static final Color RECORD = new Color(0x0072B2);
  static final Color RECORD_PALE = new Color(0x9CC9E4);
  static final Color TRUTH = new Color(0xC44E00);
  static final Color GUIDE = new Color(0x555555);
  static final Color UP = new Color(0xC44E00);
  static final Color DOWN = new Color(0x0072B2);
  static final Color WHOLE = new Color(0x444444);

  static final Stroke THIN = new BasicStroke(0.8f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND);
  static final Stroke LINE = new BasicStroke(1.2f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND);
  static final Stroke BOLD = new BasicStroke(1.9f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND);
  static final Stroke HALO = new BasicStroke(3.2f, BasicStroke.CAP_SQUARE, BasicStroke.JOIN_ROUND);
  static final Stroke DASHED =
      new BasicStroke(
          1.7f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10f, new float[] {7f, 3f}, 0f);
  static final Stroke DOTTED =
      new BasicStroke(
          1.1f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10f, new float[] {2f, 3f}, 0f);

  // Logical names: the machine's own sans serif, whichever that is.
  static final Font LABEL = new Font(Font.SANS_SERIF, Font.PLAIN, 14);
  static final Font TICK = new Font(Font.SANS_SERIF, Font.PLAIN, 13);
  static final Font STRONG = new Font(Font.SANS_SERIF, Font.BOLD, 13);

  private Palette() {}
}
