package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.exc.StreamReadException;
import tools.jackson.core.json.JsonFactory;

/**
 * A value in a JSON text that knows its place: file, line, column and JSON pointer. Numbers keep
 * the text they were written as, so that nothing is rounded or turned into infinity before it is
 * looked at.
 */
final class Json {
  /** What JSON knows. The name is how a message says it. */
  enum Type {
    OBJECT("an object"),
    ARRAY("an array"),
    STRING("a text"),
    NUMBER("a number"),
    BOOLEAN("true or false"),
    NULL("null");

    final String words;

    Type(String words) {
      this.words = words;
    }
  }

  private static final int MAX_DEPTH = 64;
  private static final JsonFactory FACTORY = new JsonFactory();

  final Type type;

  /** The characters of a text, the digits of a number, "true" or "false"; empty for the rest. */
  final String text;

  private final Map<String, Json> members = new LinkedHashMap<>();
  private final List<Json> items = new ArrayList<>();

  private final String source;
  private final Json parent;
  private final String step;
  private final TokenStreamLocation keyPlace;
  private final TokenStreamLocation place;
  private long end;

  private Json(
      Type type,
      String text,
      String source,
      Json parent,
      String step,
      TokenStreamLocation keyPlace,
      TokenStreamLocation place) {
    this.type = type;
    this.text = text;
    this.source = source;
    this.parent = parent;
    this.step = step;
    this.keyPlace = keyPlace;
    this.place = place;
  }

  /**
   * Reads one JSON value and nothing after it.
   *
   * @param source what messages call the text: the name of its file
   */
  static Json parse(String source, String text) {
    String body = withoutMark(text);
    boolean complete = false;
    try (JsonParser parser = FACTORY.createParser(ObjectReadContext.empty(), body)) {
      if (parser.nextToken() == null) {
        throw new ScenarioException(source + ": is empty: must be one JSON object.");
      }
      Json root = value(parser, source, null, "", parser.currentTokenLocation(), 1);
      complete = true;
      if (parser.nextToken() != null) {
        throw trailing(source, parser.currentTokenLocation());
      }
      return root;
    } catch (StreamReadException e) {
      if (complete) {
        throw trailing(source, e.getLocation());
      }
      throw new ScenarioException(
          at(source, e.getLocation()) + ": is not JSON: " + plain(e.getOriginalMessage()) + ".", e);
    }
  }

  private static Json value(
      JsonParser parser,
      String source,
      Json parent,
      String step,
      TokenStreamLocation keyPlace,
      int depth) {
    JsonToken token = parser.currentToken();
    TokenStreamLocation place = parser.currentTokenLocation();
    Type type = typeOf(token);
    String text = token.isScalarValue() && type != Type.NULL ? parser.getString() : "";
    Json node =
        new Json(type, text, source, parent, step, keyPlace == null ? place : keyPlace, place);
    if (token.isScalarValue()) {
      node.end =
          switch (type) {
            // its marks and escapes are no part of its text
            case STRING -> parser.currentLocation().getCharOffset();
            case NULL -> place.getCharOffset() + "null".length();
            default -> place.getCharOffset() + text.length();
          };
      return node;
    }
    if (depth > MAX_DEPTH) {
      throw new ScenarioException(
          at(source, place)
              + ": is nested too deep: at most "
              + MAX_DEPTH
              + " objects and arrays within one another.");
    }
    if (type == Type.ARRAY) {
      while (parser.nextToken() != JsonToken.END_ARRAY) {
        String index = Integer.toString(node.items.size());
        node.items.add(value(parser, source, node, index, null, depth + 1));
      }
      node.end = parser.currentTokenLocation().getCharOffset() + 1;
      return node;
    }
    while (parser.nextToken() != JsonToken.END_OBJECT) {
      String key = parser.getString();
      TokenStreamLocation keyAt = parser.currentTokenLocation();
      Json earlier = node.members.get(key);
      if (earlier != null) {
        throw new ScenarioException(
            at(source, keyAt)
                + ", at "
                + pointer(node)
                + ": key \""
                + key
                + "\" is given twice, first in line "
                + earlier.keyPlace.getLineNr()
                + ": must be given once.");
      }
      parser.nextToken();
      node.members.put(key, value(parser, source, node, key, keyAt, depth + 1));
    }
    node.end = parser.currentTokenLocation().getCharOffset() + 1;
    return node;
  }

