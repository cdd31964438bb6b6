package bench

func siteRoom() room {
	return room{path: "/site", name: "Site", file: "site", wall: true, show: (*Bench).showSite}
}

// sitePage is what the page shows.
type sitePage struct{}

func (b *Bench) showSite(a *asked) (any, error) { return sitePage{}, nil }
