package org.asmeasured.acquisition;

import org.asmeasured.internal.Require;

/** The check of a place between points. */
final class Places {
  private Places() {}

  static void check(double[] points, int index, double share, int margin) {
    int last = Require.present("points", points).length - 1 - margin;
    Require.inRange("index", index, margin, last);
    if (!(share >= 0 && share < 1) || index == last && share != 0) {
      Require.inRange("share", share, "", 0, index == last ? 0 : Math.nextDown(1.0));
    }
  }
}
