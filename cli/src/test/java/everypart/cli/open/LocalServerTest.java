package everypart.cli.open;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.lexicon.Lexicon;
import java.io.BufferedReader;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** What the local server lets in, answers and refuses, without a browser. */
class LocalServerTest {
  private static final JsonMapper JSON = new JsonMapper();
  private static final String QUESTION = "(a) Describe the pool.\n(b) Explain why the crabs hide.";

  @SuppressWarnings("NullAway.Init")
  private static CoverageAnalyzer analyzer;

  @SuppressWarnings("NullAway.Init")
  private static LocalServer server;

  private static final List<Throwable> FAULTS = new ArrayList<>();

  /** An answer: its status, its heads in lower case, and its body. */
  @SuppressWarnings("ArrayRecordComponent") // nobody compares answers
  private record Answer(int status, Map<String, String> heads, byte[] body) {
    String text() {
      return new String(body, StandardCharsets.UTF_8);
    }

    JsonNode json() throws IOException {
      return JSON.readTree(body);
    }
  }

  @BeforeAll
  static void start() throws IOException {
    analyzer = new CoverageAnalyzer(Lexicon.bundled());
    server = new LocalServer(analyzer, FAULTS::add);
  }

  @AfterAll
  static void stop() {
    server.close();
    assertEquals(List.of(), FAULTS);
  }

  private static InetAddress here() throws IOException {
    return InetAddress.getByAddress(new byte[] {127, 0, 0, 1});
  }

  private static int port() {
    return Integer.parseInt(server.address().replaceAll(".*:(\\d+)/.*", "$1"));
  }

  private static String own() {
    return "127.0.0.1:" + port();
  }

  private static String path(String rest) {
    return server.address().replaceAll("^http://[^/]+", "") + rest;
  }

  /** Sends a request byte by byte as given, as no well-behaved client would. */
  private static Answer raw(String method, String path, byte[] body, String... heads)
      throws IOException {
    try (Socket socket = new Socket(here(), port())) {
      socket.setSoTimeout(60_000);
      StringBuilder request = new StringBuilder(method + " " + path + " HTTP/1.1\r\n");
      for (String head : heads) {
        request.append(head).append("\r\n");
      }
      request
          .append("Content-Length: ")
          .append(body.length)
          .append("\r\nConnection: close\r\n\r\n");
      OutputStream out = socket.getOutputStream();
      out.write(request.toString().getBytes(StandardCharsets.ISO_8859_1));
      try {
        out.write(body);
        out.flush();
      } catch (IOException refusedBefore) {
        // The answer says why.
      }
      return answer(socket.getInputStream().readAllBytes());
    }
  }

  private static Answer answer(byte[] all) throws IOException {
    String text = new String(all, StandardCharsets.ISO_8859_1);
    int end = text.indexOf("\r\n\r\n");
    Map<String, String> heads = new TreeMap<>();
    String[] lines = text.substring(0, end).split("\r\n", -1);
    for (int i = 1; i < lines.length; i++) {
      int colon = lines[i].indexOf(':');
      heads.put(
          lines[i].substring(0, colon).toLowerCase(java.util.Locale.ROOT),
          lines[i].substring(colon + 1).strip());
    }
    byte[] body = java.util.Arrays.copyOfRange(all, end + 4, all.length);
    if ("chunked".equals(heads.get("transfer-encoding"))) {
      body = unchunked(body);
    }
    return new Answer(Integer.parseInt(lines[0].split(" ", -1)[1]), heads, body);
  }

