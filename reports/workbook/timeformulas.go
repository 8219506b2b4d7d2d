package workbook

import (
	"fmt"
	"strconv"

	"shopstint/capital/decision"
	"shopstint/model"
	"shopstint/model/work"
)

// timeFormulas writes the formulas of one plan row.
type timeFormulas struct {
	b         *book
	at        int
	row       *work.Row
	kind      *model.JobType
	operation *model.Operation
	ability   *model.Ability

	machine, op, piece, material, density string // names' beginnings
}

func (b *book) timeFormulas(index int) timeFormulas {
	row := &b.answer.Plan.Rows[index]
	kind, operation, piece, stock := row.Parts(b.study)
	job, material := "job_types."+kind.Key, stock.Key
	return timeFormulas{
		b: b, at: b.times.row(index), row: row, kind: kind, operation: operation, ability: row.Ability(b.study),
		machine: decision.RowMachinePath(b.study, row) + ".", op: job + ".operations." + operation.Key + ".",
		piece: job + ".pieces." + piece.Key + ".", material: "materials." + material + ".", density: b.in("density_of_" + material),
	}
}

func (f timeFormulas) of(machine string) string     { return f.b.in(f.machine + machine) }
func (f timeFormulas) do(operation string) string   { return f.b.in(f.op + operation) }
func (f timeFormulas) size(piece string) string     { return f.b.in(f.piece + piece) }
func (f timeFormulas) stock(material string) string { return f.b.in(f.material + material) }

// mass is the twin of work.PieceMass.
func (f timeFormulas) mass() string {
	return fmt.Sprintf("%s*%s*%s*%s/1E9", f.size("length"), f.size("width"), f.size("thickness"), f.density)
}

func (f timeFormulas) saws() bool {
	return f.ability.Class == model.PanelSaw || f.ability.Class == model.TrackSaw
}

// depth is how deep a saw or router goes; elsewhere the piece's thickness.
func (f timeFormulas) depth() string {
	if f.saws() || f.ability.Class == model.Router {
		return fmt.Sprintf("IF(%[1]s>0,%[1]s,%[2]s)", f.do("depth"), f.size("thickness"))
	}
	return f.size("thickness")
}

// fits is the twin of work.Fit: the four refusals and resin.
func (f timeFormulas) fits() string {
	thick := f.depth()
	if f.saws() {
		thick += fmt.Sprintf("/IF(%s=\"yes\",2,1)", f.do("both_sides"))
	}
	return fmt.Sprintf("IF(AND(OR(%[1]s=0,ROUND(%[2]s-%[1]s,6)<=0),OR(%[3]s=0,ROUND(%[4]s-%[3]s,6)<=0),"+
		"ROUND(%[5]s-%[6]s,6)<=0,OR(%[7]s=0,ROUND(%[8]s-%[7]s,9)<=0),OR(%[9]s=\"no\",%[10]s=\"yes\")),1,0)",
		f.of("max_width"), f.size("width"), f.of("max_opening"), thick, f.of("least_length"), f.size("length"),
		f.of("most_mass"), cell(f.at, timeMass), f.stock("resin"), f.of("takes_resin"))
}

// reckoned writes passes, times and wear by the method of the machine's class.
func (f timeFormulas) reckoned(p page, at int, row *work.Row) {
	put := func(column int, formula string, value float64, format string) {
		p.calc(at, column, formula, value, numbers(format))
	}
	depth, passes, run, metres, area := f.method()
	put(timeDepth, depth, row.Depth.Millimetres(), asNumber)
	put(timePasses, passes, row.Passes, asCount)
	put(timeRun, run, row.Run.Minutes(), asNumber)
	put(timePerJob, f.perJob(), row.PerJob.Minutes(), asNumber)
	put(timePerVisit, f.perVisit(), row.PerVisit.Minutes(), asNumber)
	put(timeMetres, metres, row.Metres, asNumber)
	put(timeArea, area, row.Area, asNumber)
}

func (f timeFormulas) method() (depth, passes, run, metres, area string) {
	switch class := f.ability.Class; {
	case f.operation.Measured > 0:
		metres, area = f.measuredWear()
		return "0", "1", f.do("measured") + "*" + f.size("count"), metres, area
	case class == model.Planer || class == model.WideBelt:
		return f.feedThrough()
	case f.saws() || class == model.Router:
		return f.cutThrough()
	default:
		return f.overFace()
	}
}

func (f timeFormulas) handling() string {
	return fmt.Sprintf("IF(%s>%s,%s,%s)", cell(f.at, timeMass), f.b.in("studio.heavy_over"), f.of("handling_heavy"), f.of("handling_per_pass"))
}

func (f timeFormulas) turning() string {
	return fmt.Sprintf("%s*(%s-1)*%s", f.size("count"), f.do("faces"), f.of("turning"))
}

func (f timeFormulas) feed() string { return "(" + f.of("feed") + "*" + f.stock("feed_factor") + ")" }

// removed is the thickness that the step takes off each face.
func (f timeFormulas) removed() string {
	if f.row.Grit >= 0 {
		return f.do("grits." + f.operation.Grits[f.row.Grit].Key + ".stock")
	}
	return f.do("stock")
}

