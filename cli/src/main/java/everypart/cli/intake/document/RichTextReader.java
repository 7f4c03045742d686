package everypart.cli.intake.document;

import com.rtfparserkit.parser.RtfListenerAdaptor;
import com.rtfparserkit.parser.RtfStreamSource;
import com.rtfparserkit.parser.standard.StandardRtfParser;
import com.rtfparserkit.rtf.Command;
import com.rtfparserkit.rtf.CommandType;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * Reads .rtf: Rich Text Format 1.9.1.
 *
 * <p>What stands beside the text (fonts, styles, headers, footers, comments, pictures) is left out,
 * and so is what is hidden or was taken out by a tracked change. The numbers of lists stand in the
 * file as text.
 */
final class RichTextReader implements FormatReader {
  /** Groups of text that is part of what its reader sees. */
  private static final Set<Command> SEEN =
      EnumSet.of(
          Command.rtf,
          Command.fldrslt,
          Command.field,
          Command.listtext,
          Command.pntext,
          Command.result,
          Command.shp,
          Command.shpinst,
          Command.shptxt,
          Command.ud,
          Command.upr);

  @Override
  public void read(byte[] bytes, Blocks blocks, List<FileRemark> remarks, Meter meter)
      throws DocumentException, IOException {
    Listener listener = new Listener(blocks, meter);
    checkBinaryLengths(bytes);
    new StandardRtfParser().parse(new RtfStreamSource(new ByteArrayInputStream(bytes)), listener);
    if (listener.depth > 0) {
      remarks.add(
          new FileRemark(
              Sayings.of("richTextReader.fileEndsMiddle"),
              Sayings.of("richTextReader.openOwnProgram")));
    }
    if (listener.footnotes > 0) {
      remarks.add(Faults.footnotes(listener.footnotes));
    }
    if (listener.pictures > 0) {
      remarks.add(
          blocks.text().isEmpty() ? Faults.ONLY_PICTURES : Faults.pictures(listener.pictures));
    }
  }

  /**
   * Checks the lengths of binary data ({@code \bin}) before the parser does, which makes room for
   * whatever length is said.
   *
   * @throws DocumentException when data is said to be longer than the rest of the file
   */
  private static void checkBinaryLengths(byte[] bytes) throws DocumentException {
    int i = 0;
    while (i + 1 < bytes.length) {
      if (bytes[i] != '\\') {
        i++;
        continue;
      }
      int at = i + 4;
      boolean binary =
          at < bytes.length && bytes[i + 1] == 'b' && bytes[i + 2] == 'i' && bytes[i + 3] == 'n';
      i += 2; // the sign after the backslash is part of the command, another backslash too
      if (!binary) {
        continue;
      }
      long length = 0;
      int digits = at;
      while (at < bytes.length && bytes[at] >= '0' && bytes[at] <= '9') {
        length = Math.min(length * 10 + bytes[at] - '0', Integer.MAX_VALUE);
        at++;
      }
      if (length > bytes.length - at) {
        throw new DocumentException(Faults.DAMAGED);
      }
      if (at > digits) {
        // What is in the data is no markup; the blank that ends the command is not part of it.
        boolean blank = at < bytes.length && bytes[at] == ' ';
        i = (int) Math.min(bytes.length, at + (blank ? 1 : 0) + length);
      }
    }
  }

  /** What holds in a group, until it ends. */
  private record State(boolean unseen, boolean bold, boolean hidden, boolean label) {}

  private static final class Listener extends RtfListenerAdaptor {
    private final Blocks blocks;
    private final Meter meter;
    private final Deque<State> outer = new ArrayDeque<>();
    private State state = new State(false, false, false, false);
    private MarkedWords words;
    private StringBuilder label = new StringBuilder();
    private boolean inTable;
    private boolean tableOpen;
    private boolean rowOpen;
    private boolean cellOpen;
    int depth;
    int footnotes;
    int pictures;

    Listener(Blocks blocks, Meter meter) {
      this.blocks = blocks;
      this.meter = meter;
      this.words = blocks.wording();
    }

    @Override
    public void processGroupStart() {
      meter.atMost(Limit.NESTING, ++depth);
      outer.push(state);
    }

    @Override
    public void processGroupEnd() {
      depth--;
      if (!outer.isEmpty()) {
        state = outer.pop();
      }
    }

    @Override
    public void processString(String text) {
      if (state.unseen || state.hidden) {
        return;
      }
      if (state.label) {
        meter.add(Limit.TEXT, text.length());
        label.append(text);
      } else {
        words.add(text, state.bold);
      }
    }

    @Override
    public void processCommand(Command command, int value, boolean hasValue, boolean optional) {
      meter.step();
      // A group that the parser has no name for comes as a bare "optional" sign.
      boolean beside = optional || command.getCommandType() == CommandType.Destination;
      if (command == Command.optionalcommand || (beside && !SEEN.contains(command))) {
        if (!state.unseen) {
          count(command);
        }
        state = new State(true, state.bold, state.hidden, state.label);
        return;
      }
      if (state.unseen) {
        return;
      }
      boolean on = !hasValue || value != 0;
      switch (command) {
        case listtext, pntext -> {
          label = new StringBuilder();
          state = new State(state.unseen, state.bold, state.hidden, true);
        }
        case b -> state = new State(state.unseen, on, state.hidden, state.label);
        case v, deleted -> state = new State(state.unseen, state.bold, on, state.label);
        case plain -> state = new State(state.unseen, false, false, state.label);
        case par, sect, page -> paragraphMark();
        case pard -> inTable = false;
        case intbl -> inTable = true;
        case line, column -> processString("\n");
        case tab -> processString("\t");
        case cell, nestcell -> endCell();
        case row, nestrow -> endRow();
        default -> {}
      }
    }

    private void count(Command command) {
      switch (command) {
        case footnote -> footnotes++;
        case pict, shppict -> pictures++;
        default -> {}
      }
    }

    private void endParagraph() {
      String sign = label.toString().strip();
      String text = words.toString();
      label = new StringBuilder();
      words = blocks.wording();
      if (sign.isEmpty()) {
        blocks.paragraph(text);
      } else {
        blocks.item(sign.codePoints().anyMatch(Character::isLetterOrDigit) ? sign : "-", text);
      }
    }

    private void startCell() {
      if (!tableOpen) {
        blocks.startTable();
        tableOpen = true;
      }
      if (!rowOpen) {
        blocks.startRow();
        rowOpen = true;
      }
      if (!cellOpen) {
        blocks.startCell();
        cellOpen = true;
      }
    }

    private void endCell() {
      startCell();
      endParagraph();
      blocks.endCell();
      cellOpen = false;
    }

    private void endRow() {
      if (rowOpen) {
        blocks.endRow();
        rowOpen = false;
        cellOpen = false;
      }
    }

    private void endTable() {
      endRow();
      if (tableOpen) {
        blocks.endTable();
        tableOpen = false;
      }
    }

    /** Ends a paragraph at its own mark, which may stand in a cell. */
    private void paragraphMark() {
      if (inTable) {
        startCell();
      } else {
        endTable();
      }
      endParagraph();
    }

    @Override
    public void processDocumentEnd() {
      paragraphMark();
      endTable();
    }
  }
}
