package produce

import (
	"bytes"
	"context"
	"errors"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// Proof is one sheet as it would be printed.
type Proof struct {
	sheet.Sheet
	PDF   []byte
	Pages int
	Empty bool  // it has nothing to show yet
	Err   error // why it cannot be drawn
}

// Proofs draws the sheets that a person asks for and hands over each as it is
// drawn; nothing is written. What is asked of print is asked of it, Sheets
// none is every sheet there is.
func Proofs(ctx context.Context, dir folder.Folder, wish PrintWish, take func(Proof)) error {
	if len(wish.Sheets) == 0 {
		wish.Sheets = SheetNames()
	}
	sheets, err := chooseSheets(wish.Sheets)
	if err != nil {
		return err
	}
	p := &press{dir: dir, wish: wish, sheets: sheets}
	p.wish.Sheets = nil // what one sheet lacks stops no other
	if err := p.prepare(ctx); err != nil {
		return err
	}
	for _, s := range sheets {
		proof := Proof{Sheet: s}
		var pdf bytes.Buffer
		proof.Err = run.Guarded(func() (err error) {
			proof.Pages, err = s.Draw(&pdf, p.job)
			return err
		})
		if errors.Is(proof.Err, sheet.ErrNothing) {
			proof.Empty, proof.Err = true, nil
		}
		proof.PDF = pdf.Bytes()
		if ctx.Err() != nil {
			return ctx.Err()
		}
		take(proof)
	}
	return nil
}
