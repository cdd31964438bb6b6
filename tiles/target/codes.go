package target

// The marks by their place. On the mat they run from the top left clockwise;
// around the board they do too, with the edge middles between the corners.
const (
	MatTopLeft = iota
	MatTopRight
	MatBottomRight
	MatBottomLeft
	BoardTopLeft
	BoardTop
	BoardTopRight
	BoardRight
	BoardBottomRight
	BoardBottom
	BoardBottomLeft
	BoardLeft
	Count // how many marks there are
)

// apart is the least distance between two marks, or between a mark and itself
// turned, in cells.
const apart = 16

// codes are made by the search in codes_test.go, which checks this table.
var codes = [Count]Bits{
	0xe220a8397, 0x6e789e6aa, 0xb54e0f160, 0x23c8dfdd1,
	0x7e9d7e051, 0x371da374b, 0x7faa29c42, 0x40fb3e525,
	0x55c46d4b3, 0xe0363704e, 0x86ff02452, 0x68dca38e3,
}

// Code is the code of a mark, 0 to Count-1.
func Code(id int) Bits { return codes[id] }

// Read says which mark a code is, seen with up to slack wrong cells and turned
// to the right by any number of quarters; slack over 7 would be a guess.
func Read(seen Bits, slack int) (id, turns, wrong int, ok bool) {
	wrong = Side*Side + 1
	for i, c := range codes {
		if d, t := seen.Nearest(c); d < wrong {
			id, turns, wrong = i, t, d
		}
	}
	return id, turns, wrong, wrong <= slack
}
