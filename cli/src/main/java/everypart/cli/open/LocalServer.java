package everypart.cli.open;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.cli.report.OpenHtml;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Duration;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Consumer;

/**
 * Serves the local page to a browser on this machine.
 *
 * <p>It listens on the loopback address alone, on a free port. Every address begins with a token of
 * 256 random bits, so that no other page can name one; a request whose Host is not this server, as
 * after a rebinding of names, or that another origin sent, is refused whatever it asks.
 */
public final class LocalServer implements AutoCloseable {
  private static final int TOKEN_BYTES = 32;
  private static final long LARGEST_JSON = 32L << 20;
  private static final String SECONDS_FOR_A_REQUEST = "120";

  /**
   * How long nothing may be asked of a page that was closed or loaded anew, and how often to look.
   */
  private static final Duration GRACE = Duration.ofSeconds(4);

  private static final Duration PULSE = Duration.ofSeconds(1);

  private final HttpServer server;
  private final ExecutorService threads;
  private final String token;
  private final String host;
  private final Visitors visitors = new Visitors(PULSE, GRACE);
  private final Desk desk;
  private final ClassDesk classes;
  private final Consumer<Throwable> faults;
  private final String judge;
  private final boolean firstLook;

  /** What a request asks, once it was let in. */
  record Asked(String method, List<String> way, HttpExchange exchange) {
    boolean is(String wanted, String... path) {
      return method.equals(wanted) && way.equals(List.of(path));
    }

    /** Reads the body, of at most so many bytes. */
    byte[] bytes(long largest) throws IOException, Refusal {
      try (InputStream in = exchange.getRequestBody()) {
        byte[] bytes = in.readNBytes((int) Math.min(Integer.MAX_VALUE - 8, largest + 1));
        if (bytes.length > largest) {
          pass(in, largest);
          throw new Refusal(413, Sayings.of("refused.size", largest >> 20));
        }
        return bytes;
      }
    }

    /** Reads on for a while, so that a browser hears why, and not just that the line is dead. */
    private static void pass(InputStream in, long most) throws IOException {
      byte[] buffer = new byte[1 << 16];
      long passed = 0;
      for (int read = in.read(buffer); read >= 0 && passed < most; read = in.read(buffer)) {
        passed += read;
      }
    }

    String text() throws IOException, Refusal {
      return new String(bytes(LARGEST_JSON), StandardCharsets.UTF_8);
    }
  }

  /** Starts with one analyzer for all. */
  public LocalServer(CoverageAnalyzer analyzer, Consumer<Throwable> faults) throws IOException {
    this(analyzer, analyzer, faults);
  }

  /**
   * Starts.
   *
   * @param quick judges what is being typed, until there is a pause long enough for the analyzer
   * @param faults is told of what should never happen
   * @throws IOException when no port is free
   */
  public LocalServer(CoverageAnalyzer analyzer, CoverageAnalyzer quick, Consumer<Throwable> faults)
      throws IOException {
    // A client that sends a byte now and then may not hold a thread for ever.
    if (System.getProperty("sun.net.httpserver.maxReqTime") == null) {
      System.setProperty("sun.net.httpserver.maxReqTime", SECONDS_FOR_A_REQUEST);
    }
    byte[] random = new byte[TOKEN_BYTES];
    new SecureRandom().nextBytes(random);
    this.token = HexFormat.of().formatHex(random);
    this.faults = faults;
    this.judge = analyzer.judge();
    this.desk = new Desk(analyzer, quick);
    this.firstLook = quick != analyzer;
    this.classes = new ClassDesk(analyzer, desk);
    this.server =
        HttpServer.create(
            new InetSocketAddress(InetAddress.getByAddress(new byte[] {127, 0, 0, 1}), 0), 0);
    this.host = "127.0.0.1:" + server.getAddress().getPort();
    this.threads =
        Executors.newCachedThreadPool(
            task -> {
              Thread thread = new Thread(task, "page");
              thread.setDaemon(true);
              return thread;
            });
    server.setExecutor(threads);
    server.createContext("/", this::serve);
    server.start();
    threads.execute(desk::warm); // the first keystroke should not wait for what is read once
  }

  /** Returns the address of the page. */
  public String address() {
    return "http://" + host + "/" + token + "/";
  }

