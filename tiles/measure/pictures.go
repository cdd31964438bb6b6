package measure

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// PicturePath is where a wall keeps a tile's picture, below its folder.
func PicturePath(n tiles.Number, width int) string {
	return fmt.Sprintf("build/pictures/%s-%d.jpg", n, width)
}
