// What moves on every page of the bench: the long work, and files changed elsewhere.
"use strict";
(() => {
  const by = (id) => document.getElementById(id);
  // The files that the page shows, each as it was when the page was made.
  const stamps = (words) => new Map((words || "").split(" ").filter(Boolean).map((r) => r.split("@")));
  let reads = stamps(document.body.dataset.reads);
  let dirty = "typed" in document.body.dataset, sending = false;
  document.addEventListener("input", (e) => { if (e.target.closest("form[method=post]")) dirty = true; });
  document.addEventListener("submit", () => { sending = true; });
  for (const from of document.querySelectorAll("input[name=from]")) from.value = location.pathname + location.search;

  const said = (p, text) => { const e = document.createElement(p); e.textContent = text; return e; };
  const fill = (place, work) => {
    place.replaceChildren();
    if (work.Did) {
      for (const line of work.Did.Said) place.append(said("p", line));
      if (work.Did.Next) {
        const a = said("a", work.Did.Next.Text);
        a.className = "button"; a.href = work.Did.Next.Href;
        const p = document.createElement("p"); p.append(a); place.append(p);
      }
    }
    if (work.Wrong && work.Wrong.length) {
      const ul = document.createElement("ul"); ul.className = "wrong";
      for (const line of work.Wrong) ul.append(said("li", line));
      place.append(ul);
    }
  };
  let went = !by("work-stop").hidden;
  const showWork = (work) => {
    by("work").hidden = !work.Name;
    by("work-name").textContent = work.Name;
    by("work-at").textContent = work.Going ? (work.Ending ? "stopping after what is in hand" : work.Total ? `${work.What}: ${work.Done} of ${work.Total}` : "") : work.Name ? "done" : "";
    by("work-bar").hidden = by("work-stop").hidden = !work.Going;
    by("work-bar").max = work.Total || 1;
    by("work-bar").value = work.Done;
    fill(by("work-did"), work);
    if (went && !work.Going) document.dispatchEvent(new CustomEvent("workdone", { detail: work }));
    went = work.Going;
  };
  const changed = (files) => {
    const mine = files.filter((f) => reads.has(f.Name) && reads.get(f.Name) !== f.Stamp).map((f) => f.Name);
    if (!mine.length) return;
    if (!document.dispatchEvent(new CustomEvent("outdated", { cancelable: true })) || sending) return; // it sees to itself
    if (!dirty) { location.reload(); return; }
    const say = by("changed");
    say.hidden = false;
    say.replaceChildren(`${mine.join(", ")} was changed elsewhere. What you have typed here is not saved. `);
    const again = said("button", "Show it as it is now");
    again.type = "button";
    again.onclick = () => location.assign(document.body.dataset.here);
    say.append(again);
  };
  // A page that has shown itself anew in its place reads its files as they are now.
  document.addEventListener("anew", (e) => { reads = stamps(e.detail); dirty = sending = false; });
  const source = new EventSource("/news");
  source.addEventListener("work", (e) => showWork(JSON.parse(e.data)));
  source.addEventListener("changed", (e) => changed(JSON.parse(e.data)));
  source.addEventListener("photo", (e) => document.dispatchEvent(new CustomEvent("photo", { detail: JSON.parse(e.data) })));
  // A page that is left must not hold its line open: a browser has six.
  addEventListener("pagehide", () => source.close());
})();
