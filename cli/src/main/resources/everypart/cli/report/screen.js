const data = JSON.parse(byId("data").textContent);
const compare = new Intl.Collator("en", { numeric: true }).compare;
const CLAIMS = ["identify", "predict", "evaluate"];
const CHUNK = 36;
const AHEAD = 12;
const SLACK = 4;
const DOUBT_LEAST = 8;
const DOUBT_SHARE = 0.9;

/* ---- what is shown, and what the teacher decided ---- */

for (const prompt of data.prompts) {
  for (const row of prompt.rows) {
    row.v = row.c.map((cell) => cell.v);
    row.n = row.c.map((cell) => cell.n || "");
    row.note = row.note || "";
    row.read = Boolean(row.read);
    row.key = row.id.toLowerCase();
  }
  prompt.filter = { words: "", toggles: new Set(), cells: new Map(), groups: new Map() };
  prompt.sort = { by: "", up: true };
  prompt.groups = new Map();
  for (const row of prompt.rows) {
    for (const [name, value] of Object.entries(row.g || {})) {
      if (!prompt.groups.has(name)) prompt.groups.set(name, new Set());
      prompt.groups.get(name).add(value);
    }
  }
  prompt.order = prompt.rows.map((row, at) => at);
}
let current = data.prompts[0];
let reading = null; /* {order, at, cell} */
const steps = [];
let dirty = false;
const main = byId("main");
const table = byId("table-view");
const read = byId("reading-view");
const question = byId("question-view");

function openCells(row) { return row.v.filter(isOpen).length; }
function looks(row) { return row.c.some((cell, at) => cell.l && row.v[at] === cell.p); }
function commented(row) { return row.note !== "" || row.n.some((note) => note !== ""); }
function own(row, at) { return row.v[at] !== row.c[at].p; }
function missingParts(prompt, row) {
  return prompt.parts.map((part, index) => {
    const checked = prompt.demands.map((demand, at) => [demand, at]).filter(([demand, at]) => demand.pi === index && row.v[at] !== "unchecked");
    return checked.length > 0 && checked.every(([demand, at]) => row.v[at] === "missing");
  });
}
/* A claim was made and the ground that the next demand asks for is open. */
function groundless(prompt, row) {
  return prompt.demands.some((demand, at) => demand.kind === "justify" && isOpen(row.v[at]) && at > 0
    && prompt.demands[at - 1].pi === demand.pi && CLAIMS.includes(prompt.demands[at - 1].kind) && row.v[at - 1] === "addressed");
}
const TOGGLES = [
  ["open", "[[toggle.open]]", (prompt, row) => openCells(row) > 0],
  ["look", "[[toggle.look]]", (prompt, row) => looks(row)],
  ["unread", "[[toggle.unread]]", (prompt, row) => !row.read],
  ["part", "[[toggle.part]]", (prompt, row) => prompt.parts.length > 1 && missingParts(prompt, row).some(Boolean)],
  ["ground", "[[toggle.ground]]", (prompt, row) => groundless(prompt, row)],
  ["empty", "[[toggle.empty]]", (prompt, row) => row.t.trim() === ""],
  ["noted", "[[toggle.noted]]", (prompt, row) => commented(row)],
  ["own", "[[toggle.own]]", (prompt, row) => row.c.some((cell, at) => own(row, at))],
  ["closed", "[[toggle.closed]]", (prompt, row) => (row.d || []).includes("closed")],
  ["nearer", "[[toggle.nearer]]", (prompt, row) => (row.d || []).includes("nearer")],
  ["lost", "[[toggle.lost]]", (prompt, row) => (row.d || []).includes("lost")],
];

function fits(prompt, row) {
  const filter = prompt.filter;
  if (filter.words !== "" && !row.key.includes(filter.words)) return false;
  for (const [name, label, test] of TOGGLES) if (filter.toggles.has(name) && !test(prompt, row)) return false;
  for (const [at, wanted] of filter.cells) {
    if (wanted === "open" ? !isOpen(row.v[at]) : row.v[at] !== wanted) return false;
  }
  for (const [name, value] of filter.groups) if ((row.g || {})[name] !== value) return false;
  return true;
}

function sortKey(prompt, row) {
  const by = prompt.sort.by;
  if (by === "id") return row.id;
  if (by === "open") return openCells(row);
  if (by === "read") return row.read ? 1 : 0;
  return ORDER[row.v[by]];
}

function reorder(prompt) {
  const kept = [];
  prompt.rows.forEach((row, at) => { if (fits(prompt, row)) kept.push(at); });
  if (prompt.sort.by !== "") {
    const keys = new Map(kept.map((at) => [at, sortKey(prompt, prompt.rows[at])]));
    const sign = prompt.sort.up ? 1 : -1;
    const order = prompt.sort.by === "id" ? compare : (a, b) => a - b;
    kept.sort((a, b) => sign * order(keys.get(a), keys.get(b)) || a - b);
  }
  prompt.order = kept;
}

function tally(prompt, rows) {
  return prompt.demands.map((demand, at) => {
    const count = { addressed: 0, partly: 0, missing: 0, unchecked: 0 };
    rows.forEach((row) => { count[row.v[at]]++; });
    return { ...count, open: count.partly + count.missing };
  });
}

/* ---- changing a verdict, in steps that can be undone ---- */

function step(named, changes) {
  const real = changes.filter((one) => one.after !== one.before);
  if (real.length === 0) return;
  const label = typeof named === "function" ? named(real.length) : named;
  real.forEach((one) => one.set(one.after));
  steps.push({ label, changes: real });
  changed(fill("[[said.done]]", { what: label }));
}
function undo() {
  const last = steps.pop();
  if (!last) return;
  last.changes.forEach((one) => one.set(one.before));
  changed(fill("[[said.undone]]", { what: last.label }));
}
function verdictChange(row, at, verdict) {
  return { before: row.v[at], after: verdict, set: (value) => { row.v[at] = value; } };
}
function readChange(row, value) {
  return { before: row.read, after: value, set: (now) => { row.read = now; } };
}

