package record

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

func readPieces(t *testing.T, text string, s tiles.LogSettings) ([]tiles.Piece, *Log) {
	t.Helper()
	l, err := ReadPieces("form.csv", strings.NewReader(text), s)
	require.NoError(t, err)
	return slices.Collect(l.Each()), l
}

func TestReadPieces(t *testing.T) {
	ps, l := readPieces(t, "\ufeffpiece;Date;Clay body;1st;2nd;Faults;zone;severity;email\r\n"+
		"12;2026-3-4 10:22;buff;QM;LR;crawling, pin holes;Overlap;2;a@b\r\n", tiles.LogSettings{})
	require.Len(t, ps, 1)
	assert.Equal(t, tiles.Piece{
		ID: "12", Date: "2026-03-04", Clay: "buff", Pair: tiles.Pair{First: "QM", Second: "LR"},
		Faults: []string{"crawling", "pin holes"}, Zone: tiles.ZoneOverlap, Severity: 2, Line: 2,
	}, ps[0])
	assert.Equal(t, []string{"email"}, l.Left)
	assert.Contains(t, l.Notes, "column “Clay body” read as clay")
}

func TestReadPiecesUnderTheStudiosHeadings(t *testing.T) {
	_, err := ReadPieces("form.csv", strings.NewReader("Kid,Unten,Oben\nM7,A,B\n"), tiles.LogSettings{})
	assert.ErrorContains(t, err, `say in wall.yaml which of yours it is (Kid, Unten, Oben), with a line like this: log: {headings: {"Kid": first}}`)
	ps, _ := readPieces(t, "Kid,Unten,Oben\nM7,A,B\n",
		tiles.LogSettings{Headings: map[string]string{"kid": "maker", "unten": "first", "OBEN": "2nd"}})
	assert.Equal(t, "M7", ps[0].Maker)
	assert.Equal(t, tiles.Pair{First: "A", Second: "B"}, ps[0].Pair)
}

func TestReadPiecesPartsFaults(t *testing.T) {
	ps, _ := readPieces(t, "first,faults\nA,\"crawling and pin holes; running/blisters\"\n", tiles.LogSettings{})
	assert.Equal(t, []string{"crawling", "pin holes", "running", "blisters"}, ps[0].Faults)
}

func TestReadPiecesKeepsAThirdCoat(t *testing.T) {
	ps, _ := readPieces(t, "first,second,third\nA,B; C,D\nA,B,\n", tiles.LogSettings{})
	assert.Equal(t, []string{"C", "D"}, ps[0].More)
	assert.Empty(t, ps[1].More)
}

func TestReadPiecesSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"piece,second\n1,A\n":        `form.csv:1: there is no column first`,
		"first,date\nA,3/4/2026\n":   `form.csv:2: date "3/4/2026" can be read two ways: write 2026-03-04 or 2026-04-03`,
		"first,date\nA,2026-02-30\n": `form.csv:2: date "2026-02-30": there is no such day`,
		"first,date\nA,yesterday\n":  `form.csv:2: date "yesterday" is not a date: write 2026-03-14`,
		"first,zone\nA,rim\n":        `form.csv:2: zone "rim" is not one of`,
		"first,severity\nA,9\n":      `form.csv:2: severity "9" is not 0, 1, 2 or 3`,
		"first,1st\nA,B\n":           `form.csv:1: the columns "first" and "1st" both stand for first`,
		"":                           `form.csv: the file is empty`,
		"first,severity,zone\nA,9,\nB,,\nC,8,left\n": `form.csv:4: zone "left"`,
	} {
		_, err := ReadPieces("form.csv", strings.NewReader(text), tiles.LogSettings{})
		assert.ErrorContains(t, err, want)
	}
}

func TestReadPiecesRefusesAHeadingThatIsNone(t *testing.T) {
	_, err := ReadPieces("form.csv", strings.NewReader("first\nA\n"), tiles.LogSettings{Headings: map[string]string{"Ofen": "oven"}, Dates: "english"})
	assert.ErrorContains(t, err, `wall.yaml: log: headings: "Ofen" stands for "oven", which is no column of the log; the columns are piece, date`)
	assert.ErrorContains(t, err, `wall.yaml: log: dates: "english" is not known`)
}

