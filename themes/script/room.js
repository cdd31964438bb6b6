// The room: one tile at a time, in letters that the back row can read.
twodip.ready.push(() => {
  const form = twodip.byId('room-form');
  if (!form) return;
  const { byId, make, store } = twodip, w = twodip.columns(), stage = byId('stage'), settings = byId('room-settings');
  const hash = () => new URLSearchParams(location.hash.slice(1));
  const only = (hash().get('tiles') || '').split(',').map(Number).map(n => w.row.get(n)).filter(i => i !== undefined);
  const shown = only.length ? only : [...w.tile.keys()].filter(i => w.photo[i] || w.read[i]);
  let at = Math.max(0, shown.indexOf(w.row.get(Number(hash().get('tile'))))), blank = false, turned = -1;

  for (const id of ['back', 'high']) {
    byId(id).value = hash().get(id) || store.get(id, byId(id).value);
    byId(id).addEventListener('input', () => { store.set(id, byId(id).value); letters(); });
  }

  // letters reckons the height of capitals: in the image at least the distance
  // ÷ 200, on the screen that share of the picture's height.
  const capital = (() => {
    const c = document.createElement('canvas').getContext('2d');
    c.font = '400 200px ' + getComputedStyle(document.body).fontFamily;
    return (c.measureText('H').actualBoundingBoxAscent || 140) / 200;
  })();
  const letters = () => {
    const back = Number(byId('back').value), high = Number(byId('high').value);
    if (!(back > 0 && high > 0)) { byId('letters').textContent = 'Write both as numbers.'; return 0; }
    const share = back / 200 / high;
    byId('letters').textContent = 'Letters will be ' + Math.round(1000 * share * high) + ' mm high in the picture, 1/' + Math.round(1 / share) + ' of its height.' +
      (share > 0.12 ? ' That is large: names will wrap. Make the picture higher or bring the back row nearer.' : '');
    const px = share * window.innerHeight / capital;
    stage.style.fontSize = px + 'px';
    return px;
  };

  const draw = () => {
    stage.replaceChildren();
    if (blank) return;
    const i = turned >= 0 ? turned : shown[at];
    if (i === undefined) { stage.append(make('p', {}, 'No tile has a photo yet.')); return; }
    const photo = w.photoOf(i);
    const drawing = byId('room-drawings').children[w.second[i] < 0 ? 1 : 0].cloneNode(true);
    drawing.setAttribute('aria-hidden', 'true');
    stage.append(
      make('div', { class: 'stage-photo' }, photo ? make('img', { src: photo, alt: '' }) : '', ...(w.read[i] ? [twodip.swatchOf(i)] : [])),
      make('div', { class: 'stage-says' },
        make('p', { class: 'stage-number' }, ...[...String(w.tile[i])].map(d => make('span', { class: /[69]/.test(d) ? 'turns' : 'plain' }, d))),
        drawing,
        make('p', { class: 'stage-coats' }, twodip.coats(i)),
        make('p', {}, w.read[i] ? w.dict.name[w.name[i]] + ', ' + w.doubtWords(w.doubtOf(i)) : 'not measured yet'),
        ...(twodip.marksOf(i).length ? [make('p', {}, twodip.marks(i))] : [])));
    history.replaceState(history.state, '', '#' + new URLSearchParams({ ...Object.fromEntries(hash()), tile: w.tile[i] }));
  };
  const go = to => { turned = -1; blank = false; at = Math.max(0, Math.min(shown.length - 1, to)); draw(); };
  const start = () => {
    if (!letters()) return;
    settings.hidden = true;
    stage.hidden = false;
    document.body.classList.add('on-stage');
    stage.focus();
    draw();
    letters();
  };
  const stop = () => {
    stage.hidden = true;
    settings.hidden = false;
    document.body.classList.remove('on-stage');
    byId('back').focus();
  };
  const turn = () => {
    const now = turned >= 0 ? turned : shown[at], other = w.other(now);
    if (other === undefined) return;
    turned = other === shown[at] ? -1 : other;
    draw();
  };
  const keys = {
    PageDown: () => go(at + 1), ArrowRight: () => go(at + 1), ArrowDown: () => go(at + 1), ' ': () => go(at + 1),
    PageUp: () => go(at - 1), ArrowLeft: () => go(at - 1), ArrowUp: () => go(at - 1),
    Home: () => go(0), End: () => go(shown.length - 1), x: turn, Escape: () => { if (history.state && history.state.stage) history.back(); else stop(); },
    b: () => { blank = !blank; draw(); }, '.': () => { blank = !blank; draw(); },
    g: () => { const html = document.documentElement; html.dataset.surround = html.dataset.surround === 'grey' ? 'dark' : 'grey'; },
  };
  document.addEventListener('keydown', e => {
    if (stage.hidden || e.ctrlKey || e.altKey || e.metaKey) return;
    const act = keys[e.key.length === 1 ? e.key.toLowerCase() : e.key];
    if (!act) return;
    act();
    e.preventDefault();
  });
  // By touch: the left third goes back, the rest goes on, and the browser's own
  // way back leads to the settings.
  stage.addEventListener('click', e => go(at + (e.clientX < window.innerWidth / 3 ? -1 : 1)));
  window.addEventListener('popstate', () => { if (!stage.hidden && !(history.state && history.state.stage)) stop(); });
  window.addEventListener('resize', letters);
  form.addEventListener('submit', e => { e.preventDefault(); history.pushState({ stage: true }, '', location.href); start(); });
  letters();
  if (hash().get('show') === '1') start();
});