function changed(words) {
  keep();
  draw();
  if (words) say(words);
}
let spoken = 0;
function say(words) {
  byId("said").textContent = words;
  clearTimeout(spoken);
  spoken = setTimeout(() => { byId("said").textContent = ""; }, 9000);
}

/* ---- corrections: one form for the file, a reload and the program ---- */

function corrections() {
  const responses = [];
  for (const prompt of data.prompts) {
    for (const row of prompt.rows) {
      const demands = [];
      row.c.forEach((cell, at) => {
        const overruled = own(row, at);
        if (row.read || overruled || row.n[at] !== "") {
          const demand = prompt.demands[at];
          const one = { part: demand.part, demand: demand.number, kind: demand.kind, program: cell.p, verdict: row.v[at], overruled };
          if (row.n[at] !== "") one.comment = row.n[at];
          demands.push(one);
        }
      });
      if (demands.length > 0 || row.note !== "" || row.read) {
        const one = { promptId: prompt.id, responseId: row.id, read: row.read, demands };
        if (row.note !== "") one.comment = row.note;
        responses.push(one);
      }
    }
  }
  return {
    format: "everypart-corrections", version: 1,
    prompts: data.prompts.map((prompt) => ({ id: prompt.id, wording: prompt.digest })), responses,
  };
}

/* Takes corrections over. Returns a sentence on why not, or nothing. */
function take(file) {
  if (!file || file.format !== "everypart-corrections" || !Array.isArray(file.responses)) return "[[take.none]]";
  const prompts = new Map(data.prompts.map((prompt) => [prompt.id, prompt]));
  for (const one of file.prompts || []) {
    if (!prompts.has(one.id) || prompts.get(one.id).digest !== one.wording) return fill("[[take.other]]", { id: one.id });
  }
  const found = [];
  for (const one of file.responses) {
    const prompt = prompts.get(one.promptId);
    if (!prompt) return fill("[[take.other]]", { id: one.promptId });
    for (const demand of one.demands || []) {
      const at = prompt.demands.findIndex((mine) => mine.part === demand.part && mine.number === demand.demand);
      if (at < 0 || (demand.kind && prompt.demands[at].kind !== demand.kind)) {
        return fill("[[take.demand]]", { id: prompt.id, code: demand.part + demand.demand, kind: String(demand.kind) });
      }
    }
    if (!prompt.byId) prompt.byId = new Map(prompt.rows.map((row) => [row.id, row]));
    const row = prompt.byId.get(one.responseId);
    if (row) found.push([prompt, row, one]);
  }
  for (const [prompt, row, one] of found) {
    row.read = Boolean(one.read);
    row.note = one.comment || "";
    for (const demand of one.demands || []) {
      const at = prompt.demands.findIndex((mine) => mine.part === demand.part && mine.number === demand.demand);
      if (demand.overruled && demand.verdict in ORDER) row.v[at] = demand.verdict;
      row.n[at] = demand.comment || "";
    }
  }
  return "";
}

const SLOT = "everypart " + data.key;
const KEPT_ALIVE = 60000; /* more than this a browser does not send for a page that is going */
let waiting = 0;
let pending = false;
function keep(typing) {
  dirty = true;
  if (data.served) {
    clearTimeout(waiting);
    pending = true;
    if (typing) waiting = setTimeout(() => send("state"), 300); else send("state");
    return;
  }
  clearTimeout(waiting);
  waiting = setTimeout(keepHere, 200);
}
function keepHere() {
  clearTimeout(waiting);
  if (data.served && pending) send("state");
  if (data.served || !dirty) return;
  try { localStorage.setItem(SLOT, JSON.stringify(corrections())); } catch (error) { say("[[said.notKept]]"); }
}
function send(where) {
  clearTimeout(waiting);
  pending = false;
  const body = JSON.stringify(corrections());
  const sent = fetch(data.served + where, { method: "POST", body, keepalive: where === "state" && body.length < KEPT_ALIVE });
  if (where === "state") sent.catch(() => say("[[said.noProgram]]"));
  return sent;
}
function recall() {
  if (data.served) return;
  try {
    const kept = localStorage.getItem(SLOT);
    if (kept && take(JSON.parse(kept)) === "") { dirty = true; say("[[said.recalled]]"); }
  } catch (error) { /* the browser keeps nothing here: the page works without it */ }
}
addEventListener("pagehide", keepHere);

async function save() {
  download("corrections.json", JSON.stringify(corrections(), null, 1), "application/json");
  dirty = false;
  say("[[said.saved]]");
  bar();
}
async function saveFolder() {
  try {
    const answer = await send("save");
    if (!answer.ok) throw new Error(await answer.text());
    download(data.name + ".zip", await answer.blob(), "application/zip");
    dirty = false;
    say("[[said.savedFolder]]");
    bar();
  } catch (error) { say("[[said.noProgram]]"); }
}
function openFile() {
  const input = el("input", { type: "file", accept: ".json,application/json" });
  input.addEventListener("change", async () => {
    let file = null;
    try { file = JSON.parse(await input.files[0].text()); } catch (error) { /* said below */ }
    const why = take(file);
    if (why === "") { steps.length = 0; changed("[[said.taken]]"); } else say(why);
  });
  input.click();
}

/* ---- the table ---- */

let start = 0; /* the first row in the page, */
let drawn = 0; /* and the one after the last */
let usual = 36; /* how many pixels a row is high */
let spot = [0, 0]; /* which cell of the table the arrow keys stand on */

function code(demand) { return demand.code; }

