// Two to four tiles side by side.
twodip.ready.push(() => {
  const at = twodip.byId('compare');
  if (!at) return;
  const { byId, make } = twodip, w = twodip.columns(), most = 4;
  const asked = () => (new URLSearchParams(location.hash.slice(1)).get('tiles') || '').split(/[ ,]+/).map(Number);
  const chosen = () => [...new Set(asked())].map(n => w.row.get(n)).filter(i => i !== undefined).slice(0, most);
  const go = rows => { location.hash = 'tiles=' + rows.map(i => w.tile[i]).join(','); };

  const numbers = i => {
    const [L, A, B] = w.labOf(i).map(v => v.toFixed(1).replace('-', '−'));
    return 'L* ' + L + ', a* ' + A + ', b* ' + B + ', ' + w.doubtWords(w.doubtOf(i));
  };
  const card = i => {
    const photo = w.photoOf(i), other = w.other(i);
    const li = make('li', {},
      make('div', { class: 'sight-of' }, photo ? make('img', { class: 'photo', src: photo, alt: 'Photo of tile ' + w.tile[i] }) : make('p', { class: 'no-photo' }, 'No photo yet.'),
        ...(w.read[i] ? [make('div', { class: 'beside-photo' }, twodip.swatchOf(i))] : [])),
      make('p', { class: 'compare-names' }, make('a', { class: 'number', href: w.page(i) }, String(w.tile[i])), ' ', twodip.coats(i)),
      make('p', {}, w.read[i] ? w.dict.name[w.name[i]] + '. ' + numbers(i) : 'Not measured yet.'), make('p', {}, twodip.marks(i, true)));
    const ways = make('p', { class: 'ways' });
    if (other !== undefined && !chosen().includes(other) && chosen().length < most) {
      const b = make('button', { type: 'button' }, 'Add the other order');
      b.addEventListener('click', () => go([...chosen(), other]));
      ways.append(b, ' ');
    }
    const remove = make('button', { type: 'button', 'aria-label': 'Take away tile ' + w.tile[i] }, 'Take away');
    remove.addEventListener('click', () => go(chosen().filter(o => o !== i)));
    ways.append(remove);
    li.append(ways);
    return li;
  };

  const show = () => {
    const rows = chosen(), pairs = [];
    rows.forEach((i, k) => rows.slice(k + 1).forEach(j => pairs.push([i, j])));
    byId('side-by-side').replaceChildren(...rows.map(card));
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
  window.addEventListener('hashchange', show);
  show();
});
