package sheet_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
)

// A page's picture has the words that pdftotext finds on the page of the PDF,
// and is well-formed XML.
func TestAPagesPictureHasThePagesWords(t *testing.T) {
	need(t, "pdftotext")
	for _, s := range sheet.Sheets() {
		var pdf bytes.Buffer
		pages, err := s.Draw(&pdf, jobOf(placed(wallOf(many(9)))))
		if err != nil {
			continue
		}
		p, err := sheet.ReadProof(pdf.Bytes())
		require.NoError(t, err, s.Name)
		require.NoError(t, p.Picture(io.Discard, pages), s.Name)
		require.Error(t, p.Picture(io.Discard, pages+1), "%s has no more pages", s.Name)
		var svg bytes.Buffer
		require.NoError(t, p.Picture(&svg, 1), s.Name)
		cmd := exec.Command("pdftotext", "-l", "1", "-raw", "-", "-")
		cmd.Stdin = bytes.NewReader(pdf.Bytes())
		text, err := cmd.Output()
		require.NoError(t, err)
		// As a pile of letters: where words part is the reader's guess.
		require.Equal(t, lettersOf(string(text)), lettersOf(charactersOf(t, svg.Bytes())), s.Name)
	}
}

// Names that bend the direction of words, or hold markup, leave the picture a
// picture: pdftotext adds marks of its own to them, so they are not compared.
func TestAPictureOfHostileNames(t *testing.T) {
	for _, s := range sheet.Sheets() {
		var pdf, svg bytes.Buffer
		pages, err := s.Draw(&pdf, jobOf(placed(hostile())))
		if err != nil {
			continue
		}
		p, err := sheet.ReadProof(pdf.Bytes())
		require.NoError(t, err, s.Name)
		require.NoError(t, p.Picture(&svg, pages), s.Name)
		require.NotEmpty(t, charactersOf(t, svg.Bytes()), s.Name)
		require.NotContains(t, svg.String(), "<script")
	}
}

func charactersOf(t *testing.T, svg []byte) string {
	t.Helper()
	var b strings.Builder
	for dec := xml.NewDecoder(bytes.NewReader(svg)); ; {
		token, err := dec.Token()
		if err == io.EOF {
			return b.String()
		}
		require.NoError(t, err)
		if letters, ok := token.(xml.CharData); ok {
			b.Write(letters)
		}
	}
}

func lettersOf(s string) string {
	letters := []rune(strings.Join(strings.Fields(s), ""))
	slices.Sort(letters)
	return string(letters)
}

func TestAPictureOfNoPage(t *testing.T) {
	_, err := sheet.ReadProof([]byte("%PDF-1.7\nnothing"))
	require.Error(t, err)
	var pdf bytes.Buffer
	_, err = sheet.Safety(&pdf, jobOf(placed(hostile())))
	require.NoError(t, err)
	p, err := sheet.ReadProof(pdf.Bytes())
	require.NoError(t, err)
	require.Error(t, p.Picture(io.Discard, 0))
	require.Error(t, p.Picture(io.Discard, 99))
	_, err = sheet.ReadProof(pdf.Bytes()[:pdf.Len()/50])
	require.Error(t, err, "half a PDF")
}
