package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Mends what labels say where the words and the place speak strongly against it, and says so.
 *
 * <p>A clear label is believed. Only where a part has no label at all is another one doubted: one
 * that stands twice, one that the prompt lacks, or one whose last sentences turn to the part that
 * has none.
 */
final class LabelSlips {
  /** So many labels are named in a remark. */
  private static final int MOST_NAMED = 10;

  /**
   * A block with a label of its own is given to another part only where its words fit that part
   * better by this much, as likeness from 0 to 1. Chosen by eye.
   */
  private static final double BETTER = 0.25;

  /**
   * Inside a line, a part without a label begins at a sentence whose likeness to the part is at
   * least this, from 0 to 1. Chosen by eye.
   */
  private static final double SPILLS = 0.6;

  /** The same at the start of a line, where a new part is more likely. Chosen by eye. */
  private static final double SPILLS_AT_LINE = 0.35;

  /** So much of a sentence is quoted in a remark, in characters. */
  private static final int LONGEST_QUOTE = 40;

  /** The sentences behind one label. */
  private record Block(String written, List<String> parts, int from, int to) {}

  private final Alignment alignment;
  private final Labels labels;
  private final List<PartProfile> profiles;

  LabelSlips(Alignment alignment, Labels labels, List<PartProfile> profiles) {
    this.alignment = alignment;
    this.labels = labels;
    this.profiles = profiles;
  }

  /**
   * Mends the labels.
   *
   * @param pieces the sentences and clauses of the response
   * @param mark for each piece, which of the labels it stands behind; -1 for none
   * @param labelled for each piece, the parts that label names; changed in place
   * @param remarks what was odd is added here
   */
  void mend(
      String raw,
      List<Sentence> pieces,
      List<LabelMark> marks,
      List<Integer> mark,
      List<List<String>> labelled,
      List<String> remarks) {
    List<Block> blocks = blocks(marks, mark);
    if (blocks.stream().anyMatch(block -> block.parts().size() > 1)) {
      return;
    }
    if (IntStream.range(0, labels.parts().size()).anyMatch(part -> !isNamed(blocks, part))) {
      mend(raw, pieces, blocks, remarks);
    }
    for (Block block : blocks) {
      for (int i = block.from(); i < block.to(); i++) {
        labelled.set(i, block.parts());
      }
    }
    blocks.stream()
        .filter(block -> block.parts().isEmpty())
        .forEach(block -> remarks.add(Sayings.of("label.noPart", block.written())));
    remarkOrder(blocks, remarks);
  }

  /** Says where the parts were answered in another order than the prompt's; each stays in place. */
  private void remarkOrder(List<Block> blocks, List<String> remarks) {
    List<String> order =
        blocks.stream()
            .filter(block -> block.parts().size() == 1)
            .map(block -> block.parts().get(0))
            .toList();
    for (int i = 1; i < order.size(); i++) {
      if (labels.place(order.get(i)) < labels.place(order.get(i - 1))) {
        boolean more = order.size() > MOST_NAMED;
        String first = String.join(", ", order.subList(0, more ? MOST_NAMED : order.size()));
        remarks.add(Sayings.of("label.order", more ? Sayings.of("label.more", first) : first));
        return;
      }
    }
  }

  private void mend(String raw, List<Sentence> pieces, List<Block> blocks, List<String> remarks) {
    double[][] likeness = new double[pieces.size()][];
    for (Block block : blocks) {
      for (int i = block.from(); i < block.to(); i++) {
        likeness[i] = alignment.match(raw, pieces.get(i), profiles);
      }
    }
    if (shift(blocks, likeness, remarks)) {
      return;
    }
    for (int part = 0; part < labels.parts().size(); part++) {
      if (!isNamed(blocks, part)) {
        rename(part, raw, pieces, blocks, likeness, remarks);
      }
      if (!isNamed(blocks, part)) {
        spill(part, raw, pieces, blocks, likeness, remarks);
      }
    }
  }

  private static List<Block> blocks(List<LabelMark> marks, List<Integer> mark) {
    List<Block> blocks = new ArrayList<>();
    int i = 0;
    while (i < mark.size()) {
      int from = i;
      int which = mark.get(i);
      while (i < mark.size() && mark.get(i) == which) {
        i++;
      }
      if (which >= 0) {
        blocks.add(new Block(marks.get(which).written(), marks.get(which).parts(), from, i));
      }
    }
    return blocks;
  }

  private boolean isNamed(List<Block> blocks, int part) {
    String label = labels.parts().get(part);
    return blocks.stream().anyMatch(block -> block.parts().contains(label));
  }