function headCell(name, label, more) {
  const sort = current.sort;
  const th = el("th", { scope: "col", "aria-sort": sort.by === name ? (sort.up ? "ascending" : "descending") : "none", class: more.class },
    el("div", { class: "headed" },
      el("button", { type: "button", class: "sort", "data-sort": String(name), onclick: () => sortBy(name) }, ...label),
      more.menu || null),
    el("p", { class: "printed", "aria-hidden": "true" }, ...label.map((one) => one instanceof Node ? one.cloneNode(true) : one)),
    more.below || null);
  return th;
}
function sortBy(name) {
  const sort = current.sort;
  if (sort.by === name && !sort.up) { sort.by = ""; sort.up = true; }
  else { sort.up = sort.by === name ? false : true; sort.by = name; }
  reorder(current);
  drawTable();
  const again = table.querySelector("[data-sort='" + name + "']");
  if (again) again.focus();
}

function bars(counts, total) {
  if (counts.unchecked === total) return el("p", { class: "share", text: "[[head.unchecked]]" });
  const bar = el("span", { class: "bar", "aria-hidden": "true" }, el("span", { class: "gap" }), el("span", { class: "some" }));
  bar.children[0].style.width = (100 * counts.missing / total) + "%";
  bar.children[1].style.width = (100 * counts.partly / total) + "%";
  return el("div", {}, bar, el("p", { class: "share", text: fill("[[head.share]]", { n: counts.open, share: Math.round(100 * counts.open / total) }) }));
}

function drawHead() {
  const counts = tally(current, current.rows);
  const total = Math.max(1, current.rows.length);
  const readCount = current.rows.filter((row) => row.read).length;
  byId("head").replaceChildren(el("tr", {},
    headCell("id", ["[[head.student]]"], { class: "name" }),
    headCell("open", ["[[head.open]]"], { class: "n" }),
    current.demands.map((demand, at) => headCell(at,
      [el("span", { class: "code", text: demand.code }), " ", el("span", { class: "words", text: demand.words })],
      { class: "demand", below: bars(counts[at], total), menu: el("button", { type: "button", class: "more", "aria-label": fill("[[head.more]]", { code: demand.code }), "aria-haspopup": "dialog", onclick: () => columnDialog(at), text: "\u22ef" }) })),
    headCell("read", ["[[head.read]]"], { class: "n", below: el("p", { class: "share", text: fill("[[head.readShare]]", { n: readCount, total: current.rows.length }) }) })));
}

function cell(row, at, place, column) {
  const verdict = row.v[at];
  const looked = row.c[at].l && !own(row, at);
  return el("td", { class: "c" + (isOpen(verdict) ? " open" : ""), tabindex: "-1", "data-x": column },
    verdictMark(verdict, !isOpen(verdict)),
    looked ? el("span", { class: "look", title: "[[cell.lookTitle]]" }, el("span", { "aria-hidden": "true", text: "?" }), hidden("[[cell.look]]")) : null,
    own(row, at) ? el("span", { class: "yours", text: "[[cell.yours]]" }) : null,
    row.n[at] !== "" ? el("span", { class: "noted" }, el("span", { "aria-hidden": "true", text: "\u270e" }), hidden("[[cell.noted]]")) : null);
}
function tableRow(index) {
  const row = current.rows[index];
  const open = openCells(row);
  const tr = el("tr", { "data-row": index },
    el("th", { scope: "row", tabindex: "-1", "data-x": 0, class: "name" }, el("span", { class: "id", text: row.id }),
      row.t.trim() === "" ? el("span", { class: "empty", text: "[[cell.empty]]" }) : null,
      row.note !== "" ? el("span", { class: "noted" }, el("span", { "aria-hidden": "true", text: "\u270e" }), hidden("[[cell.noted]]")) : null),
    el("td", { class: "n" + (open === 0 ? " none" : ""), text: open === 0 ? "0" : String(open) }),
    row.c.map((one, at) => cell(row, at, index, at + 1)),
    el("td", { class: "n" }, row.read ? [el("span", { "aria-hidden": "true", text: "\u2713" }), hidden("[[cell.read]]")] : hidden("[[cell.unread]]")));
  tr.sign = sign(row);
  return tr;
}
/* What a row of the table shows: where it is the same, the row need not be drawn anew. */
function sign(row) {
  return [row.v.join(), row.n.map((note) => note === "" ? 0 : 1).join(""), row.note === "", row.read].join(" ");
}

