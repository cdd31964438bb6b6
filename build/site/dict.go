package site

// dict gives each different word a number, in order of coming.
type dict struct {
	words []string
	index map[string]int
}

func (d *dict) of(word string) int {
	if word == "" {
		return -1
	}
	if d.index == nil {
		d.index = map[string]int{}
	}
	i, ok := d.index[word]
	if !ok {
		i = len(d.words)
		d.index[word] = i
		d.words = append(d.words, word)
	}
	return i
}

// all is the words by number; never null in JSON.
func (d *dict) all() []string { return append([]string{}, d.words...) }
