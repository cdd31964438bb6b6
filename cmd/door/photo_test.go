package door

import (
	"bytes"
	"image"
	"image/jpeg"
	"mime/multipart"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func (p phone) photo(t *testing.T, key string, data []byte) int {
	t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	require.NoError(t, form.WriteField("key", key))
	part, err := form.CreateFormFile("photo", "../../wall.yaml")
	require.NoError(t, err)
	_, err = part.Write(data)
	require.NoError(t, err)
	require.NoError(t, form.Close())
	answer, err := p.http.Post(p.base+"/photo", form.FormDataContentType(), &body)
	require.NoError(t, err)
	status, _ := readAll(t, answer)
	return status
}

// TestAPhotoIsKeptSmallAndServedToNobody sends one with a comment in it, another
// for the same piece, one for a piece of somebody else, and no picture at all.
func TestAPhotoIsKeptSmallAndServedToNobody(t *testing.T) {
	wall := studio(t)
	_, p := openDoor(t, Wish{Dir: wall})
	status, _ := p.post(t, "/log", "key", "mine", "first", "QM")
	require.Equal(t, 200, status)
	var picture bytes.Buffer
	require.NoError(t, jpeg.Encode(&picture, image.NewGray(image.Rect(0, 0, 2400, 1800)), nil))
	// A comment (ITU-T T.81, B.2.4.5), as cameras and people leave them.
	note := append([]byte{0xff, 0xd8, 0xff, 0xfe, 0, 11}, []byte("Zqx51.5N0W")[:9]...)
	data := append(note, picture.Bytes()[2:]...)
	assert.Equal(t, 403, p.photo(t, "another", data))
	assert.Equal(t, 422, p.photo(t, "mine", []byte("no picture")))
	require.Equal(t, 200, p.photo(t, "mine", data))
	assert.Equal(t, 422, p.photo(t, "mine", data), "one is kept")
	kept, err := os.ReadFile(wall.Path("tiles/pieces/1.jpg"))
	require.NoError(t, err)
	assert.False(t, bytes.Contains(kept, []byte("Zqx")), "what the camera wrote is gone")
	size, err := jpeg.DecodeConfig(bytes.NewReader(kept))
	require.NoError(t, err)
	assert.Equal(t, 1600, size.Width)
	for _, path := range []string{"/tiles/pieces/1.jpg", "/pieces/1.jpg", "/picture/../../tiles/pieces/1.jpg", "/photo?key=mine"} {
		status, _ := p.get(t, path)
		assert.GreaterOrEqual(t, status, 400, path)
	}
}