/* Only the rows in sight and some around them are in the page: more would make each change slow. */
function heights(from, until) {
  let sum = 0;
  for (let i = from; i < until; i++) sum += current.rows[current.order[i]].tall || usual;
  return sum;
}
function measure() {
  const rows = Array.from(byId("rows").children);
  if (rows.length === 0 || table.hidden) return;
  rows.forEach((tr) => { current.rows[Number(tr.dataset.row)].tall = tr.offsetHeight; });
  usual = rows.reduce((sum, tr) => sum + tr.offsetHeight, 0) / rows.length || usual;
}
function space(id, height) {
  const cell = byId(id).querySelector("td");
  byId(id).hidden = height === 0;
  cell.colSpan = current.demands.length + 3;
  cell.style.height = height + "px";
}
function showRows(from, until) {
  const body = byId("rows");
  from = Math.max(0, from);
  until = Math.min(current.order.length, until);
  const wanted = new Set(current.order.slice(from, until));
  for (const tr of Array.from(body.children)) if (!wanted.has(Number(tr.dataset.row))) tr.remove();
  const there = new Set(Array.from(body.children, (tr) => Number(tr.dataset.row)));
  const before = document.createDocumentFragment();
  const after = document.createDocumentFragment();
  let met = false;
  for (let i = from; i < until; i++) {
    if (there.has(current.order[i])) met = true;
    else (met || there.size === 0 ? after : before).append(tableRow(current.order[i]));
  }
  body.prepend(before);
  body.append(after);
  start = from;
  drawn = until;
  space("above", heights(0, start));
  space("below", heights(drawn, current.order.length));
  tabStop();
}
/* Which rows are in sight, whether the table scrolls or the page does. */
function follow() {
  if (table.hidden || current.order.length === 0) return;
  measure();
  const grid = byId("grid").getBoundingClientRect();
  const top = byId("rows").getBoundingClientRect().top - heights(0, start);
  const at = (y) => {
    let i = 0;
    for (let sum = 0; i < current.order.length - 1; i++) {
      sum += heights(i, i + 1);
      if (sum > y) break;
    }
    return i;
  };
  const first = at(Math.max(grid.top, 0) - top);
  const last = at(Math.min(grid.bottom, innerHeight) - top);
  if ((first >= start + SLACK || start === 0) && (last <= drawn - SLACK || drawn === current.order.length)) return;
  const scrolled = byId("grid");
  const atEnd = scrolled.scrollTop > 0 && scrolled.scrollTop + scrolled.clientHeight >= scrolled.scrollHeight - 2;
  showRows(first - AHEAD, last + AHEAD);
  if (atEnd) scrolled.scrollTop = scrolled.scrollHeight; /* rows may be higher than was thought */
  followSoon();
}
let following = 0;
function followSoon() {
  if (following === 0) following = requestAnimationFrame(() => { following = 0; follow(); });
}
function drawFoot() {
  const rows = current.order.map((at) => current.rows[at]);
  const counts = tally(current, rows);
  byId("foot").replaceChildren(el("tr", {},
    el("th", { scope: "row", class: "name", text: rows.length === current.rows.length ? "[[foot.all]]" : fill("[[foot.shown]]", { n: rows.length }) }),
    el("td", { class: "n", text: String(rows.filter((row) => openCells(row) > 0).length) }),
    counts.map((count) => el("td", { text: count.unchecked === rows.length ? "\u2013" : fill("[[foot.count]]", { n: count.open }) })),
    el("td", { class: "n", text: String(rows.filter((row) => row.read).length) })));
}
function drawTable() {
  byId("grid").firstElementChild.style.minWidth = (21 + 8.6 * current.demands.length) + "rem";
  drawHead();
  byId("rows").replaceChildren();
  sift();
}
/* A filter changes no row and no head: those that stay are taken as they are. */
function sift() {
  const there = new Map(Array.from(byId("rows").children, (tr) => [Number(tr.dataset.row), tr]));
  const kept = (index) => {
    const tr = there.get(index);
    return tr && tr.sign === sign(current.rows[index]) ? tr : tableRow(index);
  };
  start = 0;
  drawn = Math.min(CHUNK, current.order.length);
  byId("rows").replaceChildren(...current.order.slice(0, drawn).map(kept));
  space("above", 0);
  space("below", heights(drawn, current.order.length));
  tabStop();
  drawFoot();
  followSoon();
  byId("nothing").hidden = current.order.length > 0;
  byId("shown").textContent = fill("[[tools.shown]]", { n: current.order.length, total: current.rows.length });
}
/* Only what a change touched is drawn anew. */
function redrawRows() {
  drawHead();
  for (const tr of Array.from(byId("rows").children)) {
    const index = Number(tr.dataset.row);
    if (tr.sign !== sign(current.rows[index])) tr.replaceWith(tableRow(index));
  }
  drawFoot();
  tabStop();
}
byId("grid").addEventListener("scroll", followSoon);
addEventListener("scroll", followSoon);
addEventListener("resize", followSoon);

/* One cell of the table is reached by Tab: the one that the arrow keys stand on, where it is in the page. */
function tabStop() {
  const body = byId("rows");
  const old = body.querySelector("[tabindex='0']");
  if (old) old.tabIndex = -1;
  if (body.children.length === 0) return null;
  const y = spot[0] >= start && spot[0] < drawn ? spot[0] - start : 0;
  const target = body.children[y].querySelector("[data-x='" + Math.min(spot[1], current.demands.length) + "']");
  target.tabIndex = 0;
  return target;
}
function place(y, x) {
  if (current.order.length === 0) return;
  spot = [Math.max(0, Math.min(y, current.order.length - 1)), Math.max(0, Math.min(x, current.demands.length))];
  if (spot[0] < start || spot[0] >= drawn) { measure(); showRows(spot[0] - AHEAD, spot[0] + AHEAD); }
  const target = tabStop();
  target.focus({ preventScroll: true });
  target.scrollIntoView({ block: "nearest", inline: "nearest" });
}
byId("rows").addEventListener("keydown", (event) => {
  const [y, x] = spot;
  const moves = { ArrowDown: [1, 0], ArrowUp: [-1, 0], ArrowRight: [0, 1], ArrowLeft: [0, -1], PageDown: [15, 0], PageUp: [-15, 0] };
  if (event.key in moves) { event.preventDefault(); place(y + moves[event.key][0], x + moves[event.key][1]); }
  else if (event.key === "Home") { event.preventDefault(); place(event.ctrlKey ? 0 : y, 0); }
  else if (event.key === "End") { event.preventDefault(); place(event.ctrlKey ? current.order.length - 1 : y, current.demands.length); }
  else if (event.key === "Enter" || event.key === " ") { event.preventDefault(); openAt(event.target); }
});
byId("rows").addEventListener("click", (event) => openAt(event.target));
function openAt(target) {
  const spotted = target.closest("[data-x]");
  const tr = target.closest("tr");
  if (!tr) return;
  const x = spotted ? Number(spotted.dataset.x) : 0;
  spot = [current.order.indexOf(Number(tr.dataset.row)), x];
  go(["r", data.prompts.indexOf(current), tr.dataset.row, ...(x > 0 ? [x - 1] : [])]);
}

/* ---- filters ---- */

