package everypart.cli.command;

import everypart.cli.run.Console;
import everypart.cli.run.StatusLine;
import everypart.cli.run.Stop;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.lang.reflect.Method;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.DatagramSocketImpl;
import java.net.DatagramSocketImplFactory;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ProtocolFamily;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketImpl;
import java.net.SocketImplFactory;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.channels.DatagramChannel;
import java.nio.channels.Pipe;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.channels.spi.AbstractSelector;
import java.nio.channels.spi.SelectorProvider;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A program of its own: runs command lines where every socket that Java can make is a trap, which
 * writes down that it was touched and then fails. Without command lines it touches them all, to
 * show that they work; with {@code --open} it does so with the traps away, for a watcher outside.
 */
public final class NetworkTrap extends SelectorProvider {
  private static final String LOG = "everypart.trap";

  /** A port that nobody listens on; the traps are sprung before it matters. */
  private static final int PORT = 9;

  /** Something that needs the network. */
  private interface Use {
    void run() throws Exception;
  }

  /** Made by Java, which is told of it by the property java.nio.channels.spi.SelectorProvider. */
  public NetworkTrap() {}

  /** Runs the command lines in a file, one a line with tabs between the words. */
  public static void main(String[] arguments) throws Exception {
    PrintStream out = System.out;
    boolean open = List.of(arguments).contains("--open");
    if (!open) {
      spring();
    }
    if (open || arguments.length == 0) {
      uses().forEach((name, use) -> out.println(name + "\t" + met(use)));
      return;
    }
    for (String line : Files.readAllLines(Path.of(arguments[0]))) {
      PrintWriter err = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
      PrintWriter results =
          new PrintWriter(OutputStream.nullOutputStream(), true, StandardCharsets.UTF_8);
      Console console =
          new Console(
              InputStream.nullInputStream(),
              results,
              err,
              false,
              true,
              new StatusLine(err, false),
              new Stop());
      out.println(Program.run(line.split("\t"), console) + "\t" + line);
    }
  }

  /** Stands before all sockets; by name, since Java would rather have these ways unused. */
  private static void spring() throws ReflectiveOperationException {
    set(
        Socket.class.getMethod("setSocketImplFactory", SocketImplFactory.class),
        (SocketImplFactory) () -> trapped(SocketImpl.class, "a socket"));
    set(
        ServerSocket.class.getMethod("setSocketFactory", SocketImplFactory.class),
        (SocketImplFactory) () -> trapped(SocketImpl.class, "a server's socket"));
    set(
        DatagramSocket.class.getMethod(
            "setDatagramSocketImplFactory", DatagramSocketImplFactory.class),
        (DatagramSocketImplFactory) () -> trapped(DatagramSocketImpl.class, "a datagram socket"));
  }

  private static void set(Method way, Object factory) throws ReflectiveOperationException {
    way.invoke(null, factory);
  }

  private static Map<String, Use> uses() {
    InetAddress here = InetAddress.getLoopbackAddress();
    Map<String, Use> uses = new LinkedHashMap<>();
    uses.put("socket", () -> new Socket(here, PORT).close());
    uses.put("server", () -> new ServerSocket(0, 1, here).close());
    uses.put(
        "datagram",
        () -> {
          try (DatagramSocket socket = new DatagramSocket()) {
            socket.send(new DatagramPacket(new byte[1], 1, here, PORT));
          }
        });
    uses.put("channel", () -> SocketChannel.open(new InetSocketAddress(here, PORT)).close());
    uses.put("server channel", () -> ServerSocketChannel.open().close());
    uses.put("datagram channel", () -> DatagramChannel.open().close());
    uses.put(
        "url", () -> URI.create("http://127.0.0.1:" + PORT + "/").toURL().openStream().close());
    uses.put(
        "http client",
        () ->
            HttpClient.newHttpClient()
                .send(
                    HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + PORT + "/")).build(),
                    HttpResponse.BodyHandlers.discarding()));
    return uses;
  }

  /** Returns what a use met. */
  private static String met(Use use) {
    try {
      use.run();
      return "nothing";
    } catch (Exception | Error e) {
      for (Throwable cause = e; cause != null; cause = cause.getCause()) {
        if (cause instanceof Trapped) {
          return "the trap";
        }
      }
      return e.toString();
    }
  }

  /** What a trap fails with. */
  private static final class Trapped extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Trapped(String what) {
      super(what);
    }
  }

  private static <T> T trapped(Class<T> type, String what) {
    try {
      Files.writeString(
          Path.of(System.getProperty(LOG)),
          what + "\n",
          StandardOpenOption.CREATE,
          StandardOpenOption.APPEND);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
    throw new Trapped(what + " of " + type.getSimpleName());
  }

  @Override
  public DatagramChannel openDatagramChannel() {
    return trapped(DatagramChannel.class, "a datagram channel");
  }

  @Override
  public DatagramChannel openDatagramChannel(ProtocolFamily family) {
    return openDatagramChannel();
  }

  @Override
  public Pipe openPipe() {
    return trapped(Pipe.class, "a pipe");
  }

  @Override
  public AbstractSelector openSelector() {
    return trapped(AbstractSelector.class, "a selector");
  }

  @Override
  public ServerSocketChannel openServerSocketChannel() {
    return trapped(ServerSocketChannel.class, "a server's channel");
  }

  @Override
  public SocketChannel openSocketChannel() {
    return trapped(SocketChannel.class, "a channel");
  }
}
