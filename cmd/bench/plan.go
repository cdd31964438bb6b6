package bench

func planRoom() room {
	return room{path: "/plan", name: "Plan", file: "plan", wall: true, show: (*Bench).showPlan}
}

// planPage is what the page shows.
type planPage struct{}

func (b *Bench) showPlan(a *asked) (any, error) { return planPage{}, nil }
