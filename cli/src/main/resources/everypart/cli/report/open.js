const data = JSON.parse(byId("data").textContent);
const TYPING_PAUSE = 60;
const READER_PAUSE = 700;
/* Names this page to the program, which stops reading what the page has typed over. */
const PAGE = String(Math.random());
const visit = { model: "", view: null, doubts: [], text: "", row: null, reasons: [], changes: null, drafts: [], editing: null, old: null, mend: null, list: null };

let spoken = 0;
function say(words, button) {
  byId("said").replaceChildren(words, button || "");
  clearTimeout(spoken);
  spoken = setTimeout(() => byId("said").replaceChildren(), 12000);
}

/* Asks the program; throws with its sentence when it refuses. */
async function ask(way, body, more = {}) {
  let answer;
  try {
    answer = await fetch(way, { method: "POST", body: body instanceof Blob ? body : JSON.stringify(body), ...more });
  } catch (error) {
    if (error.name === "AbortError") throw error;
    throw new Error("[[app.lost]]");
  }
  if (!answer.ok) throw new Error(await answer.text());
  return answer;
}
async function asked(way, body, more) { return (await ask(way, body, more)).json(); }

/* ---- the question ---- */

async function readQuestion(from) {
  try {
    takeQuestion(await asked("prompt", from));
    byId("wording").open = false;
    if (location.hash !== "#teacher" && !visit.mend) byId("answer").focus();
  } catch (error) { say(error.message); }
}
function takeQuestion(read) {
  visit.model = read.model;
  visit.view = read.view;
  visit.doubts = read.doubts;
  visit.row = null;
  visit.changes = null;
  visit.editing = null;
  show();
  drawQuestion();
  drawCards();
  judge(0);
  rejudgeDrafts();
}
function drawQuestion() {
  const view = visit.view;
  const first = view.parts[0].text;
  byId("asked-name").textContent = view.name !== "question" ? view.name : first.length > 70 ? first.slice(0, first.lastIndexOf(" ", 70)) + " \u2026" : first;
  byId("asked-doubts").replaceChildren(...(visit.doubts.length === 0 ? [] : [el("ul", { class: "doubts" }, visit.doubts.map((doubt) => el("li", { text: doubt })))]));
  byId("wording-text").replaceChildren(
    view.stimulus !== "" ? el("p", { text: view.stimulus }) : "",
    ...view.parts.map((part) => el("p", {}, el("span", { class: "code", text: view.parts.length > 1 ? part.label + "  " : "" }), part.text)));
  byId("note").textContent = some(view.demands.length, "[[app.askedNote.one]]", "[[app.askedNote.other]]");
}
/* What is done with the question waits for the correction that is under way. */
let corrected = Promise.resolve();
function edit(change) {
  const done = corrected.then(() => correct(change));
  corrected = done;
  return done;
}
async function correct(change) {
  const before = { model: visit.model };
  const model = JSON.parse(visit.model);
  change(model);
  try {
    takeQuestion(await asked("prompt", { model: JSON.stringify(model) }));
    return before;
  } catch (error) { say(error.message); return null; }
}
function mine(model, demand) { return model.parts[demand.pi].demands[demand.number - 1]; }