function refilter() {
  reorder(current);
  spot = [0, spot[1]];
  byId("grid").scrollTop = 0;
  sift();
  drawTools();
}
function drawTools() {
  const filter = current.filter;
  const counts = TOGGLES.map(([name, label, test]) => current.rows.filter((row) => test(current, row)).length);
  byId("toggles").replaceChildren(...TOGGLES.map(([name, label], at) => counts[at] === 0 && !filter.toggles.has(name) ? null
    : el("button", { type: "button", class: "toggle", "data-toggle": name, "aria-pressed": String(filter.toggles.has(name)), onclick: () => {
      if (filter.toggles.has(name)) filter.toggles.delete(name); else filter.toggles.add(name);
      refilter();
      const again = byId("toggles").querySelector("[data-toggle=" + name + "]");
      if (again) again.focus();
    } }, label + " ", el("span", { class: "count", text: String(counts[at]) }))).filter(Boolean));
  const groups = Array.from(current.groups).filter(([name, values]) => values.size > 1 && values.size <= 20);
  byId("groups").replaceChildren(...groups.map(([name, values]) => {
    const select = el("select", {}, el("option", { value: "", text: fill("[[tools.any]]", { name }) }),
      Array.from(values).sort(compare).map((value) => el("option", { value: "=" + value, text: value === "" ? "[[tools.blank]]" : name + ": " + value })));
    select.value = filter.groups.has(name) ? "=" + filter.groups.get(name) : "";
    select.setAttribute("aria-label", name);
    select.addEventListener("change", () => {
      if (select.value === "") filter.groups.delete(name); else filter.groups.set(name, select.value.slice(1));
      refilter();
    });
    return select;
  }));
  const chips = Array.from(filter.cells).map(([at, wanted]) => el("button", { type: "button", class: "chip", onclick: () => { filter.cells.delete(at); refilter(); byId("search").focus(); } },
    fill("[[tools.chip]]", { code: current.demands[at].code, state: wanted === "open" ? "[[state.open]]" : NAMES[wanted] }), el("span", { "aria-hidden": "true", text: " \u00d7" }), hidden(" [[tools.drop]]")));
  const any = chips.length + filter.toggles.size + filter.groups.size + (filter.words === "" ? 0 : 1) > 0;
  byId("chips").replaceChildren(...chips, ...(any ? [el("button", { type: "button", class: "plain", onclick: () => {
    current.filter = { words: "", toggles: new Set(), cells: new Map(), groups: new Map() };
    byId("search").value = "";
    refilter();
    byId("search").focus();
  }, text: "[[tools.clear]]" })] : []));
}
byId("search").addEventListener("input", () => { current.filter.words = byId("search").value.trim().toLowerCase(); refilter(); });

/* ---- a column: its filter, and its verdicts in one step ---- */

function columnDialog(at) {
  const dialog = byId("column");
  const demand = current.demands[at];
  const counts = tally(current, current.rows)[at];
  const close = () => { dialog.close(); };
  const states = [["", "[[column.any]]"], ["open", "[[state.open]]"], ["missing", NAMES.missing], ["partly", NAMES.partly], ["addressed", NAMES.addressed], ["unchecked", NAMES.unchecked]];
  const filter = el("select", { id: "column-filter" }, states
    .filter(([value]) => value === "" || value === "open" || counts[value] > 0)
    .map(([value, name]) => el("option", { value, text: value === "" ? name : name + " (" + counts[value] + ")" })));
  filter.value = current.filter.cells.get(at) || "";
  filter.addEventListener("change", () => {
    if (filter.value === "") current.filter.cells.delete(at); else current.filter.cells.set(at, filter.value);
    refilter();
  });
  const setter = (label, rows) => {
    const select = el("select", { "aria-label": label }, el("option", { value: "", text: "[[column.setTo]]" }),
      Object.keys(NAMES).map((verdict) => el("option", { value: verdict, text: SHAPES[verdict] + " " + NAMES[verdict] })));
    select.addEventListener("change", () => {
      const verdict = select.value;
      close();
      step((n) => some(n, "[[step.one]]", "[[step.many]]", { code: demand.code, state: NAMES[verdict] }), rows.map((row) => verdictChange(row, at, verdict)));
    });
    return select;
  };
  const reasons = new Map();
  for (const row of current.rows) {
    const key = row.c[at].p + " " + row.c[at].w;
    if (!reasons.has(key)) reasons.set(key, []);
    reasons.get(key).push(row);
  }
  const grouped = Array.from(reasons.values()).sort((a, b) => ORDER[a[0].c[at].p] - ORDER[b[0].c[at].p] || b.length - a.length);
  const filtered = current.order.length < current.rows.length;
  dialog.replaceChildren(
    el("h2", { id: "column-name" }, el("span", { class: "code", text: demand.code }), " " + demand.full),
    el("p", { class: "from" }, "[[column.from]] ", el("q", { text: demand.from })),
    el("p", {}, el("label", { for: "column-filter", text: "[[column.filter]] " }), filter),
    el("h3", { text: "[[column.set]]" }),
    el("p", { class: "soft", text: "[[column.setNote]]" }),
    el("ul", { class: "sets" },
      el("li", {}, el("span", { text: fill("[[column.all]]", { n: current.rows.length }) }), setter(fill("[[column.all]]", { n: current.rows.length }), current.rows)),
      filtered ? el("li", {}, el("span", { text: fill("[[column.shown]]", { n: current.order.length }) }), setter(fill("[[column.shown]]", { n: current.order.length }), current.order.map((index) => current.rows[index]))) : null,
      grouped.map((rows) => el("li", {},
        el("span", {}, verdictMark(rows[0].c[at].p), " ", el("span", { class: "n", text: some(rows.length, "[[column.times.one]]", "[[column.times.other]]") }), el("span", { class: "reason", text: " " + current.reasons[rows[0].c[at].w] })),
        setter(some(rows.length, "[[column.times.one]]", "[[column.times.other]]") + " " + current.reasons[rows[0].c[at].w], rows)))),
    el("p", { class: "end" }, el("button", { type: "button", class: "primary", onclick: close, text: "[[column.close]]" })));
  dialog.showModal();
}
byId("column").addEventListener("click", (event) => { if (event.target === byId("column")) byId("column").close(); });

