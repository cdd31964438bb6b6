package site

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"

	xdraw "golang.org/x/image/draw"
)

// A tile's page weighs at most 150 KB with its photo; style, script and words
// take a third of that. A photo that is heavier than photoBytes is saved again,
// a little smaller.
const (
	photoBytes = 104_000
	photoSide  = 1040 // px, the longer side of a photo saved again
	recipe     = 2    // counts the ways photos have been saved again: a new way forgets what is kept
)

// takePhoto takes a tile's large photo into the site, lighter where it must be.
func (m *maker) takePhoto(p picture) (picture, error) {
	if p.size <= photoBytes {
		return p, m.out.take(p.Src, p.from, p.size)
	}
	data, err := m.kept("photo", fmt.Sprint(recipe, photoBytes, photoSide, p.from, p.size, p.stamp), func() ([]byte, error) { return lighter(p.from) })
	if err != nil {
		return p, err
	}
	size, err := jpeg.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return p, err
	}
	p.Width, p.Height = size.Width, size.Height
	return p, m.out.write(p.Src, data)
}

// lighter saves a photo again within the budget.
func lighter(from string) ([]byte, error) {
	f, err := os.Open(from)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	img, err := jpeg.Decode(f)
	if err != nil {
		return nil, err
	}
	b := img.Bounds()
	if long := max(b.Dx(), b.Dy()); long > photoSide {
		to := image.NewRGBA(image.Rect(0, 0, b.Dx()*photoSide/long, b.Dy()*photoSide/long))
		xdraw.BiLinear.Scale(to, to.Bounds(), img, b, xdraw.Src, nil)
		img = to
	}
	return encodeWithin(img, photoBytes)
}

// kept gives what was made before under the same key, or makes it and keeps
// it. The key says all that the bytes depend on. A kept file that was cut
// short by a crash is made again.
func (m *maker) kept(kind, key string, produce func() ([]byte, error)) ([]byte, error) {
	if m.Cache == "" {
		return produce()
	}
	sum := sha256.Sum256([]byte(kind + "\n" + key))
	name := kind + "-" + hex.EncodeToString(sum[:12]) + ".jpg"
	m.mu.Lock()
	m.used[name] = true
	m.mu.Unlock()
	file := filepath.Join(m.Cache, name)
	if data, err := os.ReadFile(file); err == nil && bytes.HasPrefix(data, []byte{0xFF, 0xD8}) && bytes.HasSuffix(data, []byte{0xFF, 0xD9}) {
		return data, nil
	}
	data, err := produce()
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(m.Cache, 0o755); err != nil {
		return nil, err
	}
	return data, os.WriteFile(file, data, 0o644)
}

// forget removes what earlier builds kept and this one had no use for.
func (m *maker) forget() error {
	for _, kind := range []string{"photo", "wall"} {
		old, err := filepath.Glob(filepath.Join(m.Cache, kind+"-*.jpg"))
		if err != nil || m.Cache == "" {
			return err
		}
		for _, file := range old {
			if !m.used[filepath.Base(file)] {
				if err := os.Remove(file); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// encodeWithin saves as a JPEG of the best quality that fits the budget.
func encodeWithin(img image.Image, budget int) ([]byte, error) {
	var b bytes.Buffer
	for _, quality := range []int{82, 74, 66, 58, 50, 40} {
		b.Reset()
		if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
			return nil, err
		}
		if b.Len() <= budget {
			break
		}
	}
	return b.Bytes(), nil
}
