package content

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestProposeCode(t *testing.T) {
	taken := map[string]bool{}
	var got []string
	for _, name := range []string{"Quarry Milk", "Queen's Marl", "Pitch", "Pit", "P", "P", "№ 5", "белая глазурь", "…", "Old red and green", "ßab", "=cmd"} {
		code := ProposeCode(name, func(c string) bool { return taken[c] })
		require.True(t, code == "" || CheckCode(code) == nil)
		taken[code] = true
		got = append(got, code)
	}
	require.Equal(t, []string{"QM", "QU", "PI", "PT", "P", "P2", "5", "БГ", "", "ORA", "ßA", "CM"}, got)
	// As many glazes of one name as a wall may have still get one each, or none.
	taken = map[string]bool{}
	for range MaxGlazes {
		code := ProposeCode("Ash Blue", func(c string) bool { return taken[c] })
		require.False(t, taken[code] && code != "")
		taken[code] = true
	}
}

func TestPastedList(t *testing.T) {
	for text, want := range map[string]string{
		"Quarry Milk\nFen Glass\n":                                    "|Quarry Milk;|Fen Glass",
		"QM\tQuarry Milk\nFG\tFen Glass":                              "QM|Quarry Milk;FG|Fen Glass",
		"Quarry Milk\tQM\r\nFen Glass\tFG\r\n":                        "QM|Quarry Milk;FG|Fen Glass",
		"Glaze\tCode\tmine\nQuarry Milk\tQM\tx\n\t\t\n":               "QM|Quarry Milk",
		"name;code\n\"Quarry; Milk\";QM":                              "QM|Quarry; Milk",
		"5\" Slab White\tSW":                                          "SW|5\" Slab White",
		"code,name\nA,'=cmd\n":                                        "A|=cmd",
		"\ufeffname\r'# Hash Brown\r":                                 "|# Hash Brown",
		"Long White\tQuarry\tdries fast\nFen Glass\tx marks\tsettles": "|Long White;|Fen Glass",
	} {
		rows, err := PastedList(text)
		require.NoError(t, err, text)
		var got []string
		for _, r := range rows {
			got = append(got, r.Cell("code")+"|"+r.Cell("name"))
		}
		require.Equal(t, want, strings.Join(got, ";"), text)
	}
	for _, text := range []string{"", "\n\n", strings.Repeat("x\n", 5000), "name\n"} {
		_, err := PastedList(text)
		require.Error(t, err)
	}
}

func TestMergedFillsInAndAdds(t *testing.T) {
	have := []ListRow{{Of: 0, Cells: map[string]string{"Code": "QM", "name": "Quarry Milk", "sg": "1.4"}}, {Of: -1, Cells: map[string]string{"code": ""}}}
	more, err := PastedList("code\tname\tsg\tfinish\nqm\tQuarry Milk\t1.46\t\nFG\tFen Glass\t\tgloss\n")
	require.NoError(t, err)
	all, filled, added := Merged(have, more)
	require.Equal(t, "1 1 2", fmt.Sprint(filled, added, len(all)))
	require.Equal(t, "1.46", all[0].Cell("sg"))
	require.Equal(t, 0, all[0].Of)
	require.Equal(t, "gloss", all[1].Cell("finish"))
}
