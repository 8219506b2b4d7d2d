package main

import (
	"fmt"
	"time"
)

// patience is how long a person waits before wondering.
const patience = time.Second

// progress tells a person who watches that the work goes on, should it take
// longer than patience. The caller calls stop when it is done.
func (s *session) progress(what string) (stop func()) {
	if !s.watched {
		return func() {}
	}
	done, told := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(told)
		select {
		case <-done:
		case <-time.After(patience):
			fmt.Fprintf(s.stderr, "%s …\n", what)
		}
	}()
	return func() { close(done); <-told }
}

// counting tells a person who watches how far work in rounds has come, once it
// has taken longer than patience.
func (s *session) counting(what string) func(done int) {
	began := time.Now()
	return func(done int) {
		if s.watched && time.Since(began) > patience {
			fmt.Fprintf(s.stderr, "%d %s …\n", done, what)
		}
	}
}
