package problem_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"shopstint/model/problem"
)

func TestPlacesAreWrittenAsFarAsTheyAreKnown(t *testing.T) {
	for _, row := range []struct {
		place problem.Place
		want  string
	}{
		{problem.Place{}, ""},
		{problem.Place{File: "study.yaml"}, "study.yaml"},
		{problem.Place{File: "study.yaml", Line: 12}, "study.yaml:12"},
		{problem.Place{File: "study.yaml", Line: 12, Column: 9}, "study.yaml:12:9"},
		{problem.Place{File: "study.yaml", Column: 9}, "study.yaml"},
		{problem.Place{Line: 3, Column: 1}, "3:1"},
		{problem.Place{File: "intake.xlsx", Sheet: "Machines", Cell: "B4"}, "intake.xlsx!Machines!B4"},
		{problem.Place{File: "intake.xlsx", Sheet: "Machines"}, "intake.xlsx!Machines"},
		{problem.Place{Sheet: "Machines", Cell: "B4"}, "Machines!B4"},
	} {
		assert.Equal(t, row.want, row.place.String())
	}
}

func TestAProblemIsOneLineWithPlaceWhatAndRight(t *testing.T) {
	at := problem.Place{File: "study.yaml", Line: 4, Column: 7}
	also := []problem.Place{{File: "study.yaml", Line: 9, Column: 3}, {File: "shop.yaml", Line: 1, Column: 1}}
	for _, row := range []struct {
		p    problem.Problem
		want string
	}{
		{problem.Problem{Place: at, What: `"45" has no unit`, Right: "write 45 mm"}, `study.yaml:4:7: "45" has no unit; write 45 mm`},
		{problem.Problem{Place: at, What: "the file is empty"}, "study.yaml:4:7: the file is empty"},
		{problem.Problem{What: "no machine", Right: "add one"}, "no machine; add one"},
		{problem.Problem{Place: at, What: "a", Right: "b", Also: also}, "study.yaml:4:7: a; b (also: study.yaml:9:3, shop.yaml:1:1)"},
	} {
		assert.EqualError(t, row.p, row.want)
	}
}

func in(file string, line, column int, what string) problem.Problem {
	return problem.Problem{Place: problem.Place{File: file, Line: line, Column: column}, What: what, Right: "mend it"}
}

func cell(sheet, cell string) problem.Problem {
	return problem.Problem{Place: problem.Place{File: "w.xlsx", Sheet: sheet, Cell: cell}, What: "x"}
}

func TestSortedListsReadFromTopToBottomAndSayNothingTwice(t *testing.T) {
	l := problem.List{
		in("b", 1, 1, "x"), in("a", 10, 1, "x"), in("a", 2, 9, "y"), in("a", 2, 10, "x"), in("a", 2, 9, "x"),
		in("a", 2, 9, "y"), in("a", 2, 9, "z"),
	}
	before := fmt.Sprint(l)
	assert.Equal(t, problem.List{
		in("a", 2, 9, "x"), in("a", 2, 9, "y"), in("a", 2, 9, "z"), in("a", 2, 10, "x"), in("a", 10, 1, "x"), in("b", 1, 1, "x"),
	}, l.Sorted())
	assert.Equal(t, before, fmt.Sprint(l), "the list itself must stay as it was")
}

func TestSortedListsReadSheetsRowByRow(t *testing.T) {
	l := problem.List{cell("Jobs", "A10"), cell("Jobs", "AA4"), cell("Jobs", "B4"), cell("Jobs", "Z4"), cell("Edges", "C9"), cell("Jobs", "")}
	assert.Equal(t, problem.List{
		cell("Edges", "C9"), cell("Jobs", ""), cell("Jobs", "B4"), cell("Jobs", "Z4"), cell("Jobs", "AA4"), cell("Jobs", "A10"),
	}, l.Sorted())
}

func TestTheFirstOfTwoEqualProblemsIsKept(t *testing.T) {
	first, second := in("a", 1, 1, "x"), in("a", 1, 1, "x")
	first.Path, second.Path = "first", "second"
	assert.Equal(t, problem.List{first}, problem.List{first, second}.Sorted())
}

func TestSortingDoesNotDependOnTheOrderGiven(t *testing.T) {
	one := rapid.Custom(func(t *rapid.T) problem.Problem {
		return in(rapid.SampledFrom([]string{"a", "b"}).Draw(t, "file"), rapid.IntRange(0, 3).Draw(t, "line"),
			rapid.IntRange(0, 3).Draw(t, "column"), rapid.SampledFrom([]string{"x", "y"}).Draw(t, "what"))
	})
	rapid.Check(t, func(t *rapid.T) {
		given := problem.List(rapid.SliceOf(one).Draw(t, "problems"))
		other := problem.List(rapid.Permutation(given).Draw(t, "other order"))
		require.Equal(t, given.Sorted().Error(), other.Sorted().Error())
		require.Equal(t, given.Sorted().Error(), given.Sorted().Sorted().Error())
		for _, p := range given {
			require.Contains(t, given.Sorted(), p)
		}
	})
}

func TestOnlyAListWithProblemsIsAnError(t *testing.T) {
	require.NoError(t, problem.List(nil).Err())
	require.NoError(t, problem.List{}.Err())
	l := problem.List{in("a", 1, 1, "x"), in("a", 2, 1, "y")}
	err := fmt.Errorf("could not read the study: %w", l.Err())
	var got problem.List
	require.True(t, errors.As(err, &got))
	assert.Equal(t, l, got)
	assert.EqualError(t, l.Err(), "a:1:1: x; mend it\na:2:1: y; mend it")
}
