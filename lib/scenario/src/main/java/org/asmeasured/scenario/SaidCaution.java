package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.internal.Require;

/**
 * A caution, said once for all that it holds for.
 *
 * @param caution what to be warned of
 * @param places numbers of what it holds for, from 0, ascending; at least one
 */
public record SaidCaution(Caution caution, List<Integer> places) {

  /**
   * Checks and copies.
   *
   * @param caution what to be warned of
   * @param places at least one
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if there is no place
   */
  public SaidCaution {
    Require.present("caution", caution);
    places = List.copyOf(Require.present("places", places));
    Require.that(!places.isEmpty(), "places = []: must have at least one");
  }

  /** Those of each place, each caution once. */
  static List<SaidCaution> once(List<List<Caution>> cautions) {
    Map<Caution, List<Integer>> places = new LinkedHashMap<>();
    for (int i = 0; i < cautions.size(); i++) {
      for (Caution one : cautions.get(i).stream().distinct().toList()) {
        places.computeIfAbsent(one, c -> new ArrayList<>()).add(i);
      }
    }
    return places.entrySet().stream().map(e -> new SaidCaution(e.getKey(), e.getValue())).toList();
  }
}
