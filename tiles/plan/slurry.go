package plan

// SolidsGravity is the specific gravity of dry glaze: 2.5–2.6 in potters'
// handbooks.
const SolidsGravity = 2.6

// DrySolids is the dry glaze in a litre of slurry, in grams. Brongniart's
// formula, as in potters' handbooks: (L − 1000)·S/(S − 1) with L the grams a
// litre weighs and S the solids' gravity.
func DrySolids(sg float64) float64 {
	return (1000*sg - 1000) * SolidsGravity / (SolidsGravity - 1)
}

// packing is the share of a raw coat that is solid; the rest are pores.
// Common practice, no source.
const packing = 0.55

// CoatSlurry is the slurry that a raw coat of the thickness in mm takes up, in
// litres per dm². Derived: 0.5 mm at 55 % packing is 7 g dry, 10 ml at SG 1.45.
func CoatSlurry(thickness, sg float64) float64 {
	dry := thickness * 10 * packing * SolidsGravity // grams: 1 mm on 1 dm² is 10 cm³
	return dry / DrySolids(sg)
}
