package study

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/quantity"
)

const goodStudies = "../../testdata/studies/good"

// goodNames are the studies that must read without a problem; a new one is
// named here, so that none is left out unseen.
var goodNames = []string{"short.yaml", "workshop.yaml", "inches.yaml"}

func goodStudy(t testing.TB, name string) []byte {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(goodStudies, name))
	require.NoError(t, err)
	return src
}

func mustLoad(t *testing.T, name string) (*model.Study, Places) {
	t.Helper()
	study, places, problems := Load(name, goodStudy(t, name))
	require.Empty(t, problems.Error())
	require.NotNil(t, study)
	return study, places
}

func TestGoodStudiesReadWithoutAProblem(t *testing.T) {
	found, err := filepath.Glob(filepath.Join(goodStudies, "*.yaml"))
	require.NoError(t, err)
	require.Len(t, found, len(goodNames), "every good study is in the list")
	for _, name := range goodNames {
		mustLoad(t, name)
	}
}

func TestValuesAreReadInSI(t *testing.T) {
	study, _ := mustLoad(t, "workshop.yaml")
	planer := study.Machines[0]
	assert.Equal(t, "planer20", planer.Key)
	assert.Equal(t, []string{"planer", "router_sled"}, planer.Does)
	assert.InDelta(t, 3200, float64(planer.Price), 0)
	assert.InDelta(t, 3000*3600, float64(planer.Hours), 1e-6)
	assert.InDeltaSlice(t, []float64{0.7, 0.62, 0.55, 0.5}, floats(planer.ValueTable), 1e-12)
	assert.Equal(t, []string{"wide_belt", "orbital"}, study.Machines[1].Does)
	assert.InDelta(t, 3.2, float64(study.Studio.Vehicle.BedLength), 1e-12)
	assert.InDelta(t, 85, float64(study.Shops[0].Tariff.HourlyRate), 1e-12)
	assert.False(t, study.Shops[1].Machines[0].Inducted)
	assert.True(t, study.Materials[1].Resin)
	assert.Equal(t, "EUR", study.Money.Code())
	grits := study.JobTypes[0].Operations[1].Grits
	require.Len(t, grits, 3)
	assert.Equal(t, "120", grits[1].Key)
	assert.InDeltaSlice(t, []float64{0.0006, 0.0002, 0.0001}, []float64{float64(grits[0].Stock), float64(grits[1].Stock), float64(grits[2].Stock)}, 1e-12)
}

func floats(table []quantity.Share) []float64 {
	list := make([]float64, len(table))
	for i, share := range table {
		list[i] = float64(share)
	}
	return list
}

func TestRangesAndRemarksGoToTheOrigins(t *testing.T) {
	study, _ := mustLoad(t, "workshop.yaml")
	assert.Equal(t, model.Origin{HasRange: true, Low: 2800, High: 4500, Note: "two quotes", Source: "seller"}, study.Origins["machines.planer20.price"])
	row := study.Origins["machines.planer20.value_table.3"]
	assert.True(t, row.HasRange)
	assert.InDelta(t, 0.45, row.Low, 1e-12)
	assert.True(t, study.Origins["job_types.river_top.operations.sand.grits.120.stock"].HasRange)
	_, known := study.Origins["studio.people"]
	assert.False(t, known, "a plain value has no origin beside the study itself")
	assert.True(t, study.Origins["studio.close_call"].Assumed)
}

func TestPlacesPointAtValuesAndAtTheKeysOfMappings(t *testing.T) {
	_, places := mustLoad(t, "short.yaml")
	rows := []struct {
		path         string
		line, column int
	}{
		{"currency", 2, 11},
		{"shops", 4, 1},
		{"shops.mill", 5, 3},
		{"shops.mill.distance", 6, 15},
		{"shops.mill.tariff.hourly_rate", 7, 27},
		{"machines.planer20.price", 11, 36},
	}
	for _, row := range rows {
		place := places[row.path]
		assert.Equal(t, [2]int{row.line, row.column}, [2]int{place.Line, place.Column}, row.path)
		assert.Equal(t, "short.yaml", place.File)
	}
	assert.NotContains(t, places, "studio")
}

func TestOrderOfMembersIsKept(t *testing.T) {
	src := strings.Replace(string(goodStudy(t, "short.yaml")), "  planer20: {class: planer, price: 3200}\n",
		"  zeta: {class: planer, price: 1}\n  alpha: {class: planer, price: 2}\n  middle: {class: planer, price: 3}\n", 1)
	study, _, problems := Load("s", []byte(src))
	require.Empty(t, problems.Error())
	var keys []string
	for _, machine := range study.Machines {
		keys = append(keys, machine.Key)
	}
	assert.Equal(t, []string{"zeta", "alpha", "middle"}, keys)
}

