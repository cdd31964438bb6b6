// Package geometry is places in a picture: points, four-sided areas, and the
// projection that takes one flat area onto another as a camera does.
//
// A point is in pixels of the upright photo, x to the right and y down, (0, 0)
// being the outer corner of the top left pixel, whose center is (0.5, 0.5).
package geometry
