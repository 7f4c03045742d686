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
import org.junit.jupiter.api.Tag;
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
                    "class/ada.txt", "(a) It is deep and cold, with weed on its sides.",
                    "class/ben.txt", "(b) because the gulls hunt them.",
                    "class/odd.bin", "\0\1\2")));
    String[] lines =
        post("class/" + id + "/run", json("model", model(), "name", "pool")).text().split("\n", -1);
    JsonNode end = JSON.readTree(lines[lines.length - 2]);
    assertEquals(2, end.path("read").asInt(), end.toString());
    assertEquals(1, end.path("unread").size());
    assertTrue(end.at("/unread/0").asText().startsWith("class/odd.bin: "), end.toString());
    assertEquals(before, leftOver());
    assertTrue(get("class/" + id + "/").text().contains("\"served\":\"./\""));
    String state =
        "{\"format\":\"everypart-corrections\",\"version\":1,\"responses\":[{\"promptId\":\"question\",\"responseId\":\"ada\",\"read\":false,\"comment\":\"Well"
            + " seen.\",\"demands\":[{\"part\":\"b\","
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

  private static JsonNode last(Answer answer) throws IOException {
    String[] lines = answer.text().split("\n", -1);
    return JSON.readTree(lines[lines.length - 2]);
  }

  private static List<String> rows(String page) throws IOException {
    String data = page.substring(page.indexOf("id=\"data\">") + 10);
    List<String> rows = new ArrayList<>();
    for (JsonNode row :
        JSON.readTree(data.substring(0, data.indexOf("</script>"))).at("/prompts/0/rows")) {
      rows.add(row.path("id").asText() + " " + row.at("/g/handed_in").asText());
    }
    return rows;
  }

  @Test
  void aRegisterGivesEveryoneARowAlsoWhenTheFolderIsOpenedAgain() throws IOException {
    long before = leftOver();
    JsonNode list =
        post("class/register?name=list.csv", "id,name\ns1,Oda Lin\ns2,Bo Mar\ns3,Ida Rue\ns3,x\n")
            .json();
    assertEquals(3, list.path("people").asInt());
    assertEquals(
        "list.csv, line 5: \"s3\" stands on the register twice, and counts once; give two people"
            + " of one name an id each.",
        list.at("/unread/0").asText());
    String id =
        dropped(
            new TreeMap<>(
                Map.of(
                    "class/lin_oda.txt", "(a) The pool is deep and cold.",
                    "class/ida rue.docx", "no document",
                    "class/zed.txt", "(b) because the gulls hunt them.")));
    String asks = json("model", model(), "name", "pool", "register", list.path("id").asText());
    JsonNode end = last(post("class/" + id + "/run", asks));
    assertEquals(2, end.path("read").asInt(), end.toString());
    String said = end.path("problems").toString();
    assertTrue(said.contains("list.csv: 1 of 3 handed in nothing: s2"), said);
    assertTrue(said.contains("list.csv: 1 of 3 handed in something that could not be read: s3"));
    assertFalse(said.contains("/everypart"), "no place of this machine: " + said);
    List<String> rows =
        List.of("s1 yes", "s2 nothing", "s3 not readable", "zed not on the register");
    assertEquals(rows, rows(get("class/" + id + "/").text()));
    byte[] zip =
        post(
                "class/" + id + "/save",
                "{\"format\":\"everypart-corrections\",\"version\":1,\"responses\":[]}")
            .body();
    String again = post("class/saved", zip).json().path("id").asText();
    String page = get("class/" + again + "/").text();
    assertEquals(rows, rows(page));
    assertTrue(page.contains("handed in nothing: s2"), "what was said is kept");
    assertEquals(before, leftOver());
  }

  @Test
  void aRegisterThatCannotBeReadIsRefusedInASentence() throws IOException {
    Answer empty = post("class/register?name=list.csv", "id,name\n");
    assertEquals(422, empty.status());
    assertEquals(
        "list.csv: there is nobody on this register; give a table with a header, and a name or an"
            + " id in its first column.",
        empty.text());
    assertEquals(422, post("class/register?name=..%2Flist.csv", "id\nx\n").status());
    String id = dropped(Map.of("ada.txt", "(a) The pool is deep."));
    assertEquals(
        410, post("class/" + id + "/run", json("model", model(), "register", "99")).status());
  }

  private static Map<String, String> twice() {
    return new TreeMap<>(
        Map.of(
            "class/Ada Lin.txt", "(a) The pool is deep.",
            "class/lin_ada (1).txt", "(b) because the gulls hunt them.",
            "class/ben.txt", "(a) It is cold.",
            "class/ben final.txt", "(a) It is cold.",
            "class/cy.txt", "(a) It is dark."));
  }

  @Test
  void severalFilesOfOnePersonAreAskedAboutBeforeAnythingIsJudged() throws IOException {
    String id = dropped(twice());
    String model = model();
    JsonNode ask = last(post("class/" + id + "/run", json("model", model, "name", "pool")));
    assertEquals(2, ask.path("ask").size(), ask.toString());
    assertEquals("Ada Lin", ask.at("/ask/0/person").asText());
    assertEquals("class/lin_ada (1).txt", ask.at("/ask/0/answers/1/file").asText());
    assertFalse(ask.at("/ask/0/alike").asBoolean());
    assertTrue(ask.at("/ask/1/alike").asBoolean());
    assertEquals(410, get("class/" + id + "/").status(), "nothing is judged yet");
    var wish = JSON.createObjectNode().put("model", model).put("name", "pool");
    wish.putArray("same").add("join");
    assertTrue(
        last(post("class/" + id + "/run", wish.toString())).has("ask"), "one is not decided");
    wish.putArray("same").add("join").add(7);
    assertTrue(last(post("class/" + id + "/run", wish.toString())).has("ask"), "there is no 8th");
    wish.putArray("same").add("join").add(1);
    JsonNode end = last(post("class/" + id + "/run", wish.toString()));
    String page = get("class/" + id + "/").text();
    assertEquals(List.of("Ada Lin ", "ben ", "cy "), rows(page));
    assertTrue(page.contains("The pool is deep.\\n\\n(b) because the gulls"), page);
    assertTrue(
        end.path("problems").toString().contains("class/ben final.txt was left out")
            || end.path("problems").toString().contains("class/ben.txt was left out"),
        end.toString());
    assertEquals(410, post("class/" + id + "/run", wish.toString()).status(), "it is done");
  }

  @Test
  void whatIsOfDifferentPeopleStaysApart() throws IOException {
    String id = dropped(twice());
    var wish = JSON.createObjectNode().put("model", model()).put("name", "pool");
    wish.putArray("same").add("apart").add("apart");
    assertEquals(5, last(post("class/" + id + "/run", wish.toString())).path("read").asInt());
  }

  @Test
  void theRegisterDecidesWhoseFilesTheyAre() throws IOException {
    String list =
        post("class/register?name=list.csv", "id,name\ns1,Ada Lin\ns2,Ben Oz\n")
            .json()
            .path("id")
            .asText();
    String id = dropped(twice());
    String asks = json("model", model(), "name", "pool", "register", list);
    JsonNode ask = last(post("class/" + id + "/run", asks));
    assertTrue(ask.path("registered").asBoolean());
    assertEquals(1, ask.path("ask").size(), "Ben Oz is not called by his name alone: " + ask);
    assertEquals("s1", ask.at("/ask/0/person").asText());
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

  @Tag("slow")
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
      assertTrue(waiting.isAlive(), "a page is open");
      page.close();
      Socket anew = stay(port, here);
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
