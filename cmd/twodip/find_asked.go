package main

import (
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
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
	data, missing := a.folder().GivenPhoto(what)
	if !errors.Is(missing, fs.ErrNotExist) {
		return a.askPhoto(what, data, missing, wall)
	}
	if slices.Contains(pictures, strings.ToLower(filepath.Ext(what))) {
		return asked{}, tiles.Problem{File: what, What: "there is no such photo here or in " + folder.Photos}
	}
	return asked{}, err
}

func (a *app) askPhoto(name string, data []byte, err error, wall tiles.Wall) (asked, error) {
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