function editor(demand) {
  const one = mine(JSON.parse(visit.model), demand);
  const kind = el("select", { id: "edit-kind" }, Object.entries(data.kinds).map(([value, text]) => el("option", { value, text })));
  kind.value = one.kind;
  const count = el("input", { id: "edit-count", type: "number", min: "1", max: "99", value: String(one.count || 1) });
  const about = el("input", { id: "edit-about", type: "text", value: one.about || "" });
  const finish = async () => {
    await edit((model) => {
      const now = mine(model, demand);
      const kindChanged = now.kind !== kind.value;
      now.kind = kind.value;
      now.count = Number(count.value);
      now.about = about.value.trim();
      if (kindChanged) now.verb = kind.value;
    });
    focusCard(demand.code);
  };
  const form = el("div", { class: "edit", role: "group", "aria-label": fill("[[app.correctLabel]]", { code: demand.code }) },
    el("div", {}, el("label", { for: "edit-kind", text: "[[app.kind]]" }), kind),
    el("div", {}, el("label", { for: "edit-count", text: "[[app.count]]" }), count),
    el("div", { class: "wide-field" }, el("label", { for: "edit-about", text: "[[app.about]]" }), about),
    el("p", { class: "row" }, el("button", { type: "button", class: "primary", onclick: finish, text: "[[app.done]]" }),
      el("button", { type: "button", onclick: async () => {
        const before = await edit((model) => { model.parts[demand.pi].demands.splice(demand.number - 1, 1); });
        if (before) say(fill("[[app.removed]]", { code: demand.code }), el("button", { type: "button", text: "[[app.undo]]", onclick: () => edit((model) => Object.assign(model, JSON.parse(before.model))) }));
      }, text: "[[app.remove]]" })));
  form.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target.tagName === "INPUT") { event.preventDefault(); finish(); }
    if (event.key === "Escape") { visit.editing = null; drawCards(); focusCard(demand.code); }
  });
  return form;
}
function focusCard(code) {
  const card = Array.from(document.querySelectorAll(".card")).find((one) => one.dataset.code === code);
  if (card) card.querySelector("button").focus();
}
async function addDemand(partIndex) {
  await edit((model) => { model.parts[partIndex].demands.push({ kind: "describe", count: 1, about: "" }); });
  const added = visit.view.demands.filter((demand) => demand.pi === partIndex).pop();
  if (!added) return;
  visit.editing = added.code;
  drawCards();
  byId("edit-kind").focus();
}

/* ---- the demands, and what the answer covers ---- */

function drawCards() {
  const view = visit.view;
  const row = visit.row;
  byId("cards").replaceChildren(...view.parts.map((part, number) => el("section", { class: "part" },
    view.parts.length > 1 ? el("h3", {}, el("span", { class: "code", text: part.label }), " ", el("span", { text: part.text })) : null,
    view.demands.map((demand, at) => demand.pi === number ? card(demand, at, row) : null),
    view.demands.some((demand) => demand.pi === number) ? null : el("p", { class: "soft", text: "[[app.nothingAsked]]" }),
    el("button", { type: "button", class: "plain adding", onclick: () => addDemand(number), text: view.parts.length > 1 ? fill("[[app.add]]", { label: part.label }) : "[[app.addOne]]" }))));
  sum();
}
function card(demand, at, row) {
  /* Nothing is open as long as nothing is written, and a teacher's question has no answer here. */
  const written = document.body.dataset.view !== "teacher" && visit.text.trim() !== "";
  const one = row && written ? row.c[at] : null;
  const open = one && isOpen(one.v);
  const quote = one && one.e && one.e.length > 0 ? visit.text.slice(one.e[0][0], one.e[0][1]).trim() : "";
  const missing = one && demand.count > 1 && one.f > 0 && one.f < demand.count ? demand.count - one.f : 0;
  const editing = visit.editing === demand.code;
  const element = el("article", { class: "card" + (open ? " open" : one && one.v === "addressed" ? " covered" : ""), "data-code": demand.code, "aria-label": demand.code + " " + demand.full },
    el("div", { class: "name" }, el("h4", {}, el("span", { class: "code", text: demand.code }), " " + demand.full, demand.count > 1 ? el("span", { class: "soft", text: fill(" [[question.count]]", { n: demand.count }) }) : null),
      editing ? null : el("button", { type: "button", class: "plain screen-only", "aria-label": fill("[[app.correctLabel]]", { code: demand.code }), onclick: () => { visit.editing = demand.code; drawCards(); byId("edit-kind").focus(); }, text: "[[app.correct]]" })),
    editing ? el("div", {}, el("p", { class: "soft" }, "[[column.from]] ", el("q", { text: demand.from })), editor(demand)) : null,
    one ? el("p", { class: "status" }, verdictMark(one.v), one.l ? el("span", { class: "look", text: "[[cell.look]]" }) : null) : null,
    one && quote !== "" ? el("p", { class: "why" }, "[[app.wrote]] ", el("q", { text: quote.length > 120 ? quote.slice(0, 118) + " \u2026" : quote })) : null,
    one || editing || plain(demand.from) === plain(demand.full) ? null : el("p", { class: "why soft" }, "[[column.from]] ", el("q", { text: demand.from })),
    open ? el("p", { class: "why soft", text: visit.reasons[one.w] }) : null,
    open ? el("p", { class: "next" }, el("span", { class: "soft", text: "[[app.asks]] " }), el("strong", { text: sentence(demand.from) }), missing > 0 ? " " + some(missing, "[[read.more.one]]", "[[read.more.other]]") : null, " " + sentence(demand.next)) : null);
  element.addEventListener("pointerenter", () => lit(at));
  element.addEventListener("pointerleave", () => lit(-1));
  element.addEventListener("focusin", () => lit(at));
  return element;
}
/* While one demand is being corrected, only the others are drawn anew. */
function redrawOthers() {
  visit.view.demands.forEach((demand, at) => {
    const old = Array.from(document.querySelectorAll(".card")).find((one) => one.dataset.code === demand.code);
    if (old && demand.code !== visit.editing) old.replaceWith(card(demand, at, visit.row));
  });
  sum();
}
function plain(words) { return words.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, " ").trim(); }
function sentence(words) {
  return words.charAt(0).toUpperCase() + words.slice(1) + (/[.?!]$/.test(words) ? "" : ".");
}
function lit(at) {
  for (const mark of byId("marks").querySelectorAll("mark")) mark.classList.toggle("lit", mark.dataset.cells.split(" ").includes(String(at)));
}
function sum() {
  const row = visit.row;
  let words = "[[app.sum.none]]";
  if (row && visit.text.trim() !== "") {
    const counted = row.c.filter((cell) => cell.v !== "unchecked");
    const codes = visit.view.demands.filter((demand, at) => isOpen(row.c[at].v)).map((demand) => demand.code);
    words = codes.length === 0 ? "[[app.sum.all]]" : fill("[[app.sum]]", { covered: counted.length - codes.length, total: counted.length, codes: codes.join(", ") });
  }
  if (byId("sum").textContent !== words) byId("sum").textContent = words;
}

