package bench

import (
	"encoding/json"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"github.com/twodip/twodip/tiles/folder"
)

// lately remembers, for this person on this machine, which walls were opened
// and which benches run. Losing it loses convenience only.
type lately struct {
	mu   *sync.Mutex
	file string // "" = there is no place for it
}

// remembered is the file's content.
type remembered struct {
	Walls []string          `json:"walls"` // the last one opened first
	Runs  map[string]string `json:"runs"`  // the bench's address, by the wall's folder
}

// mostLately is how many walls are remembered.
const mostLately = 8

func openLately() lately {
	l := lately{mu: &sync.Mutex{}}
	if place, err := os.UserConfigDir(); err == nil {
		l.file = filepath.Join(place, "twodip", "bench.json")
	}
	return l
}

func (l lately) read() remembered {
	var r remembered
	if l.file == "" {
		return r
	}
	if data, err := os.ReadFile(l.file); err != nil || len(data) > 1<<20 || json.Unmarshal(data, &r) != nil {
		return remembered{}
	}
	return r
}

// change rewrites the file. It holds keys, so that nobody else may read it.
func (l lately) change(do func(*remembered)) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.file == "" {
		return
	}
	r := l.read()
	do(&r)
	data, err := json.MarshalIndent(r, "", "  ")
	if err != nil || os.MkdirAll(filepath.Dir(l.file), 0o700) != nil {
		return
	}
	temp, err := os.CreateTemp(filepath.Dir(l.file), "bench-*")
	if err != nil {
		return
	}
	_, err = temp.Write(data)
	if temp.Close() != nil || err != nil || os.Rename(temp.Name(), l.file) != nil {
		_ = os.Remove(temp.Name())
	}
}

// opened puts a wall first in the list.
func (l lately) opened(dir string) {
	whole, err := filepath.Abs(dir)
	if err != nil {
		return
	}
	l.change(func(r *remembered) {
		r.Walls = slices.DeleteFunc(r.Walls, func(w string) bool { return w == whole })
		r.Walls = append([]string{whole}, r.Walls...)
		r.Walls = r.Walls[:min(len(r.Walls), mostLately)]
	})
}

// walls lists those opened lately that are still there.
func (l lately) walls() []string {
	return slices.DeleteFunc(l.read().Walls, func(w string) bool { return !folder.At(w).Has("wall.yaml") })
}

func (l lately) runs(wall, address string) {
	if wall != "" {
		l.opened(wall)
	}
	l.change(func(r *remembered) {
		if r.Runs == nil {
			r.Runs = map[string]string{}
		}
		r.Runs[wholeName(wall)] = address
	})
}

func (l lately) ended(address string) {
	l.change(func(r *remembered) {
		for wall, at := range r.Runs {
			if at == address {
				delete(r.Runs, wall)
			}
		}
	})
}

// running is the bench of that wall that answers now.
func (l lately) running(wall string) (address string, runs bool) {
	address, known := l.read().Runs[wholeName(wall)]
	if !known {
		return "", false
	}
	u, err := url.Parse(address)
	if err != nil || u.Hostname() == "" {
		return "", false
	}
	// It answers the key with the cookie and a way on, which is not followed.
	ask := http.Client{Timeout: time.Second, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	answer, err := ask.Get(address)
	if err != nil {
		return "", false
	}
	_ = answer.Body.Close()
	return address, answer.StatusCode == http.StatusSeeOther
}

func wholeName(wall string) string {
	if wall == "" {
		return ""
	}
	if whole, err := filepath.Abs(wall); err == nil {
		return whole
	}
	return wall
}
