package reports

import (
	"strconv"
	"time"

	"shopstint/capital/decision/spend"
	"shopstint/model/quantity"
	"shopstint/model/work"
)

// DueItem is when one edge or abrasive at one machine falls due. Dates are as ISO
// 8601 writes them, "" where there is none within the study.
type DueItem struct {
	Machine, Item         string // keys
	MachineName, ItemName string
	Where                 string // shop, tool or machine
	From                  string // fresh on that day
	Sharpen, Renew        string
	Sharpenings, Renewals int // in the twelve months from then
	Run                   float64
	Unit                  string  // m or m2
	Months                [12]int // how often it falls due in each month from then
	Days                  []DueDay
	InWords               string
}

// DueDay is one day on which it is sharpened or, with Renew, put in new.
type DueDay struct {
	On    string
	Renew bool
}

// SpendEvent is a day on which something happens to a machine.
type SpendEvent struct {
	On, Machine, Fixture string // Fixture is "" for the machine itself
	What                 string
	Amount               float64
	Name, InWords        string
}

// Reserve is what to set aside each month for the next machine or fixture.
type Reserve struct {
	Machine, Fixture string // keys; Fixture is "" for a machine, and its machine's key for fixtures of its own
	Own              bool   // fixtures that this machine alone has
	Years            int
	Price, Fetched   float64
	Monthly          float64
	Name, InWords    string
}

// HourRate is what an hour of an owned machine costs, before tax.
type HourRate struct {
	Machine               string
	Hours                 float64
	PerYear               float64
	Owning, Running, Time float64 // an hour
	WithoutTime, WithTime float64 // an hour
	Name, InWords         string
}

func (w spendWording) due(due *spend.Due) DueItem {
	said := DueItem{
		From: string(due.From), Sharpen: string(due.Sharpen), Renew: string(due.Renew), Sharpenings: due.Sharpenings, Renewals: due.Renewals,
		Run: due.Year, Days: []DueDay{},
	}
	switch due.Site {
	case work.AtShop:
		machine := &w.study.Shops[due.Shop].Machines[due.Machine]
		said.Where, said.Machine, said.MachineName = "shop", machine.Key, nameOr(machine.Name, machine.Key)
	case work.AtBench:
		tool := &w.study.Tools[due.Machine]
		said.Where, said.Machine, said.MachineName = "tool", tool.Key, nameOr(tool.Name, tool.Key)
	default:
		said.Where, said.Machine, said.MachineName = "machine", w.study.Machines[due.Machine].Key, machineName(w.study, due.Machine)
	}
	run := ""
	if edge := due.EdgeOf(w.study); edge != nil {
		said.Item, said.ItemName, said.Unit = edge.Key, nameOr(edge.Name, edge.Key), "m"
		run = w.measure(quantity.DimDistance, due.Year)
	} else {
		abrasive := &w.study.Abrasives[due.Abrasive]
		said.Item, said.ItemName, said.Unit = abrasive.Key, nameOr(abrasive.Name, abrasive.Key), "m2"
		run = w.measure(quantity.DimArea, due.Year)
	}
	for m, month := range due.Months {
		said.Months[m] = month.Sharpenings + month.Renewals
	}
	for _, day := range due.Days {
		said.Days = append(said.Days, DueDay{string(day.On), day.Renew})
	}
	said.InWords = said.MachineName + ", " + said.ItemName + ": " + w.dueDates(&said, len(due.Lives) > 1) + "; runs " + run + " in twelve months"
	return said
}

// dueDates says when it falls due first, and how often.
func (w spendWording) dueDates(said *DueItem, sharpened bool) string {
	words := ""
	if sharpened {
		words = w.dueDate("sharpen", said.Sharpen, said.Sharpenings) + ", "
	}
	return words + w.dueDate("new", said.Renew, said.Renewals)
}

func (w spendWording) dueDate(what, first string, times int) string {
	switch {
	case first == "":
		return what + " not within the study"
	case times > 1:
		return what + " from " + first + ", " + w.counted(float64(times), "time") + " in twelve months"
	}
	return what + " on " + first
}

// MonthAfter names the month, and in January the year, that lies so many months
// after a date.
func MonthAfter(date string, months int) string {
	day, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return ""
	}
	first := day.AddDate(0, 0, 1-day.Day()).AddDate(0, months, 0)
	if first.Month() == time.January || months == 0 {
		return first.Format("Jan 2006")
	}
	return first.Format("Jan")
}

func (w spendWording) event(event *spend.Event) SpendEvent {
	said := SpendEvent{On: string(event.On), Machine: w.study.Machines[event.Machine].Key, What: event.What, Amount: event.Amount}
	name := machineName(w.study, event.Machine)
	if event.Fixture >= 0 {
		fixture := &w.study.Fixtures[event.Fixture]
		said.Fixture, name = fixture.Key, nameOr(fixture.Name, fixture.Key)
	}
	said.Name = name
	said.InWords = said.On + ": " + name + " " + event.What
	switch {
	case event.Amount > 0:
		said.InWords += " for " + w.amount(event.Amount)
	case event.Amount < 0:
		said.InWords += ", brings " + w.amount(-event.Amount)
	}
	return said
}

func (w spendWording) reserve(reserve *spend.Reserve) Reserve {
	said := Reserve{
		Machine: w.study.Machines[reserve.Machine].Key, Own: reserve.Own, Years: reserve.Years, Price: reserve.Price, Fetched: reserve.Fetched, Monthly: reserve.Monthly,
	}
	name := machineName(w.study, reserve.Machine)
	switch {
	case reserve.Own:
		said.Fixture = said.Machine
		name = "fixtures of the " + name
	case reserve.Fixture >= 0:
		fixture := &w.study.Fixtures[reserve.Fixture]
		said.Fixture, name = fixture.Key, nameOr(fixture.Name, fixture.Key)
	}
	said.Name = name
	said.InWords = name + ": " + w.posted(said.Monthly) + " a month over " + w.years(float64(said.Years)) + "; a next one then costs " + w.amount(said.Price)
	switch {
	case said.Fetched > 0:
		said.InWords += ", the old one brings " + w.amount(said.Fetched)
	case said.Fetched < 0:
		said.InWords += ", moving the old one out takes " + w.amount(-said.Fetched) + " more than it brings"
	}
	return said
}

func (w spendWording) rate(rate *spend.Rate) HourRate {
	said := HourRate{
		Machine: w.study.Machines[rate.Machine].Key, Name: machineName(w.study, rate.Machine), Hours: rate.Hours, PerYear: rate.PerYear,
		Owning: rate.Owning, Running: rate.Running, Time: rate.Time, WithoutTime: rate.Without(), WithTime: rate.With(),
	}
	said.InWords = said.Name + ": " + w.posted(said.WithoutTime) + " an hour without own time (owning " + w.posted(said.Owning) + ", running " + w.posted(said.Running) + "), " +
		w.posted(said.WithTime) + " with it; " + strconv.FormatFloat(said.Hours, 'f', 1, 64) + " h in its first year"
	return said
}
