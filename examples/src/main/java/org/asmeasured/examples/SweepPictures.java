package org.asmeasured.examples;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Stroke;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.scenario.SweepAxis;
import org.asmeasured.scenario.SweepResult;
import org.asmeasured.scenario.SweepRow;
import org.asmeasured.scenario.SweptReading;
import org.asmeasured.scenario.SweptValue;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.plot.XYPlot;
import org.jfree.data.xy.XYSeries;

/**
 * A picture for each reading: the first axis of the sweep along, a line for each number of the
 * second, a picture for each number of the third.
 */
final class SweepPictures {
  private static final Picture.Size WIDE = new Picture.Size(960, 400);
  private static final Picture.Size NARROW = new Picture.Size(372, 400);

  /** More lines than can be told apart, and more pictures than are looked at. */
  private static final int MOST = 8;

  private static final float[][] DASHES = {{}, {12, 3, 2, 3}, {2, 3}, {16, 4}};
  private static final Color DARK = new Color(0x00324F);
  private static final Color LIGHT = new Color(0x5DB1E0);
  private static final int BAND_ALPHA = 0x60;

  private final SweepResult result;

  SweepPictures(SweepResult result) {
    this.result = result;
  }

  /** A picture, and which reading it is of. */
  record Drawn(int reading, Picture picture) {}

  /** One line of a picture: the points in ascending order along. */
  private record Line(String name, List<SweepRow> rows) {}

  List<Drawn> all() {
    List<Drawn> all = new ArrayList<>();
    List<SweepAxis> axes = result.sweep().axes();
    for (int r = 0; r < result.sweep().readingNames().size(); r++) {
      if (axes.size() < 3) {
        all.add(new Drawn(r, picture(r, "reading-" + (r + 1), "", -1)));
        continue;
      }
      SweptValue third = axes.get(2).values().get(0);
      for (int k : some(axes.get(2).size())) {
        String where = third.name() + " = " + SweepWords.text(third, third.numbers().get(k));
        all.add(new Drawn(r, picture(r, "reading-" + (r + 1) + "-" + (k + 1), where, k)));
      }
    }
    return all;
  }

  /** All of a few, else so many of them, the ends included. */
  private static List<Integer> some(int count) {
    Set<Integer> some = new LinkedHashSet<>();
    int drawn = Math.min(count, MOST);
    for (int i = 0; i < drawn; i++) {
      some.add(drawn == 1 ? 0 : (int) Math.round((double) i * (count - 1) / (drawn - 1)));
    }
    return List.copyOf(some);
  }

  private Picture picture(int reading, String file, String where, int third) {
    String name = SweepWords.capitalised(result.sweep().readingNames().get(reading));
    List<Line> lines = lines(third);
    String along = result.sweep().axes().get(0).values().get(0).name();
    boolean sure = result.rows().get(0).readings().get(reading).sureness().isPresent();
    StringBuilder caption = new StringBuilder();
    caption.append(sure ? "The mean reading over instruments and captures" : "The reading");
    caption.append(" as it is measured, and the true value, over ").append(along).append('.');
    if (sure) {
      caption.append(" Band: where 95 % of the readings lie.");
    }
    SweepAxis second = result.sweep().axes().size() > 1 ? result.sweep().axes().get(1) : null;
    if (second != null && second.size() > lines.size()) {
      caption.append(" Lines for ").append(lines.size()).append(" of ").append(second.size());
      caption.append(" values of ").append(second.values().get(0).name()).append('.');
    }
    if (lines.stream()
        .flatMap(line -> line.rows().stream())
        .anyMatch(row -> !SweepWords.shown(row.readings().get(reading)).isTaken())) {
      caption.append(" Where a point is missing the reading cannot be taken; the table says why.");
    }
    return new Picture(
        file,
        name + " over " + along + (where.isEmpty() ? "" : ", " + where),
        caption.toString(),
        WIDE,
        NARROW,
        size -> chart(reading, lines, size));
  }

  /** The lines of a picture, at a number of the third axis. */
  private List<Line> lines(int third) {
    List<SweepAxis> axes = result.sweep().axes();
    int seconds = axes.size() > 1 ? axes.get(1).size() : 1;
    int thirds = axes.size() > 2 ? axes.get(2).size() : 1;
    List<Line> lines = new ArrayList<>();
    for (int s : some(seconds)) {
      List<SweepRow> rows = new ArrayList<>();
      for (int f = 0; f < axes.get(0).size(); f++) {
        rows.add(result.rows().get((f * seconds + s) * thirds + Math.max(0, third)));
      }
      rows.sort(Comparator.comparing(row -> row.coordinates().get(0)));
      String name = "";
      if (axes.size() > 1) {
        SweptValue value = axes.get(1).values().get(0);
        name = value.name() + " = " + SweepWords.text(value, value.numbers().get(s));
      }
      lines.add(new Line(name, rows));
    }
    return lines;
  }

