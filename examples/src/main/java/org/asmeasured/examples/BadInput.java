package org.asmeasured.examples;

/** Something the user handed in cannot be used; the message is the one sentence to tell. */
final class BadInput extends RuntimeException {
  private static final long serialVersionUID = 1L;

  BadInput(String sentence) {
    super(sentence);
  }

  BadInput(String sentence, Throwable cause) {
    super(sentence, cause);
  }
}
