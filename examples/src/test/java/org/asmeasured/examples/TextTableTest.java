package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class TextTableTest {
  @Test
  void breaksBetweenWordsAndLetsTheLastCellReachToTheEnd() {
    String table =
        new TextTable(2, 6, 5)
            .row("", "Name", "Value")
            .rule()
            .row("1", "one two three", "5")
            .row("2", "a longer sentence")
            .row("3", "abcdefgh", "")
            .toString();
    assertEquals(
        """
            Name    Value
        -----------------
        1   one     5
            two
            three
        2   a longer
            sentence
        3   abcdef
            gh
        """,
        table);
  }
}
