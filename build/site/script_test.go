package site

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
)

// These tests hold the browser's own reckoning against the program's.

// randomLabs are colors of the range glazes have, and greys among them.
func randomLabs(n int, seed uint64) []color.Lab {
	r := rand.New(rand.NewPCG(seed, 1))
	cs := make([]color.Lab, n)
	for i := range cs {
		cs[i] = color.Lab{L: 100 * r.Float64(), A: 200*r.Float64() - 100, B: 200*r.Float64() - 100}
		if i%50 == 0 {
			cs[i].A, cs[i].B = 0, 0
		}
	}
	return cs
}

// opposite hues are left out: there the formula itself jumps.
func opposite(p, q color.Lab) bool {
	dh := math.Abs(math.Atan2(p.B, p.A) - math.Atan2(q.B, q.A))
	return math.Abs(dh-math.Pi) < 1e-6
}

func flatLabs(cs []color.Lab) []float64 {
	var out []float64
	for _, c := range cs {
		out = append(out, c.L, c.A, c.B)
	}
	return out
}

func asJSON(t testing.TB, v any) string {
	b, err := json.Marshal(v)
	require.NoError(t, err)
	return string(b)
}

// "due again" is one thing to look for, though "again" alone is two coats.
func TestDueAgainIsOneAsk(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 800, 600)
	b.visit(fileURL(dir, "index.html"))
	words := func(text string) []string {
		return eval[[]string](b, fmt.Sprintf(`twodip.words.read(%q, twodip.ask.build(twodip.columns()).lists).asks.map(ask => ask.word)`, text))
	}
	assert.Equal(t, []string{"due again"}, words("Due again"))
	assert.Equal(t, []string{"milk", "again"}, words("milk again"))
}

func TestTheScriptsDE00IsTheProgramsOwn(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 800, 600)
	b.visit(fileURL(dir, "index.html"))
	pairs := 100_000
	if testing.Short() {
		pairs = 10_000
	}
	p, q := randomLabs(pairs, 1), randomLabs(pairs, 2)
	got := eval[[]float64](b, fmt.Sprintf(`(() => { const p = %s, q = %s, out = [];
		for (let i = 0; i < p.length; i += 3) out.push(twodip.color.de00(p[i], p[i+1], p[i+2], q[i], q[i+1], q[i+2])); return out })()`,
		asJSON(t, flatLabs(p)), asJSON(t, flatLabs(q))))
	worst := 0.0
	for i := range p {
		if !opposite(p[i], q[i]) {
			worst = max(worst, math.Abs(got[i]-color.DE00(p[i], q[i])))
		}
	}
	t.Logf("largest difference over %d pairs: %.2g", pairs, worst)
	assert.LessOrEqual(t, worst, 1e-9)
}

func TestTheScriptsDE00GivesPublishedPairs(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 800, 600)
	b.visit(fileURL(dir, "index.html"))
	// Sharma, Wu and Dalal (2005), table 1, pairs 1, 7, 9, 25 and 34.
	for _, pair := range []struct{ p, q, want string }{
		{"50, 2.6772, -79.7751", "50, 0, -82.7485", "2.0425"},
		{"50, 0, 0", "50, -1, 2", "2.3669"},
		{"50, 2.49, -0.001", "50, -2.49, 0.0009", "7.1792"},
		{"60.2574, -34.0099, 36.2677", "60.4626, -34.1751, 39.4387", "1.2644"},
		{"2.0776, 0.0795, -1.1350", "0.9033, -0.0636, -0.5514", "0.9082"},
	} {
		assert.Equal(t, pair.want, eval[string](b, "twodip.color.de00("+pair.p+", "+pair.q+").toFixed(4)"), pair.p)
	}
}

func TestTheScriptReadsColorsAsTheProgramDoes(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 800, 600)
	b.visit(fileURL(dir, "index.html"))
	for _, text := range []string{"#5a7f91", "5A7F91", "#fff", "#000000", "lab(48 -8 -14)", "48, −8, −14", "lab(48% -8 -14)"} {
		got := eval[[]float64](b, "twodip.color.parse("+asJSON(t, text)+", twodip.columns())")
		want := color.Lab{L: 48, A: -8, B: -14}
		if text[0] == '#' || len(text) == 6 {
			var err error
			want, err = color.Parse("#" + text[len(text)-min(len(text), 6):])
			if text == "#fff" {
				want, err = color.Parse("#ffffff")
			}
			require.NoError(t, err)
		}
		assert.InDeltaSlice(t, []float64{want.L, want.A, want.B}, got, 1e-9, text)
	}
	for _, text := range []string{"", "blue", "48 -8", "101 0 0", "50 900 0", "#12345", "tile 7"} {
		assert.True(t, eval[bool](b, "twodip.color.parse("+asJSON(t, text)+", twodip.columns()) === null"), text)
	}
}

