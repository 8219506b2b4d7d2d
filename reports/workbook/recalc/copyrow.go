package recalc

import (
	_ "embed"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// copyRow is what drives LibreOffice as a reader's hand would.
//
//go:embed copyrow.py
var copyRow []byte

// CopiedRow opens a file in LibreOffice, copies a row of a sheet over another,
// types into the copy what is given by column letters, and reads the calculated
// cells back.
func (o *Office) CopiedRow(t testing.TB, file, sheet string, from, to int, typed map[string]any) Sheets {
	t.Helper()
	need(t, "soffice", "libreoffice-calc-nogui")
	need(t, "python3", "python3-uno")
	dir := t.TempDir()
	script, order, made := filepath.Join(dir, "copyrow.py"), filepath.Join(dir, "order.json"), filepath.Join(dir, "copied.xlsx")
	require.NoError(t, os.WriteFile(script, copyRow, 0o600))
	text, err := json.Marshal(map[string]any{"profile": o.profile, "file": file, "made": made, "sheet": sheet, "from": from, "to": to, "typed": typed})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(order, text, 0o600))
	said := run(t, "/usr/bin/python3", script, order)
	require.FileExists(t, made, said)
	sheets, _ := Cached(t, made)
	return sheets
}
