package mark

import (
	"testing"

	"github.com/twodip/twodip/tiles/target"
)

// Whatever the picture, looking for marks, labels and tags ends without a
// panic and finds no more marks than there are.
func FuzzFind(f *testing.F) {
	f.Add(uint16(40), uint16(30), []byte{0, 255, 0, 255, 17})
	f.Add(uint16(300), uint16(200), []byte("checks and stripes and noise"))
	f.Add(uint16(1), uint16(1), []byte{1})
	f.Fuzz(func(t *testing.T, w, h uint16, seed []byte) {
		p := Plane{W: int(w)%400 + 1, H: int(h)%400 + 1}
		p.Stride = p.W
		p.Pix = make([]uint8, p.W*p.H)
		for i := range p.Pix {
			if len(seed) > 0 {
				p.Pix[i] = seed[(i/7+i/p.W*3)%len(seed)]
			}
		}
		found, _ := Find(p)
		if len(found) > target.Count {
			t.Fatalf("%d marks", len(found))
		}
		AnyLabel(p)
		if page, err := target.Mat(matSettings); err == nil {
			_, _ = OnMat(p, found, page, 8, 0)
		}
	})
}
