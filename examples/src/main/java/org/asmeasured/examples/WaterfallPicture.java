package org.asmeasured.examples;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Paint;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.annotations.CategoryLineAnnotation;
import org.jfree.chart.annotations.CategoryTextAnnotation;
import org.jfree.chart.axis.AxisLocation;
import org.jfree.chart.axis.CategoryAnchor;
import org.jfree.chart.axis.CategoryAxis;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.CategoryPlot;
import org.jfree.chart.plot.PlotOrientation;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.renderer.category.CategoryItemRendererState;
import org.jfree.chart.renderer.category.IntervalBarRenderer;
import org.jfree.chart.renderer.category.StandardBarPainter;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.category.CategoryDataset;
import org.jfree.data.category.DefaultIntervalCategoryDataset;

/**
 * Where it went: from the true value, stage by stage, to the value as measured; or from no scatter
 * at all to that of the reading.
 */
final class WaterfallPicture {
  private static final int ROW = 32;

  /** Room for names on two lines. */
  private static final int NARROW_ROW = 38;

  private static final int AROUND = 70;

  /** Half the height of a whisker's end. */
  private static final double CAP = 4;

  private final List<Row> rows = new ArrayList<>();
  private final String name;
  private final String from;
  private final Scale scale;
  private final double least;
  private final double most;

  /** A bar: a stage, or the whole. Stages of one name are still two rows. */
  private record Row(
      int index,
      String words,
      double start,
      double end,
      double change,
      double scatter,
      String label)
      implements Comparable<Row> {
    boolean isDown() {
      return change < 0;
    }

    /** The least that bar and whisker reach. */
    double least() {
      return Math.min(start, end - scatter);
    }

    double most() {
      return Math.max(start, end + scatter);
    }

    @Override
    public int compareTo(Row other) {
      return Integer.compare(index, other.index);
    }

    @Override
    public String toString() {
      return words;
    }
  }

  private WaterfallPicture(Reckoning reckoning, String from) {
    this.from = from;
    double at = 0;
    for (Reckoning.Part part : reckoning.parts()) {
      double end = at + part.bias();
      rows.add(
          new Row(
              rows.size(),
              part.stage(),
              at,
              end,
              part.bias(),
              part.randomPart(),
              reckoning.partText(part)));
      at = end;
    }
    name =
        reckoning.name().substring(0, 1).toUpperCase(Locale.ROOT) + reckoning.name().substring(1);
    scale = reckoning.biasScale();
    String whole = scale.signed(reckoning.bias(), reckoning.biasDecimals());
    double bias = reckoning.bias();
    rows.add(new Row(rows.size(), "as measured", 0, bias, bias, reckoning.random().part(), whole));
    least = rows.stream().mapToDouble(Row::least).min().orElse(0);
    most = rows.stream().mapToDouble(Row::most).max().orElse(0);
  }

  static Picture of(String file, Reckoning reckoning) {
    WaterfallPicture waterfall =
        new WaterfallPicture(
            reckoning, " less its true value of " + reckoning.truthText().replace('-', '−'));
    int rows = waterfall.rows.size();
    return new Picture(
        file,
        waterfall.name,
        "From the true value, "
            + reckoning.truthText()
            + ", each stage switched in after those above it, to the value as measured, "
            + reckoning.measuredText()
            + "."
            + (reckoning.parts().stream().allMatch(p -> p.randomPart() == 0)
                ? ""
                : " Whiskers: plus and minus one standard deviation from capture to capture, with that stage and all above it."),
        new Picture.Size(960, AROUND + ROW * rows),
        new Picture.Size(372, AROUND + NARROW_ROW * rows),
        waterfall::chart);
  }

  /** How much of its variance from capture to capture each stage adds or takes away. */
  static Picture ofRandomPart(String file, Reckoning reckoning) {
    double whole = Math.pow(reckoning.random().part(), 2);
    List<Reckoning.Part> parts = new ArrayList<>();
    double before = 0;
    for (Reckoning.Part part : reckoning.parts()) {
      double variance = part.taken() ? Math.pow(part.randomPart(), 2) : before;
      parts.add(new Reckoning.Part(part.stage(), 100 * (variance - before) / whole, part.taken()));
      before = variance;
    }
    WaterfallPicture waterfall =
        new WaterfallPicture(
            new Reckoning(reckoning.name(), "", 0, 100, parts),
            ": variance, of that as measured (%)");
    return new Picture(
        file,
        waterfall.name + ": random part",
        "The variance from capture to capture, each stage switched in after those above it. As measured the standard deviation is "
            + reckoning.randomText()
            + ".",
        new Picture.Size(960, AROUND + ROW * waterfall.rows.size()),
        new Picture.Size(372, AROUND + NARROW_ROW * waterfall.rows.size()),
        waterfall::chart);
  }

