package produce

import (
	"context"
	"io"
	"runtime"
	"sync"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// InventedWall makes the wall of an invented studio in a new folder, as it is
// before anything is planned.
func InventedWall(dir string) error {
	files, err := content.Starter()
	if err != nil {
		return err
	}
	invented, err := demo.Files()
	if err != nil {
		return err
	}
	for name, text := range invented {
		files[name] = text
	}
	return folder.Make(dir, files)
}

// InventedYear writes what the studio did after its wall was planned: its
// records, the repeats that it fired, and a photo of every tile. more is how
// many tiles there are more than planned, photos how many were made. When ctx is
// done it ends after the photos in hand, with the error of ctx.
func InventedYear(ctx context.Context, dir folder.Folder, tell run.Tell) (more, photos int, err error) {
	wall, err := run.Load(dir)
	if err != nil {
		return 0, 0, err
	}
	planned := len(wall.Tiles)
	wall.Tiles = demo.Year(wall.Tiles)
	if err := dir.Fill(demo.Records()); err != nil {
		return 0, 0, err
	}
	if err := record.WriteTiles(dir, wall.Tiles); err != nil {
		return 0, 0, err
	}
	return len(wall.Tiles) - planned, len(wall.Tiles), photograph(ctx, dir, wall, tell)
}

// photograph makes a photo of every tile that the plan numbers.
func photograph(ctx context.Context, dir folder.Folder, wall tiles.Wall, tell run.Tell) error {
	studio := demo.NewStudio(wall.Settings.Tile, demo.Seed)
	step := tell.Steps("photos", len(wall.Tiles))
	todo := make(chan tiles.Tile)
	var first error
	var once sync.Once
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for t := range todo {
				err := dir.Write(folder.Photos+"/"+t.Number.String()+".jpg", func(w io.Writer) error {
					_, err := studio.JPEG(w, t)
					return err
				})
				if err != nil {
					once.Do(func() { first = err })
				}
				step()
			}
		})
	}
	for _, t := range wall.Tiles {
		if ctx.Err() != nil {
			break
		}
		todo <- t
	}
	close(todo)
	workers.Wait()
	if first == nil {
		first = ctx.Err()
	}
	return first
}

// InventedWish is how the invented studio's main job is wanted.
type InventedWish struct {
	Sheet   run.Sheet // as run.MeasureWish has it
	Program string    // as SiteWish has it
	Tell    run.Tell
}

// Invented runs the whole main job on the invented studio's wall: plan, print,
// the year after, measure, plan what is due again, and build. When ctx is done
// it ends at the next step with the error of ctx; what is made by then stays.
func Invented(ctx context.Context, dir folder.Folder, w InventedWish) error {
	for _, step := range []func() error{
		func() error { _, err := run.Plan(dir, run.PlanWish{}); return err },
		func() error { _, err := Print(ctx, dir, PrintWish{Tell: w.Tell}); return err },
		func() error { _, _, err := InventedYear(ctx, dir, w.Tell); return err },
		func() error {
			_, err := run.Measure(ctx, dir, run.MeasureWish{Sheet: w.Sheet, Program: w.Program, Tell: w.Tell})
			return err
		},
		func() error { _, err := run.Plan(dir, run.PlanWish{}); return err },
		func() error { _, err := Site(ctx, dir, SiteWish{Program: w.Program, Tell: w.Tell}); return err },
	} {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := step(); err != nil {
			return err
		}
	}
	return ctx.Err()
}
