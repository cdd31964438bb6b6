// Prints, as CSV, what colorjs.io makes of sRGB colors: r,g,b (8 bit), then
// L*, a*, b* (D50) and the ΔE00 to the color before it. A folder that holds
// node_modules/colorjs.io is the first argument, steps along each axis the
// second. How colorjs.csv was made (colorjs.io 0.7.1, MIT):
//
//   npm install --prefix FOLDER colorjs.io@0.7.1
//   node testdata/colorjs.mjs FOLDER 6 > testdata/colorjs.csv
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const [folder, steps] = process.argv.slice(2);
const require = createRequire(folder + "/");
const module = await import(pathToFileURL(require.resolve("colorjs.io")));
const Color = module.default.default ?? module.default;

const axis = Array.from({ length: +steps }, (_, i) => Math.round((255 * i) / (steps - 1)));
let before = new Color("srgb", [0, 0, 0]).to("lab");
const lines = ["r,g,b,l,a,b,from_before"];
for (const r of axis)
  for (const g of axis)
    for (const b of axis) {
      const lab = new Color("srgb", [r / 255, g / 255, b / 255]).to("lab");
      lines.push([r, g, b, ...lab.coords, lab.deltaE2000(before)].join(","));
      before = lab;
    }
console.log(lines.join("\n"));
