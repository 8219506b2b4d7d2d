package defaults_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model"
	"shopstint/model/defaults"
)

// Each origin says who says so, and whether there is a range: word for word.
func TestWhatIsAssumedSaysWhereItComesFrom(t *testing.T) {
	s := compared(model.Way{Key: "run", Edge: "straight", Price: 500}, model.Way{Key: "sanded", Abrasives: []string{"fine"}}, model.Way{Key: "by_hand"})
	s.Edges[0].SharpeningPrice = 10
	s.Materials = []model.Material{{Key: "oak", Density: 700}}
	s.JobTypes[0].Pieces = []model.Piece{{Key: "top", Count: 1, Length: 1.8, Width: 0.4, Thickness: 0.045}} // 22.68 kg
	defaults.Fill(s, func(path string) bool {
		return givenWhereSet(compared())(path) || path == "materials.oak.density" || path == "edges.straight.sharpenings" || path == "edges.straight.sharpening_price" ||
			path == "comparisons.trim.ways.run.edge" || path == "comparisons.trim.ways.run.price" || path == "comparisons.trim.ways.sanded.abrasives" ||
			len(path) > 21 && path[:21] == "job_types.top.pieces."
	})
	for path, want := range map[string]string{
		"studio.people":                             "common practice, no source [1 2]",
		"studio.lift_limit":                         "51 lb under ideal conditions: revised NIOSH lifting equation, as cited by OSHA",
		"shops.shop.name":                           "its key in the study",
		"shops.shop.drive_time":                     "reckoned from the distance at about 50 km/h: common practice, no source [1020 2040]", // 20 km at 0.85 and 1.7 min
		"shops.shop.tolls":                          "common practice, no source",
		"shops.shop.machines.planer.edge":           "an assumed edge for this class",
		"machines.planer20.does":                    "its own class",
		"machines.planer20.excludes":                "none named",
		"machines.planer20.needs":                   "none named",
		"machines.planer20.fixtures":                "none named",
		"machines.planer20.new_price":               "its own price",
		"job_types.top.shop":                        "the first shop of the study",
		"job_types.top.material":                    "the first material of the study",
		"comparisons.trim.material":                 "the first material of the study",
		"job_types.top.loading_time":                "by mass of each piece, the heaviest 23 kg: common practice, no source [120 480]",
		"job_types.top.operations.plane.fallback":   "no own tool for the same work",
		"job_types.top.operations.plane.cut_length": "this class cuts no line",
		"comparisons.trim.ways.run.feed":            "as for a machine of class router: common practice, no source",
		"comparisons.trim.ways.run.area_time":       "it runs nothing of that kind",
		"comparisons.trim.ways.sanded.area_time":    "as for a machine of class orbital: common practice, no source",
		"comparisons.trim.ways.run.spares":          "one works while the other is away to be sharpened",
		"comparisons.trim.ways.by_hand.spares":      "bought when one is spent",
		"comparisons.trim.ways.run.yearly_upkeep":   "4 % of its price: common practice, no source",
	} {
		origin, ok := s.Origins[path]
		require.True(t, ok, path)
		assert.True(t, origin.Assumed, path)
		got := origin.Source
		if origin.HasRange {
			got += fmt.Sprintf(" [%.4g %.4g]", origin.Low, origin.High)
		}
		assert.Equal(t, want, got, path)
	}
}

func TestOnlyMachinesThatCutHaveAnAssumedEdge(t *testing.T) {
	s := filled(broad())
	for _, tool := range s.Tools {
		want := map[string]string{model.WideBelt: "", model.Orbital: "", model.Other: ""}
		edge, none := want[tool.Class]
		if !none {
			edge = "assumed_" + tool.Class + "_edge"
		}
		assert.Equal(t, edge, tool.Edge, tool.Class)
	}
}
