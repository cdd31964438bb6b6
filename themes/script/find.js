// The form that finds tiles. The address holds the search, so that it can be
// sent and kept, also on a page opened from disk.
twodip.ready.push(() => {
  const form = twodip.byId('find');
  if (!form) return;
  const { byId, make, color, ask } = twodip, w = twodip.columns(), index = ask.build(w), fold = twodip.text.fold;
  const filters = [...form.querySelectorAll('[data-filter]')], boxes = [...form.querySelectorAll('[data-out], [data-only]')];
  let show = 24, asWall = false, timer = 0, later = 0, dimmed = false;

  const sameGlaze = code => w.glazes.code.findIndex(c => fold(c) === fold(code));
  const finishes = w.glazes.finish.map(f => f.toLowerCase());
  const tests = {
    first: v => { const g = sameGlaze(v); return i => w.first[i] === g ? 1 : 0; },
    second: v => { const g = v === '-' ? -1 : sameGlaze(v); return i => w.second[i] === g ? 1 : 0; },
    family: v => { const f = w.dict.family.indexOf(v); return i => f >= 0 && w.family[i] === f ? 1 : 0; },
    finish: v => { const has = finishes.map(f => f === v); return i => has[w.first[i]] || has[w.second[i]] ? 1 : 0; },
  };
  // valuesOf gives a row's values of a filter as numbers, to count what is left;
  // nameOf the value of a number.
  const valuesOf = {
    first: i => w.first[i],
    second: i => w.second[i] + 1,
    family: i => w.family[i] + 1,
  };
  const nameOf = { first: w.glazes.code, second: ['-', ...w.glazes.code], family: ['', ...w.dict.family] };

  // conditions are the words, the filters and what is left out, as tests.
  const conditions = () => {
    const plan = ask.plan(w, index, byId('words').value), list = [...plan.tests];
    for (const f of filters) if (f.value) list.push({ filter: f, name: f.labels[0].textContent + ' ' + f.selectedOptions[0].dataset.name, test: tests[f.dataset.filter](f.value) });
    for (const b of boxes) {
      if (!b.checked) continue;
      const bit = 1 << w.dict.marks.findIndex(m => m.id === b.dataset.out);
      list.push({ box: b, name: b.labels[0].textContent.trim(), test: b.dataset.only ? i => w.readyAt(i) ? 1 : 0 : i => w.marks[i] & bit ? 0 : 1 });
    }
    return { plan, list };
  };

  // countFilters writes how many tiles each choice would leave.
  const countFilters = (list, found) => {
    for (const f of filters) {
      const own = list.findIndex(c => c.filter === f), left = new Map(), of = valuesOf[f.dataset.filter];
      const count = v => left.set(v, (left.get(v) || 0) + 1);
      for (let i = 0; i < w.n; i++) {
        if (found.only[i] !== -1 && (own < 0 || found.only[i] !== own)) continue;
        if (of) count(of(i));
        else {
          const a = finishes[w.first[i]], b = finishes[w.second[i]];
          count(a);
          if (b !== undefined && b !== a) count(b);
        }
      }
      const named = of ? new Map([...left].map(([k, n]) => [nameOf[f.dataset.filter][k], n])) : left;
      for (const o of f.options) {
        const text = o.dataset.name + ' (' + (named.get(o.value) || 0) + ')';
        if (o.value && o.textContent !== text) o.textContent = text;
      }
    }
  };

  // understood draws which coat each word was taken for.
  const understood = plan => {
    const box = byId('understood'), at = side => plan.asks.filter(a => a.side === side).map(a => a.glaze !== undefined ? w.glazes.name[a.glaze] : a.raw || a.word).join(' ');
    const first = at('first'), second = at('second');
    box.hidden = !first && !second;
    if (box.hidden) return;
    const line = (nth, what, says) => make('li', {}, make('span', { class: 'nth' }, nth), ' ', make('bdi', {}, what || 'any'), ' ', make('span', { class: 'says' }, says));
    byId('understood-says').replaceChildren(line('2nd', second, 'over it'), line('1st', first, 'on the bisque'));
    if (plan.three) byId('understood-says').append(make('li', {}, 'Two coats are the most a tile has: the third was left out.'));
  };

  // hints says how to widen a search that leaves nothing, and which words were
  // read as another.
  const hints = (list, found, near, nearText, plan) => {
    const ul = byId('hints');
    ul.replaceChildren();
    for (const word of plan.left) ul.append(make('li', {}, 'Nothing here is called “' + word + '”' + (list.length ? ': it was left out.' : '.')));
    for (const c of list) if (c.ask && c.ask.typo && found.rows.length) ul.append(make('li', {}, 'Nothing is called “' + c.ask.word + '”: ' + (c.ask.meant ? 'it was read as “' + c.ask.meant + '”.' : 'these come nearest.')));
    if (nearText && !near) ul.append(make('li', {}, '“' + nearText + '” is no color I can read: write L* a* b* as “48 -8 -14”, “#5a7f91”, or “tile 7” for a tile that has been measured.'));
    if (found.rows.length || !list.length) return;
    list.forEach((c, k) => {
      let n = 0;
      for (let i = 0; i < w.n; i++) if (found.only[i] === k) n++;
      if (!n) return;
      const b = make('button', { type: 'button' }, 'Without “' + c.name + '”: ' + tiles(n));
      b.addEventListener('click', () => { drop(c, list); update(); });
      ul.append(make('li', {}, b));
    });
    if (!ul.children.length) ul.append(make('li', {}, 'No single change helps: clear all, or ask for one thing at a time.'));
  };
  const drop = (c, list) => {
    if (c.filter) c.filter.value = '';
    else if (c.box) c.box.checked = false;
    else byId('words').value = list.filter(o => o.ask && o !== c).map(o => o.name).join(', ');
  };
  const tiles = n => n === 1 ? '1 tile' : n + ' tiles';

  const rank = (found, near, plan) => {
    if (!near) {
      const far = ask.closeness(w, plan.asks), at = far && Float64Array.from({ length: w.n }, (_, i) => found.only[i] === -1 ? far(i) : 0);
      return found.rows.sort((a, b) => found.score[b] - found.score[a] || w.repeat[a] - w.repeat[b] || (at ? at[a] - at[b] : 0) || a - b).map(i => [i, -1]);
    }
    const allowed = new Uint8Array(w.n);
    for (const i of found.rows) allowed[i] = 1;
    if (near.not !== undefined) allowed[near.not] = 0;
    const list = byId('match').value === 'either' ? w.eithers() : w.means();
    return color.nearest(list, near.lab, Math.min(show, w.n), allowed);
  };

  const says = (i, distance, near) => {
    if (distance >= 0) return w.far(distance, Math.hypot(w.doubtOf(i), near.doubt)) + (/^camera/.test(w.dict.class[w.class[i]]) ? '; camera only' : '');
    return w.name[i] >= 0 ? w.dict.name[w.name[i]] : '';
  };

  const showTarget = near => {
    const at = byId('target');
    at.replaceChildren();
    if (!near) return;
    const lab = near.lab.map(v => v.toFixed(1).replace('-', '−'));
    at.append(twodip.swatch('lab(' + near.lab.join(' ') + ')', 'sure'), ' looking for L* ' + lab[0] + ', a* ' + lab[1] + ', b* ' + lab[2] + (near.doubt ? ', ' + w.doubtWords(near.doubt) : ''));
  };

  const showWall = (on, rows) => {
    if (!on && !dimmed) return;
    dimmed = on;
    const cells = document.querySelectorAll('.grid .cell');
    const kept = new Set(rows.map(i => String(w.tile[i])));
    for (const c of cells) {
      const a = c.querySelector('a');
      c.classList.toggle('out', on && !(a && kept.has(a.textContent)));
    }
  };

  // doors lead on with what was found.
  const doors = (rows, near, nearText) => {
    const numbers = rows.map(i => w.tile[i]);
    byId('to-room').href = 'room.html#tiles=' + numbers.join(',');
    byId('to-room').hidden = !numbers.length;
    byId('to-map').href = 'color.html#near=' + encodeURIComponent(nearText);
    byId('to-map').hidden = !near;
  };

  const remember = () => {
    const p = new URLSearchParams();
    for (const id of ['words', 'near']) if (byId(id).value.trim()) p.set(id, byId(id).value.trim());
    for (const f of filters) if (f.value) p.set(f.dataset.filter, f.value);
    const out = boxes.filter(b => b.checked).map(b => b.id);
    if (out.length) p.set('leave', out.join(','));
    if (byId('match').value !== 'mean') p.set('match', byId('match').value);
    if (asWall) p.set('as', 'wall');
    const hash = String(p);
    if (hash !== location.hash.slice(1)) history.replaceState(null, '', hash ? '#' + hash : location.pathname + location.search);
  };
  const recall = () => {
    const p = new URLSearchParams(location.hash.slice(1));
    for (const id of ['words', 'near']) byId(id).value = p.get(id) || '';
    for (const f of filters) f.value = p.get(f.dataset.filter) || '';
    const out = (p.get('leave') || '').split(',');
    for (const b of boxes) b.checked = out.includes(b.id);
    byId('match').value = p.get('match') === 'either' ? 'either' : 'mean';
    if (filters.some(f => f.value) || boxes.some(b => b.checked)) byId('narrow').open = true;
    asWall = p.get('as') === 'wall';
    update();
  };

  // seen is how many cards the window shows, by where they stood last.
  const seen = () => {
    const box = byId('shown').getBoundingClientRect(), card = byId('shown').firstElementChild?.getBoundingClientRect();
    if (!card || !card.height) return 8;
    return Math.max(4, Math.round(box.width / card.width) * Math.ceil((innerHeight - box.top) / card.height));
  };

  // update finds and shows. While a person types, only the cards that are seen
  // are drawn at once; the rest come after them.
  const update = (atOnce = Infinity) => {
    const { plan, list } = conditions(), nearText = byId('near').value.trim(), near = nearText ? w.target(nearText) : null;
    const found = ask.find(w.n, list), asked = list.length > 0 || nearText !== '' || plan.left.length > 0;
    clearTimeout(later);
    if (plan.left.length && !plan.tests.length && !near) found.rows = [];
    hints(list, found, near, nearText, plan);
    byId('advice').hidden = !plan.advice;
    understood(plan);
    showTarget(near);
    const ranked = rank(found, near, plan), total = near ? found.rows.filter(i => w.read[i] && i !== near.not).length : found.rows.length;
    byId('found').hidden = !asked;
    byId('found-count').textContent = asked ? (near ? (asWall && total > show ? 'The ' + show + ' nearest of ' + total : tiles(total) + ', nearest first') : found.rows.length + ' of ' + tiles(w.n)) : '';
    doors(ranked.slice(0, 200).map(([i]) => i), near, nearText);
    byId('shown').hidden = asWall;
    const shown = asked && !asWall ? ranked.slice(0, show) : [], cards = (from, to) => shown.slice(from, to).map(([i, d], at) => twodip.shown(i, says(i, d, near), from + at));
    byId('shown').replaceChildren(...cards(0, atOnce));
    byId('shown').ariaBusy = String(shown.length > atOnce);
    later = setTimeout(() => { // what is seen stands first; who types on has no use for the rest
      byId('shown').append(...cards(atOnce));
      byId('shown').ariaBusy = 'false';
      countFilters(list, found);
      remember();
    }, 30);
    byId('more').hidden = asWall || total <= show;
    byId('as-list').setAttribute('aria-pressed', String(!asWall));
    byId('as-wall').setAttribute('aria-pressed', String(asWall));
    showWall(asked && asWall, near ? ranked.map(([i]) => i) : found.rows);
    document.documentElement.classList.remove('asked'); // the answer stands
    twodip.showGuesses?.(near, byId('first').value, byId('second').value);
  };
  const soon = () => { clearTimeout(timer); clearTimeout(later); show = 24; timer = setTimeout(() => update(seen()), 60); };

  for (const f of filters) for (const o of f.options) o.dataset.name = o.textContent;
  byId('words').addEventListener('input', soon);
  byId('near').addEventListener('input', soon);
  byId('pick').addEventListener('input', () => { byId('near').value = byId('pick').value; soon(); });
  for (const f of [...filters, ...boxes, byId('match')]) f.addEventListener('change', soon);
  byId('with-guesses')?.addEventListener('change', soon);
  byId('more').addEventListener('click', () => { show *= 2; update(); });
  byId('as-list').addEventListener('click', () => { asWall = false; update(); });
  byId('as-wall').addEventListener('click', () => { asWall = true; update(); });
  byId('clear').addEventListener('click', () => {
    const was = location.hash;
    form.reset();
    byId('sampler').hidden = true;
    update();
    if (was) twodip.gone('The search is cleared.', () => { location.hash = was; }, () => byId('words'));
    byId('words').focus();
  });
  form.addEventListener('submit', e => { e.preventDefault(); update(seen()); byId('found').scrollIntoView({ block: 'nearest' }); });
  window.addEventListener('hashchange', recall);

  const open = twodip.sampler(byId('sample'), lab => { byId('near').value = lab.map(v => v.toFixed(1)).join(' ') + ' ± ' + w.phone; soon(); });
  byId('photo').addEventListener('change', async e => {
    const file = e.target.files[0];
    if (!file) return;
    byId('sampler').hidden = false;
    try { await open(file); byId('sample').focus(); }
    catch { byId('sampler').hidden = true; byId('hints').replaceChildren(make('li', {}, 'This browser cannot open “' + file.name + '”: save it as JPEG or PNG and choose that.')); byId('found').hidden = false; }
  });
  recall();
});
