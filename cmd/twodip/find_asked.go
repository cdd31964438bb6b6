package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/measure"
)

// asked is the color somebody looks for, and how surely it is known: exactly
// where they wrote it, within a photo's doubt where it comes from one.
type asked struct {
	lab   color.Lab
	photo string // "" = written
	doubt float64
	class tiles.Class
	notes []string
}

// pictures are the endings of files that are meant as photos.
var pictures = []string{".jpg", ".jpeg", ".png", ".heic", ".heif", ".webp", ".tif", ".tiff"}

// ask reads a color as written, or the color of what a photo shows.
func (a *app) ask(what string, wall tiles.Wall) (asked, error) {
	lab, err := color.Parse(what)
	if err == nil {
		return asked{lab: lab}, nil
	}
	path, ok := a.photoPath(what)
	if ok {
		return a.askPhoto(what, path, wall)
	}
	if slices.Contains(pictures, strings.ToLower(filepath.Ext(what))) {
		return asked{}, tiles.Problem{File: what, What: "there is no such photo here or in " + photosFolder}
	}
	return asked{}, err
}

// photoPath finds a photo from where the person is, then among the wall's.
func (a *app) photoPath(name string) (string, bool) {
	for _, path := range []string{name, filepath.Join(a.wall, filepath.FromSlash(photosFolder), filepath.FromSlash(name))} {
		if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() {
			return path, true
		}
	}
	return "", false
}

func (a *app) askPhoto(name, path string, wall tiles.Wall) (asked, error) {
	data, err := readBounded(path)
	if err != nil {
		return asked{}, photoProblem(name, err)
	}
	patches, err := a.patches(wall.Settings)
	if err != nil {
		return asked{}, err
	}
	var reader measure.Reader
	r, notes, err := reader.Glance(data, measure.Ask{Wall: wall, Photo: name, Patches: patches})
	if err != nil {
		return asked{}, photoProblem(name, err)
	}
	if r.Warning != "" {
		notes = append(notes, r.Warning)
	}
	return asked{lab: color.Lab{L: r.L, A: r.A, B: r.B}, photo: name, doubt: r.Doubt, class: r.Class, notes: notes}, nil
}
