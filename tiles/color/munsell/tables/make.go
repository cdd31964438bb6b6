//go:build ignore

// Make writes the tables beside it from the published figures:
//
//	go run tiles/color/munsell/tables/make.go ../shared/reference
//
// renotation.txt: the Munsell renotation, Newhall, Nickerson and Judd, J. Opt.
// Soc. Am. 33 (1943) 385–418, with its extrapolations ("all.dat" of the Munsell
// Color Science Laboratory), from munsell/munsell_all.csv. Value 0.2 is left
// out: one of its hues is missing, and no glaze is that black.
//
// blocks.txt and names.txt: the ISCC–NBS color name blocks, Kelly and Judd,
// NBS Special Publication 440 (1976), a work of the United States government,
// from iscc-nbs/iscc-nbs.xml (CC0).
package main

import (
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"log"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

func main() {
	if len(os.Args) != 2 {
		log.Fatal("usage: go run tiles/color/munsell/tables/make.go REFERENCE-FOLDER")
	}
	const to = "tiles/color/munsell/tables"
	save(filepath.Join(to, "renotation.txt"), renotation(filepath.Join(os.Args[1], "munsell/munsell_all.csv")))
	var s system
	check(xml.Unmarshal(load(filepath.Join(os.Args[1], "iscc-nbs/iscc-nbs.xml")), &s))
	save(filepath.Join(to, "names.txt"), s.names())
	save(filepath.Join(to, "blocks.txt"), s.blocks())
}

// renotation gives one line a ray: value, hue, then x and y in ten-thousandths
// at chroma 2, 4, 6, …
func renotation(path string) string {
	rows, err := csv.NewReader(strings.NewReader(string(load(path)))).ReadAll()
	check(err)
	var order []string
	rays := map[string][]string{}
	for _, r := range rows[1:] {
		if r[1] == "0.2" {
			continue
		}
		ray := r[1] + " " + r[0]
		if len(rays[ray]) == 0 {
			order = append(order, ray)
		}
		if chroma := number(r[2]); chroma != float64(2*(1+len(rays[ray])/2)) {
			log.Fatalf("%s: chroma %v out of turn", ray, chroma)
		}
		rays[ray] = append(rays[ray], tenThousandths(r[3]), tenThousandths(r[4]))
	}
	var b strings.Builder
	for _, ray := range order {
		fmt.Fprintln(&b, ray, strings.Join(rays[ray], " "))
	}
	return b.String()
}

type system struct {
	Names  []name `xml:"names>name"`
	Ranges []struct {
		Begin string  `xml:"begin,attr"`
		End   string  `xml:"end,attr"`
		Block []block `xml:"range"`
	} `xml:"ranges>hue-range"`
}

type name struct {
	Number int    `xml:"color,attr"`
	Name   string `xml:"name,attr"`
	Below  []name `xml:"name"`
}

type block struct {
	Color  int    `xml:"color,attr"`
	Chroma string `xml:"chroma-begin,attr"`
	ToC    string `xml:"chroma-end,attr"`
	Value  string `xml:"value-begin,attr"`
	ToV    string `xml:"value-end,attr"`
}

// names gives one line a color, in the order of its number: the names at
// levels 1, 2 and 3.
func (s system) names() string {
	lines := make([]string, 267)
	for _, one := range s.Names {
		for _, two := range one.Below {
			for _, three := range two.Below {
				lines[three.Number-1] = strings.ToLower(one.Name + "," + two.Name + "," + three.Name)
			}
		}
	}
	return strings.Join(lines, "\n") + "\n"
}

// blocks gives a line "1R 4R" for each slice of hue and below it one line a
// block: color number, chroma from and to, value from and to.
func (s system) blocks() string {
	var b strings.Builder
	for _, r := range s.Ranges {
		fmt.Fprintln(&b, r.Begin, r.End)
		for _, k := range r.Block {
			fmt.Fprintln(&b, k.Color, short(k.Chroma), short(k.ToC), short(k.Value), short(k.ToV))
		}
	}
	return b.String()
}

func short(s string) string {
	if s == "INF" {
		return "inf"
	}
	return strconv.FormatFloat(number(s), 'g', -1, 64)
}

func tenThousandths(s string) string {
	v := number(s) * 1e4
	if math.Abs(v-math.Round(v)) > 1e-6 {
		log.Fatalf("%s has more than four decimals", s)
	}
	return strconv.Itoa(int(math.Round(v)))
}

func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	check(err)
	return v
}

func load(path string) []byte {
	b, err := os.ReadFile(path)
	check(err)
	return b
}

func save(path, text string) { check(os.WriteFile(path, []byte(text), 0o644)) }

func check(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
