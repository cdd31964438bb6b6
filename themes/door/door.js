// A piece is kept on the phone until the studio's computer has it, and the
// phone's own pieces stay listed on it. Without this script the form is sent as
// any form.
"use strict";
(() => {
  const read = (name) => { try { return JSON.parse(localStorage.getItem(name)) || []; } catch { return []; } };
  const write = (name, list) => { try { localStorage.setItem(name, JSON.stringify(list)); return true; } catch { return false; } };
  const kept = document.getElementById("kept");
  const day = () => new Date().toLocaleDateString("sv");
  const own = (piece, coats) => {
    const list = read("own").filter((p) => p.piece !== piece);
    list.unshift({ piece, coats, day: day() });
    write("own", list.slice(0, 200));
  };
  const say = (text) => { kept.hidden = !text; kept.textContent = text; };
  const waiting = () => {
    const n = read("waiting").length;
    if (n) say(`${n === 1 ? "One piece is" : n + " pieces are"} kept on this phone, and sent when the network is back.`);
  };
  // One page of the door at a time sends what waits: the key makes a row that is
  // sent twice one row all the same.
  let sending = false;
  const flush = async () => {
    if (sending) return;
    sending = true;
    try {
      for (let list = read("waiting"); list.length; list = read("waiting")) {
        const row = list[0];
        const answer = await fetch("/log", { method: "POST", headers: { Accept: "application/json" }, body: new URLSearchParams(row.form) });
        const said = await answer.json().catch(() => ({}));
        if (!answer.ok && answer.status !== 422) { waiting(); return; } // later
        write("waiting", read("waiting").filter((r) => r.form.key !== row.form.key));
        if (answer.ok) {
          own(said.piece, row.coats);
          say(`Sent: ${row.coats} is piece ${said.piece}. Scratch or pencil ${said.piece} on its foot.`);
        } else say(`Not taken: ${row.coats}. ${(said.wrong || []).join(" ")}`);
      }
      list();
    } catch { waiting(); } finally { sending = false; }
  };
  const list = () => {
    const place = document.getElementById("own");
    if (!place) return;
    const all = read("own");
    place.hidden = !all.length;
    place.replaceChildren(...all.map((p) => {
      const li = document.createElement("li"), a = document.createElement("a");
      a.href = "/mine?piece=" + encodeURIComponent(p.piece);
      a.textContent = p.piece; a.className = "number";
      li.append(a, ` ${p.coats}, ${p.day}`);
      return li;
    }));
  };
  const form = document.getElementById("piece");
  if (form) {
    for (const name of ["maker", "clay"]) {
      try { if (!form.elements[name].value) form.elements[name].value = localStorage.getItem("last " + name) || ""; } catch { /* the phone keeps nothing */ }
    }
    form.addEventListener("submit", async (e) => {
      const row = { form: Object.fromEntries(new FormData(form)), coats: form.dataset.coats };
      for (const name of ["maker", "clay"]) { try { localStorage.setItem("last " + name, form.elements[name].value); } catch { /* as above */ } }
      if (!write("waiting", [...read("waiting"), row])) return; // sent as any form
      e.preventDefault();
      const button = form.querySelector("button");
      button.disabled = true;
      try {
        const answer = await fetch("/log", { method: "POST", headers: { Accept: "application/json" }, body: new URLSearchParams(row.form), signal: AbortSignal.timeout ? AbortSignal.timeout(30000) : undefined });
        const said = await answer.json();
        if (answer.ok) own(said.piece, row.coats);
        else if (answer.status !== 422 && answer.status !== 403) throw new Error();
        // The same key again is the same piece: the page that says so is the server's.
        write("waiting", read("waiting").filter((r) => r.form.key !== row.form.key));
        form.submit();
      } catch {
        waiting();
        form.hidden = true;
      }
    });
  }
  const saved = document.getElementById("saved");
  if (saved && saved.dataset.coats) own(saved.dataset.piece, saved.dataset.coats);
  list();
  waiting();
  addEventListener("online", flush);
  flush();
  setInterval(flush, 15000);
})();
