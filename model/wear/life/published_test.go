package life_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/published"
	"shopstint/model/wear/life"
)

func TestLivesAgreeWithPublishedCases(t *testing.T) {
	require.NoError(t, published.Agree(os.DirFS("../../../testdata/published"), "life", workOut))
}

func TestEveryFormulaNamesItsSource(t *testing.T) {
	missing, err := published.Unsourced(os.DirFS("."))
	require.NoError(t, err)
	assert.Empty(t, missing)
}

func workOut(in *published.Inputs) map[string][]float64 {
	switch method := in.Text("method"); method {
	case "weibull":
		fit, err := life.Fit(livesOf(in))
		in.Keep(err)
		return map[string][]float64{
			"scale": {fit.Scale}, "shape": {fit.Shape}, "mean": {fit.Mean()}, "sd": {fit.SD()},
			"log_likelihood": {fit.LogLikelihood}, "aic": {fit.AIC()},
		}
	case "curve":
		return curve(in)
	case "exponential":
		// One life of the whole run for each failure: what counts is the run of all.
		failures := in.Number("failures")
		fit, err := life.FitExponential([]life.Observation{{Run: in.Number("run") / failures, Ended: true, Count: failures}})
		in.Keep(err)
		within := fit.Interval(in.Number("level"))
		return map[string][]float64{"mean": {fit.Mean}, "low": {within.Low}, "high": {within.High}}
	default:
		in.Keep(fmt.Errorf("%s: no method %q", in.Case, method))
		return nil
	}
}

func livesOf(in *published.Inputs) []life.Observation {
	var lives []life.Observation
	for _, run := range in.List("ended") {
		lives = append(lives, life.Observation{Run: run, Ended: true, Count: 1})
	}
	for _, run := range in.List("going") {
		lives = append(lives, life.Observation{Run: run, Count: 1})
	}
	return lives
}

func curve(in *published.Inputs) map[string][]float64 {
	level := 0.9
	if in.Has("level") {
		level = in.Number("level")
	}
	got := map[string][]float64{}
	for _, step := range life.Curve(livesOf(in), level) {
		for name, value := range map[string]float64{"survival": step.Survival, "at_risk": step.AtRisk, "error": step.Error, "low": step.Low, "high": step.High} {
			got[name] = append(got[name], value)
		}
	}
	return got
}
