package org.asmeasured.scenario;

import java.util.List;
import org.asmeasured.linear.Network;

/** The networks that a scenario can say: a list of elements between named nodes. */
final class NetworkKinds {
  private static final int MAX_ELEMENTS = 24;

  static final Kinds<Network> ELEMENTS =
      new Kinds<Network>("element")
          .add(
              "resistor",
              "from to ohms",
              f -> Network.empty().resistor(f.text("from"), f.text("to"), f.number("ohms")))
          .add(
              "inductor",
              "from to henries",
              f -> Network.empty().inductor(f.text("from"), f.text("to"), f.number("henries")))
          .add(
              "capacitor",
              "from to farads",
              f -> Network.empty().capacitor(f.text("from"), f.text("to"), f.number("farads")));

  private NetworkKinds() {}

  /** The network under the key "elements". */
  static Network read(Fields fields) {
    List<Json> elements = fields.list("elements");
    if (elements.isEmpty() || elements.size() > MAX_ELEMENTS) {
      throw fields
          .child("elements")
          .refused(
              "elements has " + elements.size() + " entries: must have from 1 to " + MAX_ELEMENTS);
    }
    Network network = Network.empty();
    for (Json element : elements) {
      network = network.joinedWith(ELEMENTS.read(element));
    }
    return network;
  }
}
