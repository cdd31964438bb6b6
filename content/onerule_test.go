package content

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/twodip/twodip/tiles"
)

func starterText(t require.TestingT) string {
	text, err := os.ReadFile("starter/wall.yaml")
	require.NoError(t, err)
	return string(text)
}

// A rule clicked and taken back leaves the file as it was, wherever the rules
// stand and whatever is said about them.
func TestARuleIsWrittenAndTakenBack(t *testing.T) {
	for name, text := range map[string]string{
		"starter":       starterText(t),
		"no rules":      "name: x\n# the end\n",
		"no line end":   "name: x\nrules:\n  - {first: A, second: B, do: skip} # by hand",
		"others":        "rules:\n- {either: runny, do: caution, reason: \"ours: run\"}   # mind\n\n# below\ncone: \"6\"\n",
		"several lines": "rules:\n  - first: A\n    second: B\n    do: caution\n  # more\nname: y\n",
		"windows":       "name: x\r\nrules:\r\n  - {first: A, second: B, do: skip}\r\n",
	} {
		t.Run(name, func(t *testing.T) {
			r := tiles.Rule{First: "NO", Second: "7", Do: "skip", Reason: `it "ran": \ off # the <tile>`}
			with, err := WithRule([]byte(text), r)
			require.NoError(t, err)
			s, err := ParseSettings(with)
			require.NoError(t, err)
			last := s.Rules[len(s.Rules)-1]
			require.Equal(t, [4]string{"NO", "7", "skip", r.Reason}, [4]string{last.First, last.Second, last.Do, last.Reason})
			for line := range strings.Lines(text) {
				require.Contains(t, string(with), strings.TrimRight(line, "\r\n"))
			}
			r.Do = "caution"
			again, err := WithRule(with, r)
			require.NoError(t, err)
			require.Equal(t, strings.Count(string(with), "\n"), strings.Count(string(again), "\n"), "one rule a pair")
			r.Do = ""
			back, err := WithRule(again, r)
			require.NoError(t, err)
			want := text
			if name == "no rules" {
				want += "\nrules:\n"
			}
			require.Equal(t, strings.TrimRight(want, "\n"), strings.TrimRight(string(back), "\n"))
		})
	}
}

func TestARuleOverSeveralLinesIsAPersons(t *testing.T) {
	for _, text := range []string{
		"rules:\n  - first: A\n    second: B\n    do: skip\n",
		"rules: [{first: A, second: B, do: skip}]\n",
		"rules: [{first: C, second: B, do: skip}]\n",
	} {
		_, err := WithRule([]byte(text), tiles.Rule{First: "A", Second: "B", Do: "caution"})
		require.ErrorContains(t, err, "wall.yaml:")
	}
}

// Whatever a person writes as a reason is read back, and nothing else changes.
func TestAnyReasonIsReadBack(t *testing.T) {
	before, err := ParseSettings([]byte(starterText(t)))
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		r := tiles.Rule{First: rapid.StringMatching(`[A-Za-z0-9]{1,4}`).Draw(t, "first"), Second: rapid.StringMatching(`[A-Za-z0-9]{1,4}`).Draw(t, "second"),
			Do: rapid.SampledFrom([]string{"skip", "caution", "allow"}).Draw(t, "do"), Reason: rapid.String().Draw(t, "reason")}
		with, err := WithRule([]byte(starterText(t)), r)
		require.NoError(t, err)
		s, err := ParseSettings(with)
		require.NoError(t, err)
		require.Equal(t, tidy(r.Reason), s.Rules[0].Reason)
		s.Rules = before.Rules
		require.Equal(t, before, s)
	})
}

func TestAPartIsWritten(t *testing.T) {
	part := tiles.Portion{Glazes: 4, Pairs: 3, Both: true}
	for _, text := range []string{starterText(t), "name: x\n", "name: x\npart:\n", "part: {pairs: 2} # ours\nname: x\n", "part:\n    # first\n    prefer: [A]\n    pairs: 1 # one\n"} {
		with, err := WithPart([]byte(text), part)
		require.NoError(t, err, text)
		s, err := ParseSettings(with)
		require.NoError(t, err)
		require.Equal(t, [2]int{4, 3}, [2]int{s.Part.Glazes, s.Part.Pairs})
		for _, mark := range []string{"# ours", "# first", "# one", "prefer: [A]", "# 0 = all"} {
			require.Equal(t, strings.Contains(text, mark), strings.Contains(string(with), mark), mark)
		}
		again, err := WithPart(with, part)
		require.NoError(t, err)
		require.Equal(t, string(with), string(again))
	}
}
