package everypart.cli.intake;

import everypart.cli.intake.document.FileRemark;
import everypart.cli.intake.document.Limit;
import everypart.cli.intake.document.Limits;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;

/**
 * Opens files, and standard input under the name "-", as text.
 *
 * <p>Text is UTF-8 unless a byte order mark says UTF-16. Bytes that are no UTF-8 are read as
 * Windows-1252, the encoding that older Windows programs save in, and the caller is told so.
 */
public final class Sources {
  private static final String GZIP = ".gz";

  /** The name that stands for standard input. */
  public static final String STANDARD_INPUT = "-";

  /**
   * A byte order mark and the encoding it stands for.
   *
   * @param bytes its bytes, one a {@code char}
   */
  private record Mark(Charset charset, String bytes) {
    boolean begins(byte[] text) {
      byte[] own = bytes.getBytes(StandardCharsets.ISO_8859_1);
      return text.length >= own.length
          && ByteBuffer.wrap(text, 0, own.length).equals(ByteBuffer.wrap(own));
    }
  }

  private static final List<Mark> MARKS =
      List.of(
          new Mark(StandardCharsets.UTF_8, "\u00ef\u00bb\u00bf"),
          new Mark(StandardCharsets.UTF_16LE, "\u00ff\u00fe"),
          new Mark(StandardCharsets.UTF_16BE, "\u00fe\u00ff"));

  private static final Charset WINDOWS_1252 = Charset.forName("windows-1252");

  private final InputStream standardInput;
  private final Limits limits;
  private final Map<String, Checksum.OfFile> readings = new ConcurrentHashMap<>();
  private final Consumer<InputProblem> notes;

  /**
   * Makes the sources of one run.
   *
   * @param limits how much an input may hold
   * @param notes is told of each choice a person should know of
   */
  public Sources(InputStream standardInput, Limits limits, Consumer<InputProblem> notes) {
    this.standardInput = standardInput;
    this.limits = limits;
    this.notes = notes;
  }

  /**
   * Returns the SHA-256 of a file's bytes as they were read last, in hexadecimal; nothing where it
   * was not read, or closed before its end. What is left of an open file is read for it.
   */
  public Optional<String> checksum(String name) {
    return Optional.ofNullable(readings.get(name)).flatMap(Checksum.OfFile::sum);
  }

  /** Returns how much an input may hold. */
  public Limits limits() {
    return limits;
  }

  /** Tells of a choice a person should know of. */
  void note(InputProblem problem) {
    notes.accept(problem);
  }

  /** Returns where an input stands, for messages. */
  public static Place place(String name) {
    return Place.file(name.equals(STANDARD_INPUT) ? "standard input" : name);
  }

  /**
   * Opens an input; a file whose name ends with .gz is unzipped.
   *
   * @param name a file, or "-" for standard input
   * @throws InputException when there is no such file or it may not be read
   */
  public InputStream open(String name) throws InputException {
    if (name.equals(STANDARD_INPUT)) {
      return standardInput;
    }
    Path path = Path.of(name);
    if (Files.isDirectory(path)) {
      throw new InputException(
          InputProblem.fault(
              place(name), Sayings.of("sources.folder"), Sayings.of("sources.giveFile")));
    }
    if (Files.exists(path) && !Files.isRegularFile(path)) {
      throw new InputException(
          InputProblem.fault(
              place(name),
              Sayings.of("sources.pipeDeviceFile"),
              Sayings.of("sources.saveWhatGives")));
    }
    try {
      Checksum.OfFile file = new Checksum.OfFile(path);
      readings.put(name, file);
      return name.toLowerCase(Locale.ROOT).endsWith(GZIP) ? Unzipped.of(file) : file;
    } catch (IOException e) {
      throw new InputException(unreadable(name, e));
    }
  }

  /**
   * Opens the bytes of files one after the other, for the checksum of an input that they make
   * together.
   *
   * @param name the input
   * @throws InputException when one of them cannot be read
   */
  InputStream whole(String name, List<Path> files) throws InputException {
    if (files.size() == 1 && files.get(0).equals(Path.of(name))) {
      return open(name);
    }
    try {
      Checksum.Reading all = new Checksum.Reading(files);
      readings.put(name, all);
      return all;
    } catch (IOException e) {
      throw new InputException(unreadable(name, e));
    }
  }

  /**
   * Reads a whole input as text, without its byte order mark, line ends as given.
   *
   * @throws InputException when it cannot be read or is no text
   */
  public String text(String name) throws InputException {
    byte[] bytes;
    try (InputStream in = open(name)) {
      bytes = bytes(name, in);
    } catch (IOException e) {
      throw new InputException(unreadable(name, e));
    }
    return decode(name, bytes);
  }

  /**
   * Reads an input that is open, up to the bound of a file.
   *
   * @throws InputException when it holds more
   */
  byte[] bytes(String name, InputStream in) throws InputException, IOException {
    long most = Math.min(limits.of(Limit.FILE), 2_000) << 20;
    byte[] bytes = in.readNBytes((int) (most + 1));
    if (bytes.length > most) {
      throw new InputException(over(name, Limit.FILE));
    }
    return bytes;
  }

