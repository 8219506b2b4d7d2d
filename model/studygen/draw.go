package studygen

import (
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"shopstint/model"
	"shopstint/model/quantity"
)

// spread is where an input is drawn from when its assumed value has no range:
// zero as often as none says, else between low and high.
type spread struct {
	none      float64
	low, high string
}

// spreads is a table of constants, by the path without the keys of lists;
// "any." is every machine, hired, own or candidate.
var spreads = map[string]spread{
	"studio.people":          {0, "1", "3"},
	"studio.volts":           {0, "110 V", "480 V"},
	"studio.tax_rate":        {0.2, "10 %", "45 %"},
	"studio.demand_charge":   {0.5, "2 per kW per month", "25 per kW per month"},
	"studio.purchase_budget": {0.6, "2000", "60000"},
	"studio.floor_free":      {0.6, "10 m2", "150 m2"},
	"studio.discount_rate":   {0.2, "1 %", "18 %"},
	"studio.close_call":      {0.2, "1 %", "12 %"},
	"growth.rental":          {0.2, "-5 %", "9 %"},
	"growth.travel":          {0.2, "-5 %", "9 %"},
	"growth.labour":          {0.2, "-5 %", "9 %"},
	"growth.consumables":     {0.2, "-5 %", "9 %"},
	"growth.energy":          {0.2, "-5 %", "9 %"},
	"growth.floor":           {0.2, "-5 %", "9 %"},
	"growth.upkeep":          {0.2, "-5 %", "9 %"},
	"growth.machines":        {0.2, "-5 %", "9 %"},

	"shops.tolls":                       {0.5, "1", "12"},
	"shops.tariff.hourly_rate":          {0, "40 per h", "200 per h"},
	"shops.tariff.minimum_block":        {0.1, "10 min", "120 min"},
	"shops.tariff.increment":            {0, "5 min", "30 min"},
	"shops.tariff.half_day_price":       {0.5, "150", "500"},
	"shops.tariff.half_day":             {0, "180 min", "300 min"},
	"shops.tariff.day_price":            {0.5, "250", "900"},
	"shops.tariff.day":                  {0, "400 min", "600 min"},
	"shops.tariff.operator_rate":        {0.6, "20 per h", "60 per h"},
	"shops.tariff.after_hours":          {0.3, "10 %", "60 %"},
	"shops.tariff.resin_supplement":     {0.3, "10 %", "60 %"},
	"shops.tariff.handling_charge":      {0.5, "2", "30"},
	"shops.tariff.damage_allowance":     {0.5, "1", "15"},
	"shops.tariff.membership_fee":       {0.5, "30 per month", "250 per month"},
	"shops.tariff.membership_time":      {0.3, "60 min", "600 min"},
	"shops.tariff.member_discount":      {0.3, "5 %", "50 %"},
	"shops.tariff.sales_tax":            {0.4, "3 %", "21 %"},
	"shops.machines.hourly_rate":        {0, "25 per h", "180 per h"},
	"shops.machines.surcharge_per_area": {0.6, "0.2 per m2", "3 per m2"},
	"shops.machines.surcharge_per_hour": {0.6, "2 per h", "40 per h"},

	"any.max_width":    {0.4, "250 mm", "1300 mm"},
	"any.max_opening":  {0.4, "40 mm", "250 mm"},
	"any.least_length": {0.5, "100 mm", "500 mm"},
	"any.most_mass":    {0.7, "20 kg", "200 kg"},

	"machines.new_price":      {0, "400", "40000"},
	"machines.sales_tax":      {0.4, "2 %", "21 %"},
	"machines.converter":      {0.6, "500", "6000"},
	"machines.training":       {0.5, "50", "600"},
	"machines.rigging":        {0.3, "100", "3000"},
	"machines.rigging_out":    {0.3, "100", "3000"},
	"machines.wiring":         {0.3, "100", "3000"},
	"machines.compressor":     {0.5, "300", "4000"},
	"machines.years_kept":     {0, "1 year", "15 years"},
	"machines.value_c1":       {0, "0.8", "1"},
	"machines.value_c2":       {0.1, "0.05", "0.15"},
	"machines.value_c3":       {0.1, "0.0005", "0.006"},
	"machines.upkeep_rise":    {0.4, "1 %", "10 %"},
	"machines.repair_factor":  {0.1, "0.003", "0.3"},
	"machines.repair_power":   {0, "1", "2.2"},
	"machines.yearly_other":   {0.5, "50", "900"},
	"machines.demand_months":  {0.2, "1", "12"},
	"machines.hours_sold":     {0.6, "10 h", "400 h"},
	"machines.sold_rate":      {0, "20 per h", "150 per h"},
	"machines.tax.factor":     {0, "1", "2.5"},
	"machines.tax.salvage":    {0.5, "1 %", "25 %"},
	"machines.tax.quarter":    {0, "1", "4"},
	"machines.tax.first_year": {0.6, "10 %", "100 %"},
	"machines.loan.share":     {0.5, "10 %", "100 %"},
	"machines.loan.apr":       {0.2, "2 %", "15 %"},
	"machines.loan.months":    {0, "1", "120"},

	"fixtures.area":   {0.3, "0.5 m2", "6 m2"},
	"fixtures.resale": {0.3, "1 %", "40 %"},

	"edges.errand":    {0.3, "3", "30"},
	"edges.life_lost": {0.3, "1 %", "12 %"},

	"edges.size_lost":  {0.3, "0.1 mm", "0.9 mm"},
	"edges.size_spare": {0.3, "0.1 mm", "4 mm"},

	"materials.specific_gravity": {0.7, "0.35", "0.95"},

	"job_types.growth":           {0.3, "-20 %", "15 %"},
	"job_types.rework_chance":    {0.3, "2 %", "60 %"},
	"job_types.rework_visits":    {0.3, "0.2", "1.5"},
	"job_types.operations.setup": {0.5, "1 min", "30 min"},
}

