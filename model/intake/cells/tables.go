package cells

import (
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
)

// format is what of a number format changes the meaning of a number.
type format struct{ percent, date bool }

// xmlRich is a text, in one piece or in many.
type xmlRich struct {
	Text string   `xml:"t"`
	Runs []string `xml:"r>t"`
}

func (x xmlRich) whole() string { return plain(x.Text + strings.Join(x.Runs, "")) }

// plain undoes the format's own writing of control characters and bounds the text.
func plain(text string) string {
	if most := 8 * MostText; len(text) > most {
		text = strings.ToValidUTF8(text[:most], "") // a written sign takes seven bytes
	}
	for at := 0; ; {
		found := strings.Index(text[at:], "_x")
		if found < 0 {
			break
		}
		at += found
		if len(text) < at+7 || text[at+6] != '_' {
			at += 2
			continue
		}
		code, err := strconv.ParseUint(text[at+2:at+6], 16, 16)
		if err != nil {
			at += 2
			continue
		}
		sign := string(rune(code))
		text = text[:at] + sign + text[at+7:]
		at += len(sign)
	}
	if len(text) > MostText {
		text = strings.ToValidUTF8(text[:MostText], "") + "…"
	}
	return text
}

// tables reads the texts and formats that cells point to.
func (o *opening) tables(targets map[string]string) error {
	if name := targets["/sharedStrings"]; o.parts[name] != nil {
		if err := o.sharedTexts(name); err != nil {
			return err
		}
	}
	if name := targets["/styles"]; o.parts[name] != nil {
		return o.formats(name)
	}
	return nil
}

// mostShared bounds the texts that cells point to.
const mostShared = 400000

func (o *opening) sharedTexts(name string) error {
	closer, r, err := o.open(name)
	if err != nil {
		return err
	}
	defer func() { _ = closer.Close() }()
	decoder := xml.NewDecoder(r)
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if start, ok := token.(xml.StartElement); ok && start.Name.Local == "si" {
			var text xmlRich
			if err := decoder.DecodeElement(&text, &start); err != nil {
				return err
			}
			if len(o.shared) == mostShared {
				return &refusal{Trouble{"the workbook has far more texts than a study needs", "take out what is not part of the study"}}
			}
			o.shared = append(o.shared, text.whole())
		}
	}
}

func (o *opening) formats(name string) error {
	var styles struct {
		Codes []struct {
			ID   int    `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Cells []struct {
			ID int `xml:"numFmtId,attr"`
		} `xml:"cellXfs>xf"`
	}
	if err := o.decode(name, &styles); err != nil {
		return err
	}
	codes := map[int]string{}
	for _, one := range styles.Codes {
		codes[one.ID] = one.Code
	}
	for _, one := range styles.Cells {
		o.styles = append(o.styles, formatOf(one.ID, codes[one.ID]))
	}
	return nil
}

// formatOf judges a number format: by its code, or by its number where it is
// one that the file format knows without a code.
func formatOf(id int, code string) format {
	if code == "" {
		return format{percent: id == 9 || id == 10, date: id >= 14 && id <= 22 || id >= 27 && id <= 36 || id >= 45 && id <= 47 || id >= 50 && id <= 58}
	}
	bare := bareCode(code)
	return format{percent: strings.Contains(bare, "%"), date: strings.ContainsAny(bare, "ymdhs") && !strings.Contains(bare, "general")}
}

// bareCode takes out of a code what is only shown: texts in quotes, signs behind
// a stroke, colours and conditions in brackets.
func bareCode(code string) string {
	var b strings.Builder
	for i := 0; i < len(code); i++ {
		switch code[i] {
		case '"':
			i += 1 + strings.IndexByte(code[i+1:]+`"`, '"')
		case '[':
			i += strings.IndexByte(code[i:]+"]", ']')
		case '\\', '_', '*':
			i++
		default:
			b.WriteByte(code[i])
		}
	}
	return strings.ToLower(b.String())
}