  private static Type typeOf(JsonToken token) {
    return switch (token) {
      case START_OBJECT -> Type.OBJECT;
      case START_ARRAY -> Type.ARRAY;
      case VALUE_STRING -> Type.STRING;
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> Type.NUMBER;
      case VALUE_TRUE, VALUE_FALSE -> Type.BOOLEAN;
      default -> Type.NULL;
    };
  }

  /** The text without a byte order mark: what places are counted in. */
  static String withoutMark(String text) {
    return text.startsWith("\ufeff") ? text.substring(1) : text;
  }

  /** Where a value begins in the text that was parsed. */
  int start() {
    return (int) place.getCharOffset();
  }

  /** Where a value ends in the text that was parsed, exclusive. */
  int end() {
    return (int) end;
  }

  int line() {
    return place.getLineNr();
  }

  int column() {
    return place.getColumnNr();
  }

  /** The value that a pointer (RFC 6901) leads to from here; null where there is none. */
  Json at(String pointer) {
    if (pointer.isEmpty()) {
      return this;
    }
    if (pointer.charAt(0) != '/') {
      return null;
    }
    Json at = this;
    for (String step : pointer.substring(1).split("/", -1)) {
      String key = step.replace("~1", "/").replace("~0", "~");
      if (at.type == Type.ARRAY) {
        boolean index = key.matches("0|[1-9]\\d{0,8}") && Integer.parseInt(key) < at.items.size();
        at = index ? at.items.get(Integer.parseInt(key)) : null;
      } else {
        at = at.members.get(key);
      }
      if (at == null) {
        return null;
      }
    }
    return at;
  }

  /** The nearest key on the way down to this value: its own, or that of the array it stands in. */
  String key() {
    Json at = this;
    while (at.parent != null && at.parent.type == Type.ARRAY) {
      at = at.parent;
    }
    return at.step;
  }

  /** Members of an object in the order of the file. */
  Map<String, Json> members() {
    return members;
  }

  /** Items of an array in order. */
  List<Json> items() {
    return items;
  }

  /** A refusal of this value. The rule ends without a full stop. */
  ScenarioException refused(String rule) {
    return new ScenarioException(at(source, place) + ", at " + pointer(this) + ": " + rule + ".");
  }

  /** A refusal of this value, for what was thrown by somebody else. */
  ScenarioException refused(String rule, Throwable cause) {
    return new ScenarioException(
        at(source, place) + ", at " + pointer(this) + ": " + rule + ".", cause);
  }

  /** A refusal of the key of this value. */
  ScenarioException keyRefused(String rule) {
    return new ScenarioException(
        at(source, keyPlace) + ", at " + pointer(parent) + ": " + rule + ".");
  }

  /** The last step of the pointer: a key, or an index. */
  String step() {
    return step;
  }

  /** The value as a message shows it: as written, cut short where it is long. */
  String shown() {
    return switch (type) {
      case STRING -> "\"" + (text.length() > 40 ? text.substring(0, 40) + "..." : text) + "\"";
      case NUMBER -> text.length() > 40 ? text.substring(0, 40) + "..." : text;
      case BOOLEAN -> text;
      case NULL -> "null";
      case ARRAY -> "[...]";
      case OBJECT -> "{...}";
    };
  }

  private static String pointer(Json node) {
    if (node.parent == null) {
      return "the top";
    }
    StringBuilder pointer = new StringBuilder();
    for (Json at = node; at.parent != null; at = at.parent) {
      pointer.insert(0, "/" + at.step.replace("~", "~0").replace("/", "~1"));
    }
    return pointer.toString();
  }

  private static String at(String source, TokenStreamLocation place) {
    return source + ", line " + place.getLineNr() + ", column " + place.getColumnNr();
  }

  private static ScenarioException trailing(String source, TokenStreamLocation place) {
    return new ScenarioException(
        at(source, place)
            + ": text follows the end: a file holds one JSON object and nothing else.");
  }

  // The parser's own words tell which of its switches would let the text pass; that is no help to
  // the writer of a file.
  private static String plain(String message) {
    String first = message.lines().findFirst().orElse("cannot be read");
    return first
        .replaceAll(": enable `.*", "")
        .replaceAll(": maybe a \\(non-standard\\) comment.*", ": JSON has no comments")
        .replaceAll("\\.$", "");
  }
}
