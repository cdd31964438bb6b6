// The studio's drawings follow what is typed, and what is wrong is said beside
// its field.
"use strict";
(() => {
  const form = document.getElementById("studio");
  if (!form) return;
  let waiting = 0, asked = 0;
  const show = ({ drawings, wrong, whole }) => {
    document.getElementById("drawings").innerHTML = drawings; // made by the bench's own template
    for (const place of form.querySelectorAll("[data-field]")) {
      const text = wrong[place.dataset.field] || "";
      if (place.textContent !== text) place.textContent = text;
      const field = form.elements[place.dataset.field];
      if (field && field.setAttribute) text ? field.setAttribute("aria-invalid", "true") : field.removeAttribute("aria-invalid");
    }
    document.getElementById("marked").hidden = !Object.keys(wrong).length;
    const list = document.createElement("ul");
    list.className = "wrong";
    for (const line of whole || []) { const li = document.createElement("li"); li.textContent = line; list.append(li); }
    document.getElementById("whole").replaceChildren(...(list.children.length ? [list] : []));
  };
  form.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(async () => {
      const mine = ++asked;
      try {
        const answer = await fetch("/studio/drawing", { method: "POST", body: new URLSearchParams(new FormData(form)) });
        if (answer.ok && mine === asked) show(await answer.json());
      } catch { /* the next letter asks again */ }
    }, 250);
  });
})();
