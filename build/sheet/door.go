package sheet

import "io"

// Door writes the sheet that hangs above the buckets: the code and the address
// that phones open to look at the wall and to write pieces down.
func Door(w io.Writer, job Job) (pages int, err error) {
	if job.Door == "" {
		return 0, ErrNothing
	}
	c, err := newCode(job.Door)
	if err != nil {
		return 0, err
	}
	s, err := newPinned(job, "Write your piece down", "Pin it above the buckets. It is right as long as the studio’s computer keeps its address.", false)
	if err != nil {
		return 0, err
	}
	s.add(func(body area) { s.door(body, c) })
	return s.bind(w)
}

func (s *pinned) door(body area, c qrCode) {
	side := min(120, body.w)
	s.qr(body.x+(body.w-side)/2, body.y+2, side, c)
	y := body.y + side + 10
	s.textMiddle(body.x+body.w/2, y, text.heavy(), clean(s.job.Door))
	y += 12
	for _, said := range []string{
		"Join the studio’s network. Scan the code: the wall opens on your phone.",
		"Find the tile you follow, and tap “I glazed a piece like this”. Or tap “I glazed a piece” and type the tile’s number.",
		"Write your initials, nothing more. Tick the foot when it is wiped.",
		"Scratch or pencil the number you get on the foot, where no glaze is.",
		"No network? Go on: your phone keeps it, and sends it later. No phone? Use the paper log.",
	} {
		y = s.bullet(body.x, y, body.w, text.at(13), said) + 2
	}
	s.caution(area{body.x, y + 3, body.w, 0}, "Your teacher sees what you send. Who sent it is shown to nobody else, and nothing leaves the building.")
}
