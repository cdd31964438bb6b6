// A QR code of a short text, for the address of what is shown: ISO/IEC
// 18004:2015, bytes, versions 1 to 10, error correction M. It gives rows of
// 0 and 1, or null where the text is too long.
twodip.qr = text => {
  const bytes = [...new TextEncoder().encode(text)];
  // Table 7 (codewords of a version) and table 9 (of them for correction in a block; blocks), level M.
  const total = [26, 44, 70, 100, 134, 172, 196, 242, 292, 346], ec = [10, 16, 26, 18, 24, 16, 18, 22, 22, 26], blocks = [1, 1, 1, 2, 2, 4, 4, 4, 5, 5];
  const head = v => v > 9 ? 20 : 12; // bits: what it is (4) and how long (8, from version 10 on 16), 7.4.1
  const v = 1 + total.findIndex((t, k) => 8 * (t - ec[k] * blocks[k]) >= head(k + 1) + 8 * bytes.length);
  if (!v) return null;
  const room = total[v - 1] - ec[v - 1] * blocks[v - 1], size = 17 + 4 * v;

  // 7.4.5, 7.4.10: the bits, a terminator, and what fills the rest up.
  let bits = '0100' + bytes.length.toString(2).padStart(head(v) - 4, 0) + bytes.map(b => b.toString(2).padStart(8, 0)).join('');
  bits += '0'.repeat(Math.min(4, 8 * room - bits.length));
  bits = bits.padEnd(8 * Math.ceil(bits.length / 8), 0);
  const words = bits.match(/.{8}/g).map(b => parseInt(b, 2));
  for (let k = 0; words.length < room; k++) words.push(k % 2 ? 17 : 236);

  // 7.5: Reed–Solomon over GF(256), x⁸ + x⁴ + x³ + x² + 1; blocks interleaved.
  const times = (a, b) => { let p = 0; for (; b; b >>= 1) { if (b & 1) p ^= a; a = a << 1 ^ (a > 127 ? 285 : 0); } return p; };
  let by = [1];
  for (let k = 0, root = 1; k < ec[v - 1]; k++, root = times(root, 2)) by = [...by, 0].map((c, j) => c ^ (j ? times(by[j - 1], root) : 0));
  const rest = data => data.reduce((r, d) => { const f = d ^ r[0]; return [...r.slice(1), 0].map((c, j) => c ^ times(by[j + 1], f)); }, Array(ec[v - 1]).fill(0));
  const n = blocks[v - 1], least = Math.floor(room / n), cut = Array.from({ length: n }, (_, k) => words.splice(0, least + (k >= n - room % n ? 1 : 0)));
  const weave = of => Array.from({ length: Math.max(...of.map(b => b.length)) }, (_, k) => of.filter(b => k < b.length).map(b => b[k])).flat();
  const stream = [...weave(cut), ...weave(cut.map(rest))].map(w => w.toString(2).padStart(8, 0)).join('');

  // 6.3: what stands in every code. set[y][x] is undefined where data goes.
  const set = Array.from({ length: size }, () => Array(size));
  const square = (x, y, r, dark) => { for (let j = -r; j <= r; j++) for (let i = -r; i <= r; i++) if (set[y + j] && x + i >= 0 && x + i < size) set[y + j][x + i] = dark(Math.max(Math.abs(i), Math.abs(j))); };
  for (let k = 0; k < size; k++) set[6][k] = set[k][6] = +!(k & 1);
  for (const [x, y] of [[3, 3], [size - 4, 3], [3, size - 4]]) square(x, y, 4, d => +(d !== 2 && d < 4));
  const at = v < 2 ? [] : v < 7 ? [6, size - 7] : [6, (size - 1) / 2, size - 7]; // annex E, as far as version 10
  for (const x of at) for (const y of at) if (x + y > 12 && (x === y || x + y !== size - 1)) square(x, y, 2, d => +(d !== 1)); // not where a finder stands
  const coded = (value, poly, length) => { let r = value << length; for (let k = 17; k >= length; k--) if (r >> k & 1) r ^= poly << k - length; return value << length | r; };
  const format = mask => { // 7.9.1; level M is 00
    const f = coded(mask, 0x537, 10) ^ 0x5412, bit = k => f >> k & 1;
    for (let k = 0; k < 6; k++) { set[k][8] = bit(k); set[8][k] = bit(14 - k); }
    set[7][8] = bit(6); set[8][8] = bit(7); set[8][7] = bit(8);
    for (let k = 0; k < 8; k++) set[8][size - 1 - k] = bit(k);
    for (let k = 8; k < 15; k++) set[size - 15 + k][8] = bit(k);
    set[size - 8][8] = 1;
  };
  format(0);
  if (v > 6) for (let k = 0, f = coded(v, 0x1f25, 12); k < 18; k++) set[Math.floor(k / 3)][size - 11 + k % 3] = set[size - 11 + k % 3][Math.floor(k / 3)] = f >> k & 1; // 7.10

  // 7.7.3, 7.8: the data upwards and downwards in pairs of columns, masked; of
  // the masks the one with the fewest like neighbors (of the rules in 7.8.3).
  const masks = [(x, y) => (x + y) % 2, (x, y) => y % 2, x => x % 3, (x, y) => (x + y) % 3, (x, y) => (Math.floor(y / 2) + Math.floor(x / 3)) % 2,
    (x, y) => x * y % 2 + x * y % 3, (x, y) => (x * y % 2 + x * y % 3) % 2, (x, y) => ((x + y) % 2 + x * y % 3) % 2];
  let best, like = Infinity;
  masks.forEach((mask, m) => {
    format(m);
    const code = set.map(row => row.slice());
    let k = 0;
    for (let right = size - 1, up = true; right > 0; right -= right === 8 ? 3 : 2, up = !up) for (let j = 0; j < size; j++) for (const x of [right, right - 1]) {
      const y = up ? size - 1 - j : j;
      if (set[y][x] === undefined) code[y][x] = +(stream[k++] || 0) ^ !mask(x, y);
    }
    let same = 0;
    code.forEach((row, y) => row.forEach((d, x) => { same += (row[x + 1] === d) + (!!code[y + 1] && code[y + 1][x] === d); }));
    if (same < like) { like = same; best = code; }
  });
  return best;
};

// codeOf draws a QR code with its quiet zone, black on white.
twodip.codeOf = text => {
  const code = twodip.qr(text);
  if (!code) return null;
  const ns = 'http://www.w3.org/2000/svg', svg = document.createElementNS(ns, 'svg'), path = document.createElementNS(ns, 'path');
  path.setAttribute('d', code.map((row, y) => row.map((d, x) => d ? 'M' + (x + 4) + ' ' + (y + 4) + 'h1v1h-1z' : '').join('')).join(''));
  svg.setAttribute('class', 'qr');
  svg.setAttribute('viewBox', '0 0 ' + (code.length + 8) + ' ' + (code.length + 8));
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', 'QR code of ' + text);
  svg.append(path);
  return svg;
};

// addressOf is where others find a page of this site: where it is served, or
// where its wall is published.
twodip.addressOf = page => {
  const published = twodip.columns().address;
  if (/^http/.test(location.protocol)) return new URL(twodip.root + page, location.href).href;
  return published ? published.replace(/\/*$/, '/') + page : '';
};
