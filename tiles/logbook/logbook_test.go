package logbook

import "github.com/twodip/twodip/tiles"

func logOf(pieces []tiles.Piece) Log {
	return func(yield func(tiles.Piece) bool) {
		for _, p := range pieces {
			if !yield(p) {
				return
			}
		}
	}
}

// some repeats a piece, so many of them with the fault.
func some(n, faulty int, fault string, p tiles.Piece) []tiles.Piece {
	var list []tiles.Piece
	for i := range n {
		q := p
		q.Result = "good"
		if i < faulty {
			q.Result, q.Faults = "", []string{fault}
		}
		list = append(list, q)
	}
	return list
}

func piece(first, second, load string) tiles.Piece {
	return tiles.Piece{Pair: tiles.Pair{First: first, Second: second}, Load: load, Date: "2026-03-10"}
}
