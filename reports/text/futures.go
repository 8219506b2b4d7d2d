package text

import "shopstint/reports"

// futures writes what sampled futures say; nothing where none were asked for.
func (p *page) futures(futures *reports.Futures) {
	if futures == nil {
		return
	}
	p.paragraph("", sentence(futures.InWords))
	for _, said := range futures.Machines {
		p.item(sentence(said))
	}
	p.item(sentence(futures.BestWords))
	for _, note := range futures.Notes {
		p.item(sentence(note))
	}
	p.blank()
}
