package tiles

import (
	"strings"
	"unicode"
)

// Batch is one mix of a bucket.
type Batch struct {
	Glaze   string // code
	Name    string // the batch, as written
	MixedOn string // "2006-01-02"
	SG      float64
	Sieved  string
	Note    string
	Line    int
}

// Named is what tells the batch from others.
func (b Batch) Named() BatchName { return NameBatch(b.Glaze, b.Name) }

// BatchName is a batch by its glaze and its own name: every bucket may have a
// batch 2.
type BatchName struct {
	Glaze string // code; "" = not known
	Name  string
}

// NameBatch names a batch. One that is called by its glaze's code as well ("KM
// 3" of glaze KM) is the one that is called 3.
func NameBatch(glaze, name string) BatchName {
	name = strings.TrimSpace(name)
	if first, rest, spaced := strings.Cut(name, " "); spaced && SameCode(first, glaze) && strings.TrimSpace(rest) != "" {
		name = strings.TrimSpace(rest)
	}
	return BatchName{Glaze: glaze, Name: name}
}

// ReadBatchName reads what String wrote, for a tile with the glazes given.
func ReadBatchName(label string, codes ...string) BatchName {
	for _, code := range codes {
		first, _, _ := strings.Cut(label, " ")
		if code != "" && (SameCode(first, code) && first != label || beginsWith(label, code)) {
			return NameBatch(code, label)
		}
	}
	return BatchName{Name: label}
}

// String is the batch as people call it: "KM 3", or "KM-3" where its own name
// begins with the code.
func (n BatchName) String() string {
	if n.Glaze == "" || beginsWith(n.Name, n.Glaze) {
		return n.Name
	}
	return n.Glaze + " " + n.Name
}

// Same says whether both name one batch, whatever the case and the spaces.
func (n BatchName) Same(other BatchName) bool { return Fold(n.String()) == Fold(other.String()) }

// beginsWith says that a batch's own name begins with the code, as KM-3 and km3
// do and KMA does not.
func beginsWith(name, code string) bool {
	if len(name) <= len(code) || !SameCode(name[:len(code)], code) || strings.Contains(name, " ") {
		return false
	}
	return !unicode.IsLetter([]rune(name[len(code):])[0])
}