/* ---- the answer ---- */

let pause = 0;
let underWay = null;
/* Where the reader is slow, what is typed gets a first look without it, and the reader follows in a pause. */
function judge(wait) {
  clearTimeout(pause);
  pause = setTimeout(async () => {
    const seen = await look(data.firstLook);
    if (!seen || !data.firstLook) return;
    clearTimeout(pause);
    pause = setTimeout(() => look(false), wait === 0 ? 0 : READER_PAUSE);
  }, wait);
}
async function look(quick) {
  if (!visit.view) return false;
  if (underWay) underWay.abort();
  const own = new AbortController();
  underWay = own;
  const text = byId("answer").value;
  const asks = { model: visit.model, text, quick, page: PAGE };
  if (visit.drafts.length > 0) asks.earlier = visit.drafts[visit.drafts.length - 1].text;
  try {
    const judged = await asked("judge", asks, { signal: own.signal });
    if (underWay !== own || text !== byId("answer").value) return false;
    visit.text = text;
    visit.row = judged.row;
    visit.reasons = judged.reasons;
    visit.changes = judged.changes || null;
    byId("first").hidden = !quick || text.trim() === "";
    marks();
    if (visit.editing) redrawOthers(); else drawCards();
    drawDrafts();
    document.body.dataset.judged = String(text.length);
    document.body.dataset.look = quick ? "first" : "whole";
    return true;
  } catch (error) {
    if (error.name !== "AbortError") say(error.message);
    return false;
  }
}
/* Until the new marks are there, the old ones move with the text that they stand on. */
function marks() {
  const text = byId("answer").value;
  let cells = visit.row ? visit.row.c : [];
  if (visit.row && text !== visit.text) {
    const old = visit.text;
    let head = 0;
    while (head < old.length && head < text.length && old[head] === text[head]) head++;
    let tail = 0;
    while (tail < old.length - head && tail < text.length - head && old[old.length - 1 - tail] === text[text.length - 1 - tail]) tail++;
    const by = text.length - old.length;
    cells = cells.map((cell) => ({ e: (cell.e || []).map(([from, to]) => to <= head ? [from, to] : from >= old.length - tail ? [from + by, to + by] : null).filter(Boolean) }));
  }
  byId("marks").replaceChildren(...marked(text, cells, null, null, null), "\n\u200b");
  const count = text.trim() === "" ? 0 : text.trim().split(/\s+/).length;
  byId("words").textContent = some(count, "[[app.words.one]]", "[[app.words.other]]");
}
byId("answer").addEventListener("input", () => { marks(); judge(TYPING_PAUSE); });

