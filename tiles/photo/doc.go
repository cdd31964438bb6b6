// Package photo opens a photograph so that its colors can be measured: decoded
// by its content whatever its name says, turned upright, with the curves and
// the matrix of its color profile at hand. It is the only home of picture
// decoders and of profiles.
//
// Pixels stay as the decoder left them. A mean is taken by summing linear
// light through one table a channel, and only the few means are taken to
// CIELAB: converting twelve million pixels first costs forty times as much and
// is no better.
//
// Bounds. A picture of more than MaxPixels, or one whose decoding would need
// more than MaxBytes for its samples, is refused from its header, before any
// memory is asked for; so is a header that promises more pixels than the bytes
// behind it can hold.
package photo
