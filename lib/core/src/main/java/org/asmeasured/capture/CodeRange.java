package org.asmeasured.capture;

/** The least and the greatest of codes. */
record CodeRange(int least, int greatest) {

  /** Of codes, at least one, four at a time, which do not wait for one another. */
  static CodeRange of(int[] codes) {
    int a = codes[0];
    int b = a;
    int c = a;
    int d = a;
    int i = 0;
    for (; i + 3 < codes.length; i += 4) {
      a = Math.min(a, Math.min(codes[i], codes[i + 1]));
      b = Math.max(b, Math.max(codes[i], codes[i + 1]));
      c = Math.min(c, Math.min(codes[i + 2], codes[i + 3]));
      d = Math.max(d, Math.max(codes[i + 2], codes[i + 3]));
    }
    for (; i < codes.length; i++) {
      a = Math.min(a, codes[i]);
      b = Math.max(b, codes[i]);
    }
    return new CodeRange(Math.min(a, c), Math.max(b, d));
  }

  /** Of both; unknown, null, if one of them is. */
  static CodeRange both(CodeRange some, CodeRange others) {
    return some == null || others == null
        ? null
        : new CodeRange(
            Math.min(some.least, others.least), Math.max(some.greatest, others.greatest));
  }
}
