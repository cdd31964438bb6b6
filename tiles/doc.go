// Package tiles holds the nouns of a wall of fired test tiles: glazes, ordered
// pairs, tiles and their numbers, readings, and the settings of one wall.
//
// It imports nothing of ours. Everything else imports it, so a word means the
// same thing in the plan, on paper, in a photograph and on the site.
package tiles