  private InputProblem over(String name, Limit limit) {
    FileRemark why = limits.exceeded(limit);
    return InputProblem.fault(place(name), why.what(), why.mend());
  }

  /** Opens an input for reading line by line. */
  LongLines lines(String name) throws InputException {
    return new LongLines(reader(name), limits.of(Limit.TEXT));
  }

  /** Returns the problem of a line that is longer than a text may be. */
  InputProblem tooLong(Place line) {
    FileRemark why = limits.exceeded(Limit.TEXT);
    return InputProblem.fault(line, why.what(), why.mend());
  }

  /** Returns the problem of an input that cannot be read. */
  static InputProblem unreadable(String name, IOException cause) {
    Place place = place(name);
    if (cause instanceof NoSuchFileException) {
      return InputProblem.fault(
          place, Sayings.of("sources.noSuchFile"), Sayings.of("sources.checkNameFolder"));
    }
    if (cause instanceof AccessDeniedException) {
      return InputProblem.fault(
          place, Sayings.of("sources.fileMayRead"), Sayings.of("sources.askOwnerRight"));
    }
    return InputProblem.fault(
        place,
        Sayings.of("sources.fileCannotRead", String.valueOf(cause.getMessage())),
        Sayings.of("sources.openOwnProgram"));
  }

  private String decode(String name, byte[] bytes) throws InputException {
    for (Mark mark : MARKS) {
      if (mark.begins(bytes)) {
        return strictly(mark.charset, bytes, mark.bytes.length(), name);
      }
    }
    try {
      return refuseBinary(name, decode(StandardCharsets.UTF_8, bytes, 0));
    } catch (CharacterCodingException notUtf8) {
      String text = refuseBinary(name, strictly(WINDOWS_1252, bytes, 0, name));
      notes.accept(
          InputProblem.note(
              place(name).atLine(lineOfFirstFault(bytes)),
              Sayings.of("sources.utfFileRead"),
              Sayings.of("sources.saveUtfIf")));
      return text;
    }
  }

  private static String strictly(Charset charset, byte[] bytes, int from, String name)
      throws InputException {
    try {
      return decode(charset, bytes, from);
    } catch (CharacterCodingException e) {
      throw new InputException(notText(name));
    }
  }

  private static String refuseBinary(String name, String text) throws InputException {
    if (text.indexOf('\0') >= 0) {
      throw new InputException(notText(name));
    }
    return text;
  }

  private static InputProblem notText(String name) {
    return InputProblem.fault(
        place(name), Sayings.of("sources.textFile"), Sayings.of("sources.savePlainText"));
  }

  private static String decode(Charset charset, byte[] bytes, int from)
      throws CharacterCodingException {
    return strict(charset).decode(ByteBuffer.wrap(bytes, from, bytes.length - from)).toString();
  }

  private static CharsetDecoder strict(Charset charset) {
    return charset
        .newDecoder()
        .onMalformedInput(CodingErrorAction.REPORT)
        .onUnmappableCharacter(CodingErrorAction.REPORT);
  }

  /** Returns the line, from 1, that holds the first bytes that are no UTF-8. */
  private static long lineOfFirstFault(byte[] bytes) {
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharsetDecoder decoder = strict(StandardCharsets.UTF_8);
    CharBuffer out = CharBuffer.allocate(8192);
    while (decoder.decode(in, out, true).isOverflow()) {
      out.clear();
    }
    long line = 1;
    for (int i = 0; i < in.position(); i++) {
      if (bytes[i] == '\n') {
        line++;
      }
    }
    return line;
  }

  /**
   * Opens an input for reading as text piece by piece.
   *
   * <p>A file is looked through once before, to know its encoding; standard input can be read only
   * once, so it is held in memory.
   *
   * @throws InputException when it cannot be read or is no text
   */
  public Reader reader(String name) throws InputException {
    if (!name.equals(STANDARD_INPUT) && isPlainUtf8(name)) {
      return new InputStreamReader(open(name), strict(StandardCharsets.UTF_8));
    }
    return new StringReader(text(name));
  }

  private boolean isPlainUtf8(String name) throws InputException {
    try (InputStream in = open(name)) {
      CharsetDecoder decoder = strict(StandardCharsets.UTF_8);
      ByteBuffer bytes = ByteBuffer.allocate(1 << 16);
      CharBuffer chars = CharBuffer.allocate(1 << 16);
      boolean first = true;
      boolean end = false;
      while (!end) {
        int read = in.read(bytes.array(), bytes.position(), bytes.remaining());
        end = read < 0;
        bytes.position(bytes.position() + Math.max(read, 0)).flip();
        if (first && bytes.hasRemaining() && (bytes.get(0) & 0xFF) >= 0xEF) {
          return false;
        }
        first = false;
        if (decoder.decode(bytes, chars, end).isError()
            || chars.flip().chars().anyMatch(c -> c == 0)) {
          return false;
        }
        chars.clear();
        bytes.compact();
      }
      return true;
    } catch (IOException e) {
      throw new InputException(unreadable(name, e));
    }
  }
}
