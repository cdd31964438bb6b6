// The glaze table: what is wrong is said as it is typed, rows are dragged and
// moved, cells are pasted, a file is dropped.
"use strict";
(() => {
  const form = document.getElementById("glazes");
  if (!form) return;
  const table = form.querySelector("table.glazes");
  const rows = () => [...table.tBodies];
  const field = (body, column) => body.querySelector(`input[name^="${column}."]`);
  const nameOf = (body) => field(body, "name").value.trim() || "this row";

  // What is wrong, from the bench itself; typing never waits for it.
  let waiting = 0, asked = 0;
  const check = () => {
    clearTimeout(waiting);
    waiting = setTimeout(async () => {
      const mine = ++asked;
      try {
        const answer = await fetch("/glazes/check", { method: "POST", body: new URLSearchParams(new FormData(form)) });
        if (answer.ok && mine === asked) show(await answer.json());
      } catch { /* the next letter asks again */ }
    }, 250);
  };
  const show = ({ wrong, codes }) => {
    const says = new Map(), whole = [];
    for (const w of wrong) {
      const body = w.row && table.querySelector(`tbody[data-row="${w.row}"]`);
      if (!body) { whole.push(w.says); continue; }
      const place = body.querySelector(`[data-column="${w.column}"]`) || body.querySelector('[data-column="name"]');
      says.set(place, says.has(place) ? says.get(place) + " " + w.says : w.says);
    }
    for (const place of table.querySelectorAll("[data-column]")) {
      const text = says.get(place) || "";
      if (place.textContent !== text) place.textContent = text;
      const input = place.parentElement.querySelector("input:not([type=checkbox]), select");
      if (input) text ? input.setAttribute("aria-invalid", "true") : input.removeAttribute("aria-invalid");
      if (text && place.closest("details")) place.closest("details").open = true;
    }
    const marked = document.getElementById("marked");
    marked.hidden = !says.size;
    marked.textContent = says.size ? `${says.size} ${says.size === 1 ? "place is" : "places are"} marked below. Nothing is saved until they are mended.` : "";
    document.getElementById("whole").replaceChildren();
    for (const [row, code] of Object.entries(codes)) {
      const body = table.querySelector(`tbody[data-row="${row}"]`);
      const input = body && field(body, "code");
      // A code is proposed once the name is done: when the person is elsewhere.
      if (input && !input.value && document.activeElement !== field(body, "name") && document.activeElement !== input) input.value = code;
    }
  };
  form.addEventListener("input", check);
  form.addEventListener("focusout", (e) => { if (e.target.name && e.target.name.startsWith("name.")) check(); });

  // Order, by hand and by keys.
  const number = () => {
    const all = rows();
    all.forEach((body, i) => {
      body.querySelector(".grip").textContent = i + 1;
      const up = body.querySelector(".up"), down = body.querySelector(".down");
      up.disabled = i === 0; down.disabled = i === all.length - 1;
      up.setAttribute("aria-label", `Move ${nameOf(body)} up`);
      down.setAttribute("aria-label", `Move ${nameOf(body)} down`);
    });
    form.dispatchEvent(new Event("input", { bubbles: true }));
  };
  table.addEventListener("click", (e) => {
    const button = e.target.closest(".up, .down");
    if (!button) return;
    e.preventDefault();
    const body = button.closest("tbody"), up = button.classList.contains("up");
    const other = up ? body.previousElementSibling : body.nextElementSibling;
    if (!other || other.tagName !== "TBODY") return;
    up ? other.before(body) : other.after(body);
    number();
    (button.disabled ? body.querySelector(up ? ".down" : ".up") : button).focus();
  });
  let dragged = null;
  const grips = () => { for (const g of table.querySelectorAll(".grip")) { g.draggable = true; g.title = "Drag to another place"; } };
  grips();
  table.addEventListener("dragstart", (e) => {
    dragged = e.target.classList && e.target.classList.contains("grip") ? e.target.closest("tbody") : null;
    if (dragged) { e.dataTransfer.effectAllowed = "move"; e.dataTransfer.setData("text/plain", nameOf(dragged)); dragged.classList.add("held"); }
  });
  table.addEventListener("dragover", (e) => {
    const over = dragged && e.target.closest("tbody");
    if (!over) return;
    e.preventDefault();
    if (over === dragged) return;
    const box = over.getBoundingClientRect();
    e.clientY < box.top + box.height / 2 ? over.before(dragged) : over.after(dragged);
  });
  table.addEventListener("drop", (e) => { if (dragged) e.preventDefault(); });
  table.addEventListener("dragend", () => { if (dragged) { dragged.classList.remove("held"); dragged = null; number(); } });

  // More rows, here.
  const addRow = () => {
    const last = table.tBodies[table.tBodies.length - 1], was = last.dataset.row;
    const next = String(Math.max(...rows().map((b) => Number(b.dataset.row))) + 1);
    const body = last.cloneNode(true);
    body.dataset.row = next;
    for (const e of body.querySelectorAll("*")) {
      for (const a of ["name", "id", "for", "aria-describedby"]) {
        const v = e.getAttribute(a);
        if (v) e.setAttribute(a, v.replace(new RegExp(`([.-])${was}$`), `$1${next}`));
      }
      if (e.matches("[data-column], .brief")) e.textContent = "";
      if (e.matches("input[type=checkbox]")) e.checked = false;
      else if (e.matches("input:not([type=hidden])")) e.value = "";
      if (e.matches("details")) e.open = false;
      if (e.matches("input[name=row], .up, .down")) e.value = next;
      if (e.matches('input[name^="of."]')) e.value = "-1";
      e.removeAttribute("aria-invalid");
    }
    body.querySelector("summary").firstChild.textContent = "More of this row ";
    last.after(body);
    return body;
  };
  document.getElementById("more").addEventListener("click", (e) => {
    e.preventDefault();
    const first = addRow();
    for (let i = 1; i < 7; i++) addRow();
    grips(); number();
    field(first, "name").focus();
  });

  // Enter goes down a row, as in a spreadsheet.
  const columns = (body) => [...body.rows[0].querySelectorAll("td > input:not([type=hidden])")];
  table.addEventListener("keydown", (e) => {
    if (e.key !== "Enter" || !e.target.matches("tr:first-child input")) return;
    e.preventDefault();
    const body = e.target.closest("tbody"), column = columns(body).indexOf(e.target);
    const next = body.nextElementSibling || (column >= 0 && addRow());
    if (!body.nextElementSibling) return;
    grips();
    if (next && column >= 0) columns(next)[column].focus();
  });

  // Cells pasted into the table go right and down from where they are pasted;
  // rows with headings, or into an empty table's name, are sorted by the bench.
  const put = (text) => {
    document.getElementById("pasted").value = text;
    document.getElementById("put").click();
  };
  table.addEventListener("paste", (e) => {
    const text = e.clipboardData.getData("text/plain").replace(/\r\n?/g, "\n").replace(/\n$/, "");
    if (!/[\n\t]/.test(text) || !e.target.matches("input")) return;
    e.preventDefault();
    let body = e.target.closest("tbody");
    const from = columns(body).indexOf(e.target);
    const empty = rows().every((b) => columns(b).every((i) => !i.value));
    if (text.includes('"') || empty || from < 0 || /(^|\t)(code|name)(\t|$)/i.test(text.split("\n")[0])) { put(text); return; }
    for (const line of text.split("\n")) {
      if (!body) { body = addRow(); grips(); }
      const inputs = columns(body);
      line.split("\t").forEach((cell, i) => { if (inputs[from + i]) inputs[from + i].value = cell; });
      body = body.nextElementSibling;
    }
    number();
  });

  // A file dropped on the page, or chosen, joins what is typed.
  const bring = async (file) => {
    const body = new FormData();
    body.append("file", file);
    const says = document.getElementById("w-file");
    says.textContent = `Reading ${file.name}`;
    try {
      const got = await (await fetch("/glazes/read", { method: "POST", body })).json();
      says.textContent = got.wrong || "";
      if (got.text) put(got.text);
    } catch { says.textContent = "The file could not be read. Save it as CSV and try again."; }
  };
  document.getElementById("bring").addEventListener("submit", (e) => {
    const file = document.getElementById("file").files[0];
    if (file) { e.preventDefault(); e.stopImmediatePropagation(); bring(file); }
  });
  addEventListener("dragover", (e) => { if (e.dataTransfer.types.includes("Files")) e.preventDefault(); });
  addEventListener("drop", (e) => {
    if (!e.dataTransfer.files.length) return;
    e.preventDefault();
    bring(e.dataTransfer.files[0]);
  });
})();
