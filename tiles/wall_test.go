package tiles

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSayNeverLeavesTheOrderOpen(t *testing.T) {
	w := Wall{Glazes: []Glaze{{Code: "QM", Name: "Quarry Milk"}, {Code: "LR", Name: "Lamp Rust"}}}
	assert.Equal(t, "1st Quarry Milk → 2nd Lamp Rust", w.Say(Pair{"QM", "LR"}))
	assert.Equal(t, "1st Lamp Rust alone", w.Say(Pair{First: "lr"}), "case never tells two glazes apart")
	assert.Equal(t, "1st Quarry Milk → 2nd Quarry Milk again", w.Say(Pair{"QM", "qm"}))
	assert.Equal(t, "1st GONE → 2nd Lamp Rust", w.Say(Pair{"GONE", "LR"}), "a glaze that left the list keeps its code")
}

func TestOwnPassesOverRepeatsAndTheRetired(t *testing.T) {
	p := Pair{"A", "B"}
	w := Wall{Tiles: []Tile{
		{Number: 1, Pair: p, Status: Retired},
		{Number: 2, Pair: p, Status: Fired, Repeats: 1},
		{Number: 3, Pair: p, Status: Planned},
	}}
	own, ok := w.Own(p)
	assert.True(t, ok)
	assert.Equal(t, Number(3), own.Number)

	w.Tiles = w.Tiles[:2]
	own, ok = w.Own(p)
	assert.True(t, ok, "the broken tile still stands for the pair until it is made again")
	assert.Equal(t, Number(1), own.Number)

	_, ok = w.Own(p.Reverse())
	assert.False(t, ok, "the other order is another tile")
}

func TestProblemSaysFileLineWhatAndDo(t *testing.T) {
	p := Problem{File: "content/glazes.csv", Line: 4, What: "code QM is used twice", Do: "give one of them another code"}
	assert.Equal(t, "content/glazes.csv:4: code QM is used twice; give one of them another code", p.Error())
	assert.NoError(t, Problems(nil).OrNil())
	assert.EqualError(t, Problems{p, {File: "wall.yaml", What: "it is empty"}}.OrNil(), p.Error()+"\nwall.yaml: it is empty")
}
