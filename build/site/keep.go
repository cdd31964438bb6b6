package site

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"github.com/twodip/twodip/tiles/unchanged"
)

// shelf is the pictures that were made for sites before, each named
// KIND-FROM-SUM.jpg: after what it was made from and after its own bytes, so
// that one that was cut short or altered is told and made again. The wall's
// site and the teacher's copy share it.
type shelf struct {
	dir  string
	file map[string]string // by KIND-FROM

	mu   sync.Mutex
	used map[string]bool // by KIND-FROM, those that this site shows
}

// short is as much of a hash as tells any two files apart.
func short(sum string) string { return sum[:24] }

func readShelf(dir string) (*shelf, error) {
	s := &shelf{dir: dir, file: map[string]string{}, used: map[string]bool{}}
	if dir == "" {
		return s, nil
	}
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return s, nil
	}
	for _, e := range entries {
		parts := strings.Split(strings.TrimSuffix(e.Name(), ".jpg"), "-")
		if e.Type().IsRegular() && len(parts) == 3 && (parts[0] == "photo" || parts[0] == "wall") {
			s.file[parts[0]+"-"+parts[1]] = e.Name()
		}
	}
	return s, err
}

// get gives a picture whose bytes are what its name says.
func (s *shelf) get(key string) ([]byte, bool) {
	name, ok := s.file[key]
	if !ok {
		return nil, false
	}
	data, err := os.ReadFile(filepath.Join(s.dir, name))
	return data, err == nil && name == key+"-"+short(unchanged.Sum(data))+".jpg"
}

// kept gives the picture that was made before from what has the hash from, or
// makes it and keeps it.
func (s *shelf) kept(kind, from string, produce func() ([]byte, error)) ([]byte, error) {
	if s.dir == "" || from == "" {
		return produce()
	}
	key := kind + "-" + short(from)
	s.use(key)
	if data, ok := s.get(key); ok {
		return data, nil
	}
	data, err := produce()
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(s.dir, 0o755); err != nil {
		return nil, err
	}
	return data, os.WriteFile(filepath.Join(s.dir, key+"-"+short(unchanged.Sum(data))+".jpg"), data, 0o644)
}

// use notes that this site shows a picture of the shelf.
func (s *shelf) use(key string) {
	s.mu.Lock()
	s.used[key] = true
	s.mu.Unlock()
}

// forget removes what earlier builds kept and this one had no use for.
func (s *shelf) forget() error {
	for key, name := range s.file {
		if s.used[key] {
			continue
		}
		if err := os.Remove(filepath.Join(s.dir, name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}