  private JFreeChart chart(int reading, List<Line> lines, Picture.Size size) {
    SweptAxis along = new SweptAxis(result.sweep().axes().get(0));
    String name = SweepWords.capitalised(result.sweep().readingNames().get(reading));
    String unit = result.sweep().readingUnits().get(reading);
    AxisScale across = across(name, unit, reading, lines);
    XYPlot plot = Charts.plot(along.axis(size.isNarrow()), across.axis(6));
    boolean sure = lines.get(0).rows().get(0).readings().get(reading).sureness().isPresent();
    for (int i = 0; sure && i < lines.size(); i++) {
      bands(plot, along, across, reading, lines.get(i), shade(i, lines.size()));
    }
    Set<List<Measured>> truths = new LinkedHashSet<>();
    for (Line line : lines) {
      truths.add(line.rows().stream().map(row -> row.readings().get(reading).truth()).toList());
    }
    for (List<Measured> truth : truths) {
      XYSeries series = series(along, across, lines.get(0).rows(), truth);
      if (!along.isCategory()) {
        Charts.line(plot, series, Palette.TRUTH, Palette.DASHED);
      }
      if (truth.size() == 1 || along.isCategory()) {
        Charts.diamonds(plot, series, Palette.TRUTH);
      }
    }
    if (along.isCategory()) {
      Charts.keyDiamond(plot, "True value", Palette.TRUTH);
    } else {
      Charts.keyLine(plot, "True value", Palette.TRUTH, Palette.DASHED);
    }
    String what = sure ? "Mean reading" : "As measured";
    for (int i = 0; i < lines.size(); i++) {
      Line line = lines.get(i);
      Color shade = shade(i, lines.size());
      Stroke stroke = stroke(i);
      List<Measured> values =
          line.rows().stream().map(row -> SweepWords.shown(row.readings().get(reading))).toList();
      XYSeries series = series(along, across, line.rows(), values);
      if (!along.isCategory()) {
        Charts.line(plot, series, shade, stroke);
      }
      double diameter = Charts.diameter(line.rows().size(), size.width());
      Charts.dots(plot, series, shade, diameter + 1);
      String key = line.name().isEmpty() ? what : line.name();
      if (along.isCategory()) {
        Charts.keyDots(plot, key, shade, null);
      } else {
        Charts.keyLine(plot, key, shade, stroke);
      }
    }
    if (sure) {
      Charts.keyBand(plot, "95 % of readings", banded(shade(0, lines.size())));
    }
    return Charts.chart(plot, true);
  }

  private static AxisScale across(String name, String unit, int reading, List<Line> lines) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (Line line : lines) {
      for (SweepRow row : line.rows()) {
        SweptReading one = row.readings().get(reading);
        List<Measured> figures = new ArrayList<>(List.of(one.truth(), SweepWords.shown(one)));
        one.sureness().ifPresent(sure -> figures.addAll(List.of(sure.lower(), sure.upper())));
        for (Measured figure : figures) {
          if (figure instanceof Value taken) {
            least = Math.min(least, taken.value());
            most = Math.max(most, taken.value());
          }
        }
      }
    }
    return least <= most ? AxisScale.of(name, unit, least, most) : AxisScale.of(name, unit, 0, 1);
  }

  private static XYSeries series(
      SweptAxis along, AxisScale across, List<SweepRow> rows, List<Measured> values) {
    XYSeries series = new XYSeries("line", false, true);
    for (int i = 0; i < values.size(); i++) {
      double y = values.get(i) instanceof Value taken ? across.in(taken.value()) : Double.NaN;
      series.add(along.in(rows.get(i).coordinates().get(0)), y);
    }
    return series;
  }

  /** The room between the ends of the intervals, a patch for each run of points that have one. */
  private static void bands(
      XYPlot plot, SweptAxis along, AxisScale across, int reading, Line line, Color shade) {
    List<double[]> run = new ArrayList<>();
    for (SweepRow row : line.rows()) {
      SweptReading.Sureness sure = row.readings().get(reading).sureness().orElseThrow();
      if (sure.lower() instanceof Value lower && sure.upper() instanceof Value upper) {
        run.add(
            new double[] {
              along.in(row.coordinates().get(0)), across.in(lower.value()), across.in(upper.value())
            });
      } else {
        band(plot, run, shade);
        run.clear();
      }
      if (along.isCategory()) {
        band(plot, run, shade);
        run.clear();
      }
    }
    band(plot, run, shade);
  }

  private static void band(XYPlot plot, List<double[]> run, Color shade) {
    if (run.size() < 2) {
      for (double[] alone : run) {
        XYSeries upright = new XYSeries("band", false, true);
        upright.add(alone[0], alone[1]);
        upright.add(alone[0], alone[2]);
        Charts.line(
            plot,
            upright,
            banded(shade),
            new BasicStroke(6, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND));
      }
      return;
    }
    double[] outline = new double[4 * run.size()];
    for (int i = 0; i < run.size(); i++) {
      outline[2 * i] = run.get(i)[0];
      outline[2 * i + 1] = run.get(i)[1];
      int back = outline.length - 2 * i - 2;
      outline[back] = run.get(i)[0];
      outline[back + 1] = run.get(i)[2];
    }
    Charts.fill(plot, outline, banded(shade));
  }

  private static Color banded(Color shade) {
    return new Color(shade.getRed(), shade.getGreen(), shade.getBlue(), BAND_ALPHA);
  }

  /** From dark to light over the lines of a picture; the usual colour for one alone. */
  private static Color shade(int line, int lines) {
    if (lines == 1) {
      return Palette.RECORD;
    }
    double share = (double) line / (lines - 1);
    return new Color(
        mixed(DARK.getRed(), LIGHT.getRed(), share),
        mixed(DARK.getGreen(), LIGHT.getGreen(), share),
        mixed(DARK.getBlue(), LIGHT.getBlue(), share));
  }

  private static int mixed(int from, int to, double share) {
    return (int) Math.round(from + share * (to - from));
  }

  private static Stroke stroke(int line) {
    float[] dash = DASHES[line % DASHES.length];
    return dash.length == 0
        ? Palette.BOLD
        : new BasicStroke(1.9f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10f, dash, 0f);
  }
}
