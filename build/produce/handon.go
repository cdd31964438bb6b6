package produce

import (
	"archive/zip"
	"io"
	"io/fs"
	"path"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// CopySite copies the site that was built into a folder outside the wall: a new
// one, an empty one, or one that holds nothing but an earlier copy of it.
func CopySite(dir folder.Folder, to string) (folder.HandedOn, error) {
	site, err := builtSite(dir)
	if err != nil {
		return folder.HandedOn{}, err
	}
	return dir.HandOn(site, to)
}

// ZipSite writes the site that was built as one .zip, for a host of any kind.
// The same site gives the same bytes.
func ZipSite(dir folder.Folder, w io.Writer) error {
	site, err := builtSite(dir)
	if err != nil {
		return err
	}
	z := zip.NewWriter(w)
	err = fs.WalkDir(site, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		return zipOne(z, site, name)
	})
	if err != nil {
		return err
	}
	return z.Close()
}

func zipOne(z *zip.Writer, site fs.FS, name string) error {
	h := &zip.FileHeader{Name: name, Method: zip.Deflate}
	if path.Ext(name) == ".jpg" { // nothing is won
		h.Method = zip.Store
	}
	to, err := z.CreateHeader(h)
	if err != nil {
		return err
	}
	from, err := site.Open(name)
	if err != nil {
		return err
	}
	defer from.Close()
	_, err = io.Copy(to, from)
	return err
}

// builtSite is the site as it was built last.
func builtSite(dir folder.Folder) (fs.FS, error) {
	site := dir.Made("build/site")
	if site == nil || !dir.Has("build/site/index.html") {
		return nil, tiles.Problem{File: "build/site", What: "there is no site yet", Do: "build it first"}
	}
	return site, nil
}
