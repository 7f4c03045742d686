package everypart.analyzer.judge;

import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * A response as the judge sees it: its clauses in order, each with the part it answers. For one
 * thread.
 */
final class ResponseView {
  private final Prompt prompt;
  private final String raw;
  private final List<Answer.Said> sentences;
  private final List<Clause> clauses;
  private final List<Optional<String>> parts;
  private final Map<String, PartWords> partWords;
  private final Features features;
  private final Answer whole;

  /** The response as the small reader sees it, once it was asked for. */
  private SmallReader.@Nullable Heard heard;

  /** Answers as it sees them, by their own pieces. */
  private final Map<List<Integer>, SmallReader.Said> said = new HashMap<>();

  private final Map<String, List<Reader.Opinion>> opinions = new HashMap<>();

  ResponseView(
      Prompt prompt,
      String raw,
      List<Answer.Said> sentences,
      List<Clause> clauses,
      List<Optional<String>> parts,
      Map<String, PartWords> partWords,
      Features features) {
    this.prompt = prompt;
    this.raw = raw;
    this.sentences = List.copyOf(sentences);
    this.clauses = List.copyOf(clauses);
    this.parts = List.copyOf(parts);
    this.partWords = partWords;
    this.features = features;
    this.whole = Answer.of(this.sentences, this.clauses);
  }

  /** Returns how many pieces it has: a piece is a clause with all that stands before it. */
  int size() {
    return clauses.size();
  }

  int from(int piece) {
    return piece == 0 ? 0 : clauses.get(piece - 1).span().end();
  }

  int to(int piece) {
    return piece + 1 < clauses.size() ? clauses.get(piece).span().end() : raw.length();
  }

  String text(Clause clause) {
    return clause.span().of(raw);
  }

  /** Tells whether a clause is no more than a label, such as "(b)". */
  boolean isBareLabel(Clause clause) {
    return text(clause).chars().filter(Character::isLetterOrDigit).count() <= 1;
  }

  PartWords words(Part part) {
    return Objects.requireNonNull(partWords.get(part.label()));
  }

  Answer whole() {
    return whole;
  }

  /** Returns the texts of the pieces that a part got, or of those that it did not. */
  List<String> pieceTexts(Part part, boolean own) {
    List<String> texts = new ArrayList<>();
    for (int i = 0; i < clauses.size(); i++) {
      if (parts.get(i).filter(part.label()::equals).isPresent() == own) {
        texts.add(raw.substring(from(i), to(i)));
      }
    }
    return texts;
  }

  /** Returns the pieces that a part got. */
  List<Integer> pieces(Part part) {
    List<Integer> own = new ArrayList<>();
    for (int i = 0; i < clauses.size(); i++) {
      if (parts.get(i).filter(part.label()::equals).isPresent()) {
        own.add(i);
      }
    }
    return own;
  }

  /** Returns what the part got, or what it did not. */
  Answer answer(Part part, boolean own) {
    List<Clause> chosen = new ArrayList<>();
    for (int i = 0; i < clauses.size(); i++) {
      if (parts.get(i).filter(part.label()::equals).isPresent() == own) {
        chosen.add(clauses.get(i));
      }
    }
    Set<Integer> in = chosen.stream().map(Clause::sentenceIndex).collect(Collectors.toSet());
    return Answer.of(sentences.stream().filter(said -> in.contains(said.index())).toList(), chosen);
  }

  /** Returns what the small reader makes of the demands of a part. */
  List<Reader.Opinion> smallOpinions(Part part) {
    List<Reader.Opinion> before = opinions.get(part.label());
    if (before != null) {
      return before;
    }
    SmallReader reader = SmallReader.bundled();
    List<Integer> own = pieces(part);
    SmallReader.Said known = said.get(own);
    if (known == null) {
      List<Integer> rest = new ArrayList<>();
      for (int i = 0; i < clauses.size(); i++) {
        if (parts.get(i).filter(part.label()::equals).isEmpty()) {
          rest.add(i);
        }
      }
      known = reader.said(heard(reader), own, rest);
      said.put(own, known);
    }
    SmallReader.Asked asked = words(part).askedBySmallReader(prompt);
    List<Reader.Opinion> made = reader.opinions(asked, known);
    opinions.put(part.label(), made);
    return made;
  }

  private SmallReader.Heard heard(SmallReader reader) {
    if (heard == null) {
      List<String> texts = new ArrayList<>();
      for (int i = 0; i < clauses.size(); i++) {
        texts.add(raw.substring(from(i), to(i)));
      }
      heard = reader.heard(texts);
    }
    return heard;
  }

  Values features(Part part, int place) {
    return features.of(words(part), place, text(part));
  }

  /** Returns what the features tell of the text of a part. */
  Features.OfText text(Part part) {
    return features.of(words(part), answer(part, true), answer(part, false));
  }
}
