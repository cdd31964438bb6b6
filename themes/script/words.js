// Finding by words: a dictionary a column, and one pass over the columns.
// Names, finishes, colors and faults match by their beginning and forgive a
// typo; codes and numbers match exactly or not at all.
twodip.words = (() => {
  const fold = s => s.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
  const split = s => fold(s).match(/[\p{L}\p{N}]+/gu) || [];
  const exact = 4, begins = 3, typo = 1;

  // terms maps each word of a dictionary's entries to the entries that hold it.
  const terms = entries => {
    const map = new Map();
    entries.forEach((entry, i) => {
      for (const t of new Set(split(entry))) map.has(t) ? map.get(t).push(i) : map.set(t, [i]);
    });
    return { map, size: entries.length };
  };

  // apart is the number of letters to change, add, leave out or swap with
  // their neighbor (optimal string alignment), given up beyond most.
  const apart = (a, b, most) => {
    if (Math.abs(a.length - b.length) > most) return most + 1;
    let before = [], last = [...Array(b.length + 1).keys()];
    for (let i = 1; i <= a.length; i++) {
      const row = [i];
      for (let j = 1; j <= b.length; j++) {
        row[j] = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
        if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) row[j] = Math.min(row[j], before[j - 2] + 1);
      }
      before = last;
      last = row;
    }
    return last[b.length];
  };
  const forgiven = word => word.length < 4 || /\p{N}/u.test(word) ? 0 : word.length < 8 ? 1 : 2;

  // matches gives each entry of a dictionary how well it fits the word.
  const matches = (dictionary, word, strict) => {
    const fit = new Uint8Array(dictionary.size), most = strict ? 0 : forgiven(word);
    for (const [term, entries] of dictionary.map) {
      let how = 0;
      if (term === word) how = exact;
      else if (!strict && !/\p{N}/u.test(word) && term.startsWith(word)) how = begins;
      else if (most && (apart(word, term, most) <= most || (term.length > word.length && apart(word, term.slice(0, word.length), 1) <= 1))) how = typo;
      if (how) for (const e of entries) fit[e] = Math.max(fit[e], how);
    }
    return fit;
  };

  const build = w => {
    const g = w.glazes;
    return {
      glaze: terms(g.name.map((name, i) => [name, g.finish[i], g.words[i]].join(' '))),
      code: g.code.map(fold),
      name: terms(w.dict.name),
      status: terms(w.dict.status),
      seen: terms(w.dict.seen),
    };
  };

  // read splits what was typed into asks: a word, the side it is asked of
  // (1st, 2nd or either), and pairs such as "cone 6" and "load 3" joined.
  const read = text => {
    const asks = [];
    const parts = fold(text).replace(/->|=>|>|→/g, ' → ').match(/→|[\p{L}\p{N}]+/gu) || [];
    const arrow = parts.indexOf('→');
    let side = arrow >= 0 ? 'first' : '';
    for (let i = 0; i < parts.length; i++) {
      const p = parts[i];
      if (p === '→') side = 'second';
      else if (p === '1st' || p === 'first') side = 'first';
      else if (p === '2nd' || p === 'second') side = 'second';
      else if (/^(cone|load|tile)$/.test(p) && i + 1 < parts.length && /\p{N}/u.test(parts[i + 1])) asks.push({ word: p + ' ' + parts[++i], side: '' });
      else if (p === 'due' && parts[i + 1] === 'again') asks.push({ word: parts[i++], side: '' }); // "again" alone is two coats of one glaze
      else asks.push({ word: p, side });
    }
    return asks.slice(0, 16);
  };

  // plan turns one ask into a test of a row: 0 or how well it fits.
  const plan = (w, index, ask) => {
    const { word, side } = ask;
    const pair = /^(cone|load|tile) (.+)$/.exec(word);
    if (pair && pair[1] === 'tile') return i => w.tile[i] === Number(pair[2]) ? exact : 0;
    if (pair && pair[1] === 'load') return i => w.load[i] === Number(pair[2]) ? exact : 0;
    if (pair) return i => [w.first[i], w.second[i]].some(g => g >= 0 && fold(w.glazes.cone[g] || w.cone) === pair[2]) ? exact : 0;
    if (!side && /^t?\d+$/.test(word)) {
      const number = Number(word.replace('t', ''));
      if (w.row.has(number) || !index.code.includes(word)) return i => w.tile[i] === number ? exact : index.code[w.first[i]] === word || index.code[w.second[i]] === word ? begins : 0;
    }
    if (word === 'alone' || word === 'single') return i => w.second[i] < 0 ? exact : 0;
    if (word === 'again' || word === 'double' || word === 'twice') return i => w.second[i] === w.first[i] ? exact : 0;
    const columns = strict => {
      const glaze = matches(index.glaze, word, strict);
      index.code.forEach((c, i) => { if (c === word) glaze[i] = exact; });
      return { glaze, name: matches(index.name, word, strict), status: matches(index.status, word, strict), seen: matches(index.seen, word, strict) };
    };
    const fit = columns(false), sure = Object.values(fit).some(f => f.some(v => v > typo));
    ask.typo = !sure && Object.values(fit).some(f => f.some(v => v > 0));
    // A color that was measured says more than the name of a bucket. What is
    // decided by a dictionary is decided here, once, and not for every row.
    for (const [of, f] of Object.entries(fit)) f.forEach((v, e) => { f[e] = sure && v < begins ? 0 : v + (v && of === 'name'); });
    const asked = [];
    if (side !== 'second') asked.push([fit.glaze, w.first]);
    if (side !== 'first') asked.push([fit.glaze, w.second]);
    if (!side) asked.push([fit.name, w.name], [fit.status, w.status], [fit.seen, w.seen]);
    const used = asked.filter(([f]) => f.some(v => v > 0));
    return i => {
      let best = 0;
      for (let k = 0; k < used.length; k++) {
        const e = used[k][1][i];
        if (e >= 0 && used[k][0][e] > best) best = used[k][0][e];
      }
      return best;
    };
  };

  // find runs all conditions over all rows in one pass. tests: [{ test, of }].
  // It gives the rows that pass, how well, and, for each row that fails one
  // condition alone, which: that counts the filters and the ways to widen.
  const find = (n, tests) => {
    const rows = [], score = new Uint16Array(n), only = new Int16Array(n).fill(-2);
    for (let i = 0; i < n; i++) {
      let sum = 0, failed = -1;
      for (let k = 0; k < tests.length; k++) {
        const s = tests[k].test(i);
        if (s) sum += s;
        else if (failed < 0) failed = k;
        else { failed = -2; break; }
      }
      if (failed === -1) { rows.push(i); score[i] = sum; }
      only[i] = failed;
    }
    return { rows, score, only };
  };

  return { fold, build, read, plan, find, apart };
})();
