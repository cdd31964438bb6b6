package content

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// BucketsCSV is where a teacher writes which buckets can be dipped in today.
const BucketsCSV = "content/buckets.csv"

// bucketWords are the ways a state is written.
var bucketWords = map[string]tiles.BucketState{
	"ready": tiles.BucketReady, "ok": tiles.BucketReady, "full": tiles.BucketReady,
	"low":           tiles.BucketLow,
	"being remixed": tiles.BucketRemixing, "remixing": tiles.BucketRemixing, "remix": tiles.BucketRemixing,
	"gone": tiles.BucketGone, "empty": tiles.BucketGone, "out": tiles.BucketGone,
}

// ReadBuckets says of every glaze whether its bucket can be dipped in, by
// content/buckets.csv of the wall: the columns glaze (a code) and state, others
// are the teacher's own. A glaze without a row, or with an empty state, is
// ready; one that is no longer mixed is gone. Without the file nothing is said.
func ReadBuckets(dir folder.Folder, glazes []tiles.Glaze) error {
	raw, err := dir.Read(BucketsCSV, table.MaxBytes)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	t, err := table.Read(BucketsCSV, bytes.NewReader(raw))
	if err != nil {
		return err
	}
	if ps := t.Need("glaze", "state"); len(ps) > 0 {
		return ps
	}
	for i := range glazes {
		glazes[i].Bucket = tiles.BucketReady
		if glazes[i].Retired {
			glazes[i].Bucket = tiles.BucketGone
		}
	}
	var ps tiles.Problems
	lines := map[int]int{}
	for _, r := range t.Data() {
		if p := readBucket(t, r, glazes, lines); p != nil {
			ps = append(ps, *p)
		}
	}
	return ps.OrNil()
}

func readBucket(t *table.Table, r table.Row, glazes []tiles.Glaze, lines map[int]int) *tiles.Problem {
	code, word := t.Cell(r, "glaze"), strings.ToLower(strings.Join(strings.Fields(t.Cell(r, "state")), " "))
	wrong := func(do, what string, args ...any) *tiles.Problem {
		p := t.Problem(r.Line, fmt.Sprintf(what, args...), do)
		return &p
	}
	at := -1
	for i, g := range glazes {
		if tiles.SameCode(g.Code, code) {
			at = i
		}
	}
	switch {
	case code == "":
		return wrong("write the glaze's code", "glaze is empty")
	case at < 0:
		return wrong("write its code as on the list, or take the row out", "glaze %q is not on the glaze list", code)
	case lines[at] > 0:
		return wrong("keep one of the two rows", "glaze %s has a row already, in line %d", glazes[at].Code, lines[at])
	}
	lines[at] = r.Line
	if word == "" {
		return nil
	}
	state, ok := bucketWords[word]
	if !ok {
		return wrong("write one of ready, low, being remixed, gone", "state is %q", t.Cell(r, "state"))
	}
	glazes[at].Bucket = state
	return nil
}
