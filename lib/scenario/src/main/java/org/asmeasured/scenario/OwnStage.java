package org.asmeasured.scenario;

import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.linear.Response;

/** A linear stage that a scenario names and describes itself. */
record OwnStage(String name, Response response) implements AnalogStage {
  @Override
  public String toString() {
    return name + ": " + response;
  }
}
