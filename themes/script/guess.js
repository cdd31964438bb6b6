// Guesses of pairs that are not fired, near to a color that is looked for:
// under the tiles and apart from them, only when they are asked for.
twodip.showGuesses = (near, first, second) => {
  const { byId, make, color, guesses } = twodip, w = twodip.columns();
  const section = byId('guessed'), ask = byId('with-guesses');
  if (!section) return;
  section.hidden = !(near && ask.checked && guesses);
  if (section.hidden) return;
  const code = g => w.glazes.code[g];
  const rows = guesses.first.map((g, i) => [i, color.de00(...near.lab, ...guesses.guess.slice(3 * i, 3 * i + 3).map(v => v / 100))])
    .filter(([i]) => (!first || code(guesses.first[i]) === first) && (!second || code(guesses.second[i]) === second))
    .sort((a, b) => a[1] - b[1]).slice(0, 6);
  const glaze = (nth, g) => [make('span', { class: 'nth' }, nth), ' ', make('bdi', {}, w.glazes.name[g])];
  byId('guessed-list').replaceChildren(...rows.map(([i, away]) => {
    const swatch = make('span', { class: 'guess', 'aria-hidden': 'true' });
    swatch.style.backgroundColor = guesses.hex[i];
    return make('li', {}, make('p', { class: 'guess-of' }, swatch, ' ',
      make('span', { class: 'coats' }, ...glaze('1st', guesses.first[i]), ' ', make('span', { class: 'arrow' }, '→'), ' ', ...glaze('2nd', guesses.second[i])),
      ' ', make('span', { class: 'says' }, guesses.says[i] + ', ΔE00 ' + away.toFixed(1) + ' from what you look for')));
  }));
};
