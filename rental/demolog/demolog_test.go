package demolog_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/logbook"
	"shopstint/model/study"
	"shopstint/model/work"
	"shopstint/rental/demolog"
)

func load(t *testing.T) *model.Study {
	t.Helper()
	loaded, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	return loaded
}

func write(t *testing.T, entries []logbook.Entry) []byte {
	t.Helper()
	layout := logbook.Standard()
	text := bytes.NewBuffer(layout.Header())
	for i := range entries {
		line, problems := layout.Line(&entries[i])
		require.Empty(t, problems)
		text.Write(line)
	}
	return text.Bytes()
}

// TestTheDemosLogbookIsWhatItsGeneratorWrites holds the embedded file to this
// package; SHOPSTINT_UPDATE=1 writes it anew.
func TestTheDemosLogbookIsWhatItsGeneratorWrites(t *testing.T) {
	made := write(t, demolog.Entries(load(t), demolog.Seed))
	if os.Getenv("SHOPSTINT_UPDATE") == "1" {
		require.NoError(t, os.WriteFile("../../model/demo/demo-log.csv", made, 0o644))
		return
	}
	assert.Equal(t, string(made), string(demo.Log()))
}

func TestTheDemosLogbookHasNoProblemAndEveryKind(t *testing.T) {
	kinds, lines := map[logbook.Kind]int{}, 0
	problems, err := logbook.Read(demo.LogName, bytes.NewReader(demo.Log()), load(t), func(e logbook.Entry) error {
		kinds[e.Kind]++
		lines++
		return nil
	})
	require.NoError(t, err)
	require.Empty(t, problems)
	for _, kind := range logbook.Kinds {
		assert.Positive(t, kinds[kind], kind)
	}
	t.Log(lines, kinds)
	assert.True(t, lines >= 250 && lines <= 500, lines)
}

func TestAnotherSeedTellsAnotherYear(t *testing.T) {
	first, again := write(t, demolog.Entries(load(t), 1)), write(t, demolog.Entries(load(t), 1))
	assert.Equal(t, first, again)
	assert.NotEqual(t, first, write(t, demolog.Entries(load(t), 2)))
	assert.True(t, strings.HasPrefix(string(first), "date,kind,"))
}

// TestTheTruthShowsInTheLines looks at many seeds, where noise has gone.
func TestTheTruthShowsInTheLines(t *testing.T) {
	loaded := load(t)
	predicted := sandingMinutes(loaded)
	ratio, discs, ended, rivers, again := 0.0, 0.0, 0.0, 0.0, 0.0
	timed := 0.0
	for seed := range uint64(60) {
		for _, e := range demolog.Entries(loaded, seed) {
			switch {
			case e.Kind == logbook.Work && e.Subject == "sander43":
				ratio += float64(e.Minutes) / (predicted[e.Job+" "+e.Operation] * e.Jobs)
				timed++
			case e.Kind == logbook.Replace && e.Subject == "disc180":
				discs += float64(e.Area)
				ended++
			case e.Kind == logbook.Done && e.Job == "river_dining":
				rivers += e.Jobs
			case e.Kind == logbook.Rework && e.Job == "river_dining":
				again += e.Jobs
			}
		}
	}
	disc, _ := model.Find(loaded.Abrasives, "disc180")
	assert.InEpsilon(t, demolog.Sanding, ratio/timed, 0.02)
	assert.InEpsilon(t, (1-demolog.Damage/2)*demolog.Disc180*float64(disc.Life), discs/ended, 0.03)
	assert.InDelta(t, demolog.ReworkRiver, again/rivers, 0.04)
}

// sandingMinutes is what the study says, in seconds, by job and operation.
func sandingMinutes(loaded *model.Study) map[string]float64 {
	total := map[string]float64{}
	for _, row := range work.New(loaded).Rows {
		kind, operation, _, _ := row.Parts(loaded)
		if row.Used && row.Grit >= 0 && row.Site == work.AtShop {
			total[kind.Key+" "+operation.Key+"/"+operation.Grits[row.Grit].Key] += float64(row.Run)
		}
	}
	return total
}
