// Package mark says where in a photograph the tile, the reference and the
// number are, by the square marks that package target lays out.
//
// The way from pixels to a place: the luma plane is shrunk, thresholded by
// blocks, its dark regions outlined; outlines with four straight sides are
// read as marks; the sides of those that are marks are found again to a
// fraction of a pixel in the full picture and in linear light. A camera with a
// lens is then fitted to all marks at once, and says where anything else on
// the page or board, or standing off it by the thickness of a tile, was seen.
//
// A point in a picture is in pixels of the upright photo, x to the right and y
// down, (0, 0) being the outer corner of the top left pixel, whose center is
// (0.5, 0.5).
package mark