/* ---- drafts of the visit ---- */

function keepDraft() {
  if (!visit.row || byId("answer").value.trim() === "") return;
  visit.drafts.push({ text: visit.text, row: visit.row });
  say(fill("[[app.kept]]", { n: visit.drafts.length }));
  if (data.firstLook) rejudgeDrafts();
  judge(0);
}
async function rejudgeDrafts() {
  for (const draft of visit.drafts) {
    try { draft.row = (await asked("judge", { model: visit.model, text: draft.text })).row; } catch (error) { say(error.message); }
  }
  drawDrafts();
}
function drawDrafts() {
  const drafts = visit.drafts.filter((draft) => draft.row.c.length === visit.view.demands.length);
  byId("drafts").hidden = drafts.length === 0;
  if (drafts.length === 0 || !visit.row) return;
  const head = el("tr", {}, el("th", { scope: "col", text: "[[app.demand]]" }),
    drafts.map((draft, at) => el("th", { scope: "col" }, el("button", { type: "button", class: "plain", "aria-label": fill("[[app.lookBack]]", { n: at + 1 }), onclick: () => lookBack(at), text: fill("[[app.draft]]", { n: at + 1 }) }))),
    el("th", { scope: "col", text: "[[app.now]]" }),
    visit.changes ? el("th", { scope: "col", text: fill("[[app.since]]", { n: drafts.length }) }) : null);
  const said = { closed: "[[change.closed]]", kept: "[[change.kept]]", lost: "[[change.lost]]", open: "[[change.open]]", changed: "[[change.changed]]", nearer: "[[change.nearer]]", unchecked: "[[change.unchecked]]" };
  byId("drafts-table").replaceChildren(el("table", {}, el("thead", {}, head), el("tbody", {}, visit.view.demands.map((demand, at) => el("tr", {},
    el("th", { scope: "row" }, el("span", { class: "code", text: demand.code }), " " + demand.words),
    drafts.map((draft) => el("td", {}, verdictMark(draft.row.c[at].v))),
    el("td", {}, verdictMark(visit.row.c[at].v)),
    visit.changes ? el("td", { class: "change-" + visit.changes[at], text: said[visit.changes[at]] || visit.changes[at] }) : null)))));
}
function lookBack(at) {
  if (visit.old === null) visit.old = byId("answer").value;
  byId("answer").value = visit.drafts[at].text;
  byId("answer").readOnly = true;
  byId("old-words").textContent = fill("[[app.old]]", { n: at + 1 });
  byId("old").hidden = false;
  marks();
  judge(0);
}
byId("old-back").addEventListener("click", () => {
  byId("answer").value = visit.old;
  byId("answer").readOnly = false;
  visit.old = null;
  byId("old").hidden = true;
  marks();
  judge(0);
  byId("answer").focus();
});

/* ---- files ---- */

