package sheet_test

import (
	"bytes"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
)

func TestLabelsSayNumberNamesAndOrder(t *testing.T) {
	w := wallOf(glazes)
	w.Labels.Sheet = "letter-30"
	text := pdfText(t, drawn(t, sheet.Labels, jobOf(w)))
	flat := strings.Join(strings.Fields(text), " ")
	require.Contains(t, flat, "2 1st QM Quarry Milk → 2nd LR Lamp Rust")
	require.Contains(t, flat, "13 1st LR Lamp Rust → 2nd QM Quarry Milk")
	require.Contains(t, flat, "1st QM Quarry Milk one coat, alone")
	require.Equal(t, 132, strings.Count(flat, "→"), "an arrow on every pair, none on a single")
}

func TestLabelsLeaveOutWhatDoesNotHang(t *testing.T) {
	w := wallOf(glazes[:3])
	w.Tiles[0].Status, w.Tiles[1].Status = tiles.Retired, tiles.Skipped
	flat := strings.Join(strings.Fields(pdfText(t, drawn(t, sheet.Labels, jobOf(w)))), " ")
	require.Equal(t, 5, strings.Count(flat, "→"))
	job := jobOf(w)
	job.New = sheet.Numbers{9: true}
	flat = strings.Join(strings.Fields(pdfText(t, drawn(t, sheet.Labels, job))), " ")
	require.Contains(t, flat, "1st HF Heron Fog one coat, alone")
	require.NotContains(t, flat, "→")
	job.New = sheet.Numbers{}
	_, err := sheet.Labels(&bytes.Buffer{}, job)
	require.ErrorIs(t, err, sheet.ErrNothing)
}

func TestLabelsStartOnAUsedSheet(t *testing.T) {
	need(t, "pdftotext")
	w := wallOf(glazes[:2])
	w.Labels.Sheet, w.Labels.Start = "a4-21", 20
	pdf := drawn(t, sheet.Labels, jobOf(w))
	path := saved(t, pdf)
	first := outside(t, "pdftotext", "-l", "1", path, "-")
	second := outside(t, "pdftotext", "-f", "2", path, "-")
	require.Equal(t, 1, strings.Count(first, "→"), "two labels, one of them a pair, are left on the used sheet")
	require.Equal(t, 1, strings.Count(second, "→"))
	w.Labels.Start = 22
	_, err := sheet.Labels(&bytes.Buffer{}, jobOf(w))
	require.ErrorContains(t, err, "labels: start is 22, but a sheet of a4-21 has 21 labels")
}

// Every label's QR code, rendered as a laser (300 dpi) and a label printer
// (203 dpi) would, is read back by zbar: one in ten sheets by default, every
// sheet and all 3,600 labels of sixty glazes with TWODIP_LONG=1.
func TestLabelCodesAreReadBack(t *testing.T) {
	need(t, "pdftoppm", "zbarimg")
	for _, name := range sheet.LabelSheets() {
		if !long() && name != "letter-30" && name != "letter-80" {
			continue
		}
		for _, dpi := range []int{300, 203} {
			t.Run(fmt.Sprintf("%s at %d dpi", name, dpi), func(t *testing.T) {
				w := wallOf(glazes)
				if long() && name == "letter-30" {
					w = wallOf(many(60))
				}
				w.Labels.Sheet = name
				pages := 1
				if long() {
					pages = 1 << 20
				}
				readBack(t, w, dpi, pages)
			})
		}
	}
}

// readBack reads the codes of up to the given number of pages, label by label.
func readBack(t *testing.T, w tiles.Wall, dpi, pages int) {
	t.Helper()
	s := built(t, w.Labels.Sheet)
	path := saved(t, drawn(t, sheet.Labels, jobOf(w)))
	perPage := s.Columns * s.Rows
	for page := 0; page < pages && page*perPage < len(w.Tiles); page++ {
		dir := t.TempDir()
		outside(t, "pdftoppm", "-gray", "-r", fmt.Sprint(dpi), "-f", fmt.Sprint(page+1), "-l", fmt.Sprint(page+1), "-singlefile", path, filepath.Join(dir, "page"))
		whole := picture(t, filepath.Join(dir, "page.pgm"))
		var crops, want []string
		for i, tile := range w.Tiles[page*perPage : min(len(w.Tiles), (page+1)*perPage)] {
			crops = append(crops, crop(t, whole, s, i, dpi, dir))
			want = append(want, tile.Number.Payload(w.Address))
		}
		got := outside(t, "zbarimg", append([]string{"--nodbus", "-q", "--raw"}, crops...)...)
		require.Equal(t, want, strings.Fields(got), "page %d", page+1)
	}
}

// picture reads a binary grey map (PGM), as pdftoppm writes it.
func picture(t *testing.T, path string) *image.Gray {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	var wide, high, most int
	_, err = fmt.Sscanf(string(raw[:min(len(raw), 40)]), "P5\n%d %d\n%d\n", &wide, &high, &most)
	require.NoError(t, err)
	require.Equal(t, 255, most)
	return &image.Gray{Pix: raw[len(raw)-wide*high:], Stride: wide, Rect: image.Rect(0, 0, wide, high)}
}

// crop cuts the i-th label out of a page, as a person would peel it off.
func crop(t *testing.T, page *image.Gray, s tiles.LabelSheet, i, dpi int, dir string) string {
	t.Helper()
	px := func(mm float64) int { return int(mm * float64(dpi) / 25.4) }
	x, y := s.Left+float64(i%s.Columns)*s.PitchX, s.Top+float64(i/s.Columns)*s.PitchY
	label := image.Rect(px(x), px(y), px(x+s.Width), px(y+s.Height)).Intersect(page.Rect)
	var b bytes.Buffer
	fmt.Fprintf(&b, "P5\n%d %d\n255\n", label.Dx(), label.Dy())
	for row := label.Min.Y; row < label.Max.Y; row++ {
		b.Write(page.Pix[page.PixOffset(label.Min.X, row):page.PixOffset(label.Max.X, row)])
	}
	path := filepath.Join(dir, fmt.Sprintf("%04d.pgm", i))
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o666))
	return path
}
