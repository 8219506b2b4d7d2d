package study_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"shopstint/model/quantity"
	"shopstint/model/starter"
	"shopstint/model/study"
)

// A decision workbook keeps what was assumed when it was written; after an edit of
// a class or a size something else may be assumed for the rest.
func TestWhatWouldBeAssumedOtherwiseNowIsWrittenOut(t *testing.T) {
	read, places, problems := study.Load("short.yaml", starter.Short())
	require.Empty(t, problems)
	machine := &read.Machines[0]
	require.True(t, read.Origins["machines.own_planer.motor"].Assumed)
	machine.Motor = quantity.Kilowatts(3)
	text, err := study.Write(read, places, "")
	require.NoError(t, err)
	again, _, problems := study.Load("again.yaml", text)
	require.Empty(t, problems, "%s", text)
	assert.Equal(t, quantity.Kilowatts(3), again.Machines[0].Motor)
	assert.True(t, again.Origins["machines.own_planer.setup"].Assumed, "what would be assumed like this again is left out")
}
