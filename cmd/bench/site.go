package bench

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"path/filepath"
	"strings"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/cmd/listen"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func siteRoom() room {
	return room{path: "/site", name: "Site", file: "site", wall: true, show: (*Bench).showSite,
		does: map[string]does{"build": (*Bench).buildSite, "copy": (*Bench).copySite},
		more: map[string]moreWays{"zip": (*Bench).zipSite}}
}

// sitePage shows the site that was built, and hands it on.
type sitePage struct {
	Built   bool
	Phone   string // its address in the phone's frame
	Room    string // as the room sees it
	Place   string // the folder that was typed
	Problem []string
	Zip     string // what the zip is called
}

// Reads are what a site is made from: when it changes, the site is an older one.
func (sitePage) Reads() []string { return []string{record.PlanFile, record.MeasuredFile} }

func (b *Bench) showSite(a *asked) (any, error) { return b.sitePage(a, nil), nil }

func (b *Bench) sitePage(a *asked, wrong error) sitePage {
	page := sitePage{Built: a.dir.Has("build/site/index.html"), Place: a.FormValue("place")}
	if wrong != nil {
		page.Problem = sentences(wrong)
	}
	if page.Built {
		page.Phone, page.Room = b.view.at(a.dir, "index.html"), b.view.at(a.dir, "room.html")
		page.Zip = siteName(wallName(a.dir)) + ".zip"
		// Only here may a frame show something, and only the site.
		if u, err := url.Parse(page.Phone); err == nil {
			a.w.Header().Set("Content-Security-Policy", listen.Policy+"; frame-src "+u.Scheme+"://"+u.Host)
		}
	}
	return page
}

// siteName is a wall's name as a file's.
func siteName(wall string) string {
	name := strings.Trim(strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, strings.ToLower(wall)), "-")
	if name == "" {
		return "wall"
	}
	return name
}

// buildSite makes the site.
func (b *Bench) buildSite(*asked) (string, error) {
	return "/site", b.start("Making the site", func(ctx context.Context, dir folder.Folder, tell run.Tell) (outcome, error) {
		did, err := produce.Site(ctx, dir, produce.SiteWish{Program: b.program, Tell: tell})
		if err != nil {
			return outcome{}, err
		}
		came := outcome{Said: builtWords(did), Next: &link{Href: "/site", Text: "Look at it"}}
		for _, w := range english.First(mostSaid, did.Warnings) {
			came.Said = append(came.Said, "Note: "+w)
		}
		if did.Lost != nil {
			came.Wrong = sentences(did.Lost.Brief(4))
		}
		return came, nil
	})
}

// builtWords say what was built, and what of it is not as it was the last time.
func builtWords(did produce.Built) []string {
	said := []string{fmt.Sprintf("The site has %s, %d with a photo, %d with a color, %s and %s of your own: %.1f MB.",
		english.Count(did.Tiles, "tile", "tiles"), did.Pictured, did.Read, english.Count(did.Glazes, "glaze", "glazes"),
		english.Count(did.Pages, "page", "pages"), float64(did.Bytes)/1e6)}
	if did.Made == 0 {
		said = append(said, "Nothing has changed since the last time.")
	} else {
		said = append(said, fmt.Sprintf("Since the last time %d of its %s are new or changed.", did.Made, english.Count(did.Files, "file", "files")))
	}
	return append(said, "Of people’s records it holds: "+did.Records+".")
}

// copySite hands the site on to a folder or a stick.
func (b *Bench) copySite(a *asked) (string, error) {
	to := filepath.Clean(strings.TrimSpace(a.FormValue("place")))
	did, err := produce.CopySite(a.dir, to)
	if err != nil {
		return "", again{b.sitePage(a, err)}
	}
	said := note{Said: []string{fmt.Sprintf("The site is in %s: %s. Open index.html there.", to, english.Count(did.Files, "file", "files"))}}
	switch {
	case did.Again && did.New+did.Changed+did.Gone == 0:
		said.Said = append(said.Said, "It is the same as the copy before.")
	case did.Again:
		said.Said = append(said.Said, fmt.Sprintf("Since the copy before: %d new, %d changed, %d gone.", did.New, did.Changed, did.Gone))
	}
	return b.notes.leave("/site", said), nil
}

// zipSite streams the site as one file.
func (b *Bench) zipSite(a *asked) error {
	if !a.dir.Has("build/site/index.html") {
		return produce.ZipSite(a.dir, a.w)
	}
	a.w.Header().Set("Content-Type", "application/zip")
	a.w.Header().Set("Content-Disposition", `attachment; filename="`+siteName(wallName(a.dir))+`.zip"`)
	if err := produce.ZipSite(a.dir, a.w); err != nil {
		// What has begun cannot be refused any more: end it so that nobody takes it for whole.
		panic(http.ErrAbortHandler)
	}
	return nil
}
