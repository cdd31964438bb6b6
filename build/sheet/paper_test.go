package sheet_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
)

func TestSameJobGivesTheSameBytes(t *testing.T) {
	for _, s := range sheet.Sheets() {
		job := jobOf(placed(wallOf(glazes)))
		require.Equal(t, drawn(t, s.Draw, job), drawn(t, s.Draw, job), s.Name)
	}
}

// qpdf and poppler hold the files against the PDF standard.
func TestSheetsAreSoundPDF(t *testing.T) {
	need(t, "qpdf", "pdfinfo")
	for _, s := range sheet.Sheets() {
		w := wallOf(glazes)
		w.Language = "pt-BR"
		path := saved(t, drawn(t, s.Draw, jobOf(placed(w))))
		outside(t, "qpdf", "--check", path)
		info := outside(t, "pdfinfo", path)
		require.Regexp(t, `Title: +`+s.Title+`, Tern Lane Studio`, info)
		require.Regexp(t, `Page size: +(595.28 x 841.89|841.89 x 595.28) pts \(A4\)`, info)
		raw, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Contains(t, string(raw), "/ViewerPreferences <</PrintScaling /None /DisplayDocTitle true>>")
		require.Contains(t, string(raw), "/Lang (")
		require.NotContains(t, string(raw), "NaN")
	}
}

func TestLetterPaper(t *testing.T) {
	need(t, "pdfinfo")
	w := wallOf(glazes)
	w.Paper = "letter"
	for _, s := range sheet.Sheets() {
		info := outside(t, "pdfinfo", saved(t, drawn(t, s.Draw, jobOf(placed(w)))))
		require.True(t, strings.Contains(info, "612 x 792 pts") || strings.Contains(info, "792 x 612 pts"), "%s: %s", s.Name, info)
	}
}
