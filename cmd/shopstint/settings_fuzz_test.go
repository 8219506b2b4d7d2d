package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/require"

	"shopstint/model/problem"
)

// settingsOf reads a settings file over the defaults, as the commands do.
func settingsOf(src string) (*layers, settings, problem.List) {
	layers := newLayers()
	if problems := layers.parse("s.yaml", []byte(src)); len(problems) > 0 {
		return layers, settings{}, problems
	}
	read, err := layers.read()
	var problems problem.List
	if err != nil && !errors.As(err, &problems) {
		problems = problem.List{{What: err.Error()}} // without words of what would be right
	}
	return layers, read, problems
}

// FuzzAnySettingsFileIsReadOrRefused: every problem has its place and words; what
// is read lies within the limits, and is the same once it is written and read again.
func FuzzAnySettingsFileIsReadOrRefused(f *testing.F) {
	all := ""
	for _, one := range catalogue() {
		all += fmt.Sprintf("%s: %q\n", one.key, one.fallback)
	}
	_, _, problems := settingsOf(all)
	require.Empty(f, problems)
	for _, src := range []string{
		all, "", "# nothing yet\n", "units: inch\ncolour: never\njson: yes\n", "units: metrik\nseed: -1\n", "Units: inch\nunits: metric\n", "discount_rate: 8 %\nclose_call: 0.05\n",
		"seed: 9007199254740991\nfutures: 100000\n", "seed: 1e3\nfutures: 0x10\n", "futures: 1_000\n", "json: true\nnumber_format: plain\n", "output_folder: /tmp/a b\n", "output_folder: [a]\n",
		"units:\n", "units: {a: b}\n", "a.b: c\n", "? [a]\n: b\n", "units: &u inch\ncolour: *u\n", "units: !!binary aW5jaA==\n", "discount_rate: .inf\n", "seed: 2027-01-01\n",
		"units: inch\n---\nunits: metric\n", "units: inch\nunits: metric\n", "[1, 2]\n", "just a text\n", "\tunits: inch\n", "units: \"inch\n", "\xff\xfe", "units: in\x00ch\n", "<<: {units: inch}\n", "discount_rate: 1e999 %\n",
	} {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		start := time.Now()
		layers, read, problems := settingsOf(src)
		require.Less(t, time.Since(start), 5*time.Second)
		for _, p := range problems {
			require.True(t, p.Place.File == "s.yaml" || strings.HasPrefix(p.What, "s.yaml: "), "%+v", p)
			require.True(t, p.Place.Line >= 0 && p.Place.Line <= strings.Count(src, "\n")+strings.Count(src, "\r")+2, "%+v", p)
			require.NotEmpty(t, p.What)
			require.NotEmpty(t, p.Right, p.What)
			require.Negative(t, strings.IndexFunc(p.Error(), unicode.IsControl), "%q", p.Error())
		}
		if len(problems) > 0 {
			return
		}
		requireWithin(t, read)
		again := ""
		for _, key := range keys() {
			again += key + ": " + strconv.Quote(layers.merged.GetString(key)) + "\n"
		}
		_, same, problems := settingsOf(again)
		require.Empty(t, problems, again)
		same.futuresSaid = read.futuresSaid // now every setting is said
		require.Equal(t, read, same, again)
	})
}

func requireWithin(t *testing.T, read settings) {
	require.Contains(t, []string{"study", "metric", "inch"}, read.units)
	require.Contains(t, []string{"auto", "always", "never"}, read.colour)
	require.True(t, read.seed <= mostSeed && read.futures >= 0 && read.futures <= mostFutures)
	for path, share := range map[string]*float64{pathDiscountRate: read.discountRate, pathCloseCall: read.closeCall} {
		if least, most := limitsOf(path); share != nil {
			require.True(t, within(*share, least, most), "%s %v", path, *share)
		}
	}
}
