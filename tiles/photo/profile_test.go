package photo_test

import (
	"bytes"
	"fmt"
	"image"
	stdcolor "image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/photo"
)

// needTool skips where a program is missing, or fails where TWODIP_ALL is set.
func needTool(t *testing.T, name string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("TWODIP_ALL") != "" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
}

// withProfile is a PNG of one pixel with the profile embedded: the way a
// profile gets into the package.
func withProfile(t testing.TB, icc []byte, gray bool) *photo.Photo {
	t.Helper()
	p, err := photo.Open(pngWithProfile(t, icc, gray))
	require.NoError(t, err)
	return p
}

// codesToLab is the color of 8-bit codes through a photo's profile.
func codesToLab(p *photo.Photo, r, g, b int) color.Lab {
	l := p.Light()
	return p.Profile.XYZ(float64(l[0][r]), float64(l[1][g]), float64(l[2][b])).Lab()
}

const compact = "photos/icc/compact-profiles/"

// Display P3 and Adobe RGB against LittleCMS: transicc (Debian liblcms2-utils),
// relative colorimetric, 10,000 colors, at most 0.02 an axis.
func TestProfilesAgreeWithLittleCMS(t *testing.T) {
	needTool(t, "transicc")
	for _, name := range []string{"DisplayP3-v4.icc", "AdobeCompat-v4.icc", "sRGB-v4.icc", "ProPhoto-v4.icc"} {
		path := shared(t, compact+name)
		icc, err := os.ReadFile(path)
		require.NoError(t, err)
		p := withProfile(t, icc, false)
		random := rand.New(rand.NewPCG(7, 9))
		var in strings.Builder
		codes := make([][3]int, 10_000)
		for i := range codes {
			codes[i] = [3]int{random.IntN(256), random.IntN(256), random.IntN(256)}
			fmt.Fprintf(&in, "%d %d %d\n", codes[i][0], codes[i][1], codes[i][2])
		}
		peer := exec.Command("transicc", "-n", "-t1", "-c0", "-i", path, "-o*Lab")
		peer.Stdin = strings.NewReader(in.String())
		out, err := peer.Output()
		require.NoError(t, err)
		fields := strings.Fields(string(out))
		require.Len(t, fields, 3*len(codes), "transicc's numbers")
		worst := 0.0
		for i, c := range codes {
			var want color.Lab
			_, err := fmt.Sscan(strings.Join(fields[3*i:3*i+3], " "), &want.L, &want.A, &want.B)
			require.NoError(t, err)
			got := codesToLab(p, c[0], c[1], c[2])
			worst = max(worst, abs(got.L-want.L), abs(got.A-want.A), abs(got.B-want.B))
		}
		t.Logf("%s: at most %.4f an axis from LittleCMS over %d colors", name, worst, len(codes))
		assert.LessOrEqual(t, worst, 0.02, name)
	}
}

func abs(v float64) float64 { return max(v, -v) }

// The second and fourth edition of one space give the same color within 1e-3
// of XYZ; the smallest ones, whose curves are short tables, within 0.5 ΔE00
// (SOURCE.txt beside them).
func TestEditionsOfOneSpaceAgree(t *testing.T) {
	for _, space := range []string{"DisplayP3", "DisplayP3Compat", "sRGB", "Rec709", "Rec601PAL", "Rec601NTSC", "Rec2020", "ProPhoto"} {
		four := profileOf(t, space+"-v4.icc")
		for _, edition := range []string{"-v2-magic.icc", "-v2-micro.icc", "-v2-nano.icc"} {
			if _, err := os.Stat(shared(t, compact+space+"-v4.icc")[:len(shared(t, compact+space+"-v4.icc"))-len("-v4.icc")] + edition); err != nil {
				continue
			}
			two := profileOf(t, space+edition)
			for v := 5; v <= 255; v += 25 {
				p, q := codesToLab(four, v, 255-v, v/2), codesToLab(two, v, 255-v, v/2)
				if edition == "-v2-magic.icc" {
					x, y := p.XYZ(), q.XYZ()
					assert.Less(t, max(abs(x.X-y.X), abs(x.Y-y.Y), abs(x.Z-y.Z)), 1e-3, "%s%s at %d", space, edition, v)
				} else {
					assert.Less(t, color.DE00(p, q), 0.5, "%s%s at %d", space, edition, v)
				}
			}
		}
	}
}

