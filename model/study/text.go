package study

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Bounds of what is read from a stranger.
const (
	mostBytes = 1 << 20 // 1 MiB
	mostText  = 200     // runes of one text
	mostDepth = 20      // mappings and lists within each other
)

// fault is a problem of the file as text, with the place in it.
type fault struct {
	line, column int
	what, right  string
}

// plain returns the file as UTF-8 with bare line feeds, or the fault that keeps
// it from being read as text.
func plain(src []byte) (string, *fault) {
	if len(src) > mostBytes {
		return "", &fault{1, 1, fmt.Sprintf("the file has %d bytes", len(src)), fmt.Sprintf("a study has at most %d", mostBytes)}
	}
	if isWide(src) {
		return "", &fault{1, 1, "the file is written in UTF-16", "save it as UTF-8"}
	}
	text := strings.ReplaceAll(strings.TrimPrefix(string(src), "\ufeff"), "\r\n", "\n")
	if f := strangeSign(text); f != nil {
		return "", f
	}
	if strings.TrimSpace(text) == "" {
		return "", &fault{1, 1, "the file is empty", "give at least a currency, units, a shop, a machine and a job type"}
	}
	return text, nil
}

// isWide tells whether a file is UTF-16, by its mark, or without one by its first
// sign: each sign that YAML begins with has a zero byte beside it there.
func isWide(src []byte) bool {
	return bytes.HasPrefix(src, []byte("\xff\xfe")) || bytes.HasPrefix(src, []byte("\xfe\xff")) || len(src) > 1 && (src[0] == 0) != (src[1] == 0)
}

// strangeSign finds the first sign that no text has: half a letter, a control
// character, or a line break that editors and parsers count differently.
func strangeSign(text string) *fault {
	line, column := 1, 1
	for i, sign := range text {
		switch {
		case sign == '\n':
			line, column = line+1, 0
		case sign == utf8.RuneError && !strings.HasPrefix(text[i:], "\ufffd"):
			return &fault{line, column, fmt.Sprintf("the byte %#02x is not UTF-8 text", text[i]), "save the file as UTF-8"}
		case sign == '\t':
		case sign == '\r':
			return &fault{line, column, "a line break of neither Windows nor Unix stands here", "save the file with the line breaks of one of them"}
		case sign == 0 && strings.Trim(text[i:], "\x00") == "":
			return &fault{line, column, fmt.Sprintf("the file ends in %d zero bytes, as after a loss of power", len(text)-i), "take them out, and see whether the end of the study is there"}
		case unicode.IsControl(sign) || sign == '\u2028' || sign == '\u2029' || sign == '\ufeff':
			return &fault{line, column, fmt.Sprintf("the control character U+%04X stands here", sign), "a study is plain text; take it out"}
		}
		column++
	}
	return nil
}

// quoted shows a text as the user wrote it; only what would spoil a line is
// escaped, and only what is too long is cut.
func quoted(text string) string {
	const shown = 60
	if runes := []rune(text); len(runes) > shown {
		text = string(runes[:shown]) + "…"
	}
	for _, sign := range text {
		if !unicode.IsGraphic(sign) {
			return strconv.Quote(text)
		}
	}
	return `"` + text + `"`
}

// TextFault tells what keeps a value, a note or a source from being one line of
// ordinary text, and what would be right; both are empty for one that is.
func TextFault(text string) (what, right string) {
	if n := utf8.RuneCountInString(text); n > mostText {
		return fmt.Sprintf("has %d characters", n), fmt.Sprintf("give at most %d", mostText)
	}
	if strings.Contains(text, "\n") {
		return "runs over several lines", "give one line of plain text"
	}
	for _, sign := range text {
		if unicode.IsControl(sign) || unicode.Is(unicode.Bidi_Control, sign) {
			return fmt.Sprintf("has the control character U+%04X", sign), "give one line of plain text"
		}
	}
	return "", ""
}
