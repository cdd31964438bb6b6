package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
)

// catalog adds to a finished PDF what gofpdf cannot write: the language of the
// text, and the wish that a viewer print at 100 % and show the title. The
// catalog is the last object gofpdf writes, so that only the place of the
// cross-reference table moves.
// (ISO 32000-1, tables 28 and 150: Lang, ViewerPreferences, PrintScaling.)
func catalog(pdf []byte, lang string) ([]byte, error) {
	head := []byte("/Type /Catalog\n")
	at := bytes.LastIndex(pdf, head)
	start := bytes.LastIndex(pdf, []byte("startxref\n"))
	if at < 0 || start < at {
		return nil, errors.New("writing the PDF: no catalog where it was looked for")
	}
	at += len(head)
	start += len("startxref\n")
	end := start + bytes.IndexByte(pdf[start:], '\n')
	place, err := strconv.Atoi(string(pdf[start:end]))
	if err != nil {
		return nil, fmt.Errorf("writing the PDF: %w", err)
	}
	more := fmt.Sprintf("/Lang (%s)\n/ViewerPreferences <</PrintScaling /None /DisplayDocTitle true>>\n", langTag(lang))
	var b bytes.Buffer
	b.Grow(len(pdf) + len(more) + 8)
	b.WriteString("%PDF-1.7") // PrintScaling came with 1.6
	b.Write(pdf[len("%PDF-1.7"):at])
	b.WriteString(more)
	b.Write(pdf[at:start])
	b.WriteString(strconv.Itoa(place + len(more)))
	b.Write(pdf[end:])
	return b.Bytes(), nil
}

// langTag keeps what a language tag may hold (RFC 5646), so that nothing else
// gets into the file.
func langTag(s string) string {
	for _, r := range s {
		if (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && (r < '0' || r > '9') && r != '-' {
			return "en"
		}
	}
	if s == "" {
		return "en"
	}
	return s
}
