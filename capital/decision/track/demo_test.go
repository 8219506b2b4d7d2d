package track_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"shopstint/capital/decision/track"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/logbook"
	"shopstint/model/study"
)

func demoStudy(t testing.TB) *model.Study {
	t.Helper()
	loaded, _, problems := study.Load(demo.Name, demo.Study())
	require.Empty(t, problems)
	return loaded
}

func tracked(t testing.TB, loaded *model.Study, log []byte) *track.Result {
	t.Helper()
	tracker := track.New(loaded)
	problems, err := logbook.Read("log.csv", bytes.NewReader(log), loaded, tracker.Add)
	require.NoError(t, err)
	require.Empty(t, problems)
	return tracker.Result()
}

func TestDump(t *testing.T) {
	r := tracked(t, demoStudy(t), demo.Log())
	t.Logf("%d lines %s %s", r.Lines, r.First, r.Last)
	for _, m := range r.Machines {
		t.Logf("%s bias %d all %+v factors %+v", m.Path, m.Bias, m.All, m.Factors)
	}
	for _, v := range r.Visits {
		t.Logf("%+v", v)
	}
	for _, w := range r.Wear {
		w.Curve = nil
		t.Logf("%+v\n  weib %v belief %+v", w, w.Weibull != nil, w.Belief)
	}
	for _, j := range r.Jobs {
		t.Logf("%+v", j)
	}
	for _, s := range r.Suggestions {
		t.Logf("%+v", s)
	}
	t.Logf("%+v %+v", r.LeftOut, r.Drift)
}
