// Package simulate makes photographs of a flat target with tiles on it whose
// every point is known, for tests and benchmarks only: a pinhole camera with a
// lens, uneven light, shadows, glare, blur, noise, a cast and JPEG.
//
// The lens is bent the other way round than package mark models it (here from
// the picture back to the ray), so that a fit cannot be right by construction.
package simulate
