// The wall's data as the scripts use it: see data/columns.js.
twodip.columns = () => {
  if (twodip.wall) return twodip.wall;
  const d = twodip.data, n = d.tile.length;
  const all = values => Float64Array.from(values, v => v / 100);
  const w = { ...d, n, lab: all(d.lab), parts: d.parts ? all(d.parts) : null, row: new Map(d.tile.map((t, i) => [t, i])), pair: new Map() };
  for (let i = 0; i < n; i++) if (!d.repeat[i]) w.pair.set(d.first[i] + '>' + d.second[i], i);
  w.labOf = i => [w.lab[3 * i], w.lab[3 * i + 1], w.lab[3 * i + 2]];
  w.doubtOf = i => d.doubt[i] / 10;
  w.other = i => d.second[i] < 0 || d.first[i] === d.second[i] ? undefined : w.pair.get(d.second[i] + '>' + d.first[i]);
  w.page = i => twodip.root + 'tile/' + d.tile[i] + '.html';
  w.photoOf = (i, small) => d.photo[i] ? twodip.root + 'picture/' + d.tile[i] + (small ? '-small.jpg' : '.jpg') : '';

  // placeOf says where a tile hangs; at gives its row and column from 0.
  w.at = i => [w.first[i], w.second[i] < 0 ? (w.alone ? 0 : w.first[i]) : w.second[i] + w.alone];
  w.placeOf = i => 'row ' + (w.at(i)[0] + 1) + ', column ' + (w.at(i)[1] + 1);

  // readyAt says that both buckets can be dipped in today.
  const ready = d.glazes.state.map(s => s === 'ready' || s === 'low');
  w.readyAt = i => ready[w.first[i]] && (w.second[i] < 0 || ready[w.second[i]]);

  // What may be searched by color: each tile's mean, or its two parts.
  const measured = [...d.read.keys()].filter(i => d.read[i]);
  w.means = () => w._means ??= twodip.color.sorted(measured.flatMap(w.labOf), measured);
  w.eithers = () => w._eithers ??= w.parts
    ? twodip.color.sorted(measured.flatMap(i => [...w.parts.subarray(6 * i, 6 * i + 6)]), measured.flatMap(i => [i, i]))
    : w.means();

  // target reads the color that is looked for, and how surely it is known: a
  // color as typed, one from a photo with its ±, or another tile's.
  w.target = text => {
    const tile = /^\s*tile\s*(\d+)\s*$/i.exec(text);
    if (!tile) {
      const [bare, doubt] = text.split(/\s*±\s*/), lab = twodip.color.parse(bare, w);
      return lab && { lab, doubt: Math.max(0, Number(doubt) || 0) };
    }
    const i = w.row.get(Number(tile[1]));
    return i !== undefined && w.read[i] ? { lab: w.labOf(i), doubt: w.doubtOf(i), not: i } : null;
  };

  // doubtWords says a doubt as the pages do.
  w.doubtWords = doubt => '±\u00a0' + (doubt <= 0 ? 'not known' : doubt < 1 ? doubt.toFixed(1) : Math.ceil(doubt - 0.05));

  // far says a distance in numbers and in words tied to the doubt.
  w.far = (distance, doubt, ...tiles) => 'ΔE00 ' + distance.toFixed(1) + ', ' + (distance <= doubt ? (distance < d.openAbove ? d.same : d.open) : d.bands.find(b => distance < b.under).words) + (tiles.some(i => d.mottle[i]) ? d.means : '');
  return twodip.wall = w;
};

// coats says a tile's pair, always with the arrow.
twodip.coats = i => {
  const w = twodip.columns(), make = twodip.make;
  const e = make('span', { class: 'coats' }, make('span', { class: 'nth' }, '1st'), ' ', make('bdi', {}, w.glazes.name[w.first[i]]));
  if (w.second[i] < 0) e.append(' alone');
  else {
    e.append(' ', make('span', { class: 'arrow' }, '→'), ' ', make('span', { class: 'nth' }, '2nd'), ' ', make('bdi', {}, w.glazes.name[w.second[i]]));
    if (w.first[i] === w.second[i]) e.append(' again');
  }
  return e;
};

// marksOf says a tile's cautions in a word or two each; all of them with the
// long ones, which stand where there is room: side by side and on paper.
twodip.marksOf = (i, all) => {
  const w = twodip.columns();
  return w.dict.marks.filter((m, k) => w.marks[i] >> k & 1 && (all || !m.long)).map(m => m.says);
};
// marks shows them.
twodip.marks = (i, all) => {
  const e = twodip.make('span', { class: 'marks' });
  for (const says of twodip.marksOf(i, all)) e.append(' ', twodip.make('span', { class: 'mark' }, says));
  return e;
};

// swatch is a flat area of a color; a dashed edge says camera only.
twodip.swatch = (hex, edge) => {
  const e = twodip.make('span', { class: 'swatch ' + edge, 'aria-hidden': 'true' });
  e.style.background = hex;
  return e;
};
twodip.hex = number => '#' + number.toString(16).padStart(6, '0');
twodip.swatchOf = i => {
  const w = twodip.columns();
  return twodip.swatch(twodip.hex(w.hex[i]), /^camera/.test(w.dict.class[w.class[i]] || 'camera') ? 'dashed' : w.labOf(i)[0] < 26 ? 'deep' : 'sure');
};