// draw decides whether an input is given and, if so, its value and range.
func (d *dice) draw(leaf model.Leaf) {
	dim, measured := leaf.Dimension()
	switch framed := d.frame[leaf.Path]; {
	case !framed && (!d.chance(d.say) || keptAside(leaf.Path)):
		return
	case framed && !measured:
		return
	case !measured:
		d.drawWord(leaf)
		return
	case !framed:
		leaf.SetNumber(d.value(leaf, dim))
		d.given[leaf.Path] = true
	}
	if !leaf.Has("fixed") && leaf.Key() != "phases" && d.chance(0.12) {
		d.drawRange(leaf, dim)
	}
}

// keptAside are inputs whose zero or empty value belongs to the shape that was
// drawn before: a step without geometry, a piece that is all pieces.
func keptAside(path string) bool {
	stem := Stem(path)
	return strings.HasPrefix(stem, "job_types.operations.") && stem != "job_types.operations.setup" ||
		strings.HasPrefix(stem, "job_types.pieces.") || stem == "job_types.per_year" || stem == "title" ||
		stem == "machines.value_table" || strings.HasSuffix(stem, ".fallback") || strings.HasSuffix(stem, ".edge") || stem == "abrasives.name" || stem == "abrasives.only_compared"
}

func (d *dice) drawWord(leaf model.Leaf) {
	words := strings.Fields(leaf.Tag.Get("oneof"))
	switch {
	case leaf.Value.Kind() == reflect.Bool:
		leaf.Value.SetBool(d.chance(0.6))
	case len(words) > 0 && leaf.Value.Kind() == reflect.String:
		leaf.Value.SetString(pick(d, words...))
	case leaf.Key() == "open_days":
		leaf.Value.Set(reflect.ValueOf(append(some(d, 0.5, words[1:]...), words[0])))
	default:
		return
	}
	d.given[leaf.Path] = true
}

