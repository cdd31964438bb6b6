// Asks made into tests of a tile: 0, or how well it fits. What a dictionary
// decides is decided once and not for every row.
twodip.ask = (() => {
  const { fold, split, terms, matches, any, apart, forgiven, exact, begins, typo } = twodip.text;
  const { does } = twodip.words;
  const own = 6; // a glaze's own name or code says more than any description

  const build = w => {
    const g = w.glazes, names = new Map();
    g.name.forEach((name, i) => { const all = split(name); if (all.length > 1) names.set(all.join(' '), i); });
    const table = twodip.words.table(w.words);
    const lists = { table, names, codes: new Set(g.code.map(fold)), longest: Math.max(table.longest, ...g.name.map(n => split(n).length)) };
    return {
      lists, code: g.code.map(fold), glaze: terms(g.name), finish: terms(g.finish), told: terms(g.words),
      colors: w.dict.name.map(split), name: terms(w.dict.name), status: terms(w.dict.status), seen: terms(w.dict.seen),
    };
  };

  const inside = (box, L, A, B) => {
    const C2 = A * A + B * B, from = box[4], to = box[5];
    if (L < box[0] || L > box[1] || C2 < box[2] * box[2] || C2 > box[3] * box[3]) return false;
    if (from === 0 && to === 360) return true;
    let h = Math.atan2(B, A) * 180 / Math.PI;
    if (h < 0) h += 360;
    return from <= to ? h >= from && h <= to : h >= from || h <= to;
  };
  // middle is the color that stands for a region, to put near ones first.
  const middle = box => {
    const L = (box[0] + box[1]) / 2, C = box[3] < 200 ? (box[2] + box[3]) / 2 : Math.max(box[2] * 1.6, 20);
    const h = (box[4] + (box[5] - box[4] + (box[4] > box[5] ? 360 : 0)) / 2) * Math.PI / 180;
    return [L, C * Math.cos(h), C * Math.sin(h)];
  };

  // plain is how well each name of the ISCC–NBS system fits a color's plain
  // name: the last word of "light greenish gray" is the color, "greenish" leans
  // that way. What only leans to yellow is no yellow to anybody.
  const plain = (index, is) => index.colors.map(words => {
    if (words.at(-1) === is) return 3;
    if (is === 'olive' && words.includes('olive')) return 3;
    if (is === 'yellow' || is === 'white' || is === 'black' || words.at(-1) === 'black') return 0;
    return words.some(t => t === is || t === is + 'ish' || (is === 'gray' && t === 'grayish') || (is === 'red' && t === 'reddish')) ? (is === 'gray' ? 0 : 1) : 0;
  });

  // colored tests a tile's measured color, and, where that fails, the two main
  // colors of a mottled one.
  const colored = (w, index, rows, tones) => {
    const fits = rows.map(r => ({ box: r.box, fit: r.is && r.does === 'color' ? plain(index, r.is[0]) : null }));
    const of = (L, A, B, name) => {
      let best = 0;
      for (let k = 0; k < fits.length; k++) {
        const f = fits[k];
        if (f.fit && name >= 0 && f.fit[name] > best) best = f.fit[name];
        if (f.box && best < 3 && inside(f.box, L, A, B)) best = f.fit ? 2 : 3;
      }
      return best;
    };
    return i => {
      if (!w.read[i]) return 0;
      const at = 3 * i, fit = of(w.lab[at], w.lab[at + 1], w.lab[at + 2], w.name[i]);
      if (fit || tones || !w.parts || !w.mottle[i]) return fit;
      const p = w.parts, k = 6 * i;
      return Math.max(of(p[k], p[k + 1], p[k + 2], -1), of(p[k + 3], p[k + 4], p[k + 5], -1)) ? 1 : 0;
    };
  };

  const markBit = (w, id) => 1 << w.dict.marks.findIndex(m => m.id === id);
  const marked = (w, id) => { const bit = markBit(w, id); return i => w.marks[i] & bit ? exact : 0; };
  const seenAs = (w, word) => { const has = w.dict.seen.map(s => split(s).includes(word)); return i => w.seen[i] >= 0 && has[w.seen[i]] ? begins : 0; };
  const either = (...tests) => tests.length === 1 ? tests[0] : i => {
    let best = 0;
    for (let k = 0; k < tests.length; k++) {
      const fit = tests[k](i);
      if (fit > best) best = fit;
    }
    return best;
  };

  // ofGlazes makes a test of how well each glaze fits, on the side asked for.
  const ofGlazes = (w, fit, side) => i => {
    const a = side !== 'second' ? fit[w.first[i]] : 0, b = side !== 'first' && w.second[i] >= 0 ? fit[w.second[i]] : 0;
    return a > b ? a : b;
  };
  const best = (n, ...lists) => Uint8Array.from({ length: n }, (_, i) => Math.max(...lists.map(l => l[i])));

  // glazeColored gives each glaze how well its own tile fits a color.
  const glazeColored = (w, test) => {
    const fit = new Uint8Array(w.glazes.code.length);
    for (let i = 0; i < w.n; i++) if (!w.repeat[i] && (w.second[i] < 0 || w.second[i] === w.first[i])) fit[w.first[i]] = Math.max(fit[w.first[i]], test(i));
    return fit;
  };

  const tests = {
    alone: w => i => w.second[i] < 0 ? exact : 0,
    twice: w => i => w.second[i] === w.first[i] ? exact : 0,
    liner: w => { const never = marked(w, 'food'); return i => w.second[i] < 0 && !never(i) ? exact : 0; },
    ware: w => { const never = marked(w, 'food'); return i => never(i) ? 0 : 1; },
    harm: w => either(marked(w, 'food'), marked(w, 'gloves')),
    runs: w => either(marked(w, 'runs'), seenAs(w, 'running')),
    crawls: w => either(marked(w, 'crawls'), seenAs(w, 'crawling')),
    gloves: w => marked(w, 'gloves'),
    faults: w => marked(w, 'faults'),
    mottled: w => i => w.mottle[i] ? begins : 0,
    even: w => i => w.read[i] && !w.mottle[i] ? typo : 0,
    ready: w => i => w.readyAt && w.readyAt(i) ? exact : 0,
    photo: w => i => w.photo[i] ? typo : 0,
    due: w => { const due = w.dict.status.map(s => s.includes('due again')); return i => due[w.status[i]] ? exact : 0; },
  };

  // A word about food is answered with advice, and with the tiles of one glaze
  // that nothing speaks against; "not for food" with those never to be used.
  const food = (w, ask, pairs) => {
    const never = marked(w, 'food');
    if (ask.not) return never;
    return i => never(i) || (!pairs && w.second[i] >= 0) ? 0 : exact;
  };

  const byNumber = (w, index, ask) => {
    const value = ask.value.replace(/^t/, ''), n = Number(value);
    if (ask.does === 'number') return i => w.tile[i] === n ? exact : 0;
    if (ask.does === 'load') return i => w.load[i] === n ? exact : 0;
    const cone = s => fold(s).replace('½', '.5').replace(/^cone\s*/, '');
    return i => [w.first[i], w.second[i]].some(g => g >= 0 && cone(w.glazes.cone[g] || w.cone) === cone(value)) ? exact : 0;
  };

  // described finds a word among what the glaze list, the record and the
  // colors' names say.
  const described = (w, index, ask, word, forgive) => {
    const n = w.glazes.code.length, { side } = ask;
    const raise = (fit, by) => fit.map(v => v ? v + by : 0);
    const names = raise(matches(index.glaze, word, forgive), own - exact);
    index.code.forEach((c, g) => { if (c === word) names[g] = own; });
    const told = matches(index.told, word, false).map(v => v ? v - 1 : 0);
    const fit = best(n, names, matches(index.finish, word, forgive), told);
    ask.names = any(names);
    const named = names.some(v => v === own); // whose name it is needs no description
    const parts = any(fit) ? [ofGlazes(w, named ? names.map(v => v === own ? v : 0) : fit, side)] : [];
    if (!side && !named) {
      for (const [of, column] of [['name', w.name], ['status', w.status], ['seen', w.seen]]) {
        if (of === 'seen' && word.length < 4) continue;
        const f = matches(index[of], word, forgive);
        if (any(f)) parts.push(i => column[i] >= 0 ? f[column[i]] : 0);
      }
    }
    return parts;
  };

  // ofTable makes a test of a word that the table holds; glazes whose name has
  // the word come first.
  const ofTable = (w, index, ask, pairs) => {
    const colors = ask.rows.filter(r => r.does === 'color' || r.does === 'tone'), parts = [];
    const plainName = colors.some(r => r.does === 'color' && r.is);
    if (colors.length) {
      const test = colored(w, index, colors, colors.every(r => r.does === 'tone'));
      const box = colors.find(r => r.box);
      if (box && !ask.not) ask.near = middle(box.box);
      ask.colored = true;
      parts.push(ask.side ? ofGlazes(w, glazeColored(w, test), ask.side) : test);
      if (plainName && !ask.side) { // of a tile without a color the list's words must do
        const named = ofGlazes(w, best(w.glazes.code.length, matches(index.told, colors[0].is[0], false), matches(index.glaze, colors[0].is[0], false)), '');
        parts.push(i => w.read[i] ? 0 : named(i) ? 1 : 0);
      }
    }
    for (const r of ask.rows) {
      if (r.does === 'food') parts.push(food(w, ask, pairs));
      else if (r.does === 'text' || r.does === 'finish') {
        const fit = best(w.glazes.code.length, ...r.is.flatMap(is => [matches(index.finish, is, false), matches(index.told, is, false).map(v => v && r.does === 'text' ? v - 1 : r.does === 'text' ? v : 0)]));
        parts.push(ofGlazes(w, fit, ask.side));
      } else if (tests[r.does]) parts.push(tests[r.does](w));
    }
    ask.advice = ask.rows.some(r => /^(food|harm|ware|liner)$/.test(r.does));
    if (!plainName && !ask.advice) {
      const named = matches(index.glaze, ask.word, false).map(v => v === exact ? own : 0);
      index.code.forEach((c, g) => { if (c === ask.word) named[g] = own; });
      if (any(named)) {
        ask.names = true;
        if (ask.side || ask.not) parts.length = 0; // of a coat, or to leave out, a name says enough
        parts.push(ofGlazes(w, named, ask.side));
      }
      const told = matches(index.told, ask.word, false).map(v => v === exact ? typo : 0);
      if (colors.length && any(told) && !any(named) && !ask.side && !ask.not) parts.push(i => told[w.second[i] < 0 ? w.first[i] : w.second[i]]); // what lies on top is seen
      if (any(told) && ask.rows.some(r => /^(text|mottled|even)$/.test(r.does))) parts.push(ofGlazes(w, told, ask.side));
    }
    if (ask.rows.some(r => r.does === 'ware') && !ask.not) return tests.ware(w);
    return either(...parts);
  };

  // nearest is the word of the table that a mistyped one may mean.
  const nearest = (index, word) => {
    const most = forgiven(word);
    let found = '', least = most + 1;
    if (most) for (const [w, rows] of index.lists.table.by) {
      if (w.includes(' ') || w.length < 4 || !rows.some(r => /^(color|tone|finish|text|food|runs|crawls|mottled|ware|liner)$/.test(r.does))) continue;
      const d = apart(word, w, most);
      if (d < least || (d === least && d <= most && w.length > found.length)) { least = d; found = w; } // a letter left out is the likelier slip
    }
    return found;
  };

  const one = (w, index, ask, pairs) => {
    if (ask.does) return ask.does === 'near' ? nearTile(w, ask) : byNumber(w, index, ask);
    if (ask.glaze !== undefined) {
      const fit = new Uint8Array(w.glazes.code.length);
      fit[ask.glaze] = own;
      ask.names = true;
      return ofGlazes(w, fit, ask.side);
    }
    if (ask.rows) return ofTable(w, index, ask, pairs);
    if (!ask.side && /^t?\d+$/.test(ask.word)) {
      const number = Number(ask.word.replace('t', ''));
      if (w.row.has(number) || !index.code.includes(ask.word)) return i => w.tile[i] === number ? exact : index.code[w.first[i]] === ask.word || index.code[w.second[i]] === ask.word ? begins : 0;
    }
    const sure = described(w, index, ask, ask.word, false);
    if (sure.length) return either(...sure);
    const meant = nearest(index, ask.word);
    const loose = described(w, index, ask, ask.word, true);
    if (loose.length && (!meant || ask.names)) { ask.typo = true; return either(...loose); }
    if (meant) {
      ask.meant = meant;
      ask.typo = true;
      ask.rows = index.lists.table.by.get(meant);
      return ofTable(w, index, { ...ask, word: meant }, pairs);
    }
    ask.unknown = true;
    return null;
  };

  const nearTile = (w, ask) => {
    const i = w.row.get(Number(ask.value));
    if (i === undefined || !w.read[i]) { ask.unknown = true; return null; }
    ask.tile = i;
    ask.near = w.labOf(i);
    return k => w.read[k] && k !== i ? 1 : 0;
  };

  // settle gives a glaze the coat that is left: "rust with milk on top".
  const settle = (asks, joined) => {
    const sided = asks.filter(a => a.side && a.how !== 'order'), free = asks.filter(a => !a.side && !a.not && !a.does && a.names);
    if (sided.length && free.length && asks.every(a => a.how !== 'order') && new Set(sided.map(a => a.side)).size === 1 && sided.some(a => a.names)) {
      for (const a of free) a.side = sided[0].side === 'first' ? 'second' : 'first';
      return true;
    }
    return false;
  };

  // plan reads what was typed and makes its tests: { asks, tests, left, sides }.
  // What nothing on this wall is called is left out, and said.
  const plan = (w, index, text) => {
    const { asks, three, joined } = twodip.words.read(text, index.lists);
    const make = () => {
      const glazes = asks.filter(a => a.glaze !== undefined || a.side).length;
      for (const a of asks) {
        const tests = [a, ...(a.or || [])].map(o => one(w, index, o, glazes > 0)).filter(Boolean);
        a.test = tests.length > 1 ? either(...tests) : tests[0] || null;
      }
    };
    make();
    const lost = asks.filter(a => !a.test);
    let again = false;
    for (const side of ['first', 'second']) { // "on porcelain" is no order
      if (lost.some(a => a.side === side) && !asks.some(a => a.test && a.side === side)) { for (const a of asks) if (a.how === 'order') { a.side = ''; a.how = ''; } again = true; }
    }
    if (settle(asks, joined) || again) make();
    const used = asks.filter(a => a.test);
    const apply = a => a.not && !(a.rows && a.rows.some(r => r.does === 'food')) ? i => a.test(i) || (a.colored && !w.read[i]) ? 0 : typo : a.test;
    const tests = used.map(a => ({ ask: a, name: said(a), test: apply(a) }));
    if (used.some(a => a.side) && !used.some(a => a.side === 'first' && !a.not) !== !used.some(a => a.side === 'second' && !a.not) && !used.some(a => a.rows && does(a, 'alone'))) {
      const lone = used.find(a => a.side);
      if (lone.how === 'order') tests.push({ ask: null, name: 'two coats', test: i => w.second[i] >= 0 && w.second[i] !== w.first[i] ? typo : 0 });
    }
    if (joined) { apartSides(w, tests); byCoats(w, index, tests); }
    return { tests, left: lost.map(a => a.raw || a.word).filter(word => word.length > 2 || /\p{N}/u.test(word)), asks: used, advice: used.some(a => a.advice), three };
  };

  // apartSides: two glazes joined by "and" lie one on the other; one glaze that
  // fits both words is not enough.
  const apartSides = (w, tests) => {
    const named = tests.filter(t => t.ask && t.ask.names && !t.ask.side && !t.ask.not);
    if (named.length === 2) tests.push({ ask: null, name: 'two glazes', test: i => w.second[i] >= 0 && w.second[i] !== w.first[i] ? typo : 0 });
  };

  // byCoats: of two colors joined by "and" each may be one of the coats.
  const byCoats = (w, index, tests) => {
    const two = tests.filter(t => t.ask && t.ask.colored && !t.ask.side && !t.ask.not && t.ask.rows.some(r => r.does === 'color'));
    if (two.length < 2) return;
    for (const t of two) {
      const test = t.test, coat = ofGlazes(w, glazeColored(w, colored(w, index, t.ask.rows.filter(r => r.does === 'color'), false)), '');
      t.test = i => test(i) || (coat(i) ? 1 : 0);
    }
  };

  const said = a => (a.not ? 'not ' : '') + (a.side === 'first' ? '1st ' : a.side === 'second' ? '2nd ' : '') + [a, ...(a.or || [])].map(o => o.raw || o.word).join(' or ');

  // closeness sorts tiles that fit equally well: the nearer to the middle of the
  // colors asked for, the sooner.
  const closeness = (w, asks) => {
    const middles = asks.filter(a => a.near).map(a => a.near);
    if (!middles.length) return null;
    return i => {
      let sum = 0;
      for (const m of middles) sum += Math.hypot(w.lab[3 * i] - m[0], w.lab[3 * i + 1] - m[1], w.lab[3 * i + 2] - m[2]);
      return sum;
    };
  };

  // find runs all conditions over all rows in one pass. tests: [{ test }]. It
  // gives the rows that pass, how well, and, for each row that fails one
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

  // search answers a question by words alone: the rows, best first.
  const search = (w, index, text) => {
    const p = plan(w, index, text), found = find(w.n, p.tests), near = closeness(w, p.asks);
    const rows = found.rows.sort((a, b) => found.score[b] - found.score[a] || w.repeat[a] - w.repeat[b] || (near ? near(a) - near(b) : 0) || a - b);
    return { ...p, rows: p.tests.length ? rows : [] };
  };

  return { build, plan, find, closeness, search };
})();
