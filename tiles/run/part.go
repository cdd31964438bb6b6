package run

import (
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/plan"
)

// PartCost is what a part of the wall would ask for, were it planned now;
// nothing is written. Tiles that have their number stay in it.
func PartCost(dir folder.Folder, part tiles.Portion) (Cost, error) {
	w, err := Load(dir)
	if err != nil {
		return Cost{}, err
	}
	part.Prefer = w.Part.Prefer
	w.Part = part
	made, err := plan.Make(plan.Wish{Wall: w})
	w.Tiles = made.Tiles
	return Planned{w, made}.Cost(), err
}
