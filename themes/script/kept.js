// Tiles kept for one's own pieces: a list on this device, nothing sent.
{
  const list = () => {
    const all = twodip.store.get('kept', []);
    return Array.isArray(all) ? all.filter(k => k && typeof k.piece === 'string' && Array.isArray(k.codes)) : [];
  };
  const today = () => {
    const d = new Date(), two = n => String(n).padStart(2, '0');
    return d.getFullYear() + '-' + two(d.getMonth() + 1) + '-' + two(d.getDate());
  };

  // guard keeps a cell from starting a formula in a spreadsheet, as the
  // program's own tables do.
  const guard = s => /^[+-]?\d+([.,]\d+)?$/.test(s) ? s : s.replace(/(^|[,;\t\r\n])('* *[=+@＝＋－＠-])/g, "$1'$2");
  const cell = s => '"' + guard(s.replace(/\0/g, '').replace(/\r\n?/g, '\n')).replace(/"/g, '""') + '"';
  // csv gives rows as the glazing log takes them.
  const csv = all => ['piece,date,first,second,note', ...all.map(k => [k.piece, k.date, k.codes[0], k.codes[1] || '', 'after tile ' + k.tile].map(cell).join(','))].join('\r\n') + '\r\n';
  twodip.keptCSV = csv;

  twodip.ready.push(() => {
    const form = twodip.byId('keep');
    if (!form) return;
    form.addEventListener('submit', e => {
      e.preventDefault();
      const line = twodip.byId('keep-line'), piece = line.value.trim();
      if (!piece) { twodip.byId('keep-says').textContent = 'Write a few words that tell your piece from another.'; line.focus(); return; }
      const all = list();
      all.push({ piece, tile: form.dataset.number, codes: form.dataset.codes.split(' '), coats: form.dataset.coats, date: today() });
      const kept = twodip.store.set('kept', all);
      twodip.byId('keep-says').textContent = kept ? 'Kept: ' + piece + '. ' + (all.length === 1 ? '1 piece' : all.length + ' pieces') + ' on your list.'
        : 'This browser does not let the page keep anything: write the number on your glazing log instead.';
      if (kept) line.value = '';
    });
  });

  twodip.ready.push(() => {
    const page = twodip.byId('kept');
    if (!page) return;
    const table = twodip.byId('kept-table'), make = twodip.make;
    const show = () => {
      const all = list();
      table.hidden = !all.length;
      for (const id of ['kept-csv', 'kept-print']) twodip.byId(id).disabled = !all.length;
      twodip.byId('kept-says').textContent = all.length ? '' : 'Nothing is kept yet. Open a tile and write a few words about your piece under “Keep it for a piece”.';
      table.tBodies[0].replaceChildren(...all.map((k, i) => {
        const remove = twodip.button('Remove', () => {
          const was = list();
          twodip.store.set('kept', was.toSpliced(i, 1));
          show();
          twodip.gone('“' + k.piece + '” is removed.', () => { twodip.store.set('kept', was); show(); }, () => table.tBodies[0].rows[i].querySelector('button')).focus();
        }, { 'aria-label': 'Remove ' + k.piece });
        return make('tr', {}, make('td', {}, make('bdi', {}, k.piece)), make('td', {}, make('a', { href: 'tile/' + encodeURIComponent(k.tile) + '.html' }, k.tile)),
          make('td', {}, k.coats), make('td', {}, k.date), make('td', {}, remove));
      }));
    };
    twodip.byId('kept-csv').addEventListener('click', () => {
      const url = URL.createObjectURL(new Blob(['\ufeff' + csv(list())], { type: 'text/csv' }));
      const a = make('a', { href: url, download: 'my-pieces.csv' });
      document.body.append(a);
      a.click();
      a.remove();
      setTimeout(() => URL.revokeObjectURL(url), 60000);
    });
    twodip.byId('kept-print').addEventListener('click', () => window.print());
    show();
  });
}
