package org.asmeasured.linear;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * A small network of resistors, inductors and capacitors between named nodes, and the voltage at
 * any node for an ideal voltage source at another.
 *
 * <pre>{@code
 * Response lead = Network.empty()
 *     .resistor("tip", "a", 50).inductor("a", "b", 150e-9).capacitor("b", Network.GROUND, 10e-12)
 *     .response("tip", "b");
 * }</pre>
 *
 * <p>Zeros and poles come from the exact node equations with some hundred digits, so element values
 * may be many decades apart. Immutable: every method that adds an element returns a new network.
 */
public final class Network {
  /** The name of the reference node. */
  public static final String GROUND = "ground";

  private static final int MAX_ELEMENTS = 24;
  private static final Network EMPTY = new Network(List.of());

  private enum Kind {
    RESISTOR,
    INDUCTOR,
    CAPACITOR
  }

  private record Element(Kind kind, String from, String to, double value) {}

  private final List<Element> elements;

  private Network(List<Element> elements) {
    this.elements = elements;
  }

  /**
   * A network without elements.
   *
   * @return the start of every other
   */
  public static Network empty() {
    return EMPTY;
  }

  /**
   * Adds a resistor.
   *
   * @param from one node
   * @param to the other node
   * @param ohms resistance, 1e-9 to 1e18 ohm
   * @return a new network
   * @throws IllegalArgumentException if the value is out of range, the nodes are the same, or there
   *     are 24 elements already
   */
  public Network resistor(String from, String to, double ohms) {
    return with(Kind.RESISTOR, from, to, Require.inRange("ohms", ohms, "ohm", 1e-9, 1e18));
  }

  /**
   * Adds an inductor.
   *
   * @param from one node
   * @param to the other node
   * @param henries inductance, 1e-18 to 1e6 H
   * @return a new network
   * @throws IllegalArgumentException if the value is out of range, the nodes are the same, or there
   *     are 24 elements already
   */
  public Network inductor(String from, String to, double henries) {
    return with(Kind.INDUCTOR, from, to, Require.inRange("henries", henries, "H", 1e-18, 1e6));
  }

  /**
   * Adds a capacitor.
   *
   * @param from one node
   * @param to the other node
   * @param farads capacitance, 1e-21 to 1e6 F
   * @return a new network
   * @throws IllegalArgumentException if the value is out of range, the nodes are the same, or there
   *     are 24 elements already
   */
  public Network capacitor(String from, String to, double farads) {
    return with(Kind.CAPACITOR, from, to, Require.inRange("farads", farads, "F", 1e-21, 1e6));
  }

  private Network with(Kind kind, String from, String to, double value) {
    Require.present("from", from);
    Require.present("to", to);
    Require.that(
        !from.equals(to),
        "from and to are both \"" + from + "\": an element needs two different nodes");
    Require.that(
        elements.size() < MAX_ELEMENTS,
        "the network has " + MAX_ELEMENTS + " elements: must not have more");
    List<Element> all = new ArrayList<>(elements);
    all.add(new Element(kind, from, to, value));
    return new Network(List.copyOf(all));
  }

  /**
   * The elements of both networks; nodes of the same name are one node.
   *
   * @param other the other network
   * @return a new network
   * @throws IllegalArgumentException if more than 24 elements would result
   * @throws NullPointerException if the other network is missing
   */
  public Network joinedWith(Network other) {
    Require.present("other", other);
    Network all = this;
    for (Element e : other.elements) {
      all = all.with(e.kind, e.from, e.to, e.value);
    }
    return all;
  }

  /**
   * The same elements between nodes of other names. Ground keeps its name.
   *
   * @param names the new name of each node; two nodes that get the same name become one
   * @return a new network
   * @throws IllegalArgumentException if both ends of an element would be the same node
   * @throws NullPointerException if the function or a name is missing
   */
  public Network renamed(UnaryOperator<String> names) {
    Require.present("names", names);
    Network all = EMPTY;
    for (Element e : elements) {
      all = all.with(e.kind, newName(names, e.from), newName(names, e.to), e.value);
    }
    return all;
  }

