package earlier

import "github.com/twodip/twodip/tiles/folder"

// Rewrite puts other contents in the place of a kept version: what a person asked
// to be forgotten must not come back with it. It keeps its turn and its time.
func Rewrite(dir folder.Folder, v Version, data []byte) error {
	name := named(v.File, v.Turn, v.Kept, sumOf(data))
	if name == v.Saved {
		return nil
	}
	if err := dir.WriteBytes(name, data); err != nil {
		return err
	}
	return dir.Remove(v.Saved)
}
