package run

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A photo's name as a browser sends it becomes one that every system opens:
// Windows keeps some names and letters for itself, and ends no name in a stop
// or a space (Microsoft, Naming Files, Paths, and Namespaces).
func TestAPhotosNameFitsEverySystem(t *testing.T) {
	for sent, want := range map[string]string{
		"7.jpg": "7.jpg", "8 café.jpg": "8 café.jpg", `C:\fakepath\8 back.JPG`: "8 back.JPG", "../../9.jpg": "9.jpg", "a/b/10.jpg": "10.jpg",
		"con.jpg": "photo con.jpg", "AUX.1.jpg": "photo AUX.1.jpg", "com7.png": "photo com7.png", "lpt² .jpg": "photo lpt².jpg", "console.jpg": "console.jpg",
		"7:30 <b>|?*.jpg": "7_30 _b____.jpg", "11.jpg. .": "11.jpg", "12.jpg ": "12.jpg", ".13.jpg": "13.jpg", ".jpg": "jpg",
		"14\x1b[31m\u202egpj.jpg": "14_[31m_gpj.jpg", "": "photo",
	} {
		assert.Equal(t, want, photoName(sent), "%q", sent)
	}
}
