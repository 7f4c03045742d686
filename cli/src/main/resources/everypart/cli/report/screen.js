"use strict";
for (const section of document.querySelectorAll("[data-prompt]")) {
  const body = section.querySelector(".matrix tbody");
  const rows = Array.from(body.rows);
  const filter = section.querySelector("select");
  const search = section.querySelector("input");
  const shown = section.querySelector("[role=status]");
  const heads = Array.from(section.querySelectorAll(".matrix thead th"));
  const compare = new Intl.Collator("en", { numeric: true }).compare;

  function show() {
    const words = search.value.trim().toLowerCase();
    let count = 0;
    for (const row of rows) {
      const fits = (filter.value === "" || row.dataset.f.includes(" " + filter.value + " "))
        && row.dataset.id.toLowerCase().includes(words);
      row.hidden = !fits;
      const detail = document.getElementById(row.dataset.key);
      if (detail) detail.hidden = !fits;
      if (fits) count++;
    }
    shown.textContent = count + " of " + rows.length + " shown";
  }

  function sort(column) {
    const head = heads[column];
    const up = head.getAttribute("aria-sort") !== "ascending";
    for (const other of heads) other.setAttribute("aria-sort", "none");
    head.setAttribute("aria-sort", up ? "ascending" : "descending");
    const keyed = rows.map((row, at) => ({ row, at, key: row.cells[column].dataset.s }));
    keyed.sort((a, b) => (up ? 1 : -1) * compare(a.key, b.key) || a.at - b.at);
    body.append(...keyed.map((one) => one.row));
  }

  heads.forEach((head, column) => head.querySelector("button").addEventListener("click", () => sort(column)));
  filter.addEventListener("change", show);
  search.addEventListener("input", show);
  section.querySelector(".tools").hidden = false;
  show();
}

const SHAPES = { addressed: "\u25cf", partly: "\u25d0", missing: "\u25cb", unchecked: "\u2013" };
const ORDER = { missing: 0, partly: 1, addressed: 2, unchecked: 3 };
const CLAIMS = ["identify", "predict", "evaluate"];
const saving = document.querySelector(".save");
let unsaved = false;

function isOpen(cell) { return Number(cell.dataset.s) < 2; }

function tagged(cell, name, on) {
  const tag = cell.querySelector("." + name);
  if (tag && !on) tag.remove();
  if (!tag && on) {
    const fresh = document.createElement("span");
    fresh.className = name;
    fresh.textContent = name;
    cell.append(fresh);
  }
}

function write(verdict, word) {
  verdict.className = "verdict v-" + word;
  const shape = document.createElement("span");
  shape.setAttribute("aria-hidden", "true");
  shape.textContent = SHAPES[word];
  verdict.replaceChildren(shape, " " + word);
}

/* Fits a row's count and filters to its cells; the same rules as when the page was written. */
function refit(row, heads) {
  const cells = Array.from(row.cells).slice(2);
  const keys = row.dataset.f.split(" ").filter((key) => ["empty", "closed", "lost"].includes(key));
  const parts = [];
  let claimed = false;
  cells.forEach((cell, at) => {
    const head = heads[at + 2].dataset;
    if (parts.length === 0 || parts[parts.length - 1].name !== head.part) {
      parts.push({ name: head.part, cells: [] });
      claimed = false;
    }
    parts[parts.length - 1].cells.push(cell);
    if (isOpen(cell)) keys.push("open", "demand" + at);
    if (cell.querySelector(".look")) keys.push("look");
    if (CLAIMS.includes(head.kind)) claimed = cell.dataset.s === "2";
    if (head.kind === "justify" && claimed && isOpen(cell)) keys.push("ground" + at);
  });
  parts.forEach((part, at) => {
    const checked = part.cells.filter((cell) => cell.dataset.s !== "3");
    if (checked.length > 0 && checked.every((cell) => cell.dataset.s === "0")) keys.push("part" + at);
  });
  row.dataset.f = " " + Array.from(new Set(keys)).join(" ") + " ";
  const open = String(cells.filter(isOpen).length);
  row.cells[1].textContent = open;
  row.cells[1].dataset.s = open;
}

