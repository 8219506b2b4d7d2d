package study_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/model/studygen"
)

// readBack writes a study and reads it again: nothing may be lost or added.
func readBack(t require.TestingT, name string, src []byte) {
	read, places, problems := study.Load(name, src)
	require.Empty(t, problems)
	text, err := study.Write(read, places, "# written again")
	require.NoError(t, err)
	again, placesAgain, problems := study.Load("again.yaml", text)
	require.Empty(t, problems, string(text))
	require.True(t, assert.ObjectsAreEqual(read, again), name)
	model.Walk(read, func(leaf model.Leaf) {
		_, given := places[leaf.Path]
		_, givenAgain := placesAgain[leaf.Path]
		require.Equal(t, given, givenAgain, "%s: %s", name, leaf.Path)
	})
}

func TestAWrittenStudyReadsBackTheSame(t *testing.T) {
	readBack(t, demo.Name, demo.Study())
	found, err := filepath.Glob("../../testdata/studies/good/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, found)
	for _, path := range found {
		src, err := os.ReadFile(path)
		require.NoError(t, err)
		readBack(t, path, src)
	}
}

func TestAGeneratedStudyReadsBackTheSame(t *testing.T) {
	for seed := range uint64(60) {
		system := quantity.System(seed % 2)
		readBack(t, fmt.Sprintf("seed %d", seed), studygen.YAML(studygen.Study(seed), system))
	}
}

func TestWhatIsAssumedIsNotWritten(t *testing.T) {
	read, places, problems := study.Load("short.yaml", shortStudy(t))
	require.Empty(t, problems)
	text, err := study.Write(read, places, "# top")
	require.NoError(t, err)
	assert.Contains(t, string(text), "# top\n")
	assert.NotContains(t, string(text), "assumed")
	assert.Less(t, len(text), 1000)
}

func shortStudy(t *testing.T) []byte {
	t.Helper()
	src, err := os.ReadFile("../../testdata/studies/good/short.yaml")
	require.NoError(t, err)
	return src
}
