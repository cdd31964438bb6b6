package contact

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/geometry"
)

func TestAPartIsReadBack(t *testing.T) {
	p := one(`x" onload="alert(1)/<b>.jpg`)
	var b bytes.Buffer
	require.NoError(t, WritePart(&b, p))
	d, err := ReadPart(b.Bytes())
	require.NoError(t, err)
	require.Equal(t, Drawing{Width: 400, Height: 300, Outlines: []geometry.Quad{p.View.Faces[0].Outline}, Zones: p.View.Faces[0].Zones,
		Reference: p.View.Reference, Paper: p.View.Paper}, d)
	for _, wrong := range []string{"", "<svg", "<svg></svg>", `<svg viewBox="0 0 NaN 9"></svg>`, `</svg><svg viewBox="0 0 9 9">`, `<svg viewBox="0 0 9 9"><g><polygon points="&x;"/></g></svg`} {
		_, err := ReadPart([]byte(wrong))
		require.Error(t, err, wrong)
	}
	d, err = ReadPart([]byte(`<svg viewBox="0 0 9 9"><g><polygon stroke="#ff0" points="1 2 3"/><polygon stroke="red" points="1 2 3 4 5 6 7 8"/><script>x</script></g></svg>`))
	require.NoError(t, err)
	require.Empty(t, d.Outlines)
}