  private static byte[] unchunked(byte[] chunked) throws IOException {
    String text = new String(chunked, StandardCharsets.ISO_8859_1);
    StringBuilder plain = new StringBuilder();
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(
                new ByteArrayInputStream(text.getBytes(StandardCharsets.ISO_8859_1)),
                StandardCharsets.ISO_8859_1))) {
      int at = 0;
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        at = text.indexOf("\r\n", text.indexOf(line, at)) + 2;
        int size = Integer.parseInt(line, 16);
        if (size == 0) {
          break;
        }
        plain.append(text, at, at + size);
        at += size + 2;
        reader.skip(size + 2L);
      }
    }
    return plain.toString().getBytes(StandardCharsets.ISO_8859_1);
  }

  private static Answer post(String way, byte[] body) throws IOException {
    return raw("POST", path(way), body, "Host: " + own(), "Origin: http://" + own());
  }

  private static Answer post(String way, String body) throws IOException {
    return post(way, body.getBytes(StandardCharsets.UTF_8));
  }

  private static Answer get(String way) throws IOException {
    return raw("GET", path(way), new byte[0], "Host: " + own());
  }

  private static String json(String... pairs) {
    var node = JSON.createObjectNode();
    for (int i = 0; i < pairs.length; i += 2) {
      node.put(pairs[i], pairs[i + 1]);
    }
    return node.toString();
  }

  private static String model() throws IOException {
    return post("prompt", json("text", QUESTION)).json().path("model").asText();
  }

  @Test
  void otherHostsOriginsTokensAndMethodsAreRefused() throws IOException {
    byte[] none = new byte[0];
    String here = path("");
    String home = "Host: " + own();
    assertEquals(200, raw("GET", here, none, home).status());
    assertEquals(403, raw("GET", here, none, "Host: evil.test:" + port()).status());
    assertEquals(403, raw("GET", here, none, "Host: localhost:" + port()).status());
    assertEquals(403, raw("GET", here, none, home, "Origin: http://evil.test").status());
    assertEquals(403, raw("GET", here, none, home, "Origin: null").status());
    assertEquals(403, raw("GET", here, none, home, "Sec-Fetch-Site: cross-site").status());
    assertEquals(403, raw("GET", here, none, home, "Sec-Fetch-Site: same-site").status());
    assertEquals(403, raw("GET", "/", none, home).status());
    assertEquals(403, raw("GET", "/favicon.ico", none, home).status());
    String other = here.substring(0, here.length() - 2) + (here.endsWith("0/") ? "1/" : "0/");
    assertEquals(403, raw("GET", other, none, home).status());
    assertEquals(403, raw("GET", here.substring(0, 20) + "/", none, home).status());
    byte[] body = json("text", QUESTION).getBytes(StandardCharsets.UTF_8);
    String prompt = path("prompt");
    assertEquals(403, raw("POST", prompt, body, home).status(), "without an origin");
    assertEquals(403, raw("POST", prompt, body, home, "Origin: http://evil.test").status());
    assertEquals(
        403, raw("POST", prompt, body, home, "Origin: https://" + own()).status(), "other scheme");
    assertEquals(200, raw("POST", prompt, body, home, "Origin: http://" + own()).status());
    assertEquals(405, raw("PUT", prompt, body, home, "Origin: http://" + own()).status());
    assertEquals(404, get("nothing").status());
    assertEquals(404, get("../prompt").status());
    assertEquals(404, get("%2e%2e/%2e%2e/etc/passwd").status());
    Answer page = get("");
    assertEquals("no-store", page.heads().get("cache-control"));
    assertEquals("nosniff", page.heads().get("x-content-type-options"));
    assertEquals("same-origin", page.heads().get("cross-origin-resource-policy"));
    assertEquals("frame-ancestors 'none'", page.heads().get("content-security-policy"));
    assertFalse(page.heads().containsKey("access-control-allow-origin"));
    assertFalse(page.text().contains("unsafe"), "the page's own policy is strict");
  }

  @Test
  void itListensOnThisMachineOnly() throws IOException {
    try (Stream<InetAddress> others =
        java.net.NetworkInterface.networkInterfaces()
            .flatMap(java.net.NetworkInterface::inetAddresses)
            .filter(address -> !address.isLoopbackAddress())) {
      for (InetAddress address : others.toList()) {
        try (Socket socket = new Socket()) {
          socket.connect(new InetSocketAddress(address, port()), 500);
          throw new AssertionError("it answers on " + address);
        } catch (IOException refused) {
          assertTrue(refused.getMessage() != null);
        }
      }
    }
    assertTrue(server.address().startsWith("http://127.0.0.1:"));
    assertTrue(server.address().matches(".*/[0-9a-f]{64}/"), "256 bits");
  }

  @Test
  void aHugeBodyAndNonsenseAreRefusedInASentence() throws IOException {
    Answer huge = post("judge", new byte[33 << 20]);
    assertEquals(413, huge.status());
    assertTrue(huge.text().contains("more than 32 MB"), huge.text());
    assertEquals(400, post("judge", "{nonsense").status());
    assertEquals(422, post("prompt", json("text", "  ")).status());
    assertEquals(422, post("judge", json("model", "{\"parts\":[]}", "text", "x")).status());
    assertTrue(post("judge", json("model", "{}", "text", "x")).text().contains("needs a list"));
    assertEquals(
        422,
        post(
                "prompt",
                json(
                    "model",
                    "{\"parts\":[{\"label\":\"a\",\"text\":\"x\",\"demands\":[{\"kind\":\"describe\",\"count\":0}]}]}"))
            .status());
    assertEquals(410, get("class/99/").status());
    assertTrue(
        post("class/saved", "no class").json().path("why").asText().contains("no index.html"));
    assertEquals(422, post("file?name=a.docx", "PK no document").status());
  }

  @Test
  void aSlowClientDoesNotKeepOthersWaiting() throws IOException {
    List<Socket> slow = new ArrayList<>();
    try {
      for (int i = 0; i < 40; i++) {
        Socket socket = new Socket(here(), port());
        socket
            .getOutputStream()
            .write(
                ("POST "
                        + path("prompt")
                        + " HTTP/1.1\r\nHost: "
                        + own()
                        + "\r\nOrigin: http://"
                        + own()
                        + "\r\nContent-Length: 1000\r\n\r\n{")
                    .getBytes(StandardCharsets.ISO_8859_1));
        slow.add(socket);
      }
      assertEquals(200, get("").status());
      assertEquals(200, post("prompt", json("text", QUESTION)).status());
    } finally {
      for (Socket socket : slow) {
        socket.close();
      }
    }
  }

  @Test
  void aPromptIsReadCorrectedAndJudged() throws IOException {
    JsonNode read = post("prompt", json("text", QUESTION, "id", "pool")).json();
    assertEquals(2, read.path("view").path("demands").size());
    assertEquals("Explain why the crabs hide.", read.path("view").at("/demands/1/from").asText());
    String model = read.path("model").asText();
    JsonNode judged =
        post("judge", json("model", model, "text", "(b) because the gulls hunt them.")).json();
    assertEquals("missing", judged.at("/row/c/0/v").asText());
    assertEquals("addressed", judged.at("/row/c/1/v").asText());
    JsonNode edited = JSON.readTree(model);
    ((com.fasterxml.jackson.databind.node.ObjectNode) edited.at("/parts/0/demands/0"))
        .put("count", 2);
    JsonNode now = post("prompt", json("model", edited.toString())).json();
    assertEquals(2, now.at("/view/demands/0/count").asInt());
    String yaml =
        post("yaml", json("model", now.path("model").asText())).json().path("yaml").asText();
    assertTrue(yaml.contains("count: 2") && yaml.contains("id: pool"), yaml);
    JsonNode again =
        JSON.readTree(
            post("prompt", JSON.createObjectNode().put("text", yaml).put("yaml", true).toString())
                .body());
    assertEquals(2, again.at("/view/demands/0/count").asInt());
    JsonNode drafts =
        post(
                "judge",
                json(
                    "model",
                    model,
                    "earlier",
                    "(a) It is deep.",
                    "text",
                    "(a) It is deep. (b) because gulls hunt them."))
            .json();
    assertEquals("closed", drafts.at("/changes/1").asText());
  }

  private static String dropped(Map<String, String> files) throws IOException {
    String id = post("class", "{}").json().path("id").asText();
    for (Map.Entry<String, String> file : files.entrySet()) {
      assertEquals(
          200,
          post(
                  "class/"
                      + id
                      + "/file?name="
                      + java.net.URLEncoder.encode(file.getKey(), StandardCharsets.UTF_8),
                  file.getValue())
              .status());
    }
    return id;
  }

  private static long leftOver() throws IOException {
    try (Stream<Path> files =
        Files.list(Path.of(String.valueOf(System.getProperty("java.io.tmpdir"))))) {
      return files
          .filter(file -> String.valueOf(file.getFileName()).matches("everypart\\d+"))
          .count();
    }
  }

  @Test
  void aClassIsReadSavedAndOpenedAgainAndLeavesNoFileBehind() throws IOException {
    long before = leftOver();
    String id =
        dropped(
            new TreeMap<>(
                Map.of(
                    "class/ada.txt", "(a) The pool is deep and cold.",
                    "class/ben.txt", "(b) because the gulls hunt them.",
                    "class/odd.bin", "\0\1\2")));
    String[] lines =
        post("class/" + id + "/run", json("model", model(), "name", "pool")).text().split("\n", -1);
    JsonNode end = JSON.readTree(lines[lines.length - 2]);
    assertEquals(2, end.path("read").asInt(), end.toString());
    assertEquals(1, end.path("problems").size());
    assertTrue(end.at("/problems/0").asText().startsWith("class/odd.bin: "), end.toString());
    assertEquals(before, leftOver());
    assertTrue(get("class/" + id + "/").text().contains("\"served\":\"./\""));
    String state =
        "{\"format\":\"everypart-corrections\",\"version\":1,\"responses\":[{\"promptId\":\"question\","
            + "\"responseId\":\"ada\",\"read\":false,\"comment\":\"Well seen.\",\"demands\":[{\"part\":\"b\","
            + "\"demand\":1,\"kind\":\"explain\",\"verdict\":\"addressed\",\"overruled\":true}]}]}";
    assertEquals(200, post("class/" + id + "/state", state).status());
    assertTrue(get("class/" + id + "/").text().contains("\"note\":\"Well seen.\""));
    assertEquals(
        422,
        post("class/" + id + "/state", state.replace("question", "other")).status(),
        "another question's corrections");
    Answer zip = post("class/" + id + "/save", state);
    Map<String, String> saved = new TreeMap<>();
    try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip.body()))) {
      for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
        saved.put(entry.getName(), new String(in.readAllBytes(), StandardCharsets.UTF_8));
      }
    }
    assertEquals(
        List.of(
            "pool/corrections.json",
            "pool/demands.csv",
            "pool/index.html",
            "pool/matrix.csv",
            "pool/question.yaml",
            "pool/results.jsonl",
            "pool/slips.docx",
            "pool/slips.html"),
        List.copyOf(saved.keySet()));
    assertTrue(String.valueOf(saved.get("pool/matrix.csv")).contains("ada,question,addressed,0"));
    assertTrue(String.valueOf(saved.get("pool/slips.html")).contains("Well seen."));
    assertFalse(String.valueOf(saved.get("pool/index.html")).contains("\"served\""));
    for (byte[] again :
        List.of(zip.body(), LocalServer.bytes(String.valueOf(saved.get("pool/index.html"))))) {
      String reopened = post("class/saved", again).json().path("id").asText();
      String page = get("class/" + reopened + "/").text();
      assertTrue(
          page.contains("\"note\":\"Well seen.\"")
              && page.contains("\"v\":\"addressed\",\"p\":\"missing\""));
    }
    JsonNode mended = JSON.readTree(get("class/" + id + "/prompt").json().path("model").asText());
    ((com.fasterxml.jackson.databind.node.ObjectNode) mended.at("/parts/0/demands/0"))
        .put("kind", "compare");
    assertEquals(200, post("class/" + id + "/again", json("model", mended.toString())).status());
    String page = get("class/" + id + "/").text();
    assertTrue(page.contains("\"kind\":\"compare\"") && page.contains("\"note\":\"Well seen.\""));
    assertTrue(page.contains("\"v\":\"addressed\",\"p\":\"missing\""), "what still fits is kept");
  }

  @Test
  void noNameOfAFileLeadsOutOfItsFolder() throws IOException {
    String id = post("class", "{}").json().path("id").asText();
    for (String name :
        List.of(
            "../a.txt", "a/../../b.txt", "/etc/x", "", "a//b", "..", "a\\..\\b", "c:x", "a\0b")) {
      assertEquals(
          422,
          post(
                  "class/"
                      + id
                      + "/file?name="
                      + java.net.URLEncoder.encode(name, StandardCharsets.UTF_8),
                  "x")
              .status(),
          name);
    }
    assertEquals(410, post("class/77/file?name=a.txt", "x").status());
  }

  @Test
  void itStopsAWhileAfterItsLastPageIsClosed() throws Exception {
    try (LocalServer own = new LocalServer(analyzer, FAULTS::add)) {
      Thread waiting =
          new Thread(
              () -> {
                try {
                  own.awaitLastPage();
                } catch (InterruptedException e) {
                  Thread.currentThread().interrupt();
                }
              });
      waiting.start();
      int port = Integer.parseInt(own.address().replaceAll(".*:(\\d+)/.*", "$1"));
      String here = own.address().replaceAll("^http://[^/]+", "") + "here";
      Socket page = stay(port, here);
      TimeUnit.SECONDS.sleep(6);
      assertTrue(waiting.isAlive(), "a page is open");
      page.close();
      Socket anew = stay(port, here);
      TimeUnit.SECONDS.sleep(6);
      assertTrue(waiting.isAlive(), "it was loaded anew");
      anew.close();
      waiting.join(TimeUnit.SECONDS.toMillis(60));
      assertFalse(waiting.isAlive());
    }
  }

  private static Socket stay(int port, String here) throws IOException {
    Socket socket = new Socket(here(), port);
    socket
        .getOutputStream()
        .write(
            ("GET " + here + " HTTP/1.1\r\nHost: 127.0.0.1:" + port + "\r\n\r\n")
                .getBytes(StandardCharsets.ISO_8859_1));
    InputStream in = socket.getInputStream();
    assertTrue(in.read() >= 0);
    return socket;
  }
}