func profileOf(t *testing.T, name string) *photo.Photo {
	icc, err := os.ReadFile(shared(t, compact+name))
	require.NoError(t, err)
	return withProfile(t, icc, strings.HasPrefix(name, "sGrey"))
}

// Spaces people know are said by the names they know.
func TestWellKnownSpacesAreNamed(t *testing.T) {
	for file, want := range map[string]string{
		"DisplayP3-v4.icc": "Display P3", "DisplayP3-v2-magic.icc": "Display P3", "sRGB-v4.icc": "sRGB",
		"AdobeCompat-v4.icc": "Adobe RGB", "AdobeCompat-v2.icc": "Adobe RGB", "ProPhoto-v4.icc": "ProPhoto RGB",
		"Rec2020-v4.icc": "2020", "sGrey-v4.icc": "sRGB",
	} {
		assert.Contains(t, profileOf(t, file).Profile.String(), want, file)
	}
}

// A grey picture through a grey profile stays grey, and is as light as the
// same picture in sRGB, whose curve that profile has.
func TestAGreyProfile(t *testing.T) {
	for _, file := range []string{"sGrey-v4.icc", "sGrey-v2-magic.icc", "sGrey-v2-micro.icc", "sGrey-v2-nano.icc"} {
		p := profileOf(t, file)
		require.IsType(t, &image.Gray{}, p.Image, file)
		for v := 0; v <= 255; v += 15 {
			got := codesToLab(p, v, v, v)
			assert.Less(t, got.Chroma(), 1e-3, file)
			assert.InDelta(t, color.FromSRGB(uint8(v), uint8(v), uint8(v)).L, got.L, 0.3, "%s at %d", file, v)
		}
	}
}

// A CMYK profile on an RGB picture, and a damaged one, are set aside with a note.
func TestAProfileThatCannotBeUsedIsSaid(t *testing.T) {
	cmyk, err := os.ReadFile(shared(t, compact+"CGATS001Compat-v2-micro.icc"))
	require.NoError(t, err)
	p3, err := os.ReadFile(shared(t, compact+"DisplayP3-v4.icc"))
	require.NoError(t, err)
	for name, icc := range map[string][]byte{"CMYK": cmyk, "half": p3[:len(p3)/2], "noise": bytes.Repeat([]byte{7}, 500)} {
		p := withProfile(t, icc, false)
		assert.Equal(t, "sRGB assumed", p.Profile.String(), name)
		require.Len(t, p.Notes, 1, name)
		assert.Contains(t, p.Notes[0], "so sRGB is assumed", name)
	}
}

// Solid pictures whose words show only where the profile is honored
// (SOURCE.txt beside them): the word is there in the colors, as it is not in
// the codes taken for sRGB.
func TestWideGamutWordsShow(t *testing.T) {
	files, err := filepath.Glob(shared(t, "photos/icc/wide-gamut-tests") + "/*.jpg")
	require.NoError(t, err)
	for _, f := range files {
		p := open(t, "photos/icc/wide-gamut-tests/"+filepath.Base(f))
		assert.NotEqual(t, "sRGB", p.Profile.Name, f)
		assert.False(t, p.Profile.Assumed, f)
		small := p.Small(p.Image.Bounds(), 400)
		assert.NotNil(t, small.YCbCr)
	}
}

// A published P3 iPhone picture taken for sRGB would be more than 2 ΔE00 off in
// its saturated parts, and only its first picture is measured: a gain map
// follows it (SOURCE.txt beside it).
func TestAPictureWithAGainMap(t *testing.T) {
	p := open(t, "photos/camera/p3-mpf-gainmap/apple_gainmap_new.jpg")
	assert.Equal(t, "Display P3", p.Profile.String())
	assert.Equal(t, [2]int{384, 512}, [2]int{p.Width(), p.Height()})
	srgb := open(t, "photos/known-patches/patches_srgb_8bit.png").Profile
	worst := 0.0
	for y := 0; y+32 <= p.Height(); y += 32 {
		for x := 0; x+32 <= p.Width(); x += 32 {
			block := image.Rect(x, y, x+32, y+32)
			worst = max(worst, color.DE00(meanOf(p, block, &p.Profile), meanOf(p, block, &srgb)))
		}
	}
	assert.Greater(t, worst, 2.0)
}

