'use strict';
// Words as people write them: folded, split, and matched to a dictionary by
// their beginning, forgiving a typo.
twodip.text = (() => {
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

  // matches gives each entry of a dictionary how well it fits the word. A short
  // word fits no other word's beginning.
  const matches = (dictionary, word, forgive) => {
    const fit = new Uint8Array(dictionary.size), most = forgive ? forgiven(word) : 0;
    const one = word.length > 3 && word.endsWith('s') ? word.slice(0, -1) : word;
    for (const [term, entries] of dictionary.map) {
      let how = 0;
      if (term === word || term === one) how = exact;
      else if (word.length > 2 && !/\p{N}/u.test(word) && (term.startsWith(word) || (one.length > 2 && term.startsWith(one)))) how = begins;
      else if (most && (apart(word, term, most) <= most || (term.length > word.length && apart(word, term.slice(0, word.length), 1) <= 1))) how = typo;
      if (how) for (const e of entries) fit[e] = Math.max(fit[e], how);
    }
    return fit;
  };
  const any = fit => fit.some(v => v > 0);

  return { fold, split, terms, apart, forgiven, matches, any, exact, begins, typo };
})();
