//go:build !windows

package main

import (
	"path/filepath"

	"github.com/google/renameio/v2"
)

// readable is the permission of a new file; the user's mask narrows it.
const readable = 0o644

// replace writes a file beside its place and renames it into it.
func replace(path string, content []byte) error {
	return renameio.WriteFile(path, content, readable, renameio.WithTempDir(filepath.Dir(path)))
}
