// Sheets that were still being drawn are looked at again; made ones are shown.
"use strict";
(() => {
  let touched = false;
  document.addEventListener("change", () => { touched = true; });
  const again = () => { if (!touched) location.reload(); };
  if (document.getElementById("drawing")) setTimeout(again, 700);
  document.addEventListener("workdone", again);
})();
