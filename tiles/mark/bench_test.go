package mark

import "testing"

// Finding marks in a 12-megapixel photo of the mat, without decoding the JPEG.
func BenchmarkFindOnAMat(b *testing.B) {
	s, _ := pageShot(b, 1, false, 4000, 3000)
	b.ReportAllocs()
	for b.Loop() {
		Find(s.plane)
	}
}

// Finding marks, camera and 144 tags in a 12-megapixel photo of a wall.
func BenchmarkReadABoard(b *testing.B) {
	s, board := wallShot(b, 1, false, 0)
	b.ReportAllocs()
	for b.Loop() {
		found, _ := Find(s.plane)
		if _, err := OnBoard(s.plane, found, board, 8, 0); err != nil {
			b.Fatal(err)
		}
	}
}

// Reading the label's QR code on a mat.
func BenchmarkReadALabel(b *testing.B) {
	s, page := pageShot(b, 1, false, 4000, 3000)
	found, _ := Find(s.plane)
	m, err := OnMat(s.plane, found, page, 8, 0)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		m.Label(s.plane, &m.Lying, printedLabels)
	}
}
