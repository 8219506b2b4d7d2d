package study

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/check"
)

// Whatever the bytes: a study without problems, or problems without a study,
// each problem inside the file and in words that fit on one line. What is read is
// the same once it is written and read again.
func FuzzLoadNeverPanics(f *testing.F) {
	seeds := 0
	for _, name := range goodNames {
		f.Add(goodStudy(f, name))
		seeds++
	}
	for _, bad := range badStudies(f) {
		f.Add(bad.source())
		seeds++
	}
	require.Greater(f, seeds, leastCases)
	f.Fuzz(func(t *testing.T, src []byte) {
		assertSound(t, src)
	})
}

func assertSound(t require.TestingT, src []byte) {
	start := time.Now()
	study, places, problems := Load("s.yaml", src)
	require.Less(t, time.Since(start), mostTime)
	require.Equal(t, len(problems) > 0, study == nil)
	lines := bytes.Count(src, []byte("\n")) + 1
	for _, problem := range problems {
		assert.Equal(t, "s.yaml", problem.Place.File)
		assert.True(t, problem.Place.Line >= 1 && problem.Place.Line <= lines+1, problem.Error())
		assert.GreaterOrEqual(t, problem.Place.Column, 1)
		assert.NotEmpty(t, problem.What)
		assert.NotEmpty(t, problem.Right)
		assert.True(t, strings.IndexFunc(problem.Error(), unicode.IsControl) < 0, problem.Error())
	}
	for path, place := range places {
		assert.True(t, place.Line >= 1 && place.Line <= lines+1 && place.Column >= 1, path)
	}
	if study != nil {
		assert.Empty(t, check.Study(study))
		model.Walk(study, func(leaf model.Leaf) { assertFinite(t, leaf) })
		assertWrittenTheSame(t, study, places)
	}
	assertEdited(t, src)
}

// assertEdited changes one figure, of the studio or of a member, given or not: what
// comes of it says the new figure, or there is an error.
func assertEdited(t require.TestingT, src []byte) {
	changes := []Change{
		{Path: "studio.labour_rate", Value: "61", Low: "52", High: "66", Source: "counted: ten days"},
		{Path: "growth.rental", Value: "2.5 %"},
		{Path: "edges.knives.life", Value: "3456 m"},
		{Path: "machines.planer.price", Value: "4321"},
		{Path: "abrasives.belt.grits.80.stock", Value: "0.4 mm"},
	}
	change := changes[len(src)%len(changes)]
	edited, err := Edit("s.yaml", src, []Change{change})
	if err != nil {
		return
	}
	study, places, problems := Load("s.yaml", edited)
	require.Empty(t, problems, "%s", edited)
	require.Contains(t, places, change.Path, "%s", edited)
	if change.Low != "" {
		assert.InDelta(t, 61, float64(study.Studio.LabourRate), 1e-9, "%s", edited)
		assert.Equal(t, change.Source, study.Origins[change.Path].Source, "%s", edited)
	}
}

// mostTime is far more than the slowest hostile file needs, on a busy machine too.
const mostTime = 10 * time.Second

func assertWrittenTheSame(t require.TestingT, study *model.Study, places Places) {
	text, err := Write(study, places, "")
	require.NoError(t, err)
	again, _, problems := Load("again.yaml", text)
	require.Empty(t, problems, "%s", text)
	require.Equal(t, study, again, "%s", text)
}

func assertFinite(t assert.TestingT, leaf model.Leaf) {
	if _, ok := leaf.Dimension(); ok {
		x := leaf.Number()
		assert.False(t, math.IsNaN(x) || math.IsInf(x, 0), leaf.Path)
	}
}
