package logbook

// Word is one fault as the trade names it.
type Word struct {
	Name  string   // the trade's word: "crawling"
	Did   string   // what pieces did: "crawled"
	Forms []string // other ways people write it
	Sign  string   // what it looks like
	Check string   // what to look at first
	Care  string   // a caution, where the fault can hurt
}

// Words is every fault the log knows, with signs and first checks (common
// practice, no source). A studio may write others; they are counted as
// written.
var Words = []Word{
	{Name: "crawling", Did: "crawled", Forms: []string{"crawl", "crawls", "crawled", "beading"},
		Sign: "bare islands with rolled edges", Check: "the zone it sits in, the time between coats, the specific gravity"},
	{Name: "crazing", Did: "crazed", Forms: []string{"craze", "crazes", "crazed", "crackle"},
		Sign: "a fine net of cracks, sometimes weeks later", Check: "the clay's lot, the cones"},
	{Name: "shivering", Did: "shivered", Forms: []string{"shiver", "shivers", "shivered", "peeling", "flaking"},
		Sign: "flakes off the rim", Check: "which clay under which glaze",
		Care: "The flakes are sharp, and more may come off later: take the pieces out of use."},
	{Name: "pinholing", Did: "pinholed", Forms: []string{"pinhole", "pinholes", "pinholed", "pin holes", "pin holing", "pin-holes"},
		Sign: "pin-size holes down to the clay", Check: "the bisque's cone, the hold at the top"},
	{Name: "blistering", Did: "blistered", Forms: []string{"blister", "blisters", "blistered", "bubbles", "bubbling"},
		Sign: "bubbles in the glaze", Check: "the guard cone, the thickness",
		Care: "Broken blisters are sharp: don't run a hand over them."},
	{Name: "cratering", Did: "cratered", Forms: []string{"crater", "craters", "cratered", "pitting", "pits"},
		Sign: "burst blisters that did not heal", Check: "the hold and the cooling",
		Care: "The edges are sharp: don't run a hand over them."},
	{Name: "running", Did: "ran", Forms: []string{"run", "runs", "ran", "runny", "drips", "dripping"},
		Sign: "a thick foot, drips", Check: "whether only overlaps ran, the cones"},
	{Name: "dunting", Did: "dunted", Forms: []string{"dunt", "dunts", "dunted", "cooling crack"},
		Sign: "a clean, sharp-edged crack through the clay", Check: "the temperature at which the kiln was opened",
		Care: "The edges are sharp, and the piece can come apart in the hand."},
	{Name: "bloating", Did: "bloated", Forms: []string{"bloat", "bloats", "bloated"},
		Sign: "lumps in the clay", Check: "the guard cone, the clay's range"},
	{Name: "underfired", Did: "came out dry or underfired", Forms: []string{"dry", "under-fired", "under fired", "dry/underfired"},
		Sign: "rough and dull", Check: "how far the cones bent"},
	{Name: "overfired", Did: "came out overfired", Forms: []string{"over-fired", "over fired"},
		Sign: "thin rims, runs, pits", Check: "the guard cone, the thermocouple"},
	{Name: "color shift", Did: "shifted in color", Forms: []string{"colour shift", "off color", "off colour", "wrong color", "wrong colour"},
		Sign: "not the color of the control", Check: "the control tile of the same shelf"},
	{Name: "fuming", Did: "were fumed", Forms: []string{"fume", "fumed", "blush", "fume/blush", "flashing"},
		Sign: "pink or green beside copper or chrome ware", Check: "what stood next to it"},
	{Name: "specks", Did: "had specks", Forms: []string{"speck", "specked", "specking", "spots"},
		Sign: "foreign dots", Check: "the bucket through a sieve, the shelf above"},
	{Name: "kissing", Did: "kissed", Forms: []string{"kiss", "kissed", "touching", "stuck together"},
		Sign: "two pieces joined, a scar", Check: "the load map: the gap between pieces"},
	{Name: "fused to shelf", Did: "fused to the shelf", Forms: []string{"fused", "stuck to shelf", "stuck", "stuck to the shelf", "fused to the shelf"},
		Sign: "the foot is stuck", Check: "how far up the foot is bare, whether it stood on a waste slab",
		Care: "Chipped glaze on a shelf is sharp: eye protection and gloves when you take it off."},
}

// unnamed stands for a piece that is said to be faulty without a word for it.
const unnamed = "fault not named"

// FindWord returns the trade's word with this name; a studio's own word comes
// back as it is.
func FindWord(name string) Word {
	for _, w := range Words {
		if w.Name == name {
			return w
		}
	}
	if name == unnamed {
		return Word{Name: name, Did: "had a fault that is not named"}
	}
	return Word{Name: name, Did: "had “" + name + "”"}
}

// Look says what the fault looks like and what to look at first; "" for a
// studio's own word.
func (w Word) Look() string {
	if w.Sign == "" {
		return ""
	}
	return "What it is: " + w.Sign + ". Look first at: " + w.Check + "."
}

// wordForms maps every known way of writing to the trade's word.
var wordForms = func() map[string]string {
	forms := map[string]string{unnamed: unnamed}
	for _, w := range Words {
		forms[w.Name] = w.Name
		for _, f := range w.Forms {
			forms[f] = w.Name
		}
	}
	return forms
}()
