package study_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"shopstint/model/demo"
	"shopstint/model/study"
)

func TestValuesAreFoundAsTheyAreWritten(t *testing.T) {
	got := study.Written(demo.Study(), []string{
		"shops.big_shop.tariff.hourly_rate", "edges.small_blade.life", "abrasives.disc180.life",
		"job_types.coffee.operations.sand.grits.80", "tools.router.feed", "shops.mill", "edges.small_blade",
	})
	assert.Equal(t, map[string]string{
		"shops.big_shop.tariff.hourly_rate": "75 per 30 min", "edges.small_blade.life": "150 m", "abrasives.disc180.life": "1.2 m2",
		"job_types.coffee.operations.sand.grits.80": "0.4 mm",
	}, got)
	assert.Empty(t, study.Written([]byte("\t"), []string{"a"}))
}
