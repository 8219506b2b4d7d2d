package reports_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/capital/decision"
	"shopstint/capital/decision/single"
	"shopstint/model"
	"shopstint/model/demo"
	"shopstint/model/starter"
	"shopstint/model/study"
	"shopstint/reports"
)

func answered(t *testing.T, src []byte, change func(*model.Study)) *decision.Answer {
	t.Helper()
	read, _, problems := study.Load("study.yaml", src)
	require.Empty(t, problems)
	if change != nil {
		change(read)
	}
	answer := decision.Decide(read)
	return &answer
}

func TestEveryFigureIsTheAnswersOwn(t *testing.T) {
	answer := answered(t, demo.Study(), nil)
	summary := reports.Summarize(answer)
	require.Len(t, summary.Machines, len(answer.Machines))
	assert.Equal(t, []any{answer.Annual, answer.Present}, []any{summary.RentedAnnual, summary.RentedPresent})
	for i, said := range summary.Machines {
		result := answer.Machines[i]
		assert.Equal(t, answer.Study.Machines[result.Machine].Key, said.Key)
		assert.Equal(t, result.Verdict, said.Verdict)
		assert.Equal(t,
			[]float64{result.Annual, result.Difference, result.Band, result.SavedAnnual, result.Saved, result.OwningAnnual, result.Owning, result.CashNeeded, result.Jobs},
			[]float64{said.AnnualDifference, said.PresentDifference, said.CloseCall, said.SavedAnnual, said.SavedPresent, said.OwningAnnual, said.OwningPresent, said.CashNeeded, said.Jobs})
		assert.Equal(t, result.Returns, said.Returns)
		assert.Len(t, said.BreakEvens, len(result.BreakEvens))
	}
}

func TestSavedLessOwningIsTheDifference(t *testing.T) {
	for _, said := range reports.Summarize(answered(t, demo.Study(), nil)).Machines {
		// The tolerance is rounding of sums in float64.
		assert.InDelta(t, said.AnnualDifference, said.SavedAnnual-said.OwningAnnual, 1e-6, said.Key)
	}
}

func TestOnlyChangesThatTurnTheAnswerAreSaidToTurnIt(t *testing.T) {
	answer := answered(t, demo.Study(), nil)
	seen := 0
	for i, said := range reports.Summarize(answer).Machines {
		swings := map[string]single.Swing{}
		for _, swing := range answer.Machines[i].Swings {
			swings[swing.Path] = swing
		}
		for _, flip := range said.Inputs {
			assert.True(t, swings[flip.What].Flips(said.PresentDifference), flip.What)
			assert.NotEqual(t, flip.Now, flip.At, flip.What)
			seen++
		}
	}
	assert.Positive(t, seen, "the demo has no input that turns an answer, so this test sees nothing")
}

func TestWhatTurnsTheAnswerIsNearestFirst(t *testing.T) {
	away := func(f reports.Flip) float64 { return math.Abs(f.At-f.Now) / math.Max(math.Abs(f.At), math.Abs(f.Now)) }
	for _, said := range reports.Summarize(answered(t, demo.Study(), nil)).Machines {
		for _, list := range [][]reports.Flip{said.Crossings, said.Inputs} {
			for i := 1; i < len(list); i++ {
				assert.LessOrEqual(t, away(list[i-1]), away(list[i]), said.Key)
			}
		}
		for _, flip := range said.Crossings {
			assert.NotEqual(t, single.InHours, flip.What, "hours say what jobs say")
		}
	}
}

func TestWordsFollowTheUnitsOfTheStudy(t *testing.T) {
	inches := reports.Summarize(answered(t, demo.Study(), nil))
	metric := reports.Summarize(answered(t, demo.Study(), func(s *model.Study) { s.Units = "metric" }))
	assert.Contains(t, words(inches), "ft/min")
	assert.NotContains(t, words(inches), "m/min")
	assert.Contains(t, words(metric), "m/min")
	assert.NotContains(t, words(metric), "ft/min")
	assert.Equal(t, inches.Machines[0].PresentDifference, metric.Machines[0].PresentDifference)
}

func TestPlainNumbersHaveNoCommaBetweenThousands(t *testing.T) {
	thousands := regexp.MustCompile(`\d,\d{3}`)
	answer := answered(t, demo.Study(), nil)
	grouped, plain := reports.SummarizeIn(answer, reports.Grouped), reports.SummarizeIn(answer, reports.Plain)
	assert.Regexp(t, thousands, words(grouped))
	assert.NotRegexp(t, thousands, words(plain))
}

// words joins every sentence of a summary.
func words(summary reports.Summary) string {
	said := []string{summary.RentingInWords, summary.AssumedInWords}
	for _, machine := range summary.Machines {
		said = append(said, machine.Reason, machine.Difference, machine.Cash, machine.Work, machine.Turns)
		for _, flip := range slices.Concat(machine.Crossings, machine.Inputs) {
			said = append(said, flip.InWords)
		}
		for _, found := range machine.BreakEvens {
			said = append(said, found.InWords)
		}
	}
	for _, assumed := range summary.Assumed {
		said = append(said, assumed.InWords)
	}
	return strings.Join(said, "\n")
}

func TestTheShortStudyNamesThreeAssumedInputsAndCountsAll(t *testing.T) {
	answer := answered(t, starter.Short(), nil)
	summary := reports.Summarize(answer)
	require.Len(t, summary.Assumed, 3)
	assert.Equal(t, answer.AssumedCount, summary.AssumedCount)
	for i, assumed := range summary.Assumed {
		assert.Equal(t, answer.Assumed[i].Path, assumed.Path)
		assert.True(t, answer.Study.Origins[assumed.Path].Assumed, assumed.Path)
		assert.NotEmpty(t, assumed.About, assumed.Path)
		assert.LessOrEqual(t, assumed.Low, assumed.Value, assumed.Path)
		assert.LessOrEqual(t, assumed.Value, assumed.High, assumed.Path)
	}
}

func TestAMachineWithoutWorkOnlyCosts(t *testing.T) {
	answer := answered(t, demo.Study(), func(s *model.Study) {
		for j := range s.JobTypes {
			s.JobTypes[j].PerYear = 0
		}
	})
	for _, said := range reports.Summarize(answer).Machines {
		assert.Equal(t, single.KeepRenting, said.Verdict, said.Key)
		assert.Contains(t, said.Reason, "takes none of the work", said.Key)
		assert.Empty(t, said.Work, said.Key)
		assert.False(t, said.PerHour.Known, said.Key)
		assert.NotContains(t, words(reports.Summary{Machines: []reports.Machine{said}}), "NaN", said.Key)
	}
}

func TestCautionsNameEveryDangerAndWhomToAsk(t *testing.T) {
	all := strings.Join(reports.Cautions(), "\n")
	for _, text := range []string{all, reports.Caution} {
		for _, word := range []string{"dust", "ickback", "oise", "ifting", "lectric", "ax ", "manual", "local codes", "licensed electrician", "tax adviser", "planning allowances, never designs"} {
			assert.Contains(t, text, word)
		}
	}
}
