package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// traited is one glaze for each trait, its code the trait's first letters.
var traited = []tiles.Glaze{
	{Code: "A", Name: "plain"},
	{Code: "RU", Traits: []tiles.Trait{tiles.Runny}},
	{Code: "R2", Traits: []tiles.Trait{tiles.Runny}},
	{Code: "CR", Traits: []tiles.Trait{tiles.Crawls}},
	{Code: "SL", Traits: []tiles.Trait{tiles.Slick}},
	{Code: "SO", Traits: []tiles.Trait{tiles.Soluble}},
	{Code: "NF", Traits: []tiles.Trait{tiles.NeverFirst}},
	{Code: "NS", Traits: []tiles.Trait{tiles.NeverSecond}},
}

func TestBuiltInRules(t *testing.T) {
	for _, c := range []struct{ first, second, do string }{
		{"A", "RU", plan.Allow},
		{"RU", "A", plan.Allow},
		{"RU", "R2", plan.Caution},
		{"RU", "RU", plan.Caution},
		{"A", "CR", plan.Caution},
		{"CR", "A", plan.Allow},
		{"SL", "A", plan.Caution},
		{"A", "SL", plan.Allow},
		{"SO", "A", plan.Caution},
		{"A", "SO", plan.Caution},
		{"NF", "A", plan.Skip},
		{"A", "NF", plan.Allow},
		{"A", "NS", plan.Skip},
		{"NS", "A", plan.Allow},
		{"NS", "NS", plan.Skip},
		{"NS", "", plan.Allow},
	} {
		v := plan.Judge(tiles.Settings{}, traited, tiles.Pair{First: c.first, Second: c.second})
		require.Equal(t, c.do, v.Do, v.Pair)
		require.Equal(t, c.do != plan.Allow, v.Reason() != "", v.Pair)
	}
}

func TestTheLastRuleThatFitsDecides(t *testing.T) {
	rules := []tiles.Rule{
		{First: "runny", Second: "runny", Do: "skip", Reason: "both run", Line: 20},
		{Either: "ru", Do: "allow", Reason: "it stays put in our kiln", Line: 23},
		{First: "NF", Do: "allow", Line: 26},
	}
	judge := func(first, second string) plan.Verdict {
		return plan.Judge(tiles.Settings{Rules: rules}, traited, tiles.Pair{First: first, Second: second})
	}
	require.Equal(t, plan.Skip, judge("R2", "R2").Do)
	require.Len(t, judge("R2", "R2").Grounds, 1)
	require.Equal(t, 20, judge("R2", "R2").Grounds[0].Line)
	require.Equal(t, plan.Allow, judge("RU", "R2").Do)
	require.Equal(t, plan.Allow, judge("NF", "A").Do, "the teacher overrides a built-in rule")
	require.Equal(t, "a rule for first NF", judge("NF", "A").Reason())
}

func TestCautionsAddUp(t *testing.T) {
	v := plan.Judge(tiles.Settings{}, traited, tiles.Pair{First: "SL", Second: "CR"})
	require.Equal(t, plan.Caution, v.Do)
	require.Len(t, v.Grounds, 2)
}

func TestALaterRuleOfTheSameConditionsReplacesItsReason(t *testing.T) {
	s := tiles.Settings{Rules: []tiles.Rule{{First: "Runny", Second: "runny", Do: "caution", Reason: "ours run off the shelf"}}}
	require.Equal(t, "ours run off the shelf", plan.Judge(s, traited, tiles.Pair{First: "RU", Second: "R2"}).Reason())
}
