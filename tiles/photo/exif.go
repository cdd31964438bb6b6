package photo

import (
	"bytes"
	"strings"
	"time"

	"github.com/bep/imagemeta"
)

// exif is the little that is read of a picture's EXIF (JEITA CP-3451). Where it
// was taken and by which camera is not looked at.
type exif struct {
	orientation int     // 1–8; anything else written is 1
	taken       string  // "2006-01-02 15:04", or ""
	focal       float64 // mm, as if on 35 mm film; 0 = not said
}

var exifFormats = map[format]imagemeta.ImageFormat{
	formatJPEG: imagemeta.JPEG,
	formatPNG:  imagemeta.PNG,
	formatTIFF: imagemeta.TIFF,
	formatWebP: imagemeta.WebP,
	formatHEIC: imagemeta.HEIF,
}

var wantedTags = map[string]bool{
	"Orientation": true, "DateTime": true, "DateTimeOriginal": true, "FocalLengthIn35mmFormat": true,
}

// readEXIF reads what it can: a damaged block gives what came before the
// damage, or nothing, and is no reason to refuse a picture.
func readEXIF(data []byte, f format) (e exif) {
	e.orientation = 1
	defer func() { _ = recover() }()
	_, _ = imagemeta.Decode(imagemeta.Options{
		R:           bytes.NewReader(data),
		ImageFormat: exifFormats[f],
		Sources:     imagemeta.EXIF,
		ShouldHandleTag: func(tag imagemeta.TagInfo) bool {
			return wantedTags[tag.Tag] && strings.HasPrefix(tag.Namespace, "IFD0")
		},
		HandleTag: func(tag imagemeta.TagInfo) error {
			e.note(tag.Tag, tag.Value)
			return nil
		},
		LimitTagSize: 1000,
		Timeout:      time.Second,
	})
	return e
}

func (e *exif) note(tag string, value any) {
	switch v := value.(type) {
	case uint16:
		switch {
		case tag == "Orientation" && 1 <= v && v <= 8:
			e.orientation = int(v)
		case tag == "FocalLengthIn35mmFormat":
			e.focal = float64(v)
		}
	case string:
		t, err := time.Parse("2006:01:02 15:04:05", strings.TrimRight(v, "\x00 "))
		if err == nil && (tag == "DateTimeOriginal" || e.taken == "") && t.Year() > 1900 {
			e.taken = t.Format("2006-01-02 15:04")
		}
	}
}
