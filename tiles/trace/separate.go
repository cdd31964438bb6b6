package trace

// separate says the test pieces that would tell two suspects apart: one with
// the first and not the second, one the other way round. A piece that cannot
// exist (a pair without its own first glaze, one more in a load that is
// already fired) is not asked for.
func (r *Report) separate(a, b Suspect) []string {
	var tests []string
	for _, ways := range [][2]Suspect{{a, b}, {b, a}} {
		if !ways[0].Kind.over() && !ways[0].implies(ways[1]) {
			tests = append(tests, "one test piece "+r.apart(ways[0], ways[1]))
		}
	}
	return tests
}

// over says that no piece can be added to it any more.
func (k Kind) over() bool { return k == KindLoad || k == KindPlace }

// least is those of a list that no other of it implies: whoever has "Salt Fog
// as second" has "Salt Fog, first or second" too, and one test piece does for
// both.
func least(list []Suspect) []Suspect {
	var out []Suspect
	for i, s := range list {
		implied := false
		for k, other := range list {
			implied = implied || k != i && other.implies(s)
		}
		if !implied {
			out = append(out, s)
		}
	}
	return out
}

// apart describes a piece with one suspect and without the other.
func (r *Report) apart(with, without Suspect) string {
	if without.implies(with) && with.Glaze == without.Glaze {
		switch without.Kind {
		case KindSecond, KindBatchSecond:
			return "with " + r.Name(with.at(KindFirst, KindBatchFirst))
		case KindFirst, KindBatchFirst:
			return "with " + r.Name(with.at(KindSecond, KindBatchSecond))
		}
	}
	return r.phrase(with).with + ", but " + r.avoid(without)
}

// at is the same glaze, or the same batch, in one position.
func (s Suspect) at(glaze, batch Kind) Suspect {
	if s.Kind.batch() {
		s.Kind = batch
	} else {
		s.Kind = glaze
	}
	return s
}

func (r *Report) avoid(s Suspect) string {
	switch s.Kind {
	case KindPair:
		return "not as " + r.Name(s)
	case KindFirst:
		return "with another glaze than " + r.glaze(s.Glaze) + " as first"
	case KindSecond:
		return "with another glaze than " + r.glaze(s.Glaze) + " as second, or none"
	case KindGlaze:
		return "without " + r.glaze(s.Glaze)
	case KindBatch, KindBatchFirst, KindBatchSecond:
		return "not with " + r.Name(s) + " (another batch will do)"
	case KindPlace:
		return "elsewhere than on " + r.Name(s)
	case KindShelf:
		return "on another shelf than " + s.Name
	case KindMethod:
		return "glazed another way than “" + s.Name + "”"
	case KindClay:
		return "of another clay than " + s.Name
	case KindBisque:
		return "from another bisque load than " + s.Name
	case KindLoad:
		return "in another load than " + s.Name
	case KindSchedule:
		return "on another schedule than " + s.Name
	}
	return "in another kiln than " + s.Name
}
