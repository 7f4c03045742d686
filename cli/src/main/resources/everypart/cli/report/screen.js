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