func TestThePrunedSearchIsExact(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 800, 600)
	b.visit(fileURL(dir, "index.html"))
	n, targets := 100_000, 30
	if testing.Short() {
		n, targets = 20_000, 10
	}
	// Half of the list crowds together, as a wall of like glazes does.
	said := eval[string](b, fmt.Sprintf(`(() => {
		let s = 7; const random = () => (s = (s * 1103515245 + 12345) %% 2147483648) / 2147483648;
		const n = %d, colors = new Float64Array(3 * n), owner = new Uint32Array(n);
		for (let i = 0; i < n; i++) {
			const near = i %% 2;
			colors[3*i] = near ? 45 + 10 * random() : 100 * random();
			colors[3*i+1] = near ? -8 + 6 * random() : 160 * random() - 80;
			colors[3*i+2] = near ? -14 + 6 * random() : 160 * random() - 80;
			owner[i] = i >> 1;
		}
		const list = twodip.color.sorted(colors, owner), took = [];
		for (let k = 0; k < %d; k++) {
			const target = [100 * random(), 120 * random() - 60, 120 * random() - 60];
			if (k %% 3 === 0) target.splice(0, 3, 48, -6, -12);
			const start = performance.now();
			const pruned = twodip.color.nearest(list, target, 24, null, true);
			took.push(performance.now() - start);
			const brute = twodip.color.nearest(list, target, 24, null, false);
			if (JSON.stringify(pruned) !== JSON.stringify(brute)) return 'differs at ' + target;
			if (new Set(pruned.map(p => p[0])).size !== 24) return 'an owner stands twice';
		}
		took.sort((a, b) => a - b);
		return 'same, median ' + took[took.length >> 1].toFixed(2) + ' ms, longest ' + took[took.length - 1].toFixed(2) + ' ms';
	})()`, n, targets))
	assert.Regexp(t, `^same, `, said)
	t.Logf("%d colors: %s (aim: 5 ms)", n, said)
}

func TestSearchByWordsAtFiftyThousandTiles(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 800, 600)
	b.visit(fileURL(dir, "index.html"))
	said := eval[map[string]any](b, `(() => {
		const g = 224, n = g * g, w = { n, cone: '6', glazes: { code: [], name: [], finish: [], words: [], cone: [] },
			dict: { name: [], status: ['fired', 'planned'], seen: ['crawling'], marks: [] }, first: [], second: [], name: [], status: [], seen: [], tile: [], load: [], row: new Map(), lab: new Float64Array(3 * n), read: new Uint8Array(n), mottle: new Uint8Array(n), marks: new Uint8Array(n), repeat: new Uint8Array(n) };
		const a = ['amber', 'barley', 'cinder', 'dune', 'ember', 'fen', 'gorse', 'heron'], c = ['satin', 'matte', 'gloss'];
		for (let i = 0; i < g; i++) { w.glazes.code.push('G' + i); w.glazes.name.push(a[i % 8] + ' ' + a[(i >> 3) % 8] + ' glaze' + String.fromCharCode(97 + i % 26)); w.glazes.finish.push(c[i % 3]); w.glazes.words.push(''); w.glazes.cone.push('6'); }
		for (let i = 0; i < 267; i++) w.dict.name.push('moderate ' + a[i % 8] + String.fromCharCode(97 + i % 26) + ' tone');
		for (let i = 0; i < n; i++) { w.tile.push(i + 1); w.row.set(i + 1, i); w.first.push(i / g | 0); w.second.push(i % g); w.name.push(i % 267); w.status.push(i % 2); w.seen.push(i % 97 ? -1 : 0); w.load.push(1 + i % 9); }
		let start = performance.now(); const index = twodip.ask.build(w); const built = performance.now() - start, took = [];
		for (const text of ['amber', 'ambr satin', 'fen → heron', 'crawl', '40321', 'moderate gorse planned', 'zzzzzz', 'em']) for (let k = 0; k < 5; k++) {
			start = performance.now();
			twodip.ask.find(n, twodip.ask.plan(w, index, text).tests);
			took.push(performance.now() - start);
		}
		took.sort((p, q) => p - q);
		return { built, p95: took[Math.floor(took.length * 0.95)], n };
	})()`)
	t.Logf("%v tiles: index %.2f ms (aim: 5), search p95 %.2f ms (aim: 16)", said["n"], said["built"], said["p95"])
	assert.EqualValues(t, 224*224, said["n"])
}
