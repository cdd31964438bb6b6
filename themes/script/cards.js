// A tile as a card: its whole photo, which glaze went first, and its words.

// order draws a tile's two coats in their measured colors, as the pages do.
twodip.order = i => {
  const w = twodip.columns(), one = w.second[i] < 0, whole = w.read[i] ? w.hex[i] : -1;
  const fill = { first: one ? whole : w.sides[2 * i], overlap: whole, second: w.sides[2 * i + 1] };
  const e = twodip.drawing(one ? 1 : 0).cloneNode(true);
  for (const band of e.querySelectorAll('.band')) if (fill[band.dataset.coat] >= 0) band.setAttribute('fill', twodip.hex(fill[band.dataset.coat]));
  return e;
};
// drawing is what every tile's drawing begins as: made once, then copied.
twodip.drawing = k => {
  const all = twodip.drawing.all ??= [];
  if (all[k]) return all[k];
  const d = twodip.columns().drawings[k];
  const draw = (name, attributes, ...inside) => {
    const e = document.createElementNS('http://www.w3.org/2000/svg', name);
    for (const [at, v] of Object.entries(attributes)) e.setAttribute(at, v);
    e.append(...inside);
    return e;
  };
  return all[k] = draw('svg', { class: 'order', viewBox: '0 0 ' + d.Wide + ' 38', 'aria-hidden': 'true' },
    ...d.Bands.map(b => draw('rect', { class: 'band ' + b.Class, 'data-coat': b.Class, x: b.X, y: b.Y, width: b.Width, height: b.Height })),
    ...d.Hatch.map(h => draw('path', { class: 'hatch', d: h })),
    draw('rect', { class: 'edge', x: d.Left, y: 1, width: 24, height: 36 }),
    ...d.Words.map(t => draw('text', { x: t.X, y: t.Y }, t.Text)));
};

// photo is a tile's photo, or why there is none; its place is kept before it
// comes.
twodip.photo = (i, small, more = {}) => {
  const w = twodip.columns(), src = w.photoOf(i, small), status = w.dict.status[w.status[i]];
  if (!src) return twodip.make('span', { class: 'no-photo' }, status === 'fired' ? 'no photo yet' : status + (w.load[i] ? ', load ' + w.load[i] : ''));
  const [width, height] = w.sizes[w.size[i]] || [3, 4];
  return twodip.make('img', { alt: '', width, height, ...more, src });
};

// shown is a tile as a card with a remark, and a button to shortlist it.
twodip.shown = (i, says, at) => {
  const w = twodip.columns(), make = twodip.make, photo = twodip.photo(i, true, at >= 12 ? { loading: 'lazy' } : {}), n = w.tile[i];
  return make('li', {},
    make('a', { class: 'shown-tile', href: w.page(i) }, make('span', { class: 'pictured' }, photo, twodip.order(i)),
      make('span', { class: 'number' }, String(n)), ' ', twodip.coats(i), ' ', make('span', { class: 'says' }, says), twodip.marks(i)),
    make('button', { class: 'pick', type: 'button', 'data-pick': n, 'aria-pressed': twodip.picks.all().includes(n) }, 'Shortlist', make('span', { class: 'sight' }, ' tile ' + n)));
};
