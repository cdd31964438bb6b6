// The wall by keyboard: one stop for Tab, then arrow keys.
twodip.ready.push(() => {
  const grid = document.querySelector('.grid');
  if (!grid) return;
  const rows = [...grid.querySelectorAll('.block .row')].map(r => [...r.querySelectorAll('.cell')]);
  const columns = [...grid.querySelectorAll('.col-head')], apart = columns.length - rows.length; // a column of single coats before the others
  const at = cell => {
    const y = rows.findIndex(r => r.includes(cell));
    return y < 0 ? null : { y, x: rows[y].indexOf(cell) };
  };
  const name = e => e.textContent.trim().replace(/\s+/g, ' ');
  let stop = null;
  const hold = e => {
    if (stop) stop.tabIndex = -1;
    stop = e;
    e.tabIndex = 0;
  };
  // When the page is at rest every cell says both glazes, and Tab passes all
  // but one.
  (window.requestIdleCallback || setTimeout)(() => {
    const firsts = rows.map(r => name(r[0].parentElement.querySelector('.row-head'))), seconds = columns.map(name);
    rows.forEach((row, y) => row.forEach((cell, x) => {
      const a = cell.querySelector('a');
      if (!a) return;
      if (a !== stop) a.tabIndex = -1;
      a.setAttribute('aria-label', a.textContent + ', ' + firsts[y] + (apart && !x ? ' alone' : apart || x !== y ? ' → ' + seconds[x] : ' on its own place') + (cell.querySelector('span') ? ', ' + name(cell.querySelector('span')) : ''));
    }));
    if (!stop) hold(grid.querySelector('.cell a') || grid);
  });
  const go = (y, x) => {
    const cell = rows[y] && rows[y][x];
    if (!cell) return;
    const to = cell.querySelector('a') || cell;
    hold(to);
    to.focus({ preventScroll: true });
    cell.scrollIntoView({ block: 'center', inline: 'center' });
  };
  grid.addEventListener('focusin', e => { if (e.target.closest('.cell')) hold(e.target); });
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
    s: p => { const a = rows[p.y][p.x].querySelector('a'); if (a) twodip.picks.turn(Number(a.textContent)); },
  };
  grid.addEventListener('keydown', e => {
    const act = keys[e.key.length === 1 ? e.key.toLowerCase() : e.key], cell = e.target.closest('.cell'), p = act && cell && at(cell);
    if (!p || e.altKey || e.metaKey) return;
    act(p, e.ctrlKey);
    e.preventDefault();
  });
  // An address may name the tile to look at.
  const look = () => {
    const n = /^#at=(\d+)$/.exec(location.hash), a = n && grid.querySelector('.cell a[href="tile/' + n[1] + '.html"]');
    if (a) { const p = at(a.parentElement); go(p.y, p.x); }
  };
  window.addEventListener('hashchange', look);
  look();
});

// On a tile's page X leads to the other order, while the tile has the focus.
twodip.ready.push(() => {
  const page = document.querySelector('[data-other]');
  if (!page || !page.dataset.other) return;
  page.addEventListener('keydown', e => {
    if (e.key.toLowerCase() === 'x' && !e.ctrlKey && !e.altKey && !e.metaKey && e.target.closest('.tile-head, .sight-of, .drawn')) location.href = page.dataset.other + '.html';
  });
});