function choose(more, then) {
  const input = el("input", { type: "file", ...more });
  input.addEventListener("change", () => { if (input.files.length > 0) then(Array.from(input.files)); });
  input.click();
}
async function textOf(file, as) {
  const read = await asked("file?name=" + encodeURIComponent(file.name) + "&as=" + as, file);
  read.notes.forEach((note) => say(note));
  return read;
}
async function questionFile(file) {
  try {
    const read = await textOf(file, "prompt");
    byId("question").value = read.text;
    await readQuestion({ text: read.text, id: read.id, yaml: read.yaml });
  } catch (error) { say(error.message); }
}
async function answerFile(file) {
  try {
    byId("answer").value = (await textOf(file, "answer")).text;
    marks();
    judge(0);
  } catch (error) { say(error.message); }
}
function droppable(element, then) {
  element.addEventListener("dragover", (event) => { event.preventDefault(); element.classList.add("over"); });
  element.addEventListener("dragleave", () => element.classList.remove("over"));
  element.addEventListener("drop", (event) => {
    event.preventDefault();
    event.stopPropagation();
    element.classList.remove("over");
    then(event.dataTransfer);
  });
}
const oneFile = (then) => (transfer) => {
  if (transfer.files.length > 0) then(transfer.files[0]);
};

/* ---- a class ---- */

