package tiles

import (
	"fmt"
	"math"
	"strings"
)

// Units says what lengths, weights and volumes are said in. Files and settings
// hold millimetres, kilograms and litres whatever it is.
type Units string

// The units a sheet may speak.
const (
	UnitsMetric Units = "metric" // millimetres, grams and kilograms, litres
	UnitsUS     Units = "us"     // inches, ounces and pounds, US gallons
	UnitsBoth   Units = "both"   // US units, and metric ones after them in brackets
)

// Exact by definition: the international inch and pound (1959), and the US
// gallon of 231 cubic inches (NIST Handbook 44, appendix C).
const (
	millimetresAnInch = 25.4
	kilogramsAPound   = 0.45359237
	litresAGallon     = 3.785411784
)

// Length says a length given in mm: "64 mm", "2½ in", "2½ in (64 mm)". Inches
// are said to the sixteenth, as on a ruler.
func (u Units) Length(mm float64) string {
	return u.say(millimetres(mm)+" mm", inches(mm)+" in")
}

// Lengths says several lengths with the unit once: "60 × 90 mm".
func (u Units) Lengths(mms ...float64) string {
	var metric, us []string
	for _, mm := range mms {
		metric, us = append(metric, millimetres(mm)), append(us, inches(mm))
	}
	return u.say(strings.Join(metric, " × ")+" mm", strings.Join(us, " × ")+" in")
}

// Exactly is Units for what is cut, measured or glued by it: sixteenths of an
// inch are too coarse alone.
func (u Units) Exactly() Units {
	if u == UnitsUS {
		return UnitsBoth
	}
	return u
}

// Coat says how thick a raw coat is, given in mm: "0.5 mm", "0.02 in".
func (u Units) Coat(mm float64) string {
	return u.say(fmt.Sprintf("%g mm", math.Round(mm*100)/100), fmt.Sprintf("%.2f in", mm/millimetresAnInch))
}

// Weight says a weight given in kg: grams below one, ounces below a pound.
func (u Units) Weight(kg float64) string {
	metric := fmt.Sprintf("%.1f kg", kg)
	if kg < 1 {
		metric = fmt.Sprintf("%.0f g", kg*1000)
	}
	pounds := kg / kilogramsAPound
	us := fmt.Sprintf("%.1f lb", pounds)
	if pounds < 1 {
		us = fmt.Sprintf("%.1f oz", pounds*16)
	}
	return u.say(metric, us)
}

// Density says a density given in kg per litre: "1.9 kg per litre", "15.9 lb per gallon".
func (u Units) Density(kg float64) string {
	return u.say(fmt.Sprintf("%g kg per litre", kg), fmt.Sprintf("%.1f lb per gallon", kg/kilogramsAPound*litresAGallon))
}

// Volume says a volume given in litres: US quarts below a gallon, fluid ounces
// below a quart.
func (u Units) Volume(litres float64) string {
	metric := fmt.Sprintf("%.1f l", litres)
	if litres < 1 {
		metric = fmt.Sprintf("%.0f ml", litres*1000)
	}
	gallons := litres / litresAGallon
	us := fmt.Sprintf("%.1f gal", gallons)
	switch {
	case gallons < 0.25:
		us = fmt.Sprintf("%.0f fl oz", gallons*128)
	case gallons < 1:
		us = fmt.Sprintf("%.1f qt", gallons*4)
	}
	return u.say(metric, us)
}

func (u Units) say(metric, us string) string {
	switch u {
	case UnitsUS:
		return us
	case UnitsBoth:
		return us + " (" + metric + ")"
	}
	return metric
}

// millimetres writes mm to half a millimetre, which is finer than a hand dips.
func millimetres(mm float64) string { return fmt.Sprintf("%g", math.Round(mm*2)/2) }

// inches writes mm as inches and a fraction of sixteenths: "2½", "1 7/16".
func inches(mm float64) string {
	sixteenths := int(math.Round(mm / millimetresAnInch * 16))
	whole, rest := sixteenths/16, sixteenths%16
	if rest == 0 {
		return fmt.Sprint(whole)
	}
	said := map[int]string{2: "⅛", 4: "¼", 6: "⅜", 8: "½", 10: "⅝", 12: "¾", 14: "⅞"}[rest]
	if said == "" {
		said = fmt.Sprintf("%d/16", rest)
		if whole > 0 {
			said = "\u00a0" + said // a line must not end between 1 and 7/16
		}
	}
	if whole == 0 {
		return said
	}
	return fmt.Sprint(whole) + said
}