// value draws a quantity: from the table, or around its assumed range, or the
// assumed value itself.
func (d *dice) value(leaf model.Leaf, dim quantity.Dimension) float64 {
	origin := d.study.Origins[leaf.Path]
	from, known := spreadOf(leaf.Path)
	low, high := origin.Low/1.5, origin.High*1.5
	switch {
	case known && d.chance(from.none):
		return 0
	case known:
		low, high = read(dim, from.low), read(dim, from.high)
	case !origin.HasRange:
		low, high = leaf.Number(), leaf.Number()
	}
	x := low + (high-low)*d.rng.Float64()
	if leaf.Has("whole") {
		return math.Round(hold(leaf, dim, x))
	}
	return hold(leaf, dim, d.plain(dim, hold(leaf, dim, x)))
}

func spreadOf(path string) (spread, bool) {
	stem := Stem(path)
	if from, ok := spreads[stem]; ok {
		return from, true
	}
	for _, list := range []string{"shops.machines.", "tools.", "machines."} {
		if key, ok := strings.CutPrefix(stem, list); ok {
			from, ok := spreads["any."+key]
			return from, ok
		}
	}
	return spread{}, false
}

// lists are the keys below which the owner's own keys stand.
var lists = []string{"shops", "tools", "machines", "fixtures", "edges", "abrasives", "materials", "job_types", "pieces", "operations", "grits", "value_table", "dated_jobs", "comparisons", "ways", "correlations"}

// Stem is an input's path without the owner's keys: shops.mill.tolls is
// shops.tolls.
func Stem(path string) string {
	var kept []string
	own := false
	for _, part := range strings.Split(path, ".") {
		if !own {
			kept = append(kept, part)
		}
		own = !own && slices.Contains(lists, part)
	}
	return strings.Join(kept, ".")
}

// drawRange puts a range around a value, within the limits of the input.
func (d *dice) drawRange(leaf model.Leaf, dim quantity.Dimension) {
	x := leaf.Number()
	reach := math.Abs(x)
	end := func(share float64) float64 {
		y := hold(leaf, dim, x+share*reach)
		if leaf.Has("whole") {
			return math.Round(y)
		}
		return hold(leaf, dim, d.plain(dim, y))
	}
	origin := model.Origin{HasRange: true, Low: min(x, end(-0.3*d.rng.Float64())), High: max(x, end(0.4*d.rng.Float64()))}
	if len(leaf.Path)%2 == 0 { // no draw: it would change every study of every seed
		origin.Shape = [...]string{model.ShapeTriangular, model.ShapeUniform}[len(leaf.Path)/2%2]
	}
	if d.chance(0.5) {
		origin.Note = pick(d, awkward...)
		origin.Source = "two quotes"
	}
	d.ranges[leaf.Path] = origin
}

// hold keeps a value inside the limits of its input.
func hold(leaf model.Leaf, dim quantity.Dimension, x float64) float64 {
	if text := leaf.Tag.Get("least"); text != "" {
		x = max(x, read(dim, text))
	}
	if text := leaf.Tag.Get("most"); text != "" {
		x = min(x, read(dim, text))
	}
	return x
}

// read reads a constant of this package or a limit; a rate's limit of zero
// stands without a unit.
func read(dim quantity.Dimension, text string) float64 {
	if text == "0" {
		return 0
	}
	si, _, err := quantity.Parse(dim, text)
	if err != nil {
		return math.NaN() // no value is then within its limits, which a test sees
	}
	return si
}

// within draws a value between two texts, in plain figures.
func (d *dice) within(dim quantity.Dimension, low, high string) float64 {
	from, to := read(dim, low), read(dim, high)
	return d.plain(dim, from+(to-from)*d.rng.Float64())
}

// plain rounds a value to three figures in the study's own unit, so that it can
// be written down and read back exactly.
func (d *dice) plain(dim quantity.Dimension, si float64) float64 {
	shown := strconv.FormatFloat(quantity.Shown(dim, si, d.system), 'g', 3, 64)
	number, err := strconv.ParseFloat(shown, 64)
	if err != nil {
		return si
	}
	text := strconv.FormatFloat(number, 'f', -1, 64)
	return read(dim, strings.TrimSpace(text+" "+quantity.Display(dim, d.system).Symbol))
}
