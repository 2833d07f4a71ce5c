package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.List;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Attr;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** Reads pages and pictures as the XML that they are. */
final class Markup {
  private Markup() {}

  static Document parse(String text) throws Exception {
    // The platform's own parser, whatever else is on the path.
    DocumentBuilder builder = DocumentBuilderFactory.newDefaultInstance().newDocumentBuilder();
    builder.setErrorHandler(null);
    builder.setEntityResolver(
        (publicId, systemId) -> {
          throw new AssertionError("refers to " + systemId);
        });
    return builder.parse(new InputSource(new StringReader(text)));
  }

  /** No address but the names of namespaces, anywhere in the text. */
  static void assertRefersToNothingOutside(String text) {
    String rest =
        text.replace("http://www.w3.org/1999/xhtml", "")
            .replace("http://www.w3.org/2000/svg", "")
            .replace("http://www.w3.org/1999/xlink", "");
    for (String address :
        List.of("http:", "https:", "file:", "//cdn", "@import", "<script", "<link", "<iframe")) {
      assertFalse(rest.contains(address), address);
    }
  }

  /** Every reference is to data inside, or to a part of the same document. */
  static void assertRefersToNothingOutside(Document document) {
    NodeList all = document.getElementsByTagName("*");
    for (int i = 0; i < all.getLength(); i++) {
      Element element = (Element) all.item(i);
      for (int a = 0; a < element.getAttributes().getLength(); a++) {
        Attr attribute = (Attr) element.getAttributes().item(a);
        String name = attribute.getName();
        String value = attribute.getValue();
        if (name.equals("src") || name.equals("srcset") || name.endsWith("href")) {
          assertTrue(
              value.startsWith("data:image/svg+xml;base64,") || value.startsWith("#"),
              () -> name + " = " + value);
        }
        int url = value.indexOf("url(");
        assertTrue(url < 0 || value.startsWith("url(#", url), () -> name + " = " + value);
      }
    }
  }
}
