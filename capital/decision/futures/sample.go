package futures

import (
	"context"
	"fmt"
	"sync"
	"sync/atomic"

	"shopstint/model/chance"
)

// sample is the futures drawn so far, block by block.
type sample struct {
	*scene
	blocks []block
	desks  []*desk
}

// block is what the futures of one stream of random numbers came to.
type block struct {
	costs   []float64 // by choice and future
	years   []float32 // by followed choice, year from 0 and future: cost so far
	slices  []uint8   // by input and future: in which sixteenth of its range of chances
	lacking int       // futures in which some work fits no machine
}

// followed is how many choices, the first of the list, keep their cost year by
// year, and from how many futures: their bands need no more.
const (
	followed      = 1 << allSets // every set of so few machines that all are priced
	followedUntil = 4096
)

// slicesOf is how finely the chances of an input are kept for the value of information.
const slicesOf = 16

func newSample(s *scene) *sample { return &sample{scene: s} }

func (s *sample) futures() int { return len(s.blocks) * chance.PerBlock }

// extend draws blocks until there are as many. Who draws which does not matter.
func (s *sample) extend(ctx context.Context, blocks, workers int) error {
	first := len(s.blocks)
	s.blocks = append(s.blocks, make([]block, blocks-first)...)
	for len(s.desks) < min(workers, blocks-first) {
		s.desks = append(s.desks, s.desk())
	}
	var next atomic.Int64
	next.Store(int64(first))
	var group sync.WaitGroup
	for _, d := range s.desks {
		group.Go(func() {
			for ctx.Err() == nil {
				at := int(next.Add(1)) - 1
				if at >= blocks {
					return
				}
				d.reckon(at, &s.blocks[at])
			}
		})
	}
	group.Wait()
	if ctx.Err() != nil {
		return fmt.Errorf("%w after %d of them: %w", ErrInterrupted, first*chance.PerBlock, context.Cause(ctx))
	}
	return nil
}

// reckon draws and prices one block.
func (d *desk) reckon(at int, into *block) {
	d.shuffle(at)
	follow := 0
	if at*chance.PerBlock < followedUntil {
		follow = min(followed, len(d.costs))
	}
	into.costs = make([]float64, len(d.costs)*chance.PerBlock)
	into.years = make([]float32, follow*(d.horizon+1)*chance.PerBlock)
	into.slices = make([]uint8, d.inputs.Len()*chance.PerBlock)
	for k := range d.inputs.Len() {
		for i, u := range d.draws[k] {
			into.slices[k*chance.PerBlock+i] = uint8(u * slicesOf)
		}
	}
	years := make([]float64, d.horizon+1)
	for i := range chance.PerBlock {
		if !d.live(i) {
			into.lacking++
		}
		for c, cost := range d.costs {
			into.costs[c*chance.PerBlock+i] = cost
		}
		for c := range follow {
			d.pricer.Years(c, years)
			sum := 0.0
			for t, amount := range years {
				sum += amount
				into.years[(c*(d.horizon+1)+t)*chance.PerBlock+i] = float32(sum)
			}
		}
	}
}

// of gathers the costs of one choice, future by future.
func (s *sample) of(choice int) []float64 {
	list := make([]float64, 0, s.futures())
	for b := range s.blocks {
		list = append(list, s.blocks[b].costs[choice*chance.PerBlock:(choice+1)*chance.PerBlock]...)
	}
	return list
}

// soFar gathers what one followed choice has cost up to a year, future by future.
func (s *sample) soFar(choice, year int) []float64 {
	var list []float64
	for b := range s.blocks {
		if len(s.blocks[b].years) == 0 {
			break
		}
		at := (choice*(s.horizon+1) + year) * chance.PerBlock
		for _, cost := range s.blocks[b].years[at : at+chance.PerBlock] {
			list = append(list, float64(cost))
		}
	}
	return list
}
