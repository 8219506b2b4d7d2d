package study

import (
	"strings"
	"testing"
)

// Files made to cost time or depth: each is refused in words, not by a fall.
func TestHostileFilesAreRefusedInsideTheirLines(t *testing.T) {
	short := string(goodStudy(t, "short.yaml"))
	rows := map[string]string{
		"lists that open without end":   strings.Repeat("[", 500_000),
		"mappings that open and close":  "a: " + strings.Repeat("[", 9000) + strings.Repeat("]", 9000),
		"hyphens without end":           strings.Repeat("- ", 9000),
		"documents without end":         strings.Repeat("---\n", 50_000),
		"comments and an open quote":    strings.Repeat("#\n", 400_000) + "a: \"",
		"texts over lines and a quote":  strings.Repeat("a: \"x\n\n\n y\"\n", 2000) + "a: \"",
		"one key again and again":       strings.Repeat("k: 1\n", 5000),
		"keys that no one knows":        short + many(5000, "", "k%d: 1"),
		"members under names of no use": strings.Replace(short, "job_types:", "edges:\n"+many(5000, "  ", "K%d: 1")+"job_types:", 1),
		"a text of a megabyte":          "title: " + strings.Repeat("x", 1_000_000),
		"aliases of aliases":            "a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: [*c, *c]\n",
	}
	for name, src := range rows {
		t.Run(name, func(t *testing.T) { assertSound(t, []byte(src)) })
	}
}
