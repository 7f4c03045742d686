package everypart.cli.intake.document;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Element;
import org.jsoup.nodes.Node;
import org.jsoup.nodes.TextNode;
import org.jsoup.parser.Parser;
import org.jsoup.select.NodeFilter;

/**
 * Reads .html: what a browser shows of it, as saved by word processors and learning platforms.
 *
 * <p>Nothing that the page refers to is fetched, and no script in it is run.
 */
final class WebPageReader implements FormatReader {
  private static final Set<String> UNSEEN =
      Set.of(
          "head",
          "script",
          "style",
          "template",
          "noscript",
          "del",
          "s",
          "strike",
          "svg",
          "object",
          "iframe",
          "canvas",
          "audio",
          "video",
          "select",
          "button",
          "nav");

  private static final Map<String, Numerals> NUMERALS =
      Map.of(
          "1", Numerals.DECIMAL,
          "a", Numerals.LOWER_LETTER,
          "A", Numerals.UPPER_LETTER,
          "i", Numerals.LOWER_ROMAN,
          "I", Numerals.UPPER_ROMAN);

  /** Text above this many elements deep is no writer's. */
  private static final int DEEPEST = 2000;

  @Override
  public void read(byte[] bytes, Blocks blocks, List<FileRemark> remarks, Meter meter)
      throws DocumentException, IOException {
    for (byte sign : bytes) {
      if (sign == '<') {
        meter.add(Limit.ELEMENTS, 1);
      }
    }
    Encodings.Decoded decoded = Encodings.decode(bytes).orElse(null);
    // Without a mark, a page may name an encoding of its own, which the parser then follows.
    Element body =
        (decoded != null && !decoded.guessed()
                ? parse(decoded.text(), meter)
                : Jsoup.parse(new ByteArrayInputStream(bytes), null, ""))
            .body();
    Walk walk = new Walk(blocks, meter);
    body.filter(walk);
    walk.endBlock();
    int pictures = body.select("img").size();
    if (pictures > 0) {
      remarks.add(blocks.text().isEmpty() ? Faults.ONLY_PICTURES : Faults.pictures(pictures));
    }
  }

  private static org.jsoup.nodes.Document parse(String text, Meter meter) {
    return Parser.htmlParser().parseInput(meter.watched(new StringReader(text)), "");
  }

  /** A list that is being read. */
  private static final class Items {
    final boolean numbered;
    final Numerals numerals;
    int next;

    Items(boolean numbered, Numerals numerals, int next) {
      this.numbered = numbered;
      this.numerals = numerals;
      this.next = next;
    }
  }

  private static final class Walk implements NodeFilter {
    private final Blocks blocks;
    private final Meter meter;
    private final Deque<Items> lists = new ArrayDeque<>();
    private MarkedWords words;
    private String label = "";
    private boolean inItem;
    private int heading;
    private int bold;
    private int preformatted;

    Walk(Blocks blocks, Meter meter) {
      this.meter = meter;
      this.blocks = blocks;
      this.words = blocks.wording();
    }

    @Override
    public FilterResult head(Node node, int depth) {
      meter.step();
      if (depth > DEEPEST) {
        return FilterResult.SKIP_ENTIRELY;
      }
      if (node instanceof TextNode text) {
        add(text.getWholeText());
      } else if (node instanceof Element element) {
        return open(element);
      }
      return FilterResult.CONTINUE;
    }

    private FilterResult open(Element element) {
      String name = element.normalName();
      if (UNSEEN.contains(name)
          || element.hasAttr("hidden")
          || element.attr("style").replace(" ", "").contains("display:none")) {
        return FilterResult.SKIP_ENTIRELY;
      }
      if (isBlock(element)) {
        endBlock();
      }
      switch (name) {
        case "br" -> words.add("\n", false);
        case "b", "strong" -> bold++;
        case "pre" -> preformatted++;
        case "h1", "h2", "h3", "h4", "h5", "h6" -> heading = name.charAt(1) - '0';
        case "ul", "menu" -> lists.push(new Items(false, Numerals.NONE, 1));
        case "ol" ->
            lists.push(
                new Items(
                    true,
                    NUMERALS.getOrDefault(element.attr("type"), Numerals.DECIMAL),
                    number(element.attr("start"), 1)));
        case "li" -> item(element);
        case "table" -> blocks.startTable();
        case "tr" -> blocks.startRow();
        case "td", "th" -> blocks.startCell();
        default -> {}
      }
      return FilterResult.CONTINUE;
    }

    private void item(Element element) {
      Items list = lists.peek();
      inItem = true;
      if (list == null || !list.numbered) {
        label = "-";
      } else {
        list.next = number(element.attr("value"), list.next);
        label = list.numerals.of(list.next) + ".";
        list.next++;
      }
    }

    @Override
    public FilterResult tail(Node node, int depth) {
      if (node instanceof Element element) {
        String name = element.normalName();
        if (isBlock(element)) {
          endBlock();
        }
        switch (name) {
          case "b", "strong" -> bold--;
          case "pre" -> preformatted--;
          case "h1", "h2", "h3", "h4", "h5", "h6" -> heading = 0;
          case "ul", "ol", "menu" -> {
            lists.poll();
            inItem = !lists.isEmpty();
          }
          case "li" -> inItem = false;
          case "table" -> blocks.endTable();
          case "tr" -> blocks.endRow();
          case "td", "th" -> blocks.endCell();
          default -> {}
        }
      }
      return FilterResult.CONTINUE;
    }

    private static boolean isBlock(Element element) {
      return element.isBlock() || element.normalName().equals("td");
    }

    private static int number(String value, int otherwise) {
      try {
        return Integer.parseInt(value.strip());
      } catch (NumberFormatException e) {
        return otherwise;
      }
    }

    private void add(String text) {
      if (preformatted > 0) {
        words.add(text, bold > 0);
        return;
      }
      StringBuilder out = new StringBuilder(text.length());
      boolean space = words.endsWithSpace();
      for (int i = 0; i < text.length(); i++) {
        char sign = text.charAt(i);
        boolean blank = sign == ' ' || sign == '\t' || sign == '\n' || sign == '\r';
        if (!blank) {
          out.append(sign);
        } else if (!space) {
          out.append(' ');
        }
        space = blank;
      }
      words.add(out.toString(), bold > 0);
    }

    void endBlock() {
      String text = words.toString();
      if (text.isBlank()) {
        words = blocks.wording();
        return;
      }
      if (heading > 0) {
        blocks.heading(heading, text);
      } else if (inItem) {
        blocks.item(label, text);
        label = "";
      } else {
        blocks.paragraph(text);
      }
      words = blocks.wording();
    }
  }
}
