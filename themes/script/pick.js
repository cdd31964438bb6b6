// The shortlist: tiles kept by one tap, on this device, by their numbers.
twodip.picks = {
  all() {
    const kept = twodip.store.get('picks', []);
    return Array.isArray(kept) ? kept.filter(Number.isInteger) : [];
  },
  set(list) {
    const kept = twodip.store.set('picks', list);
    twodip.picks.show();
    document.dispatchEvent(new Event('picks'));
    return kept;
  },
  // turn puts a tile on the list or takes it off, and says so.
  turn(n) {
    const { all, set } = twodip.picks, was = all(), on = !was.includes(n);
    if (!set(on ? [...was, n] : was.filter(t => t !== n))) {
      twodip.say('This browser does not let the page keep anything: write the number down.');
      return;
    }
    const many = all().length;
    if (on) twodip.say('Tile ' + n + ' is on your shortlist. ', twodip.make('a', { href: twodip.root + 'shortlist.html' }, 'Shortlist (' + many + ')'), ' ', twodip.button('Undo', () => { set(was); twodip.say('Tile ' + n + ' is off your shortlist.'); }));
    else twodip.gone('Tile ' + n + ' is off your shortlist.', () => set(was));
  },
  // show marks what is on the list, wherever it stands on the page.
  show() {
    const on = new Set(twodip.picks.all());
    for (const b of document.querySelectorAll('[data-pick]')) b.setAttribute('aria-pressed', on.has(Number(b.dataset.pick)));
    for (const c of document.querySelectorAll('.cell.picked')) c.classList.remove('picked');
    if (document.querySelector('.grid')) for (const n of on) document.querySelector('.cell a[href="tile/' + n + '.html"]')?.parentElement.classList.add('picked');
    const nav = document.querySelector('.top nav a[href$="shortlist.html"]');
    if (nav) nav.dataset.many = on.size || '';
  },
};
twodip.ready.push(() => {
  document.addEventListener('click', e => {
    const b = e.target.closest('[data-pick]');
    // On the wall the mark beside the number is drawn by the cell itself.
    const cell = b ? null : e.target.matches('.cell') && e.target.querySelector('a');
    if (b || cell) twodip.picks.turn(Number(b ? b.dataset.pick : cell.textContent));
  });
  twodip.picks.show();
  window.addEventListener('storage', twodip.picks.show);
  window.addEventListener('pageshow', twodip.picks.show);
});
