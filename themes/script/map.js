// A map of the wall in CIELAB: every tile at its place as its own small
// picture, cut from the wall's own sheets of thumbnails.
twodip.ready.push(() => {
  const canvas = twodip.byId('map');
  if (!canvas) return;
  const { byId } = twodip, w = twodip.columns(), pen = canvas.getContext('2d'), sheets = new Map();
  const all = [...w.tile.keys()].filter(i => w.read[i] && !w.repeat[i]).sort((i, j) => w.lab[3 * i] - w.lab[3 * j]);
  let wide, high, size, place = [], doubt, now = -1, ring = null, down = null, sought = null;

  // A sheet holds a dozen rows and columns, each cell a quarter higher than wide.
  const sheet = (row, column) => {
    const src = 'picture/wall-' + (Math.floor(row / 12) + 1) + '-' + (Math.floor(column / 12) + 1) + '.jpg';
    if (!sheets.has(src)) {
      const img = new Image();
      img.onload = draw;
      img.src = src;
      sheets.set(src, img);
    }
    const img = sheets.get(src);
    return img.complete && img.naturalWidth ? img : null;
  };

  // lay reckons where each tile stands: a* against b* at one scale, or hue
  // against lightness.
  const lay = () => {
    const scale = window.devicePixelRatio || 1;
    wide = canvas.clientWidth;
    high = canvas.clientHeight;
    canvas.width = wide * scale;
    canvas.height = high * scale;
    pen.setTransform(scale, 0, 0, scale, 0, 0);
    size = Math.max(14, Math.min(48, Math.sqrt(wide * high / (all.length || 1) / 5)));
    const ab = byId('map-view').value === 'ab';
    const point = ([L, A, B]) => ab ? [A, -B] : [(Math.atan2(B, A) / Math.PI * 180 + 360) % 360, -L];
    const points = all.map(i => point(w.labOf(i))), wanted = sought ? [point(sought.lab)] : [];
    const range = k => { const v = [...points, ...wanted].map(p => p[k]); return v.length ? [Math.min(...v), Math.max(...v)] : [0, 1]; };
    const [x0, x1] = ab ? range(0) : [0, 360], [y0, y1] = range(1), room = wide - 2 * size, tall = high - 2 * size;
    let sx = room / (x1 - x0 || 1), sy = tall / (y1 - y0 || 1);
    if (ab) sx = sy = Math.min(sx, sy);
    doubt = sy;
    const at = (x, y) => [wide / 2 + (x - (x0 + x1) / 2) * sx, high / 2 + (y - (y0 + y1) / 2) * sy];
    place = points.map(p => at(...p));
    place.origin = ab ? at(0, 0) : null;
    place.wanted = wanted.map(p => at(...p));
    draw();
  };

  const draw = () => {
    const style = getComputedStyle(canvas), ink = style.color;
    pen.clearRect(0, 0, wide, high);
    pen.strokeStyle = pen.fillStyle = ink;
    pen.font = '13px ' + style.fontFamily;
    pen.globalAlpha = 0.5;
    pen.lineWidth = 1;
    if (place.origin) {
      const [x, y] = place.origin;
      pen.beginPath();
      pen.moveTo(x, 0); pen.lineTo(x, high); pen.moveTo(0, y); pen.lineTo(wide, y);
      pen.stroke();
    }
    pen.globalAlpha = 1;
    for (const [text, x, y, align] of place.origin ? [['greener', 6, place.origin[1] - 5, 'left'], ['redder', wide - 6, place.origin[1] - 5, 'right'], ['yellower', place.origin[0] + 5, 15, 'left'], ['bluer', place.origin[0] + 5, high - 6, 'left']]
      : [['red', 6, high - 6, 'left'], ['yellow', wide / 4, high - 6, 'center'], ['green', wide / 2, high - 6, 'center'], ['blue', wide * 3 / 4, high - 6, 'center'], ['light', 6, 15, 'left']]) {
      pen.textAlign = align;
      pen.fillText(text, x, y);
    }
    all.forEach((i, k) => {
      const [x, y] = place[k], [row, column] = w.at(i), from = w.photo[i] && sheet(row, column);
      const side = from && from.naturalWidth / Math.min(12, w.glazes.code.length + w.alone - column + column % 12);
      if (from) pen.drawImage(from, column % 12 * side, row % 12 * side * 1.25, side, side, x - size / 2, y - size / 2, size, size);
      else { pen.fillStyle = twodip.hex(w.hex[i]); pen.fillRect(x - size / 2, y - size / 2, size, size); }
    });
    pen.globalAlpha = all.length > 400 ? 0.12 : 0.3;
    pen.strokeStyle = ink;
    all.forEach((i, k) => circle(...place[k], Math.max(size / 2, w.doubtOf(i) * doubt)));
    pen.globalAlpha = 1;
    pen.lineWidth = 3;
    if (now >= 0) pen.strokeRect(place[now][0] - size / 2 - 2, place[now][1] - size / 2 - 2, size + 4, size + 4);
    if (ring) circle(ring.x, ring.y, ring.r);
    pen.setLineDash([6, 4]);
    for (const p of place.wanted) circle(...p, Math.max(8, sought.doubt * doubt));
    pen.setLineDash([]);
  };
  const circle = (x, y, r) => { pen.beginPath(); pen.arc(x, y, r, 0, 2 * Math.PI); pen.stroke(); };

  const near = (x, y, most) => {
    let best = -1, least = most;
    place.forEach((p, k) => { const d = Math.hypot(p[0] - x, p[1] - y); if (d <= least) { least = d; best = k; } });
    return best;
  };
  const words = k => 'Tile ' + w.tile[all[k]] + ', ' + twodip.coats(all[k]).textContent + ', ' + w.dict.name[w.name[all[k]]] + ', ' + w.doubtWords(w.doubtOf(all[k])) + '.';
  const point = k => { if (k !== now) { now = k; if (k >= 0) byId('map-says').textContent = words(k); draw(); } };

  // find shows what lies in the ring.
  const find = () => {
    const inside = all.map((i, k) => [i, Math.hypot(place[k][0] - ring.x, place[k][1] - ring.y)]).filter(([, d]) => d <= ring.r).sort((p, q) => p[1] - q[1]).map(([i]) => i);
    const mean = [0, 1, 2].map(k => inside.reduce((s, i) => s + w.lab[3 * i + k], 0) / (inside.length || 1));
    byId('map-says').textContent = inside.length ? (inside.length === 1 ? '1 tile' : inside.length + ' tiles') + ' in the ring' + (inside.length > 24 ? '; here are the 24 nearest its middle.' : '.') : 'No tile is in the ring.';
    const unsure = inside.reduce((s, i) => s + w.doubtOf(i), 0) / (inside.length || 1); // a mean is known no better than what it is of
    list(inside.map(i => [i, w.dict.name[w.name[i]]]), mean.map(v => v.toFixed(1)).join(' ') + (unsure ? ' ± ' + unsure.toFixed(1) : ''));
  };
  const list = (found, near) => {
    byId('map-found').replaceChildren(...found.slice(0, 24).map(([i, says], at) => twodip.shown(i, says, at)));
    byId('map-ways').hidden = !found.length;
    byId('map-near').href = 'index.html#near=' + encodeURIComponent(near);
  };

  // seek shows the color that the address asks for, with its own doubt, and the
  // tiles that it may be.
  const seek = () => {
    const text = new URLSearchParams(location.hash.slice(1)).get('near') || '';
    sought = text ? w.target(text) : null;
    if (sought) {
      const allowed = new Uint8Array(w.n).fill(1), unsure = i => Math.hypot(w.doubtOf(i), sought.doubt);
      if (sought.not !== undefined) allowed[sought.not] = 0;
      const near = twodip.color.nearest(w.means(), sought.lab, w.n, allowed), open = near.filter(([i, d]) => d <= unsure(i)).length;
      byId('map-says').textContent = 'The dashed ring is the color you look for' + (sought.doubt ? ', ' + w.doubtWords(sought.doubt) : '') + '. ' + (open > 1 ? open + ' tiles' : open ? '1 tile' : 'No tile') + ' may be that color, as far as the photos tell. The nearest:';
      list(near.map(([i, d]) => [i, w.far(d, unsure(i))]), text);
    }
    if (wide) lay();
  };
  const open = k => { if (k >= 0) location.href = w.page(all[k]); };

  const spot = e => { const box = canvas.getBoundingClientRect(); return [e.clientX - box.left, e.clientY - box.top]; };
  canvas.addEventListener('pointerdown', e => { down = spot(e); });
  canvas.addEventListener('pointermove', e => {
    const [x, y] = spot(e);
    if (down && e.buttons) {
      const r = Math.hypot(x - down[0], y - down[1]);
      if (r > 8) { ring = { x: down[0], y: down[1], r }; draw(); }
    } else point(near(x, y, size));
  });
  canvas.addEventListener('pointerup', e => {
    if (!down) return;
    const [x, y] = spot(e), r = Math.hypot(x - down[0], y - down[1]);
    down = null;
    if (r > 8) find();
    else open(near(x, y, size));
  });
  canvas.addEventListener('pointercancel', () => { down = ring = null; draw(); });
  const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  canvas.addEventListener('keydown', e => {
    const way = ways[e.key];
    if (way && !e.altKey && !e.metaKey && !e.ctrlKey) {
      const [x, y] = now < 0 ? [wide / 2, high / 2] : place[now];
      let best = now, least = Infinity;
      place.forEach((p, k) => {
        const along = (p[0] - x) * way[0] + (p[1] - y) * way[1], off = Math.abs((p[0] - x) * way[1]) + Math.abs((p[1] - y) * way[0]);
        if (k !== now && along > 0.5 && off <= 2 * along && along + 2 * off < least) { least = along + 2 * off; best = k; }
      });
      point(best < 0 ? near(x, y, Infinity) : best);
    } else if (e.key === 'Enter') open(now);
    else if (now >= 0 && /^[+=-]$/.test(e.key)) {
      const r = ring && ring.x === place[now][0] ? ring.r : size;
      ring = { x: place[now][0], y: place[now][1], r: Math.max(size / 2, e.key === '-' ? r / 1.25 : r * 1.25) };
      draw();
      find();
    } else return;
    e.preventDefault();
  });
  byId('map-view').addEventListener('change', () => { ring = null; now = -1; lay(); });
  window.addEventListener('hashchange', seek);
  seek();
  new ResizeObserver(lay).observe(canvas);
});