/* ---- one response at a time ---- */

function drawReading() {
  const index = reading.row;
  const row = current.rows[index];
  const at = reading.order.indexOf(index);
  const total = reading.order.length;
  const readCount = current.rows.filter((one) => one.read).length;
  const open = openCells(row);
  const bar = el("span", { class: "bar", "aria-hidden": "true" }, el("span", { class: "done" }));
  bar.firstChild.style.width = (100 * readCount / current.rows.length) + "%";
  const turn = (by) => el("button", { type: "button", class: by < 0 ? "previous" : "next", disabled: at + by < 0 || at + by >= total, onclick: () => move(by) },
    by < 0 ? "\u2190 [[read.previous]]" : "[[read.next]] \u2192");
  const finish = el("button", { type: "button", class: "primary done-next", onclick: () => done(row) }, row.read ? "[[read.again]]" : at + 1 < total ? "[[read.doneNext]]" : "[[read.done]]");
  const headings = [];
  current.parts.forEach((part, number) => {
    const near = (row.near || {})[part.label];
    headings.push(el("section", { class: "part" },
      current.parts.length > 1 || part.text !== "" ? el("h2", {}, el("span", { class: "code", text: part.label }), " ", el("span", { class: "wording", text: part.text })) : null,
      current.demands.map((demand, index) => demand.pi === number ? demandCard(row, demand, index) : null),
      current.demands.some((demand) => demand.pi === number) ? null : el("p", { class: "soft", text: "[[read.noDemand]]" }),
      near ? el("p", { class: "soft near" }, "[[read.nearest]] ", el("q", { text: near[0] }), " (" + near[1] + ")") : null));
  });
  read.replaceChildren(
    el("div", { class: "turn" },
      el("a", { href: "#" + ["t", data.prompts.indexOf(current)].join("/"), class: "back", text: "[[read.back]]" }),
      el("span", { class: "where", text: at < 0 ? "" : fill("[[read.where]]", { n: at + 1, total }) }),
      turn(-1), turn(1)),
    el("div", { class: "who" },
      el("h1", { id: "who", tabindex: "-1", text: row.id }),
      el("p", { class: "student-line" }, el("strong", { text: open === 0 ? "[[read.allCovered]]" : some(open, "[[read.open.one]]", "[[read.open.other]]") }),
        row.read ? el("span", { class: "soft", text: " [[read.isRead]]" }) : null)),
    el("div", { class: "beside" },
      el("div", { class: "paper" },
        row.t.trim() === "" ? el("p", { class: "response empty", text: "[[read.empty]]" })
          : el("div", { class: "response", id: "response" }, marked(row.t, row.c, row.m, current.demands.map(code), (cellAt) => focusDemand(cellAt))),
        (row.r || []).map((remark) => el("p", { class: "soft", text: remark })),
        Object.keys(row.g || {}).length > 0 ? el("p", { class: "soft", text: Object.entries(row.g).filter(([name, value]) => value !== "").map(([name, value]) => name + ": " + value).join(" \u00b7 ") }) : null),
      el("div", { class: "demands" }, headings,
        noteField("note", fill("[[read.noteAll]]", { id: row.id }), row.note, (value) => { row.note = value; keep(true); }),
        el("div", { class: "finish" }, finish, el("div", { class: "progress" }, bar, el("span", { text: fill("[[read.progress]]", { n: readCount, total: current.rows.length }) }))))));
  if (reading.cell !== null) lit(reading.cell);
}

function noteField(id, label, value, set) {
  const area = el("textarea", { id, rows: "2", value });
  area.value = value;
  area.addEventListener("input", () => { set(area.value); });
  const field = el("div", { class: "note" }, el("label", { for: id, text: label }), area);
  if (value !== "") return field;
  field.hidden = true;
  const button = el("button", { type: "button", class: "plain", "aria-expanded": "false", onclick: () => { field.hidden = false; button.remove(); area.focus(); } }, label);
  return el("div", {}, button, field);
}

