package org.asmeasured.acquisition;

/** Hold, and straight lines. */
enum PlainReconstruction implements Reconstruction {
  NONE("no values between points") {
    @Override
    public double between(double[] points, int index, double share) {
      Places.check(points, index, share, 0);
      return points[index];
    }
  },

  LINEAR("straight lines between points") {
    @Override
    public double between(double[] points, int index, double share) {
      Places.check(points, index, share, 0);
      return share == 0 ? points[index] : points[index] * (1 - share) + points[index + 1] * share;
    }
  };

  private final String words;

  PlainReconstruction(String words) {
    this.words = words;
  }

  @Override
  public String toString() {
    return words;
  }
}
