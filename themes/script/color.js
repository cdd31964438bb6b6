'use strict';
// Color in the browser, step by step as the program itself reckons it, so
// that both give the same numbers. Lab is CIELAB, D50/2°.
twodip.color = (() => {
  const degree = Math.PI / 180, pow25to7 = 25 ** 7;

  const angle = (b, a) => { const h = Math.atan2(b, a); return h < 0 ? h + 2 * Math.PI : h; };
  const pow7 = v => { const v3 = v * v * v; return v3 * v3 * v; };

  // CIEDE2000, in the steps of Sharma, Wu and Dalal (2005), equations 2 to 22.
  // Hues within 1e-12 of opposite take the short way, as in the program.
  const de00 = (L1, A1, B1, L2, A2, B2) => {
    const c7 = pow7((Math.hypot(A1, B1) + Math.hypot(A2, B2)) / 2);
    const g = 1.5 - 0.5 * Math.sqrt(c7 / (c7 + pow25to7));
    const a1 = g * A1, a2 = g * A2, c1 = Math.hypot(a1, B1), c2 = Math.hypot(a2, B2);
    const h1 = angle(B1, a1), h2 = angle(B2, a2);
    let dh = 0, h = h1 + h2;
    if (c1 * c2 !== 0) {
      dh = h2 - h1;
      h = (h1 + h2) / 2;
      if (Math.abs(dh) > Math.PI + 1e-12) {
        h += h1 + h2 < 2 * Math.PI ? Math.PI : -Math.PI;
        dh += dh > 0 ? -2 * Math.PI : 2 * Math.PI;
      }
    }
    const l50 = ((L1 + L2) / 2 - 50) ** 2, c = (c1 + c2) / 2;
    const t = 1 - 0.17 * Math.cos(h - 30 * degree) + 0.24 * Math.cos(2 * h) +
      0.32 * Math.cos(3 * h + 6 * degree) - 0.20 * Math.cos(4 * h - 63 * degree);
    const sL = 1 + 0.015 * l50 / Math.sqrt(20 + l50), sC = 1 + 0.045 * c, sH = 1 + 0.015 * c * t;
    const b7 = pow7(c), bend = (h / degree - 275) / 25;
    const rT = -2 * Math.sqrt(b7 / (b7 + pow25to7)) * Math.sin(60 * degree * Math.exp(-bend * bend));
    const l = (L2 - L1) / sL, dc = (c2 - c1) / sC, dH = 2 * Math.sqrt(c1 * c2) * Math.sin(dh / 2) / sH;
    return Math.sqrt(Math.max(0, l * l + dc * dc + dH * dH + rT * dc * dH));
  };

  const linear = v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  const cube = t => t > 216 / 24389 ? Math.cbrt(t) : (24389 / 27 * t + 16) / 116;

  // lab takes linear light, 0–1, to Lab by the matrix of its space.
  const lab = (r, g, b, m, white) => {
    const x = cube((m[0] * r + m[1] * g + m[2] * b) / white[0]);
    const y = cube((m[3] * r + m[4] * g + m[5] * b) / white[1]);
    const z = cube((m[6] * r + m[7] * g + m[8] * b) / white[2]);
    return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
  };
  const fromHex = (hex, data) => {
    const n = parseInt(hex.length === 3 ? hex.replace(/./g, '$&$&') : hex, 16);
    return lab(linear((n >> 16) / 255), linear((n >> 8 & 255) / 255), linear((n & 255) / 255), data.srgb, data.white);
  };

  // parse reads what a person types: #5a7f91, lab(48 -8 -14) or 48 -8 -14.
  const parse = (text, data) => {
    const s = text.trim().toLowerCase().replace(/−/g, '-');
    const hex = /^#?([0-9a-f]{6})$|^#([0-9a-f]{3})$/.exec(s);
    if (hex) return fromHex(hex[1] || hex[2], data);
    const n = s.replace(/^lab\s*\(|\)$/g, '').split(/[\s,;/]+/).filter(Boolean).map(v => Number(v.replace('%', '')));
    return n.length === 3 && n.every(Number.isFinite) && n[0] >= 0 && n[0] <= 100 && Math.hypot(n[1], n[2]) <= 200 ? n : null;
  };

  // A list of colors, each with the number of its tile, sorted by L*, so that
  // a search may stop early.
  const sorted = (colors, owner) => {
    const order = Uint32Array.from(owner.keys()).sort((i, j) => colors[3 * i] - colors[3 * j]);
    const list = { n: order.length, L: new Float64Array(order.length), A: new Float64Array(order.length), B: new Float64Array(order.length), C: new Float64Array(order.length), owner: new Uint32Array(order.length) };
    order.forEach((from, to) => {
      list.L[to] = colors[3 * from];
      list.A[to] = colors[3 * from + 1];
      list.B[to] = colors[3 * from + 2];
      list.C[to] = Math.hypot(list.A[to], list.B[to]);
      list.owner[to] = owner[from];
    });
    return list;
  };

  // least is S_L at its largest: no pair of the same ΔL* is nearer than ΔL*/1.7471.
  const least = 1.7471, slope = 1 - Math.sin(60 * degree);

  // nearest gives the k nearest owners of a color, each once, nearest first:
  // [[owner, ΔE00], …]. Exact: it leaves out only what the lower bound
  // ΔE00² ≥ (ΔL/S_L)² + (1 − sin 60°)(Δa² + Δb²)/(1 + 0.03375 (C₁ + C₂))²
  // proves to be farther than the k-th best so far.
  const nearest = (list, target, k, allowed, prune = list.n > 10000) => {
    const [L, A, B] = target, C = Math.hypot(A, B), best = new Map();
    let worst = Infinity;
    const settle = () => {
      if (best.size < 2 * k + 16) return;
      const all = [...best].sort((p, q) => p[1] - q[1] || p[0] - q[0]);
      worst = all[k - 1][1];
      best.clear();
      for (const [o, d] of all) if (d <= worst) best.set(o, d);
    };
    const look = i => {
      const o = list.owner[i];
      if (allowed && !allowed[o]) return;
      if (prune && worst < Infinity) {
        const da = list.A[i] - A, db = list.B[i] - B, sC = 1 + 0.03375 * (C + list.C[i]);
        const l50 = ((L + list.L[i]) / 2 - 50) ** 2, dl = (list.L[i] - L) / (1 + 0.015 * l50 / Math.sqrt(20 + l50));
        if (dl * dl + slope * (da * da + db * db) / (sC * sC) > worst * worst) return;
      }
      const d = de00(L, A, B, list.L[i], list.A[i], list.B[i]);
      if (d > worst) return;
      const have = best.get(o);
      if (have === undefined || d < have) best.set(o, d);
      settle();
    };
    let up = 0, high = list.n;
    while (up < high) { const mid = (up + high) >> 1; if (list.L[mid] < L) up = mid + 1; else high = mid; }
    let down = up - 1;
    while (down >= 0 || up < list.n) {
      const below = down >= 0 ? L - list.L[down] : Infinity, above = up < list.n ? list.L[up] - L : Infinity;
      if (prune && Math.min(below, above) / least > worst) break;
      look(below <= above ? down-- : up++);
    }
    return [...best].sort((p, q) => p[1] - q[1] || p[0] - q[0]).slice(0, k);
  };

  return { de00, lab, linear, parse, sorted, nearest };
})();