function changed() {
  unsaved = true;
  saving.hidden = false;
  const count = document.querySelectorAll(".student li[data-program]:not([data-program=''])").length;
  const read = document.querySelectorAll(".student[data-read=true]").length;
  saving.querySelector("[role=status]").textContent = count + (count === 1 ? " verdict" : " verdicts")
    + " of your own, " + read + (read === 1 ? " response" : " responses") + " read, not saved yet";
}

function overrule(item, word) {
  const program = item.dataset.program || item.dataset.verdict;
  item.dataset.program = word === program ? "" : program;
  item.dataset.verdict = word;
  write(item.querySelector(".verdict"), word);
  const student = item.closest(".student");
  const section = student.closest("[data-prompt]");
  const row = section.querySelector("tr[data-key='" + student.id + "']");
  const at = Array.from(student.querySelectorAll("li[data-part]")).indexOf(item);
  const cell = row.cells[at + 2];
  write(cell.querySelector(".verdict"), word);
  cell.dataset.s = String(ORDER[word]);
  tagged(cell, "look", false);
  tagged(cell, "yours", item.dataset.program !== "");
  refit(row, Array.from(section.querySelectorAll(".matrix thead th")));
  changed();
}

/* The controls of a response are made when it is first opened, so that a large set opens quickly. */
function equip(student) {
  if (student.dataset.equipped) return;
  student.dataset.equipped = "true";
  for (const item of student.querySelectorAll("li[data-part]")) {
    const label = document.createElement("label");
    label.className = "own";
    label.append("Your verdict on " + item.dataset.part + item.dataset.demand);
    const select = document.createElement("select");
    for (const word of Object.keys(SHAPES)) {
      const option = document.createElement("option");
      option.value = word;
      option.textContent = word + (word === (item.dataset.program || item.dataset.verdict) ? " (program)" : "");
      select.append(option);
    }
    select.value = item.dataset.verdict;
    select.addEventListener("change", () => overrule(item, select.value));
    label.append(select);
    item.append(label);
  }
  const label = document.createElement("label");
  label.className = "read";
  const box = document.createElement("input");
  box.type = "checkbox";
  box.checked = student.dataset.read === "true";
  box.addEventListener("change", () => { student.dataset.read = String(box.checked); changed(); });
  label.append(box, " I have read this response; the verdicts shown are right");
  student.querySelector(":scope > div").append(label);
}
document.addEventListener("toggle", (event) => {
  if (event.target.matches && event.target.matches(".student") && event.target.open) equip(event.target);
}, true);

function corrections() {
  const responses = [];
  for (const student of document.querySelectorAll(".student")) {
    const read = student.dataset.read === "true";
    const demands = Array.from(student.querySelectorAll("li[data-part]"))
      .filter((item) => read || item.dataset.program !== "")
      .map((item) => ({
        part: item.dataset.part, demand: Number(item.dataset.demand), kind: item.dataset.kind,
        program: item.dataset.program || item.dataset.verdict, verdict: item.dataset.verdict,
        overruled: item.dataset.program !== "",
      }));
    if (demands.length > 0) {
      responses.push({
        promptId: student.closest("[data-prompt]").dataset.promptId,
        responseId: student.querySelector("summary strong").textContent, read, demands,
      });
    }
  }
  return { format: "everypart-corrections", version: 1, responses };
}

saving.querySelector("button").addEventListener("click", () => {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([JSON.stringify(corrections(), null, 1)], { type: "application/json" }));
  link.download = "corrections.json";
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  unsaved = false;
  saving.querySelector("[role=status]").textContent = "Saved as corrections.json; give it to screen --corrections";
});
addEventListener("beforeunload", (event) => { if (unsaved) event.preventDefault(); });

function openTarget() {
  const target = location.hash ? document.getElementById(decodeURIComponent(location.hash.slice(1))) : null;
  const detail = target ? target.closest("details") : null;
  if (!detail) return;
  detail.open = true;
  target.scrollIntoView();
  if (target === detail) detail.querySelector("summary").focus();
}
addEventListener("hashchange", openTarget);
for (const link of document.querySelectorAll(".matrix tbody a")) {
  link.addEventListener("click", () => { if (link.hash === location.hash) openTarget(); });
}
openTarget();

let opened = [];
addEventListener("beforeprint", () => {
  opened = Array.from(document.querySelectorAll("details.question:not([open])"));
  for (const detail of opened) detail.open = true;
});
addEventListener("afterprint", () => { for (const detail of opened) detail.open = false; });
