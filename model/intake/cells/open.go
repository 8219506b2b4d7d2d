package cells

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
)

var (
	packed   = []byte("PK\x03\x04")
	unfilled = []byte("PK\x05\x06")                       // packed, with nothing in it
	compound = []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1") // a password, or the format before 2007
)

// IsWorkbook tells by the first bytes whether a file is meant as a workbook,
// whatever it is called.
func IsWorkbook(src []byte) bool {
	return bytes.HasPrefix(src, packed) || bytes.HasPrefix(src, unfilled) || bytes.HasPrefix(src, compound)
}

// Read reads a workbook, or tells why it cannot be read. Wanted picks, out of the
// names of all sheets, those whose cells are read; the others are not unpacked.
func Read(src []byte, wanted func(sheets []string) []string) (*Book, *Trouble) {
	if bytes.HasPrefix(src, compound) {
		return nil, &Trouble{"the workbook has a password, or is in the format of before 2007", "save it as .xlsx without a password"}
	}
	archive, err := zip.NewReader(bytes.NewReader(src), int64(len(src)))
	if err != nil {
		return nil, damaged
	}
	if n := len(archive.File); n > MostParts {
		return nil, &Trouble{fmt.Sprintf("the workbook is made of %d parts", n), fmt.Sprintf("at most %d are read", MostParts)}
	}
	o := opening{parts: map[string]*zip.File{}, left: MostUnpacked}
	for _, file := range archive.File {
		name := strings.TrimPrefix(file.Name, "/")
		if o.parts[name] != nil && !strings.HasSuffix(name, "/") {
			return nil, twice
		}
		o.parts[name] = file
	}
	book, err := o.book(wanted)
	var told *refusal
	switch {
	case errors.As(err, &told):
		return nil, &told.Trouble
	case err != nil:
		return nil, damaged
	}
	return book, nil
}

var (
	damaged    = &Trouble{"the workbook is damaged or cut off", "open it in a spreadsheet program, save it as .xlsx and try again"}
	twice      = &Trouble{"the workbook holds one of its parts twice", damaged.Right} // programs differ in which one they read
	noWorkbook = &refusal{Trouble{"the file is packed like a workbook and holds none", "name a study, or a workbook that is saved as .xlsx"}}
)

// refusal is trouble with words of its own.
type refusal struct{ Trouble }

func (r *refusal) Error() string { return r.What }

// opening is a workbook while it is read; left is how many bytes it may still unpack.
type opening struct {
	parts  map[string]*zip.File
	left   int64
	shared []string
	styles []format
}

// xmlBook is xl/workbook.xml.
type xmlBook struct {
	About struct {
		Since1904 string `xml:"date1904,attr"`
	} `xml:"workbookPr"`
	Sheets []struct {
		Name string `xml:"name,attr"`
		ID   string `xml:"http://schemas.openxmlformats.org/officeDocument/2006/relationships id,attr"`
		Near string `xml:"http://purl.oclc.org/ooxml/officeDocument/relationships id,attr"`
	} `xml:"sheets>sheet"`
}

type xmlRelations struct {
	List []struct {
		ID     string `xml:"Id,attr"`
		Target string `xml:"Target,attr"`
		Type   string `xml:"Type,attr"`
	} `xml:"Relationship"`
}

func (o *opening) book(wanted func([]string) []string) (*Book, error) {
	home, err := o.home()
	if err != nil {
		return nil, err
	}
	var list xmlBook
	if err := o.decode(home, &list); err != nil {
		return nil, err
	}
	if n := len(list.Sheets); n > MostSheets {
		return nil, &refusal{Trouble{fmt.Sprintf("the workbook has %d sheets", n), fmt.Sprintf("at most %d are read; take out what is not part of the study", MostSheets)}}
	}
	targets, err := o.relations(home)
	if err != nil {
		return nil, err
	}
	if err := o.tables(targets); err != nil {
		return nil, err
	}
	names := make([]string, len(list.Sheets))
	for i, sheet := range list.Sheets {
		names[i] = sheet.Name
	}
	book, chosen := &Book{Since1904: list.About.Since1904 == "1" || list.About.Since1904 == "true"}, wanted(names)
	for _, sheet := range list.Sheets {
		if !slices.Contains(chosen, sheet.Name) {
			book.Sheets = append(book.Sheets, Sheet{Name: sheet.Name})
			continue
		}
		read, err := o.sheet(sheet.Name, targets[sheet.ID+sheet.Near])
		if err != nil {
			return nil, err
		}
		book.Sheets = append(book.Sheets, read)
	}
	return book, nil
}

// home is the name of the part that lists the sheets.
func (o *opening) home() (string, error) {
	const usual = "xl/workbook.xml"
	if o.parts[usual] != nil {
		return usual, nil
	}
	var list xmlRelations
	if o.parts["_rels/.rels"] == nil {
		return "", noWorkbook
	}
	if err := o.decode("_rels/.rels", &list); err != nil {
		return "", err
	}
	for _, one := range list.List {
		if name := strings.TrimPrefix(one.Target, "/"); strings.HasSuffix(one.Type, "/officeDocument") && strings.HasSuffix(name, ".xml") && o.parts[name] != nil && strings.HasPrefix(name, "xl/") {
			return name, nil
		}
	}
	return "", noWorkbook
}

// relations gives the parts that a part points to, by their number; shared texts
// and styles stand under the last word of their type.
func (o *opening) relations(of string) (map[string]string, error) {
	targets := map[string]string{}
	folder, file := path.Split(of)
	name := folder + "_rels/" + file + ".rels"
	if o.parts[name] == nil {
		return targets, nil
	}
	var list xmlRelations
	if err := o.decode(name, &list); err != nil {
		return nil, err
	}
	for _, one := range list.List {
		target := strings.TrimPrefix(one.Target, "/")
		if target == one.Target {
			target = path.Join(folder, one.Target)
		}
		targets[one.ID] = target
		targets["/"+path.Base(one.Type)] = target
	}
	return targets, nil
}

// open opens a part within the bounds. A part that is not there is damage.
func (o *opening) open(name string) (io.ReadCloser, *bounded, error) {
	file := o.parts[name]
	if file == nil {
		return nil, nil, fmt.Errorf("no part %q", name)
	}
	r, err := file.Open()
	if err != nil {
		return nil, nil, err
	}
	return r, &bounded{from: r, part: MostPart, all: &o.left}, nil
}

// mostListed bounds a part that is held as a whole, in bytes: those that list
// sheets, other parts or formats.
const mostListed = 4 << 20

func (o *opening) decode(name string, into any) error {
	closer, r, err := o.open(name)
	if err != nil {
		return err
	}
	r.part = mostListed
	defer func() { _ = closer.Close() }()
	return xml.NewDecoder(r).Decode(into)
}

// bounded ends with a refusal where a part, or all of them, unpack to too much.
type bounded struct {
	from io.Reader
	part int64
	all  *int64
}

func (b *bounded) Read(p []byte) (int, error) {
	n, err := b.from.Read(p)
	b.part -= int64(n)
	*b.all -= int64(n)
	if b.part < 0 || *b.all < 0 {
		return 0, &refusal{Trouble{"the workbook unpacks to far more than a study needs", fmt.Sprintf("at most %d MiB are read", MostUnpacked>>20)}}
	}
	return n, err
}
