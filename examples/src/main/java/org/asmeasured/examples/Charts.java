package org.asmeasured.examples;

import java.awt.Color;
import java.awt.Paint;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.LegendItem;
import org.jfree.chart.LegendItemCollection;
import org.jfree.chart.annotations.XYPolygonAnnotation;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.AxisLocation;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.block.BlockBorder;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.Plot;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.text.TextUtils;
import org.jfree.chart.title.LegendTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.chart.util.ShapeUtils;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/** The parts that all pictures share: white ground, quiet grid, the key below. */
final class Charts {
  private static final double DOT = 5;
  private static final float DIAMOND = 5;
  private static final Shape KEY_LINE = new Line2D.Double(-14, 0, 14, 0);

  static {
    // Upright axis names as text too, not as outlines of letters.
    TextUtils.setUseDrawRotatedStringWorkaround(false);
  }

  private Charts() {}

  static XYPlot plot(NumberAxis time, NumberAxis volts) {
    XYPlot plot = new XYPlot();
    plot.setDomainAxis(time);
    plot.setRangeAxis(volts);
    plot.setRangeAxisLocation(AxisLocation.BOTTOM_OR_LEFT);
    plot.setDomainGridlinePaint(Palette.GRID);
    plot.setRangeGridlinePaint(Palette.GRID);
    plot.setDomainGridlineStroke(Palette.THIN);
    plot.setRangeGridlineStroke(Palette.THIN);
    plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
    plot.setDatasetRenderingOrder(DatasetRenderingOrder.FORWARD);
    plot.setFixedLegendItems(new LegendItemCollection());
    dress(plot);
    return plot;
  }

  static void dress(Plot plot) {
    plot.setBackgroundPaint(Color.WHITE);
    plot.setOutlinePaint(Palette.FRAME);
    plot.setOutlineStroke(Palette.THIN);
    plot.setInsets(new RectangleInsets(8, 6, 4, 14));
  }

  static JFreeChart chart(Plot plot, boolean withKey) {
    JFreeChart chart = new JFreeChart(null, Palette.LABEL, plot, false);
    chart.setBackgroundPaint(Color.WHITE);
    chart.setPadding(RectangleInsets.ZERO_INSETS);
    if (withKey) {
      LegendTitle key = new LegendTitle(plot);
      key.setPosition(RectangleEdge.BOTTOM);
      key.setHorizontalAlignment(HorizontalAlignment.CENTER);
      key.setFrame(BlockBorder.NONE);
      key.setBackgroundPaint(Color.WHITE);
      key.setItemFont(Palette.TICK);
      key.setItemPaint(Palette.TEXT);
      key.setItemLabelPadding(new RectangleInsets(2, 4, 2, 10));
      chart.addLegend(key);
    }
    return chart;
  }

  /** Adds a line in front of what is there. */
  static void line(XYPlot plot, XYSeries series, Paint paint, Stroke stroke) {
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
    // As one path: else a dash pattern starts anew at every point.
    renderer.setDrawSeriesLineAsPath(true);
    renderer.setSeriesPaint(0, paint);
    renderer.setSeriesStroke(0, stroke);
    add(plot, series, renderer);
  }

  /**
   * Fills a polygon, given as x and y in turn, in front of the grid and behind what comes later.
   */
  static void fill(XYPlot plot, double[] outline, Paint paint) {
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(false, false);
    renderer.addAnnotation(new XYPolygonAnnotation(outline, null, null, paint), Layer.BACKGROUND);
    add(plot, new XYSeries("fill"), renderer);
  }

  /** Adds dots in front of what is there. */
  static void dots(XYPlot plot, XYSeries series, Paint paint, double diameter) {
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(false, true);
    renderer.setSeriesShape(0, dot(diameter));
    renderer.setSeriesPaint(0, paint);
    add(plot, series, renderer);
  }

  /** Adds open circles. */
  static void circles(XYPlot plot, XYSeries series, Paint paint, double diameter) {
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(false, true);
    renderer.setSeriesShape(0, dot(diameter));
    renderer.setSeriesPaint(0, paint);
    renderer.setSeriesShapesFilled(0, Boolean.FALSE);
    renderer.setSeriesOutlineStroke(0, Palette.LINE);
    add(plot, series, renderer);
  }

  /** Adds diamonds, to tell something from what has dots. */
  static void diamonds(XYPlot plot, XYSeries series, Paint paint) {
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(false, true);
    renderer.setSeriesShape(0, ShapeUtils.createDiamond(DIAMOND));
    renderer.setSeriesPaint(0, paint);
    add(plot, series, renderer);
  }

  /** A word in the picture, centred about a place. */
  static void note(XYPlot plot, double x, double y, String words) {
    XYTextAnnotation note = new XYTextAnnotation(words, x, y);
    note.setFont(Palette.TICK);
    note.setPaint(Palette.TEXT);
    note.setTextAnchor(TextAnchor.CENTER);
    note.setBackgroundPaint(Color.WHITE);
    plot.addAnnotation(note);
  }

  private static void add(XYPlot plot, XYSeries series, XYLineAndShapeRenderer renderer) {
    int index = plot.getDatasetCount();
    if (index == 1 && plot.getDataset(0) == null) {
      index = 0;
    }
    plot.setDataset(index, new XYSeriesCollection(series));
    plot.setRenderer(index, renderer);
  }

  private static Shape dot(double diameter) {
    return new Ellipse2D.Double(-diameter / 2, -diameter / 2, diameter, diameter);
  }

  /** As large a dot as so many points leave room for. */
  static double diameter(int points, int width) {
    return Math.max(2, Math.min(DOT, 0.75 * width / points));
  }

  /** A level to read against. */
  static void level(XYPlot plot, double value, Stroke stroke) {
    ValueMarker marker = new ValueMarker(value, Palette.GUIDE, stroke);
    marker.setAlpha(1f);
    plot.addRangeMarker(marker, Layer.BACKGROUND);
  }

  /** A level that what is drawn must not hide. */
  static void levelInFront(XYPlot plot, double value, Paint paint, Stroke stroke) {
    ValueMarker marker = new ValueMarker(value, paint, stroke);
    marker.setAlpha(1f);
    plot.addRangeMarker(marker, Layer.FOREGROUND);
  }

  static void keyLine(XYPlot plot, String words, Paint paint, Stroke stroke) {
    key(plot, words, null, paint, paint, stroke);
  }

  static void keyDots(XYPlot plot, String words, Paint paint, Paint linePaint) {
    key(plot, words, dot(DOT), paint, linePaint, Palette.LINE);
  }

  static void keyDiamond(XYPlot plot, String words, Paint paint) {
    key(plot, words, ShapeUtils.createDiamond(DIAMOND), paint, null, Palette.THIN);
  }

  static void keyBand(XYPlot plot, String words, Paint paint) {
    key(plot, words, new Rectangle2D.Double(-12, -5, 24, 10), paint, null, Palette.THIN);
  }

  private static void key(
      XYPlot plot, String words, Shape shape, Paint paint, Paint linePaint, Stroke stroke) {
    LegendItemCollection items = plot.getFixedLegendItems();
    boolean shaped = shape != null;
    boolean lined = linePaint != null;
    items.add(
        new LegendItem(
            words,
            null,
            null,
            null,
            shaped,
            shaped ? shape : dot(DOT),
            true,
            paint,
            false,
            paint,
            Palette.THIN,
            lined,
            KEY_LINE,
            stroke,
            lined ? linePaint : paint));
  }
}