func same(p tiles.Piece) tiles.Piece { return p }

func writeLog(t *testing.T, text string) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "tiles"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, LogFile), []byte(text), 0o644))
	return dir
}

func logText(t *testing.T, dir string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, LogFile))
	require.NoError(t, err)
	return string(text)
}

func TestAddPiecesKeepsTheLogAsItsOwnerHasIt(t *testing.T) {
	dir := writeLog(t, "# spring term\nPot,Kid,Unten,color of the day\n1,M7,A,red\n")
	s := tiles.LogSettings{Headings: map[string]string{"unten": "first", "kid": "maker"}}
	got, err := AddPieces(folder.At(dir), s, []Incoming{{"form.csv", []tiles.Piece{
		{ID: "1", Maker: "M7", Pair: tiles.Pair{First: "A"}, Result: "good", Line: 2},
		{ID: "2", Pair: tiles.Pair{First: "=cmd()"}, Line: 3},
	}}}, same)
	require.NoError(t, err)
	assert.Equal(t, Added{New: 1, Filled: 1}, got)
	assert.Equal(t, "# spring term\nPot,Kid,Unten,color of the day,result\n1,M7,A,red,good\n2,,'=cmd(),,\n", logText(t, dir))
}

func TestAddPiecesTwiceIsOnce(t *testing.T) {
	dir := t.TempDir()
	pieces := []tiles.Piece{
		{ID: "1", Pair: tiles.Pair{First: "A", Second: "B"}, Faults: []string{"crawling", "running"}, Zone: tiles.ZoneOverlap, Severity: 2},
		{Pair: tiles.Pair{First: "A"}, Result: "good"}, {Pair: tiles.Pair{First: "A"}, Result: "good"},
	}
	got, err := AddPieces(folder.At(dir), tiles.LogSettings{}, []Incoming{{"form.csv", pieces}}, same)
	require.NoError(t, err)
	assert.Equal(t, Added{New: 3}, got)
	before := logText(t, dir)
	got, err = AddPieces(folder.At(dir), tiles.LogSettings{}, []Incoming{{"form.csv", pieces}}, same)
	require.NoError(t, err)
	assert.Equal(t, Added{Same: 3}, got)
	assert.Equal(t, before, logText(t, dir))
}

func TestAddPiecesWritesNothingWhenARowContradicts(t *testing.T) {
	dir := writeLog(t, "piece,first,load\n1,A,3\n")
	_, err := AddPieces(folder.At(dir), tiles.LogSettings{}, []Incoming{{"form.csv", []tiles.Piece{
		{ID: "9", Pair: tiles.Pair{First: "B"}, Line: 2}, {ID: "1", Pair: tiles.Pair{First: "A"}, Load: "4", Line: 3},
	}}}, same)
	assert.ErrorContains(t, err, `form.csv:3: piece 1 is in the log already, with load "3" where this row says "4"`)
	assert.Equal(t, "piece,first,load\n1,A,3\n", logText(t, dir))
}

func TestReadLogOfANewWall(t *testing.T) {
	l, err := ReadLog(folder.At(t.TempDir()), tiles.LogSettings{})
	require.NoError(t, err)
	assert.Zero(t, l.Len())
}

// Two bowls nobody named may be alike in every cell: a third like them is new.
func TestAddPiecesCountsUnnamedPieces(t *testing.T) {
	dir := writeLog(t, "first,result\nA,good\nA,good\n")
	alike := tiles.Piece{Pair: tiles.Pair{First: "A"}, Result: "good"}
	got, err := AddPieces(folder.At(dir), tiles.LogSettings{}, []Incoming{{"form.csv", []tiles.Piece{alike, alike, alike}}}, same)
	require.NoError(t, err)
	assert.Equal(t, Added{New: 1, Same: 2}, got)
}
