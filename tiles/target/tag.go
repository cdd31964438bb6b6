package target

import (
	"math/bits"

	"github.com/twodip/twodip/tiles"
)

// A tag's 36 bits are a number of 17 bits, 18 check bits and one parity bit:
// the BCH code (63,45) that mends three errors, shortened and extended, so any
// two tags differ in at least 8 cells. The generator polynomial is the one in
// the tables of Lin and Costello, Error Control Coding (octal 1701317).
const (
	generator  = 0o1701317
	checkBits  = 18
	numberBits = 17
)

// plain is what every tag is mixed with, so that no number gives a flat square.
const plain Bits = 0x96c53a96c

// Tag is the code of a tile's small tag. Numbers run from 1 to
// tiles.MaxNumber; another one has no tag and gives 0.
func Tag(n tiles.Number) Bits {
	if n < 1 || n > tiles.MaxNumber {
		return 0
	}
	word := uint64(n)<<checkBits | remainder(uint64(n)<<checkBits)
	return Bits(word<<1|uint64(bits.OnesCount64(word)&1)) ^ plain
}

// remainder divides by the generator over GF(2).
func remainder(word uint64) uint64 {
	for i := numberBits - 1; i >= 0; i-- {
		if word>>(i+checkBits)&1 == 1 {
			word ^= generator << i
		}
	}
	return word
}
