package bench

import (
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/run"
)

func number(a *asked, name string) int {
	n, err := strconv.Atoi(a.FormValue(name))
	if err != nil {
		return 0
	}
	return n
}

// sentForm reads the form that was sent. Its rows are made of the file's own,
// so that what the form does not show stays.
func sentForm(a *asked) (glazesForm, error) {
	if err := a.ParseForm(); err != nil {
		return glazesForm{}, err
	}
	f, err := openList(a)
	if err != nil {
		return f, err
	}
	if seen := a.PostForm.Get("seen"); seen != f.Seen || a.PostForm.Get("file") != f.File {
		now, _, err := run.Look(a.dir, f.File)
		if err != nil {
			return f, err
		}
		return f, stale{run.ErrStale{File: f.File, Now: now}, []field{{"The glazes", typedRows(a)}}}
	}
	var rows []content.ListRow
	for _, i := range a.PostForm["row"] {
		rows = append(rows, sentRow(a, f.List, i))
	}
	f.List.Rows = rows
	return f, nil
}

// sentRow is a row of the form.
func sentRow(a *asked, l content.List, i string) content.ListRow {
	r := content.ListRow{Of: -1, Cells: map[string]string{}}
	if of, err := strconv.Atoi(a.PostForm.Get("of." + i)); err == nil && of >= 0 && of < len(l.Rows) {
		r.Of = of
		for name, v := range l.Rows[of].Cells {
			r.Cells[name] = v
		}
	}
	for _, name := range l.Columns {
		key := formKey(name) + "." + i
		switch ours := formKey(name); {
		case ours == "traits":
			r.Cells[name] = sentTraits(r.Cells[name], a.PostForm[key])
		case ours == "retired":
			r.Cells[name] = sentYes(r.Cells[name], a.PostForm.Has(key))
		case a.PostForm.Has(key):
			r.Cells[name] = a.PostForm.Get(key)
		}
	}
	return r
}

// sentTraits is the cell as it was where the same traits are chosen.
func sentTraits(was string, chosen []string) string {
	var have []string
	for _, t := range content.TraitsIn(was) {
		have = append(have, string(t))
	}
	a, b := slices.Sorted(slices.Values(have)), slices.Sorted(slices.Values(chosen))
	if slices.Equal(a, b) {
		return was
	}
	return strings.Join(chosen, "; ")
}

// sentYes is the cell as it was where it says the same: a date is a yes.
func sentYes(was string, yes bool) string {
	switch {
	case content.SaysYes(was) == yes:
		return was
	case yes:
		return "yes"
	}
	return ""
}

// typedRows are the rows that were sent, for a person to read.
func typedRows(a *asked) string {
	var out strings.Builder
	for _, i := range a.PostForm["row"] {
		var cells []string
		for _, name := range content.ListColumns {
			if v := strings.Join(a.PostForm[name+"."+i], "; "); v != "" {
				cells = append(cells, v)
			}
		}
		if len(cells) > 0 {
			out.WriteString(strings.Join(cells, ", ") + "\n")
		}
	}
	return out.String()
}

// takenOut are the form's rows without those that are to go.
func takenOut(a *asked, rows []content.ListRow) []content.ListRow {
	var out []content.ListRow
	for k, i := range a.PostForm["row"] {
		if !a.PostForm.Has("gone." + i) {
			out = append(out, rows[k])
		}
	}
	return out
}

// proposed gives codes to the rows that have a name and none.
func proposed(rows []content.ListRow) (named map[int]bool) {
	named = map[int]bool{}
	taken := map[string]bool{}
	for _, r := range rows {
		taken[tiles.CodeKey(r.Cell("code"))] = true
	}
	for i, r := range rows {
		if strings.TrimSpace(r.Cell("code")) != "" || strings.TrimSpace(r.Cell("name")) == "" {
			continue
		}
		if code := content.ProposeCode(r.Cell("name"), func(c string) bool { return taken[tiles.CodeKey(c)] }); code != "" {
			taken[tiles.CodeKey(code)], named[i] = true, true
			r.Cells[codeColumn(r)] = code
		}
	}
	return named
}

// codeColumn is the heading of the codes, as the list writes it.
func codeColumn(r content.ListRow) string {
	for name := range r.Cells {
		if strings.EqualFold(strings.TrimSpace(name), "code") {
			return name
		}
	}
	return "code"
}
