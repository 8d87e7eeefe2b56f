"use strict";
(() => {
  const read = id => { const e = document.getElementById(id); return e && JSON.parse(e.textContent); };
  const given = read("given"), say = read("words");
  if (!given) return;
  const photos = [...document.querySelectorAll(".pair")].filter(p => p.dataset.name && p.querySelector(".tools"));
  const published = photos.filter(p => "published" in p.dataset);
  const plan = photos.find(p => "plan" in p.dataset);

  // What was pointed at, by photo; what the spec says stays unless it was pointed at anew.
  const boxes = new Map(), cards = new Map();
  for (const [list, map] of [[given.boxes, boxes], [given.cards, cards]])
    for (const g of list) map.set(g.source || "=" + g.name, { name: g.name, at: corners(g.box) });
  const top = { marks: given.marks || [], resin: given.resin || [] };
  const changed = new Set();
  let order = published.map(p => p.dataset.name);
  function corners([l, t, r, b]) { return [[l, t], [r, b]]; }

  // Numbers as the spec has them: shares of the photo, three decimals.
  const share = v => String(Math.round(Math.min(1, Math.max(0, v)) * 1000) / 1000);
  const spot = p => "[" + p.map(share).join(", ") + "]";
  const boxOf = ([a, b]) => "[" + [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1])].map(share).join(", ") + "]";
  const byName = map => "{" + [...map.values()].map(v => v.name + ": " + boxOf(v.at)).join(", ") + "}";

  const panel = document.getElementById("lines");
  function tell() {
    const lines = { photos: [], outline: [] };
    if (changed.has("box")) lines.photos.push("crop_boxes: " + byName(boxes));
    if (changed.has("card")) lines.photos.push("grey_card: " + byName(cards));
    if (changed.has("order")) lines.photos.push("main: " + order[0], "order: [" + [...order, ...given.order || []].join(", ") + "]");
    if (changed.has("marks")) lines.outline.push("marks: [" + top.marks.map(spot).join(", ") + "]");
    if (changed.has("resin")) lines.outline.push("resin_at: [" + top.resin.map(spot).join(", ") + "]");
    for (const key of ["photos", "outline"]) {
      const part = panel.querySelector(`[data-for=${key}]`), block = given[key], text = lines[key];
      part.hidden = !text.length;
      const pad = " ".repeat(block.indent);
      const area = part.querySelector("textarea");
      if (block.braces) area.value = text.join(", ");
      else area.value = (block.line || key !== "photos" ? [] : ["photos:"]).concat(text.map(l => pad + l)).join("\n");
      area.rows = Math.min(8, Math.max(1, area.value.split("\n").length)) + 1;
      const there = text.map(l => l.slice(0, l.indexOf(":"))).filter(k => block.has.includes(k));
      part.querySelector("label").textContent = [
        !block.line && key === "photos" ? say["paste-new"] : say["paste-" + key + (block.braces ? "-braces" : "")].replace("#", block.line),
        there.length ? say["paste-instead"].replace("#", there.join(", ")) : "", say["paste-then"],
      ].filter(Boolean).join(" ");
      part.querySelector("button").textContent = say.copy;
    }
    panel.hidden = !lines.photos.length && !lines.outline.length;
  }
  for (const part of panel.querySelectorAll("[data-for]")) part.querySelector("button").addEventListener("click", async e => {
    const area = part.querySelector("textarea"), button = e.currentTarget;
    area.select();
    let done = false;
    try { done = document.execCommand("copy"); } catch { /* the other way is tried */ }
    if (!done) try { await navigator.clipboard.writeText(area.value); done = true; } catch { /* the text is marked, for the keys */ }
    if (done) button.textContent = say.copied;
  });

  // The four ways of pointing: where what is pointed at is kept, and what it may be.
  const kinds = {
    box: { key: "box", least: 2, most: 2, get: p => (boxes.get(p.dataset.source) || {}).at, set: (p, at) => put(boxes, p, at), start: framed },
    card: { key: "card", least: 2, most: 2, get: p => (cards.get(p.dataset.source) || {}).at, set: (p, at) => put(cards, p, at), start: () => [[0.45, 0.45], [0.55, 0.55]] },
    marks: { key: "marks", least: 4, most: 4, get: () => top.marks.length === 4 ? top.marks : null, set: (p, at) => { top.marks = at || []; }, start: () => [[0.4, 0.4], [0.6, 0.4], [0.6, 0.6], [0.4, 0.6]] },
    resin: { key: "resin", least: 0, most: 100, get: () => top.resin.length ? top.resin : null, set: (p, at) => { top.resin = at || []; }, start: () => [] },
  };
  function put(map, p, at) {
    if (at) map.set(p.dataset.source, { name: (map.get(p.dataset.source) || {}).name || p.dataset.name, at });
    else map.delete(p.dataset.source);
  }
  function framed(p) {
    const f = (p.dataset.framed || "0.1 0.1 0.9 0.9").split(" ").map(Number);
    const whole = f[0] < 0.02 && f[1] < 0.02 && f[2] > 0.98 && f[3] > 0.98;
    return whole ? [[0.1, 0.1], [0.9, 0.9]] : corners(f.map(v => Math.min(1, Math.max(0, v))));
  }

  let stop = null;
  function begin(photo, name) {
    if (stop) stop();
    const kind = kinds[name], frame = photo.querySelector(".spot"), image = frame.querySelector("img");
    const over = document.createElement("div"), help = photo.querySelector(".help"), tools = photo.querySelector(".tools");
    let at = (kind.get(photo) || kind.start(photo)).map(p => [...p]);
    const isBox = kind.most === 2;
    over.className = "over" + (kind.get(photo) || name === "resin" ? "" : " unset");
    over.innerHTML = '<svg viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true"><path class="edge" vector-effect="non-scaling-stroke"/><path class="core" vector-effect="non-scaling-stroke"/></svg>';
    const handles = [];
    const draw = () => {
      const ring = isBox ? [at[0], [at[1][0], at[0][1]], at[1], [at[0][0], at[1][1]]] : at;
      const path = name === "resin" ? "" : "M" + ring.map(p => p.join(" ")).join("L") + "z";
      for (const e of over.querySelectorAll("path")) e.setAttribute("d", path);
      while (handles.length > at.length) handles.pop().remove();
      at.forEach((p, i) => {
        if (!handles[i]) {
          const h = handles[i] = document.createElement("button");
          h.type = "button";
          h.setAttribute("aria-label", name === "resin" ? say.spot + " " + (i + 1) : say["corner-" + (isBox ? [1, 3][i] : i + 1)]);
          over.append(h);
        }
        handles[i].style.left = 100 * p[0] + "%";
        handles[i].style.top = 100 * p[1] + "%";
      });
    };
    const keep = () => {
      over.classList.remove("unset");
      changed.add(kind.key);
      kind.set(photo, at.length ? at.map(p => [...p]) : null);
      draw();
      tell();
    };
    const where = e => {
      const r = over.getBoundingClientRect();
      return [(e.clientX - r.left) / r.width, (e.clientY - r.top) / r.height].map(v => Math.min(1, Math.max(0, v)));
    };
    let held = -1, started = null;
    over.addEventListener("pointerdown", e => {
      if (e.button) return;
      e.preventDefault();
      over.setPointerCapture(e.pointerId);
      held = handles.indexOf(e.target);
      const p = where(e);
      if (held >= 0) handles[held].focus();
      else if (isBox) started = p;
      else if (name === "resin" && at.length < kind.most) { at.push(p); held = at.length - 1; keep(); handles[held].focus(); }
      else if (name === "marks") {
        held = at.reduce((best, q, i) => Math.hypot(q[0] - p[0], q[1] - p[1]) < Math.hypot(at[best][0] - p[0], at[best][1] - p[1]) ? i : best, 0);
        at[held] = p;
        keep();
        handles[held].focus();
      }
    });
    over.addEventListener("pointermove", e => {
      const p = where(e);
      if (held >= 0) { at[held] = p; keep(); }
      else if (started && Math.hypot(p[0] - started[0], p[1] - started[1]) > 0.01) { at = [started, p]; keep(); }
    });
    const up = () => { held = -1; started = null; if (isBox && changed.has(kind.key) && kind.get(photo)) { sort(); draw(); } };
    const sort = () => { at = [[Math.min(at[0][0], at[1][0]), Math.min(at[0][1], at[1][1])], [Math.max(at[0][0], at[1][0]), Math.max(at[0][1], at[1][1])]]; };
    over.addEventListener("pointerup", up);
    over.addEventListener("pointercancel", up);
    over.addEventListener("keydown", e => {
      const i = handles.indexOf(e.target);
      if (e.key === "Escape") { e.preventDefault(); stop(); return; }
      if (i < 0) return;
      if ((e.key === "Delete" || e.key === "Backspace") && name === "resin") {
        e.preventDefault();
        at.splice(i, 1);
        handles.splice(i, 1)[0].remove();
        keep();
        (handles[Math.min(i, handles.length - 1)] || tools.querySelector("button")).focus();
        return;
      }
      const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[e.key];
      if (!step) return;
      e.preventDefault();
      const by = e.shiftKey ? 0.02 : 0.002;
      at[i] = at[i].map((v, k) => Math.min(1, Math.max(0, v + by * step[k])));
      if (isBox) for (const k of [0, 1]) { // a corner stops at the other one
        if (i === 0) at[0][k] = Math.min(at[0][k], at[1][k] - 0.01); else at[1][k] = Math.max(at[1][k], at[0][k] + 0.01);
      }
      keep();
    });
    photo.classList.add("pointing");
    photo.style.setProperty("--shape", image.naturalWidth / image.naturalHeight || 1.5);
    frame.append(over);
    help.textContent = say["help-" + name];
    help.hidden = false;
    const buttons = [button(say.done, () => stop())];
    if (name === "resin") buttons.unshift(button(say["add-spot"], () => { at.push([0.5, 0.5]); keep(); handles[at.length - 1].focus(); }));
    buttons.push(button(say.undo, () => { changed.add(kind.key); kind.set(photo, null); tell(); stop(); }));
    tools.replaceChildren(...buttons);
    draw();
    stop = () => {
      stop = null;
      over.remove();
      photo.classList.remove("pointing");
      help.hidden = true;
      offer(photo);
      const b = [...tools.querySelectorAll("button")].find(b => b.dataset.do === name);
      if (b) b.focus();
    };
    photo.scrollIntoView({ block: "start" });
    (handles[0] || tools.querySelector("button")).focus({ preventScroll: true });
  }
  function button(text, act) {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = text;
    b.addEventListener("click", act);
    return b;
  }
  // offer shows what may be pointed at in a photo.
  function offer(photo) {
    const tools = photo.querySelector(".tools");
    const ways = [...("published" in photo.dataset ? ["box", "card"] : []), ...(photo === plan ? ["marks", "resin"] : [])];
    tools.replaceChildren(...ways.map(w => {
      const b = button(say["point-" + w], () => begin(photo, w));
      b.dataset.do = w;
      return b;
    }));
    tools.hidden = false;
  }
  photos.forEach(offer);

  // The order of the photos, by dragging or by buttons.
  const box = document.getElementById("order");
  if (box && published.length > 1) {
    const list = box.querySelector("ol");
    box.hidden = false;
    const items = published.map(p => {
      const li = document.createElement("li"), img = document.createElement("img"), name = document.createElement("span"), main = document.createElement("small");
      li.draggable = true;
      li.dataset.name = p.dataset.name;
      img.src = p.querySelector(".after").getAttribute("src");
      img.alt = "";
      img.draggable = false;
      name.textContent = p.dataset.source;
      main.textContent = say.main;
      const move = by => {
        const all = [...list.children], to = all.indexOf(li) + by;
        if (to < 0 || to >= all.length) return;
        list.insertBefore(li, by < 0 ? all[to] : all[to].nextSibling);
        renew();
        const b = li.querySelectorAll("button")[by < 0 ? 0 : 1];
        (b.disabled ? li.querySelectorAll("button")[by < 0 ? 1 : 0] : b).focus();
      };
      const earlier = button(say.earlier, () => move(-1)), later = button(say.later, () => move(1));
      earlier.setAttribute("aria-label", say.earlier + ": " + p.dataset.source);
      later.setAttribute("aria-label", say.later + ": " + p.dataset.source);
      li.append(img, name, main, earlier, later);
      return li;
    });
    list.append(...items);
    let dragged = null;
    const clear = () => { for (const li of list.children) li.classList.remove("held", "here"); };
    list.addEventListener("dragstart", e => {
      dragged = e.target.closest("li");
      e.dataTransfer.effectAllowed = "move";
      e.dataTransfer.setData("text/plain", dragged.dataset.name);
      dragged.classList.add("held");
    });
    list.addEventListener("dragover", e => {
      if (!dragged) return;
      e.preventDefault();
      const over = e.target.closest("li");
      for (const li of list.children) li.classList.toggle("here", li === over && li !== dragged);
    });
    list.addEventListener("drop", e => {
      e.preventDefault();
      const over = e.target.closest("li");
      if (dragged && over && over !== dragged) {
        const all = [...list.children];
        list.insertBefore(dragged, all.indexOf(dragged) < all.indexOf(over) ? over.nextSibling : over);
        renew();
      }
    });
    list.addEventListener("dragend", () => { dragged = null; clear(); });
    const show = () => [...list.children].forEach((li, i, all) => {
      li.querySelector("small").hidden = i > 0;
      const [earlier, later] = li.querySelectorAll("button");
      earlier.disabled = i === 0;
      later.disabled = i === all.length - 1;
    });
    const renew = () => {
      order = [...list.children].map(li => li.dataset.name);
      changed.add("order");
      show();
      tell();
    };
    show();
  }
})();
