package plan

import "github.com/twodip/twodip/tiles"

// Materials is what the tiles still to be made ask for.
type Materials struct {
	Tiles   int     // planned tiles, controls and re-tests included
	Spares  int     // made over the plan, in case of breakage
	Clay    float64 // kg of wet clay, waste included
	Wet     tiles.Shape
	Buckets []Bucket
	Assumed []Assumption
}

// Bucket is how much of one glaze the plan asks for.
type Bucket struct {
	Glaze   tiles.Glaze
	Dips    int     // coats, first and second
	Area    float64 // dm² covered, all dips
	Used    float64 // litres that leave the bucket: coats, loss and cups thrown away
	Fill    float64 // litres that must stand in the bucket to submerge the last tile
	Litres  float64 // Used + Fill: what to have ready before the first dip
	Dry     float64 // kg of dry glaze in Litres
	Gravity float64 // specific gravity reckoned with
}

// Assumption is a figure the sums rest on, and the setting that changes it.
type Assumption struct {
	What    string // "raw coat"
	Value   string // with its unit: "0.5 mm"
	Setting string // "dip: thickness" in wall.yaml
}
