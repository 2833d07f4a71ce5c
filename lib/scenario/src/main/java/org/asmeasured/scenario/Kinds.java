package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.asmeasured.scenario.Json.Type;

/**
 * The kinds of one sort of thing (signals, couplings, ...), each with its keys and its builder.
 * {@code kind} tells them apart.
 */
final class Kinds<T> {
  /** One kind. Required keys come first. */
  record Kind<T>(List<String> required, List<String> optional, Function<Fields, T> builder) {}

  private final String what;
  private final Map<String, Kind<T>> kinds = new LinkedHashMap<>();

  /** What the sort is called in messages: "signal". */
  Kinds(String what) {
    this.what = what;
  }

  /** Adds a kind. A key that ends in a question mark may be left out. */
  Kinds<T> add(String kind, String keys, Function<Fields, T> builder) {
    List<String> required = new ArrayList<>(List.of("kind"));
    List<String> optional = new ArrayList<>();
    for (String key : keys.isEmpty() ? new String[0] : keys.split(" ")) {
      if (key.endsWith("?")) {
        optional.add(key.substring(0, key.length() - 1));
      } else {
        required.add(key);
      }
    }
    kinds.put(kind, new Kind<>(required, optional, builder));
    return this;
  }

  /** Builds what an object says. */
  T read(Json node) {
    if (node.type != Type.OBJECT) {
      throw node.refused(
          what
              + " = "
              + node.shown()
              + " is "
              + node.type.words
              + ": must be an object with a \"kind\"");
    }
    Json named = node.members().get("kind");
    if (named == null) {
      throw node.refused(
          "key \"kind\" is missing: " + what + " must be one of " + String.join(", ", names()));
    }
    Kind<T> kind = named.type == Type.STRING ? kinds.get(named.text) : null;
    if (kind == null) {
      throw named.refused(
          "kind = "
              + named.shown()
              + ": "
              + what
              + " must be one of "
              + String.join(", ", names()));
    }
    return Fields.of(node, named.text, kind.required(), kind.optional()).build(kind.builder());
  }

  Collection<String> names() {
    return kinds.keySet();
  }

  Kind<T> kind(String name) {
    return kinds.get(name);
  }
}
