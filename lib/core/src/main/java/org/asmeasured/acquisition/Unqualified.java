package org.asmeasured.acquisition;

/** No condition. */
enum Unqualified implements Qualifier {
  EVERY;

  @Override
  public String toString() {
    return "every pulse";
  }
}
