package roadmap

import "math"

// splitMix is the generator of random numbers of the benchmark's instances.
//
// Source: G. L. Steele, D. Lea and C. H. Flood, Fast Splittable Pseudorandom
// Number Generators, 2014.
type splitMix struct{ state uint64 }

func (s *splitMix) below(k int) int {
	s.state += 0x9E3779B97F4A7C15
	z := s.state
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return int(((z ^ z>>31) >> 11) % uint64(k))
}

// shopJob is a job type of the benchmark: minutes on the machines it needs.
type shopJob struct {
	need, minutes []int
	count         int
}

const (
	benchYears = 10
	benchJobs  = 20
)

// benchmark is the purchase roadmap that the solvers are measured with: some
// machines, twenty job types, ten years of growing work, a budget of a fifth of
// all prices each year. Without sell a machine is kept to the end and fetches
// less the older it is; with it, it fetches what the calendar says and may be
// bought again. Amounts are in cents of today.
func benchmark(n int, seed uint64, sell bool) *instance {
	r := &splitMix{seed}
	price, area, hour := make([]int, n), make([]int, n), make([]int, n)
	for m := range n {
		price[m], area[m], hour[m] = (30+r.below(771))*1000, 5+r.below(56), 1+r.below(12)
	}
	jobs := make([]shopJob, benchJobs)
	for j := range jobs {
		jobs[j] = drawJob(r, n)
	}
	growth := &splitMix{seed + 1000}
	p := &instance{years: benchYears, machines: make([]machine, n)}
	running := make([][]float64, n)
	for m := range running {
		running[m] = make([]float64, benchYears)
		for t := range running[m] {
			running[m][t] = float64(area[m]) * 1200 * index(1.02, t)
		}
	}
	for j := range jobs {
		p.tables = append(p.tables, growing(&jobs[j], 2+growth.below(14), hour, running))
	}
	total := 0
	for m := range p.machines {
		p.machines[m] = bought(price[m], running[m], sell)
		p.machines[m].again = sell
		total += price[m]
	}
	for range benchYears {
		p.budget = append(p.budget, float64(total*20/100))
	}
	return p
}

func index(growth float64, t int) float64 {
	return math.Pow(growth, float64(t)) / math.Pow(1.06, float64(t+1))
}

func drawJob(r *splitMix, n int) shopJob {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	var job shopJob
	for i := range min(n, 1+r.below(5)) {
		q := i + r.below(n-i)
		order[i], order[q] = order[q], order[i]
		job.need = append(job.need, order[i])
	}
	for range job.need {
		job.minutes = append(job.minutes, 5+r.below(116))
	}
	job.count = 1 + r.below(n*5/4)
	return job
}

// growing is the table of a job type's visits; what its minutes cost on own
// machines is added to their running costs.
func growing(job *shopJob, percent int, hour []int, running [][]float64) table {
	out := table{machines: job.need, cost: make([][]float64, benchYears)}
	x := float64(max(1, job.count*3/5))
	for t := range out.cost {
		count := float64(int(x + 0.5))
		x *= 1 + float64(percent)/100
		out.cost[t] = make([]float64, 1<<len(job.need))
		for owned := range out.cost[t] {
			minutes := 0
			for i := range job.need {
				if owned>>i&1 == 0 {
					minutes += job.minutes[i]
				}
			}
			out.cost[t][owned] = count * visit(minutes) * index(1.03, t)
		}
		for i, m := range job.need {
			running[m][t] += float64(hour[m]*job.minutes[i]) * count * index(1.02, t)
		}
	}
	return out
}

// visit is the price of one visit: half hours of 1,400, two at least, and 2,200 to get there.
func visit(minutes int) float64 {
	if minutes == 0 {
		return 0
	}
	return float64(max(2, (minutes+29)/30)*1400 + 2200)
}

func bought(price int, running []float64, sell bool) machine {
	var out machine
	for a := range benchYears {
		own, paid := make([]float64, benchYears+1), make([]float64, benchYears)
		nominal := float64(int(float64(price)*math.Pow(1.02, float64(a)) + 0.5))
		paid[a] = nominal
		for b := range own {
			own[b] = math.Inf(1)
		}
		sum := nominal / math.Pow(1.06, float64(a))
		for b := a + 1; b <= benchYears; b++ {
			sum += running[b-1]
			switch {
			case sell:
				own[b] = sum - float64(price)*0.5*math.Pow(0.9, float64(b))/math.Pow(1.06, float64(b))
			case b == benchYears:
				own[b] = sum - float64(price)*0.55*math.Pow(0.88, float64(benchYears-a))/math.Pow(1.06, benchYears)
			}
		}
		out.own, out.paid = append(out.own, own), append(out.paid, paid)
	}
	return out
}
