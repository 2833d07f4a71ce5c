package org.asmeasured.examples;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import javax.imageio.ImageIO;
import javax.imageio.stream.ImageOutputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import org.apache.batik.dom.GenericDOMImplementation;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.jfree.chart.JFreeChart;
import org.w3c.dom.Document;

/**
 * One picture of a report: drawn for a given width, so that its letters keep their size on a narrow
 * page.
 *
 * @param file name of its files, without the ending
 * @param title one line
 * @param caption what it shows, in a sentence or two
 * @param wide size on a wide page
 * @param narrow size on a narrow page
 * @param chart makes the drawing for a size
 */
record Picture(String file, String title, String caption, Size wide, Size narrow, Drawing chart) {

  /** Width and height in units of a page's pixels. */
  record Size(int width, int height) {
    boolean isNarrow() {
      return width < 600;
    }
  }

  /** Makes the chart for a size. */
  interface Drawing {
    JFreeChart of(Size size);
  }

  private static final int PNG_SCALE = 2;
  private static final String SVG_NAMESPACE = "http://www.w3.org/2000/svg";

  /** The wide drawing as PNG, two dots for each unit of its size. */
  byte[] png() {
    BufferedImage image =
        new BufferedImage(
            wide.width() * PNG_SCALE, wide.height() * PNG_SCALE, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    try {
      g.setTransform(AffineTransform.getScaleInstance(PNG_SCALE, PNG_SCALE));
      g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      g.setRenderingHint(
          RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
      g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
      g.setRenderingHint(
          RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
      draw(g, wide);
    } finally {
      g.dispose();
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    // In memory: the default stream would write a file of its own to the machine's temporary
    // folder.
    try (ImageOutputStream stream = new MemoryCacheImageOutputStream(out)) {
      ImageIO.write(image, "png", stream);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  /** A drawing as SVG, the same bytes on every run; it refers to nothing outside itself. */
  String svg(Size size) {
    Document document =
        GenericDOMImplementation.getDOMImplementation().createDocument(SVG_NAMESPACE, "svg", null);
    SVGGeneratorContext context = SVGGeneratorContext.createDefault(document);
    context.setComment(null);
    context.setPrecision(2);
    SVGGraphics2D g = new SVGGraphics2D(context, false);
    g.setSVGCanvasSize(new java.awt.Dimension(size.width(), size.height()));
    draw(g, size);
    StringWriter text = new StringWriter();
    try {
      g.stream(text, false);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return SvgText.of(text.toString(), size, title);
  }

  /** The three drawings that a report needs. */
  Rendered rendered() {
    return new Rendered(this, png(), svg(wide), svg(narrow));
  }

  /** A picture as files and pages hold it. */
  record Rendered(Picture picture, byte[] png, String wideSvg, String narrowSvg) {}

  private void draw(Graphics2D g, Size size) {
    JFreeChart drawing = chart.of(size);
    drawing.draw(g, new Rectangle2D.Double(0, 0, size.width(), size.height()));
  }
}
