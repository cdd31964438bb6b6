// The part's sliders say what they ask for while they move.
"use strict";
(() => {
  const form = document.getElementById("part-form");
  if (!form) return;
  const says = document.getElementById("part-says");
  const known = new Map();
  let asked = "", going = false;
  const query = () => new URLSearchParams([...new FormData(form)].filter(([name]) => name !== "seen")).toString();
  const ask = async () => {
    if (going) return;
    going = true;
    while (!known.has(asked)) {
      const now = asked;
      try {
        const answer = await fetch("/plan/cost?" + now);
        known.set(now, answer.ok ? (await answer.json()).says : "This cannot be reckoned; keep it to see why.");
      } catch { known.set(now, "The bench does not answer."); }
    }
    going = false;
    says.textContent = known.get(asked);
  };
  form.addEventListener("input", () => {
    for (const name of ["glazes", "partners"]) document.getElementById(name + "-now").textContent = form.elements[name].value;
    asked = query();
    ask();
  });
})();
