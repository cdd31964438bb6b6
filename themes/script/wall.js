// The wall by keyboard and by a presenter's remote, which sends PageUp and
// PageDown.
twodip.ready.push(() => {
  const grid = document.querySelector('.grid');
  if (!grid) return;
  const rows = [...grid.querySelectorAll('.block .row')].map(r => [...r.querySelectorAll('.cell')]);
  // A small wall takes the width there is; the photos stay sharp enough up to 120 px.
  const fit = () => {
    const room = grid.parentElement.clientWidth - 2 * parseFloat(getComputedStyle(grid.parentElement).paddingLeft) - grid.querySelector('.corner').offsetWidth;
    const wide = Math.floor(room / grid.querySelectorAll('.col-head').length);
    grid.style.setProperty('--fit', '');
    if (wide > parseFloat(getComputedStyle(grid.querySelector('.col-head')).width)) grid.style.setProperty('--fit', Math.min(wide, 120) + 'px');
  };
  fit();
  window.addEventListener('resize', fit);
  const apart = grid.querySelectorAll('.col-head').length - rows.length; // a column of single coats before the others
  const at = cell => {
    const y = rows.findIndex(r => r.includes(cell));
    return y < 0 ? null : { y, x: rows[y].indexOf(cell) };
  };
  const go = (y, x) => {
    const cell = rows[y] && rows[y][x];
    if (!cell) return;
    const link = cell.querySelector('a');
    if (!link) cell.tabIndex = -1;
    (link || cell).focus({ preventScroll: true });
    cell.scrollIntoView({ block: 'center', inline: 'center' });
  };
  const step = (p, by) => {
    const wide = rows[0].length, i = p.y * wide + p.x + by;
    if (i >= 0 && i < wide * rows.length) go(Math.floor(i / wide), i % wide);
  };
  const keys = {
    ArrowLeft: p => go(p.y, p.x - 1),
    ArrowRight: p => go(p.y, p.x + 1),
    ArrowUp: p => go(p.y - 1, p.x),
    ArrowDown: p => go(p.y + 1, p.x),
    PageDown: p => step(p, 1),
    PageUp: p => step(p, -1),
    Home: (p, all) => go(all ? 0 : p.y, 0),
    End: (p, all) => go(all ? rows.length - 1 : p.y, rows[0].length - 1),
    x: p => { if (p.x >= apart) go(p.x - apart, p.y + apart); },
  };
  document.addEventListener('keydown', e => {
    if (e.altKey || e.metaKey || /^(INPUT|SELECT|TEXTAREA|CANVAS)$/.test(e.target.tagName)) return;
    const act = keys[e.key.length === 1 ? e.key.toLowerCase() : e.key];
    const cell = e.target.closest && e.target.closest('.cell');
    const p = cell && at(cell);
    if (!act) return;
    if (p) act(p, e.ctrlKey);
    else if (e.key === 'PageDown' && e.target === document.body) go(0, 0);
    else return;
    e.preventDefault();
  });
});

// On a tile's page X leads to the other order.
twodip.ready.push(() => {
  const page = document.querySelector('[data-other]');
  if (!page || !page.dataset.other) return;
  document.addEventListener('keydown', e => {
    if (e.key.toLowerCase() === 'x' && !e.ctrlKey && !e.altKey && !e.metaKey && !/^(INPUT|TEXTAREA|SELECT)$/.test(e.target.tagName)) {
      location.href = page.dataset.other + '.html';
    }
  });
});
