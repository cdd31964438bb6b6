// What was typed, understood: see words.csv for the words. A question becomes
// asks: { word, does, row, side, not, or }, side being the coat it is asked of.
twodip.words = (() => {
  const { fold, split } = twodip.text;
  const sides = { first: 'second', second: 'first' };

  // table gives the rows by their words, folded, and how many words the
  // longest has.
  const table = rows => {
    const by = new Map();
    let longest = 1;
    for (const row of rows || []) {
      for (const words of row.words) {
        const key = split(words).join(' ') || words;
        by.has(key) ? by.get(key).push(row) : by.set(key, [row]);
        longest = Math.max(longest, key.split(' ').length);
      }
    }
    // Other words for one are its own words too.
    for (const row of rows || []) {
      if (row.does !== 'same') continue;
      for (const words of row.words) by.set(split(words).join(' '), row.is.flatMap(is => by.get(is) || [{ does: 'finish', words: [is], is: [is] }]));
    }
    return { by, longest };
  };

  // plainly writes signs and short forms as words.
  const plainly = text => text
    .replace(/n['’]t\b/g, ' not ').replace(/['’]s\b/g, ' ')
    .replace(/(?:\^|Δ|△)\s*(\d)/g, ' cone $1').replace(/\bcone(\d)/gi, 'cone $1')
    .replace(/->|=>|→|>/g, ' → ').replace(/[+&]/g, ' and ').replace(/(^|\s)[-−](?=\p{L})/gu, ' not ')
    .replace(/(?:#|№|\bn[or]\.?)\s*(\d{1,5})\b/gi, ' tile $1').replace(/[,;]/g, ' , ');

  // tokens splits it; each knows how it was written, and the run of words that
  // the table or a glaze's whole name holds.
  const tokens = (text, lists) => {
    const parts = (plainly(text).match(/→|,|[\p{L}\p{N}½]+(?:\.\d+)?/gu) || []).slice(0, 48);
    const flat = parts.map(fold), out = [];
    for (let i = 0; i < flat.length;) {
      let n = Math.min(lists.longest, flat.length - i), found = null;
      for (; n > 0 && !found; n--) {
        const run = flat.slice(i, i + n).join(' ');
        if (lists.names.has(run)) found = { word: run, glaze: lists.names.get(run), n };
        else if (lists.table.by.has(run)) found = { word: run, rows: lists.table.by.get(run), n };
      }
      found ??= { word: flat[i], n: 1 };
      if (found.n === 1 && parts[i] !== flat[i] && lists.codes.has(flat[i]) && parts[i] === parts[i].toUpperCase()) found = { word: flat[i], n: 1 };
      out.push({ ...found, raw: parts.slice(i, i + found.n).join(' ') });
      i += found.n;
    }
    return out;
  };
  const does = (t, ...kinds) => !!t && !!t.rows && kinds.some(k => t.rows.some(r => r.does === k));

  // read makes asks of what was typed. lists: { table, names, codes, longest }.
  const read = (text, lists) => {
    const list = tokens(text, lists), asks = [];
    const markers = list.filter(t => does(t, 'first', 'second')).length;
    const lastMarker = list.findLastIndex(t => does(t, 'first', 'second'));
    const prefixed = markers > 1 && list.slice(lastMarker + 1).some(t => !does(t, 'stop', 'break', 'and', 'over', 'under', 'then', 'after') && !/[→,]/.test(t.word));
    let part = { asks: [], side: '' }, not = false, or = false, three = false, joined = '';
    const parts = [part];
    const next = (side, how) => { part = { asks: [], side, how }; parts.push(part); joined = how; };
    const turn = side => { // side: the coat of what stands before
      if (part.asks.length) {
        if (part.how === 'order') three = true;
        part.side = side;
        part.how = 'order';
      }
      next(sides[side], 'order');
    };
    const put = ask => {
      if (or && asks.length && !ask.not === !asks.at(-1).not) (asks.at(-1).or ??= []).push(ask);
      else { asks.push(ask); part.asks.push(ask); }
      if (ask.does !== 'tone') not = not && or;
      or = false;
    };
    list.forEach((t, k) => {
      const after = list.slice(k + 1).find(o => !does(o, 'stop')), number = after && /^0?\d/.test(after.word);
      if (t.used) return;
      if (t.word === '→' || does(t, 'then')) turn('first');
      else if (t.word === ',') { if (part.asks.length) next('', 'break'); }
      else if (does(t, 'not')) not = true;
      else if (does(t, 'and', 'break')) { if (part.asks.length) next('', does(t, 'and') ? 'and' : 'break'); }
      else if (does(t, 'or')) { or = true; not = !!asks.at(-1)?.not; }
      else if (does(t, 'over')) { if (!list[k + 1] || does(after, 'ware')) return; turn('second'); }
      else if (does(t, 'under')) turn('first');
      else if (does(t, 'after')) turn('second');
      else if (does(t, 'first', 'second') && !(does(t, 'food'))) {
        const side = does(t, 'first') ? 'first' : 'second';
        if (!prefixed && part.asks.length && !part.side) { part.side = side; next('', 'marked'); } else if (part.asks.length) next(side, 'marked'); else part.side = side;
      } else if (does(t, 'cone', 'load', 'number', 'near') && number) {
        after.used = true;
        put({ does: t.rows.find(r => /^(cone|load|number|near)$/.test(r.does)).does, word: t.word + ' ' + after.word, value: after.word, not });
      } else if (does(t, 'stop') && !does(t, 'color', 'tone')) return;
      else put({ word: t.word, raw: t.raw, rows: t.rows, glaze: t.glaze, not });
    });
    for (const p of parts) for (const a of p.asks) if (p.side && !a.not) { a.side = p.side; a.how = p.how; }
    return { asks: asks.slice(0, 16), three, joined: parts.some(p => p.how === 'and') };
  };

  return { table, read, does };
})();
