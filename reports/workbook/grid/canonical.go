package grid

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"io/fs"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/klauspost/compress/flate"
	"github.com/xuri/excelize/v2"
)

// canonical collects the parts of a workbook and, on Close, writes them in one fixed order and without times.
// Parts of the same name in own replace what was collected; bodies fill the empty sheetData of a sheet.
type canonical struct {
	w         io.Writer
	collected map[string]*bytes.Buffer
	own       map[string][]byte
	bodies    map[string]*body
}

const contentTypes = "[Content_Types].xml"

// newCanonical gives the hook for excelize's SetZipWriter.
func newCanonical(own map[string][]byte, bodies map[string]*body) func(io.Writer) excelize.ZipWriter {
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
	parts, err := c.parts()
	if err != nil {
		return err
	}
	zw := zip.NewWriter(c.w)
	for i := range parts {
		if err := parts[i].writeTo(zw); err != nil {
			return fmt.Errorf("workbook part %s: %w", parts[i].name, err)
		}
	}
	return zw.Close()
}

// parts compresses every part; parts are many and of one kind, so the
// processors share them out.
func (c *canonical) parts() ([]part, error) {
	names := c.order()
	parts := make([]part, len(names))
	faults := make([]error, len(names))
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(names)) {
		wait.Go(func() {
			// One compressor a processor, used over and over: a new one for each part costs more than most parts.
			deflate, _ := flate.NewWriter(nil, flate.BestSpeed) // fails for an unknown level only
			for i := int(next.Add(1)) - 1; i < len(names); i = int(next.Add(1)) - 1 {
				pieces, err := c.pieces(names[i])
				if err == nil {
					parts[i], err = pressed(names[i], pieces, deflate)
				}
				faults[i] = err
			}
		})
	}
	wait.Wait()
	return parts, errors.Join(faults...)
}

// part is one compressed part of the file.
type part struct {
	name       string
	sum        uint32
	size       int
	compressed []byte
}

// pressed compresses the pieces of a part.
func pressed(name string, pieces [][]byte, deflate *flate.Writer) (part, error) {
	out := part{name: name}
	var buffer bytes.Buffer
	deflate.Reset(&buffer)
	for _, piece := range pieces {
		out.sum = crc32.Update(out.sum, crc32.IEEETable, piece)
		out.size += len(piece)
		if _, err := deflate.Write(piece); err != nil {
			return out, fmt.Errorf("workbook part %s: %w", name, err)
		}
	}
	if err := deflate.Close(); err != nil {
		return out, fmt.Errorf("workbook part %s: %w", name, err)
	}
	out.compressed = buffer.Bytes()
	return out, nil
}

func (p *part) writeTo(zw *zip.Writer) error {
	w, err := zw.CreateRaw(&zip.FileHeader{
		Name: p.name, Method: zip.Deflate, CRC32: p.sum,
		CompressedSize64: uint64(len(p.compressed)), UncompressedSize64: uint64(p.size),
	})
	if err != nil {
		return err
	}
	_, err = w.Write(p.compressed)
	return err
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
	return [][]byte{before, body.data, after}, nil
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
