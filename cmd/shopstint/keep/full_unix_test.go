//go:build !windows

package keep

import (
	"bytes"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// helperLimit is how large a process of this test may make a file: it stands
// for a disk that is full.
const helperLimit = "KEEP_HELPER_LIMIT"

func init() {
	most, err := strconv.ParseUint(os.Getenv(helperLimit), 10, 64)
	if err != nil {
		return
	}
	signal.Ignore(unix.SIGXFSZ)
	if err := unix.Setrlimit(unix.RLIMIT_FSIZE, &unix.Rlimit{Cur: most, Max: most}); err != nil {
		os.Exit(2)
	}
}

func TestAFullDiskLeavesWhatWasThere(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	before := []byte("date,kind\nfirst,0,\n")
	require.NoError(t, os.WriteFile(path, before, 0o600))
	command := helper(path, "a line of which four bytes have room", 1)
	command.Env = append(command.Env, helperLimit+"="+strconv.Itoa(len(before)+4))
	var told bytes.Buffer
	command.Stderr = &told
	var exit *exec.ExitError
	require.ErrorAs(t, command.Run(), &exit)
	assert.Equal(t, 1, exit.ExitCode())
	assert.Contains(t, told.String(), "file too large")
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}
