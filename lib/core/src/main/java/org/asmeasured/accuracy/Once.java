package org.asmeasured.accuracy;

import java.util.function.Supplier;

/** What is found when it is first asked for, by one thread, and kept; after a failure anew. */
final class Once<T> implements Supplier<T> {
  private Supplier<T> source;
  private T found;

  Once(Supplier<T> source) {
    this.source = source;
  }

  @Override
  public synchronized T get() {
    if (source != null) {
      found = source.get();
      source = null; // with all that it holds
    }
    return found;
  }
}
