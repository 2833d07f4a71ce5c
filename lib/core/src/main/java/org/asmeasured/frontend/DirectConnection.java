package org.asmeasured.frontend;

import org.asmeasured.linear.Network;

/** No probe at all. */
record DirectConnection() implements Probe {
  static final DirectConnection INSTANCE = new DirectConnection();

  @Override
  public String name() {
    return "direct connection";
  }

  @Override
  public double attenuation() {
    return 1;
  }

  @Override
  public Network network(Termination input) {
    return Network.empty();
  }

  @Override
  public String toString() {
    return name();
  }
}
