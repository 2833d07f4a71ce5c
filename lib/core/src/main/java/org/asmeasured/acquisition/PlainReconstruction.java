package org.asmeasured.acquisition;

import org.asmeasured.internal.Require;

/** Hold, and straight lines. */
enum PlainReconstruction implements Reconstruction {
  NONE("no values between points") {
    @Override
    public double at(double[] points, double place) {
      return points[index(points, place)];
    }
  },

  LINEAR("straight lines between points") {
    @Override
    public double at(double[] points, double place) {
      int index = index(points, place);
      double share = place - index;
      return share == 0 ? points[index] : points[index] * (1 - share) + points[index + 1] * share;
    }
  };

  private final String words;

  PlainReconstruction(String words) {
    this.words = words;
  }

  /** The point at or before a place. */
  static int index(double[] points, double place) {
    Require.present("points", points);
    return (int) Require.inRange("place", place, "points", 0, points.length - 1);
  }

  @Override
  public String toString() {
    return words;
  }
}