  /** Moves all labels one part back where they run from the second part to one past the last. */
  private boolean shift(List<Block> blocks, double[][] likeness, List<String> remarks) {
    int last = blocks.size() - 1;
    if (last < 1 || last + 1 != labels.parts().size() || !blocks.get(last).parts().isEmpty()) {
      return false;
    }
    double gain = 0;
    for (int i = 0; i <= last; i++) {
      if (i < last && !blocks.get(i).parts().equals(List.of(labels.parts().get(i + 1)))) {
        return false;
      }
      double[] mean = mean(blocks.get(i), likeness);
      gain += mean[i] - (i < last ? mean[i + 1] : 0);
    }
    if (gain < BETTER * blocks.size()) {
      return false;
    }
    for (int i = 0; i <= last; i++) {
      Block block = blocks.get(i);
      blocks.set(i, named(block, i));
    }
    remarks.add(
        Sayings.of(
            "label.earlier",
            blocks.get(0).written(),
            blocks.get(last).written(),
            labels.parts().get(0)));
    return true;
  }

  /** Gives a part without a label a block whose label stands twice or names nothing. */
  private void rename(
      int part,
      String raw,
      List<Sentence> pieces,
      List<Block> blocks,
      double[][] likeness,
      List<String> remarks) {
    for (int i = 0; i < blocks.size(); i++) {
      Block block = blocks.get(i);
      if (!isBetween(
          part, i > 0 ? Optional.of(blocks.get(i - 1)) : Optional.empty(), i + 1, blocks)) {
        continue;
      }
      double[] mean = mean(block, likeness);
      boolean foreign = block.parts().isEmpty();
      boolean twice =
          !foreign && blocks.stream().filter(b -> b.parts().equals(block.parts())).count() > 1;
      boolean fits =
          foreign
              ? IntStream.range(0, mean.length).allMatch(p -> mean[p] <= mean[part])
              : twice && mean[part] - mean[labels.place(block.parts().get(0))] >= BETTER;
      if (fits) {
        blocks.set(i, named(block, part));
        String label = labels.parts().get(part);
        remarks.add(
            Sayings.of(
                foreign ? "label.foreign" : "label.twice",
                quote(raw, pieces.get(block.from())),
                block.written(),
                label,
                foreign ? "" : block.parts().get(0)));
        return;
      }
    }
  }

  /** Gives a part without a label the last sentences of the block before it, if they turn to it. */
  private void spill(
      int part,
      String raw,
      List<Sentence> pieces,
      List<Block> blocks,
      double[][] likeness,
      List<String> remarks) {
    for (int i = 0; i < blocks.size(); i++) {
      Block block = blocks.get(i);
      if (block.parts().isEmpty() || !isBetween(part, Optional.of(block), i + 1, blocks)) {
        continue;
      }
      int own = labels.place(block.parts().get(0));
      int start = -1;
      double gain = 0;
      double most = 0;
      for (int s = block.to() - 1; s > block.from(); s--) {
        double[] here = likeness[s];
        double lead = here[part] - here[own];
        gain += lead;
        double least = pieces.get(s).lineStart() ? SPILLS_AT_LINE : SPILLS;
        boolean best = IntStream.range(0, here.length).allMatch(p -> here[p] <= here[part]);
        if (best && here[part] >= least && lead >= least / 2 && gain > most) {
          most = gain;
          start = s;
        }
      }
      if (start > 0) {
        blocks.set(i, new Block(block.written(), block.parts(), block.from(), start));
        String label = labels.parts().get(part);
        blocks.add(i + 1, new Block(block.written(), List.of(label), start, block.to()));
        remarks.add(
            Sayings.of("label.spill", quote(raw, pieces.get(start)), block.written(), label));
        return;
      }
    }
  }

  /** Tells whether a part falls between a block and the one that follows, in the prompt's order. */
  private boolean isBetween(int part, Optional<Block> before, int next, List<Block> blocks) {
    boolean after =
        next >= blocks.size()
            || (!blocks.get(next).parts().isEmpty()
                && labels.place(blocks.get(next).parts().get(0)) > part);
    boolean behind =
        before.isEmpty()
            || (!before.get().parts().isEmpty()
                && labels.place(before.get().parts().get(0)) < part);
    return after && behind;
  }

  private double[] mean(Block block, double[][] likeness) {
    double[] mean = new double[labels.parts().size()];
    for (int i = block.from(); i < block.to(); i++) {
      for (int p = 0; p < mean.length; p++) {
        mean[p] += likeness[i][p] / (block.to() - block.from());
      }
    }
    return mean;
  }

  private Block named(Block block, int part) {
    return new Block(block.written(), List.of(labels.parts().get(part)), block.from(), block.to());
  }

  private static String quote(String raw, Sentence piece) {
    String words = piece.span().of(raw).replaceAll("\\s+", " ");
    if (words.length() > LONGEST_QUOTE) {
      int cut = words.lastIndexOf(' ', LONGEST_QUOTE);
      words = words.substring(0, cut > 0 ? cut : LONGEST_QUOTE) + " ...";
    }
    return "\"" + words + "\"";
  }
}
