// What moves on the records' pages: a bucket's chart while its gravity is typed,
// and tiles tapped on a shelf's drawing.
"use strict";
(() => {
  const mix = document.getElementById("mix");
  if (mix) {
    let asked = 0;
    const draw = async () => {
      const mine = ++asked, place = document.getElementById("gravity");
      const about = new URLSearchParams({ glaze: mix.glaze.value, sg: mix.sg.value });
      const answer = await fetch("/records/gravity?" + about);
      const text = answer.ok ? await answer.text() : "";
      if (mine !== asked) return;
      const svg = text ? new DOMParser().parseFromString(text, "image/svg+xml").documentElement : null;
      place.hidden = !svg || svg.nodeName !== "svg";
      place.replaceChildren(...(place.hidden ? [] : [document.importNode(svg, true)]));
    };
    let waits = 0;
    mix.sg.addEventListener("input", () => { clearTimeout(waits); waits = setTimeout(draw, 150); });
    mix.glaze.addEventListener("change", () => { document.getElementById("target").textContent = ""; draw(); });
  }
  const unload = document.getElementById("unload");
  if (unload) {
    const order = ["not", "well", "ran", "broken"];
    const set = (select, came) => {
      select.value = came;
      const tile = unload.querySelector(`[data-tile="${select.name.slice(4)}"]`);
      if (tile) tile.dataset.came = came;
    };
    unload.addEventListener("click", (e) => {
      const tile = e.target.closest(".out-tile");
      if (!tile) return;
      const select = unload.elements["tile" + tile.dataset.tile];
      set(select, order[(order.indexOf(select.value) + 1) % order.length]);
      select.dispatchEvent(new Event("input", { bubbles: true }));
    });
    unload.addEventListener("change", (e) => { if (e.target.name.startsWith("tile")) set(e.target, e.target.value); });
    const all = document.getElementById("all-well");
    all.hidden = false;
    all.addEventListener("click", () => {
      for (const select of unload.querySelectorAll("select")) if (select.value === "not") set(select, "well");
    });
  }
})();
