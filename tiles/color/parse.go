package color

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/lucasb-eyer/go-colorful"
)

var (
	hexForm = regexp.MustCompile(`^#?([0-9a-f]{3}|[0-9a-f]{6})$`)
	labForm = regexp.MustCompile(`^(?:lab)?\s*\(?([^()]*)\)?$`)
	between = regexp.MustCompile(`[\s,;]+`)
)

// Parse reads a color as people and style sheets write it: "#5a7f91", "5a7f91"
// or "#abc" in sRGB; "lab(48 -8 -14)" in D50, as CSS writes it, with or without
// its word, brackets or commas; percentages as CSS Color 4, 10.1 has them (a*
// and b* of 100% are 125).
func Parse(s string) (Lab, error) {
	text := strings.ToLower(strings.TrimSpace(strings.ReplaceAll(s, "−", "-")))
	if m := hexForm.FindStringSubmatch(text); m != nil {
		return parseHex(m[1])
	}
	if m := labForm.FindStringSubmatch(text); m != nil {
		if fields := between.Split(strings.TrimSpace(m[1]), -1); len(fields) == 3 && strings.ContainsAny(m[1], "0123456789") {
			return parseLab(s, fields)
		}
	}
	return Lab{}, fmt.Errorf("%q is not a color; write it as #5a7f91 or lab(48 -8 -14)", s)
}

func parseHex(digits string) (Lab, error) {
	c, err := colorful.Hex("#" + digits)
	if err != nil {
		return Lab{}, fmt.Errorf("#%s is not a color; write it as #5a7f91", digits)
	}
	r, g, b := c.RGB255()
	return FromSRGB(r, g, b), nil
}

func parseLab(s string, fields []string) (Lab, error) {
	var v [3]float64
	for i, whole := range [3]float64{100, 125, 125} {
		digits, percent := strings.CutSuffix(fields[i], "%")
		n, err := strconv.ParseFloat(digits, 64)
		if err != nil {
			return Lab{}, fmt.Errorf("%q in %q is not a number; write a color as lab(48 -8 -14)", fields[i], s)
		}
		if percent {
			n *= whole / 100
		}
		v[i] = n
	}
	c := Lab{v[0], v[1], v[2]}
	if !c.Real() {
		return Lab{}, fmt.Errorf("%q is no color: L* goes from 0 to 100, a* and b* from -200 to 200", s)
	}
	return c, nil
}