// A profile whose header names another white than D50 gives the same colors,
// since its matrix is what counts (SOURCE.txt: within 0.5, or said and sRGB).
func TestAProfileWithAnOddHeader(t *testing.T) {
	const dir = "photos/camera/p3-mpf-gainmap/"
	p, q := open(t, dir+"paris_exif_xmp_icc.jpg"), open(t, dir+"paris_exif_xmp_modified_icc.jpg")
	assert.Less(t, color.DE00(meanOf(p, all(p), &p.Profile), meanOf(q, all(q), &q.Profile)), 0.5)
	assert.Equal(t, "2022-08-22 20:30", p.Taken)
}

func TestOrientationFiveIsTransposed(t *testing.T) {
	p := open(t, "photos/camera/p3-mpf-gainmap/paris_exif_orientation_5.jpg")
	assert.Equal(t, [2]int{302, 403}, [2]int{p.Width(), p.Height()})
}

// A JPEG written by the standard library is as its codes say, whatever lies
// behind its end.
func TestWhatFollowsThePictureIsNotLookedAt(t *testing.T) {
	data, err := os.ReadFile(shared(t, "hostile/selfmade/trailing-garbage.jpg"))
	require.NoError(t, err)
	p, err := photo.Open(data)
	require.NoError(t, err)
	q, err := photo.Open(append(data, bytes.Repeat([]byte("\xff\xd8\xff"), 100)...))
	require.NoError(t, err)
	assert.Equal(t, p.Image, q.Image)
}

// PNG's gAMA is honored as the power it says (W3C PNG, third edition, 11.3.2.2
// and 13.13): the three files hold the same codes, so they show different light.
func TestPNGGammaIsHonored(t *testing.T) {
	for file, exponent := range map[string]float64{"1dot0": 1, "1dot8": 1 / 0.55556, "2dot2": 1 / 0.45455} {
		p := open(t, "hostile/wuffs/red-blue-gradient.gamma"+file+".png")
		row := make([]uint16, 3)
		p.Codes(120, 120, 121, row)
		require.Equal(t, []uint16{120, 0, 120}, row, "the codes are the same in all three")
		assert.InDelta(t, math.Pow(120.0/255, exponent), float64(p.Light()[0][120]), 1e-6, file)
	}
}

// Odd but whole JPEGs agree with the plain one within 5 of 255 (SOURCE.txt),
// or are refused in a sentence.
func TestOddJPEGsAgreeOrAreRefused(t *testing.T) {
	want := open(t, "hostile/wuffs/peacock.default.jpeg")
	for _, file := range []string{"progressive", "s1x3", "s-weird", "s-very-weird"} {
		data, err := os.ReadFile(shared(t, "hostile/wuffs/peacock."+file+".jpeg"))
		require.NoError(t, err)
		got, err := photo.Open(data)
		if err != nil {
			assert.IsType(t, photo.Refusal{}, err)
			continue
		}
		assert.Less(t, meanApart(want, got), 5.0, file)
	}
}

func meanApart(p, q *photo.Photo) float64 {
	sum, n := 0.0, 0
	a, b := make([]uint16, 3*p.Width()), make([]uint16, 3*p.Width())
	for y := range p.Height() {
		p.Codes(y, 0, p.Width(), a)
		q.Codes(y, 0, p.Width(), b)
		for i := range a {
			sum += abs(float64(a[i]) - float64(b[i]))
			n++
		}
	}
	return sum / float64(n)
}

// pngWithProfile writes a small PNG and puts an iCCP chunk into it.
func pngWithProfile(t testing.TB, icc []byte, gray bool) []byte {
	t.Helper()
	var img image.Image = image.NewNRGBA(image.Rect(0, 0, 8, 8))
	if gray {
		g := image.NewGray(image.Rect(0, 0, 8, 8))
		g.SetGray(1, 1, stdcolor.Gray{Y: 9})
		img = g
	} else {
		for i := range 64 {
			img.(*image.NRGBA).SetNRGBA(i%8, i/8, stdcolor.NRGBA{R: uint8(i), G: 7, B: 200, A: 255})
		}
	}
	var buf bytes.Buffer
	require.NoError(t, png.Encode(&buf, img))
	return insertICC(t, buf.Bytes(), icc)
}
