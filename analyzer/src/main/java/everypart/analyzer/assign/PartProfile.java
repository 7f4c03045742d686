package everypart.analyzer.assign;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.analyzer.text.Token;
import everypart.lexicon.AnswerForm;
import everypart.lexicon.Aspect;
import everypart.lexicon.Concept;
import everypart.lexicon.ConceptMatch;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Language;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;

/**
 * What a part is about: its words with their weights, and the shapes that an answer to it would
 * have.
 *
 * @param words the weight of each stem of its wording; a word that fewer parts share weighs more
 * @param answer the same for the author's points and model answer; empty where there are none
 * @param kinds the kinds of its demands
 * @param choice whether it asks for a yes, a no or a choice
 * @param outcome whether it asks what will or would happen
 * @param forms the forms of answer that it asks for
 * @param persons which of "he" and "she" it speaks of
 */
record PartProfile(
    Map<String, Double> words,
    Map<String, Double> answer,
    Set<DemandKind> kinds,
    boolean choice,
    boolean outcome,
    Set<ResponseForm> forms,
    Set<String> persons) {
  private static final Map<String, String> PERSONS = personForms();

  private static final Set<AnswerForm> CHOICES =
      EnumSet.of(AnswerForm.YES_NO, AnswerForm.OPTION, AnswerForm.WHICH);

  private static Map<String, String> personForms() {
    Map<String, String> persons = new HashMap<>();
    for (String person : Language.english().list("person")) {
      Language.english().list(person).forEach(form -> persons.put(form, person));
    }
    return Map.copyOf(persons);
  }

  /** Reads the profiles of all parts of a prompt. */
  static List<PartProfile> of(
      Prompt prompt, TextReader texts, Lexicon lexicon, AlignmentSettings settings) {
    List<Map<String, Double>> raw = new ArrayList<>();
    List<Map<String, Double>> answers = new ArrayList<>();
    for (Part part : prompt.parts()) {
      Map<String, Double> words = new HashMap<>();
      addQuestion(words, texts.read(part.text()), settings);
      add(words, related(texts.read(part.text()), lexicon), settings.relatedWeight());
      raw.add(words);
      Map<String, Double> answer = new HashMap<>();
      part.modelAnswer().ifPresent(text -> add(answer, stems(texts.read(text)), 1));
      for (Demand demand : part.demands()) {
        for (Point point : demand.points()) {
          point.phrases().forEach(phrase -> add(answer, stems(texts.read(phrase)), 1));
        }
      }
      answers.add(answer);
    }
    List<Map<String, Double>> questionWords =
        weigh(raw, lexicon, settings.rarityPower(), settings.lengthPower());
    List<Map<String, Double>> answerWords = weigh(answers, lexicon, settings.modelRarityPower(), 1);
    List<PartProfile> profiles = new ArrayList<>();
    int count = prompt.parts().size();
    for (int i = 0; i < count; i++) {
      Part part = prompt.parts().get(i);
      Set<DemandKind> kinds = new HashSet<>();
      part.demands().forEach(demand -> kinds.add(demand.kind()));
      Text wording = texts.read(part.text());
      List<Sentence> sentences = wording.sentences();
      Set<String> persons = new HashSet<>();
      sentences.forEach(sentence -> persons.addAll(persons(sentence)));
      profiles.add(
          new PartProfile(
              questionWords.get(i),
              answerWords.get(i),
              Set.copyOf(kinds),
              asks(part, demand -> CHOICES.contains(demand.asking().form())),
              asks(
                  part,
                  demand ->
                      demand.kind() == DemandKind.PREDICT
                          || demand.asking().aspects().contains(Aspect.OUTCOME)),
              ResponseForm.askedBy(part.demands()),
              Set.copyOf(persons)));
    }
    return profiles;
  }

  private static boolean asks(Part part, Predicate<Demand> which) {
    return part.demands().stream().anyMatch(which);
  }

  /**
   * Weighs words by how much they tell in general and among these parts, and scales each part's
   * words by their length as a vector.
   */
  private static List<Map<String, Double>> weigh(
      List<Map<String, Double>> raw, Lexicon lexicon, double rarityPower, double lengthPower) {
    Map<String, Integer> parts = new HashMap<>();
    raw.forEach(words -> words.forEach((stem, weight) -> parts.merge(stem, 1, Integer::sum)));
    int count = raw.size();
    List<Map<String, Double>> weighed = new ArrayList<>();
    for (Map<String, Double> map : raw) {
      Map<String, Double> words = new HashMap<>();
      map.forEach(
          (stem, weight) -> {
            double shared = parts.getOrDefault(stem, 1);
            double rarity = count == 1 ? 1 : Math.pow(1 - (shared - 1) / count, rarityPower);
            words.put(stem, weight * rarity * lexicon.weights().weight(stem));
          });
      double norm = Math.sqrt(words.values().stream().mapToDouble(w -> w * w).sum());
      double scale = 1 / Math.pow(Math.max(norm, 0.5), lengthPower);
      words.replaceAll((stem, weight) -> weight * scale);
      weighed.add(Map.copyOf(words));
    }
    return weighed;
  }

  /** Adds the words of a part's wording: what asks weighs more than what leads up to it. */
  private static void addQuestion(
      Map<String, Double> words, Text wording, AlignmentSettings settings) {
    int last = wording.sentences().size() - 1;
    for (int i = 0; i <= last; i++) {
      Sentence sentence = wording.sentences().get(i);
      boolean asks =
          i >= last - 1 || wording.raw().substring(sentence.start(), sentence.end()).endsWith("?");
      double weight = asks ? 1 : settings.leadWeight();
      for (String stem : stems(sentence)) {
        words.merge(stem, weight, Math::max);
      }
    }
  }

  private static void add(Map<String, Double> words, Set<String> stems, double weight) {
    for (String stem : stems) {
      words.merge(stem, weight, Math::max);
    }
  }

  private static Set<String> related(Text text, Lexicon lexicon) {
    Set<String> stems = new HashSet<>();
    for (Sentence sentence : text.sentences()) {
      for (ConceptMatch match : lexicon.concepts(sentence)) {
        lexicon.concept(match.concept()).ifPresent(concept -> addNames(stems, concept, lexicon));
      }
    }
    return stems;
  }

  private static void addNames(Set<String> stems, Concept concept, Lexicon lexicon) {
    List<String> names = new ArrayList<>(concept.relates());
    names.addAll(concept.variants());
    for (String name : names) {
      for (String word : name.split(" ", -1)) {
        stems.add(lexicon.forms().stem(word));
      }
    }
  }

  /** Returns which of "he" and "she" a sentence speaks of. */
  static Set<String> persons(Sentence sentence) {
    Set<String> persons = new HashSet<>();
    for (Token token : sentence.tokens()) {
      String person = PERSONS.get(token.form());
      if (person != null) {
        persons.add(person);
      }
    }
    return persons;
  }

  static Set<String> stems(Text text) {
    Set<String> stems = new HashSet<>();
    text.sentences().forEach(sentence -> stems.addAll(stems(sentence)));
    return stems;
  }

  static Set<String> stems(Sentence sentence) {
    Set<String> stems = new HashSet<>();
    for (int i = 0; i < sentence.size(); i++) {
      if (!unit(sentence, i)
          && (sentence.tokens().get(i).isWord() || sentence.tokens().get(i).isNumber())) {
        stems.add(sentence.stem(i));
      }
    }
    return stems;
  }

  /** Tells whether a token is a unit of measure: a short word behind a number or a stroke. */
  private static boolean unit(Sentence sentence, int i) {
    if (i == 0 || sentence.form(i).length() > 2 || !sentence.tokens().get(i).isWord()) {
      return false;
    }
    Token before = sentence.tokens().get(i - 1);
    return before.isNumber() || (before.form().equals("/") && i > 1);
  }
}
