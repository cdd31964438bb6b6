package bench

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
)

// group is a part of the settings that the page shows under one heading.
type group struct {
	name   string
	fields []setting
}

// setting is one setting of wall.yaml: its path there, what it is called, and
// where it is. A length is a pointer to mm.
type setting struct {
	name, label string
	length      bool
	choices     [][2]string
	at          func(*tiles.Settings) any // *string, *float64, *int, *bool
}

func settingGroups() []group {
	length := func(name, label string, at func(*tiles.Settings) *float64) setting {
		return setting{name: name, label: label, length: true, at: func(s *tiles.Settings) any { return at(s) }}
	}
	number := func(name, label string, at func(*tiles.Settings) *float64) setting {
		return setting{name: name, label: label, at: func(s *tiles.Settings) any { return at(s) }}
	}
	word := func(name, label string, at func(*tiles.Settings) *string, choices ...[2]string) setting {
		return setting{name: name, label: label, choices: choices, at: func(s *tiles.Settings) any { return at(s) }}
	}
	labels := [][2]string{{"", "the usual one for your paper"}}
	for _, name := range sheet.LabelSheets() {
		labels = append(labels, [2]string{name, name})
	}
	return []group{
		{"The wall", []setting{
			word("name", "What it is called", func(s *tiles.Settings) *string { return &s.Name }),
			word("cone", "Cone, as it stands on it", func(s *tiles.Settings) *string { return &s.Cone }),
			word("paper", "Paper", func(s *tiles.Settings) *string { return &s.Paper }, [2]string{"letter", "Letter"}, [2]string{"a4", "A4"}),
			word("units", "Lengths, weights and volumes in", func(s *tiles.Settings) *string { return (*string)(&s.Units) },
				[2]string{"metric", "millimetres, kilograms, litres"}, [2]string{"us", "inches, pounds, gallons"}, [2]string{"both", "inches, with millimetres beside them"}),
			word("address", "Where the site will be, for the codes on the labels; empty = not yet", func(s *tiles.Settings) *string { return &s.Address }),
			length("read-from", "How far the back row of people stands from the wall", func(s *tiles.Settings) *float64 { return &s.Read }),
		}},
		{"The fired tile", []setting{
			length("tile.width", "Width", func(s *tiles.Settings) *float64 { return &s.Tile.Width }),
			length("tile.height", "Height", func(s *tiles.Settings) *float64 { return &s.Tile.Height }),
			length("tile.thickness", "Thickness", func(s *tiles.Settings) *float64 { return &s.Tile.Thickness }),
			length("tile.foot", "Depth of its foot or stand; 0 = it lies flat", func(s *tiles.Settings) *float64 { return &s.Tile.Foot }),
			length("tile.bare", "Left bare at the bottom; more where a glaze runs", func(s *tiles.Settings) *float64 { return &s.Tile.Bare }),
			word("tile.layout", "How the two coats meet", func(s *tiles.Settings) *string { return (*string)(&s.Tile.Layout) },
				[2]string{"sides", "from both sides: upright lanes"}, [2]string{"ends", "from both ends: bands, for flat tiles"}, [2]string{"whole", "the 2nd covers the 1st"}),
			length("tile.first-dip", "The 1st dip covers", func(s *tiles.Settings) *float64 { return &s.Tile.FirstDip }),
			length("tile.second-dip", "The 2nd dip covers, from the other side", func(s *tiles.Settings) *float64 { return &s.Tile.SecondDip }),
			number("tile.shrinkage", "Shrinkage, wet to fired, per cent", func(s *tiles.Settings) *float64 { return &s.Tile.Shrinkage }),
			length("tile.hole", "Hole it hangs by; 0 = none", func(s *tiles.Settings) *float64 { return &s.Tile.Hole }),
			length("tile.texture", "Width of the combed strip; 0 = none", func(s *tiles.Settings) *float64 { return &s.Tile.Texture }),
			word("diagonal", "Where a glaze meets itself hangs", func(s *tiles.Settings) *string { return (*string)(&s.Diagonal) },
				[2]string{"single", "one coat"}, [2]string{"double", "two coats"}, [2]string{"both", "a tile of each"}),
		}},
		{"The kiln", []setting{
			word("kiln.name", "What it is called", func(s *tiles.Settings) *string { return &s.Kiln.Name }),
			{name: "kiln.upright", label: "Tiles stand upright", at: func(s *tiles.Settings) any { return &s.Kiln.Upright }},
			length("kiln.gap", "Between two tiles", func(s *tiles.Settings) *float64 { return &s.Kiln.Gap }),
			length("kiln.post", "Width of a kiln post", func(s *tiles.Settings) *float64 { return &s.Kiln.Post }),
			length("kiln.cones", "Kept free in front for cones; 0 = none", func(s *tiles.Settings) *float64 { return &s.Kiln.Cones }),
			length("kiln.thermocouple", "Kept free for the thermocouple; 0 = none", func(s *tiles.Settings) *float64 { return &s.Kiln.Thermocouple }),
			length("kiln.tray", "How far a waste slab sticks out", func(s *tiles.Settings) *float64 { return &s.Kiln.Tray }),
			length("kiln.height", "Height inside, floor to lid; 0 = not checked", func(s *tiles.Settings) *float64 { return &s.Kiln.Height }),
		}},
		{"Dipping", []setting{
			number("dip.seconds", "Seconds of a 1st dip", func(s *tiles.Settings) *float64 { return &s.Dip.Seconds }),
			number("dip.second-seconds", "Seconds of a 2nd dip; 0 = as the 1st", func(s *tiles.Settings) *float64 { return &s.Dip.SecondSeconds }),
			number("dip.dry", "Minutes between the coats", func(s *tiles.Settings) *float64 { return &s.Dip.Dry }),
			number("dip.stir", "Minutes between stirrings", func(s *tiles.Settings) *float64 { return &s.Dip.Stir }),
			word("dip.second-from", "2nd coats come from", func(s *tiles.Settings) *string { return (*string)(&s.Dip.SecondFrom) },
				[2]string{"jar", "a trough filled from a jar kept for them"}, [2]string{"trough", "a trough; the rest is thrown away"}, [2]string{"brush", "a brush"}, [2]string{"bucket", "the bucket, sieved after"}, [2]string{"cup", "a cup"}),
			length("dip.thickness", "Thickness of one raw coat", func(s *tiles.Settings) *float64 { return &s.Dip.Thickness }),
			number("dip.spares", "Spare tiles, per cent", func(s *tiles.Settings) *float64 { return &s.Dip.Spares }),
		}},
		{"Clay and labels", []setting{
			word("clay.body", "Clay body, as the labels say it", func(s *tiles.Settings) *string { return &s.Clay.Body }),
			word("clay.bisque", "Cone of the bisque firing", func(s *tiles.Settings) *string { return &s.Clay.Bisque }),
			word("labels.sheet", "Sheet of labels", func(s *tiles.Settings) *string { return &s.Labels.Sheet }, labels...),
			{name: "labels.start", label: "First free label on a used sheet", at: func(s *tiles.Settings) any { return &s.Labels.Start }},
			length("labels.right", "Move what is printed right; less than 0 = left", func(s *tiles.Settings) *float64 { return &s.Labels.Right }),
			length("labels.down", "Move what is printed down; less than 0 = up", func(s *tiles.Settings) *float64 { return &s.Labels.Down }),
		}},
	}
}

