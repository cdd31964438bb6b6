package content

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestRecodedChangesTheCodeAlone: what a person typed around it stays, to the
// letter; a word that only looks like the code is not the code.
func TestRecodedChangesTheCodeAlone(t *testing.T) {
	for _, c := range []struct{ file, text, want string }{
		{SettingsFile, `name: QM studio # QM is our white
kiln:
  controls: [HS, qm, "QM"]   # QM again
rules:
  - {first: QM, second: "QM", do: caution, reason: "QM crawls over QM"}
  - either: 'QM'
    do: skip
part: {prefer: [é, QM]}
`, `name: QM studio # QM is our white
kiln:
  controls: [HS, QZ1, "QZ1"]   # QM again
rules:
  - {first: QZ1, second: "QZ1", do: caution, reason: "QM crawls over QM"}
  - either: 'QZ1'
    do: skip
part: {prefer: [é, QZ1]}
`},
		{GlazesYAML, "# QM\n- code: QM\n  name: QM\n  notes: QM\n", "# QM\n- code: QZ1\n  name: QM\n  notes: QM\n"},
		{GlazesCSV, "name,code,mine\r\n# our whites\r\n\"Quarry, Milk\", qm ,QM\r\nB,QMX,x\r\n", "name,code,mine\r\n# our whites\r\n\"Quarry, Milk\",QZ1,QM\r\nB,QMX,x\r\n"},
		{GlazesCSV, "\ufeffcode;name\nB;\"x\"\n", "\ufeffcode;name\nB;\"x\"\n"},
		{SettingsFile, "", ""},
	} {
		got, err := Recoded(c.file, []byte(c.text), "QM", "QZ1")
		require.NoError(t, err)
		require.Equal(t, c.want, string(got))
	}
	_, err := Recoded(SettingsFile, []byte("rules: [\n"), "QM", "QZ")
	require.Error(t, err)
}
