// The room: tiles for all to see, in letters that the back row can read.
twodip.ready.push(() => {
  const form = twodip.byId('room-form');
  if (!form) return;
  const { byId, make, store } = twodip, w = twodip.columns(), stage = byId('stage'), settings = byId('room-settings');
  const hash = () => new URLSearchParams(location.hash.slice(1));
  const only = (hash().get('tiles') || '').split(',').map(Number).map(n => w.row.get(n)).filter(i => i !== undefined);
  const shown = only.length ? only : [...w.tile.keys()].filter(i => w.photo[i] || w.read[i]);
  let at = Math.max(0, shown.indexOf(w.row.get(Number(hash().get('tile'))))), side = Math.max(1, Math.min(4, Number(hash().get('side')) || 1));
  let blank = false, turned = -1, both = hash().get('both') === '1', code = false, checking = 0;

  for (const id of ['back', 'high']) byId(id).value = hash().get(id) || store.get(id, byId(id).value);
  form.addEventListener('input', () => {
    for (const id of ['back', 'high']) store.set(id, byId(id).value);
    side = Number(byId('side').value);
    say();
  });
  byId('side').value = side;

  // least is the size of type, px, whose capitals are as high as the back row
  // needs: in the picture at least its distance ÷ 200, common practice for
  // projection.
  const capital = (() => {
    const c = document.createElement('canvas').getContext('2d');
    c.font = '400 200px ' + getComputedStyle(document.body).fontFamily;
    return (c.measureText('H').actualBoundingBoxAscent || 140) / 200;
  })();
  const share = () => Number(byId('back').value) / 200 / Number(byId('high').value);
  const least = () => share() * window.innerHeight / capital;

  const tile = i => {
    const n = String(w.tile[i]), photo = twodip.photo(i, false, { alt: 'Photo of tile ' + n });
    const name = (nth, g) => make('p', {}, make('span', { class: 'nth' }, nth), ' ', make('bdi', {}, w.glazes.name[g]));
    const says = make('div', { class: 'stage-says' },
      make('div', { class: 'stage-head' }, make('p', { class: 'stage-number' }, ...[...n].map(d => make('span', { class: /[69]/.test(d) ? 'turns' : 'plain' }, d))), twodip.order(i)),
      name('1st', w.first[i]), w.second[i] < 0 ? make('p', {}, 'alone') : name('→ 2nd', w.second[i]),
      make('p', {}, w.read[i] ? w.dict.name[w.name[i]] + ', ' + w.doubtWords(w.doubtOf(i)) : 'not measured yet'));
    if (twodip.marksOf(i).length) says.append(make('p', {}, twodip.marks(i)));
    return make('div', { class: 'stage-tile' }, make('div', { class: 'stage-photo' }, photo, ...(w.read[i] ? [twodip.swatchOf(i)] : [])), says);
  };

  // fit sets the tiles of a box as large as all of them has room for, and says
  // how large, the least that the back row reads being 1. The photo gives way
  // to the letters before the letters give way to the room.
  const sizes = [[1.9, 0.55], [1.6, 0.55], [1.35, 0.5], [1.15, 0.5], [1, 0.5], [1, 0.4], [1, 0.3], [1, 0.22]];
  for (let s = 0.9; s > 0.04; s *= 0.9) sizes.push([s, 0.22]);
  const fit = (box, from = 0) => {
    const says = [...box.querySelectorAll('.stage-says')], whole = least();
    box.classList.toggle('tall', says.length > 1 || box.clientWidth < box.clientHeight);
    box.classList.remove('break');
    const fits = k => {
      const [size, photo] = sizes[k];
      box.style.fontSize = Math.max(9, size * whole) + 'px';
      box.style.setProperty('--photo', photo);
      return box.scrollHeight <= box.clientHeight && says.every(e => e.scrollWidth <= e.clientWidth && e.scrollHeight <= e.clientHeight + 1);
    };
    if (from < sizes.length && fits(from)) return sizes[from][0];
    let low = from, high = sizes.length - 1; // each fits better than the one before
    while (high - low > 1) { const mid = low + high >> 1; if (fits(mid)) high = mid; else low = mid; }
    if (!fits(high)) box.classList.add('break'); // a word longer than the room
    return sizes[high][0];
  };

  // say tells, before anything is shown, how large the letters will be and
  // which tiles have more to say than the back row can read.
  const say = () => {
    const back = Number(byId('back').value), high = Number(byId('high').value), mine = ++checking;
    if (!(back > 0 && high > 0)) { byId('letters').textContent = 'Write both as numbers.'; return; }
    const words = 'Letters have to be ' + Math.round(back * 5) + ' mm high in the picture, 1/' + Math.round(1 / share()) + ' of its height. ';
    const probe = byId('probe'), small = [];
    probe.parentElement.hidden = false;
    let next = 0, far = back;
    const slice = () => {
      if (mine !== checking) return;
      for (const end = performance.now() + 12; next < shown.length && performance.now() < end; next += side) {
        probe.replaceChildren(...shown.slice(next, next + side).map(tile));
        for (const img of probe.querySelectorAll('img')) img.remove();
        const size = fit(probe, 7);
        if (size < 1) { small.push(...shown.slice(next, next + side).map(i => w.tile[i])); far = Math.min(far, back * size); }
      }
      if (next < shown.length) { setTimeout(slice); return; }
      probe.parentElement.hidden = true;
      probe.replaceChildren();
      byId('letters').textContent = words + (!small.length ? (shown.length === 1 ? 'The tile fits.' : 'All ' + shown.length + ' tiles fit.')
        : (small.length === shown.length ? 'No tile fits' : small.length + ' of ' + shown.length + ' tiles do not fit (' + small.slice(0, 6).join(', ') + (small.length > 6 ? ' …' : '') + ')') +
          ' in letters that large: they are shown whole, in smaller ones that are read from ' + far.toFixed(1) + ' m. Make the picture higher, show fewer side by side, or bring the back row nearer.');
    };
    slice();
  };

  const now = () => turned >= 0 ? turned : shown[at];
  const rows = () => {
    const other = w.other(now());
    if (both && other !== undefined) return [now(), other];
    return turned >= 0 ? [turned] : shown.slice(at, at + side);
  };
  const draw = () => {
    const box = byId('stage-tiles'), list = blank ? [] : rows();
    stage.classList.toggle('blank', blank);
    box.replaceChildren(...list.map(tile));
    if (code && !blank) {
      const address = twodip.addressOf(list.length > 1 ? 'shortlist.html#tiles=' + list.map(i => w.tile[i]) : 'tile/' + w.tile[list[0]] + '.html');
      box.append(make('div', { class: 'stage-code' }, address ? twodip.codeOf(address) : 'This copy has no address to point a phone at.'));
    }
    const size = list.length ? fit(box) : 1;
    if (!shown.length) box.append(make('p', {}, 'No tile has a photo yet.'));
    const numbers = list.map(i => w.tile[i]);
    byId('stage-at').textContent = (at + 1) + ' of ' + shown.length + (size < 1 ? '; letters for ' + (size * byId('back').value).toFixed(1) + ' m' : '');
    byId('stage-says').textContent = blank ? 'Nothing but the surround.' : list.map(i => 'Tile ' + w.tile[i] + ', ' + twodip.coats(i).textContent).join('; ');
    for (const [id, on] of [['stage-both', both], ['stage-code', code]]) byId(id).setAttribute('aria-pressed', on);
    byId('stage-side').value = side;
    const p = hash();
    p.set('show', '1');
    if (numbers.length) p.set('tile', w.tile[shown[at]]);
    for (const [k, v] of [['side', side > 1 ? side : ''], ['both', both ? 1 : '']]) if (v) p.set(k, v); else p.delete(k);
    history.replaceState(history.state, '', '#' + p);
  };
  const go = to => { turned = -1; blank = false; at = Math.max(0, Math.min(shown.length - 1, to)); draw(); };
  const start = () => {
    if (!(share() > 0)) return;
    checking++;
    settings.hidden = byId('probe').parentElement.hidden = true;
    stage.hidden = false;
    document.body.classList.add('on-stage');
    stage.focus();
    draw();
  };
  const stop = () => {
    stage.hidden = true;
    settings.hidden = false;
    document.body.classList.remove('on-stage');
    if (document.fullscreenElement) document.exitFullscreen();
    const p = hash();
    p.delete('show');
    history.replaceState(null, '', '#' + p);
    byId('side').value = side;
    byId('show').focus();
    say();
  };
  const leave = () => { if (history.state && history.state.stage) history.back(); else stop(); };
  const turn = () => {
    const other = w.other(now());
    if (other === undefined) return;
    turned = other === shown[at] ? -1 : other;
    draw();
  };
  const flip = { both: () => { both = !both; draw(); }, code: () => { code = !code; draw(); } };
  const whole = () => { if (document.fullscreenElement) document.exitFullscreen(); else stage.requestFullscreen?.(); };
  const dark = () => { blank = !blank; draw(); };
  const keys = {
    PageDown: () => go(at + side), ArrowRight: () => go(at + side), ArrowDown: () => go(at + side), ' ': () => go(at + side),
    PageUp: () => go(at - side), ArrowLeft: () => go(at - side), ArrowUp: () => go(at - side),
    Home: () => go(0), End: () => go(shown.length - 1), x: turn, Escape: leave, b: dark, '.': dark, o: flip.both, q: flip.code, f: whole,
    z: () => { const img = stage.querySelector('.stage-photo img'); if (img) twodip.closer(Object.assign(make('a', { href: img.src }, img.cloneNode()), { focus: () => stage.focus() })); },
    g: () => { const html = document.documentElement; html.dataset.surround = html.dataset.surround === 'grey' ? 'dark' : 'grey'; },
  };
  document.addEventListener('keydown', e => {
    if (stage.hidden || e.ctrlKey || e.altKey || e.metaKey) return;
    // In the bar the keys are the bar's own, but a remote's and the way out.
    const inBar = e.target.closest && e.target.closest('.stage-bar');
    if (!inBar && /^\d$/.test(e.key)) { byId('stage-number').focus(); return; }
    if (inBar && !/^(Page|Esc)/.test(e.key)) return;
    const act = keys[e.key.length === 1 ? e.key.toLowerCase() : e.key];
    if (!act) return;
    act();
    e.preventDefault();
  });
  byId('stage-bar').addEventListener('submit', e => {
    e.preventDefault();
    const field = byId('stage-number'), i = w.row.get(Number(field.value)), to = shown.indexOf(i);
    if (i === undefined) { byId('stage-at').textContent = 'The wall has no tile ' + field.value + '.'; field.select(); return; }
    field.value = '';
    stage.focus();
    if (to >= 0) go(to);
    else { turned = i; blank = false; draw(); }
  });
  for (const [id, act] of [['stage-back', () => go(at - side)], ['stage-on', () => go(at + side)], ['stage-both', flip.both], ['stage-code', flip.code], ['stage-whole', whole], ['stage-out', leave]]) byId(id).addEventListener('click', act);
  byId('stage-side').addEventListener('change', e => { side = Number(e.target.value); draw(); });
  // By touch: the left third goes back, the rest goes on, and the browser's own
  // way back leads to the settings.
  byId('stage-tiles').addEventListener('click', e => go(at + (e.clientX < window.innerWidth / 3 ? -side : side)));
  window.addEventListener('popstate', () => { if (!stage.hidden && !(history.state && history.state.stage)) stop(); });
  window.addEventListener('resize', () => { if (stage.hidden) say(); else if (!blank) draw(); });
  form.addEventListener('submit', e => { e.preventDefault(); history.pushState({ stage: true }, '', location.href); start(); });
  if (hash().get('show') === '1') start();
  else say();
});
