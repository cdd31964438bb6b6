// Photographs: dropped ones are sent one by one, and each is shown as it is
// read; on a photograph's own page its corners can be moved.
"use strict";
(() => {
  const list = document.getElementById("photos"), form = document.getElementById("bring");
  if (form) bring();
  if (document.getElementById("one")) corners();

  function bring() {
    const sent = document.getElementById("sent"), refused = document.getElementById("refused");
    const say = (text) => { sent.hidden = false; sent.textContent = text; };
    const waiting = [], ahead = 2, patience = 1500; // files; milliseconds
    let total = 0, begun = 0, done = 0, senders = 0, read;
    // The first ones are read before the rest is sent: sending would slow them.
    const firstRead = () => read ??= new Promise((go) => {
      document.addEventListener("photo", go, { once: true });
      setTimeout(go, patience);
    });
    const one = async () => {
      senders++;
      for (let file; (file = waiting.shift());) {
        if (begun++ >= ahead) await firstRead(); else firstRead();
        const data = new FormData();
        data.append("photo", file, file.name);
        try { await fetch("/photographs/bring", { method: "POST", body: data, redirect: "manual" }); } catch { fail(file.name); }
        say(`${++done} of ${total} sent`);
      }
      if (--senders === 0) ended();
    };
    const line = (text) => { const li = document.createElement("li"); li.textContent = text; refused.append(li); refused.hidden = false; };
    const fail = (name) => line(`${name}: could not be sent; send it again`);
    const ended = async () => {
      try { for (const text of await (await fetch("/photographs/refused")).json()) line(text); } catch { /* said on the next page */ }
      anew();
    };
    const send = (files) => {
      refused.replaceChildren();
      refused.hidden = true;
      waiting.push(...files);
      total += files.length;
      if (files.length) say(`${done} of ${total} sent`);
      while (senders < 2 && senders < waiting.length + senders && waiting.length) one();
    };
    form.addEventListener("submit", (e) => {
      const files = [...form.elements.photo.files];
      e.preventDefault();
      send(files);
      form.reset();
    });
    const within = async (entry) => {
      if (entry.isFile) return [await new Promise((ok, no) => entry.file(ok, no))];
      const reader = entry.createReader(), out = [];
      for (;;) {
        const some = await new Promise((ok, no) => reader.readEntries(ok, no));
        if (!some.length) return out;
        for (const e of some) out.push(...await within(e));
      }
    };
    document.addEventListener("dragover", (e) => { e.preventDefault(); form.classList.add("over"); });
    document.addEventListener("dragleave", (e) => { if (!e.relatedTarget) form.classList.remove("over"); });
    document.addEventListener("drop", async (e) => {
      e.preventDefault();
      form.classList.remove("over");
      const entries = [...e.dataTransfer.items].map((i) => i.webkitGetAsEntry && i.webkitGetAsEntry());
      const files = [...e.dataTransfer.files];
      if (entries.length && entries.every(Boolean)) send((await Promise.all(entries.map(within))).flat().filter((f) => !f.name.startsWith(".")));
      else send(files);
    });
    document.addEventListener("photo", (e) => show(e.detail));
    document.addEventListener("workdone", () => { if (!senders) anew(); });
    document.addEventListener("outdated", (e) => { e.preventDefault(); if (!senders) anew(); });
  }

  // One card at a time: the page must stay quick while photographs come in. Those
  // to look at stand first, then those that were just read, in their order, then
  // those that were here: nothing moves that is looked at.
  let showing = Promise.resolve(), fresh = 0;
  function show(read) {
    const doubted = read.problem || read.notes || (read.readings || []).some((r) => r.Warning), most = Number(list.dataset.most);
    if (read.unchanged || (!doubted && fresh >= most)) return; // the others have pages of their own
    showing = showing.then(async () => {
      try {
        const answer = await fetch("/photographs/card?photo=" + encodeURIComponent(read.photo));
        if (!answer.ok) return;
        const place = document.createElement("template");
        place.innerHTML = await answer.text();
        const card = place.content.firstElementChild;
        for (const old of list.children) if (old.dataset.photo === read.photo) { old.remove(); break; }
        fresh++;
        card.dataset.fresh = "";
        if (card.classList.contains("doubted")) list.prepend(card);
        else list.insertBefore(card, [...list.children].find((c) => !c.classList.contains("doubted") && !("fresh" in c.dataset)) || null);
        while (list.children.length > most) list.lastElementChild.remove();
      } catch { /* the page that follows shows it */ }
    });
  }

  // All cards as they are now. One that is the same stays where it is.
  function put(cards) {
    const was = new Map();
    fresh = 0;
    for (const card of list.children) { delete card.dataset.fresh; was.set(card.dataset.photo, card); }
    cards.forEach((card, i) => {
      const old = was.get(card.dataset.photo), same = old?.outerHTML === card.outerHTML ? old : card;
      if (list.children[i] !== same) list.insertBefore(same, list.children[i] || null);
      if (old !== same) old?.remove();
    });
    while (list.children.length > cards.length) list.lastElementChild.remove();
  }

  // The list as it is now, without leaving the page, so that no click that is on
  // its way is lost.
  function anew() {
    showing = showing.then(async () => {
      try {
        const page = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html");
        if (!page.getElementById("photos")) { location.reload(); return; } // it says what is wrong
        put([...page.querySelectorAll("#photos > li")]);
        for (const id of ["here", "more"]) {
          const old = document.getElementById(id), part = page.getElementById(id);
          if (old.innerHTML !== part.innerHTML) old.replaceChildren(...part.childNodes);
        }
        document.dispatchEvent(new CustomEvent("anew", { detail: page.body.dataset.reads }));
      } catch { /* the bench has ended */ }
    });
  }

  function corners() {
    const form = document.getElementById("one"), svg = document.getElementById("corners");
    let typed = false;
    form.addEventListener("input", () => { typed = true; });
    document.addEventListener("workdone", () => { if (!typed) location.reload(); });
    const how = document.getElementById("how");
    if (!how) return;
    how.hidden = false;
    const box = svg.viewBox.baseVal, ns = "http://www.w3.org/2000/svg", line = svg.querySelector("polygon");
    const field = (axis, n) => form.elements[axis + n];
    const at = (n) => ({ x: parseFloat(field("x", n).value) || 0, y: parseFloat(field("y", n).value) || 0 });
    const handles = [1, 2, 3, 4].map((n) => {
      const h = document.createElementNS(ns, "circle");
      h.setAttribute("r", Math.max(box.width, box.height) / 45);
      h.setAttribute("class", n === 1 ? "handle first" : "handle");
      h.setAttribute("tabindex", "0");
      h.setAttribute("role", "slider");
      svg.append(h);
      return h;
    });
    const draw = () => {
      line.setAttribute("points", [1, 2, 3, 4].map((n) => `${at(n).x},${at(n).y}`).join(" "));
      handles.forEach((h, i) => {
        const p = at(i + 1);
        h.setAttribute("cx", p.x);
        h.setAttribute("cy", p.y);
        const words = `${p.x}, ${p.y}`;
        h.setAttribute("aria-label", field("x", i + 1).getAttribute("aria-label").slice(5));
        h.setAttribute("aria-valuenow", p.x);
        h.setAttribute("aria-valuetext", words);
      });
    };
    const move = (n, x, y) => {
      field("x", n).value = Math.round(10 * Math.min(Math.max(x, 0), box.width)) / 10;
      field("y", n).value = Math.round(10 * Math.min(Math.max(y, 0), box.height)) / 10;
      form.elements.drawn.checked = true;
      form.dispatchEvent(new Event("input", { bubbles: true }));
      draw();
    };
    handles.forEach((h, i) => {
      h.addEventListener("pointerdown", (e) => { h.setPointerCapture(e.pointerId); e.preventDefault(); h.focus(); });
      h.addEventListener("pointermove", (e) => {
        if (!h.hasPointerCapture(e.pointerId)) return;
        const p = new DOMPoint(e.clientX, e.clientY).matrixTransform(svg.getScreenCTM().inverse());
        move(i + 1, p.x, p.y);
      });
      h.addEventListener("keydown", (e) => {
        const step = (e.shiftKey ? 10 : 1) * Math.max(1, box.width / 800);
        const by = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] }[e.key];
        if (!by) return;
        e.preventDefault();
        const p = at(i + 1);
        move(i + 1, p.x + by[0], p.y + by[1]);
      });
    });
    for (const input of form.querySelectorAll("[data-corner]")) input.addEventListener("input", () => { form.elements.drawn.checked = true; draw(); });
    draw();
  }
})();
