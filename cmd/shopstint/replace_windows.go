package main

import (
	"os"
	"path/filepath"
)

// replace writes a file beside its place and renames it into it. The library
// used elsewhere has no form for this system.
func replace(path string, content []byte) error {
	file, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"*")
	if err != nil {
		return err
	}
	defer os.Remove(file.Name()) // gone already when all went well
	if _, err := file.Write(content); err != nil {
		file.Close()
		return err
	}
	if err := file.Sync(); err != nil {
		file.Close()
		return err
	}
	if err := file.Close(); err != nil {
		return err
	}
	return os.Rename(file.Name(), path)
}
