package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Document;

class PictureTest {
  private static final Sample.Sine SINE = new Sample.Sine(0, 1, 120e3);

  @BeforeAll
  static void withoutAScreen() {
    System.setProperty("java.awt.headless", "true");
  }

  static Stream<Comparison> comparisons() {
    return Stream.of(
        Sample.points(SINE, 0, 1e6, 60, 0.03),
        Sample.points(SINE, 0, 1e9, 50_000, 0.03),
        Sample.points(SINE, 3, 1e7, 100_000, 0.03),
        Sample.points(SINE, 0, 1e6, 1, 0.03),
        Sample.envelope(SINE, 1e7, 1000, 0.03),
        Sample.envelope(SINE, 1e5, 5000, 0.03));
  }

  @ParameterizedTest
  @MethodSource("comparisons")
  void drawsPngAndSvgOfTheSizeTheySay(Comparison comparison) throws Exception {
    List<Picture> pictures = new RecordPictures(comparison).all();
    assertTrue(pictures.size() >= 2);
    for (Picture picture : pictures) {
      BufferedImage png = ImageIO.read(new ByteArrayInputStream(picture.png()));
      assertEquals(2 * picture.wide().width(), png.getWidth(), picture.file());
      assertEquals(2 * picture.wide().height(), png.getHeight(), picture.file());
      assertTrue(inkShare(png) > 0.005, () -> picture.file() + " is blank");
      for (Picture.Size size : List.of(picture.wide(), picture.narrow())) {
        Document svg = Markup.parse(picture.svg(size));
        assertEquals("svg", svg.getDocumentElement().getTagName());
        assertEquals(
            "0 0 " + size.width() + " " + size.height(),
            svg.getDocumentElement().getAttribute("viewBox"));
        Markup.assertRefersToNothingOutside(svg);
        Markup.assertRefersToNothingOutside(picture.svg(size));
      }
    }
  }

  @Test
  void drawsTheSameBytesAgain() {
    Comparison comparison = Sample.envelope(SINE, 1e7, 1000, 0.03);
    List<Picture> first = new RecordPictures(comparison).all();
    List<Picture> second = new RecordPictures(comparison).all();
    for (int i = 0; i < first.size(); i++) {
      assertArrayEquals(first.get(i).png(), second.get(i).png());
      Picture.Size size = first.get(i).wide();
      assertEquals(first.get(i).svg(size), second.get(i).svg(size));
    }
  }

  @Test
  void namesBothAxesWithTheirUnits() {
    String svg = svgOf("error", Sample.points(SINE, 0, 1e9, 50_000, 0.03));
    for (String words : List.of("Time (µs)", "Record less truth (mV)", "Steps of the converter")) {
      assertTrue(svg.contains(">" + words + "<"), words);
    }
  }

  @Test
  void leavesStepsOutWhereTheConverterHasNone() {
    double[] volts = {0, 1, 0};
    assertFalse(
        svgOf("error", new Comparison(0, 1e6, 0, volts, volts, 0, null, SINE, 0))
            .contains("Steps"));
  }

  @Test
  void showsTheEndsOfARangeThatWasLeft() {
    double[] volts = {0, 0.5, 0};
    Comparison clipped =
        new Comparison(0, 1e6, 0, volts, volts, 0.1, new Comparison.Range(-0.5, 0.5), SINE, 0);
    assertTrue(svgOf("record", clipped).contains("Ends of the converter"));
  }

  @Test
  void namesEveryStageWithItsShare() {
    Picture picture = WaterfallPicture.of("where-it-went-1", Sample.ripple());
    String svg = picture.svg(picture.wide());
    for (String words :
        List.of(
            "coupling",
            "bandwidth",
            "quantisation",
            "as measured",
            "−0.30",
            "+27.40",
            "+27.10",
            "(mV)")) {
      assertTrue(svg.contains(words), words);
    }
  }

  /** A scatter of 5 mV about 27 mV: a whisker that reaches beyond the bar on both sides. */
  @Test
  void drawsWhiskersWhereAReadingScatters() {
    Reckoning still = Sample.ripple();
    Reckoning.Part last = still.parts().get(2);
    Reckoning scatters =
        new Reckoning(
            still.name(),
            still.unit(),
            still.truth(),
            still.measured(),
            List.of(
                still.parts().get(0),
                still.parts().get(1),
                new Reckoning.Part(last.stage(), last.bias(), true, 0.005)),
            new Reckoning.Random(0.005, 0.001, last.stage()));
    Picture with = WaterfallPicture.of("where-it-went-1", scatters);
    Picture without = WaterfallPicture.of("where-it-went-1", still);
    assertTrue(with.caption().contains("Whiskers"), with.caption());
    assertFalse(without.caption().contains("Whiskers"), without.caption());
    // Two rows with one, on a white ground that nothing else has.
    assertEquals(2 * 3, grounds(with));
    assertEquals(0, grounds(without));
  }

  /** Of a variance of 25 as measured 16 come first, 20 more, and a mean takes 11 away again. */
  @Test
  void showsWhichStageAddsHowMuchOfTheScatter() {
    Reckoning scatters =
        new Reckoning(
            "mean",
            "V",
            1,
            1,
            List.of(
                new Reckoning.Part("noise", 0, true, 0.004),
                new Reckoning.Part("jitter", 0, true, 0.006),
                new Reckoning.Part("averaging", 0, true, 0.005)),
            new Reckoning.Random(0.005, 0.001, "noise"));
    assertTrue(scatters.scattersByStage());
    assertFalse(Sample.ripple().scattersByStage());
    Picture picture = WaterfallPicture.ofRandomPart("random-part-1", scatters);
    String svg = picture.svg(picture.wide());
    for (String words : List.of("+64.0", "+80.0", "−44.0", "+100.0", "(%)", "averaging")) {
      assertTrue(svg.contains(words), words);
    }
    assertTrue(picture.caption().contains("5.000 mV"), picture.caption());
  }

  private static long grounds(Picture picture) {
    Matcher ground =
        Pattern.compile("<g [^>]*stroke-width=\"3\\.2\"[^>]*>(.*?)</g", Pattern.DOTALL)
            .matcher(picture.svg(picture.wide()));
    return ground.results().mapToLong(g -> g.group(1).split("<line", -1).length - 1).sum();
  }

  @Test
  void drawsAnExactReadingToo() throws IOException {
    Reckoning exact =
        new Reckoning("mean", "V", 1, 1, List.of(new Reckoning.Part("bandwidth", 0, true)));
    assertTrue(
        inkShare(ImageIO.read(new ByteArrayInputStream(WaterfallPicture.of("w", exact).png())))
            > 0.001);
  }

  private static String svgOf(String file, Comparison comparison) {
    for (Picture picture : new RecordPictures(comparison).all()) {
      if (picture.file().equals(file)) {
        return picture.svg(picture.wide());
      }
    }
    throw new AssertionError("no picture " + file);
  }

  private static double inkShare(BufferedImage image) {
    long ink = 0;
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        if ((image.getRGB(x, y) & 0xFFFFFF) != 0xFFFFFF) {
          ink++;
        }
      }
    }
    return (double) ink / ((long) image.getWidth() * image.getHeight());
  }
}