  private static String newName(UnaryOperator<String> names, String node) {
    return node.equals(GROUND) ? GROUND : names.apply(node);
  }

  /**
   * The nodes between which the elements stand.
   *
   * @return in the order of their first use, ground with them if an element reaches it;
   *     unmodifiable, empty for a network without elements
   */
  public Set<String> nodes() {
    Set<String> nodes = new LinkedHashSet<>();
    for (Element e : elements) {
      nodes.add(e.from);
      nodes.add(e.to);
    }
    return Collections.unmodifiableSet(nodes);
  }

  /**
   * The voltage of a node against ground, for an ideal voltage source between another node and
   * ground.
   *
   * @param source node that the source drives
   * @param output node whose voltage is wanted
   * @return the exact rational response
   * @throws IllegalArgumentException if a node is unknown or left open, the source is shorted, or
   *     the response is not stable (a lossless loop)
   */
  public Response response(String source, String output) {
    List<String> nodes = new ArrayList<>(nodes());
    for (String node : Arrays.asList(source, output)) {
      Require.that(nodes.contains(node), "node \"" + node + "\": must be one of " + nodes);
    }
    Require.that(!source.equals(GROUND), "source = \"" + GROUND + "\": the source is shorted");
    if (output.equals(GROUND)) {
      return Response.gain(0);
    }
    nodes.remove(GROUND);
    int inductors = (int) elements.stream().filter(e -> e.kind == Kind.INDUCTOR).count();
    int n = nodes.size();
    // unknowns: node voltages, inductor currents, the source's current
    Pencil pencil = new Pencil(n + inductors + 1);
    int branch = n;
    for (Element e : elements) {
      int a = nodes.indexOf(e.from);
      int b = nodes.indexOf(e.to);
      switch (e.kind) {
        case RESISTOR -> {
          BigDecimal siemens = Pencil.reciprocal(e.value);
          stamp(a, b, siemens, pencil::addConstant);
        }
        case CAPACITOR -> stamp(a, b, new BigDecimal(e.value), pencil::addLinear);
        case INDUCTOR -> {
          incidence(pencil, a, branch, BigDecimal.ONE);
          incidence(pencil, b, branch, BigDecimal.ONE.negate());
          pencil.addLinear(branch, branch, new BigDecimal(e.value).negate());
          branch++;
        }
      }
    }
    incidence(pencil, nodes.indexOf(source), branch, BigDecimal.ONE);
    BigDecimal[] input = new BigDecimal[n + inductors + 1];
    Arrays.fill(input, BigDecimal.ZERO);
    input[branch] = BigDecimal.ONE;
    return pencil.response(input, nodes.indexOf(output));
  }

  private interface Stamp {
    void add(int row, int column, BigDecimal value);
  }

  private static void stamp(int a, int b, BigDecimal value, Stamp into) {
    if (a >= 0) {
      into.add(a, a, value);
    }
    if (b >= 0) {
      into.add(b, b, value);
    }
    if (a >= 0 && b >= 0) {
      into.add(a, b, value.negate());
      into.add(b, a, value.negate());
    }
  }

  /** A branch current leaves a node, and the node's voltage enters the branch equation. */
  private static void incidence(Pencil pencil, int node, int branch, BigDecimal sign) {
    if (node >= 0) {
      pencil.addConstant(node, branch, sign);
      pencil.addConstant(branch, node, sign);
    }
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Network && ((Network) other).elements.equals(elements);
  }

  @Override
  public int hashCode() {
    return elements.hashCode();
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder("network of ");
    for (int i = 0; i < elements.size(); i++) {
      Element e = elements.get(i);
      String unit =
          switch (e.kind) {
            case RESISTOR -> "ohm";
            case INDUCTOR -> "H";
            case CAPACITOR -> "F";
          };
      words
          .append(i == 0 ? "" : ", ")
          .append(Quantity.of(e.value, unit))
          .append(" from ")
          .append(e.from)
          .append(" to ")
          .append(e.to);
    }
    return words.toString();
  }
}
