package published_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/published"
)

func TestFunctionsWithoutASourceLineAreNamed(t *testing.T) {
	const code = `package p

// Good does.
//
// Source: A. Author, A Title, 2001, page 3.
func Good() {}

// Mentions a Source: inside a line.
func Mentions() {}

// Blank has an empty one.
//
// Source:
func Blank() {}

func Bare() {}

// small is not exported.
func small() {}

// Number is a type.
type Number float64

// Double is a method.
func (n Number) Double() Number { return 2 * n }
`
	missing, err := published.Unsourced(fstest.MapFS{
		"p.go":      {Data: []byte(code)},
		"p_test.go": {Data: []byte("package p\n\nfunc Helping() {}\n")},
	})
	require.NoError(t, err)
	assert.Equal(t, []string{"Bare", "Blank", "Double", "Mentions"}, missing)
}

func TestAFolderWithoutFunctionsIsAnError(t *testing.T) {
	_, err := published.Unsourced(fstest.MapFS{"p.go": {Data: []byte("package p\n\nfunc small() {}\n")}})
	require.ErrorContains(t, err, "no exported function")
	_, err = published.Unsourced(fstest.MapFS{"p.go": {Data: []byte("not code")}})
	require.ErrorContains(t, err, "p.go")
}
