package grid

import (
	"archive/zip"
	"bytes"
	"cmp"
	"compress/flate"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// canonical collects the parts of a workbook and, on Close, writes them in one fixed order with fixed times.
// Parts of the same name in own replace what was collected; bodies fill the empty sheetData of a sheet.
type canonical struct {
	w         io.Writer
	collected map[string]*bytes.Buffer
	own       map[string][]byte
	bodies    map[string][]byte
}

const contentTypes = "[Content_Types].xml"

// partTime is the time of every part: the earliest that a zip file can hold.
var partTime = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

// newCanonical gives the hook for excelize's SetZipWriter.
func newCanonical(own, bodies map[string][]byte) func(io.Writer) excelize.ZipWriter {
	return func(w io.Writer) excelize.ZipWriter {
		return &canonical{w: w, collected: map[string]*bytes.Buffer{}, own: own, bodies: bodies}
	}
}

// Create opens a part.
func (c *canonical) Create(name string) (io.Writer, error) {
	buffer := &bytes.Buffer{}
	c.collected[name] = buffer
	return buffer, nil
}

// AddFS is asked for by the interface and never used for a workbook made from nothing.
func (c *canonical) AddFS(fs.FS) error { return nil }

// Close writes the file.
func (c *canonical) Close() error {
	for name := range c.own {
		if c.collected[name] == nil {
			return fmt.Errorf("workbook part %s: written without a relation to it", name)
		}
	}
	zw := zip.NewWriter(c.w)
	zw.RegisterCompressor(zip.Deflate, reusedFlate())
	for _, name := range c.order() {
		pieces, err := c.pieces(name)
		if err != nil {
			return err
		}
		if err := writePart(zw, name, pieces); err != nil {
			return fmt.Errorf("workbook part %s: %w", name, err)
		}
	}
	return zw.Close()
}

// order puts the parts that name the others first, as readers of streams expect, and the rest by name.
func (c *canonical) order() []string {
	first := []string{contentTypes, "_rels/.rels", "xl/workbook.xml"}
	rank := func(name string) int {
		if at := slices.Index(first, name); at >= 0 {
			return at
		}
		return len(first)
	}
	names := make([]string, 0, len(c.collected))
	for name := range c.collected {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a, b))
	})
	return names
}

func (c *canonical) pieces(name string) ([][]byte, error) {
	if own, ok := c.own[name]; ok {
		return [][]byte{own}, nil
	}
	content := c.collected[name].Bytes()
	if name == contentTypes {
		return [][]byte{sortDefaults(content)}, nil
	}
	body, ok := c.bodies[name]
	if !ok {
		return [][]byte{content}, nil
	}
	before, after, found := bytes.Cut(content, []byte("<sheetData></sheetData>"))
	if !found {
		return nil, fmt.Errorf("workbook part %s: no empty sheetData to fill", name)
	}
	return [][]byte{before, body, after}, nil
}

// sortDefaults sorts the Default elements, which excelize fills from a map.
func sortDefaults(content []byte) []byte {
	const start, end = "<Default ", "</Default>"
	text := string(content)
	from, to := strings.Index(text, start), strings.LastIndex(text, end)
	if from < 0 || to < from {
		return content
	}
	to += len(end)
	elements := strings.SplitAfter(text[from:to], end)
	slices.Sort(elements)
	return []byte(text[:from] + strings.Join(elements, "") + text[to:])
}

func writePart(zw *zip.Writer, name string, pieces [][]byte) error {
	w, err := zw.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: partTime})
	if err != nil {
		return err
	}
	for _, piece := range pieces {
		if _, err := w.Write(piece); err != nil {
			return err
		}
	}
	return nil
}

// reusedFlate compresses at the fastest level and keeps one compressor for all parts: they are written one after
// another, and a new one for each costs more than most parts.
func reusedFlate() zip.Compressor {
	var shared *flate.Writer
	return func(w io.Writer) (io.WriteCloser, error) {
		if shared == nil {
			var err error
			shared, err = flate.NewWriter(w, flate.BestSpeed)
			return shared, err
		}
		shared.Reset(w)
		return shared, nil
	}
}
