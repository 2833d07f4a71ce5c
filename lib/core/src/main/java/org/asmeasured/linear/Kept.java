package org.asmeasured.linear;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;

/**
 * The values last asked for, a bounded number of them. A value follows from its key alone and is
 * immutable, so it does not matter whether it was kept or made anew. For any number of threads.
 */
final class Kept<K, V> {
  private final Map<K, V> values;

  Kept(int most) {
    values =
        new LinkedHashMap<>(2 * most, 0.75f, true) {
          private static final long serialVersionUID = 1;

          @Override
          protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
            return size() > most;
          }
        };
  }

  /** The value of a key; made outside the lock, by two threads at once if need be. */
  V of(K key, Supplier<V> maker) {
    synchronized (values) {
      V kept = values.get(key);
      if (kept != null) {
        return kept;
      }
    }
    V made = maker.get();
    synchronized (values) {
      values.put(key, made);
    }
    return made;
  }
}
