package published

// Inputs are a case's inputs for working it out. They keep the first error, so
// that a formula can be fed with them in one line.
type Inputs struct {
	Case Case
	err  error
}

// Has tells whether the case has an input of that name.
func (in *Inputs) Has(name string) bool {
	_, ok := in.Case.Inputs[name]
	return ok
}

// Number returns an input that is one number. Where it is not, it returns 0 and
// keeps the error.
func (in *Inputs) Number(name string) float64 {
	value, err := in.Case.Number(name)
	in.Keep(err)
	return value
}

// List returns an input that is a list of numbers, the caller's own copy. Where
// it is not, it returns none and keeps the error.
func (in *Inputs) List(name string) []float64 {
	values, err := in.Case.List(name)
	in.Keep(err)
	return values
}

// Text returns an input that is text. Where it is not, it returns "" and keeps
// the error.
func (in *Inputs) Text(name string) string {
	value, err := in.Case.Text(name)
	in.Keep(err)
	return value
}

// Keep keeps the error unless it is nil or not the first.
func (in *Inputs) Keep(err error) {
	if in.err == nil {
		in.err = err
	}
}

// Err returns the first error kept, or nil.
func (in *Inputs) Err() error { return in.err }
