package bench

import (
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/record"
)

// TestThePiecesOfASeason reads the page of a small log whose counts are plain,
// with a row that came from a phone.
func TestThePiecesOfASeason(t *testing.T) {
	wall := studio(t)
	c := open(t, wall.Dir())
	require.NoError(t, wall.WriteBytes(record.LogFile, []byte("piece,date\n")))
	assert.Equal(t, 422, c.get("/pieces").status)
	require.NoError(t, wall.WriteBytes(record.LogFile, []byte("piece,date,first\n")))
	assert.Contains(t, c.get("/pieces").main(), "There is no piece in the log yet.")
	require.NoError(t, wall.WriteBytes(record.LogFile, []byte("piece,date,maker,first,second,load,result,faults,looked at,phone key\n"+
		"1,2026-03-02,Zqx,QM,FG,G1,good,,,\n2,2026-03-04,Zqx,QM,FG,G1,,<b>soot;crawled,,\n3,2026-03-20,Zqx,FG,,,,,not yet,k\n4,,Zqx,FG,QM,,,,,\n")))
	p := c.get("/pieces")
	says := p.main()
	assert.Contains(t, says, "4 pieces: 1 came out well, 1 with a fault, 2 not out of the kiln yet.")
	assert.Contains(t, says, "You have not looked at 1 row from phones yet.")
	assert.Contains(t, says, "1 piece has no day")
	var rows []string
	p.Find("tr").Each(func(_ int, row *goquery.Selection) {
		rows = append(rows, strings.Join(row.Children().Map(func(_ int, cell *goquery.Selection) string { return cell.Text() }), "|"))
	})
	for _, want := range []string{
		"2 March 2026|2||1|1|0|1 <b>soot, 1 crawling", "9 March 2026|0||0|0|0|", "16 March 2026|1||0|0|1|", "G1|2||1|1|0|1 <b>soot, 1 crawling",
		"Quarry Milk (QM) 1st on 2, 2nd on 1|3||1|1|1|1 <b>soot, 1 crawling", "1st Quarry Milk → 2nd Fen Glass|2||1|1|0|1 <b>soot, 1 crawling",
	} {
		assert.Contains(t, rows, want)
	}
	assert.NotContains(t, p.text, "Zqx", "no maker")
	assert.Zero(t, p.Find("main b").Length())
	assert.Equal(t, "/records?part=log&fault=%3Cb%3Esoot#pieces", p.Find("tbody a").First().AttrOr("href", ""))
	assert.True(t, strings.Contains(c.get("/records?part=log&fault=crawling").main(), "2"))
	assert.Equal(t, 1, c.get("/door").Find("#came").Length())
}
