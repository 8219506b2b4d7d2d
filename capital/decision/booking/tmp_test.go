package booking_test

import (
	"fmt"
	"testing"
	"time"

	"shopstint/capital/decision/booking"
	"shopstint/model/demo"
	"shopstint/model/quantity"
	"shopstint/model/study"
	"shopstint/rental/visitplan"
)

func TestTmp(t *testing.T) {
	s, _, problems := study.Load(demo.Name, demo.Study())
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	start := time.Now()
	p, pr, err := booking.Book(s, booking.Options{Limits: visitplan.Usual()})
	fmt.Println(pr, err, time.Since(start))
	fmt.Println(p.Cost, p.Bound, p.Alone, p.DueDates, p.DueVisits, p.Jobs, p.Shops[0].Found.Nodes, p.Shops[0].Found.Method, p.Home)
	for _, v := range p.Visits {
		fmt.Print(quantity.DateOf(v.Day), " ", quantity.DateOf(v.Last), " ")
		for _, a := range v.Aboard {
			fmt.Print(s.DatedJobs[a.Dated].Key, "*", a.Count, " ")
		}
		fmt.Println(v.Billed.Minutes(), v.Paid.Minutes(), v.By, v.Shop, v.Visit.Shop, v.Total, v.Load, v.RoundTrips, v.Crew, v.Helpers, v.OwnTime.Minutes())
	}
}