// value is the setting as it stands in its field.
func (f setting) value(s tiles.Settings, in string) string {
	switch at := f.at(&s).(type) {
	case *string:
		return *at
	case *int:
		return strconv.Itoa(*at)
	case *bool:
		return "yes"
	case *float64:
		if f.length {
			return shownLength(*at, in)
		}
		return strconv.FormatFloat(*at, 'f', -1, 64)
	}
	return ""
}

// shown is the setting's field, with what was typed in it.
func (f setting) shown(s tiles.Settings, in string, typed typedStudio) settingField {
	out := settingField{Name: f.name, ID: strings.ReplaceAll(f.name, ".", "-"), Label: f.label, Value: f.value(s, in), Says: typed.says[f.name]}
	if f.length {
		what, hint, _ := strings.Cut(f.label, ";")
		out.Label = what + ", " + in
		if hint != "" {
			out.Label += ";" + hint
		}
	}
	if v, ok := typed.values[f.name]; ok && out.Says != "" {
		out.Value = v
	}
	if on, ok := f.at(&s).(*bool); ok {
		out.Switch, out.On = true, *on
	}
	known := false
	for _, c := range f.choices {
		known = known || c[0] == out.Value
		out.Choices = append(out.Choices, choice{c[0], c[1], c[0] == out.Value})
	}
	if len(f.choices) > 0 && !known {
		out.Choices = append(out.Choices, choice{out.Value, out.Value, true})
	}
	return out
}

