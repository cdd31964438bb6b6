// Package measure makes readings from photographs of fired tiles.
//
// One definition: a reading is CIELAB (D50, 2°) of the mean linear-light color
// of an area of the tile. The mean of light is what an eye sees from across the
// room and what blur and scaling leave alone: under 8 pixels of blur it moves
// by 0.01 ΔE00, where the mean of Lab moves by 5.
//
// The area is the tile's face, or a zone of it, without what is not glaze: 8 %
// along each side (edges are thin, rounded, in shadow), blown pixels and those
// near them, and light spots without the glaze's own chroma (glare). What was
// dropped is said as the share that was kept.
package measure
