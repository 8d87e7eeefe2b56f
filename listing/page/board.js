"use strict";
(() => {
  const form = document.getElementById("find");
  if (!form) return;
  const search = form.elements.words, show = form.elements.show, sort = form.elements.sort;
  const told = document.getElementById("told"), sold = document.getElementById("sold");
  const lists = [...document.querySelectorAll("ol.board")];
  const rows = lists.flatMap(list => [...list.children].map((row, place) => ({
    list, row, place, link: row.querySelector("a"), words: row.textContent.toLowerCase(), state: row.dataset.s || "",
    title: row.querySelector("a").textContent, needs: "n" in row.dataset, loses: "l" in row.dataset,
    price: number(row.dataset.p), margin: number(row.dataset.m), date: row.dataset.d || "",
  })));
  function number(text) { return text === undefined ? null : Number(text); }
  // What has no figure stands last, whichever way the rest is sorted.
  const last = (a, b, way) => (a === null) - (b === null) || (a === null ? 0 : way * (a - b));
  const orders = {
    needs: (a, b) => a.place - b.place,
    title: (a, b) => a.title.localeCompare(b.title),
    serial: (a, b) => a.row.id.localeCompare(b.row.id, undefined, { numeric: true }),
    newest: (a, b) => b.date.localeCompare(a.date),
    oldest: (a, b) => a.date.localeCompare(b.date),
    price: (a, b) => last(a.price, b.price, -1),
    margin: (a, b) => last(a.margin, b.margin, 1),
  };
  const shows = {
    all: () => true, needs: r => r.needs, loses: r => r.loses, unpriced: r => r.price === null,
  };
  let unfolded = false;
  function apply() {
    const words = search.value.toLowerCase().split(/\s+/).filter(Boolean);
    const state = show.value.startsWith("=") ? show.value.slice(1) : null;
    const fits = state === null ? shows[show.value] || shows.all : r => r.state === state;
    let shown = 0, inSold = 0;
    for (const r of rows) {
      const yes = fits(r) && words.every(w => r.words.includes(w));
      r.row.hidden = !yes;
      if (yes) { shown++; if (sold && sold.contains(r.row)) inSold++; }
    }
    if (sold) {
      // A search opens what is folded away, and folds it again when it is done.
      if (words.length && inSold && !sold.open) sold.open = unfolded = true;
      if (!words.length && unfolded) sold.open = unfolded = false;
      sold.hidden = !inSold;
    }
    told.textContent = shown === rows.length ? "" : told.dataset.shown.replace("#", shown);
  }
  function order() {
    const by = orders[sort.value] || orders.needs;
    for (const list of lists) {
      const inside = rows.filter(r => r.list === list).sort((a, b) => by(a, b) || a.place - b.place);
      list.append(...inside.map(r => r.row));
    }
  }
  form.hidden = false;
  form.addEventListener("submit", e => e.preventDefault());
  form.addEventListener("reset", () => setTimeout(() => { order(); apply(); }));
  search.addEventListener("input", apply);
  show.addEventListener("change", apply);
  sort.addEventListener("change", order);
  document.addEventListener("keydown", e => {
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    const at = document.activeElement;
    if (e.key === "/" && !/^(INPUT|SELECT|TEXTAREA)$/.test(at.tagName)) {
      e.preventDefault();
      search.focus();
      search.select();
      return;
    }
    if (e.key === "Escape" && at === search && search.value) { search.value = ""; apply(); return; }
    const step = { ArrowDown: 1, ArrowUp: -1, Home: "first", End: "last" }[e.key];
    const here = at.closest && at.closest("ol.board > li");
    if (step === undefined || !(here || at === search && step === 1)) return;
    const seen = [...document.querySelectorAll("ol.board > li:not([hidden]) a")].filter(a => a.checkVisibility ? a.checkVisibility() : a.offsetParent);
    const now = here ? seen.indexOf(here.querySelector("a")) : -1;
    const to = step === "first" ? 0 : step === "last" ? seen.length - 1 : now + step;
    e.preventDefault();
    if (to < 0) search.focus(); else if (seen[to]) seen[to].focus();
  });
  // A browser that comes back to the page puts the choices back by itself.
  const again = () => { order(); apply(); };
  again();
  window.addEventListener("pageshow", again);
})();
