package bench

import (
	"fmt"
	"net/url"
	"slices"
	"strconv"

	"github.com/twodip/twodip/build/contact"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func photosRoom() room {
	return room{path: "/photographs", name: "Photographs", file: "photos", wall: true, show: (*Bench).showPhotos,
		does: map[string]does{"bring": (*Bench).bringPhotos, "read": (*Bench).readNew, "set": (*Bench).setPhoto},
		more: map[string]moreWays{"picture": (*Bench).photoPicture, "part": (*Bench).partPicture, "card": (*Bench).photoCardAlone, "refused": (*Bench).refusedPhotos},
	}
}

// photosPage is what the page shows.
type photosPage struct {
	Cards   []photoCard
	Count   int
	Doubted int
	Unread  int
	Pages   []link
	Most    int       // cards that a page shows
	One     *photoOne // the photo that is looked at closely
	Going   bool      // photographs are being read
}

// Reads: while photographs are read the page shows them as they come, and is
// not to begin anew with each.
func (p photosPage) Reads() []string {
	if p.Going {
		return []string{record.ByHandFile}
	}
	return []string{record.ByHandFile, "tiles/measured.csv", record.PlanFile}
}

func (photosPage) Script() string { return "photos.js" }

// photoCard is one photo with what was found in it.
type photoCard struct {
	Name     string
	Tile     string // "31", "a board of 12 tiles", "" = no number was read
	Pair     string
	Address  string // of the photo's own page
	Picture  string
	Drawing  *overlay
	Rows     []zoneRow
	Wrong    []string // why it could not be read
	Doubts   []string
	Fits     []tiles.Number
	Seen     string // of by-hand.csv
	rank     int
	readings []tiles.Reading
}

// overlay is what was found, as an SVG over the picture shows it.
type overlay struct {
	Width, Height                    int
	Outlines, Zones, Reference, Card []string
}

// zoneRow is a reading.
type zoneRow struct{ Tile, Zone, Hex, Lab, Doubt, Correction, Found string }

// Ranks: what a person should look at comes first.
const (
	rankWrong = iota
	rankUnread
	rankMistaken
	rankWarned
	rankRead
)

// cardsAPage is how many photos are shown at once.
const cardsAPage = 48

func (b *Bench) showPhotos(a *asked) (any, error) {
	cards, wall, err := b.photoCards(a.dir)
	if err != nil {
		return nil, err
	}
	page := photosPage{Count: len(cards), Most: cardsAPage, Going: a.work.Going}
	if name := a.FormValue("photo"); name != "" {
		page.One, err = b.newPhotoOne(a, wall, cards, name)
		return page, err
	}
	for _, c := range cards {
		switch {
		case c.rank == rankUnread:
			page.Unread++
		case c.rank < rankRead:
			page.Doubted++
		}
	}
	at, _ := strconv.Atoi(a.FormValue("page"))
	pages := (len(cards) + cardsAPage - 1) / cardsAPage
	at = min(max(at, 1), max(pages, 1))
	for n := 1; n <= pages && pages > 1; n++ {
		page.Pages = append(page.Pages, link{Href: "/photographs?page=" + strconv.Itoa(n), Text: strconv.Itoa(n), Current: n == at})
	}
	page.Cards = cards[min((at-1)*cardsAPage, len(cards)):min(at*cardsAPage, len(cards))]
	for i := range page.Cards {
		page.Cards[i].draw(a.dir)
	}
	return page, nil
}

// photoCards are all photos of the wall, those to look at first; not yet drawn.
func (b *Bench) photoCards(dir folder.Folder) ([]photoCard, tiles.Wall, error) {
	going := b.work.busy() // asked before the readings are, which it writes
	wall, err := run.Load(dir)
	if err != nil {
		return nil, wall, err
	}
	names, err := dir.ListPhotos()
	if err != nil {
		return nil, wall, err
	}
	_, seen, err := run.Look(dir, record.ByHandFile)
	if err != nil {
		return nil, wall, err
	}
	of := map[string][]tiles.Reading{}
	for _, r := range wall.Readings {
		of[tiles.Composed(r.Photo)] = append(of[tiles.Composed(r.Photo)], r)
	}
	doubted := map[string]run.Doubted{}
	for _, d := range run.Mistaken(wall) {
		doubted[d.Photo] = d
	}
	found := b.reading.all(dir)
	var cards []photoCard
	for _, name := range names {
		c := photoCard{Name: name, Seen: seen, readings: of[tiles.Composed(name)], rank: rankRead}
		p, known := found[name]
		if known && !p.Unchanged && going && p.Problem == nil {
			c.readings = p.Readings // not kept yet, or just now
		}
		c.fill(wall, p, doubted[name])
		cards = append(cards, c)
	}
	slices.SortStableFunc(cards, func(p, q photoCard) int { return p.rank - q.rank })
	return cards, wall, nil
}

// fill says what is known of the photo.
func (c *photoCard) fill(wall tiles.Wall, found run.PhotoRead, doubted run.Doubted) {
	q := url.Values{"photo": {c.Name}}.Encode()
	c.Address = "/photographs?" + q
	c.Picture = "/photographs/picture?" + q
	if found.Problem != nil {
		c.Wrong = append(c.Wrong, found.Problem.What+orEmpty("; ", found.Problem.Do))
		c.rank = rankWrong
	}
	var numbers []tiles.Number
	for _, r := range c.readings {
		if !slices.Contains(numbers, r.Tile) {
			numbers = append(numbers, r.Tile)
		}
		if r.Warning != "" && !slices.Contains(c.Doubts, r.Warning) {
			c.Doubts = append(c.Doubts, r.Warning)
		}
		c.Rows = append(c.Rows, newZoneRow(r))
	}
	switch {
	case len(numbers) == 1:
		c.Tile = numbers[0].String()
		if t, ok := wall.Tile(numbers[0]); ok {
			c.Pair = wall.Say(t.Pair)
		}
	case len(numbers) > 1:
		c.Tile = fmt.Sprintf("a board of %d tiles", len(numbers))
		c.Rows = nil
	case c.rank == rankRead:
		c.rank = rankUnread
	}
	c.Doubts = append(c.Doubts, found.Notes...)
	if doubted.Says != "" && len(c.readings) > 0 {
		c.Doubts, c.Fits = append([]string{doubted.Says}, c.Doubts...), doubted.Fits
		c.rank = min(c.rank, rankMistaken)
	}
	if len(c.Doubts) > 0 {
		c.rank = min(c.rank, rankWarned)
	}
}

func orEmpty(before, words string) string {
	if words == "" {
		return ""
	}
	return before + words
}

func newZoneRow(r tiles.Reading) zoneRow {
	lab := color.Lab{L: r.L, A: r.A, B: r.B}
	hex, _ := lab.Hex()
	row := zoneRow{Tile: r.Tile.String(), Zone: string(r.Zone), Hex: hex, Lab: fmt.Sprintf("%.1f %.1f %.1f", r.L, r.A, r.B), Correction: r.Correction, Found: r.Found}
	if r.Doubt > 0 {
		row.Doubt = fmt.Sprintf("± %.0f", r.Doubt)
	}
	return row
}

// draw adds what was found on the picture, where measure has left it.
func (c *photoCard) draw(dir folder.Folder) {
	part, picture := run.PartOf(c.Name)
	text, err := dir.Read(part, 16<<20)
	if err != nil || c.rank == rankWrong || len(c.readings) == 0 {
		return
	}
	d, err := contact.ReadPart(text)
	if err != nil {
		return
	}
	if dir.Has(picture) { // earlier versions had it in the part
		c.Picture = "/photographs/part?" + url.Values{"photo": {c.Name}}.Encode()
	}
	c.Drawing = &overlay{d.Width, d.Height, pointsOf(d.Outlines), pointsOf(d.Zones), pointsOf(d.Reference), pointsOf(d.Paper)}
}

func pointsOf(quads []geometry.Quad) []string {
	var out []string
	for _, q := range quads {
		s := ""
		for _, p := range q {
			s += fmt.Sprintf("%.1f,%.1f ", p.X, p.Y)
		}
		out = append(out, s)
	}
	return out
}
