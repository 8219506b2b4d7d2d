package subset

// Instances that other programs can make as well: integers only, drawn by
// SplitMix64 in the order written.

// dice is the generator SplitMix64.
//
// Source: G. L. Steele, D. Lea, C. H. Flood, Fast Splittable Pseudorandom Number Generators, 2014.
type dice struct{ state uint64 }

func (d *dice) next() uint64 {
	d.state += 0x9E3779B97F4A7C15
	z := d.state
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return z ^ z>>31
}

func (d *dice) below(k int) int { return int((d.next() >> 11) % uint64(k)) }

// cents a visit to a shop costs: two blocks of half an hour at least, and the way.
func visit(minutes int) int {
	if minutes == 0 {
		return 0
	}
	return max(2, (minutes+29)/30)*1400 + 2200
}

// instance draws machines to own and job types that need some of them; with
// limits on price and floor when limited. Costs are cents a year.
func instance(machines, jobs int, seed uint64, limited bool) *Problem {
	d := &dice{seed}
	p := &Problem{Items: machines}
	price, area, perMinute, own := make([]int, machines), make([]int, machines), make([]int, machines), make([]int, machines)
	for m := range machines {
		price[m] = (30 + d.below(771)) * 1000
		area[m] = 5 + d.below(56)
		perMinute[m] = 1 + d.below(12)
		own[m] = price[m]*15/100 + area[m]*1200
	}
	for range jobs {
		need, minutes, count := d.job(machines)
		p.Terms = append(p.Terms, rented(need, minutes, count))
		for i, m := range need {
			own[m] += perMinute[m] * minutes[i] * count
		}
	}
	for m := range machines {
		p.Terms = append(p.Terms, Term{[]uint64{1 << m}, []float64{0, float64(own[m])}})
	}
	if limited {
		p.Limits = []Limit{limitOn(price, 35), limitOn(area, 40)}
	}
	return p
}

// job draws the machines that a job type needs, the minutes on each, and how
// many there are a year.
func (d *dice) job(machines int) (need, minutes []int, count int) {
	size := min(machines, 1+d.below(5))
	index := make([]int, machines)
	for i := range index {
		index[i] = i
	}
	for i := range size {
		q := i + d.below(machines-i)
		index[i], index[q] = index[q], index[i]
	}
	for range size {
		minutes = append(minutes, 5+d.below(116))
	}
	return index[:size], minutes, 1 + d.below(machines*5/4)
}

// rented is what a job type costs at the shop, by the machines that are owned.
func rented(need, minutes []int, count int) Term {
	term := Term{Cost: make([]float64, 1<<len(need))}
	for _, m := range need {
		term.When = append(term.When, 1<<m)
	}
	for owned := range term.Cost {
		left := 0
		for i, t := range minutes {
			if owned>>i&1 == 0 {
				left += t
			}
		}
		term.Cost[owned] = float64(count * visit(left))
	}
	return term
}

// limitOn allows a share in percent of the sum, rounded down.
func limitOn(weights []int, percent int) Limit {
	limit, sum := Limit{}, 0
	for m, w := range weights {
		limit.When, limit.Weight = append(limit.When, 1<<m), append(limit.Weight, float64(w))
		sum += w
	}
	limit.Most = float64(sum * percent / 100)
	return limit
}
