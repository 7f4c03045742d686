package everypart.cli.open;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;

import everypart.analyzer.judge.Reader;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

/** What was read once is not read again, and nothing is read that nobody waits for. */
class RememberingReaderTest {
  private final AtomicInteger asked = new AtomicInteger();
  private final Reader reader =
      new RememberingReader(
          (demand, own, rest) ->
              new Reader.Opinion(
                  asked.incrementAndGet(),
                  Collections.nCopies(own.size() + rest.size(), 0.0),
                  Collections.nCopies(Reader.LACKS.size(), 0.0)));

  @Test
  void onlyAPairThatChangedIsReadAgain() {
    Reader.Opinion first = reader.read("name it", List.of("a wheel"), List.of("it turns"));
    reader.read("explain it", List.of("a wheel"), List.of("it turns"));
    assertEquals(2, asked.get());
    assertSame(first, reader.read("name it", List.of("a wheel"), List.of("it turns")));
    assertEquals(2, asked.get());
    reader.read("name it", List.of("a wheel", "it turns"), List.of());
    reader.read("name it", List.of("a wheelit turns"), List.of());
    reader.read("name it", List.of("a wheel"), List.of("it turns."));
    assertEquals(5, asked.get(), "where the words are cut counts, too");
  }

  @Test
  void workThatNobodyWaitsForStopsBeforeTheNextReading() {
    assertThrows(
        CancellationException.class,
        () ->
            RememberingReader.whileWanted(
                () -> asked.get() < 2,
                () -> {
                  reader.read("one", List.of("a"), List.of());
                  reader.read("two", List.of("a"), List.of());
                  return reader.read("three", List.of("a"), List.of());
                }));
    assertEquals(2, asked.get());
    assertEquals(3.0, reader.read("three", List.of("a"), List.of()).logOdds());
  }
}