/* All files of what was dropped, with the folders they lie in. */
async function dropped(transfer) {
  const entries = Array.from(transfer.items || []).map((item) => item.webkitGetAsEntry && item.webkitGetAsEntry()).filter(Boolean);
  if (entries.length === 0) return Array.from(transfer.files).map((file) => [file.name, file]);
  const found = [];
  const walk = async (entry, folder) => {
    if (entry.isFile) {
      found.push([folder + entry.name, await new Promise((done, failed) => entry.file(done, failed))]);
      return;
    }
    const reader = entry.createReader();
    for (;;) {
      const some = await new Promise((done, failed) => reader.readEntries(done, failed));
      if (some.length === 0) return;
      for (const one of some) await walk(one, folder + entry.name + "/");
    }
  };
  for (const entry of entries) await walk(entry, "");
  return found;
}
function progress(words, share) {
  byId("class-progress").hidden = false;
  byId("class-words").textContent = words;
  byId("class-bar").value = share;
}
async function takeClass(files) {
  byId("class-end").replaceChildren();
  files = files.filter(([name]) => !name.split("/").pop().startsWith("."));
  if (files.length === 0) return;
  try {
    const index = files.find(([name]) => name.split("/").pop() === "index.html" && name.split("/").length <= 2);
    const zip = files.length === 1 && /\.zip$/i.test(files[0][0]) ? files[0] : null;
    if (index && files.some(([name]) => name.endsWith("results.jsonl"))) { await reopen(index[1]); return; }
    if (zip || (files.length === 1 && index)) {
      try { await reopen(files[0][1]); return; } catch (error) { if (!zip) throw error; }
    }
    if (!visit.view) { say("[[app.needQuestion]]"); byId("question").focus(); return; }
    const { id } = await asked("class", {});
    for (let i = 0; i < files.length; i++) {
      progress(fill("[[app.sending]]", { n: i + 1, total: files.length, name: files[i][0] }), 0.4 * i / files.length);
      await ask("class/" + id + "/file?name=" + encodeURIComponent(files[i][0]), files[i][1]);
    }
    await run(id, files);
  } catch (error) { byId("class-progress").hidden = true; say(error.message); }
}
async function reopen(file) {
  const { id, why } = await asked("class/saved", file);
  if (!id) throw new Error(why);
  location.href = "class/" + id + "/";
}
async function run(id, files, same) {
  await corrected;
  const asks = { model: visit.model, name: visit.view.name };
  if (visit.list) asks.register = visit.list.id;
  if (same) asks.same = same;
  const answer = await ask("class/" + id + "/run", asks);
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  let kept = "";
  let done = 0;
  for (;;) {
    const { value, done: over } = await reader.read();
    if (over) break;
    kept += value;
    const lines = kept.split("\n");
    kept = lines.pop();
    for (const line of lines) {
      const said = JSON.parse(line);
      if (said.done) {
        done = said.done;
        progress(fill("[[app.looking]]", { n: said.done, total: said.of }), 0.6 + 0.4 * said.done / said.of);
      } else if ("of" in said) {
        progress(fill("[[app.reading]]", { n: said.read, total: said.of }), 0.4 + 0.2 * said.read / said.of);
      } else if (said.ask) askWhose(id, files, said);
      else end(said, done);
    }
  }
}
/* Several answers of one person: which one counts is asked, one question a person. */
function askWhose(id, files, said) {
  byId("class-progress").hidden = true;
  const times = new Map(files.map(([name, file]) => [name, file.lastModified]));
  const group = (one, number) => {
    const name = "same-" + number;
    const choice = (value, checked, words, ...more) => el("p", {}, el("label", {}, el("input", { type: "radio", name, value: String(value), checked }), " ", el("span", { text: words })), ...more);
    return el("fieldset", { class: "same" }, el("legend", { text: some(one.answers.length, "[[app.same.one]]", "[[app.same.other]]", { person: one.person }) }),
      one.alike ? el("p", { class: "soft", text: "[[app.same.alike]]" }) : null,
      one.answers.map((answer, at) => choice(at, one.alike && at === 0, fill("[[app.same.keep]]", { file: answer.file }),
        el("span", { class: "soft", text: " " + some(answer.words, "[[app.words.one]]", "[[app.words.other]]") + (times.has(answer.file) ? fill(" [[app.same.changed]]", { when: new Date(times.get(answer.file)).toLocaleString("en", { dateStyle: "medium", timeStyle: "short" }) }) : "") }),
        el("q", { class: "soft begins", text: answer.begins }))),
      choice("join", !one.alike, "[[app.same.join]]"),
      said.registered ? null : choice("apart", false, "[[app.same.apart]]"));
  };
  const form = el("div", { class: "sames" },
    el("h3", { id: "same-name", tabindex: "-1", text: some(said.ask.length, "[[app.same.title.one]]", "[[app.same.title.other]]") }),
    el("p", { class: "soft", text: said.registered ? "[[app.same.list]]" : "[[app.same.names]]" }),
    said.ask.map(group),
    el("p", { class: "row" }, el("button", { type: "button", class: "primary", id: "same-done", text: "[[app.same.done]]", onclick: async () => {
      const same = said.ask.map((one, number) => form.querySelector("input[name=same-" + number + "]:checked").value).map((value) => /^\d+$/.test(value) ? Number(value) : value);
      byId("class-end").replaceChildren();
      try { await run(id, files, same); } catch (error) { byId("class-progress").hidden = true; say(error.message); }
    } })));
  byId("class-end").replaceChildren(form);
  byId("same-name").focus();
}
function listed(problems, words) {
  return problems.length === 0 ? "" : el("div", { class: "listed" }, el("p", { text: words }), el("ul", {}, problems.map((problem) => el("li", { text: problem }))));
}
function end(said, done) {
  byId("class-progress").hidden = true;
  byId("class-end").replaceChildren(
    el("p", {}, el("strong", { text: said.id ? some(said.read, "[[app.classDone.one]]", "[[app.classDone.other]]") : said.why })),
    said.id ? el("p", { class: "row" }, el("a", { class: "button primary", id: "open-class", href: "class/" + said.id + "/", text: "[[app.openClass]]" })) : "",
    listed(said.unread, some(said.unread.length, "[[app.unread.one]]", "[[app.unread.other]]")),
    listed(said.problems, "[[app.problems]]"));
  if (said.id && said.unread.length + said.problems.length === 0) location.href = "class/" + said.id + "/";
  else if (said.id) byId("open-class").focus();
}

/* The list of the class: everyone on it has a row. */
async function takeList(file) {
  try {
    visit.list = await asked("class/register?name=" + encodeURIComponent(file.name), file);
    const late = byId("class-end").children.length > 0;
    drawList(some(visit.list.people, "[[app.list.one]]", "[[app.list.other]]", { name: file.name }) + (late ? " [[app.list.late]]" : ""), visit.list.unread.concat(visit.list.problems));
  } catch (error) { say(error.message); }
}
function drawList(words, problems) {
  byId("list-said").textContent = words;
  byId("list-problems").replaceChildren(...problems.map((problem) => el("li", { text: problem })));
  byId("list-problems").hidden = problems.length === 0;
  byId("list-none").hidden = visit.list === null;
}

/* ---- the page ---- */

