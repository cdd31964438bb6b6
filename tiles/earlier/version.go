package earlier

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/twodip/twodip/tiles/folder"
)

// Folder holds the versions, below the wall.
const Folder = "earlier"

// Files are the files of a person that a command may change.
var Files = []string{
	"wall.yaml", "content/glazes.csv", "content/glazes.yaml",
	"tiles/plan.csv", "tiles/measured.csv", "tiles/by-hand.csv",
	"tiles/log.csv", "tiles/batches.csv", "tiles/loads.csv",
}

// mostBytes bounds a file that is kept: a wall of 90,000 tiles, the most there
// can be, has some 30 MB of readings.
const mostBytes = 128 << 20

// Version is one kept version of a file.
type Version struct {
	File  string    // the file it is of, below the wall: "tiles/plan.csv"
	Turn  int       // 1 the first that was kept of it; order goes by this, not by the clock
	Kept  time.Time // when it was kept, to the minute, in the time of the place
	Sum   string    // the first 8 hexadecimal digits of its SHA-256
	Saved string    // the file that holds it, below the wall
}

// minute is how a time stands in a version's name: no system forbids a letter of it.
const minute = "2006-01-02 15.04"

var versionName = regexp.MustCompile(`^(.+) (\d{4,}) (\d{4}-\d\d-\d\d \d\d\.\d\d) ([0-9a-f]{8})(\.[a-z]+)$`)

// parse reads a version from its name in the sub-folder of the kept ones.
func parse(sub, name string) (Version, bool) {
	m := versionName.FindStringSubmatch(name)
	if m == nil {
		return Version{}, false
	}
	turn, err := strconv.Atoi(m[2])
	at, timeErr := time.ParseInLocation(minute, m[3], time.Local)
	if err != nil || timeErr != nil {
		return Version{}, false
	}
	return Version{
		File: path.Join(sub, m[1]+m[5]), Turn: turn, Kept: at, Sum: m[4],
		Saved: path.Join(Folder, sub, name),
	}, true
}

// named is the name a version of a file is kept under.
func named(file string, turn int, at time.Time, sum string) string {
	ext := path.Ext(file)
	return path.Join(Folder, fmt.Sprintf("%s %04d %s %s%s", strings.TrimSuffix(file, ext), turn, at.Format(minute), sum, ext))
}

// ErrDamaged is a kept version that no longer holds what its name says.
var ErrDamaged = errors.New("this kept version has been changed or damaged since it was kept")

// Read reads what a version holds. One that was changed since is ErrDamaged.
func (v Version) Read(dir folder.Folder) ([]byte, error) {
	data, err := dir.Read(v.Saved, mostBytes)
	if err == nil && sumOf(data) != v.Sum {
		return nil, ErrDamaged
	}
	return data, err
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:4])
}

// List lists every version that is kept of the files, the newest of each first,
// in the order of Files. Files of other names in the folder are passed over.
func List(dir folder.Folder) ([]Version, error) {
	var all []Version
	for _, sub := range []string{".", "content", "tiles"} {
		names, err := dir.Names(path.Join(Folder, sub))
		if err != nil {
			return nil, err
		}
		for _, name := range names {
			if v, ok := parse(sub, name); ok && slices.Contains(Files, v.File) {
				all = append(all, v)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b Version) int {
		return cmp.Or(cmp.Compare(slices.Index(Files, a.File), slices.Index(Files, b.File)), cmp.Compare(b.Turn, a.Turn), strings.Compare(a.Saved, b.Saved))
	})
	return all, nil
}

// Of lists the versions of one file, the newest first.
func Of(all []Version, file string) []Version {
	var out []Version
	for _, v := range all {
		if v.File == file {
			out = append(out, v)
		}
	}
	return out
}
