package color

// Mean is the mean of the samples in linear light: the color an area has when
// seen from too far to tell its parts, and the color of every reading. It is
// black for no samples.
func Mean(samples []XYZ) XYZ {
	var sum XYZ
	for _, s := range samples {
		sum.X += s.X
		sum.Y += s.Y
		sum.Z += s.Z
	}
	if len(samples) == 0 {
		return sum
	}
	n := float64(len(samples))
	return XYZ{sum.X / n, sum.Y / n, sum.Z / n}
}