function demandCard(row, demand, at) {
  const one = row.c[at];
  const verdict = row.v[at];
  const missing = demand.count > 1 && one.f > 0 && one.f < demand.count ? demand.count - one.f : 0;
  const card = el("article", { class: "card" + (isOpen(verdict) ? " open" : ""), id: "d" + at, tabindex: "-1", "aria-labelledby": "d" + at + "-name" },
    el("h3", { id: "d" + at + "-name" }, el("span", { class: "code", text: demand.code }), " " + demand.full),
    verdictChoice("v" + at, fill("[[read.verdictOn]]", { code: demand.code }), verdict, one.p,
      (chosen) => {
        step(fill("[[step.single]]", { id: row.id, code: demand.code, state: NAMES[chosen] }), [verdictChange(row, at, chosen)]);
        const again = read.querySelector("#d" + at + " input:checked");
        if (again) again.focus();
      }),
    el("p", { class: "why" }, own(row, at) ? el("span", { text: fill("[[read.programSaid]]", { state: NAMES[one.p] }) + " " }) : null, current.reasons[one.w],
      one.s > 0 && !own(row, at) ? el("span", { class: "soft", text: " " + fill("[[read.sure]]", { n: one.s }) }) : null,
      one.l && !own(row, at) ? [" ", el("span", { class: "look", text: "[[cell.look]]" })] : null),
    (one.pt || []).map(([name, found]) => el("p", { class: "point" }, fill(found ? "[[read.pointFound]]" : "[[read.pointNot]]", { name }))),
    isOpen(verdict) ? el("p", { class: "next" }, el("span", { class: "soft", text: "[[read.nextStep]] " }), (missing > 0 ? some(missing, "[[read.more.one]]", "[[read.more.other]]") + " " : "") + demand.next.charAt(0).toUpperCase() + demand.next.slice(1) + (/[.?!]$/.test(demand.next) ? "" : ".")) : null,
    noteField("n" + at, fill("[[read.noteOn]]", { code: demand.code }), row.n[at], (value) => { row.n[at] = value; keep(true); }));
  card.addEventListener("pointerenter", () => lit(at));
  card.addEventListener("focusin", () => { reading.cell = at; lit(at); });
  return card;
}
function lit(at) {
  for (const mark of read.querySelectorAll("mark")) mark.classList.toggle("lit", mark.dataset.cells.split(" ").includes(String(at)));
  for (const card of read.querySelectorAll(".card")) card.classList.toggle("lit", card.id === "d" + at);
}
function focusDemand(at) {
  reading.cell = at;
  const card = byId("d" + at);
  card.focus({ preventScroll: true });
  card.scrollIntoView({ block: "center" });
  lit(at);
}
function move(by) {
  const at = reading.order.indexOf(reading.row) + by;
  if (at < 0 || at >= reading.order.length) return;
  go(["r", data.prompts.indexOf(current), reading.order[at]], true);
}
function done(row) {
  step(fill(row.read ? "[[step.unread]]" : "[[step.read]]", { id: row.id }), [readChange(row, !row.read)]);
  if (row.read) move(1);
  const button = read.querySelector(".done-next");
  if (button) button.focus();
}

/* ---- the question ---- */

/*
 * The program's own verdicts tell of its reading: neither a teacher's, nor those on empty answers. A teacher
 * who has overruled most of a column knows already.
 */
function doubts(prompt) {
  return prompt.demands.map((demand, at) => {
    const checked = prompt.rows.filter((row) => row.t.trim() !== "" && row.c[at].p !== "unchecked");
    const open = checked.filter((row) => isOpen(row.c[at].p)).length;
    if (checked.length < DOUBT_LEAST || 2 * checked.filter((row) => own(row, at)).length > checked.length) return null;
    if (open / checked.length > DOUBT_SHARE) return fill("[[doubt.most]]", { code: demand.code, words: demand.words, n: open, total: checked.length });
    if (open === 0) return fill("[[doubt.none]]", { code: demand.code, words: demand.words, total: checked.length });
    return null;
  }).filter(Boolean);
}

function drawQuestion() {
  question.replaceChildren(
    el("h1", { text: current.name }),
    current.stimulus !== "" ? el("div", { class: "stimulus", text: current.stimulus }) : null,
    ...current.parts.map((part, number) => el("section", { class: "part" },
      el("h2", {}, el("span", { class: "code", text: part.label }), " ", el("span", { class: "wording", text: part.text })),
      el("ul", { class: "asks" }, current.demands.filter((demand) => demand.pi === number).map((demand) => el("li", {},
        el("span", { class: "code", text: demand.code }), " ", el("strong", { text: demand.name }), demand.count > 1 ? fill(" [[question.count]]", { n: demand.count }) : "",
        demand.about !== "" ? el("span", { text: ": " + demand.about }) : null,
        el("span", { class: "soft from" }, " [[column.from]] ", el("q", { text: demand.from }))))))),
    el("h2", { text: "[[question.wrong]]" }),
    el("p", { text: data.served ? "[[question.mendServed]]" : "[[question.mend]]" }),
    data.served ? el("p", {}, el("a", { class: "button", href: "../../#mend/" + location.pathname.split("/").slice(-2)[0], text: "[[question.mendOpen]]" })) : null);
}

/* ---- the whole page ---- */

function headline() {
  let open = 0;
  let total = 0;
  const most = [];
  for (const prompt of data.prompts) {
    total += prompt.rows.length;
    open += prompt.rows.filter((row) => openCells(row) > 0).length;
    tally(prompt, prompt.rows).forEach((count, at) => {
      if (count.open > 0) most.push([count.open, prompt, at, prompt.rows.length]);
    });
  }
  most.sort((a, b) => b[0] - a[0]);
  byId("headline").textContent = total === 0 ? "[[headline.none]]" : open === 0 ? "[[headline.allCovered]]" : some(open, "[[headline.one]]", "[[headline.other]]", { total });
  byId("most").replaceChildren(...(most.length === 0 ? [] : ["[[headline.most]] ", ...most.slice(0, 3).flatMap(([n, prompt, at, of], i) => [i > 0 ? "; " : "",
    el("strong", { text: (data.prompts.length > 1 ? prompt.id + " " : "") + prompt.demands[at].code }), " " + prompt.demands[at].words + " ", el("span", { class: "soft", text: fill("[[headline.of]]", { n, total: of }) })]), "."]));
  const said = data.prompts.map((prompt, at) => [at, doubts(prompt)]).filter(([at, sentences]) => sentences.length > 0);
  const count = said.reduce((sum, [at, sentences]) => sum + sentences.length, 0);
  byId("class-doubts").replaceChildren(...(count === 0 ? [] : [
    el("details", {}, el("summary", {}, el("strong", { text: some(count, "[[doubt.title.one]]", "[[doubt.title.other]]") })),
      said.map(([at, sentences]) => [
        data.prompts.length > 1 ? el("p", { class: "of", text: data.prompts[at].name }) : null,
        el("ul", {}, sentences.map((sentence) => el("li", { text: sentence }))),
        el("p", {}, el("a", { href: "#" + ["q", at].join("/"), text: "[[doubt.way]]" }))]).flat())]));
}

