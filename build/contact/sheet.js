"use strict";
// Four clicks on a photo give the line for tiles/by-hand.csv.
document.querySelectorAll("svg[data-photo]").forEach(function (svg) {
  var corners = [];
  var said = svg.closest("section").querySelector(".hand");
  svg.addEventListener("click", function (event) {
    var p = svg.createSVGPoint();
    p.x = event.clientX;
    p.y = event.clientY;
    p = p.matrixTransform(svg.getScreenCTM().inverse());
    if (corners.length === 4) corners = [];
    corners.push(Math.round(p.x) + " " + Math.round(p.y));
    var number = svg.querySelectorAll("text").length === 1 ? svg.querySelector("text").textContent : "";
    var cell = function (s) { return /[",\n]/.test(s) ? '"' + s.replace(/"/g, '""') + '"' : s; };
    said.hidden = false;
    said.textContent = corners.length < 4
      ? corners.length + " of 4 corners"
      : [cell(svg.dataset.photo), number, corners.join(" "), ""].join(",");
  });
});