function show() {
  const teacher = location.hash === "#teacher" || location.hash.startsWith("#mend/");
  const there = visit.view !== null;
  byId("ask").hidden = there && !visit.changing;
  byId("asked").hidden = !there || visit.changing;
  byId("lead").hidden = there;
  byId("desk").hidden = !there || Boolean(visit.changing);
  document.body.dataset.view = teacher ? "teacher" : "student";
  byId("class").hidden = !teacher || Boolean(visit.mend);
  byId("list").hidden = byId("class").hidden;
  byId("mending").hidden = !visit.mend;
  document.querySelector(".write").hidden = teacher;
  byId("sum").hidden = teacher;
  byId("desk").classList.toggle("beside", !teacher);
  for (const tab of document.querySelectorAll(".tabs a")) {
    if ((tab.dataset.view === "teacher") === teacher) tab.setAttribute("aria-current", "page"); else tab.removeAttribute("aria-current");
  }
  /* The teacher's drop place stands under the question, the demands below it. */
  if (teacher) byId("desk").before(byId("list"), byId("class"));
  if (there && !visit.editing) drawCards();
}
async function mend(id) {
  try {
    const answer = await fetch("class/" + id + "/prompt");
    if (!answer.ok) throw new Error(await answer.text());
    visit.mend = id;
    byId("back-to-class").href = "class/" + id + "/";
    takeQuestion(await answer.json());
  } catch (error) { say(error.message); }
}
function route() {
  if (location.hash.startsWith("#mend/")) { mend(location.hash.slice(6)); return; }
  visit.mend = null;
  show();
}
addEventListener("hashchange", route);
byId("read").addEventListener("click", () => { visit.changing = false; readQuestion({ text: byId("question").value }); });
byId("question").addEventListener("keydown", (event) => { if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) byId("read").click(); });
byId("change").addEventListener("click", () => { visit.changing = true; show(); byId("question").focus(); });
byId("save-question").addEventListener("click", async () => {
  try {
    await corrected;
    const { yaml } = await asked("yaml", { model: visit.model });
    const name = visit.view.id.replace(/[^\p{L}\p{N}_.-]+/gu, "-") + ".yaml";
    download(name, yaml, "application/yaml");
    say(fill("[[app.saved]]", { name }));
  } catch (error) { say(error.message); }
});
byId("question-file").addEventListener("click", () => choose({}, (files) => { visit.changing = false; questionFile(files[0]); }));
byId("answer-file").addEventListener("click", () => choose({}, (files) => answerFile(files[0])));
byId("keep").addEventListener("click", keepDraft);
byId("print").addEventListener("click", () => { byId("wording").open = true; print(); });
byId("class-files").addEventListener("click", () => choose({ multiple: true }, (files) => takeClass(files.map((file) => [file.name, file]))));
byId("class-folder").addEventListener("click", () => choose({ webkitdirectory: true }, (files) => takeClass(files.map((file) => [file.webkitRelativePath || file.name, file]))));
byId("list-file").addEventListener("click", () => choose({ accept: ".csv,.tsv,.xlsx" }, (files) => takeList(files[0])));
byId("list-none").addEventListener("click", () => { visit.list = null; drawList("[[app.listHint]]", []); byId("list-file").focus(); });
byId("again").addEventListener("click", async () => {
  try {
    await corrected;
    await ask("class/" + visit.mend + "/again", { model: visit.model });
    location.href = "class/" + visit.mend + "/";
  } catch (error) { say(error.message); }
});
droppable(byId("ask"), oneFile((file) => { visit.changing = false; questionFile(file); }));
droppable(byId("asked"), oneFile(questionFile));
droppable(document.querySelector(".editor"), oneFile(answerFile));
droppable(byId("list"), oneFile(takeList));
droppable(byId("class"), async (transfer) => takeClass(await dropped(transfer)));
addEventListener("dragover", (event) => event.preventDefault());
addEventListener("drop", (event) => event.preventDefault());
stayConnected("", () => say("[[app.lost]]"));
marks();
route();
document.body.dataset.ready = "true";
