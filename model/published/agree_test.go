package published_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/published"
)

const doubled = `source: "A. Author, A Title, 2001, page 3"
mark: READ
cases:
  - {id: one, note: "prints 5", inputs: {x: 2, list: [1, 2], name: plain}, want: {twice: 4}, tol: 0}
  - {id: two, inputs: {x: 3}, want: {twice: 6}, tol: 0}
`

// agree holds every file of the folder to what works its cases out.
func agree(t *testing.T, files map[string]string, workOut published.WorkOut) (published.Tally, error) {
	t.Helper()
	loaded, err := published.Load(folder(files), "m")
	require.NoError(t, err)
	var total published.Tally
	var misses []error
	for _, file := range loaded {
		tally, err := file.Agree(workOut)
		total, misses = total.Add(tally), append(misses, err)
	}
	return total, errors.Join(misses...)
}

func twice(in *published.Inputs) map[string][]float64 {
	return map[string][]float64{"twice": {2 * in.Number("x")}}
}

func TestCasesAgreeWithWhatWorksThemOut(t *testing.T) {
	tally, err := agree(t, map[string]string{"a.yaml": doubled}, twice)
	require.NoError(t, err)
	assert.Equal(t, published.Tally{Cases: 2, Figures: 2}, tally)
}

func TestTheLargestDifferenceIsAShareOfTheLargestFigureOfItsName(t *testing.T) {
	const content = "source: S\nmark: READ\ncases: [{id: a, inputs: {x: 1}, want: {y: [200, 100, 0], z: 0}, tol: 1}]"
	off := func(y, z float64) published.Tally {
		tally, err := agree(t, map[string]string{"a.yaml": content}, func(in *published.Inputs) map[string][]float64 {
			return map[string][]float64{"y": {200, 100, y}, "z": {z}}
		})
		require.NoError(t, err)
		assert.Equal(t, 4, tally.Figures)
		return tally
	}
	assert.InDelta(t, 0.005, off(1, 0).Off, 1e-12)
	assert.InDelta(t, 0.25, off(1, -0.25).Off, 1e-12, "beside nothing the difference itself")
}

func TestACaseIsHeldToTheFiguresThatAreThere(t *testing.T) {
	const content = "source: S\nmark: READ\ncases: [{id: a, inputs: {x: 1}, want: {y: 2, z: 3}, tol: 0}]"
	c := loadOne(t, content)[0]
	got := map[string][]float64{"y": {2}, "other": {7}}
	require.Error(t, c.Compare(got))
	tally, err := c.Only(got).Hold(got)
	require.NoError(t, err)
	assert.Equal(t, 1, tally.Figures)
	assert.Len(t, c.Want, 2, "the case itself is as it was")
}

func TestEveryCaseThatIsOffIsNamedWithItsNote(t *testing.T) {
	_, err := agree(t, map[string]string{"a.yaml": doubled}, func(in *published.Inputs) map[string][]float64 {
		return map[string][]float64{"twice": {in.Number("x")}}
	})
	require.Error(t, err)
	for _, shown := range []string{"m/a.yaml", "case one", "x=2", "want 4, got 2", "note: prints 5", "case two", "want 6, got 3"} {
		assert.ErrorContains(t, err, shown)
	}
	_, err = agree(t, map[string]string{"a.yaml": doubled}, func(in *published.Inputs) map[string][]float64 {
		return map[string][]float64{"twice": {4}}
	})
	require.ErrorContains(t, err, "case two", "one case off is enough")
	assert.NotContains(t, err.Error(), "case one")
}

func TestOneFileOfSeveralThatIsOffIsEnough(t *testing.T) {
	const other = "source: S\nmark: READ\ncases: [{id: three, inputs: {x: 1}, want: {twice: 3}, tol: 0}]"
	for _, files := range []map[string]string{
		{"a.yaml": doubled, "b.yaml": other}, {"b.yaml": doubled, "a.yaml": other},
	} {
		_, err := agree(t, files, twice)
		require.ErrorContains(t, err, "case three")
	}
}

func TestACaseWhoseInputsCannotBeReadDoesNotAgree(t *testing.T) {
	first, later := errors.New("the first"), errors.New("a later one")
	for message, read := range map[string]func(*published.Inputs){
		`no input "y"`:                     func(in *published.Inputs) { in.Number("y"); in.List("x") },
		`input "x" is a number`:            func(in *published.Inputs) { in.List("x"); in.Number("y") },
		`input "list" is a list of number`: func(in *published.Inputs) { in.Text("list") },
		"the first":                        func(in *published.Inputs) { in.Keep(nil); in.Keep(first); in.Keep(later) },
	} {
		_, err := agree(t, map[string]string{"a.yaml": doubled}, func(in *published.Inputs) map[string][]float64 {
			if in.Case.ID == "one" {
				read(in)
				assert.Error(t, in.Err())
			}
			return twice(in) // right all the same
		})
		require.ErrorContains(t, err, message)
		assert.NotContains(t, err.Error(), "case two")
	}
}

func TestInputsGiveWhatTheCaseHas(t *testing.T) {
	in := &published.Inputs{Case: loadOne(t, doubled)[0]}
	assert.True(t, in.Has("x"))
	assert.False(t, in.Has("y"))
	assert.InDelta(t, 2, in.Number("x"), 0)
	assert.InDeltaSlice(t, []float64{1, 2}, in.List("list"), 0)
	assert.Equal(t, "plain", in.Text("name"))
	require.NoError(t, in.Err())
	assert.Zero(t, in.Number("y"))
	require.Error(t, in.Err())
}

func TestTalliesAddUpAndKeepTheLargestDifference(t *testing.T) {
	one, other := published.Tally{Cases: 2, Figures: 5, Off: 0.25}, published.Tally{Cases: 3, Figures: 7, Off: 0.5}
	assert.Equal(t, published.Tally{Cases: 5, Figures: 12, Off: 0.5}, one.Add(other))
	assert.Equal(t, one.Add(other), other.Add(one))
}
