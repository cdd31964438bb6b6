'use strict';
// portrait is all that is said of a tile where it stands large: its photo,
// color, order, buckets, cautions and place.
twodip.portrait = i => {
  const w = twodip.columns(), make = twodip.make, n = w.tile[i], src = w.photoOf(i), read = w.read[i];
  const codes = [w.first[i], w.second[i]].filter(g => g >= 0).map((g, k) => (k ? '2nd ' : '1st ') + w.glazes.code[g]).join(', ');
  const [L, A, B] = w.labOf(i).map(v => v.toFixed(1).replace('-', '−'));
  const photo = twodip.photo(i, false, { class: 'photo', alt: 'Photo of tile ' + n });
  return [
    make('div', { class: 'sight-of' }, src ? make('a', { class: 'closer-link', href: src }, photo) : photo, ...(read ? [make('div', { class: 'beside-photo' }, twodip.swatchOf(i))] : [])),
    make('div', { class: 'portrait' }, twodip.order(i),
      make('p', { class: 'compare-names' }, make('a', { class: 'number', href: w.page(i) }, String(n)), ' ', twodip.coats(i))),
    make('p', {}, codes.includes(',') ? 'Buckets: ' : 'Bucket: ', make('b', {}, codes)),
    make('p', {}, read ? w.dict.name[w.name[i]] + '. L* ' + L + ', a* ' + A + ', b* ' + B + ', ' + w.doubtWords(w.doubtOf(i)) : 'Not measured yet.'),
    make('p', {}, twodip.marks(i, true)),
    ...(w.repeat[i] ? [] : [make('p', {}, 'Hangs in ', make('a', { href: 'index.html#at=' + n }, w.placeOf(i)), '.')]),
  ];
};

// Two to four tiles side by side.
twodip.ready.push(() => {
  const at = twodip.byId('compare');
  if (!at) return;
  const { byId, make } = twodip, w = twodip.columns(), most = 4;
  const asked = () => (new URLSearchParams(location.hash.slice(1)).get('tiles') || '').split(/[ ,]+/).map(Number);
  const chosen = () => [...new Set(asked())].map(n => w.row.get(n)).filter(i => i !== undefined).slice(0, most);
  const go = rows => { history.pushState(null, '', '#tiles=' + rows.map(i => w.tile[i]).join(',')); show(); };
  const linkOf = i => at.querySelector('a.number[href="' + w.page(i) + '"]');

  const card = i => {
    const n = w.tile[i], other = w.other(i), was = chosen(), ways = make('p', { class: 'ways' });
    if (other !== undefined && !was.includes(other) && was.length < most) ways.append(twodip.button('Add the other order', () => { go([...was, other]); linkOf(other).focus(); }), ' ');
    ways.append(make('button', { class: 'pick', type: 'button', 'data-pick': n }, 'Shortlist', make('span', { class: 'sight' }, ' tile ' + n)), ' ',
      twodip.button('Take away', () => {
        go(was.filter(o => o !== i));
        twodip.gone('Tile ' + n + ' is taken away.', () => go(was), () => linkOf(i)).focus();
      }, { 'aria-label': 'Take away tile ' + n }));
    return make('li', {}, ...twodip.portrait(i), ways);
  };

  const show = () => {
    const rows = chosen(), pairs = [];
    rows.forEach((i, k) => rows.slice(k + 1).forEach(j => pairs.push([i, j])));
    byId('side-by-side').replaceChildren(...rows.map(card));
    twodip.picks.show();
    byId('apart').hidden = !pairs.length;
    byId('apart-list').replaceChildren(...pairs.map(([i, j]) => make('li', {}, make('p', {}, 'Tiles ' + w.tile[i] + ' and ' + w.tile[j] + ': ' +
      (w.read[i] && w.read[j] ? w.far(twodip.color.de00(...w.labOf(i), ...w.labOf(j)), Math.hypot(w.doubtOf(i), w.doubtOf(j)), i, j) : 'not both measured yet')))));
    byId('compare-says').textContent = rows.length ? (rows.length < 2 ? 'Add another tile to compare it with.' : '') : 'No tile is chosen yet: type a number from the wall.';
  };
  byId('add').addEventListener('submit', e => {
    e.preventDefault();
    const field = byId('add-tile'), rows = chosen();
    const i = w.row.get(Number(field.value.trim().replace(/^t/i, '')));
    if (i === undefined) byId('compare-says').textContent = 'The wall has no tile ' + field.value.trim() + '.';
    else if (rows.length >= most) byId('compare-says').textContent = 'Four tiles are the most that can be judged side by side: take one away first.';
    else { go([...rows, i]); field.value = ''; }
  });
  for (const e of ['hashchange', 'popstate']) window.addEventListener(e, show);
  show();
});
