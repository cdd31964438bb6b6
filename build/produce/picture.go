package produce

import (
	"errors"
	"io"
	"io/fs"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/photo"
	"github.com/twodip/twodip/tiles/run"
)

// pictures finds a tile's pictures, which measure has made. One of a photo
// whose readings were taken out is not shown; nor is one of a photo that is not
// here, as it could not be made again.
func pictures(dir folder.Folder, wall tiles.Wall) func(tiles.Number, int) (string, bool) {
	shown := run.Winners(wall.Readings)
	return func(n tiles.Number, width int) (string, bool) {
		if best, ok := shown[n]; !ok || best.Away {
			return "", false
		}
		name := measure.PicturePath(n, width)
		return dir.Path(name), dir.Has(name)
	}
}

// pageWidth is as wide as a page's words, twice over for sharp screens.
const pageWidth = 1280

// pagePicture reads a picture that a page shows and makes it fit to publish:
// upright, of a screen's size, with nothing in it but the picture.
func pagePicture(dir folder.Folder) func(file string) ([]byte, error) {
	return func(file string) ([]byte, error) {
		data, err := readPicture(dir, file)
		var ps tiles.Problems
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil, errors.New("there is no such file in content/")
		case errors.As(err, &ps):
			return nil, errors.New("it " + ps[0].What + "; " + ps[0].Do)
		case err != nil:
			return nil, err
		}
		var small []byte
		err = run.Guarded(func() error {
			p, err := photo.Open(data)
			if err != nil {
				return err
			}
			small, err = p.Small(p.Image.Bounds(), pageWidth).JPEG(0)
			return err
		})
		return small, err
	}
}

// readPicture reads a file once its beginning says that it is a picture: a film
// is not taken into memory to be refused.
func readPicture(dir folder.Folder, name string) ([]byte, error) {
	file, err := dir.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	head := make([]byte, 4096)
	n, err := io.ReadFull(file, head)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) && err != io.EOF {
		return nil, folder.Explain(name, err)
	}
	if err := photo.Known(head[:n]); err != nil {
		return nil, err
	}
	return dir.Read(name, folder.MostPhoto)
}
