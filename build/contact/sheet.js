"use strict";
// Four clicks on a photo give the line for tiles/by-hand.csv.
function nearest(svg, corners) {
  // The tile whose number stands nearest to the middle of the corners.
  var x = 0, y = 0, least = Infinity, number = "";
  corners.forEach(function (c) { x += c.x / 4; y += c.y / 4; });
  svg.querySelectorAll("text").forEach(function (t) {
    var d = Math.hypot(t.getAttribute("x") - x, t.getAttribute("y") - y);
    if (d < least) { least = d; number = t.textContent; }
  });
  return number;
}
document.querySelectorAll("svg[data-photo]").forEach(function (svg) {
  var corners = [];
  var said = svg.closest("section").querySelector(".hand");
  svg.addEventListener("click", function (event) {
    var p = svg.createSVGPoint();
    p.x = event.clientX;
    p.y = event.clientY;
    p = p.matrixTransform(svg.getScreenCTM().inverse());
    if (corners.length === 4) corners = [];
    corners.push({ x: Math.round(p.x), y: Math.round(p.y) });
    var cell = function (s) { return /[",\n]/.test(s) ? '"' + s.replace(/"/g, '""') + '"' : s; };
    said.hidden = false;
    said.textContent = corners.length < 4
      ? corners.length + " of 4 corners"
      : [cell(svg.dataset.photo), nearest(svg, corners), corners.map(function (c) { return c.x + " " + c.y; }).join(" "), ""].join(",");
  });
});