// feedThrough is the twin of work's feedThrough and work.PowerDepth.
func (f timeFormulas) feedThrough() (depth, passes, run, metres, area string) {
	energy := f.stock("planing_energy")
	if f.ability.Class == model.WideBelt {
		energy = f.stock("sanding_energy")
	}
	depth = fmt.Sprintf("MIN(%s*%s,IF(%[3]s=0,1E+99,60000*%[3]s*%[4]s/(%[5]s*%[6]s*%[7]s)))",
		f.of("depth_per_pass"), f.stock("depth_factor"), f.of("motor"), f.of("peak_load"), energy, f.size("width"), f.feed())
	perFace := "MAX(1," + stepsUp(f.removed(), cell(f.at, timeDepth)) + ")"
	if f.row.Grit < 0 {
		perFace = "(" + perFace + "+" + f.of("finish_passes") + ")"
	}
	passes = f.do("faces") + "*" + perFace
	n := cell(f.at, timePasses)
	run = fmt.Sprintf("%[1]s*%[2]s*%[3]s/1000/%[4]s+%[1]s*IF(%[5]s=\"yes\",1,%[2]s)*%[6]s+%[7]s",
		n, f.size("count"), f.size("length"), f.feed(), f.do("butt_feed"), f.handling(), f.turning())
	metres = fmt.Sprintf("%s*%s*%s/1000", n, f.size("count"), f.size("length"))
	area = cell(f.at, timeMetres) + "*" + f.size("width") + "/1000"
	return depth, passes, run, metres, area
}

// cutThrough is the twin of work's cutThrough.
func (f timeFormulas) cutThrough() (depth, passes, run, metres, area string) {
	sides := "1"
	if f.saws() {
		sides = fmt.Sprintf("IF(AND(%s=\"yes\",%[2]s>0,ROUND(%[3]s-%[2]s,6)>0),2,1)", f.do("both_sides"), f.of("max_opening"), f.depth())
	}
	passes = fmt.Sprintf("%[1]s*%[2]s", sides, stepsUp(f.depth()+"/"+sides, cell(f.at, timeDepth)))
	n := cell(f.at, timePasses)
	lines := f.size("count") + "*" + f.do("cuts")
	run = fmt.Sprintf("%s*(%s*%s/1000/%s+%s*%s)", lines, n, f.do("cut_length"), f.feed(), f.handling(), sides)
	metres = fmt.Sprintf("%s*%s*%s/1000", lines, n, f.do("cut_length"))
	return f.of("depth_per_pass"), passes, run, metres, "0"
}

// overFace is the twin of work's overFace.
func (f timeFormulas) overFace() (depth, passes, run, metres, area string) {
	depth = f.of("depth_per_pass") + "*" + f.stock("depth_factor")
	passes = fmt.Sprintf("IF(%[1]s>0,MAX(1,%[2]s),1)", cell(f.at, timeDepth), stepsUp(f.removed(), cell(f.at, timeDepth)))
	run = fmt.Sprintf("%s*%s+%s*%s+%s", cell(f.at, timeArea), f.of("area_time"), f.size("count"), f.handling(), f.turning())
	metres = fmt.Sprintf("IF(%[1]s>0,%[2]s/(%[1]s/1000),0)", f.of("stride"), cell(f.at, timeArea))
	area = fmt.Sprintf("%s*%s*%s*%s*%s/1E6", f.size("count"), f.do("faces"), cell(f.at, timePasses), f.size("length"), f.size("width"))
	return depth, passes, run, metres, area
}

// measuredWear is the twin of work's measuredWear.
func (f timeFormulas) measuredWear() (metres, area string) {
	count, cuts := f.size("count"), f.do("cuts")
	metres = fmt.Sprintf("IF(%[2]s>0,%[1]s*%[2]s*%[3]s,%[1]s*%[4]s*%[5]s)/1000", count, cuts, f.do("cut_length"), f.do("faces"), f.size("length"))
	return metres, fmt.Sprintf("IF(%s>0,0,%s*%s/1000)", cuts, cell(f.at, timeMetres), f.size("width"))
}

// perJob and perVisit are the twins of work's setUp.
func (f timeFormulas) perJob() string {
	switch f.operation.SetupPer {
	case model.PerVisit:
		return "0"
	case model.PerPiece:
		return f.do("setup") + "*" + f.size("count")
	}
	return f.do("setup") + "/" + f.shared()
}

func (f timeFormulas) perVisit() string {
	var terms []string
	if f.row.Grit >= 0 {
		terms = append(terms, f.of("grit_change")+"/"+f.shared())
	}
	if f.operation.SetupPer == model.PerVisit {
		terms = append(terms, f.do("setup")+"/"+f.shared())
	}
	return sum(terms)
}

// shared is the number of sizes of piece that share a set-up.
func (f timeFormulas) shared() string { return strconv.Itoa(work.Sharing(f.kind, f.operation)) }

// wear is the twin of work's wearCost.
func (f timeFormulas) wear() string {
	switch edge, abrasive := f.row.Wears(f.b.study); {
	case edge != nil:
		return cell(f.at, timeMetres) + "*" + f.b.in("metre_of_"+edge.Key) + "/" + f.stock("edge_life")
	case abrasive != nil:
		return cell(f.at, timeArea) + "*" + f.b.in("area_of_"+abrasive.Key) + "/" + f.stock("abrasive_life")
	}
	return "0"
}