  /**
   * Waits until the last page is closed, or {@link #close} is called.
   *
   * @return whether it was the page that was closed
   */
  public boolean awaitLastPage() throws InterruptedException {
    return visitors.awaitLast();
  }

  /** Ends the visit, so that {@link #awaitLastPage} returns. */
  public void end() {
    visitors.end();
  }

  @Override
  public void close() {
    visitors.end();
    server.stop(0);
    threads.shutdownNow();
    classes.close();
  }

  private void serve(HttpExchange exchange) {
    try (exchange) {
      head(exchange);
      try {
        answer(admitted(exchange));
      } catch (Refusal refusal) {
        send(exchange, refusal.status(), "text/plain", bytes(refusal.sentence()));
      } catch (RuntimeException e) {
        faults.accept(e);
        send(exchange, 500, "text/plain", bytes(Sayings.of("refused.fault")));
      }
    } catch (IOException gone) {
      // The page went away before it had its answer.
    }
  }

  private static void head(HttpExchange exchange) {
    var headers = exchange.getResponseHeaders();
    headers.set("Cache-Control", "no-store");
    headers.set("Referrer-Policy", "no-referrer");
    headers.set("X-Content-Type-Options", "nosniff");
    headers.set("X-Frame-Options", "DENY");
    headers.set("Cross-Origin-Resource-Policy", "same-origin");
    headers.set("Cross-Origin-Opener-Policy", "same-origin");
    headers.set("Content-Security-Policy", "frame-ancestors 'none'");
  }

  /** Lets a request in, or not. */
  private Asked admitted(HttpExchange exchange) throws Refusal {
    var headers = exchange.getRequestHeaders();
    List<String> hosts = headers.getOrDefault("Host", List.of());
    List<String> origins = headers.getOrDefault("Origin", List.of());
    List<String> sites = headers.getOrDefault("Sec-Fetch-Site", List.of());
    boolean own =
        hosts.equals(List.of(host))
            && origins.stream().allMatch(("http://" + host)::equals)
            && sites.stream().allMatch(site -> site.equals("same-origin") || site.equals("none"));
    String method = exchange.getRequestMethod();
    boolean changes = !method.equals("GET");
    if (!own || (changes && origins.size() != 1)) {
      throw new Refusal(403, Sayings.of("refused.place"));
    }
    if (changes && !method.equals("POST")) {
      throw new Refusal(405, Sayings.of("refused.method"));
    }
    String[] way = exchange.getRequestURI().getRawPath().split("/", -1);
    boolean known =
        way.length > 2
            && MessageDigest.isEqual(
                way[1].getBytes(StandardCharsets.UTF_8), token.getBytes(StandardCharsets.UTF_8));
    if (!known) {
      throw new Refusal(403, Sayings.of("refused.place"));
    }
    return new Asked(method, List.of(way).subList(2, way.length), exchange);
  }

  private void answer(Asked asked) throws IOException, Refusal {
    HttpExchange exchange = asked.exchange();
    String last = asked.way().get(asked.way().size() - 1);
    if (asked.is("GET", "")) {
      send(exchange, 200, "text/html", bytes(OpenHtml.page(judge, firstLook)));
    } else if (asked.method().equals("GET") && last.equals("here")) {
      exchange.getResponseHeaders().set("Content-Type", "text/plain");
      exchange.sendResponseHeaders(200, 0);
      visitors.stay(exchange.getResponseBody());
    } else if (asked.way().get(0).equals("class")) {
      classes.answer(asked);
    } else {
      send(exchange, 200, "application/json", bytes(desk.answer(asked)));
    }
  }

  static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  static void send(HttpExchange exchange, int status, String type, byte[] body) throws IOException {
    String charset = type.startsWith("text/") || type.endsWith("json") ? "; charset=utf-8" : "";
    exchange.getResponseHeaders().set("Content-Type", type + charset);
    if (status >= 400) {
      // What is left of the request is not read: the connection ends here.
      exchange.getResponseHeaders().set("Connection", "close");
    }
    exchange.sendResponseHeaders(status, body.length == 0 ? -1 : body.length);
    try (OutputStream out = exchange.getResponseBody()) {
      out.write(body);
    }
  }
}
