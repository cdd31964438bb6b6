package run

import (
	"net/url"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/photo"
)

// PiecePhotos is the folder for photos of raw pieces. They are never published.
const PiecePhotos = "tiles/pieces"

// pieceFile is the photo's name for a piece: letters that a name of a file may
// not have are written as a web address writes them.
func pieceFile(id string) string { return PiecePhotos + "/" + url.PathEscape(id) + ".jpg" }

// PiecePhoto is the photo of a raw piece, where there is one.
func PiecePhoto(dir folder.Folder, id string) (name string, ok bool) {
	name = pieceFile(id)
	return name, id != "" && dir.Has(name)
}

// pieceSide is the longest side of a photo of a raw piece, in pixels.
const pieceSide = 1600

// KeepPiecePhoto keeps a photo of a raw piece: smaller, and without what the
// camera wrote about place and time. One that is there already stays.
func KeepPiecePhoto(dir folder.Folder, id string, data []byte) error {
	if _, there := PiecePhoto(dir, id); there || id == "" {
		return tiles.Problem{File: PiecePhotos, What: "piece " + id + " has a photo already", Do: "the teacher can remove it"}
	}
	p, err := photo.Open(data)
	if err != nil {
		return tiles.Problem{File: "the photo", What: err.Error(), Do: "send it as JPEG, PNG or HEIC"}
	}
	small, err := p.Small(p.Image.Bounds(), pieceSide).JPEG(0)
	if err != nil {
		return err
	}
	return dir.WriteBytes(pieceFile(id), small)
}