// take lays what was typed over the setting; what still reads as it was shown
// is not touched.
func (f setting) take(s *tiles.Settings, was tiles.Settings, typed string, sent bool, in string) error {
	if on, ok := f.at(s).(*bool); ok {
		*on = sent
		return nil
	}
	if typed = strings.TrimSpace(typed); !sent || typed == f.value(was, in) {
		return nil
	}
	switch at := f.at(s).(type) {
	case *string:
		*at = typed
	case *int:
		n, err := strconv.Atoi(typed)
		if err != nil {
			return fmt.Errorf("%q is no whole number", typed)
		}
		*at = n
	case *float64:
		var err error
		if f.length {
			*at, err = typedLength(typed, *at, in)
			return err
		}
		if *at, err = plainNumber(typed); err != nil {
			return err
		}
	}
	return nil
}

const inch = 25.4 // mm; the international inch, since 1959

// shownLength is a length in mm as it is typed, in mm or in inches.
func shownLength(mm float64, in string) string {
	if in == "in" {
		mm = math.Round(mm/inch*1000) / 1000
	}
	return strconv.FormatFloat(mm, 'f', -1, 64)
}

var typedLengths = regexp.MustCompile(`^([-−]?)(\d*(?:[.,]\d+)?)\s*(?:(\d+)\s*/\s*(\d+))?\s*(mm|cm|in|inch|inches|"|″)?\.?$`)

var vulgar = strings.NewReplacer("⅛", " 1/8", "¼", " 1/4", "⅜", " 3/8", "½", " 1/2", "⅝", " 5/8", "¾", " 3/4", "⅞", " 7/8")

// typedLength reads a length as people write it, in mm: 60, 60 mm, 6 cm, 2.5,
// 2 1/2 in, 2½. Without a unit it is in the page's. was is the length that the
// field showed.
func typedLength(typed string, was float64, in string) (float64, error) {
	typed = strings.TrimSpace(typed)
	if typed == shownLength(was, in) {
		return was, nil
	}
	if typed == "" {
		return 0, nil
	}
	m := typedLengths.FindStringSubmatch(strings.TrimSpace(vulgar.Replace(typed)))
	if m == nil || m[2] == "" && m[3] == "" {
		return 0, fmt.Errorf("%q is no length; write it like 60 or 2 1/2 in", typed)
	}
	x := 0.0
	if m[2] != "" {
		x, _ = strconv.ParseFloat(strings.Replace(m[2], ",", ".", 1), 64)
	}
	if m[3] != "" {
		over, _ := strconv.ParseFloat(m[3], 64)
		under, _ := strconv.ParseFloat(m[4], 64)
		if under == 0 {
			return 0, fmt.Errorf("%q is no length; write it like 2 1/2 in", typed)
		}
		x += over / under
	}
	switch unit := m[5]; {
	case unit == "cm":
		x *= 10
	case unit == "mm":
	case unit != "" || in == "in":
		x *= inch
	}
	if m[1] != "" {
		x = -x
	}
	return math.Round(x*1000) / 1000, nil
}

func plainNumber(typed string) (float64, error) {
	x, err := strconv.ParseFloat(strings.Replace(typed, ",", ".", 1), 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, fmt.Errorf("%q is no number", typed)
	}
	return x, nil
}