func TestByteOrderMarkAndWindowsLineEndsAreAccepted(t *testing.T) {
	plain, plainPlaces := mustLoad(t, "short.yaml")
	src := goodStudy(t, "short.yaml")
	rows := map[string][]byte{
		"byte order mark":   append([]byte("\xef\xbb\xbf"), src...),
		"windows line ends": bytes.ReplaceAll(src, []byte("\n"), []byte("\r\n")),
		"no last line end":  bytes.TrimRight(src, "\n"),
	}
	for name, src := range rows {
		study, places, problems := Load("short.yaml", src)
		require.Empty(t, problems.Error(), name)
		assert.Equal(t, plain, study, name)
		assert.Equal(t, plainPlaces, places, name)
	}
}

// The catalogue holds studies that are text; these are not.
func TestFilesThatAreNoTextAreRefusedPlainly(t *testing.T) {
	short := goodStudy(t, "short.yaml")
	rows := []struct {
		name string
		src  []byte
		want string
	}{
		{"nothing", nil, "s:1:1: the file is empty; give at least a currency, units, a shop, a machine and a job type"},
		{"blank lines", []byte(" \n\n"), "s:1:1: the file is empty; give at least a currency, units, a shop, a machine and a job type"},
		{"UTF-16, little end first", []byte("\xff\xfec\x00u\x00"), "s:1:1: the file is written in UTF-16; save it as UTF-8"},
		{"UTF-16, big end first", []byte("\xfe\xff\x00c\x00u"), "s:1:1: the file is written in UTF-16; save it as UTF-8"},
		{"a zip archive", []byte("PK\x03\x04\x14\x00"), "s:1:3: the control character U+0003 stands here; a study is plain text; take it out"},
		{"another encoding", []byte("title: Tr\xe4ume\n"), "s:1:10: the byte 0xe4 is not UTF-8 text; save the file as UTF-8"},
		{"zero byte", []byte("currency: EUR\nunits: met\x00ric\n"), "s:2:11: the control character U+0000 stands here; a study is plain text; take it out"},
		{"UTF-16 without a mark, little end first", []byte("c\x00u\x00"), "s:1:1: the file is written in UTF-16; save it as UTF-8"},
		{"UTF-16 without a mark, big end first", []byte("\x00c\x00u"), "s:1:1: the file is written in UTF-16; save it as UTF-8"},
		{"zero bytes at the end", []byte("currency: EUR\n\x00\x00\x00"), "s:2:1: the file ends in 3 zero bytes, as after a loss of power; take them out, and see whether the end of the study is there"},
		{"lone carriage return", []byte("currency: EUR\runits: metric\n"), "s:1:14: a line break of neither Windows nor Unix stands here; save the file with the line breaks of one of them"},
		{"line separator", []byte("title: a\u2028b\n"), "s:1:9: the control character U+2028 stands here; a study is plain text; take it out"},
		{"too large", append(bytes.Repeat([]byte("#\n"), 1<<19), short...), fmt.Sprintf("s:1:1: the file has %d bytes; a study has at most 1048576", 1<<20+len(short))},
	}
	for _, row := range rows {
		study, _, problems := Load("s", row.src)
		assert.Nil(t, study, row.name)
		assert.Equal(t, row.want, problems.Error(), row.name)
	}
}

func TestLargestFileIsRead(t *testing.T) {
	short := goodStudy(t, "short.yaml")
	src := append(short, bytes.Repeat([]byte("#"), mostBytes-len(short))...)
	_, _, problems := Load("s", src)
	assert.Empty(t, problems.Error())
}

func TestEveryLimitOfTheModelCanBeRead(t *testing.T) {
	study, _ := mustLoad(t, "workshop.yaml")
	for _, system := range []quantity.System{quantity.Metric, quantity.Inch} {
		r := &reader{system: system}
		model.Walk(study, func(leaf model.Leaf) {
			dim, ok := leaf.Dimension()
			if !ok {
				return
			}
			l := r.limitsOf(dim, field{leaf.Key(), leaf.Tag, leaf.Value})
			assert.NotEmpty(t, l.mostText, leaf.Path)
			assert.NotEmpty(t, l.leastText+l.aboveText, leaf.Path)
			assert.True(t, l.leastText == "" || l.aboveText == "", leaf.Path)
			assert.True(t, l.least < l.most && l.above < l.most, leaf.Path)
		})
	}
}

func TestShownLimitsLieWithinTheLimits(t *testing.T) {
	study, _ := mustLoad(t, "inches.yaml")
	r := &reader{system: quantity.Inch}
	checked := 0
	model.Walk(study, func(leaf model.Leaf) {
		dim, ok := leaf.Dimension()
		if !ok {
			return
		}
		l := r.limitsOf(dim, field{leaf.Key(), leaf.Tag, leaf.Value})
		for _, text := range []string{l.leastText, l.mostText} {
			if text == "" || text == "0" {
				continue
			}
			shown, _, err := quantity.Parse(dim, text)
			require.NoError(t, err, leaf.Path)
			assert.True(t, l.hold(shown), "%s: %s", leaf.Path, text)
			checked++
		}
	})
	assert.Greater(t, checked, 100)
}