  private JFreeChart chart(Picture.Size size) {
    Number[] from =
        rows.stream().map(row -> scale.in(Math.min(row.start(), row.end()))).toArray(Number[]::new);
    Number[] to =
        rows.stream().map(row -> scale.in(Math.max(row.start(), row.end()))).toArray(Number[]::new);
    DefaultIntervalCategoryDataset data =
        new DefaultIntervalCategoryDataset(new Number[][] {from}, new Number[][] {to});
    data.setCategoryKeys(rows.toArray(new Row[0]));

    // Room for the number beside a bar, on whichever side it stands.
    double width = most > least ? scale.in(most - least) : 1;
    double room = size.isNarrow() ? 0.55 : 0.16;
    double low =
        scale.in(least) - (rows.stream().anyMatch(this::hasLabelLeft) ? room : 0.04) * width;
    double high =
        scale.in(most) + (rows.stream().allMatch(this::hasLabelLeft) ? 0.04 : room) * width;
    NumberAxis values = AxisScale.axis(axisLabel(size), low, high, size.isNarrow() ? 4 : 9);
    CategoryAxis names = new CategoryAxis();
    names.setTickLabelFont(Palette.TICK);
    names.setTickLabelPaint(Palette.TEXT);
    names.setAxisLinePaint(Palette.FRAME);
    names.setTickMarksVisible(false);
    names.setMaximumCategoryLabelLines(2);
    names.setMaximumCategoryLabelWidthRatio(size.isNarrow() ? 0.36f : 0.25f);
    names.setLowerMargin(0.03);
    names.setUpperMargin(0.03);
    names.setCategoryMargin(0.3);

    CategoryPlot plot = new CategoryPlot(data, names, values, new Bars());
    plot.setOrientation(PlotOrientation.HORIZONTAL);
    plot.setRangeAxisLocation(AxisLocation.BOTTOM_OR_LEFT);
    plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
    plot.setRangeGridlinePaint(Palette.GRID);
    plot.setRangeGridlineStroke(Palette.THIN);
    Charts.dress(plot);
    plot.addRangeMarker(new ValueMarker(0, Palette.GUIDE, Palette.THIN), Layer.BACKGROUND);
    for (Row row : rows) {
      if (row.index() + 1 < rows.size()) {
        double at = scale.in(row.end());
        plot.addAnnotation(
            new CategoryLineAnnotation(
                row, at, rows.get(row.index() + 1), at, Palette.GUIDE, Palette.THIN));
      }
      // Five pixels, in the axis' own numbers; the names take about a third of the picture.
      plot.addAnnotation(label(row, 5 * (high - low) / (0.65 * size.width())));
    }
    return Charts.chart(plot, false);
  }

  private String axisLabel(Picture.Size size) {
    String unit = scale.symbol().isEmpty() ? "" : " (" + scale.symbol() + ")";
    return (size.isNarrow() ? "Reading" : name) + from + unit;
  }

  private CategoryTextAnnotation label(Row row, double gap) {
    boolean left = hasLabelLeft(row);
    double at = left ? scale.in(row.least()) - gap : scale.in(row.most()) + gap;
    CategoryTextAnnotation text =
        new CategoryTextAnnotation(row.label().replace('-', '−'), row, at);
    text.setFont(isWhole(row) ? Palette.STRONG : Palette.TICK);
    text.setPaint(Palette.TEXT);
    text.setCategoryAnchor(CategoryAnchor.MIDDLE);
    text.setTextAnchor(left ? TextAnchor.CENTER_RIGHT : TextAnchor.CENTER_LEFT);
    return text;
  }

  /**
   * A number stands on the side of its bar that is away from zero, so that it never crosses the
   * line there.
   */
  private boolean hasLabelLeft(Row row) {
    double middle = row.start() + row.end();
    boolean nearZero = Math.abs(middle) <= 0.004 * (most - least);
    return nearZero ? -least > most : middle < 0;
  }

  private boolean isWhole(Row row) {
    return row.index() == rows.size() - 1;
  }

  /** Colour by direction; the last bar is the whole. */
  private final class Bars extends IntervalBarRenderer {
    private static final long serialVersionUID = 1L;

    Bars() {
      setBarPainter(new StandardBarPainter());
      setShadowVisible(false);
      setDrawBarOutline(false);
      setMinimumBarLength(2);
      setMaximumBarWidth(1);
    }

    @Override
    public void drawItem(
        Graphics2D g,
        CategoryItemRendererState state,
        Rectangle2D area,
        CategoryPlot plot,
        CategoryAxis names,
        ValueAxis values,
        CategoryDataset data,
        int row,
        int column,
        int pass) {
      super.drawItem(g, state, area, plot, names, values, data, row, column, pass);
      Row bar = rows.get(column);
      if (bar.scatter() == 0) {
        return;
      }
      double middle = names.getCategoryMiddle(column, rows.size(), area, plot.getDomainAxisEdge());
      RectangleEdge edge = plot.getRangeAxisEdge();
      double from = values.valueToJava2D(scale.in(bar.end() - bar.scatter()), area, edge);
      double to = values.valueToJava2D(scale.in(bar.end() + bar.scatter()), area, edge);
      // On a ground of its own, so that it shows on a bar of any colour.
      g.setPaint(Color.WHITE);
      g.setStroke(Palette.HALO);
      whisker(g, from, to, middle);
      g.setPaint(Palette.TEXT);
      g.setStroke(Palette.LINE);
      whisker(g, from, to, middle);
    }

    private void whisker(Graphics2D g, double from, double to, double middle) {
      g.draw(new Line2D.Double(from, middle, to, middle));
      for (double end : new double[] {from, to}) {
        g.draw(new Line2D.Double(end, middle - CAP, end, middle + CAP));
      }
    }

    @Override
    public Paint getItemPaint(int row, int column) {
      Row bar = rows.get(column);
      if (isWhole(bar)) {
        return Palette.WHOLE;
      }
      if (bar.change() == 0) {
        return Palette.FRAME;
      }
      return bar.isDown() ? Palette.DOWN : Palette.UP;
    }
  }
}
