// The shortlist as a page: one's own, or one that an address holds.
twodip.ready.push(() => {
  if (!twodip.byId('short')) return;
  const { byId, make, picks } = twodip, w = twodip.columns();
  const asked = () => { const t = new URLSearchParams(location.hash.slice(1)).get('tiles'); return t && [...new Set(t.split(/[ ,]+/).map(Number))].filter(n => w.row.has(n)); };
  const own = () => picks.all().filter(n => w.row.has(n));
  // sent is a list of somebody else's; one's own address is one's own list.
  const sent = () => { const t = asked(); return t && String(t) !== String(own()) ? t : null; };
  const set = list => {
    if (sent()) location.hash = 'tiles=' + list;
    else {
      history.replaceState(null, '', location.pathname);
      picks.set(list);
    }
    show();
  };
  const numbers = () => sent() || own();

  const card = n => {
    const i = w.row.get(n), was = numbers();
    const off = twodip.button('Take off', () => {
      set(was.filter(t => t !== n));
      twodip.gone('Tile ' + n + ' is off the list.', () => set(was), () => byId('short-list').querySelector('[data-off="' + n + '"]')).focus();
    }, { 'data-off': n, 'aria-label': 'Take off tile ' + n });
    return make('li', {}, ...twodip.portrait(i), make('p', { class: 'ways' }, off));
  };

  const share = list => {
    const at = twodip.addressOf('shortlist.html#tiles=' + list), code = at && list.length && twodip.codeOf(at);
    byId('share').hidden = !list.length || !at;
    byId('share-address').href = at;
    byId('share-address').textContent = at;
    byId('share-code').replaceChildren(code || (at ? 'The list is too long for a code: send the address.' : ''));
  };

  const show = () => {
    const list = numbers(), other = sent();
    byId('short-list').replaceChildren(...list.map(card));
    byId('short-list').className = 'short-list ' + (list.length > 4 ? list.length > 9 ? 'many' : 'some' : 'few');
    byId('short-note').textContent = !list.length ? 'No tile is on it yet: tap “Shortlist” on a tile, or the + beside its number on the wall.'
      : other ? 'This list was sent to you. Your own shortlist is as you left it.'
      : list.length === 1 ? '1 tile, kept in this browser only.' : list.length + ' tiles, kept in this browser only.';
    for (const [id, hide] of [['short-ways', !list.length], ['short-take', !other], ['short-clear', !!other], ['short-compare', list.length < 2]]) byId(id).hidden = hide;
    byId('short-compare').textContent = list.length > 4 ? 'Compare the first four' : 'Compare';
    byId('short-compare').href = 'compare.html#tiles=' + list.slice(0, 4);
    byId('short-room').href = 'room.html#tiles=' + list + '&side=' + Math.min(4, list.length);
    share(list);
  };

  byId('short-print').addEventListener('click', () => window.print());
  byId('short-take').addEventListener('click', () => {
    const was = picks.all();
    picks.set([...new Set([...was, ...sent()])]);
    history.replaceState(null, '', location.pathname);
    show();
    twodip.gone('These tiles are on your own shortlist now.', () => { picks.set(was); show(); }).focus();
  });
  byId('short-clear').addEventListener('click', () => {
    const was = numbers();
    set([]);
    twodip.gone('The list is empty.', () => set(was), () => byId('short-clear')).focus();
  });
  window.addEventListener('hashchange', show);
  window.addEventListener('storage', show);
  show();
});
