"use strict";
/* What every page with a script shares: making elements, verdicts, marks in a text. */
const SHAPES = { addressed: "\u2713", partly: "\u25d0", missing: "\u25cb", unchecked: "\u2013" };
const NAMES = { addressed: "[[verdict.addressed]]", partly: "[[verdict.partly]]", missing: "[[verdict.missing]]", unchecked: "[[verdict.unchecked]]" };
const ORDER = { missing: 0, partly: 1, addressed: 2, unchecked: 3 };
const isOpen = (verdict) => verdict === "missing" || verdict === "partly";

function fill(words, values) {
  return words.replace(/\{(\w+)\}/g, (all, name) => String(values[name]));
}
function some(n, one, other, values) {
  return fill(n === 1 ? one : other, { n, ...values });
}

/* el("button", {class: "x", onclick: f, text: "y"}, child, ...) */
function el(name, made = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(made)) {
    if (value === undefined || value === null || value === false) continue;
    if (key === "text") element.textContent = value;
    else if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else if (key === "checked" || key === "value" || key === "disabled" || key === "hidden") element[key] = value;
    else element.setAttribute(key, value === true ? "" : value);
  }
  element.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== false));
  return element;
}
const byId = (id) => document.getElementById(id);
const hidden = (words) => el("span", { class: "hidden", text: words });

function verdictMark(verdict, quiet) {
  return el("span", { class: "verdict v-" + verdict },
    el("span", { class: "shape", "aria-hidden": "true", text: SHAPES[verdict] }),
    el("span", { class: quiet ? "hidden" : "word", text: NAMES[verdict] }));
}

/* A row of four choices, as radio buttons. */
function verdictChoice(name, label, value, program, choose) {
  const group = el("fieldset", { class: "choice" }, el("legend", { class: "hidden", text: label }));
  for (const verdict of ["addressed", "partly", "missing", "unchecked"]) {
    const input = el("input", { type: "radio", name, value: verdict, checked: verdict === value });
    input.addEventListener("change", () => { if (input.checked) choose(verdict); });
    group.append(el("label", { class: "v-" + verdict }, input,
      el("span", {}, el("span", { class: "shape", "aria-hidden": "true", text: SHAPES[verdict] }), " " + NAMES[verdict]),
      program === verdict ? hidden(" [[choice.program]]") : null));
  }
  return group;
}

/*
 * The text cut where evidence begins or ends. cells: [{e: [[from, to], ...]}, ...];
 * places: [[from, part or null], ...]. each(at, element) may dress a piece.
 */
function marked(text, cells, places, labels, follow) {
  const cuts = new Set([0, text.length]);
  cells.forEach((cell) => (cell.e || []).forEach(([from, to]) => { cuts.add(from); cuts.add(to); }));
  (places || []).forEach(([from]) => cuts.add(from));
  const sorted = Array.from(cuts).filter((cut) => cut <= text.length).sort((a, b) => a - b);
  const pieces = [];
  for (let i = 0; i + 1 < sorted.length || i === 0; i++) {
    const from = sorted[i];
    const to = i + 1 < sorted.length ? sorted[i + 1] : text.length;
    const place = (places || []).find(([at]) => at === from);
    if (place) {
      pieces.push(el("span", { class: "place", text: place[1] === null ? "[[text.noPart]]" : fill("[[text.part]]", { part: place[1] }) }));
    }
    const mine = [];
    cells.forEach((cell, at) => (cell.e || []).forEach(([a, b]) => { if (a < to && b > from) mine.push([at, b === to]); }));
    if (mine.length === 0) {
      pieces.push(document.createTextNode(text.slice(from, to)));
      continue;
    }
    const mark = el("mark", { "data-cells": mine.map(([at]) => at).join(" "), text: text.slice(from, to) });
    pieces.push(mark);
    const seen = new Set();
    for (const [at, ends] of mine) {
      if (ends && labels && !seen.has(at)) {
        seen.add(at);
        pieces.push(follow
          ? el("button", { type: "button", class: "tag", onclick: () => follow(at) }, hidden("[[text.evidence]] "), labels[at])
          : el("span", { class: "tag", text: labels[at] }));
      }
    }
  }
  return pieces;
}

function download(name, content, type) {
  const link = el("a", { download: name });
  link.href = URL.createObjectURL(new Blob([content], { type }));
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 20000);
}

/* The page tells the program that it is there, by keeping one answer open. */
function stayConnected(base, gone) {
  const wait = async () => {
    try {
      const answer = await fetch(base + "here", { cache: "no-store" });
      const reader = answer.body.getReader();
      while (!(await reader.read()).done) { /* a sign of life */ }
      gone();
    } catch (error) {
      gone();
    }
  };
  wait();
}
