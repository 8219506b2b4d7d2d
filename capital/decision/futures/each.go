package futures

import (
	"context"
	"fmt"

	"shopstint/capital/decision/alternative"
	"shopstint/model"
	"shopstint/model/chance"
	"shopstint/model/work"
)

// Each shows the first futures of a seed one after another, the very ones that
// Draw prices its choices in: the study with its inputs drawn, its work, and the
// pace at which jobs come. What is shown is good until the next. Options.Most
// futures are drawn, rounded up to whole blocks; Sets, Workers and Progress do not
// matter. The error is that of Draw.
//
// Source: as Draw.
func Each(ctx context.Context, study *model.Study, options Options, show func(*model.Study, *work.Plan, alternative.Pace)) error {
	inputs, err := chance.InputsOf(study)
	if err != nil {
		return fmt.Errorf("could not draw futures: %w", err)
	}
	s := &scene{study: study, options: options, inputs: inputs, horizon: int(study.Studio.Horizon)}
	twin := inputs.Twin()
	d := &desk{scene: s, Twin: twin, plan: work.New(twin.Study), draws: chance.Block(s.figures()), pace: alternative.SteadyPace(twin.Study, s.horizon)}
	for block := range blocksFor(options.Most) {
		if ctx.Err() != nil {
			return fmt.Errorf("%w after %d of them: %w", ErrInterrupted, block*chance.PerBlock, context.Cause(ctx))
		}
		d.shuffle(block)
		for i := range chance.PerBlock {
			d.bring(i)
			show(d.Study, d.plan, d.pace)
		}
	}
	return nil
}