function bar() {
  const own = data.prompts.reduce((sum, prompt) => sum + prompt.rows.reduce((all, row) => all + row.c.filter((cell, at) => row.v[at] !== cell.p).length, 0), 0);
  byId("own").textContent = own === 0 ? "" : some(own, "[[bar.own.one]]", "[[bar.own.other]]") + (dirty ? " [[bar.unsaved]]" : "");
  byId("undo").disabled = steps.length === 0;
  byId("undo").title = steps.length === 0 ? "" : fill("[[bar.undoTitle]]", { what: steps[steps.length - 1].label });
  document.body.classList.toggle("dirty", dirty);
}
function draw() {
  headline();
  bar();
  if (!table.hidden) { redrawRows(); drawTools(); }
  if (!read.hidden) drawReading();
}

function go(way, instead) {
  const hash = "#" + way.join("/");
  if (location.hash === hash) route();
  else if (instead) { history.replaceState(null, "", hash); route(); }
  else location.hash = hash;
}
function route() {
  const way = location.hash.slice(1).split("/");
  const number = Number(way[1] || 0);
  const prompt = data.prompts[number] || data.prompts[0];
  if (!prompt) return;
  const other = prompt !== current;
  const from = { table: !table.hidden, read: !read.hidden };
  current = prompt;
  const view = way[0] === "r" && current.rows[Number(way[2])] ? "r" : way[0] === "q" ? "q" : "t";
  table.hidden = view !== "t";
  read.hidden = view !== "r";
  question.hidden = view !== "q";
  document.body.dataset.view = view;
  for (const tab of document.querySelectorAll(".tabs a")) {
    const mine = tab.dataset.view === view;
    if (mine) tab.setAttribute("aria-current", "page"); else tab.removeAttribute("aria-current");
    tab.href = "#" + (tab.dataset.view === "r" ? ["r", number, reading && reading.prompt === current ? reading.row : current.order[0] || 0] : [tab.dataset.view, number]).join("/");
  }
  for (const tab of document.querySelectorAll(".prompts a")) {
    if (Number(tab.dataset.at) === number) tab.setAttribute("aria-current", "true"); else tab.removeAttribute("aria-current");
  }
  if (view === "r") {
    const fresh = !reading || reading.prompt !== current || from.table || !reading.order.includes(Number(way[2]));
    const order = fresh ? (current.order.includes(Number(way[2])) ? current.order.slice() : current.rows.map((row, at) => at)) : reading.order;
    reading = { prompt: current, order, row: Number(way[2]), cell: way[3] === undefined ? null : Number(way[3]) };
    drawReading();
    scrollTo(0, 0);
    if (reading.cell !== null) focusDemand(reading.cell);
    else byId("who").focus({ preventScroll: true });
  } else if (view === "q") {
    drawQuestion();
    scrollTo(0, 0);
  } else {
    if (other || from.read || byId("rows").children.length === 0) {
      byId("search").value = current.filter.words;
      reorder(current);
      if (reading && reading.prompt === current && from.read && current.order.includes(reading.row)) spot = [current.order.indexOf(reading.row), reading.cell === null ? 0 : reading.cell + 1];
      drawTable();
      drawTools();
      if (from.read) place(spot[0], spot[1]);
    }
  }
}
addEventListener("hashchange", route);
addEventListener("keydown", (event) => {
  const typing = event.target.matches && event.target.matches("textarea, input[type=search], select");
  if ((event.ctrlKey || event.metaKey) && !event.shiftKey && event.key.toLowerCase() === "z" && !typing) { event.preventDefault(); undo(); return; }
  if (read.hidden || typing || event.ctrlKey || event.metaKey || event.altKey || byId("column").open) return;
  const radio = event.target.matches && event.target.matches("input[type=radio]");
  if (event.key === "ArrowRight" && !radio) { event.preventDefault(); move(1); }
  if (event.key === "ArrowLeft" && !radio) { event.preventDefault(); move(-1); }
  if (event.key === "Escape") { event.preventDefault(); go(["t", data.prompts.indexOf(current)]); }
});
byId("undo").addEventListener("click", undo);
byId("menu").addEventListener("click", (event) => { if (event.target.closest("button")) byId("menu").open = false; });
byId("menu").addEventListener("keydown", (event) => { if (event.key === "Escape") { byId("menu").open = false; byId("menu").querySelector("summary").focus(); } });
document.addEventListener("click", (event) => { if (!byId("menu").contains(event.target)) byId("menu").open = false; });
byId("save").addEventListener("click", save);
byId("open").addEventListener("click", openFile);
byId("print").addEventListener("click", () => print());
if (data.served) {
  byId("save-folder").hidden = false;
  byId("save-folder").addEventListener("click", saveFolder);
  stayConnected(data.served, () => say("[[said.noProgram]]"));
} else if (data.prompts.length > 0) {
  const forget = byId("forget");
  forget.hidden = false;
  forget.addEventListener("click", () => {
    if (!confirm("[[said.forget]]")) return;
    try { localStorage.removeItem(SLOT); } catch (error) { /* nothing was kept */ }
    data.prompts.forEach((prompt) => prompt.rows.forEach((row) => { row.v = row.c.map((cell) => cell.v); row.n = row.c.map((cell) => cell.n || ""); row.note = ""; row.read = false; }));
    steps.length = 0;
    dirty = false;
    draw();
    say("[[said.forgotten]]");
  });
}
addEventListener("beforeprint", () => { if (!table.hidden) showRows(0, current.order.length); });
addEventListener("afterprint", () => { if (!table.hidden) follow(); });
if (data.prompts.length > 1) {
  byId("prompts").append(...data.prompts.map((prompt, at) => el("a", { href: "#t/" + at, "data-at": at, text: prompt.name })));
}
recall();
headline();
bar();
route();
document.body.dataset.ready = "true";
