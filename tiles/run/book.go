package run

import (
	"fmt"
	"path"
	"strings"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// laterBooks says which tables lie beside a spreadsheet of the same name that
// was saved later: somebody worked in that one, and it is not read.
func laterBooks(dir folder.Folder) []string {
	var out []string
	for _, file := range []string{content.BucketsCSV, record.PlanFile, record.ByHandFile, record.LogFile, record.BatchesFile, record.LoadsFile} {
		table, err := dir.Info(file)
		if err != nil {
			continue
		}
		for _, ending := range []string{".xlsx", ".ods", ".xls", ".numbers"} {
			name := strings.TrimSuffix(file, path.Ext(file)) + ending
			if book, err := dir.Info(name); err == nil && book.ModTime().After(table.ModTime()) {
				out = append(out, fmt.Sprintf(`%s was saved later than %s, which is the one that is read; save it as "CSV UTF-8" under that name, or move it away`, name, path.Base(file)))
			}
		}
	}
	return out
}
